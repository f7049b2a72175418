//! The rules between services, in plain words: a list by kind, and the page of one rule.

pub mod form;
pub mod one;

use leptos::prelude::*;
use shared_types::form::rule::{RuleAct, RuleField};
use shared_types::id::ServiceId;
use shared_types::paths;
use shared_types::scope::discovery::Discovery;
use shared_types::scope::rules::wording::Kind;
use shared_types::scope::rules::{Reason, RuleId, Standing};

use crate::document::{BackRoom, Desk, Room};
use crate::elements::field::Select;

/// One rule as it stands in the list.
#[derive(Clone, Debug)]
pub struct RuleRow {
    /// Which rule.
    pub id: RuleId,
    /// Its kind.
    pub kind: Kind,
    /// What it says.
    pub words: String,
    /// When it holds, if not always.
    pub case: Vec<String>,
    /// Whether it is in force.
    pub standing: Standing,
    /// Why.
    pub reason: Reason,
    /// Whose it is.
    pub origin: Origin,
    /// Services that it names and the price book does not have.
    pub absent: Vec<String>,
    /// Whether it has nothing to say without them.
    pub rests: bool,
}

/// Whose a rule is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Shipped with the program.
    Shipped,
    /// Shipped, with the shop's words.
    Reworded,
    /// The shop's own.
    Own,
}

/// Something wrong among the rules as they stand, and the rules in it.
#[derive(Clone, Debug)]
pub struct Wrong {
    /// What, and what to change.
    pub words: String,
    /// The rules, in words.
    pub rules: Vec<(RuleId, String)>,
}

/// Props of the list.
#[derive(Clone, Debug)]
pub struct Rules {
    /// Who works on it.
    pub desk: Desk,
    /// The rules to show.
    pub rows: Vec<RuleRow>,
    /// What is wrong with the rules as they stand.
    pub wrong: Vec<Wrong>,
    /// The services that a list can be about.
    pub services: Vec<(ServiceId, String)>,
    /// The one that it is about.
    pub about: Option<ServiceId>,
}

/// The list of all rules, or of those about one service.
#[component]
pub fn RulesPage(props: Rules) -> impl IntoView {
    let Rules {
        desk,
        rows,
        wrong,
        services,
        about,
    } = props;
    let groups: Vec<_> = Kind::ALL
        .into_iter()
        .filter_map(|kind| {
            let rows: Vec<_> = rows.iter().filter(|row| row.kind == kind).collect();
            (!rows.is_empty() || about.is_none()).then(|| group(kind, &rows, about.is_some()))
        })
        .collect();
    let nothing = groups.is_empty().then(|| {
        view! { <p>"No rule names this service."</p> }
    });
    view! {
        <BackRoom desk title="Rules".to_owned() here=Room::Prices>
            <div class="page-head">
                <h1>"What goes together"</h1>
                <p><a href=paths::prices()>"Price book"</a></p>
            </div>
            <p>
                "Work is offered and agreed only if it goes together by these rules. They are common practice of the trade, without a source to cite: the shop switches off what it does otherwise, puts the reasons in its own words, and adds its own."
            </p>
            {troubles(&wrong)}
            {chooser(services, about)}
            {nothing}
            <div>{groups}</div>
            {new_rules()}
            {breaks()}
        </BackRoom>
    }
}

fn troubles(wrong: &[Wrong]) -> Option<AnyView> {
    let lines: Vec<_> = wrong
        .iter()
        .map(|one| {
            let links: Vec<_> = one
                .rules
                .iter()
                .map(|(id, words)| {
                    let words = words.clone();
                    view! { <li><a href=paths::rule(id)>{words}</a></li> }
                })
                .collect();
            view! { <li><p>{one.words.clone()}</p><ul>{links}</ul></li> }
        })
        .collect();
    (!lines.is_empty()).then(|| {
        view! {
            <section class="caution" aria-label="These rules do not go together">
                <p><b>"These rules do not go together as they stand"</b></p>
                <ul>{lines}</ul>
            </section>
        }
        .into_any()
    })
}

fn chooser(services: Vec<(ServiceId, String)>, about: Option<ServiceId>) -> AnyView {
    let services = services
        .into_iter()
        .map(|(id, title)| (id.to_string(), title));
    let all = std::iter::once((String::new(), "All services".to_owned()));
    let selected = about.map(|id| id.to_string()).unwrap_or_default();
    view! {
        <form class="look-up" method="get" action=paths::rules()>
            <Select
                label="Show rules about"
                name="service"
                options=all.chain(services).collect()
                selected
            />
            <button class="act" data-act="plain">"Show"</button>
        </form>
    }
    .into_any()
}

fn group(kind: Kind, rows: &[&RuleRow], open: bool) -> AnyView {
    let off = rows.iter().filter(|row| row.standing == Standing::Off);
    let own = rows.iter().filter(|row| row.origin == Origin::Own);
    let mut count = match rows.len() {
        1 => "1 rule".to_owned(),
        count => format!("{count} rules"),
    };
    for (some, words) in [(own.count(), "your own"), (off.count(), "switched off")] {
        if some > 0 {
            count = format!("{count}, {some} {words}");
        }
    }
    let items: Vec<_> = rows.iter().map(|row| item(row)).collect();
    let list = (!items.is_empty()).then(|| view! { <ul class="sentence-list">{items}</ul> });
    view! {
        <details class="fold rule-group" open=open>
            <summary><h2>{kind.label()}</h2> <span>{count}</span></summary>
            <p>{kind.about()}</p>
            {list}
            <p><a href=paths::new_rule(kind.code())>"Add a rule of this kind"</a></p>
        </details>
    }
    .into_any()
}

fn item(row: &RuleRow) -> AnyView {
    let case = (!row.case.is_empty()).then(|| {
        let case = row.case.join(", ");
        view! { <small>{case}</small> }
    });
    let marks = marks(row);
    let marks = (!marks.is_empty()).then(|| view! { <small>{marks.join(" ")}</small> });
    let (act, switch) = match row.standing {
        Standing::On => (RuleAct::SwitchOff, "Switch off"),
        Standing::Off => (RuleAct::SwitchOn, "Switch on"),
    };
    let is_off = row.standing == Standing::Off;
    view! {
        <li data-settled=is_off.then_some("")>
            <p class="rule-words">
                <a href=paths::rule(&row.id)>{row.words.clone()}</a>
                {case}
                <small>{row.reason.bench.to_string()}</small>
                {marks}
            </p>
            <form method="post" action=paths::rule(&row.id)>
                <button
                    class="act"
                    data-act="plain"
                    name=RuleField::Act.name()
                    value=act.code()
                    aria-label=format!("{switch}: {}", row.words)
                >
                    {switch}
                </button>
            </form>
        </li>
    }
    .into_any()
}

/// What there is to say of a rule beside what it says.
fn marks(row: &RuleRow) -> Vec<String> {
    let mut marks = Vec::new();
    if row.standing == Standing::Off {
        marks.push("Switched off.".to_owned());
    }
    match row.origin {
        Origin::Shipped => {}
        Origin::Reworded => marks.push("In your words.".to_owned()),
        Origin::Own => marks.push("Your own rule.".to_owned()),
    }
    if !row.absent.is_empty() {
        let absent = row.absent.join(", ");
        marks.push(if row.rests {
            format!("It rests: not in the price book: {absent}.")
        } else {
            format!("Goes on without what is not in the price book: {absent}.")
        });
    }
    marks
}

fn new_rules() -> AnyView {
    let links: Vec<_> = Kind::ALL
        .into_iter()
        .map(|kind| {
            view! {
                <li>
                    <a href=paths::new_rule(kind.code())>{kind.label()}</a>
                    <small>{kind.about()}</small>
                </li>
            }
        })
        .collect();
    view! {
        <section>
            <h2>"Add a rule"</h2>
            <ul class="rule-kinds">{links}</ul>
        </section>
    }
    .into_any()
}

/// What each discovery breaks: the program knows it, and rules build on it.
fn breaks() -> AnyView {
    let rows: Vec<_> = Discovery::ALL
        .iter()
        .map(|one| {
            let broken: Vec<_> = one.breaks().iter().map(|one| one.broken()).collect();
            view! {
                <div><dt>{one.for_bench()}</dt><dd>{broken.join("; ")}"."</dd></div>
            }
        })
        .collect();
    view! {
        <details class="fold">
            <summary>"What each discovery breaks"</summary>
            <dl class="facts">{rows}</dl>
        </details>
    }
    .into_any()
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::staff::Role;
    use shared_types::text::Words;

    use super::*;
    use crate::fixture;

    #[test]
    fn a_rule_says_whether_it_is_in_force_and_rests() {
        let words = |text| Words::parse(text).unwrap();
        let row = |id: &str, standing, origin| RuleRow {
            id: RuleId::parse(id).unwrap(),
            kind: Kind::NeedsWork,
            words: fixture::WILD.to_owned(),
            case: vec!["on pairs with a safety mark".to_owned()],
            standing,
            reason: Reason {
                bench: words("For the bench."),
                customer: words("For the customer."),
            },
            origin,
            absent: vec!["Edges".to_owned()],
            rests: true,
        };
        let props = Rules {
            desk: fixture::desk(Role::Owner),
            rows: vec![
                row("one", Standing::Off, Origin::Reworded),
                row("own-two", Standing::On, Origin::Own),
            ],
            wrong: vec![Wrong {
                words: "A circle.".to_owned(),
                rules: vec![(RuleId::parse("one").unwrap(), "One".to_owned())],
            }],
            services: Vec::new(),
            about: None,
        };
        let html = crate::render::page(|| view! { <RulesPage props /> });
        assert!(
            html.contains("2 rules, 1 your own, 1 switched off"),
            "{html}"
        );
        assert!(html.contains("In your words. It rests: not in the price book: Edges."));
        assert!(html.contains("value=\"switch-on\""));
        assert!(html.contains("value=\"switch-off\""));
        assert!(html.contains("A circle."));
        assert!(!html.contains("<script>alert"));
    }
}
