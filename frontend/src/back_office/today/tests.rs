//! What Today says of whom, and to whom.

use shared_types::brief::PairWord;
use shared_types::moment::Moment;
use shared_types::scope::offer::Word;
use shared_types::scope::sheet::ChoiceKey;
use shared_types::staff::Role;
use shared_types::stage::Stage;
use shared_types::ticket::Ticket;

use super::*;
use crate::back_office::plan::PairDays;
use crate::back_office::plan::tests::days_of;
use crate::back_office::said::said;
use crate::fixture::{BOOTS, Record, WILD_ESCAPED, december, desk, split_welt};

fn rendered(role: Role, now: Moment, pairs: Vec<PairBrief>) -> String {
    let mut desk = desk(role);
    desk.now = now;
    let props = Today {
        desk,
        pairs,
        days: Ok(Days::default()),
        troubled_letters: Vec::new(),
    };
    said(&crate::render::page(|| view! { <TodayPage props /> }))
}

fn briefs(ticket: &Ticket) -> Vec<PairBrief> {
    let pairs = ticket.pairs.iter();
    pairs.map(|pair| PairBrief::of(ticket, pair)).collect()
}

fn answered() -> Record {
    let mut record = split_welt();
    record.word(BOOTS, december(8, 18, 20), Word::Accept(ChoiceKey::A));
    record
}

#[test]
fn a_word_that_was_given_is_one_tap_from_work() {
    let pairs = briefs(&answered().ticket());
    let html = rendered(Role::Bench, december(9, 9, 0), pairs.clone());
    let yes = ": the customer said yes to “Leather welt and leather heel base”.";
    assert!(html.contains(yes), "{html}");
    assert!(html.contains(&format!("action=\"{}\"", paths::start_work(BOOTS))));
    let html = rendered(Role::Counter, december(9, 9, 0), pairs);
    assert!(!html.contains(&paths::start_work(BOOTS)), "{html}");
}

#[test]
fn an_open_offer_waits_and_a_lapsed_one_asks_to_ring() {
    let pairs = briefs(&split_welt().ticket());
    let html = rendered(Role::Counter, december(9, 9, 0), pairs.clone());
    assert!(
        html.contains("the offer stands until Thu 10 Dec, 17:30."),
        "{html}"
    );
    assert!(!html.contains("ring them"));
    let html = rendered(Role::Counter, december(11, 9, 0), pairs);
    assert!(html.contains("Nobody answered: ring them"), "{html}");
    assert!(!html.contains("the offer stands until"));
}

#[test]
fn a_question_is_shown_as_it_was_asked() {
    let html = rendered(
        Role::Counter,
        december(8, 16, 0),
        briefs(&split_welt().ticket()),
    );
    assert!(html.contains(WILD_ESCAPED), "{html}");
    assert!(!html.contains("<script>alert"));
}

#[test]
fn a_promise_that_has_passed_is_said_with_its_days() {
    let mut pairs = briefs(&answered().ticket());
    pairs[0].word = PairWord::Nothing;
    let late = pairs[0].promise + time::Duration::days(3);
    let late = desk(Role::Bench).shop.calendar.zone.moment(late.midnight());
    let html = rendered(Role::Bench, late, pairs);
    assert!(html.contains("3 days ago. Stage: teardown."), "{html}");
}

#[test]
fn after_the_last_reminder_the_program_asks_for_the_law_and_decides_nothing() {
    let mut pairs = briefs(&answered().ticket());
    pairs[0].stage = Stage::Ready;
    pairs[0].ready_at = Some(december(11, 16, 0));
    pairs[0].reminders = 1;
    let html = rendered(Role::Counter, december(20, 9, 0), pairs.clone());
    assert!(html.contains("1 reminder sent of 3."), "{html}");
    pairs[0].reminders = 3;
    let html = rendered(Role::Counter, december(30, 9, 0), pairs);
    assert!(html.contains("ask what local law requires"), "{html}");
    assert!(html.contains("19 days ago"));
}

#[test]
fn a_quiet_day_is_said_kindly() {
    let html = rendered(Role::Owner, december(8, 9, 0), Vec::new());
    assert!(html.contains("Nothing needs you just now."), "{html}");
}

#[test]
fn each_kind_of_need_has_its_own_group() {
    let mut pairs = briefs(&split_welt().ticket());
    let mut more = briefs(&answered().ticket());
    more[0].question = None;
    let mut shelf = more[0].clone();
    shelf.stage = Stage::Ready;
    shelf.word = PairWord::Nothing;
    shelf.ready_at = Some(december(2, 16, 0));
    shelf.reminders = 3;
    more[0].promise = time::Date::from_ordinal_date(2026, 340).expect("a day");
    pairs.append(&mut more);
    pairs.push(shelf);
    let html = rendered(Role::Owner, december(9, 9, 0), pairs);
    assert_eq!(html.matches("<h2").count(), 5, "{html}");
}

fn evening(pairs: Vec<PairBrief>, days: Vec<PairDays>) -> String {
    let props = Today {
        desk: desk(Role::Bench),
        pairs,
        days: Ok(Days { pairs: days }),
        troubled_letters: Vec::new(),
    };
    said(&crate::render::page(|| view! { <TodayPage props /> }))
}

#[test]
fn the_evening_stands_in_one_line_and_each_count_leads_to_its_pairs() {
    let mut at_risk = briefs(&answered().ticket()).remove(0);
    at_risk.word = PairWord::Nothing;
    at_risk.promise = time::macros::date!(2026 - 12 - 12);
    let mut ready = at_risk.clone();
    ready.pair = crate::fixture::SAFETY;
    ready.stage = Stage::Ready;
    ready.ready_at = Some(december(7, 16, 0));
    let days = vec![days_of(at_risk.clone())];
    let html = evening(vec![at_risk, ready], days);
    assert!(
        html.contains("<a href=\"#at-risk\">1 at risk</a>"),
        "{html}"
    );
    assert!(html.contains("<li>0 unanswered</li>"), "{html}");
    assert!(
        html.contains("<a href=\"#uncollected\">1 to be collected</a>"),
        "{html}"
    );
    assert!(
        html.contains("it waits behind two pairs for the outsole stitcher"),
        "{html}"
    );
}

#[test]
fn a_pair_that_waits_for_a_word_is_not_late_but_waiting() {
    let mut waiting = briefs(&split_welt().ticket()).remove(0);
    waiting.promise = time::macros::date!(2026 - 12 - 07);
    let days = vec![days_of(waiting.clone())];
    let html = evening(vec![waiting], days);
    assert!(!html.contains("was promised for"), "{html}");
    assert!(!html.contains("id=\"at-risk\""), "{html}");
    assert!(
        html.contains("<a href=\"#unanswered\">1 unanswered</a>"),
        "{html}"
    );
}

#[test]
fn without_a_plan_today_says_why_and_goes_on() {
    let props = Today {
        desk: desk(Role::Counter),
        pairs: briefs(&answered().ticket()),
        days: Err(Misfit::NobodyIn),
        troubled_letters: Vec::new(),
    };
    let html = said(&crate::render::page(|| view! { <TodayPage props /> }));
    assert!(html.contains("nobody is at the bench"), "{html}");
    assert!(html.contains("the customer said yes"), "{html}");
}
