//! Composing an offer: what was found, one to three choices, each priced and dated.

use leptos::prelude::*;
use shared_types::form::advice::Advised;
use shared_types::form::offer::{
    ACT_PREPARE, ACT_PROPOSE, OfferField, choice_prefix, discoveries, is_used,
};
use shared_types::form::{Fields, FormErrors};
use shared_types::id::PairId;
use shared_types::margin::Margin;
use shared_types::money::MoneyProblem;
use shared_types::paths;
use shared_types::pricebook::Service;
use shared_types::promise::dates::InHand;
use shared_types::promise::laid_out::LaidOut;
use shared_types::scope::discovery::{Discovery, Place};
use shared_types::scope::rules::{AsFound, RuleSet};
use shared_types::scope::sheet::ChoiceKey;
use shared_types::scope::{Scope, ScopeProblem};
use shared_types::ticket::{Pair, Rating, Ticket};

use crate::document::{BackRoom, Desk, Room};
use crate::elements::field::{PhotoPicker, TextArea, TextField, Tick};
use crate::elements::pair_words::tag_words;
use crate::elements::picture_ticks::PictureTicks;
use crate::elements::terms_fields::TermsHere;
use crate::elements::to_put_right::ToPutRight;
use crate::elements::work_picker::{Picker, PickerErrors, Stages, WorkPicker};
use crate::elements::worked_out::WorkedOut;
use crate::islands::live_days::DayBook;
use crate::islands::live_quote::LiveQuote;
use crate::islands::quote_words::{FormKind, QuoteBook};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Compose {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// The price book, for this pair.
    pub services: Vec<Service>,
    /// What was typed; on a new offer every agreed line is kept in each choice.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<OfferField>,
    /// Price and day of each choice in use as worked out on the server.
    pub worked_out: Vec<(ChoiceKey, Result<Scope, ScopeProblem>)>,
    /// What each leaves the shop, for its owner.
    pub margins: Vec<(ChoiceKey, Result<Margin, MoneyProblem>)>,
    /// What the rules say to each choice in use.
    pub advised: Vec<(ChoiceKey, Advised)>,
    /// The shop's rules, for the browser.
    pub rules: RuleSet,
    /// All open work, for the browser.
    pub open: LaidOut,
}

/// Where the choices stand on the page.
const CHOICES: &str = "choices";

impl Compose {
    fn typed(&self, field: OfferField) -> String {
        self.fields.one(&field.name()).to_owned()
    }

    /// The first field to put right, in the order of the page.
    fn first(&self) -> Option<OfferField> {
        let fields = self.errors.iter().map(|(field, _)| *field);
        fields.min_by_key(|field| *field == OfferField::IfDeclined)
    }

    fn focus(&self, field: OfferField) -> bool {
        self.first() == Some(field)
    }
}

/// Composing an offer: what was found, one to three choices, each priced and dated.
#[component]
pub fn ComposePage(props: Compose) -> impl IntoView {
    let title = "Compose an offer".to_owned();
    let desk = props.desk.clone();
    let body = props.ticket.pair(props.pair).map(|pair| form(&props, pair));
    view! { <BackRoom desk title here=Room::Elsewhere>{body}</BackRoom> }
}

fn form(props: &Compose, pair: &Pair) -> AnyView {
    let choices: Vec<_> = ChoiceKey::ALL.map(|key| choice(props, pair, key)).into();
    let opened = AsFound::new(&pair.about, discoveries(&props.fields));
    let in_hand = InHand::of(props.ticket.number, pair);
    let days = DayBook::in_hand(props.open.clone(), in_hand);
    let book = QuoteBook::for_pair(
        props.services.clone(),
        pair.agreed(),
        props.desk.shop.prices,
        (&props.rules, &opened),
    );
    let caution = (pair.about.rating == Rating::Protective).then(|| {
        view! {
            <p class="choice-rule">
                "This pair carries a safety mark. The customer has to tick the caution before they can say yes."
            </p>
        }
    });
    let declined = OfferField::IfDeclined;
    view! {
        <div class="page-head">
            <h1>"What we found, and what can be done"</h1>
            <p>
                <a href=paths::pair(pair.id)>
                    {tag_words(props.ticket.number, pair.tag)} ", " {pair.about.title()}
                </a>
            </p>
        </div>
        <ToPutRight count=props.errors.iter().count() />
        <form class="form-rows choice-editor compose" method="post" action=paths::compose(pair.id) enctype="multipart/form-data">
            {enter_works_out()}
            <input type="hidden" name=OfferField::Basis.name() value=props.typed(OfferField::Basis) />
            {shown_by_teardown(props, pair)}
            {found(props, pair)}
            {caution}
            <div class="flow" id=CHOICES>{choices}</div>
            <TextArea
                label="If they say no"
                name=declined.name()
                value=props.typed(declined)
                error=props.errors.at(&declined)
                hint="What follows, said honestly. Saying no must be as easy as saying yes."
                rows=2
                focus=props.focus(declined)
            />
            <LiveQuote form=FormKind::Offer book days />
            <div class="acts">
                <button
                    class="act"
                    data-act="decline"
                    name=OfferField::Act.name()
                    value="price"
                    formaction=format!("{}#{CHOICES}", paths::compose(pair.id))
                >
                    "Work out price and day"
                </button>
                <button class="act" name=OfferField::Act.name() value=ACT_PREPARE>
                    "Look at it as the customer will"
                </button>
            </div>
        </form>
    }
    .into_any()
}

/// The Enter key works out the prices: it presses a form's first button (HTML, implicit
/// submission).
fn enter_works_out() -> impl IntoView {
    view! { <button name="act" value="price" hidden></button> }
}

/// What the teardown showed, to tick; from it follow the choices.
fn shown_by_teardown(props: &Compose, pair: &Pair) -> AnyView {
    let name = OfferField::Discovery.name();
    let groups: Vec<_> = Place::ALL
        .into_iter()
        .map(|place| {
            let here = Discovery::ALL.iter().filter(|one| one.place() == place);
            let ticks: Vec<_> = here
                .map(|one| {
                    let checked = props.fields.has(&name, one.code());
                    let name = name.clone();
                    view! { <Tick label=one.for_bench() name value=one.code() checked /> }
                })
                .collect();
            view! { <fieldset class="group"><legend>{place.label()}</legend>{ticks}</fieldset> }
        })
        .collect();
    let any = Discovery::ALL
        .iter()
        .any(|one| props.fields.has(&name, one.code()));
    view! {
        <details class="fold discoveries" open=any>
            <summary>"What the teardown showed"</summary>
            <div class="discovery-places">{groups}</div>
            <button
                class="act"
                data-act="plain"
                name=OfferField::Act.name()
                value=ACT_PROPOSE
                formaction=format!("{}#{CHOICES}", paths::compose(pair.id))
            >
                "Propose choices from this"
            </button>
        </details>
    }
    .into_any()
}

fn found(props: &Compose, pair: &Pair) -> AnyView {
    let (words, photo, shows) = (OfferField::Found, OfferField::Photo, OfferField::Shows);
    let zone = props.desk.shop.calendar.zone.clone();
    view! {
        <div class="form-rows">
            <TextArea
                label="What was found"
                name=words.name()
                value=props.typed(words)
                error=props.errors.at(&words)
                hint="Two or three plain sentences, for someone who has never seen a shoe from inside."
                rows=4
                focus=props.focus(words)
            />
            <PictureTicks pair=pair.clone() fields=props.fields.clone() zone />
            <PhotoPicker
                label="New pictures"
                name=photo.name()
                error=props.errors.at(&photo)
                hint="JPEG, PNG or WebP, up to 15 MB each."
            />
            <TextField
                label="What the new pictures show"
                name=shows.name()
                value=props.typed(shows)
                error=props.errors.at(&shows)
                hint="For those who can’t see them: the left welt, split at the ball."
                complete="off"
                focus=props.focus(shows)
            />
        </div>
    }
    .into_any()
}

fn choice(props: &Compose, pair: &Pair, key: ChoiceKey) -> AnyView {
    let (title, words) = (OfferField::Title(key), OfferField::Words(key));
    let worked_out = props.worked_out.iter().find(|(of, _)| *of == key);
    let worked_out = worked_out.map(|(_, outcome)| {
        let (outcome, agreed) = (outcome.clone(), Some(pair.agreed().clone()));
        let mut margins = props.margins.iter();
        let margin = margins
            .find(|(of, _)| *of == key)
            .map(|(_, margin)| margin.clone());
        view! { <WorkedOut outcome agreed margin /> }
    });
    let body = view! {
        <div class="choice-columns">
            <div>
                <TextField
                    label=format!("Name of choice {key}")
                    name=title.name()
                    value=props.typed(title)
                    error=props.errors.at(&title)
                    hint="As the customer reads it: a leather welt, sewn by hand."
                    complete="off"
                    focus=props.focus(title)
                />
                <TextArea
                    label="What it means"
                    name=words.name()
                    value=props.typed(words)
                    error=props.errors.at(&words)
                    hint="In plain words: what they get, how long it lasts, what it can’t do."
                    rows=2
                    focus=props.focus(words)
                />
            </div>
            <div>
                <WorkPicker picker=picker(props, pair, key) />
                {worked_out}
            </div>
        </div>
    }
    .into_any();
    let name = match key {
        ChoiceKey::A => "First choice",
        ChoiceKey::B => "Second choice",
        ChoiceKey::C => "Third choice",
    };
    if key == ChoiceKey::A {
        return view! { <fieldset class="choice"><legend>{name}</legend>{body}</fieldset> }
            .into_any();
    }
    let has_error = props.errors.iter().any(|(field, _)| is_of(*field, key));
    let open = has_error || is_used(&props.fields, key);
    view! {
        <details class="choice-more" open=open>
            <summary>{name} ", if there is one"</summary>
            <fieldset class="choice" aria-label=name>{body}</fieldset>
        </details>
    }
    .into_any()
}

fn is_of(field: OfferField, key: ChoiceKey) -> bool {
    matches!(field, OfferField::Title(of) | OfferField::Words(of) | OfferField::Work(of, _) if of == key)
}

fn picker(props: &Compose, pair: &Pair, key: ChoiceKey) -> Picker {
    let mut errors = PickerErrors::default();
    for (field, problem) in props.errors.iter() {
        if let OfferField::Work(of, field) = field
            && *of == key
        {
            errors.at.push((*field, problem.to_string()));
        }
    }
    if let Some(OfferField::Work(of, field)) = props.first()
        && of == key
    {
        errors.first = Some(field);
    }
    let advised = props.advised.iter().find(|(of, _)| *of == key);
    Picker {
        legend: format!("The whole work of choice {key}"),
        prefix: choice_prefix(key),
        services: props.services.clone(),
        agreed: pair.agreed().lines.clone(),
        rules: props.desk.shop.prices,
        fields: props.fields.clone(),
        errors,
        advised: advised
            .map(|(_, advised)| advised.clone())
            .unwrap_or_default(),
        action: paths::compose(pair.id),
        stages: Stages::Folded,
        terms: TermsHere::Standing(pair.agreed().terms.clone()),
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::form::offer::read;
    use shared_types::form::scope::ScopeField;
    use shared_types::staff::Role;

    use super::*;
    use crate::fixture;

    fn page(fields: Fields, errors: FormErrors<OfferField>) -> String {
        let at = fixture::now();
        let dearer = [
            fixture::soles_and_heels(),
            vec![fixture::price_book()[1].line()],
        ]
        .concat();
        let props = Compose {
            desk: fixture::desk(Role::Bench),
            ticket: fixture::split_welt().ticket(),
            pair: fixture::BOOTS,
            services: fixture::price_book(),
            fields,
            errors,
            worked_out: vec![
                (ChoiceKey::A, Ok(fixture::scope(&dearer, at))),
                (ChoiceKey::B, Err(ScopeProblem::NoDay)),
            ],
            margins: Vec::new(),
            advised: Vec::new(),
            rules: RuleSet::default(),
            open: fixture::open_work(),
        };
        crate::render::page(|| view! { <ComposePage props /> })
    }

    fn typed() -> Fields {
        let mut fields = Fields::default();
        let mut put = |field: OfferField, text: &str| fields.push(field.name(), text);
        put(OfferField::Found, fixture::WILD);
        put(OfferField::Title(ChoiceKey::A), "Leather welt");
        put(OfferField::Work(ChoiceKey::A, ScopeField::Keep), "0");
        let welt = fixture::price_book()[1].id.to_string();
        put(OfferField::Work(ChoiceKey::A, ScopeField::Service), &welt);
        put(
            OfferField::Work(ChoiceKey::B, ScopeField::OwnTitle(0)),
            "A patch",
        );
        put(
            OfferField::Work(ChoiceKey::B, ScopeField::OwnMinutes(0)),
            "soon",
        );
        fields
    }

    #[test]
    fn a_choice_says_what_it_costs_against_what_is_agreed() {
        let html = page(typed(), FormErrors::default());
        assert!(html.contains("more than agreed"), "{html}");
        assert!(html.contains("nobody is at the bench"));
        assert!(html.contains(fixture::WILD_ESCAPED), "{html}");
        assert!(!html.contains("<script>alert"));
    }

    #[test]
    fn agreed_lines_are_kept_or_dropped_by_their_place() {
        let html = page(typed(), FormErrors::default());
        assert!(
            html.contains("name=\"a-keep\" value=\"0\" checked"),
            "{html}"
        );
        assert!(html.contains("name=\"a-keep\" value=\"1\">"), "{html}");
    }

    #[test]
    fn a_choice_with_something_wrong_is_open() {
        let services = fixture::price_book();
        let agreed = fixture::soles_and_heels();
        let currency = fixture::shop().currency();
        let errors = read(&typed(), (&services, &agreed), currency).unwrap_err();
        let html = page(typed(), errors);
        assert!(html.contains("Write minutes such as 90"), "{html}");
        let open = html.matches("<details open class=\"choice-more\"").count();
        assert_eq!(open, 1, "{html}");
        assert_eq!(html.matches(" autofocus").count(), 1, "{html}");
    }
}
