//! Tests of the plan page and of what if: what they say, and to whom.

use leptos::prelude::*;
use shared_types::brief::{PairBrief, PairWord};
use shared_types::form::what_if::WhatIfField;
use shared_types::form::{Fields, FormErrors, Problem};
use shared_types::minutes::Minutes;
use shared_types::promise::chance::Odds;
use shared_types::promise::days::{BenchDay, Piece, Row, Whose};
use shared_types::promise::reason::Reason;
use shared_types::promise::turn::Waited;
use shared_types::promise::what_if::{Moved, Promised};
use shared_types::promise::workshop::{Misfit, Tag};
use shared_types::staff::Role;
use time::macros::date;

use super::what_if::{Answer, WhatIf, WhatIfPage};
use super::*;
use crate::back_office::said::said;
use crate::fixture::{self, december, desk, split_welt};

pub(crate) fn days_of(brief: PairBrief) -> PairDays {
    let odds = Odds {
        kept: 210,
        draws: 500,
    };
    PairDays {
        by: [
            date!(2026 - 12 - 12),
            date!(2026 - 12 - 15),
            date!(2026 - 12 - 16),
        ]
        .map(Some),
        odds,
        is_at_risk: true,
        instead: Some(date!(2026 - 12 - 15)),
        starts: Some(december(9, 9, 0)),
        finished: Some(december(12, 11, 0)),
        reasons: vec![Reason::Station {
            station: "outsole stitcher".to_owned(),
            pairs: 2,
            minutes: Minutes::new(480),
        }],
        waits: Vec::new(),
        brief,
    }
}

fn brief() -> PairBrief {
    let ticket = split_welt().ticket();
    PairBrief {
        word: PairWord::Nothing,
        promise: date!(2026 - 12 - 12),
        ..PairBrief::of(&ticket, &ticket.pairs[0])
    }
}

fn bench() -> Vec<BenchDay> {
    let piece = Piece {
        tag: Tag("4417\u{a0}A".to_owned()),
        step: fixture::WILD.to_owned(),
        hand: "Walt".to_owned(),
        station: Some("outsole stitcher".to_owned()),
        starts: december(9, 9, 0),
        ends: december(9, 11, 30),
    };
    let row = |whose, pieces| Row { whose, pieces };
    let hand = |name: &str, until| Whose::Hand {
        name: name.to_owned(),
        until,
    };
    let station = Whose::Station {
        name: "outsole stitcher".to_owned(),
    };
    vec![BenchDay {
        day: date!(2026 - 12 - 09),
        opens: december(9, 9, 0),
        closes: december(9, 17, 30),
        rows: vec![
            row(hand("Walt", Some(december(9, 17, 30))), vec![piece.clone()]),
            row(hand("<Ines>", None), Vec::new()),
            row(station, vec![piece]),
        ],
    }]
}

fn plan(role: Role, pair: PairDays) -> String {
    let state = PlanState::Planned(Planned {
        days: Days { pairs: vec![pair] },
        bench: bench(),
        kept: 0,
        least_work: 1,
    });
    let props = PlanProps {
        desk: desk(role),
        state,
    };
    said(&crate::render::page(|| view! { <PlanPage props /> }))
}

#[test]
fn a_promise_at_risk_says_how_sure_it_is_why_and_what_could_be_given() {
    let html = plan(Role::Bench, days_of(brief()));
    let says = " is promised for Sat 12 Dec and kept about 4 times in 10: it waits behind two pairs \
                for the outsole stitcher, 8 h. Tue 15 Dec could be given instead, 80 % sure.";
    assert!(html.contains(says), "{html}");
    let pair = paths::pair(fixture::BOOTS);
    assert!(html.contains(&format!("href=\"{pair}#words\"")), "{html}");
    assert!(
        html.contains("<dt>95 %</dt><dd>Wed 16 Dec, after the promise</dd>"),
        "{html}"
    );
    // What if is the owner's.
    assert!(!html.contains(&paths::what_if()), "{html}");
    let html = plan(Role::Owner, days_of(brief()));
    assert!(
        html.contains("1 of 1 promises would be kept instead of 0"),
        "{html}"
    );
    assert!(html.contains("?order=least-work"), "{html}");
}

#[test]
fn a_day_at_the_bench_is_drawn_and_stands_in_a_table() {
    let html = plan(Role::Bench, days_of(brief()));
    assert!(html.contains("aria-hidden=\"true\""), "{html}");
    assert!(html.contains("&lt;Ines&gt;, not in</text>"), "{html}");
    assert!(
        html.contains("<th scope=\"row\">09:00–11:30</th>"),
        "{html}"
    );
    assert!(html.contains("at the outsole stitcher"), "{html}");
    assert!(html.contains("What is planned on Wed 9 Dec"), "{html}");
    assert!(!html.contains("<script>alert"), "{html}");
}

#[test]
fn waiting_says_what_each_further_day_does() {
    let ticket = split_welt().ticket();
    let mut pair = days_of(PairBrief::of(&ticket, &ticket.pairs[0]));
    let answers = [(8, 12), (9, 12), (10, 15), (11, 16)];
    pair.waits = answers
        .map(|(answered, ready)| Waited {
            answered: december(answered, 9, 0),
            ready: Some(december(ready, 9, 0).to_utc().date()),
        })
        .into();
    let html = plan(Role::Counter, pair.clone());
    let says = "Answered now, with the most that was offered, it is ready by Sat 12 Dec; answered on \
                Thu 10 Dec, 09:00, by Tue 15 Dec; answered on Fri 11 Dec, 09:00, by Wed 16 Dec.";
    assert!(html.contains(says), "{html}");
    pair.waits.truncate(2);
    let html = plan(Role::Counter, pair);
    let says = "ready by Sat 12 Dec, and so it stays for an answer until Wed 9 Dec, 09:00.";
    assert!(html.contains(says), "{html}");
}

#[test]
fn where_no_plan_is_possible_the_page_says_what_to_do() {
    let page = |role| {
        let props = PlanProps {
            desk: desk(role),
            state: PlanState::Unplanned(Misfit::NobodyIn),
        };
        said(&crate::render::page(|| view! { <PlanPage props /> }))
    };
    let html = page(Role::Owner);
    assert!(
        html.contains("nobody is at the bench in the shop's open hours."),
        "{html}"
    );
    assert!(
        html.contains(&format!("href=\"{}\"", paths::hands())),
        "{html}"
    );
    let html = page(Role::Bench);
    assert!(html.contains("The owner can put it right."), "{html}");
    assert!(!html.contains(&paths::hands()), "{html}");
}

fn asked(fields: Fields, errors: FormErrors<WhatIfField>, answer: Answer) -> String {
    let brief = brief();
    let tag = Tag("4417\u{a0}A".to_owned());
    let props = WhatIf {
        desk: desk(Role::Owner),
        fields,
        errors,
        answer,
        hands: vec!["Walt".to_owned()],
        open: vec![tag.clone()],
        pairs: [(tag, brief)].into(),
        services: vec![(fixture::book()[0].id, fixture::line("Full soles"))],
    };
    said(&crate::render::page(|| view! { <WhatIfPage props /> }))
}

fn moved(tag: &str, kept: [u32; 2], days: [Date; 2]) -> Moved {
    let odds = |kept| Some(Odds { kept, draws: 500 });
    Moved {
        tag: Tag(tag.to_owned()),
        promised: Some(Promised {
            day: date!(2026 - 12 - 12),
            before: odds(kept[0]),
            after: odds(kept[1]),
        }),
        before: Some(days[0]),
        after: Some(days[1]),
    }
}

#[test]
fn lost_promises_stand_first_and_the_rush_job_has_its_day() {
    let days = [date!(2026 - 12 - 12), date!(2026 - 12 - 15)];
    let rush = Moved {
        before: None,
        ..moved("the rush job", [0, 500], days)
    };
    let answer = |is_help| Answer::Moved {
        moved: vec![
            moved("1002\u{a0}A", [100, 450], [days[1], days[0]]),
            moved("4417\u{a0}A", [450, 210], days),
            rush.clone(),
        ],
        rush: Tag("the rush job".to_owned()),
        is_help,
    };
    let html = asked(Fields::default(), FormErrors::default(), answer(false));
    assert!(html.contains("Nothing is promised by this page"), "{html}");
    assert!(
        html.contains("The rush job would be ready by Tue 15 Dec, 80 % sure."),
        "{html}"
    );
    let lost = html.find("Promises that would be lost").unwrap();
    let gained = html.find("Promises that would be kept after all").unwrap();
    assert!(lost < gained, "{html}");
    assert!(
        html.contains("90 % → 42 % sure. Ready, 80 % sure: Sat 12 Dec → Tue 15 Dec."),
        "{html}"
    );
    assert!(!html.contains("though there is more help"), "{html}");
    let html = asked(Fields::default(), FormErrors::default(), answer(true));
    assert!(
        html.contains("comes later though there is more help"),
        "{html}"
    );
}

#[test]
fn what_was_typed_is_kept_beside_what_is_wrong() {
    let mut fields = Fields::default();
    fields.set("closed", fixture::WILD);
    fields.set("first", "1003\u{a0}A");
    fields.set("away-0", "Walt");
    let mut errors = FormErrors::default();
    errors.add(WhatIfField::Closed, Problem::NotDaysAway);
    let html = asked(fields, errors, Answer::NotAsked);
    assert!(html.contains("One thing is to be put right"), "{html}");
    assert!(html.contains("id=\"closed-problem\""), "{html}");
    assert!(
        html.contains("aria-describedby=\"closed-hint closed-problem\""),
        "{html}"
    );
    assert!(
        html.contains("<option value=\"1003\u{a0}A\" selected")
            || html.contains("<option value=\"1003 A\" selected"),
        "{html}"
    );
    assert!(
        html.contains("<label for=\"away-0-days\">On these days</label>"),
        "{html}"
    );
    assert!(html.contains("method=\"get\""), "{html}");
    assert!(!html.contains("<script>alert"), "{html}");
}
