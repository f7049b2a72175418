//! A pair for the bench: stage, hold, notes, offer, scope.

pub mod moves;
pub mod note;
pub mod offer;

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::id::PairId;
use shared_types::margin::Margin;
use shared_types::moment::Moment;
use shared_types::money::MoneyProblem;
use shared_types::paths;
use shared_types::scope::sheet::Matter;
use shared_types::staff::Permission;
use shared_types::ticket::event::Audience;
use shared_types::ticket::{Pair, Rating, Ticket};

use self::moves::{FreshWord, Moves};
use self::note::NewNote;
use self::offer::OfferBlock;
use super::Names;
use crate::document::{BackRoom, Desk, Room, ring};
use crate::elements::journal::JournalEntry;
use crate::elements::margin_table::MarginTable;
use crate::elements::pair_words::{at_the_bench, begun, progress_of_pair, tag_words};
use crate::elements::pictures::Photos;
use crate::elements::price_table::PriceTable;
use crate::elements::prose::Prose;
use crate::elements::welt::welt_svg;
use crate::elements::when::{Day, When};
use crate::elements::who::who;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct PairView {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// Whose it is.
    pub customer: Customer,
    /// Who is who.
    pub names: Names,
    /// A note that could not be taken, as it was typed.
    pub note: String,
    /// A told word that could not be taken, as it was typed.
    pub told: shared_types::form::Fields,
    /// What is wrong with it.
    pub told_errors: shared_types::form::FormErrors<shared_types::form::offer::ToldField>,
    /// Whether an offer has been prepared and not sent yet.
    pub has_draft: bool,
    /// What the agreed work leaves the shop, for its owner.
    pub margin: Option<Result<Margin, MoneyProblem>>,
    /// Why each agreed line is there, in the bench's words.
    pub why: Vec<(String, Vec<String>)>,
}

/// A pair for the bench: stage, hold, notes, offer, scope.
#[component]
pub fn PairPage(props: PairView) -> impl IntoView {
    let pair = props.ticket.pair(props.pair)?.clone();
    let desk = props.desk.clone();
    let may = |permission| desk.staff.role.may(permission) && pair.handed_over.is_none();
    let title = tag_words(props.ticket.number, pair.tag);
    let moves = may(Permission::WorkOnPairs)
        .then(|| view! { <Moves pair=pair.clone() now=desk.now /> }.into_any());
    let offer = may(Permission::EditScope)
        .then(|| view! { <OfferBlock props=props.clone() pair=pair.clone() /> }.into_any());
    let note = may(Permission::PostNotes).then(|| {
        view! { <NewNote pair=pair.clone() typed=props.note.clone() desk=desk.clone() /> }
            .into_any()
    });
    let head = view! { <Head props=props.clone() pair=pair.clone() /> }.into_any();
    let word = view! { <FreshWord pair=pair.clone() desk=desk.clone() /> }.into_any();
    let margin = props.margin.clone();
    let agreed =
        view! { <Agreed pair=pair.clone() desk=desk.clone() margin why=props.why.clone() /> }
            .into_any();
    let names = props.names;
    let sheet = bench_sheet(&desk, &pair, &names);
    let journal = view! { <Journal pair=pair.clone() desk=desk.clone() names /> }.into_any();
    let about = view! { <About pair /> }.into_any();
    Some(view! {
        <BackRoom desk title here=Room::Elsewhere>
            {head}
            {word}
            {moves}
            {note}
            {sheet}
            {offer}
            {agreed}
            {journal}
            {about}
        </BackRoom>
    })
}

#[component]
fn Head(props: PairView, pair: Pair) -> impl IntoView {
    let PairView {
        desk,
        ticket,
        customer,
        ..
    } = props;
    let stage = format!("{}: {}", pair.stage.label(), at_the_bench(pair.stage));
    let drawing = welt_svg(&progress_of_pair(&pair, desk.now), &stage);
    let hold = pair.hold.map(|hold| {
        view! { <p class="queue-hold">{format!("{}.", hold.label())}</p> }
    });
    let caution = (pair.about.rating == Rating::Protective).then(|| {
        view! {
            <p class="queue-caution">
                "Safety mark: repair can end it. Tell the customer before anything is agreed."
            </p>
        }
    });
    let number = customer
        .phone
        .map(|phone| view! { ", " <a href=ring(&phone)>{phone.to_string()}</a> });
    let kept = pair.handed_over.as_ref().map(|(at, to)| {
        let zone = desk.shop.calendar.zone.clone();
        view! {
            <p>
                "Handed over to " <bdi>{to.to_string()}</bdi> ", " <When at=*at zone />
                ". Its record can be read but no longer changed."
            </p>
        }
    });
    view! {
        <section class="where">
            <div class="where-drawing" inner_html=drawing></div>
            <div class="where-words">
                <p class="claim">
                    <a href=paths::shop_ticket(ticket.id)>{format!("Ticket {}", ticket.number)}</a>
                    {format!(", tag {}", pair.tag)}
                </p>
                <h1 dir="auto">{begun(&pair.about.title())}</h1>
                <p class="where-now">{stage}"."</p>
                {hold}
                {kept}
                <p class="where-day">
                    "Promised for " <Day day=pair.promise() />
                    {format!(". {} agreed at the bench.", pair.agreed().minutes())}
                </p>
                <p><bdi>{customer.name.to_string()}</bdi>{number}</p>
                {caution}
            </div>
        </section>
    }
}

#[component]
fn Agreed(
    pair: Pair,
    desk: Desk,
    margin: Option<Result<Margin, MoneyProblem>>,
    why: Vec<(String, Vec<String>)>,
) -> impl IntoView {
    let why = (!why.is_empty()).then(|| why_each_line(why));
    let margin = margin.map(|margin| view! { <MarginTable margin /> });
    let caption = format!(
        "Agreed, ready by {}",
        shared_types::moment::day_words(pair.promise())
    );
    let change = changing(&pair, desk.now);
    let change = change.map(|change| match change {
        Changing::Free => view! {
            <a class="act" data-act="plain" href=paths::edit_scope(pair.id)>
                "Change what is agreed"
            </a>
        }
        .into_any(),
        Changing::OfferOpen => {
            "An offer is open: withdraw it before you change what is agreed.".into_any()
        }
    });
    let revisions = match pair.revisions.len() {
        1 => "As taken in, revision 1".to_owned(),
        count => format!("All {count} revisions"),
    };
    view! {
        <section>
            <h2>"What is agreed"</h2>
            <PriceTable scope=pair.agreed().clone() caption />
            {why}
            {margin}
            <p>{change}</p>
            <p><a href=paths::revisions(pair.id)>{revisions}</a></p>
        </section>
    }
}

fn why_each_line(why: Vec<(String, Vec<String>)>) -> AnyView {
    let rows: Vec<_> = why
        .into_iter()
        .map(|(title, reasons)| view! { <div><dt>{title}</dt><dd>{reasons.join(" ")}</dd></div> })
        .collect();
    view! {
        <details class="fold">
            <summary>"Why each line is there"</summary>
            <dl class="facts">{rows}</dl>
        </details>
    }
    .into_any()
}

/// The way to the bench sheet, with who measured.
fn bench_sheet(desk: &Desk, pair: &Pair, names: &Names) -> AnyView {
    let zone = desk.shop.calendar.zone.clone();
    let taken = match &pair.measured {
        Some(taken) => {
            let who = who(taken.actor, names);
            view! { <p>"Measured by " <bdi>{who}</bdi> ", " <When at=taken.at zone /> "."</p> }
                .into_any()
        }
        None => view! {
            <p>"Not measured yet: its sheet comes from size and build alone."</p>
        }
        .into_any(),
    };
    let may_measure = desk.staff.role.may(Permission::WorkOnPairs) && pair.handed_over.is_none();
    let measure =
        may_measure.then(|| view! { <a class="thumb" href=paths::measure(pair.id)>"Measure"</a> });
    view! {
        <section>
            <h2>"Bench sheet"</h2>
            {taken}
            <div class="thumbs">
                <a class="thumb" href=paths::bench_sheet(pair.id)>
                    "Figures and drawings"
                </a>
                {measure}
                <a class="thumb" href=paths::bench_paper(pair.id)>
                    "To print or prop up"
                </a>
            </div>
        </section>
    }
    .into_any()
}

enum Changing {
    Free,
    OfferOpen,
}

fn changing(pair: &Pair, now: Moment) -> Option<Changing> {
    match (&pair.handed_over, pair.open_offer(now)) {
        (Some(_), _) => None,
        (None, Some(_)) => Some(Changing::OfferOpen),
        (None, None) => Some(Changing::Free),
    }
}

#[component]
fn Journal(pair: Pair, desk: Desk, names: Names) -> impl IntoView {
    let entries = pair.notes.into_iter().rev().map(|note| {
        let (who, audience) = match note.audience {
            Audience::Shop => (
                format!("{}, for the shop only", who(note.actor, &names)),
                Some("shop"),
            ),
            Audience::Customer => (
                format!("{}, for the customer to read", who(note.actor, &names)),
                None,
            ),
            Audience::Reply => (format!("{} replied", who(note.actor, &names)), None),
            Audience::Question => (format!("{} asked", who(note.actor, &names)), None),
        };
        let zone = desk.shop.calendar.zone.clone();
        view! {
            <li data-audience=audience>
                <JournalEntry note who zone photos=Photos::Shop />
            </li>
        }
    });
    let entries = entries.collect_view();
    let list = if entries.is_empty() {
        view! { <p>"Nothing is written down yet."</p> }.into_any()
    } else {
        view! { <ol class="journal">{entries}</ol> }.into_any()
    };
    view! {
        <section>
            <h2>"Journal"</h2>
            {list}
        </section>
    }
}

#[component]
fn About(pair: Pair) -> impl IntoView {
    let about = pair.about;
    let size = about
        .size
        .map_or_else(|| "Not readable".to_owned(), |size| size.to_string());
    let first = pair.revisions.into_iter().next();
    let told = first.and_then(|revision| match revision.sheet.matter {
        Matter::Agreement(agreement) => agreement.words,
        Matter::Offer(_) => None,
    });
    let told = told.map(|words| {
        view! { <div><dt>"Said when it was taken in"</dt><dd><Prose words /></dd></div> }
    });
    view! {
        <section>
            <h2>"About the pair"</h2>
            <dl class="facts">
                <div><dt>"What it is"</dt><dd dir="auto">{about.kind.to_string()}</dd></div>
                <div><dt>"Colour"</dt><dd dir="auto">{about.colour.to_string()}</dd></div>
                <div><dt>"Size"</dt><dd>{size}</dd></div>
                <div><dt>"How it is built"</dt><dd>{about.construction.label()}</dd></div>
                <div>
                    <dt>"What is wrong, in the customer’s words"</dt>
                    <dd><Prose words=about.wrong /></dd>
                </div>
                {told}
            </dl>
        </section>
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::contact::{CustomerName, Phone};
    use shared_types::form::offer::ToldField;
    use shared_types::form::{Fields, FormErrors, Problem};
    use shared_types::id::CustomerId;
    use shared_types::scope::offer::Word;
    use shared_types::scope::sheet::ChoiceKey;
    use shared_types::staff::Role;
    use shared_types::stage::{Hold, Stage};
    use shared_types::ticket::event::{Actor, Event};

    use super::super::said::said;
    use super::*;
    use crate::fixture::{
        BOOTS, Record, SAFETY, SHOP_ONLY, STAFF, WILD_ESCAPED, collected, december, desk, line,
        split_welt, two_pairs,
    };

    fn props(record: &Record, pair: PairId, role: Role) -> PairView {
        PairView {
            desk: desk(role),
            ticket: record.ticket(),
            pair,
            customer: Customer {
                id: CustomerId::from_bytes([5; 16]),
                name: CustomerName::parse("Nadia Okafor").expect("a name"),
                email: None,
                phone: Phone::parse_optional("555-0134").expect("a number"),
            },
            names: [(STAFF, line("Ines"))].into(),
            note: String::new(),
            told: Fields::default(),
            told_errors: FormErrors::default(),
            has_draft: false,
            margin: None,
            why: Vec::new(),
        }
    }

    fn rendered(props: PairView) -> String {
        crate::render::page(|| view! { <PairPage props /> })
    }

    #[test]
    fn the_next_stage_is_one_tap_and_the_others_are_folded_away() {
        let html = rendered(props(&split_welt(), BOOTS, Role::Bench));
        let (near, folded) = html.split_once("Another stage, or back").expect("a fold");
        assert!(near.contains("value=\"structure\""), "{html}");
        assert!(!near.contains("value=\"soling\""));
        assert!(folded.contains("value=\"soling\""));
        assert!(folded.contains("value=\"ready\""));
        assert!(!html.contains("value=\"taken-in\""));
        assert!(!html.contains("value=\"collected\""));
    }

    #[test]
    fn a_hold_that_is_placed_can_be_lifted() {
        let mut record = split_welt();
        let event = Event::HoldPlaced {
            pair: BOOTS,
            hold: Hold::Drying,
        };
        record.add(december(8, 15, 0), Actor::Staff(STAFF), &event);
        let html = rendered(props(&record, BOOTS, Role::Bench));
        assert!(html.contains("name=\"hold\" value=\"\""), "{html}");
        assert!(html.contains("value=\"material\""));
        assert!(!html.contains("value=\"drying\""));
    }

    #[test]
    fn the_counter_reads_the_pair_but_does_not_move_it() {
        let html = rendered(props(&split_welt(), BOOTS, Role::Counter));
        assert!(!html.contains(&paths::move_stage(BOOTS)), "{html}");
        assert!(html.contains(&paths::post_note(BOOTS)));
    }

    #[test]
    fn a_word_that_was_given_is_started_on_from_here() {
        let mut record = split_welt();
        record.word(BOOTS, december(8, 15, 5), Word::Accept(ChoiceKey::A));
        let html = rendered(props(&record, BOOTS, Role::Bench));
        assert!(html.contains(&paths::start_work(BOOTS)), "{html}");
        assert!(html.contains("The customer said yes"));
        assert!(!html.contains("Record their word"));
        assert!(html.contains("Change what is agreed"));
    }

    #[test]
    fn an_open_offer_is_answered_by_telephone_or_withdrawn_but_not_edited_around() {
        let record = two_pairs();
        let digest = record.ticket().pairs[1].revisions[1].digest;
        let mut props = props(&record, SAFETY, Role::Counter);
        props.told_errors.add(ToldField::SaidBy, Problem::Missing);
        let html = rendered(props);
        assert!(
            html.contains(&format!("name=\"sheet\" value=\"{digest}\"")),
            "{html}"
        );
        assert!(html.contains("name=\"turn\" value=\"0\""));
        assert!(html.contains("I have read it out"));
        assert!(html.contains("id=\"said-by-problem\""));
        assert!(html.contains(&paths::withdraw(SAFETY)));
        assert!(html.contains("withdraw it before you change"));
        assert!(!html.contains(&paths::edit_scope(SAFETY)));
        assert!(html.contains("Safety mark"));
    }

    #[test]
    fn internal_notes_say_that_they_are_for_the_shop_only() {
        let html = rendered(props(&split_welt(), BOOTS, Role::Bench));
        assert!(html.contains(SHOP_ONLY), "{html}");
        assert!(html.contains("Ines, for the shop only"));
        assert!(html.contains("data-audience=\"shop\""));
        assert!(html.contains(WILD_ESCAPED));
        assert!(!html.contains("<script>alert"));
    }

    #[test]
    fn an_open_question_can_be_replied_to() {
        let html = rendered(props(&split_welt(), BOOTS, Role::Bench));
        assert!(html.contains("name=\"audience\" value=\"reply\""), "{html}");
        let html = rendered(props(&two_pairs(), BOOTS, Role::Bench));
        assert!(!html.contains("value=\"reply\""), "{html}");
    }

    #[test]
    fn a_lapsed_offer_names_the_number_to_ring() {
        let mut props = props(&split_welt(), BOOTS, Role::Counter);
        props.desk.now = december(11, 9, 0);
        let html = said(&rendered(props));
        assert!(
            html.contains("Nobody answered by Thu 10 Dec, 17:30"),
            "{html}"
        );
        assert!(html.contains("Ring Nadia Okafor, 555-0134"));
        assert!(html.contains("Offer added scope"));
    }

    #[test]
    fn a_pair_that_was_handed_over_is_only_read() {
        let html = said(&rendered(props(&collected(), BOOTS, Role::Owner)));
        assert!(html.contains("Handed over to"), "{html}");
        assert!(!html.contains(&paths::move_stage(BOOTS)));
        assert!(!html.contains(&paths::compose(BOOTS)));
        assert!(!html.contains(&paths::edit_scope(BOOTS)));
        let stage = collected().ticket().pairs[0].stage;
        assert_eq!(stage, Stage::Collected);
    }

    #[test]
    fn a_note_that_could_not_be_taken_is_kept() {
        let mut props = props(&split_welt(), BOOTS, Role::Bench);
        props.note = "The shank is <rusty>".to_owned();
        let html = rendered(props);
        assert!(
            html.contains("The shank is &lt;rusty&gt;</textarea>"),
            "{html}"
        );
    }
}
