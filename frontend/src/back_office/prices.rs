//! The price book, and one service of it.

use leptos::prelude::*;
use shared_types::form::settings::ServiceField;
use shared_types::form::{Fields, FormErrors};
use shared_types::id::ServiceId;
use shared_types::pricebook::Service;

use crate::document::Desk;

/// Props of the price book.
#[derive(Clone, Debug)]
pub struct Prices {
    /// Who works on it.
    pub desk: Desk,
    /// By stage, then title.
    pub services: Vec<Service>,
    /// What was typed into the form for a new service.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<ServiceField>,
}

/// The price book as a printed table, with a form for a new service.
#[component]
pub fn PricesPage(props: Prices) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

/// Props of one service.
#[derive(Clone, Debug)]
pub struct ServiceView {
    /// Who works on it.
    pub desk: Desk,
    /// Which service.
    pub id: ServiceId,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<ServiceField>,
}

/// One service to change; the button `act=retire` takes it out of the book.
#[component]
pub fn ServicePage(props: ServiceView) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}
