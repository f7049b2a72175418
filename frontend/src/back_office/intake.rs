//! Taking pairs in; it can be typed through without a mouse.

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::form::intake::IntakeField;
use shared_types::form::{Fields, FormErrors};
use shared_types::pricebook::Service;
use shared_types::scope::{Scope, ScopeProblem};

use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Intake {
    /// Who works on it.
    pub desk: Desk,
    /// The price book.
    pub services: Vec<Service>,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<IntakeField>,
    /// Customers that the look-up found.
    pub matches: Vec<Customer>,
    /// The known customer that was chosen.
    pub known: Option<Customer>,
    /// Price and day of each pair as worked out on the server; nothing for a pair without work.
    pub worked_out: Vec<Option<Result<Scope, ScopeProblem>>>,
}

/// Taking pairs in; it can be typed through without a mouse.
#[component]
pub fn IntakePage(props: Intake) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}
