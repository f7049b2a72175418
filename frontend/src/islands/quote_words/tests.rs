//! The live sentences say what the server says.

use shared_types::bench::take_off::{TakeOff, TakeOffs};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::scope::ScopeField;
use shared_types::id::SupplyId;
use shared_types::moment::day_words;
use shared_types::promise::dates::{Dates, InHand};
use shared_types::promise::new_pair::{Asked, NewPairDays, NewPairs};
use shared_types::scope::rules::{Case, Claim, Need, Reason, Rule, RuleId, Standing};
use shared_types::size::SizeSystem;
use shared_types::supply::sold::{HowMuch, Sold};
use shared_types::supply::{Percent, SupplyUnit};
use shared_types::ticket::{Construction, Rating};

use super::*;
use crate::fixture;
use crate::islands::live_days::DayBook;

fn unopened() -> AsFound {
    AsFound {
        construction: Construction::Welt270,
        rating: Rating::Ordinary,
        discoveries: BTreeSet::new(),
    }
}

fn words_of(form: FormKind, fields: &Fields, book: &QuoteBook) -> Vec<String> {
    let said = sentences(form, fields, book, None).into_iter();
    said.map(|said| said.words).collect()
}

/// What the page's own check says of the same ticks, and with the same buttons.
#[test]
fn what_does_not_hang_together_is_said_as_on_the_page() {
    let services = fixture::price_book();
    let (one, other) = (services[4].id, services[7].id);
    let words = |text| shared_types::text::Words::parse(text).unwrap();
    let rule = Rule {
        standing: Standing::On,
        case: Case::default(),
        claim: Claim::Requires {
            these: [one].into(),
            any_of: [Need::Line(other)].into(),
        },
        reason: Reason {
            bench: words("It is so."),
            customer: words("It is so."),
        },
    };
    let id = RuleId::parse("own-1").unwrap();
    let rules = RuleSet {
        rules: [(id, rule)].into(),
        put_back: None,
    };
    let agreed = fixture::scope(&fixture::soles_and_heels(), fixture::now());
    let prices = fixture::shop().prices;
    let found = unopened();
    let book = QuoteBook::for_pair(services.clone(), &agreed, prices, (&rules, &found));
    let mut fields = Fields::default();
    fields.push(ScopeField::Service.name(""), one.to_string());
    let said = sentences(FormKind::Edit, &fields, &book, None);
    let advisor = Advisor::new(rules, found, (&services, &agreed.lines), prices);
    let page = advisor.objections("", &[one].into()).unwrap();
    assert_eq!(said.len(), 2, "{said:?}");
    assert_eq!(said[1].words, page[0].words);
    assert_eq!(said[1].buttons, page[0].buttons);
    fields.push(ScopeField::Service.name(""), other.to_string());
    assert_eq!(sentences(FormKind::Edit, &fields, &book, None).len(), 1);
}

#[test]
fn the_live_price_is_the_price_of_the_server() {
    let rules = fixture::shop().prices;
    let services = fixture::price_book();
    let agreed = fixture::scope(&fixture::soles_and_heels(), fixture::now());
    let second = services[7].clone();
    let book = QuoteBook::for_pair(services, &agreed, rules, (&RuleSet::default(), &unopened()));
    let mut fields = Fields::default();
    fields.push(ScopeField::Keep.name(""), "0");
    fields.push(ScopeField::Keep.name(""), "1");
    let same = words_of(FormKind::Edit, &fields, &book);
    assert_eq!(same.len(), 1);
    assert!(same[0].ends_with("the same as agreed"), "{same:?}");
    assert!(same[0].contains(&agreed.total().to_string()), "{same:?}");

    let mut fields = Fields::default();
    fields.push("pairs", "2");
    let mut put = |pair, field: PairField, value: &str| {
        fields.push(IntakeField::Pair(pair, field).name(), value);
    };
    let mut offered = fixture::offered();
    offered[4].uses.push(Sold {
        supply: SupplyId::from_bytes([1; 16]),
        name: fixture::line("Rubber sheet"),
        unit: SupplyUnit::SquareDecimetre,
        price: fixture::dollars(600),
        waste: Percent::new(15),
        how_much: HowMuch::TakeOff(TakeOff::Outsoles),
    });
    let service = PairField::Work(ScopeField::Service);
    put(0, service, &offered[4].id.to_string());
    put(0, PairField::SizeSystem, "eu");
    put(0, PairField::Size, "47");
    put(1, service, &second.id.to_string());
    let size = ShoeSize::parse(SizeSystem::Eu, "47").unwrap();
    let large = TakeOffs::of_size(Some(size), Construction::Unknown);
    let first = offered[4].for_pair(&large).unwrap();
    let lines = [first.line(), second.line()];
    let expected = lines.map(|line| quote(&[line], &ScopeTerms::PLAIN, &rules).unwrap().total);
    let sum = Money::sum(expected, rules.currency()).unwrap();
    let book = QuoteBook::offered(offered, rules, &RuleSet::default());
    let shown = words_of(FormKind::Intake, &fields, &book);
    assert!(
        shown[0].ends_with(&format!("together {}", expected[0])),
        "{shown:?}"
    );
    assert!(
        shown[1].ends_with(&format!("together {}", expected[1])),
        "{shown:?}"
    );
    assert_eq!(shown[2], format!("The ticket: {sum}"));
    fields.remove(&IntakeField::Pair(0, PairField::Size).name());
    let shown = words_of(FormKind::Intake, &fields, &book);
    let said = "its size is not known, so EU 42 is taken";
    assert!(shown[0].ends_with(said), "{shown:?}");
}

/// With rush, discount and deposit: the server's own quote, in one sentence.
#[test]
fn the_live_price_takes_rush_discount_and_deposit_in() {
    let rate = |text| shared_types::tax::Rate::parse(text).unwrap();
    let rules = PriceRules {
        rush: rate("30"),
        deposit: rate("20"),
        ..fixture::shop().prices
    };
    let offered = fixture::offered();
    let unknown = TakeOffs::of_size(None, Construction::Unknown);
    let service = offered[4].for_pair(&unknown).unwrap();
    let prefix = intake::work_prefix(0);
    let mut fields = Fields::default();
    for (field, value) in [
        (ScopeField::Service, service.id.to_string().as_str()),
        (ScopeField::Rush, "yes"),
        (ScopeField::Discount, "5.00"),
        (ScopeField::DiscountReason, "second pair"),
    ] {
        fields.push(field.name(&prefix), value);
    }
    let book = QuoteBook::offered(offered, rules, &RuleSet::default());
    let shown = words_of(FormKind::Intake, &fields, &book);
    let terms = scope::read_terms(
        &fields,
        &prefix,
        rules.currency(),
        &mut FormErrors::default(),
    );
    let quote = quote(&[service.line()], &terms, &rules).unwrap();
    assert!(
        shown[0].contains("Discount, second pair \u{2212}$5.00"),
        "{shown:?}"
    );
    assert!(
        shown[0].ends_with(&format!("together {}", quote.total)),
        "{shown:?}"
    );
    let deposit = rules.deposit_on(quote.total).unwrap().unwrap();
    assert_eq!(shown[1], format!("Deposit to ask for: {deposit}"));
}

/// What the browser gets, as it gets it.
fn sent<T: Serialize + serde::de::DeserializeOwned>(value: &T) -> serde_json::Result<T> {
    serde_json::from_str(&serde_json::to_string(value)?)
}

/// The page's own days, for the choices of an offer and for two pairs with a wish that can't be
/// given.
#[test]
fn the_live_day_is_the_day_of_the_server() {
    let rules = fixture::shop().prices;
    let services = fixture::price_book();
    let ticket = fixture::split_welt().ticket();
    let pair = ticket.pair(fixture::BOOTS).unwrap();
    let open = fixture::open_work();
    let board = open.board().unwrap();
    let in_hand = InHand::of(ticket.number, pair);
    let lines = vec![services[1].line()];
    let mut dates = Dates::of(&open.practice, Some(&board), in_hand.clone());
    let day = dates.ready_by(&lines).unwrap();

    let book = sent(&DayBook::in_hand(open.clone(), in_hand)).unwrap();
    let live_board = book.board().unwrap();
    let turn = book.seating(&live_board).all();
    let mut live = book.seated(Some((&live_board, turn)));
    let quotes = QuoteBook::for_pair(
        services.clone(),
        pair.agreed(),
        rules,
        (&RuleSet::default(), &unopened()),
    );
    let mut fields = Fields::default();
    let service = ScopeField::Service.name(&offer::choice_prefix(ChoiceKey::B));
    fields.push(service, services[1].id.to_string());
    let said = sentences(FormKind::Offer, &fields, &quotes, Some(&mut live));
    let expected = format!("; ready by {} if agreed now", day_words(day));
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].words.starts_with("Choice B: "), "{said:?}");
    assert!(said[0].words.contains(&expected), "{said:?}");

    let book = sent(&DayBook::new_pairs(open.clone())).unwrap();
    let live_board = book.board().unwrap();
    let turn = book.seating(&live_board).all();
    let mut live = book.seated(Some((&live_board, turn)));
    let offered = fixture::offered();
    let mut fields = Fields::default();
    fields.push("pairs", "2");
    let mut put = |pair, field: PairField, value: &str| {
        fields.push(IntakeField::Pair(pair, field).name(), value);
    };
    let today = fixture::now().to_utc().date().to_string();
    put(
        0,
        PairField::Work(ScopeField::Service),
        &offered[1].id.to_string(),
    );
    put(
        1,
        PairField::Work(ScopeField::Service),
        &offered[4].id.to_string(),
    );
    put(1, PairField::Promise, &today);
    let works = intake::read_work(&fields, &offered, rules.currency());
    let wished = intake::wished(&fields, 1).unwrap();
    assert!(wished.is_some());
    let asked = [(&works[0], None), (&works[1], wished)].map(|(work, wished)| Asked {
        lines: &work.lines,
        rush: false,
        wished,
    });
    let given = NewPairs::of(&open.practice, Some(&board)).days(&asked);
    let [first, second] = [0, 1].map(|place| given[place].unwrap().unwrap());
    let quotes = QuoteBook::offered(offered, rules, &RuleSet::default());
    let said = sentences(FormKind::Intake, &fields, &quotes, Some(&mut live));
    let said: Vec<_> = said.into_iter().map(|said| said.words).collect();
    let promised = |days: NewPairDays| format!("; promised by {}", day_words(days.in_turn));
    assert!(said[0].contains(&promised(first)), "{said:?}");
    assert!(said[1].contains(&promised(second)), "{said:?}");
    assert_eq!(said[2], format!("Pair B: {}", second.refusal().unwrap()));
}

#[test]
fn where_nobody_is_ever_at_the_bench_the_price_is_said_and_why_there_is_no_day() {
    let book = DayBook::new_pairs(fixture::open_work());
    let mut live = book.seated(None);
    let offered = fixture::offered();
    let mut fields = Fields::default();
    let service = IntakeField::Pair(0, PairField::Work(ScopeField::Service));
    fields.push(service.name(), offered[1].id.to_string());
    let rules = fixture::shop().prices;
    let quotes = QuoteBook::offered(offered, rules, &RuleSet::default());
    let said = sentences(FormKind::Intake, &fields, &quotes, Some(&mut live));
    assert!(said[0].words.contains("together"), "{said:?}");
    assert!(said[1].words.contains("nobody is at the bench"), "{said:?}");
}
