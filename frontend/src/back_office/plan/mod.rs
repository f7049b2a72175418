//! The plan: all open pairs in order of work with their days, and what is planned at the bench.

pub mod bench_day;
pub mod pair_row;
#[cfg(all(test, feature = "ssr"))]
pub(crate) mod tests;
pub mod what_if;
pub mod words;

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::form::what_if::{WhatIfField, rule_code};
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::promise::chance::Odds;
use shared_types::promise::days::BenchDay;
use shared_types::promise::order::Rule;
use shared_types::promise::reason::Reason;
use shared_types::promise::turn::Waited;
use shared_types::promise::workshop::Misfit;
use shared_types::staff::Permission;
use time::Date;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::pair_words::unbroken;
use bench_day::BenchDayView;
use pair_row::PairRow;
use words::{Misfitting, counted, risk_words};

/// All open pairs with their days, in order of work.
#[derive(Clone, Debug, Default)]
pub struct Days {
    /// One for each.
    pub pairs: Vec<PairDays>,
}

/// An open pair with its days.
#[derive(Clone, Debug)]
pub struct PairDays {
    /// The pair.
    pub brief: PairBrief,
    /// By when it is ready with 50, 80 and 95 %, as far as a day is in sight.
    pub by: [Option<Date>; 3],
    /// How sure the given promise is.
    pub odds: Odds,
    /// Whether that is less than the shop wants, or hangs on material.
    pub is_at_risk: bool,
    /// The day that could be given with the shop's chance.
    pub instead: Option<Date>,
    /// When the plan begins on it.
    pub starts: Option<Moment>,
    /// When its last rest ends by the plan.
    pub finished: Option<Moment>,
    /// Where its time goes.
    pub reasons: Vec<Reason>,
    /// If it waits for its owner's word: its day for an answer now and at the next openings.
    pub waits: Vec<Waited>,
}

impl PairDays {
    /// Whether its day is only the earliest, because nobody knows when its material comes.
    pub fn hangs_on_material(&self) -> bool {
        self.reasons.contains(&Reason::Material)
    }

    /// Whether its promise is at risk by what the shop can do something about.
    pub fn is_at_risk_here(&self, now: Moment) -> bool {
        self.is_at_risk && !self.brief.waits_for_word(now)
    }
}

/// What the plan page shows.
#[derive(Clone, Debug)]
pub enum PlanState {
    /// A plan.
    Planned(Planned),
    /// Why there is none.
    Unplanned(Misfit),
}

/// A plan.
#[derive(Clone, Debug)]
pub struct Planned {
    /// The open pairs with their days.
    pub days: Days,
    /// The bench's coming days.
    pub bench: Vec<BenchDay>,
    /// How many promises are kept with the shop's chance.
    pub kept: usize,
    /// How many would be if the pairs with the least work went first.
    pub least_work: usize,
}

/// Props of the page.
#[derive(Clone, Debug)]
pub struct PlanProps {
    /// Who works on it.
    pub desk: Desk,
    /// What it shows.
    pub state: PlanState,
}

/// The plan.
#[component]
pub fn PlanPage(props: PlanProps) -> impl IntoView {
    let PlanProps { desk, state } = props;
    let may_ask = desk.staff.role.may(Permission::RunTheShop);
    let what_if = may_ask.then(|| {
        view! { " " <a href=paths::what_if()>"What if…"</a> }
    });
    let page = match state {
        PlanState::Unplanned(misfit) => view! { <Misfitting misfit may_set=may_ask /> }.into_any(),
        PlanState::Planned(plan) if plan.days.pairs.is_empty() => view! {
            <div class="empty">
                <p><b>"Nothing is open."</b></p>
                <p>"As soon as a pair is taken in, its days stand here."</p>
            </div>
        }
        .into_any(),
        PlanState::Planned(plan) => planned(&desk, plan),
    };
    view! {
        <BackRoom desk title="Plan".to_owned() here=Room::Plan>
            <div class="page-head">
                <h1>"Plan"</h1>
                <p>
                    "Worked out from who is in, what rests and what is agreed. It changes with every pair and promises nothing."
                    {what_if}
                </p>
            </div>
            {page}
        </BackRoom>
    }
}

fn planned(desk: &Desk, plan: Planned) -> AnyView {
    let Planned {
        days,
        bench,
        kept,
        least_work,
    } = plan;
    let open = days.pairs.len();
    let chance = unbroken(&desk.shop.chance.to_string());
    let risks = risks(desk, &days);
    let order = (least_work > kept).then(|| {
        let path = format!(
            "{}?{}={}",
            paths::what_if(),
            WhatIfField::Order.name(),
            rule_code(Rule::LeastWork)
        );
        let words = format!(
            "With the least work first, {least_work} of {open} promises would be kept instead of {kept}; some pair comes later for it. "
        );
        let link = desk.staff.role.may(Permission::RunTheShop).then(|| {
            view! { <a href=path>"See which"</a> }
        });
        view! { <p class="choice-rule">{words} {link}</p> }
    });
    let rows = days.pairs.into_iter().map(|pair| {
        view! { <li><PairRow desk=desk.clone() pair /></li> }
    });
    let rows = rows.collect_view();
    let zone = desk.shop.calendar.zone.clone();
    let bench = bench
        .into_iter()
        .map(|day| view! { <BenchDayView day zone=zone.clone() /> });
    let bench = bench.collect_view();
    view! {
        {risks}
        <section>
            <h2>"At the bench"</h2>
            <p>"The next open days, as planned with usual minutes. Each stitched run is one pair’s work; pricked holes are free time."</p>
            <div class="bench-days">{bench}</div>
        </section>
        <section>
            <h2>"In order of work"</h2>
            <p>{format!("{} open; {kept} of the promises are as sure as the {chance} that you want.", counted(open, "pair is", "pairs are"))}</p>
            {order}
            <ol class="plan-pairs">{rows}</ol>
        </section>
    }
    .into_any()
}

/// How many promises at risk stand open on the page; the others are folded away.
const RISKS_SHOWN: usize = 6;

fn risks(desk: &Desk, days: &Days) -> Option<AnyView> {
    let at_risk: Vec<&PairDays> = days.pairs.iter().filter(|pair| pair.is_at_risk).collect();
    if at_risk.is_empty() {
        return None;
    }
    let (first, others) = at_risk.split_at(at_risk.len().min(RISKS_SHOWN));
    let rows = |pairs: &[&PairDays]| {
        let rows = pairs.iter().map(|pair| risk(desk, pair));
        view! { <ul class="sentence-list">{rows.collect_view()}</ul> }
    };
    let others = (!others.is_empty()).then(|| {
        let words = counted(others.len(), "more promise", "more promises");
        view! { <details class="fold" data-print><summary>{words}</summary>{rows(others)}</details> }
    });
    let count = counted(at_risk.len(), "promise is", "promises are");
    let chance = unbroken(&desk.shop.chance.to_string());
    Some(
        view! {
            <section>
                <h2>"Promises at risk"</h2>
                <p>{format!("{count} less sure than the {chance} that you want.")}</p>
                {rows(first)}
                {others}
            </section>
        }
        .into_any(),
    )
}

fn risk(desk: &Desk, pair: &PairDays) -> impl IntoView + use<> {
    let path = format!("{}#words", paths::pair(pair.brief.pair));
    let about = words::called(&pair.brief);
    let label = format!("Tell the customer: {about}");
    view! {
        <li>
            <p><a href=paths::pair(pair.brief.pair)>{about}</a> {risk_words(pair, desk)}</p>
            <a class="act" data-act="plain" href=path aria-label=label>"Tell the customer"</a>
        </li>
    }
}
