//! How the customer of a ticket is reached, and the link that opens it for them.

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::form::Fields;
use shared_types::id::TicketId;
use shared_types::paths;
use shared_types::staff::Permission;
use shared_types::ticket::Ticket;

use crate::document::{Desk, ring};
use crate::elements::field::{Kind, TextField};
use crate::elements::when::When;

/// Name, address and number, with the form that changes them.
#[component]
pub fn Contact(
    /// Which ticket.
    ticket: TicketId,
    /// Whose it is.
    customer: Customer,
    /// Who works on it.
    desk: Desk,
    /// What was typed.
    typed: Fields,
) -> impl IntoView {
    let phone = customer.phone.clone().map_or_else(
        || "Not known".into_any(),
        |phone| view! { <a href=ring(&phone)>{phone.to_string()}</a> }.into_any(),
    );
    let email = customer.email.as_ref().map_or_else(
        || "Not known, so we ring instead of writing".to_owned(),
        ToString::to_string,
    );
    let name = customer.name.to_string();
    let form = desk.staff.role.may(Permission::TakeIn).then(|| {
        view! { <ContactForm ticket customer typed /> }
    });
    view! {
        <section>
            <h2>"Customer"</h2>
            <dl class="facts">
                <div><dt>"Name"</dt><dd dir="auto">{name}</dd></div>
                <div><dt>"Telephone"</dt><dd>{phone}</dd></div>
                <div><dt>"Mail"</dt><dd>{email}</dd></div>
            </dl>
            {form}
        </section>
    }
}

#[component]
fn ContactForm(ticket: TicketId, customer: Customer, typed: Fields) -> impl IntoView {
    let is_typed = typed.all("email").next().is_some();
    let stands = |name: &str, known: Option<String>| {
        if is_typed {
            typed.one(name).to_owned()
        } else {
            known.unwrap_or_default()
        }
    };
    let name = stands("name", Some(customer.name.to_string()));
    let email = stands("email", customer.email.map(|email| email.to_string()));
    let phone = stands("phone", customer.phone.map(|phone| phone.to_string()));
    view! {
        <details class="fold" open=is_typed>
            <summary>"Change how they are reached"</summary>
            <form class="form-rows" method="post" action=paths::contact(ticket)>
                <TextField label="Name" name="name" value=name complete="off" required=true />
                <TextField
                    label="Mail address"
                    name="email"
                    value=email
                    kind=Kind::Email
                    complete="off"
                    hint="Letters go there from now on. Empty: we ring."
                />
                <TextField
                    label="Telephone number"
                    name="phone"
                    value=phone
                    kind=Kind::Telephone
                    complete="off"
                />
                <button class="act" data-act="plain">"Save"</button>
            </form>
        </details>
    }
}

/// The link that opens the ticket without a password: to copy, to renew, to stop.
#[component]
pub fn CustomerLink(
    /// The ticket.
    ticket: Ticket,
    /// The link; nothing if it was stopped.
    link: Option<String>,
    /// Who works on it.
    desk: Desk,
) -> impl IntoView {
    let zone = desk.shop.calendar.zone;
    let given = ticket.link().map(|link| link.issued_at);
    let given = given.map(|at| view! { <p>"Given " <When at zone=zone.clone() /> "."</p> });
    let id = ticket.id;
    let renewals = ticket.links.len().to_string();
    let body = if let Some(link) = link {
        view! {
            <div class="field">
                <label for="link">"The link"</label>
                <p class="field-hint" id="link-hint">
                    "Whoever has it can open this ticket. Give it to nobody but the customer."
                </p>
                <input id="link" type="url" value=link readonly=true aria-describedby="link-hint" />
            </div>
            {given}
            <details class="fold">
                <summary>"Renew or stop the link"</summary>
                <div class="form-rows">
                    <form class="form-rows" method="post" action=paths::renew_link(id)>
                        <p>
                            "A new link is made and mailed; the one before stops opening anything,
                            on paper too."
                        </p>
                        <input type="hidden" name="renewals" value=renewals.clone() />
                        <button class="act" data-act="plain">"Renew the link"</button>
                    </form>
                    <form class="form-rows" method="post" action=paths::revoke_link(id)>
                        <p>"The link stops opening anything, and no new one is made."</p>
                        <button class="act" data-act="plain">"Stop the link"</button>
                    </form>
                </div>
            </details>
        }
        .into_any()
    } else {
        view! {
            <p>"The link was stopped: it opens nothing."</p>
            <form method="post" action=paths::renew_link(id)>
                <input type="hidden" name="renewals" value=renewals.clone() />
                <button class="act" data-act="plain">"Give them a new link"</button>
            </form>
        }
        .into_any()
    };
    view! {
        <section>
            <h2>"The customer’s link"</h2>
            {body}
        </section>
    }
}
