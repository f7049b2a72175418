//! The page of the plan.

use axum::extract::State;
use axum::http::StatusCode;
use frontend::back_office::plan::{PlanPage, PlanProps, PlanState, Planned};
use leptos::prelude::*;
use shared_types::promise::board::Board;
use shared_types::promise::days::coming_days;
use shared_types::promise::order::{Rule, arranged};
use shared_types::promise::outlook::{Forecast, outlook};
use shared_types::promise::workshop::{Misfit, Pair, Workshop};
use shared_types::staff::Permission;

use super::{EveningWork, worked_out};
use crate::app::App;
use crate::error::AppResult;
use crate::page;
use crate::staff::session::SignedIn;

/// How many open days the page shows, today's rest included.
const SHOWN: usize = 5;

pub(super) async fn plan(State(app): State<App>, staff: SignedIn) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    let mut conn = app.db.read().await?;
    let work = EveningWork::read(&mut conn, &staff.shop, staff.now).await?;
    drop(conn);
    let planned = worked_out(move || planned(&work)).await?;
    let props = PlanProps {
        desk: staff.desk(None),
        state: match planned {
            Ok(planned) => PlanState::Planned(planned),
            Err(misfit) => PlanState::Unplanned(misfit),
        },
    };
    Ok(page::render(
        StatusCode::OK,
        move || view! { <PlanPage props=props /> },
    ))
}

fn planned(evening: &EveningWork) -> Result<Planned, Misfit> {
    let (days, answers) = evening.days()?;
    let work = &evening.work;
    let kept = kept(&work.workshop.pairs, &answers.forecasts, evening);
    Ok(Planned {
        bench: coming_days(&work.workshop, &answers.plan, work.now, SHOWN),
        kept,
        least_work: kept_by_least_work(evening)?,
        days,
    })
}

/// How many promises are kept with the shop's chance.
fn kept(pairs: &[Pair], forecasts: &[Forecast], evening: &EveningWork) -> usize {
    let kept = pairs.iter().zip(forecasts).filter(|(pair, forecast)| {
        let promised = pair.promised.map(|day| forecast.odds(day));
        promised.is_some_and(|odds| !odds.fall_short_of(evening.work.practice.chance))
    });
    kept.count()
}

/// The same if the pairs with the least work went first.
fn kept_by_least_work(evening: &EveningWork) -> Result<usize, Misfit> {
    let work = &evening.work;
    let workshop = Workshop {
        pairs: arranged(&work.workshop.pairs, Rule::LeastWork),
        ..work.workshop.clone()
    };
    let forecasts = outlook(&Board::new(&workshop, work.now)?, work.practice.draws);
    Ok(kept(&workshop.pairs, &forecasts, evening))
}
