//! The shop's settings.

use leptos::prelude::*;
use shared_types::form::settings::ShopField;
use shared_types::form::{Fields, FormErrors};

use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Settings {
    /// Who works on it.
    pub desk: Desk,
    /// What was typed, or the settings as they stand.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<ShopField>,
}

/// The shop's settings.
#[component]
pub fn SettingsPage(props: Settings) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}
