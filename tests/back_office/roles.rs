//! Who may do what: every address of the back office, for everybody.

use std::collections::BTreeSet;

use anyhow::{Result, ensure};
use reqwest::Method;
use shared_types::paths;
use shared_types::staff::Role;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::ticket::Taken;
use crate::harness::visitor::Visitor;

on_both_engines!(
    every_address_opens_only_to_those_whose_work_it_is,
    a_guessed_or_misspelt_id_leads_nowhere,
);

const ALL: &[Role] = &Role::ALL;
const COUNTER: &[Role] = &[Role::Owner, Role::Counter];
const BENCH: &[Role] = &[Role::Owner, Role::Bench];
const OWNER: &[Role] = &[Role::Owner];

/// Each pattern with its methods and who may use it; the door itself is open.
const ADDRESSES: [(&str, &str, &[Role]); 55] = [
    ("GET", paths::TODAY, ALL),
    ("GET", paths::BENCH, ALL),
    ("GET", paths::PLAN, ALL),
    ("GET", paths::WHAT_IF, OWNER),
    ("GET", paths::FIND, ALL),
    ("GET", paths::INTAKE, COUNTER),
    ("POST", paths::INTAKE, COUNTER),
    ("GET", paths::SHOP_TICKET, ALL),
    ("GET", paths::CLAIM, COUNTER),
    ("POST", paths::PAY, COUNTER),
    ("POST", paths::GIVE_BACK, COUNTER),
    ("POST", paths::HAND_OVER, COUNTER),
    ("POST", paths::CONTACT, COUNTER),
    ("GET", paths::PAIR, ALL),
    ("POST", paths::MOVE_STAGE, BENCH),
    ("POST", paths::SET_HOLD, BENCH),
    ("POST", paths::START_WORK, BENCH),
    ("POST", paths::POST_NOTE, ALL),
    ("GET", paths::BENCH_SHEET, ALL),
    ("GET", paths::BENCH_PAPER, ALL),
    ("GET", paths::MEASURE, BENCH),
    ("POST", paths::MEASURE, BENCH),
    ("GET", paths::COMPOSE, ALL),
    ("POST", paths::COMPOSE, ALL),
    ("GET", paths::PREVIEW, ALL),
    ("POST", paths::SEND_OFFER, ALL),
    ("POST", paths::WITHDRAW, ALL),
    ("POST", paths::TOLD_WORD, ALL),
    ("GET", paths::EDIT_SCOPE, ALL),
    ("POST", paths::EDIT_SCOPE, ALL),
    ("GET", paths::REVISIONS, ALL),
    ("GET", paths::SHOP_PHOTO, ALL),
    ("GET", paths::LETTERS, COUNTER),
    ("GET", paths::LETTER, COUNTER),
    ("POST", paths::RETRY_LETTER, COUNTER),
    ("GET", paths::PRICES, OWNER),
    ("POST", paths::PRICES, OWNER),
    ("GET", paths::SERVICE, OWNER),
    ("POST", paths::SERVICE, OWNER),
    ("GET", paths::SUPPLIES, OWNER),
    ("POST", paths::SUPPLIES, OWNER),
    ("GET", paths::SUPPLY, OWNER),
    ("POST", paths::SUPPLY, OWNER),
    ("POST", paths::BENCH_HOUR, OWNER),
    ("GET", paths::RULES, OWNER),
    ("GET", paths::NEW_RULE, OWNER),
    ("POST", paths::NEW_RULE, OWNER),
    ("GET", paths::RULE, OWNER),
    ("POST", paths::RULE, OWNER),
    ("GET", paths::SETTINGS, OWNER),
    ("POST", paths::SETTINGS, OWNER),
    ("GET", paths::HANDS, OWNER),
    ("POST", paths::HANDS, OWNER),
    ("GET", paths::PEOPLE, OWNER),
    ("POST", paths::PEOPLE, OWNER),
];

/// Those that end something, and so come last.
const ENDS: [(&str, &str, &[Role]); 3] = [
    ("POST", paths::PERSON, OWNER),
    ("POST", paths::RENEW_LINK, COUNTER),
    ("POST", paths::REVOKE_LINK, COUNTER),
];

const DOOR: [&str; 2] = [paths::SIGN_IN, paths::SIGN_OUT];

/// A pattern with real ids in it, as far as there are any.
async fn filled(app: &TestApp, ticket: &Taken, pattern: &str) -> Result<String> {
    let id = match pattern {
        paths::SERVICE => app.book.values().next().cloned().unwrap_or_default(),
        paths::SUPPLY => app
            .owner
            .get(&paths::supplies())
            .await?
            .after(&paths::supply(""))?,
        paths::LETTER | paths::RETRY_LETTER => app
            .owner
            .get(&paths::letters())
            .await?
            .after(&paths::letter(""))?,
        paths::PERSON => app
            .owner
            .get(&paths::people())
            .await?
            .after(&paths::person(""))?,
        paths::RULE => "sole-needs-edges".to_owned(),
        pattern if pattern.starts_with("/shop/pairs/") => ticket.pair.clone(),
        _ => ticket.id.clone(),
    };
    Ok(pattern
        .replace("{id}", &id)
        .replace("{code}", "needs-work")
        .replace("{digest}", &"0".repeat(64)))
}

async fn every_address_opens_only_to_those_whose_work_it_is(app: &TestApp) -> Result<()> {
    every_address_is_listed()?;
    let ticket = app.takes_boots_in().await?;
    let people: [(Option<Role>, Visitor); 4] = [
        (None, app.stranger()?),
        (Some(Role::Bench), app.bench.clone()),
        (Some(Role::Counter), app.counter.clone()),
        (Some(Role::Owner), app.owner.clone()),
    ];
    for (method, pattern, allowed) in ADDRESSES.into_iter().chain(ENDS) {
        let path = filled(app, &ticket, pattern).await?;
        for (role, visitor) in &people {
            let before = app.holdings().await?;
            let answer = match method {
                "GET" => visitor.get(&path).await?,
                _ => visitor.post(&path, Form::new()).await?,
            };
            let (status, who) = (answer.status, format!("{method} {path} by {role:?}"));
            let to_the_door = status == 303 && answer.location()?.starts_with(paths::SIGN_IN);
            match role {
                None => ensure!(to_the_door, "{who}: {status}"),
                Some(role) if allowed.contains(role) => {
                    ensure!(
                        status != 403 && status < 500 && !to_the_door,
                        "{who}: {status}"
                    );
                }
                Some(_) => ensure!(status == 403, "{who}: {status}"),
            }
            if role.is_none_or(|role| !allowed.contains(&role)) {
                ensure!(app.holdings().await? == before, "{who} changed something");
                ensure!(!answer.html().contains("Nadia"), "{who} sees whose it is");
            }
        }
    }
    Ok(())
}

/// A new address of the back office must be given to somebody here.
fn every_address_is_listed() -> Result<()> {
    let source = include_str!("../../shared-types/src/paths.rs");
    let written = source
        .lines()
        .filter_map(|line| line.split("= \"/shop").nth(1));
    let written: BTreeSet<String> = written
        .filter_map(|rest| Some(format!("/shop{}", rest.split('"').next()?)))
        .collect();
    let listed = ADDRESSES
        .iter()
        .chain(&ENDS)
        .map(|(_, pattern, _)| *pattern);
    let listed: BTreeSet<String> = listed.chain(DOOR).map(str::to_owned).collect();
    ensure!(
        !written.is_empty() && written == listed,
        "{written:?} and {listed:?}"
    );
    Ok(())
}

async fn a_guessed_or_misspelt_id_leads_nowhere(app: &TestApp) -> Result<()> {
    let before = app.holdings().await?;
    let guessed = "01a23388-4ba0-7e98-9722-fa161bbed489";
    for (method, pattern, _) in ADDRESSES.into_iter().chain(ENDS) {
        if !pattern.contains('{') {
            continue;
        }
        for id in [guessed, "x", "%00", "..%2f..", "1001", &"9".repeat(3_000)] {
            let path = pattern.replace("{id}", id).replace("{digest}", id);
            let answer = match method {
                "GET" => app.owner.get(&path).await?,
                _ => app.owner.post(&path, Form::new()).await?,
            };
            let answer = match answer.status {
                303 => app.owner.follow(&answer).await?,
                _ => answer,
            };
            ensure!(answer.status == 404, "{method} {path}: {}", answer.status);
        }
    }
    ensure!(app.holdings().await? == before);
    let odd = app.owner.raw(Method::DELETE, &paths::pair(guessed));
    ensure!(odd.send().await?.status().is_client_error());
    Ok(())
}
