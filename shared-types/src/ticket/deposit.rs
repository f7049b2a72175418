//! The deposit that was asked for when the pairs were taken in. It is asked for, never a condition:
//! nothing in the record waits for it.

use crate::money::{Money, MoneyProblem};
use crate::scope::sheet::Matter;
use crate::stage::Stage;
use crate::ticket::{Pair, Ticket};

/// A deposit and how far it is paid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Deposit {
    /// What was asked for, for all pairs.
    pub asked: Money,
    /// What was paid so far, for whatever.
    pub paid: Money,
    /// What of it is still open: never more than what is due, and nothing once every pair is ready,
    /// for then all of the price is.
    pub open: Money,
}

impl Pair {
    /// What was asked for when this pair was taken in.
    pub fn deposit(&self) -> Option<Money> {
        match &self.revisions.first()?.sheet.matter {
            Matter::Agreement(agreement) => agreement.deposit,
            Matter::Offer(_) => None,
        }
    }
}

impl Ticket {
    /// The deposit of all pairs; nothing if none was asked for.
    pub fn deposit(&self) -> Result<Option<Deposit>, MoneyProblem> {
        let asked = self.pairs.iter().filter_map(Pair::deposit);
        let asked = Money::sum(asked, self.currency)?;
        if !asked.is_positive() {
            return Ok(None);
        }
        let (paid, due) = (self.paid()?, self.due()?);
        let done = self.pairs.iter().all(|pair| pair.stage >= Stage::Ready);
        let open = asked.minus(paid)?.minor().min(due.minor()).max(0);
        let open = if done { 0 } else { open };
        Ok(Some(Deposit {
            asked,
            paid,
            open: Money::new(open, self.currency)?,
        }))
    }
}
