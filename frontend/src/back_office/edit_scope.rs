//! Changing an agreed scope with the customer's word, as a new revision.

use leptos::prelude::*;
use shared_types::form::advice::Advised;
use shared_types::form::offer::{ACT_RECORD, EditField};
use shared_types::form::{Fields, FormErrors};
use shared_types::id::PairId;
use shared_types::margin::Margin;
use shared_types::money::MoneyProblem;
use shared_types::paths;
use shared_types::pricebook::Service;
use shared_types::promise::dates::InHand;
use shared_types::promise::laid_out::LaidOut;
use shared_types::scope::rules::{AsFound, RuleSet};
use shared_types::scope::sheet::Given;
use shared_types::scope::{Scope, ScopeProblem};
use shared_types::ticket::{Pair, Ticket};

use crate::document::{BackRoom, Desk, Room};
use crate::elements::field::{Choice, TextArea, Tick};
use crate::elements::pair_words::{begun, tag_words};
use crate::elements::terms_fields::TermsHere;
use crate::elements::to_put_right::ToPutRight;
use crate::elements::work_picker::{Picker, PickerErrors, Stages, WorkPicker};
use crate::elements::worked_out::WorkedOut;
use crate::islands::live_days::DayBook;
use crate::islands::live_quote::LiveQuote;
use crate::islands::quote_words::{FormKind, QuoteBook};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct EditScope {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// The price book, for this pair.
    pub services: Vec<Service>,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<EditField>,
    /// Price and day as worked out on the server.
    pub worked_out: Option<Result<Scope, ScopeProblem>>,
    /// What it leaves the shop, for its owner.
    pub margin: Option<Result<Margin, MoneyProblem>>,
    /// What the rules say to the work as it is picked.
    pub advised: Advised,
    /// The shop's rules, for the browser.
    pub rules: RuleSet,
    /// All open work, for the browser.
    pub open: LaidOut,
}

/// Where the price stands on the page.
const WORKED_OUT: &str = "worked-out";

impl EditScope {
    fn typed(&self, field: EditField) -> String {
        self.fields.one(&field.name()).to_owned()
    }

    /// The first field to put right, in the order of the page.
    fn first(&self) -> Option<EditField> {
        let fields = self.errors.iter().map(|(field, _)| *field);
        fields.min_by_key(|field| !matches!(field, EditField::Work(_)))
    }

    fn focus(&self, field: EditField) -> bool {
        self.first() == Some(field)
    }
}

/// Changing an agreed scope with the customer's word, as a new revision.
#[component]
pub fn EditScopePage(props: EditScope) -> impl IntoView {
    let title = "Change the agreed work".to_owned();
    let desk = props.desk.clone();
    let body = props.ticket.pair(props.pair).map(|pair| form(&props, pair));
    view! { <BackRoom desk title here=Room::Elsewhere>{body}</BackRoom> }
}

fn form(props: &EditScope, pair: &Pair) -> AnyView {
    let before = pair
        .revisions
        .last()
        .map(|revision| revision.digest.to_string());
    let agreed = pair.agreed();
    let found = AsFound::new(&pair.about, pair.discoveries());
    let in_hand = InHand::of(props.ticket.number, pair);
    let days = DayBook::in_hand(props.open.clone(), in_hand);
    let book = QuoteBook::for_pair(
        props.services.clone(),
        agreed,
        props.desk.shop.prices,
        (&props.rules, &found),
    );
    let worked_out = props.worked_out.clone().map(|outcome| {
        let (agreed, margin) = (Some(agreed.clone()), props.margin.clone());
        view! { <WorkedOut outcome agreed margin /> }
    });
    view! {
        <div class="page-head">
            <h1>"Change the agreed work"</h1>
            <p>
                <a href=paths::pair(pair.id)>
                    {tag_words(props.ticket.number, pair.tag)} ", " {pair.about.title()}
                </a>
            </p>
        </div>
        <p>
            "Only with the customer’s word, given at the counter or by telephone. To ask them on their own page, "
            <a href=paths::compose(pair.id)>"compose an offer"</a> " instead."
        </p>
        <ToPutRight count=props.errors.iter().count() />
        <form class="form-rows edit-scope" method="post" action=paths::edit_scope(pair.id)>
            // The Enter key works out the price (HTML, implicit submission).
            <button name=EditField::Act.name() value="price" hidden></button>
            <input type="hidden" name=EditField::Basis.name() value=props.typed(EditField::Basis) />
            <input type="hidden" name=EditField::Before.name() value=before />
            <div class="choice-columns">
                <div>
                    <WorkPicker picker=picker(props, pair) />
                </div>
                <div>{word(props, pair)} <div id=WORKED_OUT>{worked_out}</div></div>
            </div>
            <LiveQuote form=FormKind::Edit book days />
            <div class="acts">
                <button
                    class="act"
                    data-act="decline"
                    name=EditField::Act.name()
                    value="price"
                    formaction=format!("{}#{WORKED_OUT}", paths::edit_scope(pair.id))
                >
                    "Work out price and day"
                </button>
                <button class="act" name=EditField::Act.name() value=ACT_RECORD>
                    "Record what was agreed"
                </button>
            </div>
        </form>
    }
    .into_any()
}

fn word(props: &EditScope, pair: &Pair) -> AnyView {
    let (given, words, told) = (EditField::Given, EditField::Words, EditField::CautionTold);
    let ways = Given::ALL.map(|way| (way.code().to_owned(), begun(way.label())));
    let cautions = pair.about.rating.cautions();
    let caution = (!cautions.is_empty()).then(|| {
        let cautions: Vec<_> = cautions
            .iter()
            .map(|words| view! { <p>{words.to_string()}</p> })
            .collect();
        view! {
            <div class="safety-caution">
                {cautions}
                <Tick
                    label="I have told the customer this"
                    name=told.name()
                    checked=props.fields.has(&told.name(), "yes")
                    error=props.errors.at(&told)
                    focus=props.focus(told)
                />
            </div>
        }
    });
    view! {
        <Choice
            label="Where the customer agreed"
            name=given.name()
            options=ways.to_vec()
            selected=props.typed(given)
            error=props.errors.at(&given)
            focus=props.focus(given)
        />
        <TextArea
            label="Why it changes, or what was said"
            name=words.name()
            value=props.typed(words)
            error=props.errors.at(&words)
            hint="It stands on the revision, and the customer can read it."
            rows=2
            focus=props.focus(words)
        />
        {caution}
    }
    .into_any()
}

fn picker(props: &EditScope, pair: &Pair) -> Picker {
    let mut errors = PickerErrors::default();
    for (field, problem) in props.errors.iter() {
        if let EditField::Work(field) = field {
            errors.at.push((*field, problem.to_string()));
        }
    }
    if let Some(EditField::Work(field)) = props.first() {
        errors.first = Some(field);
    }
    Picker {
        legend: "The whole work".to_owned(),
        prefix: String::new(),
        services: props.services.clone(),
        agreed: pair.agreed().lines.clone(),
        rules: props.desk.shop.prices,
        fields: props.fields.clone(),
        errors,
        advised: props.advised.clone(),
        action: paths::edit_scope(pair.id),
        stages: Stages::Folded,
        terms: TermsHere::Asked,
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::form::offer::read_edit;
    use shared_types::staff::Role;

    use super::*;
    use crate::fixture;

    #[test]
    fn a_safety_pair_asks_whether_its_caution_was_told_and_names_the_revision() {
        let ticket = fixture::two_pairs().ticket();
        let pair = ticket.pair(fixture::SAFETY).unwrap();
        let last = pair.revisions.last().unwrap().digest;
        let (services, agreed) = (fixture::price_book(), pair.agreed().clone());
        let currency = fixture::shop().currency();
        let fields = Fields::default();
        let book = (services.as_slice(), agreed.lines.as_slice());
        let errors = read_edit(&fields, book, currency, true).unwrap_err();
        let props = EditScope {
            desk: fixture::desk(Role::Counter),
            ticket: ticket.clone(),
            pair: fixture::SAFETY,
            services,
            fields,
            errors,
            worked_out: Some(Ok(agreed)),
            margin: None,
            advised: Advised::default(),
            rules: RuleSet::default(),
            open: fixture::open_work(),
        };
        let html = crate::render::page(|| view! { <EditScopePage props /> });
        assert!(
            html.contains(&format!("name=\"before\" value=\"{last}\"")),
            "{html}"
        );
        assert!(html.contains("This pair carries a safety mark."));
        assert!(html.contains("Tell the customer of the caution"));
        assert!(html.contains("<legend>Where the customer agreed</legend>"));
        assert!(html.contains("the same as agreed"));
    }
}
