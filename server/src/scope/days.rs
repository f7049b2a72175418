//! Prices and days of work on a pair that is here: in its turn in the shop's plan, worked out away
//! from the threads that answer requests.

use shared_types::moment::Moment;
use shared_types::promise::answers::AnswerDay;
use shared_types::promise::dates::{Dates, InHand};
use shared_types::promise::open_work::OpenWork;
use shared_types::scope::{Scope, ScopeProblem, Work};
use shared_types::shop::Shop;
use shared_types::ticket::{Pair, Ticket, TicketNumber};

use crate::db::{Conn, DbError};
use crate::error::AppError;
use crate::plan;
use crate::staff::session::SignedIn;

/// A pair with the plan that it is in.
#[derive(Clone)]
pub(super) struct InPlan {
    pub(super) open: OpenWork,
    shop: Shop,
    number: TicketNumber,
    pair: Pair,
}

/// What an offer needs to know of time.
pub(super) struct OfferDays {
    /// Each choice with the days that answers give.
    pub(super) choices: Vec<(Scope, Vec<AnswerDay>)>,
    /// The days of answers that decline.
    pub(super) declined: Vec<AnswerDay>,
}

impl InPlan {
    pub(super) async fn load(
        conn: &mut Conn,
        staff: &SignedIn,
        (ticket, pair): (&Ticket, &Pair),
    ) -> Result<Self, DbError> {
        Ok(Self {
            open: plan::open_work(conn, &staff.shop, staff.now).await?,
            shop: staff.shop.clone(),
            number: ticket.number,
            pair: pair.clone(),
        })
    }

    /// Each work with its price, and its day if it is agreed now.
    pub(super) async fn scopes(
        self,
        works: Vec<Work>,
    ) -> Result<Vec<Result<Scope, ScopeProblem>>, AppError> {
        if works.is_empty() {
            return Ok(Vec::new());
        }
        self.dated(|dates, shop| {
            let scopes = works.into_iter().map(|work| dates.scope(work, shop));
            scopes.collect()
        })
        .await
    }

    /// One work with its price, and its day if it is agreed now.
    pub(super) async fn scope(self, work: Work) -> Result<Result<Scope, ScopeProblem>, AppError> {
        self.dated(|dates, shop| dates.scope(work, shop)).await
    }

    /// The days of an offer of these works that can be answered until `latest`, or the place of the
    /// one that can't be priced or dated, and why.
    pub(super) async fn offer(
        self,
        works: Vec<Work>,
        latest: Moment,
    ) -> Result<Result<OfferDays, (usize, ScopeProblem)>, AppError> {
        self.dated(move |dates, shop| {
            let choices = works.into_iter().enumerate().map(|(place, work)| {
                let choice = dates.offer(work, shop, latest);
                choice.map_err(|problem| (place, problem))
            });
            let choices = choices.collect::<Result<_, _>>()?;
            let declined = dates.days_if_declined(latest);
            Ok(OfferDays {
                choices,
                declined: declined.map_err(|problem| (0, problem))?,
            })
        })
        .await
    }

    async fn dated<T: Send + 'static>(
        self,
        ask: impl FnOnce(&mut Dates<'_>, &Shop) -> T + Send + 'static,
    ) -> Result<T, AppError> {
        plan::worked_out(move || {
            let board = self.open.board().ok();
            let pair = InHand::of(self.number, &self.pair);
            let mut dates = Dates::of(&self.open.practice, board.as_ref(), pair);
            ask(&mut dates, &self.shop)
        })
        .await
    }
}
