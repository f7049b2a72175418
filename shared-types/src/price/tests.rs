//! Prices against worked examples, and what always holds.

use super::*;
use crate::adjust::Discount;
use crate::minutes::Minutes;
use crate::scope::Side;
use crate::stage::Stage;
use crate::tax::{Rate, TaxStep};
use crate::text::Line;
use proptest::prelude::{ProptestConfig, any, prop_assert_eq, proptest};

fn line(minutes: u32, material: i64, code: &str) -> ScopeLine {
    ScopeLine {
        service: None,
        title: Line::parse("Work").unwrap(),
        reason: None,
        side: Side::Pair,
        stage: Stage::Soling,
        minutes: Minutes::new(minutes),
        rest: Minutes::ZERO,
        material: Money::new(material, Currency::parse(code).unwrap()).unwrap(),
        uses: Vec::new(),
        set_price: None,
    }
}

fn rules(hourly: i64, code: &str, rate: &str, round_up_to: u32) -> PriceRules {
    let rate = Rate::parse(rate).unwrap();
    PriceRules {
        hourly: Money::new(hourly, Currency::parse(code).unwrap()).unwrap(),
        round_up_to,
        tax: TaxRules {
            labour: rate,
            goods: rate,
            basis: TaxBasis::Added,
            step: TaxStep::PerTotal,
            rounding: Rounding::HalfUp,
        },
        cash: None,
        minimum: None,
        rush: Rate::ZERO,
        deposit: Rate::ZERO,
    }
}

/// A worked estimate with invented prices and exact arithmetic: 225 min at 72.00 an hour and
/// material 23.37 + 0.89 + 6.50 + 4.00, tax 8.25 % on the invoice; then 242 min and
/// 8.81 + 16.80 + 3.96 + 1.50 more.
#[test]
fn the_worked_estimate_adds_up_to_the_cent() {
    let rules = rules(7_200, "USD", "8.25", 1);
    let first = [(225, 0), (0, 2_337), (0, 89), (0, 650), (0, 400)];
    let added = [(242, 0), (0, 881), (0, 1_680), (0, 396), (0, 150)];
    let lines = |parts: &[(u32, i64)]| -> Vec<ScopeLine> {
        parts
            .iter()
            .map(|(minutes, material)| line(*minutes, *material, "USD"))
            .collect()
    };
    let before = quote(&lines(&first), &ScopeTerms::PLAIN, &rules).unwrap();
    assert_eq!(before.subtotal.minor(), 30_476);
    assert_eq!(before.taxes[0].tax.minor(), 2_514);
    assert_eq!(before.total.minor(), 32_990);
    let after = quote(&lines(&[first, added].concat()), &ScopeTerms::PLAIN, &rules).unwrap();
    assert_eq!(
        (after.subtotal.minor(), after.total.minor()),
        (62_623, 67_789)
    );
    assert_eq!(
        after.total.minus(before.total).unwrap().to_string(),
        "$347.99"
    );
}

#[test]
fn shops_without_cents_and_with_thousandths_work_too() {
    let yen = quote(
        &[line(45, 1_800, "JPY")],
        &ScopeTerms::PLAIN,
        &rules(7_000, "JPY", "10", 100),
    )
    .unwrap();
    assert_eq!((yen.subtotal.minor(), yen.total.minor()), (7_100, 7_810));
    let dinar = quote(
        &[line(20, 1_250, "KWD")],
        &ScopeTerms::PLAIN,
        &rules(9_000, "KWD", "0", 250),
    )
    .unwrap();
    assert_eq!(dinar.total.to_string(), "4.250\u{a0}KWD");
}

#[test]
fn nothing_costs_nothing_and_too_much_is_said() {
    let rules = rules(6_800, "USD", "6.25", 50);
    assert!(
        quote(&[line(0, 0, "USD")], &ScopeTerms::PLAIN, &rules)
            .unwrap()
            .total
            .is_zero()
    );
    assert!(
        quote(&[], &ScopeTerms::PLAIN, &rules)
            .unwrap()
            .total
            .is_zero()
    );
    let too_much = quote(&[line(1, Money::LIMIT, "USD")], &ScopeTerms::PLAIN, &rules);
    assert_eq!(too_much, Err(MoneyProblem::TooLarge));
    let mixed = quote(&[line(1, 1, "EUR")], &ScopeTerms::PLAIN, &rules);
    assert_eq!(mixed, Err(MoneyProblem::MixedCurrencies));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]
    #[test]
    fn no_unit_is_made_or_lost_and_the_order_of_lines_does_not_matter(
        parts in proptest::collection::vec((0_u32..2_000, 0_i64..5_000_000), 0..12),
        included in any::<bool>(),
        per_line in any::<bool>(),
        rate in 0_u32..300_000,
    ) {
        let mut rules = rules(6_800, "USD", "0", 50);
        rules.tax.goods = Rate::parse(&format!("{}.{:04}", rate / 10_000, rate % 10_000)).unwrap();
        rules.tax.basis = if included { TaxBasis::Included } else { TaxBasis::Added };
        rules.tax.step = if per_line { TaxStep::PerLine } else { TaxStep::PerTotal };
        let lines: Vec<_> = parts.iter().map(|(minutes, material)| line(*minutes, *material, "USD")).collect();
        let forth = quote(&lines, &ScopeTerms::PLAIN, &rules).unwrap();
        let back: Vec<_> = lines.iter().rev().cloned().collect();
        let back = quote(&back, &ScopeTerms::PLAIN, &rules).unwrap();
        prop_assert_eq!(back.total, forth.total);
        let sum: i64 = forth.lines.iter().map(|line| line.labour.minor() + line.material.minor() + line.rounded_up.minor()).sum();
        prop_assert_eq!(sum, forth.subtotal.minor());
        let tax: i64 = forth.taxes.iter().map(|entry| entry.tax.minor()).sum();
        prop_assert_eq!(forth.total.minor(), if included { sum } else { sum + tax });
    }
}

/// By hand: a minute at 0.30 an hour is half a cent, which goes up; three minutes are one and a half.
#[test]
fn half_a_cent_of_labour_goes_up() {
    let rules = rules(30, "USD", "0", 1);
    let labour = |minutes| {
        let quote = quote(&[line(minutes, 0, "USD")], &ScopeTerms::PLAIN, &rules);
        quote.unwrap().lines[0].labour.minor()
    };
    assert_eq!([1, 2, 3, 5].map(labour), [1, 1, 2, 3]);
}

/// By hand: 1.00 of labour and 9.90 of material are 10.90, rounded up to 11.00. Labour is taxed at 20 %,
/// goods at 10 %: 1.10 × 20 % + 9.90 × 10 % = 0.22 + 0.99. Without labour, 9.90 is rounded up to 10.00,
/// all of it goods: 1.00.
#[test]
fn what_rounding_adds_is_taxed_as_labour_or_as_goods_where_there_is_none() {
    let mut rules = rules(6_000, "USD", "10", 50);
    rules.tax.labour = Rate::parse("20").unwrap();
    let taxes = |minutes| {
        let quote = quote(&[line(minutes, 990, "USD")], &ScopeTerms::PLAIN, &rules).unwrap();
        let taxes = quote.taxes.iter();
        (
            quote.subtotal.minor(),
            taxes.map(|tax| tax.tax.minor()).collect::<Vec<_>>(),
        )
    };
    assert_eq!(taxes(1), (1_100, vec![99, 22]));
    assert_eq!(taxes(0), (1_000, vec![100]));
}

/// By hand: 0.05 of labour and 0.05 of material at 10 % are 0.01 of tax on the line; apart they would be
/// half a cent each, and 0.02.
#[test]
fn labour_and_goods_of_a_line_are_one_amount_where_their_rates_are_one() {
    let mut rules = rules(300, "USD", "10", 1);
    rules.tax.step = TaxStep::PerLine;
    let one = quote(&[line(1, 5, "USD")], &ScopeTerms::PLAIN, &rules).unwrap();
    assert_eq!((one.subtotal.minor(), one.total.minor()), (10, 11));
}

/// By hand: of a set price of 5.00 with material for 8.00, all is goods: 10 % is 0.50. With material for
/// 2.00 it is 2.00 of goods and 3.00 of labour, at 20 %: 0.20 and 0.60.
#[test]
fn a_set_price_is_taxed_as_its_material_first_and_its_labour_after() {
    let mut rules = rules(6_000, "USD", "10", 50);
    rules.tax.labour = Rate::parse("20").unwrap();
    let total = |material| {
        let set = ScopeLine {
            set_price: Some(Money::new(500, Currency::USD).unwrap()),
            ..line(90, material, "USD")
        };
        let quote = quote(&[set], &ScopeTerms::PLAIN, &rules).unwrap();
        (quote.lines[0].labour.minor(), quote.total.minor())
    };
    assert_eq!(total(800), (0, 550));
    assert_eq!(total(200), (300, 580));
}

/// By hand: 20 % of 55.78 is 11.156, of 20.02 it is 4.004: 11.16 and 4.00, together 15.16, where the sum's
/// 20 % would be the same; in five-cent coins each is rounded before they are added: 11.15 and 4.00.
#[test]
fn deposits_of_several_pairs_are_each_rounded_and_then_added() {
    let totals = [5_578, 2_002].map(|minor| Money::new(minor, Currency::USD).unwrap());
    let mut rules = rules(6_800, "USD", "0", 1);
    rules.deposit = Rate::parse("20").unwrap();
    let all = |rules: &PriceRules| rules.deposit_on_all(&totals).unwrap().unwrap().minor();
    assert_eq!(all(&rules), 1_516);
    rules.cash = Some(CashRounding {
        step: 5,
        rounding: Rounding::HalfUp,
    });
    assert_eq!(all(&rules), 1_515);
    rules.deposit = Rate::ZERO;
    assert_eq!(rules.deposit_on_all(&totals), Ok(None));
}

/// A worked quote: amounts in minor units; lines as minutes, material and set price; subtotal, tax, total.
struct Worked {
    code: &'static str,
    hourly: i64,
    step: u32,
    rush: &'static str,
    discount: &'static str,
    minimum: Option<i64>,
    tax: ([&'static str; 2], TaxBasis, TaxStep, Rounding),
    lines: &'static [(u32, i64, Option<i64>)],
    expected: (i64, i64, i64),
}

const WORKED: [Worked; 4] = [
    Worked {
        code: "EUR",
        hourly: 6_840,
        step: 50,
        rush: "33.3333",
        discount: "12.5 %",
        minimum: Some(1_800),
        tax: (
            ["19", "7"],
            TaxBasis::Included,
            TaxStep::PerLine,
            Rounding::HalfEven,
        ),
        lines: &[
            (47, 2_337, None),
            (0, 655, None),
            (15, 89, Some(2_400)),
            (13, 0, None),
        ],
        expected: (12_300, 1_886, 13_431),
    },
    Worked {
        code: "JPY",
        hourly: 7_350,
        step: 100,
        rush: "20",
        discount: "1500",
        minimum: None,
        tax: (
            ["10", "8"],
            TaxBasis::Added,
            TaxStep::PerTotal,
            Rounding::Down,
        ),
        lines: &[(47, 1_830, None), (0, 655, None), (15, 890, Some(500))],
        expected: (8_800, 794, 9_246),
    },
    Worked {
        code: "BHD",
        hourly: 9_250,
        step: 1,
        rush: "",
        discount: "1.500",
        minimum: Some(2_500),
        tax: (["10", "0"], TaxBasis::Added, TaxStep::PerLine, Rounding::Up),
        lines: &[(7, 1_337, None), (8, 1, None)],
        expected: (3650, 172, 2672),
    },
    Worked {
        code: "CLF",
        hourly: 8_125,
        step: 50,
        rush: "12.5",
        discount: "0.1234",
        minimum: Some(15_000),
        tax: (
            ["19", "19"],
            TaxBasis::Included,
            TaxStep::PerLine,
            Rounding::HalfDown,
        ),
        lines: &[(31, 2_222, None), (17, 7, None), (5, 0, Some(1_000))],
        expected: (9_800, 2_395, 15_000),
    },
];

/// Worked out apart from this code with Python's `fractions`; a thousand random files through the command
/// line agreed with it, and these four have a bit of everything.
#[test]
fn quotes_with_a_bit_of_everything_are_those_of_exact_fractions() {
    for case in &WORKED {
        let Worked {
            code,
            hourly,
            step,
            rush,
            discount,
            minimum,
            tax,
            lines,
            expected,
        } = *case;
        let currency = Currency::parse(code).unwrap();
        let money = |minor| Money::new(minor, currency).unwrap();
        let [labour, goods] = tax.0.map(|rate| Rate::parse(rate).unwrap());
        let rules = PriceRules {
            hourly: money(hourly),
            round_up_to: step,
            tax: TaxRules {
                labour,
                goods,
                basis: tax.1,
                step: tax.2,
                rounding: tax.3,
            },
            cash: None,
            minimum: minimum.map(money),
            rush: Rate::parse_or_zero(rush).unwrap(),
            deposit: Rate::ZERO,
        };
        let reason = Line::parse("second pair").unwrap();
        let by = DiscountBy::parse_optional(discount, currency).unwrap();
        let terms = ScopeTerms {
            rush: !rush.is_empty(),
            discount: by.map(|by| Discount { by, reason }),
        };
        let lines = lines.iter().map(|(minutes, material, set)| ScopeLine {
            set_price: set.map(money),
            ..line(*minutes, *material, code)
        });
        let quote = quote(&lines.collect::<Vec<_>>(), &terms, &rules).unwrap();
        let tax: i64 = quote.taxes.iter().map(|tax| tax.tax.minor()).sum();
        let found = (quote.subtotal.minor(), tax, quote.total.minor());
        assert_eq!(found, expected, "{code}");
    }
}
