//! The shop itself: its name, hours, prices and terms, as the owner sets them.

use serde::{Deserialize, Serialize};

use crate::contact::{Email, Phone};
use crate::hands::{self, BenchHand};
use crate::minutes::Minutes;
use crate::moment::{Moment, Zone};
use crate::money::{Currency, Money};
use crate::price::PriceRules;
use crate::promise::calendar::{Calendar, Hours};
use crate::promise::chance::Chance;
use crate::tax::{Rate, Rounding, TaxBasis, TaxRules, TaxStep};
use crate::text::{Line, Words};

/// Everything about the shop that its owner sets.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shop {
    /// Its name, as on the door.
    pub name: Line,
    /// Where it is, as on a letter.
    pub address: Words,
    /// Where customers ring.
    pub phone: Option<Phone>,
    /// Where letters come from and answers go.
    pub email: Email,
    /// When it is open.
    pub calendar: Calendar,
    /// Who works at the bench, side by side.
    #[serde(deserialize_with = "hands::read")]
    pub hands: Vec<BenchHand>,
    /// What only one pair can use at a time, such as the outsole stitcher.
    #[serde(default = "hands::shipped_stations")]
    pub stations: Vec<Line>,
    /// How sure a promise is to be.
    #[serde(default)]
    pub chance: Chance,
    /// Prices and tax.
    pub prices: PriceRules,
    /// Terms of an offer.
    pub terms: Terms,
}

/// The terms under which added scope is offered and pairs are kept.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Terms {
    /// Open days until an offer lapses, at closing.
    pub answer_days: u32,
    /// How long an answer can be taken back if the bench has not started.
    pub take_back: Minutes,
    /// Days after the pickup notice on which a reminder goes out.
    pub reminder_days: Vec<u32>,
    /// Words under the claim ticket; law on uncollected pairs and deposits is local.
    pub claim: Option<Words>,
}

impl Shop {
    /// A shop before its owner has set anything but its name; the defaults are common practice,
    /// no source.
    pub fn new(name: Line, address: Words, email: Email) -> Self {
        let weekday = Hours::parse("9:00", "17:30").unwrap_or_default();
        Self {
            name,
            address,
            phone: None,
            email,
            calendar: Calendar {
                zone: Zone::utc(),
                week: [weekday, weekday, weekday, weekday, weekday, None, None],
                closed: std::collections::BTreeSet::new(),
            },
            hands: BenchHand::numbered(1),
            stations: hands::shipped_stations(),
            chance: Chance::default(),
            prices: PriceRules {
                hourly: Money::zero(Currency::USD),
                round_up_to: 1,
                tax: TaxRules {
                    labour: Rate::ZERO,
                    goods: Rate::ZERO,
                    basis: TaxBasis::Added,
                    step: TaxStep::PerTotal,
                    rounding: Rounding::HalfUp,
                },
                cash: None,
                minimum: None,
                rush: Rate::ZERO,
                deposit: Rate::ZERO,
            },
            terms: Terms {
                answer_days: 5,
                take_back: Minutes::new(24 * 60),
                reminder_days: vec![7, 21, 45],
                claim: None,
            },
        }
    }

    /// How many hands work side by side; at least one.
    pub fn hand_count(&self) -> u32 {
        u32::try_from(self.hands.len()).unwrap_or(u32::MAX).max(1)
    }

    /// The shop's currency.
    pub const fn currency(&self) -> Currency {
        self.prices.currency()
    }

    /// When an offer made now lapses: at closing after the days that the terms give; without
    /// any open day ahead, after as many days by the clock.
    pub fn answer_by(&self, now: Moment) -> Moment {
        let days = usize::try_from(self.terms.answer_days).unwrap_or(1);
        self.calendar
            .closing_after(now, days)
            .unwrap_or_else(|| now.plus(time::Duration::days(i64::from(self.terms.answer_days))))
    }
}
