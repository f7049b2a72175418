//! What a ticket costs, what was paid, what is due, and the forms that take or give back money.

use leptos::prelude::*;
use shared_types::form::Fields;
use shared_types::money::{Money, MoneyProblem};
use shared_types::paths;
use shared_types::price::PriceRules;
use shared_types::staff::Permission;
use shared_types::ticket::deposit::Deposit;
use shared_types::ticket::event::PaymentMethod;
use shared_types::ticket::{Payment, Ticket};

use crate::back_office::Names;
use crate::document::Desk;
use crate::elements::field::{Choice, Kind, TextField};
use crate::elements::pair_words::tag_words;
use crate::elements::when::WhenKept;
use crate::elements::who::who;

/// The account of the ticket and, for those who may, its forms.
#[component]
pub fn MoneyBlock(
    /// The ticket.
    ticket: Ticket,
    /// Who works on it.
    desk: Desk,
    /// Who is who.
    names: Names,
    /// What was typed.
    typed: Fields,
) -> impl IntoView {
    let account = match account(&ticket) {
        Ok(account) => account,
        Err(problem) => {
            let words = format!("The money can’t be shown: {problem}.");
            return view! { <section><h2>"Money"</h2><p>{words}</p></section> }.into_any();
        }
    };
    let may_take = desk.staff.role.may(Permission::TakeMoney);
    let forms = may_take.then(|| match account.due {
        due if due.is_positive() => {
            let rules = desk.shop.prices;
            view! { <Pay ticket=ticket.clone() rules due typed /> }.into_any()
        }
        due if due.is_zero() => ().into_any(),
        due => view! { <GiveBack ticket=ticket.clone() due typed /> }.into_any(),
    });
    view! {
        <section>
            <h2>"Money"</h2>
            <AccountTable ticket desk account names />
            {forms}
        </section>
    }
    .into_any()
}

#[derive(Clone, Copy)]
struct Account {
    total: Money,
    paid: Money,
    due: Money,
    deposit: Option<Deposit>,
}

fn account(ticket: &Ticket) -> Result<Account, MoneyProblem> {
    Ok(Account {
        total: ticket.total()?,
        paid: ticket.paid()?,
        due: ticket.due()?,
        deposit: ticket.deposit()?,
    })
}

#[component]
fn AccountTable(ticket: Ticket, desk: Desk, account: Account, names: Names) -> impl IntoView {
    let Account {
        total,
        paid,
        due,
        deposit,
    } = account;
    let for_ready = ticket.due_for_ready().ok().flatten();
    let for_ready = for_ready.map(|due| {
        view! { <tr><th scope="row">"Of it for what is ready"</th><td>{due.to_string()}</td></tr> }
    });
    let pairs = ticket.pairs.iter().map(|pair| {
        let title = pair.about.title();
        let tag = tag_words(ticket.number, pair.tag);
        let amount = pair.agreed().total().to_string();
        view! {
            <tr>
                <th scope="row">{tag} " " <small dir="auto">{title}</small></th>
                <td>{amount}</td>
            </tr>
        }
    });
    let pairs = pairs.collect_view();
    let payments = ticket.payments.into_iter().map(|payment| {
        view! { <PaymentRow payment desk=desk.clone() names=names.clone() /> }
    });
    let payments = payments.collect_view();
    let last = if due.minor() < 0 {
        ("Paid too much", back(due).to_string())
    } else {
        ("Due", due.to_string())
    };
    let deposit = deposit.map(|Deposit { asked, paid, open }| {
        let paid = if open.is_positive() {
            format!("{paid} is paid so far, {open} is open; it is asked for, never a condition")
        } else {
            "Nothing of it is open".to_owned()
        };
        view! {
            <tr>
                <th scope="row">"Deposit asked at taking in " <small>{paid}</small></th>
                <td>{asked.to_string()}</td>
            </tr>
        }
    });
    view! {
        <table class="price-table">
            <caption>"As agreed, tax included"</caption>
            <thead class="visually-hidden">
                <tr>
                    <th scope="col">"What"</th>
                    <th scope="col">"Amount"</th>
                </tr>
            </thead>
            <tbody>{pairs}</tbody>
            <tfoot>
                <tr><th scope="row">"Together"</th><td>{total.to_string()}</td></tr>
                {payments}
                <tr><th scope="row">"Paid"</th><td>{paid.to_string()}</td></tr>
                <tr data-line="total"><th scope="row">{last.0}</th><td>{last.1}</td></tr>
                {for_ready}
                {deposit}
            </tfoot>
        </table>
    }
}

#[component]
fn PaymentRow(payment: Payment, desk: Desk, names: Names) -> impl IntoView {
    let what = if payment.amount.minor() < 0 {
        "Given back"
    } else {
        "Taken"
    };
    let how = payment.method.label().to_lowercase();
    let rounded = (payment.taken != payment.amount)
        .then(|| format!("; {} changed hands after rounding", payment.taken));
    let by = format!(
        ", {how}, by {}{}",
        who(payment.actor, &names),
        rounded.unwrap_or_default()
    );
    view! {
        <tr>
            <th scope="row">
                {what} " "
                <small><WhenKept at=payment.at zone=desk.shop.calendar.zone />{by}</small>
            </th>
            <td>{payment.amount.to_string()}</td>
        </tr>
    }
}

/// The form that records a payment, with the deposit in it as long as that is open.
#[component]
pub(in crate::back_office) fn Pay(
    /// The ticket.
    ticket: Ticket,
    /// How cash is rounded.
    rules: PriceRules,
    /// What is due.
    due: Money,
    /// What was typed.
    typed: Fields,
) -> impl IntoView {
    let deposit = ticket.deposit().ok().flatten();
    let open = deposit.filter(|deposit| deposit.open.is_positive() && deposit.open != due);
    let hint = match open {
        Some(Deposit { open, .. }) => format!(
            "{open} is open of the deposit; {due} is due in all. Any part of it can be paid."
        ),
        None => "What is due; less is a part payment.".to_owned(),
    };
    let amount = match typed.one("amount") {
        "" => open.map_or(due, |deposit| deposit.open).figure(),
        amount => amount.to_owned(),
    };
    let cash = rules.cash.and_then(|cash| cash.of(due).ok());
    let cash = cash.filter(|cash| *cash != due).map(|cash| {
        view! { <p>{format!("Paid in cash in full, {cash} changes hands; the price stays as agreed.")}</p> }
    });
    view! {
        <form class="form-rows" method="post" action=paths::pay(ticket.id)>
            <input type="hidden" name="length" value=ticket.length.to_string() />
            <TextField
                label="Amount"
                name="amount"
                value=amount
                kind=Kind::Amount
                hint=hint
                required=true
            />
            <Methods label="How it is paid" selected=typed.one("method").to_owned() />
            {cash}
            <button class="act">"Record the payment"</button>
        </form>
    }
}

#[component]
fn GiveBack(ticket: Ticket, due: Money, typed: Fields) -> impl IntoView {
    let amount = back(due);
    view! {
        <form class="form-rows" method="post" action=paths::give_back(ticket.id)>
            <input type="hidden" name="length" value=ticket.length.to_string() />
            <p>{format!("{amount} more was paid than is agreed now.")}</p>
            <Methods label="How it is given back" selected=typed.one("method").to_owned() />
            <button class="act">{format!("Give back {amount}")}</button>
        </form>
    }
}

#[component]
fn Methods(label: &'static str, selected: String) -> impl IntoView {
    let options = PaymentMethod::ALL.into_iter();
    let options = options.map(|method| (method.code().to_owned(), method.label().to_owned()));
    let options: Vec<_> = options.collect();
    view! { <Choice label name="method" options selected required=true /> }
}

/// The amount to give back for what is due below nothing.
fn back(due: Money) -> Money {
    let nothing = Money::zero(due.currency());
    nothing.minus(due).unwrap_or(nothing)
}
