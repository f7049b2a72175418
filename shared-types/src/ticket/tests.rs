//! What a ticket promises: exactly one word on exactly what was shown, a record that shows every
//! change, money that is never more than agreed.

use std::collections::BTreeSet;

use proptest::prelude::{ProptestConfig, prop_assert, prop_assert_eq, proptest};
use time::macros::datetime;
use time::{Date, Duration};

use super::chain::{self, StoredEntry};
use super::commands::{NewNote, RuleBroken, WordGiven, WordOutcome, take_in};
use super::event::{Actor, Audience, Event, PairTakenIn, PaymentMethod};
use super::{Construction, Pair, PairAbout, Rating, Tag, Ticket, TicketNumber};
use crate::adjust::ScopeTerms;
use crate::bench::field::Field;
use crate::bench::length::Reading;
use crate::bench::measurements::Measurements;
use crate::contact::Email;
use crate::digest::Digest;
use crate::id::{CustomerId, NoteId, PairId, StaffId, TicketId};
use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::money::Money;
use crate::pricebook::Service;
use crate::promise::answers::AnswerDay;
use crate::promise::calendar::Hours;
use crate::promise::new_pair::NewPairs;
use crate::promise::open_work::OpenWork;
use crate::scope::offer::{OfferState, Refused, Via, Word};
use crate::scope::sheet::{Agreement, Choice, ChoiceKey, Given, Matter, Offer, Sheet};
use crate::scope::{Scope, ScopeLine, Side, Work};
use crate::shop::Shop;
use crate::stage::{Hold, Stage};
use crate::text::{Line, Words};

const ID: TicketId = TicketId::from_bytes([1; 16]);
const PAIR: PairId = PairId::from_bytes([2; 16]);
const BENCH: Actor = Actor::Staff(StaffId::from_bytes([3; 16]));

fn line(text: &str) -> Line {
    Line::parse(text).unwrap()
}

fn words(text: &str) -> Words {
    Words::parse(text).unwrap()
}

fn noon() -> Moment {
    Moment::from_utc(datetime!(2026-03-10 12:00 UTC))
}

fn shop() -> Shop {
    let email = Email::parse("bench@example.com").unwrap();
    let mut shop = Shop::new(line("Juniper Row"), words("Alder Falls"), email);
    shop.prices.hourly = Money::parse("60", shop.currency()).unwrap();
    shop.calendar.week = [Hours::parse("9:00", "17:00").unwrap(); 7];
    shop.terms.reminder_days = vec![7, 21];
    shop
}

pub(crate) fn work(title: &str, minutes: u32) -> ScopeLine {
    ScopeLine {
        service: None,
        title: line(title),
        reason: None,
        side: Side::Pair,
        stage: Stage::Soling,
        minutes: Minutes::new(minutes),
        rest: Minutes::ZERO,
        material: Money::zero(shop().currency()),
        uses: Vec::new(),
        set_price: None,
    }
}

fn scope(lines: Vec<ScopeLine>) -> Scope {
    let terms = ScopeTerms::PLAIN;
    let services: [Service; 0] = [];
    let open = OpenWork::new(&shop(), &services, &[], noon());
    let board = open.board().unwrap();
    let mut days = NewPairs::of(&open.practice, Some(&board));
    Scope::work_out(Work { lines, terms }, &shop(), |lines| {
        days.first_day(lines)
    })
    .unwrap()
}

/// A pair that was built so, with this work agreed.
pub(crate) fn pair_built(construction: Construction, lines: Vec<ScopeLine>) -> Pair {
    let mut pair = Record::new(Rating::Ordinary).ticket().pairs.remove(0);
    pair.about.construction = construction;
    pair.revisions[0].sheet.agreed.lines = lines;
    pair
}

/// A ticket with its record, to which events are added as the server would add them.
struct Record {
    entries: Vec<StoredEntry>,
    now: Moment,
}

impl Record {
    fn new(rating: Rating) -> Self {
        let about = PairAbout {
            kind: line("lace-up work boots"),
            colour: line("dark green"),
            size: None,
            construction: Construction::Welt270,
            rating,
            wrong: words("Soles worn through"),
        };
        let agreement = Agreement {
            deposit: None,
            given: Given::AtTheCounter,
            words: None,
            cautions: rating.cautions(),
        };
        let matter = (
            scope(vec![work("New soles", 100)]),
            Matter::Agreement(agreement),
        );
        let place = (
            TicketNumber::FIRST,
            Tag::at(0).unwrap(),
            line("dark green boots"),
        );
        let sheet = Sheet::next(&shop(), place, None, matter, noon());
        let digest = sheet.digest().unwrap();
        let taken = PairTakenIn {
            id: PAIR,
            tag: Tag::at(0).unwrap(),
            about,
        };
        let customer = CustomerId::from_bytes([4; 16]);
        let link = Digest::of(b"key");
        let mut record = Self {
            entries: Vec::new(),
            now: noon(),
        };
        for event in take_in(
            TicketNumber::FIRST,
            customer,
            link,
            vec![(taken, sheet, digest)],
        ) {
            record.add(BENCH, &event);
        }
        record
    }

    fn add(&mut self, actor: Actor, event: &Event) {
        let before = self.entries.last().map_or(Digest::ZERO, |entry| entry.link);
        let seq = u32::try_from(self.entries.len()).unwrap();
        let entry = chain::link(ID, (seq, before), self.now, actor, event).unwrap();
        self.entries.push(entry);
    }

    fn ticket(&self) -> Ticket {
        Ticket::replay(ID, &self.entries).unwrap()
    }

    fn pass(&mut self, time: Duration) {
        self.now = self.now.plus(time);
    }

    /// Sends an offer of two choices and gives its digest.
    fn offers(&mut self) -> Digest {
        let ticket = self.ticket();
        let pair = &ticket.pairs[0];
        let choice = |key, title: &str, minutes| {
            let all = [pair.agreed().lines.clone(), vec![work(title, minutes)]].concat();
            let scope = scope(all);
            Choice {
                key,
                title: line(title),
                words: None,
                days: self.days(scope.ready_by),
                scope,
            }
        };
        let offer = Offer {
            found: words("The welt is split at both balls."),
            discoveries: BTreeSet::new(),
            pictures: Vec::new(),
            choices: vec![
                choice(ChoiceKey::A, "Leather welt", 150),
                choice(ChoiceKey::B, "Synthetic welt", 130),
            ],
            agreed_fails: false,
            if_declined: words("The old welt can't carry a stitched sole."),
            ready_if_declined: pair.promise(),
            days_if_declined: Vec::new(),
            answer_by: self.now.plus(Duration::days(3)),
            take_back: Minutes::new(60),
            cautions: pair.about.rating.cautions(),
        };
        let matter = (pair.standing_scope(), Matter::Offer(offer));
        let place = (ticket.number, pair.tag, line("dark green boots"));
        let sheet = Sheet::next(&shop(), place, pair.revisions.last(), matter, self.now);
        let digest = sheet.digest().unwrap();
        let event = ticket.make_sheet(PAIR, sheet, digest, self.now).unwrap();
        self.add(BENCH, &event);
        digest
    }

    /// A day that is kept for a day, and then one at the end of time.
    fn days(&self, soonest: Date) -> Vec<AnswerDay> {
        let day = |days, ready_by| AnswerDay {
            answered_by: self.now.plus(Duration::days(days)),
            ready_by,
        };
        vec![day(1, soonest), day(3, Date::MAX)]
    }

    fn gives(&mut self, sheet: Digest, turn: u32, word: Word) -> Result<bool, Refused> {
        let given = WordGiven {
            sheet,
            turn,
            read_at: None,
            word,
            via: Via::Link {
                link: Digest::of(b"key"),
            },
            acknowledged: false,
        };
        match self.ticket().give_word(given, self.now)? {
            WordOutcome::Record(event) => {
                self.add(Actor::Customer, &event);
                Ok(true)
            }
            WordOutcome::StandsAlready => Ok(false),
        }
    }

    fn takes_back(&mut self, sheet: Digest, turn: u32) -> Result<bool, Refused> {
        let via = Via::Link {
            link: Digest::of(b"key"),
        };
        match self.ticket().take_back(sheet, turn, via, self.now)? {
            WordOutcome::Record(event) => {
                self.add(Actor::Customer, &event);
                Ok(true)
            }
            WordOutcome::StandsAlready => Ok(false),
        }
    }

    fn moves(&mut self, to: Stage) -> Result<(), RuleBroken> {
        let event = self.ticket().move_stage(PAIR, to)?;
        self.add(BENCH, &event);
        Ok(())
    }

    fn agreed_minutes(&self) -> u32 {
        self.ticket().pairs[0].agreed().minutes().get()
    }
}

const YES_A: Word = Word::Accept(ChoiceKey::A);
const YES_B: Word = Word::Accept(ChoiceKey::B);

#[test]
fn a_second_tap_changes_nothing_and_another_answer_is_refused() {
    let mut record = Record::new(Rating::Ordinary);
    let sheet = record.offers();
    assert_eq!(record.agreed_minutes(), 100);
    assert_eq!(record.gives(sheet, 0, YES_A), Ok(true));
    assert_eq!(record.gives(sheet, 0, YES_A), Ok(false));
    assert_eq!(record.gives(sheet, 0, YES_B), Err(Refused::AlreadyAnswered));
    assert_eq!(
        record.gives(sheet, 0, Word::Decline),
        Err(Refused::AlreadyAnswered)
    );
    assert_eq!(record.agreed_minutes(), 250);
}

#[test]
fn a_word_can_be_taken_back_in_time_and_given_anew() {
    let mut record = Record::new(Rating::Ordinary);
    let sheet = record.offers();
    record.gives(sheet, 0, YES_A).unwrap();
    record.pass(Duration::minutes(59));
    assert_eq!(record.takes_back(sheet, 0), Ok(true));
    assert_eq!(record.takes_back(sheet, 0), Ok(false));
    assert_eq!(record.agreed_minutes(), 100);
    // A tab that still shows the first turn can't answer the second.
    assert_eq!(record.gives(sheet, 0, YES_A), Err(Refused::PageTooOld));
    assert_eq!(record.gives(sheet, 1, YES_B), Ok(true));
    assert_eq!(record.agreed_minutes(), 230);
    record.pass(Duration::minutes(60));
    assert_eq!(record.takes_back(sheet, 1), Err(Refused::TakeBackOver));
}

#[test]
fn the_bench_that_has_started_keeps_the_word() {
    let mut record = Record::new(Rating::Ordinary);
    let sheet = record.offers();
    record.gives(sheet, 0, YES_A).unwrap();
    record.pass(Duration::minutes(5));
    let started = record.ticket().start_work(PAIR).unwrap();
    record.add(BENCH, &started);
    assert_eq!(record.takes_back(sheet, 0), Err(Refused::BenchStarted));
    assert!(record.ticket().pairs[0].fresh_word().is_none());
}

#[test]
fn an_offer_that_is_replaced_withdrawn_or_lapsed_takes_no_word() {
    let mut record = Record::new(Rating::Ordinary);
    let first = record.offers();
    let second = record.offers();
    assert_eq!(record.gives(first, 0, YES_A), Err(Refused::Superseded));
    let withdrawn = record
        .ticket()
        .withdraw_offer(PAIR, None, record.now)
        .unwrap();
    record.add(BENCH, &withdrawn);
    assert_eq!(record.gives(second, 0, YES_A), Err(Refused::Withdrawn));
    let third = record.offers();
    record.pass(Duration::days(3));
    assert_eq!(record.gives(third, 0, YES_A), Err(Refused::Lapsed));
    assert_eq!(
        record.gives(Digest::of(b"no such sheet"), 0, YES_A),
        Err(Refused::Unknown)
    );
    assert_eq!(record.agreed_minutes(), 100);
}

#[test]
fn a_declined_offer_leaves_what_was_agreed() {
    let mut record = Record::new(Rating::Ordinary);
    let sheet = record.offers();
    record.gives(sheet, 0, Word::Decline).unwrap();
    assert_eq!(record.agreed_minutes(), 100);
    let ticket = record.ticket();
    let (_, state) = ticket.pairs[0].last_offer(record.now).unwrap();
    assert!(matches!(
        state,
        OfferState::Answered {
            word: Word::Decline,
            ..
        }
    ));
}

#[test]
fn an_answer_in_time_keeps_the_day_and_a_later_one_gets_the_later_day() {
    let mut record = Record::new(Rating::Ordinary);
    let sheet = record.offers();
    record.pass(Duration::days(1));
    record.gives(sheet, 0, YES_A).unwrap();
    let kept = record.ticket().pairs[0].promise();
    assert_eq!(kept, record.ticket().pairs[0].agreed().ready_by);
    record.takes_back(sheet, 0).unwrap();
    record.pass(Duration::minutes(1));
    record.gives(sheet, 1, YES_A).unwrap();
    assert_eq!(record.ticket().pairs[0].promise(), Date::MAX);
}

#[test]
fn a_page_that_showed_a_day_which_can_no_longer_be_kept_agrees_to_nothing() {
    let mut record = Record::new(Rating::Ordinary);
    let sheet = record.offers();
    let read_at = record.now;
    record.pass(Duration::days(1) + Duration::minutes(1));
    let given = |read_at| WordGiven {
        sheet,
        turn: 0,
        read_at: Some(read_at),
        word: YES_A,
        via: Via::Link {
            link: Digest::of(b"key"),
        },
        acknowledged: false,
    };
    let ticket = record.ticket();
    assert_eq!(
        ticket.give_word(given(read_at), record.now),
        Err(Refused::DayMoved)
    );
    assert!(ticket.give_word(given(record.now), record.now).is_ok());
}

#[test]
fn a_caution_is_acknowledged_before_anything_is_agreed() {
    let mut record = Record::new(Rating::Protective);
    let sheet = record.offers();
    assert_eq!(
        record.gives(sheet, 0, YES_A),
        Err(Refused::CautionNotAcknowledged)
    );
    assert_eq!(record.gives(sheet, 0, Word::Decline), Ok(true));
}

#[test]
fn a_choice_that_was_not_offered_can_not_be_taken() {
    let mut record = Record::new(Rating::Ordinary);
    let sheet = record.offers();
    assert_eq!(
        record.gives(sheet, 0, Word::Accept(ChoiceKey::C)),
        Err(Refused::Unknown)
    );
}

#[test]
fn a_scope_is_changed_only_on_what_stands_and_not_while_an_offer_is_open() {
    let mut record = Record::new(Rating::Ordinary);
    let agree = |record: &Record, before: Option<Digest>| {
        let ticket = record.ticket();
        let agreement = Agreement {
            deposit: None,
            given: Given::ByTelephone,
            words: Some(words("Only the left heel")),
            cautions: Vec::new(),
        };
        let matter = (scope(vec![work("Heels", 30)]), Matter::Agreement(agreement));
        let place = (ticket.number, ticket.pairs[0].tag, line("dark green boots"));
        let last = ticket.pairs[0].revisions.last();
        let mut sheet = Sheet::next(&shop(), place, last, matter, record.now);
        sheet.before = before;
        let digest = sheet.digest().unwrap();
        ticket.make_sheet(PAIR, sheet, digest, record.now)
    };
    let first = record.ticket().pairs[0].revisions[0].digest;
    let offer = record.offers();
    assert_eq!(
        agree(&record, Some(first)),
        Err(RuleBroken::PreparedOnOldScope)
    );
    assert_eq!(agree(&record, Some(offer)), Err(RuleBroken::OfferOpen));
    record.gives(offer, 0, YES_A).unwrap();
    let event = agree(&record, Some(offer)).unwrap();
    record.add(BENCH, &event);
    assert_eq!(record.agreed_minutes(), 30);
    assert_eq!(record.takes_back(offer, 0), Err(Refused::TakeBackOver));
}

#[test]
fn never_more_than_what_is_due_is_taken_and_nothing_leaves_unpaid() {
    let mut record = Record::new(Rating::Ordinary);
    let rules = shop().prices;
    let money = |text: &str| Money::parse(text, rules.currency()).unwrap();
    let pay = |record: &Record, text: &str| {
        record
            .ticket()
            .pay(money(text), PaymentMethod::Card, &rules)
    };
    assert_eq!(record.ticket().due(), Ok(money("100")));
    assert_eq!(pay(&record, "100.01"), Err(RuleBroken::MoreThanDue));
    assert_eq!(pay(&record, "0"), Err(RuleBroken::MoreThanDue));
    assert_eq!(
        record.ticket().hand_over(vec![PAIR], line("Ana")),
        Err(RuleBroken::NotReady)
    );
    record.moves(Stage::Ready).unwrap();
    assert_eq!(
        record.ticket().hand_over(vec![PAIR], line("Ana")),
        Err(RuleBroken::NotPaid)
    );
    for part in ["40", "60"] {
        let event = pay(&record, part).unwrap();
        record.add(BENCH, &event);
    }
    let event = record.ticket().hand_over(vec![PAIR], line("Ana")).unwrap();
    record.add(BENCH, &event);
    assert!(record.ticket().is_closed());
    assert_eq!(record.moves(Stage::Soling), Err(RuleBroken::HandedOver));
    assert_eq!(
        record.ticket().give_back(PaymentMethod::Cash),
        Err(RuleBroken::NothingToReturn)
    );
}

#[test]
fn a_deposit_beyond_a_smaller_scope_is_given_back_to_the_cent() {
    let mut record = Record::new(Rating::Ordinary);
    let rules = shop().prices;
    let event = record.ticket().pay(
        Money::parse("100", rules.currency()).unwrap(),
        PaymentMethod::Card,
        &rules,
    );
    record.add(BENCH, &event.unwrap());
    let ticket = record.ticket();
    let matter = (
        scope(vec![work("Heels", 30)]),
        Matter::Agreement(Agreement {
            deposit: None,
            given: Given::AtTheCounter,
            words: None,
            cautions: Vec::new(),
        }),
    );
    let place = (ticket.number, ticket.pairs[0].tag, line("dark green boots"));
    let sheet = Sheet::next(
        &shop(),
        place,
        ticket.pairs[0].revisions.last(),
        matter,
        record.now,
    );
    let digest = sheet.digest().unwrap();
    let event = ticket.make_sheet(PAIR, sheet, digest, record.now).unwrap();
    record.add(BENCH, &event);
    assert_eq!(record.ticket().due().unwrap().minor(), -7_000);
    let event = record.ticket().give_back(PaymentMethod::Card).unwrap();
    record.add(BENCH, &event);
    assert!(record.ticket().due().unwrap().is_zero());
}

#[test]
fn reminders_fall_due_once_each_and_then_no_more() {
    let mut record = Record::new(Rating::Ordinary);
    record.moves(Stage::Ready).unwrap();
    let mut days = Vec::new();
    for day in 0..60 {
        while let Some(event) = record.ticket().due_reminder(&shop(), record.now) {
            record.add(Actor::Program, &event);
            days.push(day);
        }
        record.pass(Duration::days(1));
    }
    assert_eq!(days, [7, 21]);
}

#[test]
fn nobody_is_reminded_at_night() {
    let mut record = Record::new(Rating::Ordinary);
    record.moves(Stage::Ready).unwrap();
    record.pass(Duration::days(8) + Duration::hours(9));
    assert_eq!(record.ticket().due_reminder(&shop(), record.now), None);
    record.pass(Duration::hours(12));
    assert!(record.ticket().due_reminder(&shop(), record.now).is_some());
}

#[test]
fn the_same_note_sent_twice_is_one_note_and_the_shops_own_stay_with_the_shop() {
    let mut record = Record::new(Rating::Ordinary);
    let note = |audience| NewNote {
        id: NoteId::from_bytes([9; 16]),
        audience,
        words: Some(words("Rib let go for 60 mm")),
        pictures: Vec::new(),
    };
    let event = record
        .ticket()
        .note(PAIR, note(Audience::Shop))
        .unwrap()
        .unwrap();
    record.add(BENCH, &event);
    assert_eq!(record.ticket().note(PAIR, note(Audience::Shop)), Ok(None));
    let event = record
        .ticket()
        .note(PAIR, note(Audience::Customer))
        .unwrap()
        .unwrap();
    record.add(BENCH, &event);
    assert_eq!(record.ticket().for_customer().pairs[0].notes.len(), 1);
    let empty = NewNote {
        words: None,
        ..note(Audience::Shop)
    };
    assert_eq!(
        record.ticket().note(PAIR, empty),
        Err(RuleBroken::EmptyNote)
    );
}

#[test]
fn what_was_measured_is_kept_once_the_latest_counts_and_it_stays_with_the_shop() {
    let mut record = Record::new(Rating::Ordinary);
    let measured = |text: &str| Measurements {
        lengths: [(Field::InsoleLength, Reading::parse(text).unwrap())].into(),
        ..Measurements::default()
    };
    for text in ["285", "28.7 cm"] {
        record.pass(Duration::minutes(5));
        let ticket = record.ticket();
        let seen = ticket.pairs[0].measured.as_ref().map(|taken| taken.at);
        let event = ticket.measure(PAIR, measured(text), seen).unwrap();
        record.add(BENCH, &event.unwrap());
    }
    let ticket = record.ticket();
    assert_eq!(ticket.measure(PAIR, measured("28.7 cm"), None), Ok(None));
    let over = ticket.measure(PAIR, measured("290"), None);
    assert_eq!(over, Err(RuleBroken::PageTooOld));
    let kept = ticket.pairs[0].measured.as_ref().unwrap();
    assert_eq!((kept.actor, kept.at), (BENCH, record.now));
    assert_eq!(kept.measurements, measured("28.7 cm"));
    assert!(chain::verify(ID, &record.entries).is_ok());
    assert_eq!(ticket.for_customer().pairs[0].measured, None);
}

#[test]
fn a_hold_ends_with_the_next_move() {
    let mut record = Record::new(Rating::Ordinary);
    let event = record.ticket().set_hold(PAIR, Some(Hold::Drying)).unwrap();
    record.add(BENCH, &event);
    assert_eq!(record.ticket().pairs[0].hold, Some(Hold::Drying));
    record.moves(Stage::Soling).unwrap();
    assert_eq!(record.ticket().pairs[0].hold, None);
}

#[test]
fn a_new_link_leaves_one_alive() {
    let mut record = Record::new(Rating::Ordinary);
    for event in record.ticket().renew_link(Digest::of(b"second key")) {
        record.add(BENCH, &event);
    }
    let ticket = record.ticket();
    assert_eq!(
        ticket.link().map(|link| link.digest),
        Some(Digest::of(b"second key"))
    );
    assert!(ticket.links[0].revoked_at.is_some());
}

#[test]
fn a_record_shows_any_change_removal_and_exchange() {
    let mut record = Record::new(Rating::Ordinary);
    let sheet = record.offers();
    record.gives(sheet, 0, YES_A).unwrap();
    record.moves(Stage::Teardown).unwrap();
    let sound = record.entries.clone();
    assert_eq!(
        chain::verify(ID, &sound).unwrap(),
        sound[sound.len() - 1].link
    );
    assert!(chain::verify(TicketId::from_bytes([7; 16]), &sound).is_err());
    for place in 0..sound.len() - 1 {
        let mut removed = sound.clone();
        removed.remove(place);
        assert!(chain::verify(ID, &removed).is_err(), "removed {place}");
        let mut exchanged = sound.clone();
        exchanged.swap(place, place + 1);
        assert!(chain::verify(ID, &exchanged).is_err(), "exchanged {place}");
    }
    for place in 0..sound.len() {
        let mut changed = sound.clone();
        changed[place].at = changed[place].at.plus(Duration::microseconds(1));
        assert!(chain::verify(ID, &changed).is_err(), "later {place}");
        let mut changed = sound.clone();
        changed[place].actor = Actor::Program;
        assert!(chain::verify(ID, &changed).is_err(), "someone else {place}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn any_changed_byte_of_a_record_is_found(place in 0_usize..10_000, bit in 0_u32..7) {
        let mut record = Record::new(Rating::Ordinary);
        let sheet = record.offers();
        record.gives(sheet, 0, YES_A).unwrap();
        let whole: usize = record.entries.iter().map(|entry| entry.body.len()).sum();
        let mut place = place % whole;
        let mut entries = record.entries.clone();
        for entry in &mut entries {
            if place < entry.body.len() {
                let mut bytes = entry.body.clone().into_bytes();
                bytes[place] ^= 1 << bit;
                entry.body = String::from_utf8_lossy(&bytes).into_owned();
                break;
            }
            place -= entry.body.len();
        }
        prop_assert!(chain::verify(ID, &entries).is_err());
    }

    /// Whatever a customer presses in whatever order, at most one word stands, the scope is that
    /// of the last word that stands, and the record stays whole.
    #[test]
    fn words_in_any_order_leave_one_outcome(
        presses in proptest::collection::vec((0_u32..4, 0_usize..5, 0_i64..90), 1..40),
    ) {
        let mut record = Record::new(Rating::Ordinary);
        let sheet = record.offers();
        let mut expected = 100;
        for (turn, press, minutes) in presses {
            record.pass(Duration::minutes(minutes));
            let done = match press {
                0 => record.gives(sheet, turn, YES_A).map(|new| (new, 250)),
                1 => record.gives(sheet, turn, YES_B).map(|new| (new, 230)),
                2 => record.gives(sheet, turn, Word::Decline).map(|new| (new, 100)),
                _ => record.takes_back(sheet, turn).map(|new| (new, 100)),
            };
            if let Ok((true, minutes)) = done {
                expected = minutes;
            }
            prop_assert_eq!(record.agreed_minutes(), expected);
        }
        prop_assert!(chain::verify(ID, &record.entries).is_ok());
        let ticket = record.ticket();
        let turns: Vec<u32> = ticket.pairs[0].revisions[1].answers.iter().map(|answer| answer.turn).collect();
        let distinct: BTreeSet<u32> = turns.iter().copied().collect();
        prop_assert_eq!(distinct.len(), turns.len());
    }
}

#[test]
fn a_sheet_speaks_for_every_word_price_day_and_picture() {
    let mut record = Record::new(Rating::Ordinary);
    let digest = record.offers();
    let ticket = record.ticket();
    let (_, revision) = ticket.revision(digest).unwrap();
    let changes: [fn(&mut Sheet); 5] = [
        |sheet| sheet.agreed.ready_by = Date::MIN,
        |sheet| sheet.made_at = Moment::from_micros(0),
        |sheet| sheet.pair = Line::parse("other boots").unwrap(),
        |sheet| offer_of(sheet).answer_by = Moment::from_micros(0),
        |sheet| {
            offer_of(sheet).choices[1].scope.quote.total = Money::zero(crate::money::Currency::USD);
        },
    ];
    for (place, change) in changes.into_iter().enumerate() {
        let mut sheet = revision.sheet.clone();
        change(&mut sheet);
        assert_ne!(sheet.digest().unwrap(), digest, "change {place}");
    }
    let kept: Sheet =
        serde_json::from_str(&serde_json::to_string(&revision.sheet).unwrap()).unwrap();
    assert_eq!(kept.digest().unwrap(), digest);
}

fn offer_of(sheet: &mut Sheet) -> &mut Offer {
    match &mut sheet.matter {
        Matter::Offer(offer) => offer,
        Matter::Agreement(_) => panic!("this sheet is an offer"),
    }
}
