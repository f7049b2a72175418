//! Handing pairs over to whoever collects them.

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::form::Fields;
use shared_types::paths;
use shared_types::staff::Permission;
use shared_types::ticket::{Pair, Ticket};

use crate::document::Desk;
use crate::elements::field::{TextField, Tick};
use crate::elements::pair_words::tag_words;
use crate::elements::when::WhenKept;

/// What was handed over, and the form for what waits on the shelf.
#[component]
pub fn Pickup(
    /// The ticket.
    ticket: Ticket,
    /// Who works on it.
    desk: Desk,
    /// Whose it is.
    customer: Customer,
    /// What was typed.
    typed: Fields,
) -> impl IntoView {
    let zone = desk.shop.calendar.zone.clone();
    let gone = ticket.pairs.iter().filter_map(|pair| {
        let (at, to) = pair.handed_over.clone()?;
        Some(view! {
            <li>
                {format!("{} went to ", tag_words(ticket.number, pair.tag))}
                <bdi>{to.to_string()}</bdi> ", " <WhenKept at zone=zone.clone() /> "."
            </li>
        })
    });
    let gone: Vec<_> = gone.collect();
    let gone = (!gone.is_empty()).then(|| view! { <ul>{gone}</ul> });
    let ready: Vec<Pair> = ticket.ready_pairs().cloned().collect();
    let may_hand_over = desk.staff.role.may(Permission::TakeMoney);
    let form = if ready.is_empty() {
        let nothing = (!ticket.is_closed()).then(|| {
            view! { <p>"No pair of this ticket is on the pickup shelf yet."</p> }
        });
        nothing.into_any()
    } else if may_hand_over {
        view! { <HandOver ticket=ticket.clone() ready customer typed /> }.into_any()
    } else {
        view! { <p>"The counter hands over what is on the shelf."</p> }.into_any()
    };
    view! {
        <section>
            <h2>"Pickup"</h2>
            {gone}
            {form}
        </section>
    }
}

#[component]
fn HandOver(ticket: Ticket, ready: Vec<Pair>, customer: Customer, typed: Fields) -> impl IntoView {
    let is_typed = !typed.one("to").is_empty();
    let to = if is_typed {
        typed.one("to").to_owned()
    } else {
        customer.name.to_string()
    };
    let ticks = ready.into_iter().map(|pair| {
        let id = pair.id.to_string();
        let checked = !is_typed || typed.has("pair", &id);
        let label = tag_words(ticket.number, pair.tag);
        view! { <Tick label name="pair" value=id checked hint=pair.about.title() /> }
    });
    let ticks = ticks.collect_view();
    let due = ticket.due().ok().filter(|due| due.is_positive());
    let for_ready = ticket.due_for_ready().ok().flatten();
    let due = due.map(|due| {
        let words = match for_ready {
            Some(part) if part.is_positive() => format!(
                "For what is ready {part} is due, of {due} for the whole ticket. Record the payment first."
            ),
            Some(_) => format!("What is ready is paid for; {due} is due for the rest."),
            None => format!("{due} is still due. Record the payment first."),
        };
        view! { <p>{words}</p> }
    });
    view! {
        <form class="form-rows" method="post" action=paths::hand_over(ticket.id)>
            {due}
            <fieldset class="group">
                <legend>"Pairs that leave"</legend>
                {ticks}
            </fieldset>
            <TextField
                label="Who collects them"
                name="to"
                value=to
                hint="Ask for the claim ticket or the name before you hand anything over."
                complete="off"
                required=true
            />
            <button class="act">"Hand over"</button>
        </form>
    }
}
