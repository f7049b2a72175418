//! The file of a quote: price rules, supplies, the pair and the work.

use std::ops::Deref;

use anyhow::{Context as _, bail, ensure};
use serde::{Deserialize, Deserializer, de};
use shared_types::adjust::{Discount, DiscountBy, ScopeTerms};
use shared_types::bench::doubt::{Doubt, doubts};
use shared_types::bench::measure::Measured;
use shared_types::bench::sheet::BenchSheet;
use shared_types::bench::take_off::{TakeOff, TakeOffs};
use shared_types::id::SupplyId;
use shared_types::margin::Costs;
use shared_types::minutes::Minutes;
use shared_types::money::{Currency, Money};
use shared_types::price::PriceRules;
use shared_types::pricebook::Supplies;
use shared_types::scope::{ScopeLine, Side};
use shared_types::stage::Stage;
use shared_types::supply::kept::Supply;
use shared_types::supply::sold::{HowMuch, Use};
use shared_types::supply::{Percent, Quantity, SupplyUnit};
use shared_types::tax::{CashRounding, Rate, Rounding, TaxBasis, TaxRules, TaxStep};
use shared_types::text::Line;
use shared_types::ticket::Construction;

/// An amount, a rate or a quantity as people write it: a text, or a whole number. A number with a point
/// would have been a float before anybody could look at it.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Written(String);

impl<'de> Deserialize<'de> for Written {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum Form {
            Text(String),
            Whole(i64),
            Other(de::IgnoredAny),
        }
        match Form::deserialize(deserializer)? {
            Form::Text(text) => Ok(Self(text)),
            Form::Whole(number) => Ok(Self(number.to_string())),
            Form::Other(_) => Err(de::Error::custom(
                "write amounts, rates and quantities in quotation marks, such as \"72.50\", so that every digit counts",
            )),
        }
    }
}

impl Deref for Written {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

/// Reads `90` or `"1:30"`.
fn minutes<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Minutes, D::Error> {
    let written = Written::deserialize(deserializer)?;
    Minutes::parse(&written).map_err(de::Error::custom)
}

/// The file: amounts and rates as people write them, so that no float comes near them.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct QuoteFile {
    currency: Currency,
    hourly: Written,
    #[serde(default)]
    round_up_to: Option<Written>,
    tax: Tax,
    #[serde(default)]
    smallest_coin: Option<Written>,
    /// Where an amount in cash goes that the smallest coin can't pay.
    #[serde(default)]
    cash_rounding: Option<Rounding>,
    #[serde(default)]
    minimum: Option<Written>,
    /// A percentage of labour.
    #[serde(default)]
    rush_adds: Option<Written>,
    /// A percentage of the total.
    #[serde(default)]
    deposit: Option<Written>,
    #[serde(default)]
    rush: bool,
    #[serde(default)]
    discount: Option<Off>,
    /// What the shop keeps.
    #[serde(default)]
    supplies: Vec<Kept>,
    /// What an hour at the bench costs the shop.
    #[serde(default)]
    bench_hour: Option<Written>,
    /// The pair, as for a bench sheet.
    #[serde(default)]
    pair: Option<Measured>,
    lines: Vec<Work>,
}

/// A supply: what one of its unit costs, and what is wasted and added in percent.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct Kept {
    name: Line,
    unit: SupplyUnit,
    cost: Written,
    #[serde(default)]
    waste: Percent,
    #[serde(default)]
    markup: Percent,
}

/// A discount: `10 %` or `15.00`, and why.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct Off {
    off: Written,
    reason: Line,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct Tax {
    labour: Written,
    goods: Written,
    basis: TaxBasis,
    step: TaxStep,
    rounding: Rounding,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct Work {
    title: Line,
    #[serde(deserialize_with = "minutes")]
    minutes: Minutes,
    #[serde(default)]
    material: Option<Written>,
    #[serde(default)]
    uses: Vec<Takes>,
    #[serde(default)]
    set_price: Option<Written>,
}

/// A supply by its name with its quantity: always the same, or as the bench sheet has it.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct Takes {
    supply: Line,
    #[serde(default)]
    quantity: Option<Written>,
    #[serde(default)]
    take_off: Option<TakeOff>,
}

impl QuoteFile {
    fn amount(&self, text: &str) -> anyhow::Result<Money> {
        Money::parse(text, self.currency).with_context(|| format!("the amount {text:?}"))
    }

    fn step(&self, text: &str) -> anyhow::Result<u32> {
        let minor = self.amount(text)?.minor();
        let step = u32::try_from(minor);
        let step = step.with_context(|| format!("{text} is too large to round to"))?;
        Ok(step.max(1))
    }

    pub(super) fn rules(&self) -> anyhow::Result<PriceRules> {
        let rate = |text: &str| Rate::parse(text).with_context(|| format!("the rate {text:?}"));
        let or_zero = |text: &Option<Written>| text.as_deref().map_or(Ok(Rate::ZERO), rate);
        let minimum = self.minimum.as_deref().map(|text| self.amount(text));
        let coin = self.smallest_coin.as_deref();
        Ok(PriceRules {
            hourly: self.amount(&self.hourly)?,
            round_up_to: self
                .round_up_to
                .as_deref()
                .map_or(Ok(1), |text| self.step(text))?,
            tax: TaxRules {
                labour: rate(&self.tax.labour)?,
                goods: rate(&self.tax.goods)?,
                basis: self.tax.basis,
                step: self.tax.step,
                rounding: self.tax.rounding,
            },
            cash: coin
                .map(|text| self.step(text))
                .transpose()?
                .map(|step| CashRounding {
                    step,
                    rounding: self.cash_rounding.unwrap_or(Rounding::HalfUp),
                }),
            minimum: minimum.transpose()?,
            rush: or_zero(&self.rush_adds)?,
            deposit: or_zero(&self.deposit)?,
        })
    }

    pub(super) fn terms(&self) -> anyhow::Result<ScopeTerms> {
        let discount = |Off { off, reason }: &Off| {
            let by = DiscountBy::parse_optional(off, self.currency);
            let by = by.with_context(|| format!("the discount {:?}", &**off))?;
            let reason = reason.clone();
            anyhow::Ok(by.map(|by| Discount { by, reason }))
        };
        let discount = self.discount.as_ref().map(discount).transpose()?;
        Ok(ScopeTerms {
            rush: self.rush,
            discount: discount.flatten(),
        })
    }

    /// What the shop pays; ids are places in the file.
    pub(super) fn costs(&self) -> anyhow::Result<Costs> {
        let supply = |(id, kept): (SupplyId, &Kept)| {
            let supply = Supply {
                id,
                name: kept.name.clone(),
                unit: kept.unit,
                cost: self.amount(&kept.cost)?,
                waste: kept.waste,
                markup: kept.markup,
            };
            anyhow::Ok((id, supply))
        };
        for (place, kept) in self.supplies.iter().enumerate() {
            let mut before = self.supplies.iter().take(place);
            ensure!(
                !before.any(|other| other.name == kept.name),
                "two supplies are called {}; give each a name of its own",
                kept.name
            );
        }
        let ids = (0_u128..).map(|place| SupplyId::from_bytes(place.to_be_bytes()));
        let hour = self.bench_hour.as_deref().map(|text| self.amount(text));
        Ok(Costs {
            hour: hour.transpose()?,
            supplies: ids
                .zip(&self.supplies)
                .map(supply)
                .collect::<Result<_, _>>()?,
        })
    }

    /// What about the pair should be looked at again before its price is told.
    pub(super) fn doubts(&self) -> Vec<Doubt> {
        self.pair.as_ref().map(doubts).unwrap_or_default()
    }

    /// The work, with what the pair takes of each supply.
    pub(super) fn lines(&self, supplies: &Supplies) -> anyhow::Result<Vec<ScopeLine>> {
        let pair = match &self.pair {
            Some(measured) => {
                // The sheet says why it can't be worked out.
                BenchSheet::work_out(measured).context("the pair can't be worked out")?;
                TakeOffs::of_measured(measured).context("the pair can't be worked out")?
            }
            None => TakeOffs::of_size(None, Construction::Unknown),
        };
        let line = |work: &Work| {
            let line = self.line(work, supplies, &pair);
            line.with_context(|| work.title.to_string())
        };
        self.lines.iter().map(line).collect()
    }

    fn line(&self, work: &Work, supplies: &Supplies, pair: &TakeOffs) -> anyhow::Result<ScopeLine> {
        let amount = |text: &Option<Written>| {
            let amount = text.as_deref().map(|text| self.amount(text));
            amount.transpose()
        };
        let uses = work.uses.iter().map(|takes| takes.read(supplies, pair));
        Ok(ScopeLine {
            service: None,
            title: work.title.clone(),
            reason: None,
            side: Side::Pair,
            stage: Stage::Soling,
            minutes: work.minutes,
            rest: Minutes::ZERO,
            material: amount(&work.material)?.unwrap_or(Money::zero(self.currency)),
            uses: uses.collect::<Result<_, _>>()?,
            set_price: amount(&work.set_price)?,
        })
    }
}

impl Takes {
    fn read(&self, supplies: &Supplies, pair: &TakeOffs) -> anyhow::Result<Use> {
        let mut known = supplies.values();
        let supply = known.find(|supply| supply.name == self.supply);
        let supply = supply.with_context(|| {
            format!(
                "no supply of the file is called {}; add it under supplies, or write its name as it stands there",
                self.supply
            )
        })?;
        let how_much = match (&self.quantity, self.take_off) {
            (Some(text), None) => {
                let quantity = Quantity::parse(text);
                HowMuch::Fixed(quantity.with_context(|| format!("the quantity {:?}", &**text))?)
            }
            (None, Some(take_off)) => {
                let (counted, sold) = (take_off.unit().label(), supply.unit.label());
                ensure!(
                    take_off.unit() == supply.unit,
                    "{} is counted by the {counted}, but {} goes by the {sold}",
                    take_off.label(),
                    supply.name
                );
                HowMuch::TakeOff(take_off)
            }
            _ => bail!("{} needs either a quantity or a take-off", self.supply),
        };
        Ok(supply.sold(how_much)?.for_pair(pair)?)
    }
}
