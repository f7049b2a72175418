//! Who works here.

use leptos::prelude::*;
use shared_types::form::people::PersonField;
use shared_types::form::{Fields, FormErrors};
use shared_types::moment::Moment;
use shared_types::staff::Staff;

use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct People {
    /// Who works on it.
    pub desk: Desk,
    /// Everyone, with the time since which they may no longer sign in.
    pub people: Vec<(Staff, Option<Moment>)>,
    /// What was typed into the form for someone new.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<PersonField>,
}

/// Who works here.
#[component]
pub fn PeoplePage(props: People) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}
