//! What if: a question in the address, an answer on the page; nothing is stored.

use std::collections::BTreeMap;

use axum::extract::{Query, State};
use axum::http::StatusCode;
use frontend::back_office::plan::what_if::{Answer, WhatIf, WhatIfPage};
use leptos::prelude::*;
use shared_types::form::what_if::{self, read};
use shared_types::form::{Fields, FormErrors};
use shared_types::promise::open_work::{OpenWork, tag_of};
use shared_types::promise::what_if::{Change, what_if as tried};
use shared_types::staff::Permission;

use super::worked_out;
use crate::app::App;
use crate::error::AppResult;
use crate::request::without_nul;
use crate::staff::session::SignedIn;
use crate::{page, pricebook, record};

pub(super) async fn what_if(
    State(app): State<App>,
    staff: SignedIn,
    Query(typed): Query<Vec<(String, String)>>,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let typed = typed
        .into_iter()
        .map(|(name, value)| (name, without_nul(&value)));
    let fields: Fields = typed.collect();
    let mut conn = app.db.read().await?;
    let pairs = record::briefs_still_here(&mut conn).await?;
    let book = pricebook::services_ever(&mut conn).await?;
    let offered = pricebook::offered(&mut conn).await?;
    drop(conn);
    let work = OpenWork::new(&staff.shop, &book, &pairs, staff.now);
    let hands = work.workshop.hands.iter();
    let hands = hands.map(|hand| hand.name.clone()).collect();
    let open = work.workshop.pairs.iter();
    let open: Vec<_> = open.map(|pair| pair.tag.clone()).collect();
    let (errors, answer) = match read(&fields, &work, &book) {
        Err(errors) => (errors, Answer::NotAsked),
        Ok(changes) if changes.is_empty() => (FormErrors::default(), Answer::NotAsked),
        Ok(changes) => {
            let answer = worked_out(move || answer(&work, &changes)).await?;
            (FormErrors::default(), answer)
        }
    };
    let status = if errors.is_empty() {
        StatusCode::OK
    } else {
        StatusCode::UNPROCESSABLE_ENTITY
    };
    let props = WhatIf {
        desk: staff.desk(None),
        fields,
        errors,
        answer,
        hands,
        open,
        pairs: pairs
            .into_iter()
            .map(|brief| (tag_of(brief.number, brief.tag), brief))
            .collect::<BTreeMap<_, _>>(),
        services: offered
            .into_iter()
            .map(|service| (service.id, service.title))
            .collect(),
    };
    Ok(page::render(
        status,
        move || view! { <WhatIfPage props=props /> },
    ))
}

fn answer(work: &OpenWork, changes: &[Change]) -> Answer {
    match tried(
        &work.workshop,
        work.now,
        changes,
        work.practice.draws,
        work.practice.chance,
    ) {
        Ok(moved) => Answer::Moved {
            is_help: changes.iter().all(Change::is_help),
            rush: what_if::rush_tag(),
            moved,
        },
        Err(misfit) => Answer::Unplanned(misfit),
    }
}
