//! A plan in words, for its own page and for Today.

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::promise::chance::Chance;
use shared_types::promise::reason::Reason;
use shared_types::promise::turn::Waited;
use shared_types::promise::workshop::Misfit;
use time::Date;

use super::PairDays;
use crate::document::Desk;
use crate::elements::pair_words::{called_out, unbroken};
use crate::elements::when::{Day, When};

/// `Ticket 1042 A, dark green lace-up work boots, EU 44`.
pub fn called(brief: &PairBrief) -> String {
    format!("Ticket {}", called_out(brief))
}

/// `1 pair is`, `3 pairs are`.
pub fn counted(count: usize, one: &str, many: &str) -> String {
    match count {
        1 => format!("1 {one}"),
        count => format!("{count} {many}"),
    }
}

/// Where most of a pair's waiting goes, or most of its time if it waits for nothing.
pub fn why(reasons: &[Reason]) -> Option<String> {
    reasons.first().map(ToString::to_string)
}

/// A chance that does not break: `80 %`.
pub fn sure(chance: Chance) -> String {
    format!("{} sure", unbroken(&chance.to_string()))
}

/// How sure its promise is, why, and which day could be given instead; goes on after its name.
pub fn risk_words(pair: &PairDays, desk: &Desk) -> AnyView {
    let why = why(&pair.reasons).map(|why| format!(": it {why}"));
    let is_past = pair.brief.promise < desk.shop.calendar.zone.day(desk.now);
    let how = if is_past {
        " was promised for "
    } else {
        " is promised for "
    };
    let kept = match pair.odds.kept {
        _ if is_past || pair.hangs_on_material() => None,
        0 => Some(" and will not be kept as things stand".to_owned()),
        _ => Some(format!(" and kept {}", pair.odds.words())),
    };
    view! { {how} <Day day=pair.brief.promise /> {kept} {why} ". " {instead_words(pair, desk)} }
        .into_any()
}

/// The day that could be given; nothing if the promise is that sure already.
pub fn instead_words(pair: &PairDays, desk: &Desk) -> AnyView {
    match pair.instead {
        Some(day) if pair.hangs_on_material() => {
            view! { "If it came now: " <Day day=day /> "." }.into_any()
        }
        Some(day) if day > pair.brief.promise => {
            let sure = format!(" could be given instead, {}.", sure(desk.shop.chance));
            view! { <Day day=day /> {sure} }.into_any()
        }
        Some(_) => ().into_any(),
        None => "No day is in sight.".into_any(),
    }
}

/// What each further day of waiting does to a pair: `Answered now it is ready by Sat 12 Dec; from
/// Thu 10 Dec, 09:00 on by Tue 15 Dec.` Answers that lead to the same day stand together.
pub fn waiting_words(waits: &[Waited], desk: &Desk) -> AnyView {
    let mut steps: Vec<(Option<Moment>, Option<Date>)> = Vec::new();
    for (place, waited) in waits.iter().enumerate() {
        if steps.last().is_none_or(|(_, day)| *day != waited.ready) {
            let from = (place > 0).then_some(waited.answered);
            steps.push((from, waited.ready));
        }
    }
    if steps.is_empty() {
        return ().into_any();
    }
    let last = waits.last().map(|waited| waited.answered);
    let stays = steps.len() == 1;
    let zone = &desk.shop.calendar.zone;
    let words = steps.into_iter().map(|(from, day)| {
        let begins = match from {
            None => {
                view! { "Answered now, with the most that was offered, it is ready by " }.into_any()
            }
            Some(at) => view! { "; answered on " <When at zone=zone.clone() /> ", by " }.into_any(),
        };
        let day = day.map_or_else(
            || "a day that is not in sight".into_any(),
            |day| view! { <Day day /> }.into_any(),
        );
        view! { {begins} {day} }
    });
    let words = words.collect_view();
    let stays = last.filter(|_| stays).map(|at| {
        view! { ", and so it stays for an answer until " <When at zone=zone.clone() /> }
    });
    view! { {words} {stays} "." }.into_any()
}

/// Why there is no plan, and what to do instead.
#[component]
pub fn Misfitting(
    /// What does not fit.
    misfit: Misfit,
    /// Whether this person can put it right.
    may_set: bool,
) -> impl IntoView {
    let (words, path) = match &misfit {
        Misfit::NobodyIn => (
            "Say who is at the bench on which days, and when the shop is open.",
            paths::hands(),
        ),
        Misfit::NameTwice { .. } | Misfit::NoSuchHand { .. } | Misfit::NoSuchStation { .. } => (
            "Give each hand and each station a name of its own.",
            paths::hands(),
        ),
        Misfit::NeverInOneSitting { .. } | Misfit::RestUpsideDown { .. } => (
            "Look at the minutes and rests of this work in the price book.",
            paths::prices(),
        ),
        Misfit::NotBefore { .. } | Misfit::NoSuchPair { .. } => {
            ("Look at what is open and ask again.", paths::plan())
        }
    };
    let act = may_set.then(|| view! { <p><a class="act" href=path>"Put it right"</a></p> });
    let ask = (!may_set).then_some(" The owner can put it right.");
    view! {
        <div class="empty">
            <p><b>"No day can be worked out: " {misfit.to_string()} "."</b></p>
            <p>{words} {ask}</p>
            {act}
        </div>
    }
}
