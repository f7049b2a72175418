//! The one-time set-up: the first owner.

use leptos::prelude::*;
use shared_types::form::people::PersonField;
use shared_types::form::{Fields, FormErrors};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct SetUp {
    /// The one-time code in the link.
    pub code: String,
    /// What was typed; the shop's name is the field `shop`.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<PersonField>,
}

/// The one-time set-up: the first owner.
#[component]
pub fn SetUpPage(props: SetUp) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}
