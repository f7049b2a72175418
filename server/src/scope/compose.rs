//! Composing an offer, looking at it as the customer will, and sending exactly that.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::compose::{Compose, ComposePage};
use frontend::back_office::preview::{Preview, PreviewPage};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::digest::Digest;
use shared_types::form::advice::{PickedFor, told};
use shared_types::form::basis::carry_over;
use shared_types::form::offer::{
    self, ACT_PREPARE, ACT_PROPOSE, Composed, OfferField, choice_prefix,
};
use shared_types::form::scope::{self, ScopeField};
use shared_types::form::{Fields, FormErrors, Problem, mend};
use shared_types::id::{NoteId, PairId, ServiceId};
use shared_types::margin::{Costs, Margin};
use shared_types::money::{Currency, MoneyProblem};
use shared_types::paths;
use shared_types::pricebook::Service;
use shared_types::promise::answers::AnswerDay;
use shared_types::scope::Scope;
use shared_types::scope::offer::Revision;
use shared_types::scope::sheet::{Choice, ChoiceKey, Matter, Offer, Picture, Sheet};
use shared_types::scope::{ScopeLine, Work};
use shared_types::staff::Permission;
use shared_types::text::Line;
use shared_types::ticket::commands::{NewNote, RuleBroken};
use shared_types::ticket::event::{Audience, Event};
use shared_types::ticket::{Pair, Ticket};
use time::Date;

use super::advice::Advice;
use super::days::{InPlan, OfferDays};
use super::{next_sheet, pair_of, queries, ticket_of};
use crate::app::App;
use crate::bench::pages::{self as bench, Again};
use crate::clock::new_id;
use crate::error::{AppError, AppResult};
use crate::page::{self, Done, see_done, see_other};
use crate::photos::{self, NotKept};
use crate::request::{At, Typed};
use crate::staff::session::SignedIn;
use crate::{customers, pricebook, record, rules};

pub(super) async fn show(State(app): State<App>, staff: SignedIn, At(id): At<PairId>) -> AppResult {
    staff.require(Permission::EditScope)?;
    let mut conn = app.db.read().await?;
    let ticket = ticket_of(&mut conn, id).await?;
    let draft = queries::draft(&mut conn, id).await?;
    drop(conn);
    let pair = pair_of(&ticket, id)?;
    let mut fields = match draft {
        Some(draft) => draft.fields,
        None => untouched(pair),
    };
    let flash = carried_over(&mut fields, pair).then(has_moved);
    compose_page(
        &app,
        &staff,
        (ticket, id),
        StatusCode::OK,
        (flash, fields, FormErrors::default()),
    )
    .await
}

/// Carries the ticks of a draft over to what is agreed now; says whether that had moved.
fn carried_over(fields: &mut Fields, pair: &Pair) -> bool {
    let prefixes = ChoiceKey::ALL.map(choice_prefix);
    carry_over(fields, &OfferField::Basis.name(), &prefixes, pair)
}

fn has_moved() -> Flash {
    refused(
        "What is agreed has changed since this was composed. The ticks follow their lines, and what \
         was agreed since is kept in every choice. Look at each choice again.",
    )
}

/// A new offer: every choice keeps all that is agreed, and what was discovered before is ticked.
fn untouched(pair: &Pair) -> Fields {
    let mut fields = Fields::default();
    for discovery in pair.discoveries() {
        fields.push(OfferField::Discovery.name(), discovery.code());
    }
    for key in ChoiceKey::ALL {
        for place in 0..pair.agreed().lines.len() {
            let keep = OfferField::Work(key, ScopeField::Keep).name();
            fields.push(keep, place.to_string());
        }
    }
    fields
}

async fn compose_page(
    app: &App,
    staff: &SignedIn,
    (ticket, id): (Ticket, PairId),
    status: StatusCode,
    (flash, fields, errors): (Option<Flash>, Fields, FormErrors<OfferField>),
) -> AppResult<Response> {
    let mut conn = app.db.read().await?;
    let services = pricebook::for_pair(&mut conn, pair_of(&ticket, id)?).await?;
    let rules = rules::of_shop(&mut conn).await?;
    let in_plan = InPlan::load(&mut conn, staff, (&ticket, pair_of(&ticket, id)?)).await?;
    let costs = pricebook::costs(&mut conn, staff).await?;
    drop(conn);
    let pair = pair_of(&ticket, id)?;
    let found = offer::discoveries(&fields);
    let advice = Advice::new(rules.clone(), found, (pair, &services), staff.shop.prices);
    let book = (services.as_slice(), pair.agreed().lines.as_slice());
    let advised = offer::read_work(&fields, book, staff.shop.currency())
        .into_iter()
        .map(|(key, lines)| {
            let prefix = choice_prefix(key);
            (key, advice.advise(&prefix, &lines, PickedFor::AnOffer))
        })
        .collect();
    let (keys, works): (Vec<_>, Vec<_>) = offer::read_work(&fields, book, staff.shop.currency())
        .into_iter()
        .map(|(key, lines)| (key, on_standing_terms(pair, lines)))
        .unzip();
    let open = in_plan.open.laid_out();
    let scopes = in_plan.scopes(works).await?;
    let worked_out: Vec<_> = keys.into_iter().zip(scopes).collect();
    let scopes = worked_out
        .iter()
        .filter_map(|(key, outcome)| Some((*key, outcome.as_ref().ok()?)));
    let margins = margins(costs.as_ref(), staff, scopes);
    let props = Compose {
        desk: staff.desk(flash),
        pair: id,
        services,
        fields,
        errors,
        worked_out,
        margins,
        advised,
        rules,
        open,
        ticket,
    };
    Ok(page::render(
        status,
        move || view! { <ComposePage props=props /> },
    ))
}

/// What each choice leaves the shop, if that is known and may be seen.
fn margins<'a>(
    costs: Option<&Costs>,
    staff: &SignedIn,
    scopes: impl Iterator<Item = (ChoiceKey, &'a Scope)>,
) -> Vec<(ChoiceKey, Result<Margin, MoneyProblem>)> {
    scopes
        .filter_map(|(key, scope)| Some((key, costs?.margin(scope, &staff.shop.prices)?)))
        .collect()
}

/// Keeps what was composed, with its pictures; prepares it for a look if that was asked.
pub(super) async fn save(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    mut typed: Typed,
) -> AppResult {
    staff.require(Permission::EditScope)?;
    let mut errors = keep_pictures(&app, &staff, id, &mut typed).await?;
    let mut conn = app.db.read().await?;
    let ticket = ticket_of(&mut conn, id).await?;
    let services = pricebook::for_pair(&mut conn, pair_of(&ticket, id)?).await?;
    let rules = rules::of_shop(&mut conn).await?;
    let in_plan = InPlan::load(&mut conn, &staff, (&ticket, pair_of(&ticket, id)?)).await?;
    drop(conn);
    let pair = pair_of(&ticket, id)?;
    let mut sheet = None;
    let moved = carried_over(&mut typed.fields, pair);
    let mut flash = moved.then(has_moved);
    let act = typed.fields.one(&OfferField::Act.name()).to_owned();
    let found = offer::discoveries(&typed.fields);
    let advice = Advice::new(rules, found, (pair, &services), staff.shop.prices);
    if act == ACT_PROPOSE {
        let filled = advice.fill(&mut typed.fields);
        flash = filled.unwrap_or_else(Some).map(Flash::Refused);
    } else if let Some((prefix, mend)) = mend::pressed(&act) {
        let agreed = &pair.agreed().lines;
        mend::apply(&mut typed.fields, prefix, &mend, agreed);
    } else if let Some((prefix, also)) = told(&act) {
        let book = (services.as_slice(), pair.agreed().lines.as_slice());
        tell(
            &mut typed.fields,
            (prefix, also),
            &advice,
            (book, staff.shop.currency()),
        );
    } else if moved {
        // Nothing is prepared from ticks that nobody has seen.
    } else if act == ACT_PREPARE && errors.is_empty() {
        let book = (services.as_slice(), pair.agreed().lines.as_slice());
        match offer::read(&typed.fields, book, staff.shop.currency()) {
            Ok(composed) => {
                let composed = (composed, &advice);
                match prepare((&ticket, pair), composed, (&staff, in_plan)).await? {
                    Ok(prepared) => sheet = Some(prepared),
                    Err((key, problem)) => {
                        errors.add(OfferField::Work(key, ScopeField::Service), problem);
                    }
                }
            }
            Err(found) => errors = found,
        }
    }
    let draft = queries::Draft {
        fields: typed.fields,
        sheet,
    };
    let mut conn = app.db.write().await?;
    queries::save_draft(&mut conn, id, &draft, staff.now).await?;
    conn.commit().await?;
    if draft.sheet.is_some() {
        return Ok(see_other(&paths::preview(id)));
    }
    let status = match (errors.is_empty(), moved) {
        (true, false) => StatusCode::OK,
        (true, true) => StatusCode::CONFLICT,
        (false, _) => StatusCode::UNPROCESSABLE_ENTITY,
    };
    let again = (flash, draft.fields, errors);
    compose_page(&app, &staff, (ticket, id), status, again).await
}

/// Adds what is better done now to the words of a choice, with both prices.
fn tell(
    fields: &mut Fields,
    (prefix, also): (&str, ServiceId),
    advice: &Advice<'_>,
    (book, currency): ((&[Service], &[ScopeLine]), Currency),
) {
    let Some(key) = ChoiceKey::ALL
        .into_iter()
        .find(|key| choice_prefix(*key) == prefix)
    else {
        return;
    };
    let lines = scope::read(fields, prefix, book, currency, &mut FormErrors::default());
    if let Some(better) = advice.better_now(also, &lines) {
        let name = OfferField::Words(key).name();
        let words = format!("{} {better}", fields.one(&name));
        fields.set(&name, words.trim());
    }
}

/// New pictures go into the journal, for the shop only until the offer is sent, and are ticked.
async fn keep_pictures(
    app: &App,
    staff: &SignedIn,
    id: PairId,
    typed: &mut Typed,
) -> Result<FormErrors<OfferField>, AppError> {
    let mut errors = FormErrors::default();
    let shows = Line::parse_optional(typed.fields.one(&OfferField::Shows.name()));
    let Some(shows) = errors.take(OfferField::Shows, shows) else {
        return Ok(errors);
    };
    let field = OfferField::Photo.name();
    let pictures = match photos::keep_pictures(app, typed, &field, shows.as_ref()).await {
        Ok(pictures) => pictures,
        Err(NotKept::Failed(error)) => return Err(error),
        Err(NotKept::Unusable(problem)) => {
            errors.add(OfferField::Photo, problem.into());
            return Ok(errors);
        }
    };
    if pictures.is_empty() {
        return Ok(errors);
    }
    for picture in &pictures {
        typed
            .fields
            .push(OfferField::Picture.name(), picture.digest.to_string());
    }
    typed.fields.set(&OfferField::Shows.name(), "");
    let note = NewNote {
        id: NoteId::from_bytes(new_id(staff.now)),
        audience: Audience::Shop,
        words: None,
        pictures,
    };
    let ticket = ticket_of(&mut app.db.read().await?, id).await?.id;
    let decide = |ticket: &Ticket, _| -> Result<Vec<Event>, RuleBroken> {
        Ok(ticket.note(id, note.clone())?.into_iter().collect())
    };
    if let Err(broken) = record::change(app, ticket, staff.actor(), decide).await? {
        return Err(AppError::Internal(broken.into()));
    }
    Ok(errors)
}

/// The sheet of a composed offer, or the choice that does not hang together or can't be priced or
/// dated, and why.
async fn prepare(
    (ticket, pair): (&Ticket, &Pair),
    (composed, advice): (Composed, &Advice<'_>),
    (staff, in_plan): (&SignedIn, InPlan),
) -> Result<Result<Sheet, (ChoiceKey, Problem)>, AppError> {
    let mut works = Vec::new();
    for choice in &composed.choices {
        match advice.with_reasons(choice.lines.clone()) {
            Ok(lines) => works.push(on_standing_terms(pair, lines)),
            Err(problem) => return Ok(Err((choice.key, problem))),
        }
    }
    let answer_by = staff.shop.answer_by(staff.now);
    let OfferDays { choices, declined } = match in_plan.offer(works, answer_by).await? {
        Ok(dated) => dated,
        Err((place, problem)) => {
            let key = composed.choices.get(place).map(|choice| choice.key);
            return Ok(Err((key.unwrap_or(ChoiceKey::A), problem.into())));
        }
    };
    let choices = composed.choices.into_iter().zip(choices);
    let choices = choices.map(|(choice, (scope, days))| Choice {
        key: choice.key,
        title: choice.title,
        words: choice.words,
        scope,
        days,
    });
    let choices = choices.collect();
    let known = || pair.notes.iter().flat_map(|note| &note.pictures);
    let pictures = composed.pictures.into_iter().filter_map(|digest| {
        let picture = known().find(|picture| picture.digest == digest)?;
        Some(Picture::clone(picture))
    });
    let agreed_fails = advice.agreed_fails();
    let offer = Offer {
        found: composed.found,
        discoveries: composed.discoveries,
        pictures: pictures.collect(),
        choices,
        if_declined: composed.if_declined,
        agreed_fails,
        ready_if_declined: first_day(&declined, pair),
        days_if_declined: later_days(declined, agreed_fails),
        answer_by,
        take_back: staff.shop.terms.take_back,
        cautions: pair.about.rating.cautions(),
    };
    let matter = (pair.standing_scope(), Matter::Offer(offer));
    next_sheet(ticket, pair, staff, matter).map(Ok)
}

/// The work of a choice: rush and discount stay as they stand agreed.
fn on_standing_terms(pair: &Pair, lines: Vec<ScopeLine>) -> Work {
    Work {
        lines,
        terms: pair.agreed().terms.clone(),
    }
}

fn first_day(days: &[AnswerDay], pair: &Pair) -> Date {
    days.first()
        .map_or_else(|| pair.promise(), |day| day.ready_by)
}

/// The days, if there is more than the first to tell of; none hangs on a no after which the agreed
/// work can't be done.
fn later_days(days: Vec<AnswerDay>, agreed_fails: bool) -> Vec<AnswerDay> {
    if days.len() > 1 && !agreed_fails {
        days
    } else {
        Vec::new()
    }
}

pub(super) async fn preview(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
) -> AppResult {
    staff.require(Permission::EditScope)?;
    preview_page(&app, &staff, id, (StatusCode::OK, None)).await
}

async fn preview_page(
    app: &App,
    staff: &SignedIn,
    id: PairId,
    (status, flash): (StatusCode, Option<Flash>),
) -> AppResult<Response> {
    let mut conn = app.db.read().await?;
    let ticket = ticket_of(&mut conn, id).await?;
    let draft = queries::draft(&mut conn, id).await?;
    let Some(sheet) = draft.and_then(|draft| draft.sheet) else {
        return Ok(see_other(&paths::compose(id)));
    };
    let customer = customers::get(&mut conn, ticket.customer).await?;
    let costs = pricebook::costs(&mut conn, staff).await?;
    drop(conn);
    let digest = sheet.digest()?;
    let choices = sheet.offer().into_iter().flat_map(|offer| &offer.choices);
    let scopes = choices.map(|choice| (choice.key, &choice.scope));
    let margins = margins(costs.as_ref(), staff, scopes);
    let props = Preview {
        desk: staff.desk(flash),
        ticket: ticket.id,
        pair: id,
        customer: customer.ok_or(AppError::NotFound)?,
        revision: Revision {
            sheet,
            digest,
            made_by: staff.actor(),
            answers: Vec::new(),
            withdrawn: None,
        },
        digest,
        margins,
    };
    Ok(page::render(
        status,
        move || view! { <PreviewPage props=props /> },
    ))
}

/// Sends the prepared offer exactly as it was looked at. If its days can no longer be kept, it is
/// prepared anew and shown again.
pub(super) async fn send(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::EditScope)?;
    let looked_at: Option<Digest> = typed.fields.one("digest").parse().ok();
    let mut conn = app.db.read().await?;
    let ticket = ticket_of(&mut conn, id).await?;
    let sent = looked_at.is_some_and(|digest| ticket.revision(digest).is_some());
    if sent {
        return Ok(see_done(&paths::pair(id), Done::OfferSent));
    }
    let draft = queries::draft(&mut conn, id).await?;
    let Some((fields, sheet)) = draft.and_then(|draft| Some((draft.fields, draft.sheet?))) else {
        return Ok(see_other(&paths::compose(id)));
    };
    let in_plan = InPlan::load(&mut conn, &staff, (&ticket, pair_of(&ticket, id)?)).await?;
    let services = pricebook::for_pair(&mut conn, pair_of(&ticket, id)?).await?;
    let rules = rules::of_shop(&mut conn).await?;
    drop(conn);
    let digest = sheet.digest()?;
    if Some(digest) != looked_at {
        let flash =
            refused("The offer was prepared anew meanwhile. Look at it again, then send it.");
        return preview_page(&app, &staff, id, (StatusCode::CONFLICT, Some(flash))).await;
    }
    let pair = pair_of(&ticket, id)?;
    let found = offer::discoveries(&fields);
    let advice = Advice::new(rules, found, (pair, &services), staff.shop.prices);
    let errors = ruled_out(&sheet, &advice);
    if !errors.is_empty() {
        let again = (None, fields, errors);
        let status = StatusCode::CONFLICT;
        return compose_page(&app, &staff, (ticket, id), status, again).await;
    }
    if let Some(fresh) = moved((&ticket, pair), &sheet, (&staff, in_plan)).await? {
        let draft = queries::Draft {
            fields,
            sheet: Some(fresh),
        };
        let mut conn = app.db.write().await?;
        queries::save_draft(&mut conn, id, &draft, staff.now).await?;
        conn.commit().await?;
        let flash = refused(
            "The days moved after you looked at this, so it was not sent. Below it is with the days \
             that can be kept now.",
        );
        return preview_page(&app, &staff, id, (StatusCode::CONFLICT, Some(flash))).await;
    }
    let decide = |ticket: &Ticket, now| {
        let event = ticket.make_sheet(id, sheet.clone(), digest, now);
        event.map(|event| vec![event])
    };
    match record::change(&app, ticket.id, staff.actor(), decide).await? {
        Ok(_) => {
            let mut conn = app.db.write().await?;
            queries::remove_draft(&mut conn, id).await?;
            conn.commit().await?;
            Ok(see_done(&paths::pair(id), Done::OfferSent))
        }
        Err(broken) => {
            bench::show(
                &app,
                &staff,
                id,
                StatusCode::CONFLICT,
                Again::refused(&broken),
            )
            .await
        }
    }
}

/// The choices that hung together when they were prepared and by today's rules no longer do.
fn ruled_out(sheet: &Sheet, advice: &Advice<'_>) -> FormErrors<OfferField> {
    let mut errors = FormErrors::default();
    for choice in sheet.offer().iter().flat_map(|offer| &offer.choices) {
        let lines = choice.scope.lines.clone();
        let field = OfferField::Work(choice.key, ScopeField::Service);
        errors.take(field, advice.with_reasons(lines));
    }
    errors
}

fn refused(words: &str) -> Flash {
    Flash::Refused(words.to_owned())
}

/// The sheet made anew, if a day or the time to answer has moved since it was prepared.
async fn moved(
    (ticket, pair): (&Ticket, &Pair),
    sheet: &Sheet,
    (staff, in_plan): (&SignedIn, InPlan),
) -> Result<Option<Sheet>, AppError> {
    let Some(offer) = sheet.offer() else {
        return Err(AppError::NotFound);
    };
    let mut fresh = offer.clone();
    fresh.answer_by = staff.shop.answer_by(staff.now);
    let works = offer.choices.iter().map(|choice| Work {
        lines: choice.scope.lines.clone(),
        terms: choice.scope.terms.clone(),
    });
    let dated = in_plan.offer(works.collect(), fresh.answer_by).await?;
    let OfferDays { choices, declined } =
        dated.map_err(|(_, problem)| AppError::Internal(problem.into()))?;
    let days: Vec<_> = choices.iter().map(|(_, days)| days.as_slice()).collect();
    if offer.still_holds(staff.now, &days, &declined) {
        return Ok(None);
    }
    for (choice, (scope, days)) in fresh.choices.iter_mut().zip(choices) {
        choice.scope.ready_by = scope.ready_by;
        choice.days = days;
    }
    fresh.ready_if_declined = first_day(&declined, pair);
    fresh.days_if_declined = later_days(declined, offer.agreed_fails);
    let matter = (sheet.agreed.clone(), Matter::Offer(fresh));
    next_sheet(ticket, pair, staff, matter).map(Some)
}
