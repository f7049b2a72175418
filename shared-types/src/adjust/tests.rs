//! Rush, discount and minimum against worked examples, and what always holds.

use proptest::prelude::{
    Just, ProptestConfig, Strategy, any, prop_assert, prop_assert_eq, prop_compose, prop_oneof,
    proptest,
};

use super::*;
use crate::digest::canonical_json;
use crate::minutes::Minutes;
use crate::price::{Parts, Quote, quote};
use crate::scope::{ScopeLine, Side};
use crate::stage::Stage;
use crate::tax::{TaxBasis, TaxRules, TaxStep};

fn usd(minor: i64) -> Money {
    Money::new(minor, Currency::USD).unwrap()
}

/// Hamilton's apportionment of the United States House of 1791 by the census of 1790 (Balinski
/// and Young, *Fair Representation*, table for 120 seats; populations and seats from memory).
#[test]
fn a_spread_is_hamiltons_apportionment() {
    let states = [
        (630_560, 21),
        (475_327, 16),
        (432_879, 14),
        (353_523, 12),
        (331_589, 11),
        (278_514, 9),
        (236_841, 8),
        (206_236, 7),
        (179_570, 6),
        (141_822, 5),
        (85_533, 3),
        (70_835, 2),
        (68_705, 2),
        (68_446, 2),
        (55_540, 2),
    ];
    let over = states.map(|(people, _)| usd(people));
    let seats = spread(usd(120), &over).unwrap();
    assert_eq!(seats, states.map(|(_, seats)| usd(seats)));
}

#[test]
fn a_discount_is_read_as_a_percentage_or_an_amount() {
    let read = |text| DiscountBy::parse_optional(text, Currency::USD);
    let ten = Rate::parse("10").unwrap();
    assert_eq!(read("10 %"), Ok(Some(DiscountBy::Percent(ten))));
    assert_eq!(read("15"), Ok(Some(DiscountBy::Amount(usd(1_500)))));
    for nothing in ["", " ", "0", "0.00", "0 %"] {
        assert_eq!(read(nothing), Ok(None), "{nothing:?}");
    }
    assert_eq!(read("101 %"), Err(Problem::NotARate));
    assert_eq!(read("-5"), Err(Problem::NotMoney));
    for by in ["10 %", "15.00", "12.5 %"] {
        assert_eq!(read(by).unwrap().unwrap().figure(), by);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]
    #[test]
    fn a_spread_makes_and_loses_no_unit_and_keeps_to_its_quota(
        weights in proptest::collection::vec(0_i64..3_000_000, 1..12),
        part in 0_i64..=1_000_000,
    ) {
        let sum: i64 = weights.iter().sum();
        let amount = sum * part / 1_000_000;
        let over: Vec<Money> = weights.iter().map(|weight| usd(*weight)).collect();
        let shares = spread(usd(amount), &over).unwrap();
        prop_assert_eq!(shares.iter().map(|share| share.minor()).sum::<i64>(), amount);
        for (share, one) in shares.iter().zip(&over) {
            prop_assert!(share.minor() >= 0 && share.minor() <= one.minor());
            let off = i128::from(share.minor()) * i128::from(sum)
                - i128::from(amount) * i128::from(one.minor());
            prop_assert!(off.abs() < i128::from(sum.max(1)));
        }
    }
}

const PLAIN: &ScopeTerms = &ScopeTerms::PLAIN;

fn work(minutes: u32, material: i64) -> ScopeLine {
    ScopeLine {
        service: None,
        title: Line::parse("Work").unwrap(),
        reason: None,
        side: Side::Pair,
        stage: Stage::Soling,
        minutes: Minutes::new(minutes),
        rest: Minutes::ZERO,
        material: usd(material),
        uses: Vec::new(),
        set_price: None,
    }
}

fn rate(text: &str) -> Rate {
    Rate::parse(text).unwrap()
}

/// 60.00 an hour: a minute is 1.00, so that labour can be read off the minutes.
fn rules(labour: &str, goods: &str) -> PriceRules {
    PriceRules {
        hourly: usd(6_000),
        round_up_to: 1,
        tax: TaxRules {
            labour: rate(labour),
            goods: rate(goods),
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

fn discount(by: DiscountBy) -> ScopeTerms {
    ScopeTerms {
        rush: false,
        discount: Some(Discount {
            by,
            reason: Line::parse("second pair").unwrap(),
        }),
    }
}

fn rush(terms: ScopeTerms) -> ScopeTerms {
    ScopeTerms {
        rush: true,
        ..terms
    }
}

fn signed(quote: &Quote) -> Vec<i64> {
    let steps = quote.adjustments.iter();
    steps.map(|step| step.signed().unwrap().minor()).collect()
}

/// Category S of Peppol BIS Billing 3.0, `Allowance-example.xml` (rules EN 16931 BR-CO-10 to 15 and
/// 17): lines 4,000.00 and 900.00, charge 200.00, allowance 200.00, taxable 4,900.00, 25 % VAT
/// 1,225.00. The charge of 200.00 is written as a surcharge on labour of 4.0816 %.
#[test]
fn a_charge_and_an_allowance_are_those_of_the_peppol_example() {
    let rules = PriceRules {
        rush: rate("4.0816"),
        ..rules("25", "25")
    };
    let terms = rush(discount(DiscountBy::Amount(usd(20_000))));
    let quote = quote(&[work(4_000, 0), work(900, 0)], &terms, &rules).unwrap();
    assert_eq!(quote.subtotal, usd(490_000));
    assert_eq!(signed(&quote), [20_000, -20_000]);
    assert_eq!(quote.adjusted(), Ok(usd(490_000)));
    assert_eq!(quote.taxes[0].on, usd(490_000));
    assert_eq!(quote.taxes[0].tax, usd(122_500));
    assert_eq!(quote.total, usd(612_500));
}

/// Category S of the EN 16931 validation artefacts' `guide-example2.xml`: lines 1,273.00 and 187.50,
/// promotion discount 100.00, freight 100.00, taxable 1,460.50, 25 % VAT 365.13. The freight is
/// written as a surcharge on labour of 6.847 %.
#[test]
fn a_charge_and_an_allowance_are_those_of_the_en_16931_guide() {
    let rules = PriceRules {
        rush: rate("6.847"),
        hourly: usd(3_000),
        ..rules("25", "25")
    };
    let terms = rush(discount(DiscountBy::Amount(usd(10_000))));
    let quote = quote(&[work(2_546, 0), work(375, 0)], &terms, &rules).unwrap();
    assert_eq!(quote.subtotal, usd(146_050));
    assert_eq!(signed(&quote), [10_000, -10_000]);
    assert_eq!(
        (quote.taxes[0].on, quote.taxes[0].tax),
        (usd(146_050), usd(36_513))
    );
    assert_eq!(quote.total, usd(182_563));
}

/// Worked by hand. Labour 90.00, material 10.00; rush 30 % of 90.00 = 27.00; 10 % of 127.00 = 12.70
/// off, of which 10.00 come off the lines (9.00 labour, 1.00 material) and 2.70 off the rush. Tax
/// 6.25 % on material 9.00 = 0.5625, so 0.56.
#[test]
fn rush_then_discount_then_tax() {
    let rules = PriceRules {
        rush: rate("30"),
        minimum: Some(usd(1_800)),
        ..rules("0", "6.25")
    };
    let terms = rush(discount(DiscountBy::Percent(rate("10"))));
    let quote = quote(&[work(90, 1_000)], &terms, &rules).unwrap();
    assert_eq!(signed(&quote), [2_700, -1_270]);
    assert_eq!((quote.taxes[0].on, quote.taxes[0].tax), (usd(900), usd(56)));
    assert_eq!(quote.total, usd(11_430 + 56));
    let parts = |labour, goods| Parts {
        labour: usd(labour),
        goods: usd(goods),
    };
    assert_eq!(quote.parts_of_lines(), Ok(parts(9_000, 1_000)));
    assert_eq!(quote.taxed, Some(parts(9_000 - 900 + 2_700 - 270, 900)));
}

/// Worked by hand: 12.00 of labour is topped up by 6.00; 20.00 is not; what is free stays free.
#[test]
fn the_minimum_tops_up_what_is_left() {
    let rules = PriceRules {
        minimum: Some(usd(1_800)),
        ..rules("10", "10")
    };
    let total = |minutes, terms: &ScopeTerms| {
        quote(&[work(minutes, 0)], terms, &rules)
            .unwrap()
            .total
            .minor()
    };
    assert_eq!(total(12, PLAIN), 1_980);
    assert_eq!(total(20, PLAIN), 2_200);
    assert_eq!(total(20, &discount(DiscountBy::Amount(usd(500)))), 1_980);
    assert_eq!(total(0, PLAIN), 0);
    assert_eq!(total(20, &discount(DiscountBy::Percent(rate("100")))), 0);
}

#[test]
fn a_discount_beyond_the_price_goes_as_far_as_the_price_and_says_so() {
    let terms = discount(DiscountBy::Amount(usd(5_000)));
    let quote = quote(&[work(20, 0)], &terms, &rules("0", "0")).unwrap();
    assert_eq!(quote.total, usd(0));
    assert_eq!(quote.discount_beyond(), Some((usd(5_000), usd(2_000))));
    let how = quote.adjustments[0].how();
    assert!(
        how.contains("$50.00") && how.contains("never below zero"),
        "{how}"
    );
}

/// A line below zero is a credit. By hand: 10 % of 50.00 + 30.00 − 20.00 is 6.00 off; what is left is
/// spread over the lines so that none of it is lost.
#[test]
fn a_credit_among_the_lines_loses_nothing() {
    let ten = discount(DiscountBy::Percent(rate("10")));
    let lines = [work(50, 0), work(30, 0), work(0, -2_000)];
    let credit = quote(&lines, &ten, &rules("10", "10")).unwrap();
    assert_eq!(signed(&credit), [-600]);
    assert_eq!((credit.taxes[0].on, credit.total), (usd(5_400), usd(5_940)));
    // More credit than work: nothing is left to take a discount off, and no minimum is asked.
    let owed = PriceRules {
        minimum: Some(usd(1_800)),
        ..rules("0", "0")
    };
    let quote = quote(&[work(5, 0), work(0, -2_000)], &ten, &owed).unwrap();
    assert_eq!((signed(&quote), quote.total), (vec![0], usd(-1_500)));
}

/// With credits, too, the shares add up to what is spread.
#[test]
fn a_spread_over_credits_adds_up() {
    for over in [
        [7, 5, -2],
        [100, -33, -33],
        [3, 3, -1],
        [-1, 1, 5],
        [2, -5, -8],
    ] {
        let over = over.map(usd);
        for amount in 0..5 {
            let shares = spread(usd(amount), &over).unwrap();
            let sum: i64 = shares.iter().map(|share| share.minor()).sum();
            assert_eq!(sum, amount, "{over:?}");
        }
    }
}

#[test]
fn a_deposit_is_never_more_than_the_price() {
    let rules = PriceRules {
        deposit: rate("100"),
        cash: Some(crate::tax::CashRounding {
            step: 5,
            rounding: Rounding::HalfUp,
        }),
        ..rules("0", "0")
    };
    assert_eq!(rules.deposit_on(usd(8_498)), Ok(Some(usd(8_498))));
    assert_eq!(rules.deposit_on(usd(8_497)), Ok(Some(usd(8_495))));
    assert_eq!(rules.deposit_on(usd(2)), Ok(None));
}

#[test]
fn rush_without_a_surcharge_says_so() {
    let quote = quote(&[work(20, 0)], &rush(ScopeTerms::PLAIN), &rules("0", "0")).unwrap();
    assert_eq!((signed(&quote), quote.total), (vec![0], usd(2_000)));
    assert!(quote.adjustments[0].how().contains("no surcharge"));
}

/// A quote of version 0.1.0 keeps its canonical JSON, and with it every digest.
#[test]
fn what_is_not_there_is_not_written() {
    let plain = quote(&[work(20, 100)], PLAIN, &rules("0", "5")).unwrap();
    let json = canonical_json(&plain).unwrap();
    assert!(!json.contains("adjustments"), "{json}");
    assert_eq!(serde_json::from_str::<Quote>(&json).unwrap(), plain);
    let old = r#"{"hourly":{"minor":6000,"currency":"USD"},"round_up_to":1,"tax":{"labour":0,
        "goods":0,"basis":"added","step":"per-total","rounding":"half-up"},"cash":null}"#;
    assert_eq!(
        serde_json::from_str::<PriceRules>(old).unwrap(),
        rules("0", "0")
    );
}

prop_compose! {
    fn any_rules()(
        (labour, goods) in (0_u32..300_000, prop_oneof![Just(None), (0_u32..300_000).prop_map(Some)]),
        (included, per_line, mode) in (any::<bool>(), any::<bool>(), 0_usize..Rounding::ALL.len()),
        (minimum, rush, step) in (prop_oneof![Just(None), (1_i64..100_000).prop_map(Some)], 0_u32..=1_000_000, 1_u32..500),
    ) -> PriceRules {
        let parts = |parts: u32| rate(&format!("{}.{:04}", parts / 10_000, parts % 10_000));
        PriceRules {
            hourly: usd(6_800),
            round_up_to: step,
            tax: TaxRules {
                labour: parts(labour),
                goods: parts(goods.unwrap_or(labour)),
                basis: if included { TaxBasis::Included } else { TaxBasis::Added },
                step: if per_line { TaxStep::PerLine } else { TaxStep::PerTotal },
                rounding: Rounding::ALL[mode],
            },
            cash: None,
            minimum: minimum.map(usd),
            rush: parts(rush),
            deposit: Rate::ZERO,
        }
    }
}

fn any_discount() -> impl Strategy<Value = ScopeTerms> {
    prop_oneof![
        Just(ScopeTerms::PLAIN),
        (0_i64..3_000_000).prop_map(|minor| discount(DiscountBy::Amount(usd(minor)))),
        (0_u32..=1_000_000).prop_map(|parts| {
            let percent = rate(&format!("{}.{:04}", parts / 10_000, parts % 10_000));
            discount(DiscountBy::Percent(percent))
        }),
    ]
}

fn any_lines() -> impl Strategy<Value = Vec<ScopeLine>> {
    let line = (0_u32..600, prop_oneof![Just(0), 0_i64..100_000]);
    let line = line.prop_map(|(minutes, material)| work(minutes, material));
    proptest::collection::vec(line, 0..9)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// The sums of EN 16931: BR-CO-10 (lines), 11 and 12 (allowances, charges), 13 (without tax),
    /// 14 (tax), 15 (with tax); and no amount is below zero.
    #[test]
    fn lines_adjustments_and_tax_are_the_total(
        (lines, terms, is_rush, rules) in (any_lines(), any_discount(), any::<bool>(), any_rules())
    ) {
        let terms = ScopeTerms { rush: is_rush, ..terms };
        let quote = quote(&lines, &terms, &rules).unwrap();
        let sum: i64 = quote.lines.iter().map(|line| line.price.minor()).sum();
        prop_assert_eq!(quote.subtotal.minor(), sum);
        let adjusted = sum + signed(&quote).iter().sum::<i64>();
        prop_assert_eq!(quote.adjusted(), Ok(usd(adjusted)));
        let tax: i64 = quote.taxes.iter().map(|entry| entry.tax.minor()).sum();
        let added = rules.tax.basis == TaxBasis::Added;
        prop_assert_eq!(quote.total.minor(), adjusted + if added { tax } else { 0 });
        prop_assert!(adjusted >= 0 && quote.taxes.iter().all(|entry| entry.tax.minor() >= 0));
        let parts = |parts: Parts| parts.labour.plus(parts.goods).unwrap().minor();
        prop_assert_eq!(parts(quote.parts_of_lines().unwrap()), sum);
        prop_assert_eq!(quote.taxed.is_none(), quote.adjustments.is_empty());
        prop_assert_eq!(quote.taxed.map_or(adjusted, parts), adjusted);
        // What is taxed is the whole, unless some of it has no rate.
        if rules.tax.labour != Rate::ZERO && rules.tax.goods != Rate::ZERO {
            let on: i64 = quote.taxes.iter().map(|entry| entry.on.minor()).sum();
            prop_assert_eq!(on, adjusted);
        }
        // BR-CO-17: tax of a rate is its taxable amount × rate, rounded once.
        if rules.tax.step == TaxStep::PerTotal {
            for entry in &quote.taxes {
                prop_assert_eq!(rules.tax.on(entry.on, entry.rate), Ok(entry.tax));
            }
        }
    }

    #[test]
    fn the_order_of_lines_does_not_matter(
        (lines, terms, is_rush, rules) in (any_lines(), any_discount(), any::<bool>(), any_rules())
    ) {
        let terms = ScopeTerms { rush: is_rush, ..terms };
        let forth = quote(&lines, &terms, &rules).unwrap();
        let mut back = lines;
        back.reverse();
        let back = quote(&back, &terms, &rules).unwrap();
        prop_assert_eq!((back.total, back.taxes, back.adjustments), (forth.total, forth.taxes, forth.adjustments));
    }

    #[test]
    fn the_minimum_is_reached_exactly_or_not_needed(
        (lines, terms, rules) in (any_lines(), any_discount(), any_rules())
    ) {
        let sum = quote(&lines, &terms, &rules).unwrap().adjusted().unwrap();
        let without = PriceRules { minimum: None, ..rules };
        let without = quote(&lines, &terms, &without).unwrap().adjusted().unwrap();
        match rules.minimum {
            Some(minimum) if without.is_positive() && without.minor() < minimum.minor() => {
                prop_assert_eq!(sum, minimum);
            }
            _ => prop_assert_eq!(sum, without),
        }
    }

    #[test]
    fn rush_never_lowers_the_total(
        (lines, terms, rules) in (any_lines(), any_discount(), any_rules())
    ) {
        let calm = quote(&lines, &terms, &rules).unwrap().total;
        let rushed = quote(&lines, &rush(terms), &rules).unwrap().total;
        prop_assert!(rushed.minor() >= calm.minor(), "{rushed} is less than {calm}");
    }

    #[test]
    fn a_discount_never_raises_the_price(
        (lines, terms, is_rush, rules) in (any_lines(), any_discount(), any::<bool>(), any_rules())
    ) {
        let without = quote(&lines, &ScopeTerms { rush: is_rush, discount: None }, &rules).unwrap();
        let with = quote(&lines, &ScopeTerms { rush: is_rush, ..terms }, &rules).unwrap();
        prop_assert!(with.adjusted().unwrap().minor() <= without.adjusted().unwrap().minor());
    }
}
