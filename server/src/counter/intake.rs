//! Taking pairs in.

use std::collections::BTreeSet;

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::intake::{Intake as IntakeView, IntakePage};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::bench::take_off::TakeOffs;
use shared_types::contact::Customer;
use shared_types::digest::Digest;
use shared_types::form::advice::PickedFor;
use shared_types::form::intake::{
    self, Bringer, Intake, IntakeAct, IntakeField, IntakePair, PairField, pair_count,
};
use shared_types::form::scope::ScopeField;
use shared_types::form::{Fields, FormErrors, Problem, mend};
use shared_types::id::{CustomerId, NoteId, PairId, TicketId};
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::pricebook::{Offered, for_pair};
use shared_types::promise::new_pair::{Asked, NewPair, NewPairs};
use shared_types::promise::open_work::OpenWork;
use shared_types::scope::rules::{AsFound, RuleSet};
use shared_types::scope::sheet::{Agreement, Given, Matter, Picture, Sheet};
use shared_types::scope::{Scope, ScopeProblem, Work};
use shared_types::shop::Shop;
use shared_types::staff::Permission;
use shared_types::text::Line;
use shared_types::ticket::commands;
use shared_types::ticket::event::{Actor, Audience, Event, PairTakenIn};
use shared_types::ticket::{Tag, Ticket, TicketNumber};
use time::Date;

use crate::app::App;
use crate::clock::new_id;
use crate::db::{Conn, DbError};
use crate::error::{AppError, AppResult};
use crate::page::{self, see_other};
use crate::photos::{self, NotKept};
use crate::request::Typed;
use crate::scope::advice::Advice;
use crate::staff::session::SignedIn;
use crate::{customers, plan, pricebook, record, rules};

pub(super) async fn show(State(app): State<App>, staff: SignedIn) -> AppResult {
    staff.require(Permission::TakeIn)?;
    let mut fields = Fields::default();
    let token = TicketId::from_bytes(new_id(staff.now));
    fields.push(IntakeField::Token.name(), token.to_string());
    let again = (None, fields, FormErrors::default());
    intake_page(&app, &staff, StatusCode::OK, again).await
}

async fn intake_page(
    app: &App,
    staff: &SignedIn,
    status: StatusCode,
    (flash, fields, errors): (Option<Flash>, Fields, FormErrors<IntakeField>),
) -> AppResult<Response> {
    let mut conn = app.db.read().await?;
    let offered = pricebook::offered(&mut conn).await?;
    let rules = rules::of_shop(&mut conn).await?;
    let open = plan::open_work(&mut conn, &staff.shop, staff.now).await?;
    let lookup = fields.one(&IntakeField::Lookup.name()).trim().to_owned();
    let matches = if lookup.is_empty() {
        Vec::new()
    } else {
        customers::find(&mut conn, &lookup).await?
    };
    let known = match fields.one(&IntakeField::Known.name()).parse() {
        Ok(id) => customers::get(&mut conn, id).await?,
        Err(_) => None,
    };
    drop(conn);
    let services: Result<Vec<_>, _> = (0..pair_count(&fields))
        .map(|pair| for_pair(&offered, &intake::take_offs(&fields, pair)))
        .collect();
    let services = services.map_err(|problem| AppError::Internal(problem.into()))?;
    let mut advised = Vec::new();
    let mut asked = Vec::new();
    let all_work = intake::read_work(&fields, &offered, staff.shop.currency());
    for (place, (work, services)) in all_work.into_iter().zip(&services).enumerate() {
        let (construction, rating) = intake::read_build(&fields, place);
        let built = AsFound {
            construction,
            rating,
            discoveries: BTreeSet::new(),
        };
        let advice = Advice::at_the_counter(rules.clone(), built, services, staff.shop.prices);
        let prefix = intake::work_prefix(place);
        advised.push(advice.advise(&prefix, &work.lines, PickedFor::AnAgreement));
        asked.push((work, intake::wished(&fields, place).ok().flatten()));
    }
    let nothing_picked = asked.iter().all(|(work, _)| work.lines.is_empty());
    let (worked_out, endangers) = if nothing_picked {
        (vec![None; asked.len()], Vec::new())
    } else {
        let asked = (asked, staff.shop.clone());
        let weigh_up = |new_pairs: &mut NewPairs<'_>, open: &OpenWork| {
            let worked_out = work_out(new_pairs, asked);
            let endangers = NewPairs::endangers(open, &worked_out);
            (worked_out, endangers)
        };
        plan::of_new_pairs(open.clone(), weigh_up).await?
    };
    let props = IntakeView {
        desk: staff.desk(flash),
        offered,
        services,
        fields,
        errors,
        matches,
        known,
        worked_out,
        endangers,
        open: open.laid_out(),
        advised,
        rules,
    };
    Ok(page::render(
        status,
        move || view! { <IntakePage props=props /> },
    ))
}

/// Looks up, adds a pair to the form, works out the price, or takes the pairs in.
pub(super) async fn submit(State(app): State<App>, staff: SignedIn, mut typed: Typed) -> AppResult {
    staff.require(Permission::TakeIn)?;
    let mut errors = keep_photos(&app, &mut typed).await?;
    let act = typed.fields.one(&IntakeField::Act.name()).to_owned();
    if let Some((prefix, mend)) = mend::pressed(&act) {
        mend::apply(&mut typed.fields, prefix, &mend, &[]);
    }
    let again = |flash, fields, errors| (flash, fields, errors);
    match IntakeAct::of(&typed.fields) {
        IntakeAct::TakeIn => {}
        IntakeAct::AddPair => {
            let more = (pair_count(&typed.fields) + 1).min(Tag::MOST);
            typed
                .fields
                .set(&IntakeField::Pairs.name(), more.to_string());
            return intake_page(
                &app,
                &staff,
                StatusCode::OK,
                again(None, typed.fields, errors),
            )
            .await;
        }
        IntakeAct::Lookup | IntakeAct::Price | IntakeAct::Mend => {
            return intake_page(
                &app,
                &staff,
                StatusCode::OK,
                again(None, typed.fields, errors),
            )
            .await;
        }
    }
    let mut conn = app.db.read().await?;
    let services = pricebook::offered(&mut conn).await?;
    let rules = rules::of_shop(&mut conn).await?;
    drop(conn);
    let read = intake::read(&typed.fields, &services, staff.shop.currency());
    let read = read.and_then(|intake| hanging_together(intake, &rules, &services, &staff.shop));
    let intake = match read {
        Ok(intake) if errors.is_empty() => intake,
        read => {
            errors.extend(read.err().unwrap_or_default());
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return intake_page(&app, &staff, status, again(None, typed.fields, errors)).await;
        }
    };
    let token = intake.token;
    let at = (staff.actor(), staff.now);
    match take_in(&app, &staff.shop, &intake, at).await? {
        Taken::In(ticket) => Ok(see_other(&paths::claim(ticket.id))),
        Taken::Already => Ok(see_other(&paths::claim(token))),
        Taken::NoSuchCustomer => {
            errors.add(IntakeField::Known, Problem::NotChosen);
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            intake_page(&app, &staff, status, again(None, typed.fields, errors)).await
        }
        Taken::TooSoon(place, refusal) => {
            let field = IntakeField::Pair(place, PairField::Promise);
            errors.add(field, Problem::NotKept(refusal));
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            intake_page(&app, &staff, status, again(None, typed.fields, errors)).await
        }
        Taken::NotWorkedOut(place, problem) => {
            let field = PairField::Work(ScopeField::of(&problem));
            errors.add(IntakeField::Pair(place, field), Problem::Scope(problem));
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            intake_page(&app, &staff, status, again(None, typed.fields, errors)).await
        }
    }
}

/// The pairs with the reason on each line; refused where the work on one does not hang together.
fn hanging_together(
    mut intake: Intake,
    rules: &RuleSet,
    offered: &[Offered],
    shop: &Shop,
) -> Result<Intake, FormErrors<IntakeField>> {
    let mut errors = FormErrors::default();
    for (place, pair) in intake.pairs.iter_mut().enumerate() {
        let built = AsFound::new(&pair.about, BTreeSet::new());
        let takes = TakeOffs::of_size(pair.about.size, pair.about.construction);
        let unpriced = |problem| Problem::Scope(ScopeProblem::Price(problem));
        let lines = for_pair(offered, &takes).map_err(unpriced);
        let lines = lines.and_then(|services| {
            let advice = Advice::at_the_counter(rules.clone(), built, &services, shop.prices);
            advice.with_reasons(pair.work.lines.clone())
        });
        let field = IntakeField::Pair(place, PairField::Work(ScopeField::Service));
        if let Some(lines) = errors.take(field, lines) {
            pair.work.lines = lines;
        }
    }
    if errors.is_empty() {
        Ok(intake)
    } else {
        Err(errors)
    }
}

/// Keeps pictures as they arrive, so that a form that must be shown again has not lost them.
async fn keep_photos(app: &App, typed: &mut Typed) -> Result<FormErrors<IntakeField>, AppError> {
    let mut errors = FormErrors::default();
    for place in 0..pair_count(&typed.fields) {
        let field = IntakeField::Pair(place, PairField::Photo);
        let kept_field = IntakeField::Pair(place, PairField::KeptPhoto).name();
        match photos::keep_all(app, typed, &field.name()).await {
            Ok(kept) => {
                for digest in kept {
                    typed.fields.push(kept_field.clone(), digest.to_string());
                }
            }
            Err(NotKept::Failed(error)) => return Err(error),
            Err(NotKept::Unusable(problem)) => errors.add(field, problem.into()),
        }
    }
    Ok(errors)
}

/// What taking in came to.
pub(crate) enum Taken {
    /// A ticket.
    In(Box<Ticket>),
    /// The form was sent twice; the ticket is there.
    Already,
    /// The chosen customer is not there.
    NoSuchCustomer,
    /// The work on this pair can't be priced or dated.
    NotWorkedOut(usize, ScopeProblem),
    /// The day that was wished for this pair can't be given, and why.
    TooSoon(usize, String),
}

/// How often others may take the same claim number, or change what is open, in the same instant.
const ROUNDS: usize = 8;

/// Takes pairs in: the customer, the ticket with its link, each pair's agreed scope and pictures,
/// and the letter, in one transaction.
pub(crate) async fn take_in(
    app: &App,
    shop: &Shop,
    intake: &Intake,
    by: (Actor, Moment),
) -> Result<Taken, AppError> {
    for _ in 0..ROUNDS {
        match try_take_in(app, shop, intake, by).await {
            // Another counter took the claim number, or this very form, in the same instant.
            Err(AppError::Internal(error))
                if matches!(error.downcast_ref(), Some(DbError::Taken)) => {}
            Ok(None) => {}
            Ok(Some(taken)) => return Ok(taken),
            Err(error) => return Err(error),
        }
    }
    Err(AppError::Stale)
}

/// Nothing if what is open moved meanwhile.
async fn try_take_in(
    app: &App,
    shop: &Shop,
    intake: &Intake,
    (actor, now): (Actor, Moment),
) -> Result<Option<Taken>, AppError> {
    let mut conn = app.db.read().await?;
    if record::load(&mut conn, intake.token).await?.is_some() {
        return Ok(Some(Taken::Already));
    }
    let open = plan::open_work(&mut conn, shop, now).await?;
    drop(conn);
    let asked = intake.pairs.iter();
    let asked = asked.map(|pair| (pair.work.clone(), pair.promise));
    let mut scopes = Vec::new();
    let asked = (asked.collect(), shop.clone());
    let worked_out = plan::of_new_pairs(open.clone(), move |days, _| work_out(days, asked)).await?;
    for (place, pair) in worked_out.into_iter().enumerate() {
        let pair = pair.ok_or(ScopeProblem::Empty).and_then(|pair| pair);
        let refusal = pair.as_ref().ok().and_then(|pair| pair.days.refusal());
        if let Some(refusal) = refusal {
            return Ok(Some(Taken::TooSoon(place, refusal)));
        }
        let scope = pair.and_then(|pair| pair.scope.refuse_discount_beyond());
        match scope {
            Ok(scope) => scopes.push(scope),
            Err(problem) => return Ok(Some(Taken::NotWorkedOut(place, problem))),
        }
    }
    let mut conn = app.db.write().await?;
    // The days were worked out before, so that nobody has to wait with their own changes; they hold
    // for what was open then.
    if plan::open_work(&mut conn, shop, now).await? != open {
        return Ok(None);
    }
    let Some(customer) = bringer(&mut conn, &intake.bringer, now).await? else {
        return Ok(Some(Taken::NoSuchCustomer));
    };
    let link = app.portal_key(intake.token, 1).digest();
    let events = |number| {
        let pairs = intake.pairs.iter().zip(scopes);
        events(shop, (number, customer, link), pairs, now)
    };
    let place = (intake.token, customer);
    let ticket = record::open(app, &mut conn, place, (actor, now), events).await?;
    conn.commit().await?;
    app.outbox.notify_one();
    Ok(Some(Taken::In(Box::new(ticket))))
}

async fn bringer(
    conn: &mut Conn,
    bringer: &Bringer,
    now: Moment,
) -> Result<Option<CustomerId>, DbError> {
    match bringer {
        Bringer::Known(id) => {
            let known = customers::get(conn, *id).await?;
            Ok(known.map(|customer| customer.id))
        }
        Bringer::New { name, email, phone } => {
            let id = CustomerId::from_bytes(new_id(now));
            let customer = Customer {
                id,
                name: name.clone(),
                email: email.clone(),
                phone: phone.clone(),
            };
            customers::add(conn, &customer).await?;
            Ok(Some(id))
        }
    }
}

/// A pair as it was worked out; nothing where no work is picked yet.
type WorkedOut = Option<Result<NewPair, ScopeProblem>>;

/// Prices and dates new pairs with the days that are wished, each behind the one before.
fn work_out(
    new_pairs: &mut NewPairs<'_>,
    (works, shop): (Vec<(Work, Option<Date>)>, Shop),
) -> Vec<WorkedOut> {
    let asked = works.iter().map(|(work, wished)| Asked {
        lines: &work.lines,
        rush: work.terms.rush,
        wished: *wished,
    });
    let days = new_pairs.days(&asked.collect::<Vec<_>>());
    let pairs = works.into_iter().zip(days).map(|((work, _), days)| {
        let pair = days?.and_then(|days| {
            let scope = Scope::work_out(work, &shop, |_| Ok(days.given()))?;
            Ok(NewPair { scope, days })
        });
        Some(pair)
    });
    pairs.collect()
}

fn events<'a>(
    shop: &Shop,
    (number, customer, link): (TicketNumber, CustomerId, Digest),
    pairs: impl Iterator<Item = (&'a IntakePair, Scope)>,
    now: Moment,
) -> Result<Vec<Event>, AppError> {
    let failed = |problem: Problem| AppError::Internal(problem.into());
    let mut taken = Vec::new();
    let mut notes = Vec::new();
    for (place, (pair, scope)) in pairs.enumerate() {
        let tag = Tag::at(place).ok_or(AppError::NotFound)?;
        let id = PairId::from_bytes(new_id(now));
        let title: String = pair.about.title().chars().take(Line::LIMIT).collect();
        let title = Line::parse(&title).map_err(failed)?;
        let agreement = Agreement {
            given: Given::AtTheCounter,
            words: None,
            cautions: pair.about.rating.cautions(),
            deposit: shop
                .prices
                .deposit_on(scope.total())
                .map_err(|problem| AppError::Internal(problem.into()))?,
        };
        let matter = (scope, Matter::Agreement(agreement));
        let sheet = Sheet::next(shop, (number, tag, title), None, matter, now);
        let digest = sheet.digest()?;
        if !pair.photos.is_empty() {
            let shows = Line::parse("As it was taken in").map_err(failed)?;
            let picture = |digest: &Digest| Picture {
                digest: *digest,
                shows: Some(shows.clone()),
            };
            notes.push(Event::Noted {
                pair: id,
                note: NoteId::from_bytes(new_id(now)),
                audience: Audience::Customer,
                words: None,
                pictures: pair.photos.iter().map(picture).collect(),
            });
        }
        let about = pair.about.clone();
        taken.push((PairTakenIn { id, tag, about }, sheet, digest));
    }
    let mut events = commands::take_in(number, customer, link, taken);
    events.extend(notes);
    Ok(events)
}
