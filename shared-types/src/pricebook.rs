//! The price book: the shop's services with their minutes, rests and materials.

use serde::{Deserialize, Serialize};

use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::money::Money;
use crate::scope::{ScopeLine, Side};
use crate::stage::Stage;
use crate::text::{Line, Words};

/// One service of the price book, for a pair.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Service {
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
    /// Material for a pair.
    pub material: Money,
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
        }
    }
}
