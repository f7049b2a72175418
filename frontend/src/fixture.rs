//! An invented shop and a few of its tickets, built through the domain as the server builds
//! them, for the tests of pages.

use std::collections::BTreeSet;

use shared_types::adjust::ScopeTerms;
use shared_types::bench::take_off::TakeOffs;
use shared_types::contact::{Customer, CustomerName, Email, Phone};
use shared_types::digest::Digest;
use shared_types::id::{CustomerId, NoteId, PairId, ServiceId, StaffId, TicketId};
use shared_types::key::PortalKey;
use shared_types::minutes::Minutes;
use shared_types::moment::{Moment, Zone};
use shared_types::money::{Currency, Money};
use shared_types::pricebook::{self, BookEntry, Offered, Service, Supplies};
use shared_types::promise::answers::AnswerDay;
use shared_types::promise::calendar::Hours;
use shared_types::promise::labour::Labour;
use shared_types::promise::laid_out::LaidOut;
use shared_types::promise::new_pair::{NewPair, NewPairDays, NewPairs};
use shared_types::promise::open_work::OpenWork;
use shared_types::promise::workshop::{self, Step};
use shared_types::scope::offer::{Via, Word};
use shared_types::scope::sheet::{
    Agreement, Choice, ChoiceKey, Given, Matter, Offer, Picture, Sheet,
};
use shared_types::scope::{Scope, ScopeLine, Side, Work};
use shared_types::shop::Shop;
use shared_types::size::{ShoeSize, SizeSystem};
use shared_types::staff::{Role, Staff};
use shared_types::stage::Stage;
use shared_types::tax::{CashRounding, Rate, Rounding};
use shared_types::text::{Line, Words};
use shared_types::ticket::chain::{self, StoredEntry};
use shared_types::ticket::commands::{WordGiven, WordOutcome, take_in};
use shared_types::ticket::event::{Actor, Audience, Event, PairTakenIn};
use shared_types::ticket::{Construction, Pair, PairAbout, Rating, Tag, Ticket, TicketNumber};
use time::{Date, Month, Time};

use crate::document::Desk;

/// What only the shop may read; no customer's page may contain it.
pub(crate) const SHOP_ONLY: &str = "Haggled over the last bill.";

/// What someone types who means no good, or only writes another way.
pub(crate) const WILD: &str = "<script>alert(1)</script> 👢 \"נעליים\" & <b>";

/// [`WILD`] as it stands in HTML.
pub(crate) const WILD_ESCAPED: &str =
    "&lt;script&gt;alert(1)&lt;/script&gt; 👢 \"נעליים\" &amp; &lt;b&gt;";

/// Text as a line.
pub(crate) fn line(text: &str) -> Line {
    Line::parse(text).unwrap()
}

/// Text as words.
pub(crate) fn words(text: &str) -> Words {
    Words::parse(text).unwrap()
}

/// Minor units as dollars.
pub(crate) fn dollars(cents: i64) -> Money {
    Money::new(cents, Currency::USD).unwrap()
}

/// A moment of December 2026 by the shop's clock; Tue 8 December is the day of the offer.
pub(crate) fn december(day: u8, hour: u8, minute: u8) -> Moment {
    let day = Date::from_calendar_date(2026, Month::December, day).unwrap();
    let clock = Time::from_hms(hour, minute, 0).unwrap();
    shop().calendar.zone.moment(day.with_time(clock))
}

/// Now: an hour after the offer went out, its answer open.
pub(crate) fn now() -> Moment {
    december(8, 15, 10)
}

/// The key of the customer's link.
pub(crate) fn key() -> PortalKey {
    PortalKey::from_bytes([7; 32])
}

/// The invented shop.
pub(crate) fn shop() -> Shop {
    let address = words("14 Juniper Row\nAlder Falls");
    let email = Email::parse("bench@example.com").unwrap();
    let mut shop = Shop::new(line("Juniper Row Boot & Shoe Repair"), address, email);
    let weekday = Hours::parse("9:00", "17:30").unwrap();
    let saturday = Hours::parse("9:00", "13:00").unwrap();
    shop.phone = Some(Phone::parse("555-0134").unwrap());
    shop.calendar.zone = Zone::parse("America/Denver").unwrap();
    shop.calendar.week = [None, weekday, weekday, weekday, weekday, saturday, None];
    shop.prices.hourly = dollars(6_800);
    shop.prices.round_up_to = 50;
    shop.prices.tax.goods = Rate::parse("6.25").unwrap();
    shop.prices.cash = Some(CashRounding {
        step: 5,
        rounding: Rounding::HalfUp,
    });
    shop.terms.answer_days = 2;
    shop
}

/// Someone at work in the shop.
pub(crate) fn desk(role: Role) -> Desk {
    Desk {
        shop: shop(),
        staff: Staff {
            id: STAFF,
            name: line("Ines"),
            role,
        },
        now: now(),
        flash: None,
    }
}

/// Who writes the shop's entries.
pub(crate) const STAFF: StaffId = StaffId::from_bytes([3; 16]);

/// The first pair of every ticket here.
pub(crate) const BOOTS: PairId = PairId::from_bytes([1; 16]);

/// The second pair, where there is one.
pub(crate) const SAFETY: PairId = PairId::from_bytes([2; 16]);

/// A ticket's record as it grows.
pub(crate) struct Record {
    id: TicketId,
    entries: Vec<StoredEntry>,
}

impl Record {
    /// A record whose pairs have just been taken in, on Tue 1 December.
    pub(crate) fn taken_in(pairs: Vec<PairTakenIn>, lines: &[ScopeLine]) -> Self {
        let mut record = Self {
            id: TicketId::from_bytes([9; 16]),
            entries: Vec::new(),
        };
        let at = december(1, 10, 30);
        let number = TicketNumber::new(4417);
        let pairs = pairs.into_iter().map(|pair| {
            let sheet = first_sheet(&pair, number, scope(lines, at), at);
            let digest = sheet.digest().unwrap();
            (pair, sheet, digest)
        });
        let customer = CustomerId::from_bytes([5; 16]);
        for event in take_in(number, customer, key().digest(), pairs.collect()) {
            record.add(at, Actor::Staff(STAFF), &event);
        }
        record
    }

    /// Adds an entry.
    pub(crate) fn add(&mut self, at: Moment, actor: Actor, event: &Event) -> &mut Self {
        let before = self.entries.last().map_or(Digest::ZERO, |entry| entry.link);
        let seq = u32::try_from(self.entries.len()).unwrap();
        let entry = chain::link(self.id, (seq, before), at, actor, event).unwrap();
        self.entries.push(entry);
        self
    }

    /// Adds a journal entry.
    pub(crate) fn note(
        &mut self,
        pair: PairId,
        at: Moment,
        audience: Audience,
        text: &str,
    ) -> &mut Self {
        let actor = match audience {
            Audience::Question => Actor::Customer,
            Audience::Shop | Audience::Customer | Audience::Reply => Actor::Staff(STAFF),
        };
        let length = u8::try_from(self.entries.len()).unwrap();
        let note = Event::Noted {
            pair,
            note: NoteId::from_bytes([length; 16]),
            audience,
            words: Some(words(text)),
            pictures: match audience {
                Audience::Customer => vec![picture("Left welt, split at the ball")],
                Audience::Shop | Audience::Reply | Audience::Question => Vec::new(),
            },
        };
        self.add(at, actor, &note)
    }

    /// Moves a pair.
    pub(crate) fn moved(&mut self, pair: PairId, at: Moment, to: Stage) -> &mut Self {
        let event = self.ticket().move_stage(pair, to).unwrap();
        self.add(at, Actor::Staff(STAFF), &event)
    }

    /// Sends an offer.
    pub(crate) fn offer(&mut self, pair: PairId, at: Moment, offer: Offer) -> &mut Self {
        let ticket = self.ticket();
        let sheet = next_sheet(
            &ticket,
            ticket.pair(pair).unwrap(),
            at,
            Matter::Offer(offer),
        );
        let digest = sheet.digest().unwrap();
        let event = ticket.make_sheet(pair, sheet, digest, at).unwrap();
        self.add(at, Actor::Staff(STAFF), &event)
    }

    /// The customer's word on the last offer of a pair, by their link.
    pub(crate) fn word(&mut self, pair: PairId, at: Moment, word: Word) -> &mut Self {
        let ticket = self.ticket();
        let revision = ticket.pair(pair).unwrap().revisions.last().unwrap();
        let given = WordGiven {
            sheet: revision.digest,
            turn: revision.turn(),
            read_at: None,
            word,
            via: Via::Link {
                link: key().digest(),
            },
            acknowledged: true,
        };
        let WordOutcome::Record(event) = ticket.give_word(given, at).unwrap() else {
            unreachable!("the word is new");
        };
        self.add(at, Actor::Customer, &event)
    }

    /// What the record adds up to.
    pub(crate) fn ticket(&self) -> Ticket {
        Ticket::replay(self.id, &self.entries).unwrap()
    }
}

/// The split welt: taken in for soles and heels, taken apart, an offer of three choices open
/// since Tue 8 December, 14:10; with a question and something that only the shop may read.
pub(crate) fn split_welt() -> Record {
    let mut record = Record::taken_in(vec![boots()], &soles_and_heels());
    record.moved(BOOTS, december(8, 9, 20), Stage::Teardown);
    record.note(BOOTS, december(8, 9, 30), Audience::Shop, SHOP_ONLY);
    record.note(
        BOOTS,
        december(8, 14, 0),
        Audience::Customer,
        "The old soles are off. The welt is split at both balls.",
    );
    record.offer(BOOTS, december(8, 14, 10), split_welt_offer());
    record.note(BOOTS, december(8, 14, 40), Audience::Question, WILD);
    record
}

/// A ticket of two pairs: the boots with their open offer, and a safety pair whose open offer
/// asks to acknowledge a caution.
pub(crate) fn two_pairs() -> Record {
    let mut record = Record::taken_in(vec![boots(), safety_boots()], &soles_and_heels());
    record.offer(BOOTS, december(8, 14, 10), split_welt_offer());
    let mut offer = split_welt_offer();
    offer.cautions = Rating::Protective.cautions();
    offer.choices.truncate(1);
    record.offer(SAFETY, december(8, 14, 20), offer);
    record
}

/// The split welt answered with choice A, made, ready, paid in cash and collected.
pub(crate) fn collected() -> Record {
    let mut record = split_welt();
    record.word(BOOTS, december(8, 18, 20), Word::Accept(ChoiceKey::A));
    record.moved(BOOTS, december(11, 16, 0), Stage::Ready);
    let ticket = record.ticket();
    let cash = shared_types::ticket::event::PaymentMethod::Cash;
    let due = ticket.due().unwrap();
    let paid = ticket.pay(due, cash, &shop().prices).unwrap();
    record.add(december(12, 10, 0), Actor::Staff(STAFF), &paid);
    let handed = record
        .ticket()
        .hand_over(vec![BOOTS], line("Nadia Okafor"))
        .unwrap();
    record.add(december(12, 10, 1), Actor::Staff(STAFF), &handed);
    record
}

/// The customer; without a mail address she is rung.
pub(crate) fn nadia(email: Option<Email>) -> Customer {
    Customer {
        id: CustomerId::from_bytes([5; 16]),
        name: CustomerName::parse("Nadia Okafor").unwrap(),
        email,
        phone: Phone::parse("555-0177").ok(),
    }
}

/// Dark green work boots with a 270° welt.
pub(crate) fn boots() -> PairTakenIn {
    PairTakenIn {
        id: BOOTS,
        tag: Tag::at(0).unwrap(),
        about: PairAbout {
            kind: line("lace-up work boots"),
            colour: line("dark green"),
            size: ShoeSize::parse(SizeSystem::Eu, "44").ok(),
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            wrong: words("Soles worn through, heels gone at the back."),
        },
    }
}

/// Tan safety boots.
pub(crate) fn safety_boots() -> PairTakenIn {
    PairTakenIn {
        id: SAFETY,
        tag: Tag::at(1).unwrap(),
        about: PairAbout {
            kind: line("safety-toe boots"),
            colour: line("tan"),
            size: None,
            construction: Construction::Welt360,
            rating: Rating::Protective,
            wrong: words("The sole lifts at the toe."),
        },
    }
}

/// What the teardown of the split welt led to.
pub(crate) fn split_welt_offer() -> Offer {
    let at = december(8, 14, 10);
    Offer {
        found: words(
            "With the old soles off we can see that the welt, the strip that the sole is stitched to, \
             is split at both balls. It can't carry a stitch any more.\n\nThe heel base under the \
             rubber crumbles, and the rib that the welt is sewn to has let go for 60 mm on the left.",
        ),
        discoveries: BTreeSet::new(),
        pictures: vec![
            picture("Left welt, split at the ball"),
            picture("Heel base, crumbled"),
        ],
        choices: split_welt_choices(at),
        agreed_fails: false,
        if_declined: words(
            "A new sole can't be stitched to a split welt, so the agreed work can't start yet. We \
             keep the pair safe and ring you to find another way.",
        ),
        ready_if_declined: scope(&soles_and_heels(), at).ready_by,
        days_if_declined: Vec::new(),
        answer_by: shop().answer_by(at),
        take_back: Minutes::new(24 * 60),
        cautions: Vec::new(),
    }
}

fn split_welt_choices(at: Moment) -> Vec<Choice> {
    let choice = |key, title: &str, text: &str, lines: &[ScopeLine]| Choice {
        key,
        title: line(title),
        words: Some(words(text)),
        scope: scope(lines, at),
        days: vec![AnswerDay {
            answered_by: shop().answer_by(at),
            ready_by: scope(lines, at).ready_by,
        }],
    };
    let rib = work(
        "Rib reglued and bridged",
        "It has let go of the insole for 60 mm.",
        30,
        350,
    );
    let filler = work("Cork filler, new", "The old filler is crumbs.", 15, 600);
    let leather = [
        work(
            "Leather welt, sewn by hand",
            "The moulded welt is split at both balls and can't carry a stitch.",
            95,
            2_400,
        ),
        work(
            "Heel base, stacked leather",
            "The fibreboard base crumbles.",
            40,
            1_450,
        ),
        rib.clone(),
        filler.clone(),
    ];
    let synthetic = [
        work(
            "Synthetic welt",
            "The moulded welt is split at both balls and can't carry a stitch.",
            70,
            900,
        ),
        work(
            "Heel block, rubber",
            "The fibreboard base crumbles.",
            20,
            700,
        ),
        rib,
        filler,
    ];
    let agreed = soles_and_heels();
    vec![
        choice(
            ChoiceKey::A,
            "Leather welt and leather heel base",
            "Lasts longest and can be resoled two or three times more.",
            &[agreed.as_slice(), &leather].concat(),
        ),
        choice(
            ChoiceKey::B,
            "Synthetic welt and rubber heel block",
            "As it was made. Good for this sole, and probably not for another.",
            &[agreed.as_slice(), &synthetic].concat(),
        ),
        choice(
            ChoiceKey::C,
            "Nothing more: back as it is",
            "We put the pair together as far as it goes, and you pay for the teardown.",
            &[work(
                "Teardown and closing up",
                "Taken apart to look inside.",
                30,
                0,
            )],
        ),
    ]
}

/// What was agreed at the counter.
pub(crate) fn soles_and_heels() -> Vec<ScopeLine> {
    vec![
        work(
            "Rubber soles, stitched",
            "Worn through at the ball.",
            90,
            4_200,
        ),
        ScopeLine {
            side: Side::Right,
            ..work("Top lift", "Worn at the back.", 20, 850)
        },
    ]
}

/// One piece of work.
pub(crate) fn work(title: &str, reason: &str, minutes: u32, material: i64) -> ScopeLine {
    ScopeLine {
        service: None,
        title: line(title),
        reason: Some(words(reason)),
        side: Side::Pair,
        stage: Stage::Structure,
        minutes: Minutes::new(minutes),
        rest: Minutes::ZERO,
        material: dollars(material),
        uses: Vec::new(),
        set_price: None,
    }
}

/// A picture that shows this.
pub(crate) fn picture(shows: &str) -> Picture {
    Picture {
        digest: Digest::of(shows.as_bytes()),
        shows: Some(line(shows)),
    }
}

/// A small price book for any pair: nothing in it is taken by quantity.
pub(crate) fn price_book() -> Vec<Service> {
    let pair = TakeOffs::of_size(None, Construction::Unknown);
    pricebook::for_pair(&offered(), &pair).unwrap()
}

/// The same, before a pair is known.
pub(crate) fn offered() -> Vec<Offered> {
    let book = book();
    let offered = book.iter().map(|entry| entry.offered(&Supplies::new()));
    offered.collect::<Result<_, _>>().unwrap()
}

/// The same as it stands in the book, in the order of the stages.
pub(crate) fn book() -> Vec<BookEntry> {
    let service = |number: u8, title: &str, stage, minutes, rest, material| BookEntry {
        id: ServiceId::from_bytes([number; 16]),
        title: line(title),
        about: Some(words(
            "What it is, in a sentence for someone who has never heard of it.",
        )),
        stage,
        minutes: Minutes::new(minutes),
        rest: Minutes::new(rest),
        material: dollars(material),
        uses: Vec::new(),
        set_price: None,
        station: None,
        p90: None,
        cement: None,
    };
    vec![
        service(1, "Teardown and a look inside", Stage::Teardown, 30, 0, 0),
        service(
            2,
            "Leather welt, sewn by hand",
            Stage::Structure,
            95,
            120,
            2_400,
        ),
        service(3, "Cork filler", Stage::Structure, 15, 60, 600),
        service(4, "Shank, steel", Stage::Structure, 20, 30, 450),
        service(5, "Rubber soles, stitched", Stage::Soling, 90, 240, 4_200),
        service(6, "Half soles, cemented", Stage::Soling, 45, 240, 2_600),
        service(
            7,
            "Heel base, stacked leather",
            Stage::Heeling,
            40,
            60,
            1_450,
        ),
        service(8, "Top lifts", Stage::Heeling, 20, 30, 850),
        service(9, "Edges trimmed and dyed", Stage::Finishing, 25, 60, 250),
        service(10, "Clean, feed and polish", Stage::Finishing, 20, 0, 300),
    ]
}

/// A scope of these lines, agreed at this moment.
pub(crate) fn scope(lines: &[ScopeLine], at: Moment) -> Scope {
    // Before the offer the queue is long, so that the first promise is Fri 11 December.
    let waiting = if at < december(8, 0, 0) { 3_800 } else { 1_400 };
    let mut open = OpenWork::new(&shop(), &price_book(), &[], at);
    open.workshop.pairs = vec![workshop::Pair {
        tag: workshop::Tag("41".to_owned()),
        promised: None,
        begins: workshop::Begins::Now,
        waits_for: Vec::new(),
        steps: vec![Step::new("all else", Labour::sure(Minutes::new(waiting)))],
    }];
    let board = open.board().unwrap();
    let mut days = NewPairs::of(&open.practice, Some(&board));
    let work = Work {
        lines: lines.to_vec(),
        terms: ScopeTerms::PLAIN,
    };
    Scope::work_out(work, &shop(), |lines| days.first_day(lines)).unwrap()
}

/// The shop with nothing open.
pub(crate) fn open_work() -> LaidOut {
    OpenWork::new(&shop(), &price_book(), &[], now()).laid_out()
}

/// A new pair with this scope, promised in its turn.
pub(crate) fn new_pair(scope: Scope) -> NewPair {
    let days = NewPairDays {
        likely: Some(scope.ready_by),
        in_turn: scope.ready_by,
        nearly_sure: Some(scope.ready_by),
        wish: None,
    };
    NewPair { scope, days }
}

fn first_sheet(pair: &PairTakenIn, ticket: TicketNumber, agreed: Scope, at: Moment) -> Sheet {
    Sheet {
        shop: shop().name,
        ticket,
        tag: pair.tag,
        pair: line(&pair.about.title()),
        revision: 1,
        before: None,
        made_at: at,
        chance: Some(shop().chance),
        agreed,
        matter: Matter::Agreement(Agreement {
            deposit: None,
            given: Given::AtTheCounter,
            words: None,
            cautions: pair.about.rating.cautions(),
        }),
    }
}

fn next_sheet(ticket: &Ticket, pair: &Pair, at: Moment, matter: Matter) -> Sheet {
    Sheet {
        shop: shop().name,
        ticket: ticket.number,
        tag: pair.tag,
        pair: line(&pair.about.title()),
        revision: u32::try_from(pair.revisions.len()).unwrap() + 1,
        before: pair.revisions.last().map(|revision| revision.digest),
        made_at: at,
        chance: Some(shop().chance),
        agreed: pair.agreed().clone(),
        matter,
    }
}

#[test]
fn the_tickets_of_the_fixture_are_what_they_say() {
    let boots = |record: Record| record.ticket().pair(BOOTS).unwrap().clone();
    assert!(boots(split_welt()).open_offer(now()).is_some());
    assert!(boots(collected()).handed_over.is_some());
    assert_eq!(two_pairs().ticket().pairs.len(), 2);
}
