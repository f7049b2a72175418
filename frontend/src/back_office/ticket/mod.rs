//! A ticket for the counter: customer, pairs, money, hand-over, letters.

pub mod customer;
pub mod money;
pub mod pickup;

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::letter::LetterBrief;
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::staff::Permission;
use shared_types::ticket::{Pair, Rating, Ticket};

use self::customer::{Contact, CustomerLink};
use self::money::MoneyBlock;
use self::pickup::Pickup;
use super::Names;
use super::letters::LetterTable;
use crate::document::{BackRoom, Desk, Room};
use crate::elements::pair_words::{begun, progress_of_pair, tag_words};
use crate::elements::welt::welt_svg;
use crate::elements::when::{Day, When};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct ShopTicket {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Whose it is.
    pub customer: Customer,
    /// The customer's link; nothing if it was stopped.
    pub link: Option<String>,
    /// Letters on this ticket, newest first.
    pub letters: Vec<LetterBrief>,
    /// Who is who.
    pub names: Names,
    /// What was typed into the contact, payment or hand-over form, if it must be shown again.
    pub typed: shared_types::form::Fields,
}

/// A ticket for the counter: customer, pairs, money, hand-over, letters.
#[component]
pub fn ShopTicketPage(props: ShopTicket) -> impl IntoView {
    let ShopTicket {
        desk,
        ticket,
        customer,
        link,
        letters,
        names,
        typed,
    } = props;
    let may = |permission| desk.staff.role.may(permission);
    let zone = desk.shop.calendar.zone.clone();
    let title = format!("Ticket {}", ticket.number);
    let pairs = ticket.pairs.iter().map(|pair| {
        view! { <PairRow ticket=ticket.clone() pair=pair.clone() now=desk.now /> }
    });
    let pairs = pairs.collect_view().into_any();
    let money = view! {
        <MoneyBlock
            ticket=ticket.clone()
            desk=desk.clone()
            names
            typed=typed.clone()
        />
    };
    let pickup = view! {
        <Pickup
            ticket=ticket.clone()
            desk=desk.clone()
            customer=customer.clone()
            typed=typed.clone()
        />
    };
    let contact = view! {
        <Contact ticket=ticket.id customer=customer.clone() desk=desk.clone() typed />
    };
    let link = may(Permission::TakeIn).then(|| {
        view! { <CustomerLink ticket=ticket.clone() link desk=desk.clone() /> }.into_any()
    });
    let letters = may(Permission::SeeLetters).then(|| {
        view! { <Letters letters customer=customer.clone() desk=desk.clone() /> }.into_any()
    });
    let sheets = ticket.pairs.iter().map(|pair| {
        let words = format!("Print the bench sheet of {}", pair.tag);
        view! { <li><a href=paths::bench_paper(pair.id)>{words}</a></li> }
    });
    let sheets = sheets.collect_view();
    let (money, pickup, contact) = (money.into_any(), pickup.into_any(), contact.into_any());
    view! {
        <BackRoom desk title=title.clone() here=Room::Elsewhere>
            <div class="page-head">
                <h1>{title}</h1>
                <p>
                    <bdi>{customer.name.to_string()}</bdi> ", taken in "
                    <When at=ticket.taken_in_at zone />
                </p>
            </div>
            <ul class="paper-ways">
                <li>
                    <a href=paths::claim(ticket.id)>"Print the claim ticket and tags"</a>
                </li>
                {sheets}
            </ul>
            <div class="pair-of-columns">
                <div class="counter-side">
                    <section>
                        <h2>"Pairs"</h2>
                        <ol class="queue">{pairs}</ol>
                    </section>
                    {money}
                    {pickup}
                </div>
                <div class="counter-side">
                    {contact}
                    {link}
                </div>
            </div>
            {letters}
        </BackRoom>
    }
}

#[component]
fn PairRow(ticket: Ticket, pair: Pair, now: Moment) -> impl IntoView {
    let stage = pair.stage.label();
    let drawing = welt_svg(&progress_of_pair(&pair, now), stage);
    let word = pair.fresh_word().is_some().then(|| {
        view! { <span class="queue-word">"The customer has answered"</span> }
    });
    let waits = pair.open_offer(now).is_some().then(|| {
        view! { <span class="queue-hold">"Waits for the customer’s word"</span> }
    });
    let hold = pair.hold.map(|hold| {
        view! { <span class="queue-hold">{hold.label()}</span> }
    });
    let caution = (pair.about.rating == Rating::Protective).then(|| {
        view! { <span class="queue-caution">"Safety mark: repair can end it"</span> }
    });
    view! {
        <li>
            <a class="queue-pair" href=paths::pair(pair.id)>
                <span class="welt-frame" data-size="queue" inner_html=drawing></span>
                <span class="queue-words">
                    <b dir="auto">{begun(&pair.about.title())}</b>
                    <span>{stage} ", promised for " <Day day=pair.promise() /></span>
                    {word}
                    {waits}
                    {hold}
                    {caution}
                    <small>
                        {format!("{}, {}", tag_words(ticket.number, pair.tag), pair.agreed().total())}
                    </small>
                </span>
            </a>
        </li>
    }
}

#[component]
fn Letters(letters: Vec<LetterBrief>, customer: Customer, desk: Desk) -> impl IntoView {
    let zone = desk.shop.calendar.zone;
    let list = match (letters.is_empty(), customer.email) {
        (false, _) => view! { <LetterTable letters zone /> }.into_any(),
        (true, Some(_)) => view! { <p>"No letter was written on this ticket yet."</p> }.into_any(),
        (true, None) => {
            view! { <p>"No mail address is known, so nothing is written: ring them."</p> }
                .into_any()
        }
    };
    view! {
        <section>
            <h2>"Letters"</h2>
            {list}
        </section>
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::contact::{CustomerName, Email, Phone};
    use shared_types::form::Fields;
    use shared_types::id::CustomerId;
    use shared_types::scope::offer::Word;
    use shared_types::scope::sheet::ChoiceKey;
    use shared_types::staff::Role;
    use shared_types::stage::Stage;
    use shared_types::ticket::event::{Actor, PaymentMethod};

    use super::super::said::said;
    use super::*;
    use crate::fixture::{
        BOOTS, Record, STAFF, WILD, collected, december, desk, dollars, line, shop, split_welt,
        two_pairs,
    };

    fn props(record: &Record, role: Role) -> ShopTicket {
        ShopTicket {
            desk: desk(role),
            ticket: record.ticket(),
            customer: Customer {
                id: CustomerId::from_bytes([5; 16]),
                name: CustomerName::parse("Nadia Okafor").expect("a name"),
                email: Email::parse_optional("nadia@example.com").expect("an address"),
                phone: Phone::parse_optional("555-0134").expect("a number"),
            },
            link: Some("https://shop.example/t/abc".to_owned()),
            letters: Vec::new(),
            names: [(STAFF, line("Ines"))].into(),
            typed: Fields::default(),
        }
    }

    fn rendered(props: ShopTicket) -> String {
        crate::render::page(|| view! { <ShopTicketPage props /> })
    }

    fn ready() -> Record {
        let mut record = split_welt();
        record.word(BOOTS, december(8, 14, 50), Word::Accept(ChoiceKey::A));
        record.moved(BOOTS, december(8, 15, 0), Stage::Ready);
        record
    }

    #[test]
    fn the_payment_form_starts_from_what_is_due_and_names_the_version_of_the_page() {
        let record = ready();
        let due = record.ticket().due().expect("a sum").figure();
        let length = record.ticket().length;
        let html = rendered(props(&record, Role::Counter));
        assert!(
            html.contains(&format!("name=\"amount\" value=\"{due}\"")),
            "{html}"
        );
        assert!(html.contains(&format!("name=\"length\" value=\"{length}\"")));
        assert!(html.contains("inputmode=\"decimal\""));
        assert!(!html.contains("Give back $"));
    }

    #[test]
    fn a_pair_on_the_shelf_is_handed_over_and_the_debt_is_said_first() {
        let html = said(&rendered(props(&ready(), Role::Counter)));
        assert!(
            html.contains(&format!("name=\"pair\" value=\"{BOOTS}\" checked")),
            "{html}"
        );
        assert!(html.contains("is still due. Record the payment first."));
        assert!(html.contains("name=\"to\" value=\"Nadia Okafor\""));
    }

    #[test]
    fn what_was_paid_too_much_can_be_given_back() {
        let mut record = split_welt();
        let paid = record
            .ticket()
            .pay(
                record.ticket().due().expect("a sum"),
                PaymentMethod::Card,
                &shop().prices,
            )
            .expect("a payment");
        record.add(december(8, 14, 45), Actor::Staff(STAFF), &paid);
        record.word(BOOTS, december(8, 14, 50), Word::Accept(ChoiceKey::C));
        let html = rendered(props(&record, Role::Counter));
        let ticket = record.ticket();
        assert!(ticket.due().expect("a sum").minor() < dollars(0).minor());
        assert!(html.contains(&paths::give_back(ticket.id)), "{html}");
        assert!(html.contains("Give back $"));
        assert!(!html.contains("name=\"amount\""));
    }

    #[test]
    fn the_bench_sees_the_ticket_without_money_forms_link_or_letters() {
        let html = rendered(props(&ready(), Role::Bench));
        let id = ready().ticket().id;
        for path in [
            paths::pay(id),
            paths::hand_over(id),
            paths::renew_link(id),
            paths::contact(id),
        ] {
            assert!(!html.contains(&path), "{path}");
        }
        assert!(!html.contains("/t/abc"), "{html}");
        assert!(!html.contains("<h2>Letters"));
    }

    #[test]
    fn what_was_typed_is_shown_again() {
        let mut props = props(&two_pairs(), Role::Counter);
        props.typed.push("name", WILD);
        props.typed.push("email", "nadia@");
        let html = rendered(props);
        assert!(html.contains("value=\"nadia@\""), "{html}");
        assert!(html.contains("<details open"));
        assert!(!html.contains("<script>alert"));
        assert!(html.contains("value=\"&lt;script&gt;alert(1)"));
    }

    #[test]
    fn a_stopped_link_can_be_given_anew() {
        let mut props = props(&two_pairs(), Role::Counter);
        props.link = None;
        let html = rendered(props);
        assert!(html.contains("The link was stopped"), "{html}");
        assert!(html.contains("Give them a new link"));
    }

    #[test]
    fn a_closed_ticket_says_who_collected_and_asks_for_nothing() {
        let html = said(&rendered(props(&collected(), Role::Owner)));
        assert!(html.contains("4417 A went to"), "{html}");
        assert!(html.contains("Sat 12 Dec 2026, 10:01"));
        assert!(!html.contains("Hand over<"));
        assert!(!html.contains("Record the payment"));
    }
}
