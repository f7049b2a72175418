//! Taking pairs in; it can be typed through without a mouse.

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::form::advice::Advised;
use shared_types::form::intake::{IntakeAct, IntakeField, pair_count};
use shared_types::form::{Fields, FormErrors};
use shared_types::money::Money;
use shared_types::paths;
use shared_types::price::PriceRules;
use shared_types::pricebook::{Offered, Service};
use shared_types::promise::laid_out::LaidOut;
use shared_types::promise::new_pair::{Endangered, NewPair};
use shared_types::scope::ScopeProblem;
use shared_types::scope::rules::RuleSet;
use shared_types::ticket::Tag;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::endangered::EndangeredPromises;
use crate::elements::field::{Kind, TextField};
use crate::elements::intake_pair::{IntakePairForm, PairForm};
use crate::elements::to_put_right::ToPutRight;
use crate::islands::live_days::DayBook;
use crate::islands::live_quote::LiveQuote;
use crate::islands::quote_words::{FormKind, QuoteBook};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Intake {
    /// Who works on it.
    pub desk: Desk,
    /// The price book.
    pub offered: Vec<Offered>,
    /// The price book as it is for each pair of the form.
    pub services: Vec<Vec<Service>>,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<IntakeField>,
    /// Customers that the look-up found.
    pub matches: Vec<Customer>,
    /// The known customer that was chosen.
    pub known: Option<Customer>,
    /// Price and day of each pair as worked out on the server; nothing for a pair without work.
    pub worked_out: Vec<Option<Result<NewPair, ScopeProblem>>>,
    /// Promises that are no longer sure if the pairs in rush go first.
    pub endangers: Vec<Endangered>,
    /// What stands before new pairs, for the browser.
    pub open: LaidOut,
    /// What the rules say to the work on each pair.
    pub advised: Vec<Advised>,
    /// The shop's rules, for the browser.
    pub rules: RuleSet,
}

/// Where the price stands on the page.
const WORKED_OUT: &str = "worked-out";

/// Taking pairs in; it can be typed through without a mouse.
#[component]
pub fn IntakePage(props: Intake) -> impl IntoView {
    let count = pair_count(&props.fields);
    let rules = props.desk.shop.prices;
    let pairs: Vec<_> = (0..count)
        .map(|place| {
            let form = PairForm {
                place,
                services: props.services.get(place).cloned().unwrap_or_default(),
                rules,
                fields: props.fields.clone(),
                errors: props.errors.clone(),
                worked_out: props.worked_out.get(place).cloned().flatten(),
                advised: props.advised.get(place).cloned().unwrap_or_default(),
            };
            view! { <IntakePairForm form /> }
        })
        .collect();
    let another = (count < Tag::MOST).then(|| {
        view! {
            <div class="acts">
                <button class="act" data-act="plain" name=IntakeField::Act.name() value=IntakeAct::AddPair.code()>
                    "Another pair"
                </button>
            </div>
        }
    });
    let token = IntakeField::Token;
    let book = QuoteBook::offered(props.offered.clone(), rules, &props.rules);
    view! {
        <BackRoom desk=props.desk.clone() title="Take in".to_owned() here=Room::Intake>
            <h1>"Take pairs in"</h1>
            <ToPutRight count=props.errors.iter().count() />
            <form class="form-rows intake" method="post" action=paths::intake() enctype="multipart/form-data">
                <input type="hidden" name=token.name() value=props.fields.one(&token.name()).to_owned() />
                <input type="hidden" name=IntakeField::Pairs.name() value=count />
                {customer(&props)}
                {pairs}
                {another}
                <div id=WORKED_OUT>
                    {ticket_total(&props.worked_out, &rules)}
                    <EndangeredPromises endangers=props.endangers.clone() />
                </div>
                <LiveQuote form=FormKind::Intake book days=DayBook::new_pairs(props.open.clone()) />
                <div class="acts">
                    <button
                        class="act"
                        data-act="decline"
                        name=IntakeField::Act.name()
                        value=IntakeAct::Price.code()
                        formaction=format!("{}#{WORKED_OUT}", paths::intake())
                    >
                        "Work out price and day"
                    </button>
                    <button class="act" name=IntakeField::Act.name() value=IntakeAct::TakeIn.code()>
                        "Take in and print the claim ticket"
                    </button>
                </div>
            </form>
        </BackRoom>
    }
}

fn customer(props: &Intake) -> AnyView {
    let first = props.errors.iter().next().map(|(field, _)| *field);
    let typed = |field: IntakeField| props.fields.one(&field.name()).to_owned();
    let error = |field: IntakeField| props.errors.at(&field);
    let focus = |field: IntakeField| first == Some(field);
    // A page that answers a press shows what it asked for instead.
    let untouched = first.is_none() && typed(IntakeField::Act).is_empty();
    let looked_up = typed(IntakeField::Act) == IntakeAct::Lookup.code();
    let is_new = first.is_none() && looked_up && props.matches.is_empty() && props.known.is_none();
    view! {
        <fieldset class="group">
            <legend>"Whose they are"</legend>
            <div class="look-up">
                <TextField
                    label="Look a customer up"
                    name=IntakeField::Lookup.name()
                    value=typed(IntakeField::Lookup)
                    hint="By name, telephone number or mail address."
                    kind=Kind::Search
                    focus=untouched
                />
                <button class="act" data-act="plain" name=IntakeField::Act.name() value=IntakeAct::Lookup.code()>
                    "Look up"
                </button>
            </div>
            {known_customers(props)}
            <p class="field-hint">"Letters go to the mail address; without one we ring."</p>
            <div class="field-row">
                <TextField
                    label="Name of a new customer"
                    name=IntakeField::Name.name()
                    value=typed(IntakeField::Name)
                    error=error(IntakeField::Name)
                    complete="off"
                    focus=focus(IntakeField::Name) || is_new
                />
                <TextField
                    label="Mail address"
                    name=IntakeField::Email.name()
                    value=typed(IntakeField::Email)
                    error=error(IntakeField::Email)
                    kind=Kind::Email
                    complete="off"
                    focus=focus(IntakeField::Email)
                />
                <TextField
                    label="Telephone"
                    name=IntakeField::Phone.name()
                    value=typed(IntakeField::Phone)
                    error=error(IntakeField::Phone)
                    kind=Kind::Telephone
                    complete="off"
                    focus=focus(IntakeField::Phone)
                />
            </div>
        </fieldset>
    }
    .into_any()
}

fn known_customers(props: &Intake) -> Option<AnyView> {
    let name = IntakeField::Known.name();
    let mut customers: Vec<&Customer> = props.known.iter().collect();
    for found in &props.matches {
        if customers.iter().all(|customer| customer.id != found.id) {
            customers.push(found);
        }
    }
    let looked_up = props.fields.one(&IntakeField::Lookup.name()).trim();
    if customers.is_empty() {
        return (!looked_up.is_empty()).then(|| {
            let words = format!("Nobody here goes by “{looked_up}” yet. Fill in who it is.");
            view! { <p role="status">{words}</p> }.into_any()
        });
    }
    let chosen = props.known.as_ref().map(|customer| customer.id.to_string());
    let mut focus = chosen.is_none() && props.errors.is_empty();
    let radios: Vec<_> = customers
        .into_iter()
        .map(|customer| {
            let id = customer.id.to_string();
            let checked = chosen.as_ref() == Some(&id);
            let reached = [
                customer.email.as_ref().map(ToString::to_string),
                customer.phone.as_ref().map(ToString::to_string),
            ];
            let reached: Vec<String> = reached.into_iter().flatten().collect();
            view! {
                <label class="check">
                    <input type="radio" name=name.clone() value=id checked=checked autofocus=std::mem::take(&mut focus) />
                    <span>{customer.name.to_string()} " " <small>{reached.join(", ")}</small></span>
                </label>
            }
        })
        .collect();
    let problem = props.errors.at(&IntakeField::Known);
    Some(
        view! {
            <fieldset class="group">
                <legend>"We know them"</legend>
                <div>
                    {radios}
                    <label class="check">
                        <input type="radio" name=name.clone() value="" checked=chosen.is_none() />
                        <span>"Somebody else, as filled in below"</span>
                    </label>
                </div>
                {problem.map(|problem| view! { <p class="field-problem">{problem}</p> })}
            </fieldset>
        }
        .into_any(),
    )
}

fn ticket_total(
    worked_out: &[Option<Result<NewPair, ScopeProblem>>],
    rules: &PriceRules,
) -> Option<impl IntoView + use<>> {
    let scopes = worked_out.iter().flatten().flatten();
    let totals: Vec<Money> = scopes.map(|pair| pair.scope.total()).collect();
    let together = (totals.len() > 1).then(|| Money::sum(totals.iter().copied(), rules.currency()));
    let together = together.and_then(Result::ok).map(|total| {
        view! {
            <p class="choice-sum">
                "The whole ticket: " <data value=total.figure()>{total.to_string()}</data>
            </p>
        }
    });
    let deposit = rules.deposit_on_all(&totals).ok().flatten();
    let deposit = deposit.map(|deposit| {
        view! {
            <p class="choice-sum">
                {format!("Deposit to ask for, {} %: ", rules.deposit)}
                <data value=deposit.figure()>{deposit.to_string()}</data>
            </p>
        }
    });
    let any = together.is_some() || deposit.is_some();
    any.then_some((together, deposit))
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::form::intake::{PairField, read};
    use shared_types::form::scope::ScopeField;
    use shared_types::staff::Role;

    use super::*;
    use crate::fixture;

    fn page(fields: Fields, errors: FormErrors<IntakeField>, matches: Vec<Customer>) -> String {
        let scope = fixture::scope(&fixture::soles_and_heels(), fixture::now());
        let pair = fixture::new_pair(scope);
        let worked_out = vec![Some(Ok(pair.clone())), Some(Ok(pair))];
        let props = Intake {
            desk: fixture::desk(Role::Counter),
            offered: fixture::offered(),
            services: vec![fixture::price_book(); 2],
            fields,
            errors,
            matches,
            known: None,
            worked_out,
            endangers: Vec::new(),
            open: fixture::open_work(),
            advised: Vec::new(),
            rules: RuleSet::default(),
        };
        crate::render::page(|| view! { <IntakePage props /> })
    }

    fn typed() -> Fields {
        let mut fields = Fields::default();
        let mut put = |field: IntakeField, text: &str| fields.push(field.name(), text);
        put(IntakeField::Token, "0190a0a0-0000-7000-8000-000000000000");
        put(IntakeField::Pairs, "2");
        put(IntakeField::Lookup, "oka");
        put(IntakeField::Pair(0, PairField::Colour), fixture::WILD);
        put(IntakeField::Pair(0, PairField::Protective), "yes");
        let soles = fixture::price_book()[4].id.to_string();
        put(
            IntakeField::Pair(1, PairField::Work(ScopeField::Service)),
            &soles,
        );
        fields
    }

    #[test]
    fn what_is_missing_stands_beside_its_field_and_what_was_typed_is_kept() {
        let services = fixture::offered();
        let errors = read(&typed(), &services, fixture::shop().currency()).unwrap_err();
        let html = page(typed(), errors, Vec::new());
        assert!(html.contains("Nobody here goes by “oka” yet"), "{html}");
        assert!(html.contains("aria-describedby=\"name-problem\""));
        assert!(html.contains("Tell the customer of the caution"));
        assert!(html.contains("Pick at least one piece of work."));
        assert!(!html.contains("<script>alert"));
        assert_eq!(html.matches(" autofocus").count(), 1, "{html}");
        let kept = format!("value=\"{}\" checked", services[4].id);
        assert_eq!(html.matches(&kept).count(), 1);
    }

    #[test]
    fn the_enter_key_never_takes_pairs_in() {
        let html = page(typed(), FormErrors::default(), Vec::new());
        let form = html
            .split("enctype=\"multipart/form-data\"")
            .nth(1)
            .unwrap();
        let first = form.split("<button").nth(1).unwrap();
        assert!(first.contains("value=\"lookup\""), "{first}");
    }

    #[test]
    fn a_customer_who_was_found_is_offered_and_nobody_is_chosen_for_the_shop() {
        let found = fixture::nadia(None);
        let html = page(typed(), FormErrors::default(), vec![found]);
        assert!(html.contains("Nadia Okafor"), "{html}");
        assert!(html.contains("name=\"known\" value=\"\" checked"), "{html}");
        assert!(html.contains("The whole ticket: "));
    }
}
