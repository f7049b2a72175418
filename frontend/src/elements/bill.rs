//! What a ticket costs, what was paid, and what is due.

use leptos::prelude::*;
use shared_types::moment::Zone;
use shared_types::money::Money;
use shared_types::tax::CashRounding;
use shared_types::ticket::deposit::Deposit;
use shared_types::ticket::event::PaymentMethod;
use shared_types::ticket::{Payment, Ticket};

use crate::elements::pair_words::begun;
use crate::elements::when::WhenKept;

/// The sum of a ticket's pairs, each payment with its cash rounding, and what is left.
#[component]
pub fn Bill(
    /// The ticket.
    ticket: Ticket,
    /// The shop's zone.
    zone: Zone,
    /// How cash is rounded, where it is.
    cash: Option<CashRounding>,
) -> impl IntoView {
    let (Ok(total), Ok(due)) = (ticket.total(), ticket.due()) else {
        return view! { <p>"The amounts of this ticket can't be added up. Please ask us."</p> }
            .into_any();
    };
    let pairs: Vec<_> = ticket
        .pairs
        .iter()
        .map(|pair| {
            let title = begun(&pair.about.title());
            let amount = pair.agreed().total().to_string();
            view! { <tr><th scope="row" dir="auto">{title}</th><td>{amount}</td></tr> }
        })
        .collect();
    let sum = (ticket.pairs.len() > 1).then(|| {
        view! { <tr><th scope="row">"Agreed together"</th><td>{total.to_string()}</td></tr> }
    });
    let payments: Vec<_> = ticket
        .payments
        .iter()
        .map(|payment| row_of(payment, &zone))
        .collect();
    let (words, left) = left(due);
    view! {
        <table class="price-table">
            <caption>{format!("Ticket {}", ticket.number)}</caption>
            <thead class="visually-hidden">
                <tr>
                    <th scope="col">"What"</th>
                    <th scope="col">"Amount"</th>
                </tr>
            </thead>
            <tbody>{pairs}{sum}{payments}</tbody>
            <tfoot>
                <tr data-line="total"><th scope="row">{words}</th><td>{left.to_string()}</td></tr>
            </tfoot>
        </table>
        {ready_words(&ticket)}
        {cash_words(cash, due)}
        {deposit_words(&ticket)}
    }
    .into_any()
}

/// What of it is due to collect the pairs that are ready.
fn ready_words(ticket: &Ticket) -> Option<impl IntoView + use<>> {
    let due = ticket.due_for_ready().ok().flatten()?;
    let words = if due.is_zero() {
        "What is ready is paid for; the rest is due when it is ready too.".to_owned()
    } else {
        format!(
            "To collect what is ready now, {due} of it is due; the rest when the rest is ready."
        )
    };
    Some(view! { <p>{words}</p> })
}

/// What is paid in cash, where rounding makes it another sum.
fn cash_words(cash: Option<CashRounding>, due: Money) -> Option<impl IntoView + use<>> {
    let rounded = cash?.of(due).ok()?;
    let words = format!(
        "Paid in cash it is {rounded}, after rounding for coins; the price stays as agreed."
    );
    (due.is_positive() && rounded != due).then(|| view! { <p>{words}</p> })
}

fn deposit_words(ticket: &Ticket) -> Option<impl IntoView + use<>> {
    let Deposit { asked, open, .. } = ticket.deposit().ok().flatten()?;
    let words = format!(
        "We asked for a deposit of {asked} at taking in; {open} of it is open. It goes towards the \
         price, and we work without it too."
    );
    open.is_positive().then(|| view! { <p>{words}</p> })
}

fn row_of(payment: &Payment, zone: &Zone) -> impl IntoView + use<> {
    let returned = payment.amount.minor() < 0;
    let words = match (returned, payment.method) {
        (false, PaymentMethod::Cash) => "Paid in cash",
        (false, PaymentMethod::Card) => "Paid by card",
        (false, PaymentMethod::Other) => "Paid otherwise",
        (true, PaymentMethod::Cash) => "Given back in cash",
        (true, PaymentMethod::Card) => "Given back to the card",
        (true, PaymentMethod::Other) => "Given back otherwise",
    };
    let rounded = (payment.amount != payment.taken).then(|| {
        let words = format!(
            " {} changed hands, after rounding for cash.",
            absolute(payment.taken)
        );
        view! { <small>{words}</small> }
    });
    let amount = absolute(payment.amount);
    let amount = if returned {
        format!("+{amount}")
    } else {
        format!("\u{2212}{amount}")
    };
    view! {
        <tr>
            <th scope="row">{words} ", " <WhenKept at=payment.at zone=zone.clone() />{rounded}</th>
            <td>{amount}</td>
        </tr>
    }
}

fn left(due: Money) -> (&'static str, Money) {
    match due.minor() {
        0 => ("Due", due),
        more if more > 0 => ("Due at pickup", due),
        _ => ("We owe you", absolute(due)),
    }
}

fn absolute(amount: Money) -> Money {
    if amount.minor() < 0 {
        Money::zero(amount.currency())
            .minus(amount)
            .unwrap_or(amount)
    } else {
        amount
    }
}
