//! The customer's pages, rendered from tickets that were built through the domain.

use leptos::prelude::*;
use shared_types::contact::CustomerName;
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::promise::answers::AnswerDay;
use shared_types::scope::offer::{OfferState, Refused, Via, Word};
use shared_types::scope::sheet::ChoiceKey;
use shared_types::staff::Role;
use shared_types::stage::Stage;
use shared_types::ticket::Ticket;
use shared_types::ticket::commands::WordOutcome;
use shared_types::ticket::event::{Actor, Audience};

use super::home::{Home, HomePage};
use super::link_unknown::{LinkUnknown, LinkUnknownPage};
use super::offer::{OfferPage, OfferView};
use super::receipt::{Receipt, ReceiptPage};
use super::ticket::{TicketPage, TicketView};
use super::trouble::{Trouble, TroublePage};
use super::word::{WordPage, WordReceipt};
use crate::document::{BackRoom, Flash, Room};
use crate::elements::offer_sheet::{OfferSheet, Press};
use crate::elements::pictures::Photos;
use crate::elements::question::Unasked;
use crate::fixture::{
    BOOTS, Record, SAFETY, SHOP_ONLY, STAFF, WILD, WILD_ESCAPED, boots, collected, december, desk,
    key, line, now, picture, shop, soles_and_heels, split_welt, split_welt_offer, two_pairs, words,
};
use crate::render::page;

const YES: &str = "Yes, do it: ";

fn ticket_page(ticket: Ticket, now: Moment, question: Option<Unasked>) -> String {
    let props = TicketView {
        shop: shop(),
        key: key(),
        ticket,
        now,
        flash: None,
        question,
    };
    page(|| view! { <TicketPage props /> })
}

fn offer_view(record: &Record, pair: shared_types::id::PairId, now: Moment) -> OfferView {
    let ticket = record.ticket();
    let found = ticket.pair(pair).unwrap();
    let mut offers = found
        .revisions
        .iter()
        .filter(|one| one.sheet.offer().is_some());
    let revision = offers.next().unwrap().clone();
    let state = found.offer_state(&revision, now).unwrap();
    OfferView {
        shop: shop(),
        key: key(),
        pair,
        revision,
        state,
        now,
        flash: None,
    }
}

fn offer_page(record: &Record, now: Moment) -> String {
    let props = offer_view(record, BOOTS, now);
    page(|| view! { <OfferPage props /> })
}

fn word_page(record: &Record, now: Moment) -> String {
    let OfferView {
        shop,
        key,
        revision,
        state,
        ..
    } = offer_view(record, BOOTS, now);
    let props = WordReceipt {
        shop,
        key,
        answer: revision.answers.last().unwrap().clone(),
        revision,
        state,
        now,
        flash: Some(Flash::Done("Your word is recorded.".to_owned())),
    };
    page(|| view! { <WordPage props /> })
}

fn receipt_page(record: &Record, name: &str) -> String {
    let props = Receipt {
        shop: shop(),
        customer: CustomerName::parse(name).unwrap(),
        ticket: record.ticket(),
        now: december(12, 10, 2),
        back: paths::ticket(key()),
    };
    page(|| view! { <ReceiptPage props /> })
}

fn answered(word: Word) -> Record {
    let mut record = split_welt();
    record.word(BOOTS, december(8, 18, 20), word);
    record
}

/// A ticket on which everything that can be typed is [`WILD`].
fn wild() -> Record {
    let mut pair = boots();
    pair.about.kind = line(WILD);
    let mut lines = soles_and_heels();
    lines[0].title = line(WILD);
    lines[0].reason = Some(words(WILD));
    let mut record = Record::taken_in(vec![pair], &lines);
    let mut offer = split_welt_offer();
    offer.found = words(WILD);
    offer.if_declined = words(WILD);
    offer.choices[0].title = line(WILD);
    offer.choices[0].words = Some(words(WILD));
    offer.pictures = vec![picture(WILD)];
    record.offer(BOOTS, december(8, 14, 10), offer);
    record.note(BOOTS, december(8, 14, 30), Audience::Customer, WILD);
    record.note(BOOTS, december(8, 14, 40), Audience::Question, WILD);
    record.note(BOOTS, december(8, 14, 50), Audience::Reply, WILD);
    record
}

/// What a reader sees: the page without its tags.
fn read(html: &str) -> String {
    let mut text = String::new();
    for part in html.split('<') {
        text.push_str(part.split_once('>').map_or(part, |(_, words)| words));
    }
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn each_page() -> Vec<(&'static str, String)> {
    let split = split_welt();
    let yes = answered(Word::Accept(ChoiceKey::A));
    let trouble = Trouble {
        title: "This page is not here".to_owned(),
        words: "Check the address.".to_owned(),
        onward: Some(("To the front page".to_owned(), paths::home())),
        request: Some("4711".to_owned()),
    };
    vec![
        ("ticket", ticket_page(split.ticket(), now(), None)),
        ("two pairs", ticket_page(two_pairs().ticket(), now(), None)),
        (
            "collected",
            ticket_page(collected().ticket(), december(13, 9, 0), None),
        ),
        ("offer", offer_page(&split, now())),
        ("lapsed", offer_page(&split, december(20, 9, 0))),
        ("answered", offer_page(&yes, december(8, 18, 25))),
        ("word", word_page(&yes, december(8, 18, 25))),
        ("receipt", receipt_page(&collected(), "Nadia Okafor")),
        (
            "home",
            page(|| view! { <HomePage props=Home { shop: shop() } /> }),
        ),
        (
            "link unknown",
            page(|| view! { <LinkUnknownPage props=LinkUnknown { shop: shop() } /> }),
        ),
        ("trouble", page(|| view! { <TroublePage props=trouble /> })),
    ]
}

#[test]
fn each_page_has_one_heading_one_main_part_and_nothing_inline() {
    for (name, html) in each_page() {
        assert_eq!(html.matches("<h1").count(), 1, "{name}");
        assert_eq!(html.matches("<main id=\"main\"").count(), 1, "{name}");
        assert!(html.contains("href=\"#main\""), "{name}");
        assert!(html.contains("content=\"noindex\""), "{name}");
        for inline in [" style=", " onclick=", "javascript:"] {
            assert!(!html.contains(inline), "{name}: {inline}");
        }
    }
}

#[test]
fn headings_go_down_one_step_at_a_time() {
    for (name, html) in each_page() {
        let mut before = '0';
        for level in html
            .split("<h")
            .skip(1)
            .filter_map(|part| part.chars().next())
        {
            if level.is_ascii_digit() {
                let step = level
                    .to_digit(10)
                    .unwrap()
                    .saturating_sub(before.to_digit(10).unwrap());
                assert!(step <= 1, "{name}: h{level} after h{before}");
                before = level;
            }
        }
    }
}

#[test]
fn nothing_that_is_for_the_shop_only_reaches_a_customer() {
    for (name, html) in each_page() {
        for secret in [SHOP_ONLY, &STAFF.to_string(), &key().digest().to_string()] {
            assert!(!html.contains(secret), "{name} shows {secret}");
        }
    }
}

#[test]
fn what_people_type_is_shown_and_never_run() {
    let mut record = wild();
    let again = Some(Unasked {
        pair: None,
        words: format!("</textarea>{WILD}"),
        problem: Some("Please shorten it.".to_owned()),
    });
    let mut pages = vec![
        ticket_page(record.ticket(), now(), again),
        offer_page(&record, now()),
        receipt_page(&record, WILD),
    ];
    record.word(BOOTS, now(), Word::Accept(ChoiceKey::A));
    pages.push(word_page(&record, now()));
    for html in pages {
        assert!(!html.contains("<script>alert"), "{html}");
        assert!(!html.contains(&format!("\"{WILD}\"")), "{html}");
        assert!(html.contains(WILD_ESCAPED), "{html}");
        assert!(!html.contains("</textarea>&lt;script"), "{html}");
    }
}

#[test]
fn an_open_offer_has_a_button_for_each_word_that_says_act_money_and_day() {
    let html = offer_page(&split_welt(), now());
    let digest = offer_view(&split_welt(), BOOTS, now()).revision.digest;
    assert!(html.contains(&format!("action=\"{}\"", paths::give_word(key(), digest))));
    assert!(html.contains("name=\"turn\" value=\"0\""));
    for (value, words) in [
        ("a", "Yes, do it: $255.50 more, ready Sat 12 Dec"),
        ("b", "Yes, do it: $180.59 more, ready Fri 11 Dec"),
        ("c", "Yes, do it: $144.66 less, ready Fri 11 Dec"),
        ("decline", "No, go on as agreed: $178.66, ready Fri 11 Dec"),
    ] {
        assert!(
            html.contains(&format!("name=\"word\" value=\"{value}\"")),
            "{value}"
        );
        assert!(html.contains(words), "{words}");
    }
    assert!(read(&html).contains("Answer by Thu 10 Dec, 17:30, and these prices and days hold."));
    assert!(read(&html).contains("take your answer back for 24 h"));
}

#[test]
fn a_safety_pair_is_agreed_only_with_the_tick_and_declined_without() {
    let props = offer_view(&two_pairs(), SAFETY, now());
    let html = page(|| view! { <OfferPage props /> });
    assert!(
        html.contains("name=\"acknowledged\" value=\"yes\" required"),
        "{html}"
    );
    assert!(read(&html).contains("This pair carries a safety mark."));
    let buttons: Vec<&str> = html
        .split("<button")
        .filter(|part| part.contains("name=\"word\""))
        .collect();
    let free: Vec<bool> = buttons
        .iter()
        .map(|part| part.contains("formnovalidate"))
        .collect();
    assert_eq!(free, [false, true]);
    let plain = offer_page(&split_welt(), now());
    assert!(!plain.contains("acknowledged"));
}

#[test]
fn the_enter_key_gives_no_word() {
    let html = offer_page(&split_welt(), now());
    let form = html.split("class=\"offer-form\"").nth(1).unwrap();
    let first = form.split("<button").nth(1).unwrap();
    assert!(
        first.starts_with(" type=\"submit\" disabled hidden"),
        "{first}"
    );
}

#[test]
fn a_day_that_hangs_on_an_early_answer_says_until_when_and_what_comes_later() {
    let mut record = Record::taken_in(vec![boots()], &soles_and_heels());
    let mut offer = split_welt_offer();
    let day = |day| shop().calendar.zone.day(december(day, 12, 0));
    let step = |answered_by, ready_by| AnswerDay {
        answered_by,
        ready_by,
    };
    offer.choices[0].scope.ready_by = day(17);
    offer.choices[0].days = vec![
        step(december(9, 11, 0), day(17)),
        step(offer.answer_by, day(18)),
    ];
    record.offer(BOOTS, december(8, 14, 10), offer);
    let early = read(&offer_page(&record, december(9, 11, 0)));
    assert!(
        early.contains("Answer by Wed 9 Dec, 11:00 to keep this day; after that it is Fri 18 Dec.")
    );
    assert!(early.contains("more, ready Thu 17 Dec"), "{early}");
    let late = read(&offer_page(&record, december(9, 11, 1)));
    assert!(late.contains("more, ready Fri 18 Dec"), "{late}");
    assert!(!late.contains("to keep this day"));
}

#[test]
fn a_preview_reads_as_the_offer_does_and_does_nothing() {
    let sheet = |press: Press, photos: Photos| {
        let OfferView {
            revision,
            state,
            now,
            ..
        } = offer_view(&split_welt(), BOOTS, now());
        let zone = shop().calendar.zone;
        page(|| view! { <OfferSheet revision state now zone photos press /> })
    };
    let inert = sheet(Press::Inert, Photos::Shop);
    let live = sheet(Press::Live("/word".to_owned()), Photos::Portal(key()));
    assert_eq!(read(&inert), read(&live));
    assert!(!inert.contains("<form") && inert.contains("/shop/photos/"));
    assert_eq!(inert.matches("disabled").count(), 4);
}

/// What was agreed can't be done any more: a no promises nothing of it, neither before nor after it
/// was said.
#[test]
fn a_no_does_not_go_on_with_what_can_t_be_done() {
    let mut record = Record::taken_in(vec![boots()], &soles_and_heels());
    let mut offer = split_welt_offer();
    offer.agreed_fails = true;
    record.offer(BOOTS, december(8, 14, 10), offer);
    let open = read(&offer_page(&record, now()));
    assert!(
        open.contains("No to all of this; talk with me first"),
        "{open}"
    );
    assert!(open.contains("can’t be done soundly on your pair as we found it"));
    assert!(!open.contains("go on as agreed"), "{open}");
    record.word(BOOTS, december(8, 18, 20), Word::Decline);
    let said = read(&offer_page(&record, december(8, 18, 25)));
    assert!(
        said.contains("No to what was offered, said Tue 8 Dec, 18:20"),
        "{said}"
    );
    assert!(!said.contains("go on as agreed"), "{said}");
    let plain = read(&offer_page(&split_welt(), now()));
    assert!(plain.contains("No, go on as agreed: "), "{plain}");
}

#[test]
fn an_answered_offer_says_what_was_said_and_can_be_taken_back_until_the_bench_starts() {
    let mut record = answered(Word::Accept(ChoiceKey::A));
    let html = offer_page(&record, december(8, 18, 25));
    let said = "Yes to “Leather welt and leather heel base”, said Tue 8 Dec, 18:20: $434.16 together, ready Sat 12 Dec.";
    assert!(read(&html).contains(said), "{}", read(&html));
    assert!(html.contains("/take-back\"") && html.contains("name=\"turn\" value=\"0\""));
    assert!(read(&html).contains("until Wed 9 Dec, 18:20"));
    assert!(!html.contains(YES));
    record.moved(BOOTS, december(9, 9, 0), Stage::Structure);
    let html = offer_page(&record, december(9, 9, 5));
    assert!(!html.contains("/take-back\""));
    assert!(read(&html).contains("It can no longer be taken back here."));
}

#[test]
fn what_is_no_longer_open_has_no_buttons_and_says_why() {
    let lapsed = offer_page(&split_welt(), december(20, 9, 0));
    let mut record = split_welt();
    let withdrawn = record
        .ticket()
        .withdraw_offer(BOOTS, Some(words("We miscounted.")), now());
    record.add(now(), Actor::Staff(STAFF), &withdrawn.unwrap());
    let withdrawn = offer_page(&record, now());
    let mut superseding = split_welt();
    superseding.offer(BOOTS, december(8, 16, 0), split_welt_offer());
    let superseded = offer_page(&superseding, december(8, 16, 5));
    for (html, why) in [
        (
            lapsed,
            "It could be answered until Thu 10 Dec, 17:30. Nothing was decided for you",
        ),
        (withdrawn, "We miscounted."),
        (superseded, "A newer offer or agreement took its place"),
    ] {
        assert!(read(&html).contains(why), "{}", read(&html));
        assert!(!html.contains(YES) && !html.contains("name=\"word\""));
    }
}

#[test]
fn a_day_that_has_passed_is_not_promised_again() {
    let mut record = Record::taken_in(vec![boots()], &soles_and_heels());
    let mut offer = split_welt_offer();
    offer.answer_by = december(18, 17, 30);
    offer.ready_if_declined = shop().calendar.zone.day(december(19, 9, 0));
    record.offer(BOOTS, december(16, 10, 0), offer);
    let html = offer_page(&record, december(16, 10, 5));
    assert!(
        html.contains("No, go on as agreed: $178.66, ready Sat 19 Dec"),
        "{html}"
    );
    assert!(!read(&html).contains("ready Fri 11 Dec $"));
    let ticket = read(&ticket_page(record.ticket(), december(16, 10, 5), None));
    assert!(
        ticket.contains("we gave you that day and have not kept it"),
        "{ticket}"
    );
}

#[test]
fn the_ticket_asks_first_for_what_it_needs() {
    let html = ticket_page(two_pairs().ticket(), now(), None);
    assert_eq!(html.matches("notice-card").count(), 1);
    assert_eq!(html.matches("See what we found and choose").count(), 2);
    assert!(html.find("notice-card").unwrap() < html.find("class=\"where\"").unwrap());
    assert!(html.contains("<select id=\"pair\" name=\"pair\">"));
    assert!(read(&html).contains("Your two pairs"));
}

#[test]
fn a_question_that_was_refused_is_kept_with_its_pair_and_what_is_wrong_beside_it() {
    let again = Unasked {
        pair: Some(SAFETY),
        words: "My question".to_owned(),
        problem: Some("Please shorten it.".to_owned()),
    };
    let html = ticket_page(two_pairs().ticket(), now(), Some(again));
    assert!(html.contains("<details open class=\"question fold\""));
    assert!(html.contains(">My question</textarea>") && html.contains("aria-invalid=\"true\""));
    assert!(read(&html).contains("Please shorten it."));
    let (_, after) = html.split_once("name=\"pair\"").unwrap();
    let (chosen, _) = after.split_once(" selected").unwrap();
    assert!(chosen.ends_with(&format!("value=\"{SAFETY}\"")), "{chosen}");
}

#[test]
fn a_ready_pair_is_announced_with_what_is_due_and_its_calendar_entry() {
    let mut record = answered(Word::Accept(ChoiceKey::A));
    record.moved(BOOTS, december(11, 16, 0), Stage::Ready);
    let html = ticket_page(record.ticket(), december(12, 9, 0), None);
    let text = read(&html);
    for words in [
        "Ready for you",
        "Due for everything on this ticket: $434.16.",
        "We are open Tue–Fri 09:00–17:30, Sat 09:00–13:00.",
        "Yes to “Leather welt and leather heel base”",
    ] {
        assert!(text.contains(words), "{words} in {text}");
    }
    assert!(html.contains(&paths::pickup(key())));
}

#[test]
fn the_receipt_of_a_word_shows_the_seal_and_what_was_agreed() {
    let record = answered(Word::Accept(ChoiceKey::A));
    let digest = offer_view(&record, BOOTS, now()).revision.digest;
    let text = read(&word_page(&record, december(8, 18, 25)));
    for words in [
        "Your word, kept",
        "Tue 8 Dec 2026, 18:20, on your page, by your link",
        "$434.16 ($255.50 more than agreed before)",
        "Sat 12 Dec 2026",
        "Added. The fibreboard base crumbles.",
        &digest.short(),
        &digest.to_string(),
        "You can take this answer back until Wed 9 Dec, 18:20",
    ] {
        assert!(text.contains(words), "{words} in {text}");
    }
    let no = read(&word_page(&answered(Word::Decline), december(8, 18, 25)));
    assert!(
        no.contains("No, go on as agreed") && no.contains("$178.66"),
        "{no}"
    );
}

#[test]
fn a_word_that_was_taken_back_says_so_and_offers_nothing_more() {
    let mut record = answered(Word::Accept(ChoiceKey::B));
    let digest = offer_view(&record, BOOTS, now()).revision.digest;
    let via = Via::Link {
        link: key().digest(),
    };
    let back: Result<WordOutcome, Refused> =
        record
            .ticket()
            .take_back(digest, 0, via, december(8, 19, 0));
    let WordOutcome::Record(event) = back.unwrap() else {
        unreachable!("the word stood");
    };
    record.add(december(8, 19, 0), Actor::Customer, &event);
    let html = word_page(&record, december(8, 19, 1));
    assert!(read(&html).contains("Your word, taken back"));
    assert!(!html.contains("/take-back\""));
    let again = offer_view(&record, BOOTS, december(8, 19, 1));
    assert!(matches!(again.state, OfferState::Open { .. }));
    let offer = offer_page(&record, december(8, 19, 1));
    assert!(offer.contains("name=\"turn\" value=\"1\""));
}

#[test]
fn the_receipt_shows_payments_rounding_and_the_hand_over() {
    let text = read(&receipt_page(&collected(), "Nadia Okafor"));
    for words in [
        "Receipt, ticket 4417",
        "Handed over Sat 12 Dec 2026, 10:01 to Nadia Okafor.",
        "Paid in cash, Sat 12 Dec 2026, 10:00 $434.15 changed hands, after rounding for cash.",
        "Due$0.00",
    ] {
        assert!(text.contains(words), "{words} in {text}");
    }
}

#[test]
fn a_link_that_opens_nothing_gives_no_reason_away() {
    let text = read(&page(
        || view! { <LinkUnknownPage props=LinkUnknown { shop: shop() } /> },
    ));
    assert!(
        text.contains("ring us: 555-0134") && text.contains("claim number"),
        "{text}"
    );
    for hint in ["revoked", "replaced", "expired", "stopped", "wrong"] {
        assert!(!text.contains(hint), "{hint}");
    }
}

#[test]
fn each_person_sees_the_rooms_they_may_enter() {
    let rooms = |role| {
        let desk = desk(role);
        read(&page(|| {
            view! {
                <BackRoom desk title="Today".to_owned() here=Room::Today><h1>"Today"</h1></BackRoom>
            }
        }))
    };
    let (owner, bench, counter) = (rooms(Role::Owner), rooms(Role::Bench), rooms(Role::Counter));
    assert!(
        owner.contains("TodayBenchPlanTake inLettersPrice bookSettingsPeople"),
        "{owner}"
    );
    assert!(
        counter.contains("Take inLetters") && !counter.contains("Settings"),
        "{counter}"
    );
    assert!(
        bench.contains("TodayBenchPlanFind") && !bench.contains("Letters"),
        "{bench}"
    );
}
