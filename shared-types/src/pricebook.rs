//! The price book: the shop's services with their minutes, rests and materials.
//!
//! A service is known in three ways, which differ in what its uses of supplies are: [`BookEntry`] as
//! the owner wrote it, [`Offered`] with the prices of sale, and [`Service`] worked out for one pair.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::bench::take_off::TakeOffs;
use crate::cement::Cement;
use crate::id::{ServiceId, SupplyId};
use crate::minutes::Minutes;
use crate::money::{Money, MoneyProblem};
use crate::scope::{ScopeLine, Side};
use crate::stage::Stage;
use crate::supply::kept::Supply;
use crate::supply::sold::{HowMuch, Sold, Use};
use crate::text::{Line, Words};

/// One service of the price book, for a pair.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Service<U = Use> {
    /// Which service.
    pub id: ServiceId,
    /// As bench and customer call it.
    pub title: Line,
    /// What it is, for a customer who has never heard of it.
    pub about: Option<Words>,
    /// The stage in which it is done.
    pub stage: Stage,
    /// Bench minutes.
    pub minutes: Minutes,
    /// Rest after it, in clock minutes.
    pub rest: Minutes,
    /// Material for a pair beside the supplies that it uses.
    pub material: Money,
    /// The station that it needs, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub station: Option<Line>,
    /// The bench minutes that one job in ten exceeds, if that is not half as long again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub p90: Option<Minutes>,
    /// Cement in the middle of it, if its faces have to be joined in time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cement: Option<Cement>,
    /// Supplies that it uses.
    #[serde(default = "Vec::new", skip_serializing_if = "Vec::is_empty")]
    pub uses: Vec<U>,
    /// What it costs before tax, whatever the minutes and the pair.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set_price: Option<Money>,
}

/// A service as it stands in the book.
pub type BookEntry = Service<Planned>;

/// A service with the prices of sale of its supplies, for any pair.
pub type Offered = Service<Sold>;

/// A use of a supply as it stands in the book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Planned {
    /// Which supply.
    pub supply: SupplyId,
    /// How much of it.
    pub how_much: HowMuch,
}

/// The supplies that the shop keeps or kept.
pub type Supplies = BTreeMap<SupplyId, Supply>;

/// Why a service can't be offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotOffered {
    /// Its supply is not there.
    #[error("the service uses supply {0}, which the shop never had")]
    NoSuchSupply(SupplyId),
    /// An amount does not work out.
    #[error(transparent)]
    Amount(#[from] MoneyProblem),
}

impl<U> Service<U> {
    /// The same service with its uses in another form.
    fn try_map<V, E>(&self, map: impl Fn(&U) -> Result<V, E>) -> Result<Service<V>, E> {
        Ok(Service {
            id: self.id,
            title: self.title.clone(),
            about: self.about.clone(),
            stage: self.stage,
            minutes: self.minutes,
            rest: self.rest,
            material: self.material,
            uses: self.uses.iter().map(map).collect::<Result<_, E>>()?,
            station: self.station.clone(),
            p90: self.p90,
            cement: self.cement,
            set_price: self.set_price,
        })
    }
}

impl BookEntry {
    /// The service with prices of sale: what may be known outside the owner's pages.
    pub fn offered(&self, supplies: &Supplies) -> Result<Offered, NotOffered> {
        self.try_map(|planned| {
            let supply = supplies.get(&planned.supply);
            let supply = supply.ok_or(NotOffered::NoSuchSupply(planned.supply))?;
            Ok(supply.sold(planned.how_much)?)
        })
    }
}

impl Offered {
    /// The service worked out for one pair.
    pub fn for_pair(&self, pair: &TakeOffs) -> Result<Service, MoneyProblem> {
        self.try_map(|sold| sold.for_pair(pair))
    }
}

impl Service {
    /// The scope line that this service makes, with its plain words as the reason.
    pub fn line(&self) -> ScopeLine {
        ScopeLine {
            service: Some(self.id),
            title: self.title.clone(),
            reason: self.about.clone(),
            side: Side::Pair,
            stage: self.stage,
            minutes: self.minutes,
            rest: self.rest,
            material: self.material,
            uses: self.uses.clone(),
            set_price: self.set_price,
        }
    }
}

/// Every service worked out for one pair.
pub fn for_pair(services: &[Offered], pair: &TakeOffs) -> Result<Vec<Service>, MoneyProblem> {
    services
        .iter()
        .map(|service| service.for_pair(pair))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_service_from_before_supplies_reads_and_writes_as_it_was() {
        let json = concat!(
            r#"{"id":"0193d9f0-0000-7000-8000-000000000001","title":"Top lifts","about":null,"#,
            r#""stage":"heeling","minutes":15,"rest":0,"#,
            r#""material":{"minor":850,"currency":"USD"}}"#,
        );
        let entry: BookEntry = serde_json::from_str(json).unwrap();
        assert_eq!(serde_json::to_string(&entry).unwrap(), json);
        let offered = entry.offered(&Supplies::new()).unwrap();
        assert_eq!((offered.uses, offered.set_price), (Vec::new(), None));
    }

    /// Sheets are named by the digest of their JSON, so what 0.1.0 wrote must come out as it went in.
    #[test]
    fn a_line_from_before_supplies_keeps_its_json() {
        let json = concat!(
            r#"{"service":null,"title":"Top lifts","reason":null,"side":"pair","stage":"heeling","#,
            r#""minutes":15,"rest":0,"material":{"minor":850,"currency":"USD"}}"#,
        );
        let line: ScopeLine = serde_json::from_str(json).unwrap();
        assert_eq!(serde_json::to_string(&line).unwrap(), json);
    }
}
