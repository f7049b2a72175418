//! Hands and stations: who works at the bench and when, what only one pair can use at a time, and
//! how sure a promise is to be.

use leptos::prelude::*;
use shared_types::form::hands::{HandsField, hand_rows, station_rows};
use shared_types::form::settings::weekday;
use shared_types::form::{Fields, FormErrors};
use shared_types::minutes::Minutes;
use shared_types::paths;
use shared_types::text::Line;
use time::Date;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::field::{Kind, TextArea, TextField, Tick};
use crate::elements::to_put_right::ToPutRight;
use crate::elements::when::Day;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Hands {
    /// Who works on it.
    pub desk: Desk,
    /// What was typed, or the bench as it stands.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<HandsField>,
    /// Who works in the shop, to pick names from.
    pub names: Vec<Line>,
    /// Stations that the price book names and the shop has not.
    pub missing: Vec<String>,
    /// How long the open work keeps these hands.
    pub span: Span,
}

/// How long the open work keeps the hands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Span {
    /// Nothing is open.
    Clear,
    /// All pairs are ready by a day, with the chance of the shop's promises.
    Until {
        /// How many pairs are open.
        pairs: usize,
        /// When the last of them is ready.
        last: Date,
    },
    /// No plan can be made, and why.
    Unplanned(String),
}

/// The id of the list of names.
const NAMES: &str = "names-here";

/// Hands and stations.
#[component]
pub fn HandsPage(props: Hands) -> impl IntoView {
    let wrong = props.errors.iter().count();
    let hands = (0..hand_rows(&props.fields)).map(|place| hand(&props, place));
    let hands = hands.collect_view();
    let stations = stations(&props);
    let names = props
        .names
        .iter()
        .map(|name| view! { <option value=name.to_string()></option> });
    let names = names.collect_view();
    let chance = props.text(
        HandsField::Chance,
        Kind::Number,
        "How sure a promise is, in percent",
        "80 means that four promises in five are kept even if nobody hurries. A surer promise is a later day.",
    );
    let span = span_words(&props);
    view! {
        <BackRoom desk=props.desk title="Hands and stations".to_owned() here=Room::Settings>
            <div class="page-head">
                <h1>"Hands and stations"</h1>
                <p>"The days that we promise are worked out from these. " <a href=paths::settings()>"All settings"</a></p>
            </div>
            {span}
            <ToPutRight count=wrong />
            <form class="form-rows" method="post" action=paths::hands()>
                <datalist id=NAMES>{names}</datalist>
                <p class="field-hint">
                    "Bench hours run from opening on; what is left of the day is for the counter. Write 5:00 or 300; empty means as long as the shop is open, 0 means not at the bench that day."
                </p>
                {hands}
                {stations}
                <fieldset class="group">
                    <legend>"Promises"</legend>
                    {chance}
                </fieldset>
                <div class="acts"><button class="act">"Save hands and stations"</button></div>
            </form>
        </BackRoom>
    }
}

impl Hands {
    fn typed(&self, field: HandsField) -> String {
        self.fields.one(&field.name()).to_owned()
    }

    fn focus(&self, field: HandsField) -> bool {
        let first = self.errors.iter().next();
        first.is_some_and(|(first, _)| *first == field)
    }

    fn text(&self, field: HandsField, kind: Kind, label: &str, hint: &str) -> AnyView {
        view! {
            <TextField
                label=label
                name=field.name()
                value=self.typed(field)
                error=self.errors.at(&field)
                hint=hint
                kind=kind
                complete="off"
                focus=self.focus(field)
            />
        }
        .into_any()
    }
}

fn span_words(props: &Hands) -> AnyView {
    match &props.span {
        Span::Clear => ().into_any(),
        Span::Unplanned(reason) => {
            view! { <p class="choice-rule">"No day can be worked out: " {reason.clone()} "."</p> }
                .into_any()
        }
        Span::Until { pairs, last } => {
            let open = match pairs {
                1 => "One pair is open; with these hands it is ready by ".to_owned(),
                pairs => format!("{pairs} pairs are open; with these hands the last is ready by "),
            };
            let sure = format!(", {} sure.", props.desk.shop.chance);
            view! { <p>{open} <b><Day day=*last /></b> {sure}</p> }.into_any()
        }
    }
}

fn hand(props: &Hands, place: usize) -> AnyView {
    let name = HandsField::Name(place);
    let known = props.typed(name);
    let legend = if known.trim().is_empty() {
        "Somebody else".to_owned()
    } else {
        known.clone()
    };
    let calendar = &props.desk.shop.calendar;
    let open = (0_u8..7).map(|day| (day, calendar.open_minutes(usize::from(day))));
    let days = open
        .filter(|(_, open)| *open > Minutes::ZERO)
        .map(|(day, open)| {
            let field = HandsField::Minutes(place, usize::from(day));
            view! {
                <TextField
                    label=weekday(day).to_string()
                    name=field.name()
                    value=props.typed(field)
                    error=props.errors.at(&field)
                    hint=format!("of {open}")
                    kind=Kind::Clock
                    focus=props.focus(field)
                />
            }
        });
    let days = days.collect_view();
    let away = HandsField::Away(place);
    let is_set = place < props.desk.shop.hands.len();
    let gone = HandsField::Gone(place).name();
    let gone = is_set.then(|| {
        let ticked = props.fields.has(&gone, "yes");
        view! { <Tick label=format!("{known} no longer works at the bench") name=gone checked=ticked /> }
    });
    let fields = view! {
        <TextField
            label="Name"
            name=name.name()
            value=known.clone()
            error=props.errors.at(&name)
            list=NAMES
            complete="off"
            focus=props.focus(name)
        />
        <div class="bench-week">{days}</div>
        <TextArea
            label="Days away"
            name=away.name()
            value=props.typed(away)
            error=props.errors.at(&away)
            hint="One a line, as 2026-12-24, or 2026-12-24 to 2027-01-02."
            focus=props.focus(away)
            rows=2
        />
        {gone}
    };
    if is_set || !known.trim().is_empty() || props.errors.at(&name).is_some() {
        return view! { <fieldset class="group"><legend>{legend}</legend>{fields}</fieldset> }
            .into_any();
    }
    view! {
        <details class="fold">
            <summary>{legend}</summary>
            <fieldset class="form-rows">
                <legend class="visually-hidden">"Somebody else at the bench"</legend>
                {fields}
            </fieldset>
        </details>
    }
    .into_any()
}

fn stations(props: &Hands) -> AnyView {
    let rows = (0..station_rows(&props.fields)).map(|place| {
        let field = HandsField::Station(place);
        let was = HandsField::StationWas(place);
        let label = format!("Station {}", place + 1);
        view! {
            <TextField
                label=label
                name=field.name()
                value=props.typed(field)
                error=props.errors.at(&field)
                complete="off"
                focus=props.focus(field)
            />
            <input type="hidden" name=was.name() value=props.typed(was) />
        }
    });
    let rows = rows.collect_view();
    let missing = (!props.missing.is_empty()).then(|| {
        let names = props.missing.join(", ");
        view! {
            <p class="choice-rule">
                {format!("The price book still names {names}, which is not here any more. That work is planned as if it needed no station. ")}
                <a href=paths::prices()>"Price book"</a>
            </p>
        }
    });
    view! {
        <fieldset class="group">
            <legend>"Stations"</legend>
            <p class="field-hint">
                "What only one pair can use at a time. Which work needs one, the price book says; a station with a new name keeps its work. Empty a line to remove it."
            </p>
            {missing}
            {rows}
        </fieldset>
    }
    .into_any()
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::form::hands::{fields_of, read};
    use shared_types::staff::Role;
    use time::macros::date;

    use super::*;
    use crate::fixture;

    fn page(fields: Fields, errors: FormErrors<HandsField>, missing: &[&str]) -> String {
        let props = Hands {
            desk: fixture::desk(Role::Owner),
            fields,
            errors,
            names: vec![fixture::line("Mina Okafor")],
            missing: missing.iter().map(|name| (*name).to_owned()).collect(),
            span: Span::Until {
                pairs: 24,
                last: date!(2026 - 12 - 19),
            },
        };
        crate::render::page(|| view! { <HandsPage props /> })
    }

    #[test]
    fn the_bench_stands_on_its_page_with_names_to_pick_from() {
        let shop = fixture::shop();
        let fields = fields_of(&shop, date!(2026 - 12 - 08));
        let html = page(fields, FormErrors::default(), &[]);
        assert!(html.contains("value=\"Hand 1\""), "{html}");
        assert!(html.contains("list=\"names-here\""), "{html}");
        assert!(html.contains("<option value=\"Mina Okafor\">"), "{html}");
        assert!(html.contains("name=\"hand-0-minutes-5\""), "{html}");
        // The shop is closed on Mondays.
        assert!(!html.contains("name=\"hand-0-minutes-0\""), "{html}");
        assert!(html.contains("value=\"outsole stitcher\""), "{html}");
        assert!(html.contains("Sat 19 Dec"), "{html}");
    }

    #[test]
    fn what_was_typed_stays_beside_what_is_wrong_with_it() {
        let shop = fixture::shop();
        let today = date!(2026 - 12 - 08);
        let mut fields = fields_of(&shop, today);
        fields.set(&HandsField::Minutes(0, 5).name(), "7:77");
        fields.set(&HandsField::Away(0).name(), fixture::WILD);
        let errors = read(&fields, &shop, today).unwrap_err();
        let html = page(fields, errors, &["sole press"]);
        assert!(html.contains("value=\"7:77\""), "{html}");
        assert!(html.contains("id=\"hand-0-minutes-5-problem\""), "{html}");
        assert!(html.contains("Write a day as 2026-12-24"), "{html}");
        assert!(html.contains("still names sole press"), "{html}");
        assert!(!html.contains("<script>alert"), "{html}");
    }
}
