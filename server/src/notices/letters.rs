//! The words of each letter: one function for each, one arm that picks it.

use shared_types::contact::Customer;
use shared_types::digest::Digest;
use shared_types::id::{NoteId, PairId};
use shared_types::key::PortalKey;
use shared_types::moment::{Moment, day_words};
use shared_types::money::{Money, MoneyProblem};
use shared_types::notice::Notice;
use shared_types::paths;
use shared_types::promise::chance::Chance;
use shared_types::scope::Scope;
use shared_types::scope::offer::{Revision, Word};
use shared_types::scope::sheet::{Choice, Matter, Sheet};
use shared_types::shop::Shop;
use shared_types::tax::TaxBasis;
use shared_types::ticket::{Pair, Ticket};
use time::Date;

use super::calendar;
use super::stationery::{Letter, Part};
use crate::error::AppError;

/// What a letter is about.
#[derive(Debug)]
pub(super) struct About<'a> {
    pub(super) shop: &'a Shop,
    pub(super) ticket: &'a Ticket,
    pub(super) customer: &'a Customer,
    pub(super) key: Option<PortalKey>,
    pub(super) origin: &'a str,
    pub(super) now: Moment,
}

/// Writes a letter; nothing if what it was about is no longer so.
pub(super) fn write(about: &About<'_>, notice: &Notice) -> Result<Option<Letter>, AppError> {
    let written = match notice {
        Notice::TakenIn => Some(taken_in(about)),
        Notice::LinkRenewed => Some(link_renewed(about)),
        Notice::OfferMade { pair, sheet } => offer_made(about, *pair, *sheet),
        Notice::OfferWithdrawn { pair } => offer_withdrawn(about, *pair),
        Notice::WordRecorded { pair, sheet } => word_recorded(about, *pair, *sheet),
        Notice::WordTakenBack { pair, sheet } => word_taken_back(about, *pair, *sheet),
        Notice::ScopeChanged { pair, sheet } => scope_changed(about, *pair, *sheet),
        Notice::Replied { pair, note } => replied(about, *pair, *note),
        Notice::Ready { pair } => ready(about, *pair).map_err(money)?,
        Notice::Reminder { ordinal } => Some(reminder(about, *ordinal).map_err(money)?),
        Notice::HandedOver => Some(handed_over(about).map_err(money)?),
    };
    Ok(written)
}

fn money(problem: MoneyProblem) -> AppError {
    AppError::Internal(problem.into())
}

impl About<'_> {
    fn letter(&self, subject: String, parts: Vec<Part>) -> Letter {
        let customer = &self.customer.name;
        Letter {
            subject,
            parts,
            calendar: None,
            greeting: format!("Dear {customer}"),
        }
    }

    fn link(&self, label: &str, path: Option<String>) -> Part {
        match path {
            Some(path) => Part::Link(label.to_owned(), format!("{}{path}", self.origin)),
            None => Part::Words(format!(
                "If you would like to see your ticket online, ring us and we send you a link. Your \
                 claim number is {}.",
                self.ticket.number
            )),
        }
    }

    fn ticket_link(&self, label: &str) -> Part {
        self.link(label, self.key.as_ref().map(paths::ticket))
    }

    fn pair(&self, id: PairId) -> Option<&Pair> {
        self.ticket.pair(id)
    }

    fn revision(&self, pair: PairId, sheet: Digest) -> Option<(&Pair, &Revision)> {
        let pair = self.pair(pair)?;
        let revision = pair.revisions.iter().find(|one| one.digest == sheet)?;
        Some((pair, revision))
    }

    fn moment(&self, moment: Moment) -> String {
        self.shop.calendar.zone.words(moment)
    }

    fn hours(&self) -> Part {
        Part::Words(format!(
            "We are open:\n{}",
            self.shop.calendar.week_words().join("\n")
        ))
    }
}

/// A scope's lines, its tax, its total and its day.
fn scope_rows(scope: &Scope, day: Date) -> Part {
    let lines = scope.lines.iter().zip(&scope.quote.lines);
    let mut rows: Vec<(String, String)> = lines
        .map(|(line, priced)| (line.title.to_string(), priced.price.to_string()))
        .collect();
    for step in &scope.quote.adjustments {
        let amount = step.signed();
        let amount = amount.map_or_else(|problem| problem.to_string(), Money::signed);
        rows.push((step.title(), amount));
    }
    for tax in &scope.quote.taxes {
        let name = match scope.quote.basis {
            TaxBasis::Added => format!("Tax {} % on {}", tax.rate, tax.on),
            TaxBasis::Included => format!("Tax {} % in {}, included", tax.rate, tax.on),
        };
        rows.push((name, tax.tax.to_string()));
    }
    rows.push(("Total".to_owned(), scope.total().to_string()));
    rows.push(("Ready by".to_owned(), day_words(day)));
    Part::Rows(rows)
}

fn taken_in(about: &About<'_>) -> Letter {
    let ticket = about.ticket;
    let mut parts = vec![Part::Words(format!(
        "thank you for bringing your {} to us. Your claim number is {}. This is what we agreed:",
        titles(ticket.pairs.iter()),
        ticket.number
    ))];
    for pair in &ticket.pairs {
        parts.push(Part::Words(format!(
            "{} ({})",
            capital(&pair.about.title()),
            pair.tag
        )));
        parts.push(scope_rows(pair.agreed(), pair.promise()));
    }
    parts.push(about.ticket_link("See your ticket"));
    parts.push(Part::Words(
        "Keep this letter: the link opens your ticket without a password. If we find more than can \
         be seen from outside, we show you what and what it costs, and do nothing beyond this \
         until you say so."
            .to_owned(),
    ));
    about.letter(
        format!("Your ticket {} at {}", ticket.number, about.shop.name),
        parts,
    )
}

fn link_renewed(about: &About<'_>) -> Letter {
    let parts = vec![
        Part::Words(format!(
            "here is a new link to your ticket {}. The one before opens nothing any more.",
            about.ticket.number
        )),
        about.ticket_link("See your ticket"),
    ];
    about.letter(
        format!("A new link to your ticket {}", about.ticket.number),
        parts,
    )
}

fn offer_made(about: &About<'_>, pair: PairId, sheet: Digest) -> Option<Letter> {
    let (pair, revision) = about.revision(pair, sheet)?;
    let offer = revision.sheet.offer()?;
    let agreed = &revision.sheet.agreed;
    let mut rows = vec![(
        "As agreed so far".to_owned(),
        format!("{}, ready {}", agreed.total(), day_words(agreed.ready_by)),
    )];
    for choice in &offer.choices {
        rows.push((
            format!("{}: {}", choice.key, choice.title),
            choice_words(about, choice),
        ));
    }
    let parts = vec![
        Part::Words(format!(
            "we have looked inside your {} and need your word before we go on.",
            pair.about.title()
        )),
        Part::Words(offer.found.to_string()),
        Part::Rows(rows),
        about.link(
            "See what we found, and choose",
            about.key.as_ref().map(|key| paths::offer(key, sheet)),
        ),
        Part::Words(format!(
            "Please answer by {}. Opening the page decides nothing; you choose there. Until you \
             answer, nothing beyond the first agreement is done.{}",
            about.moment(offer.answer_by),
            how_sure(&revision.sheet)
        )),
    ];
    Some(about.letter(
        format!(
            "Ticket {}: we need your word on your {}",
            about.ticket.number, pair.about.kind
        ),
        parts,
    ))
}

fn how_sure(sheet: &Sheet) -> String {
    let kept = sheet.chance.map(Chance::in_words);
    kept.map_or_else(String::new, |kept| {
        format!(" We plan such days so that we keep {kept}.")
    })
}

/// `$642.56, ready Tue 1 Dec if you answer by Thu 26 Nov, 11:00, Wed 2 Dec by Thu 26 Nov, 16:30,
/// then Fri 4 Dec`.
fn choice_words(about: &About<'_>, choice: &Choice) -> String {
    let day = day_words(choice.ready_if_answered(about.now));
    let words = format!("{}, ready {day}", choice.scope.total());
    let [first, between @ .., last] = choice.days_ahead(about.now) else {
        return words;
    };
    let mut days = vec![format!(
        "{words} if you answer by {}",
        about.moment(first.answered_by)
    )];
    days.extend(between.iter().map(|day| {
        let until = about.moment(day.answered_by);
        format!("{} by {until}", day_words(day.ready_by))
    }));
    days.push(format!("then {}", day_words(last.ready_by)));
    days.join(", ")
}

fn offer_withdrawn(about: &About<'_>, pair: PairId) -> Option<Letter> {
    let pair = about.pair(pair)?;
    let (_, reason) = pair.revisions.last()?.withdrawn.as_ref()?;
    let mut parts = vec![Part::Words(format!(
        "we have withdrawn our last question about your {}. You need not answer it; what was \
         agreed before still stands.",
        pair.about.title()
    ))];
    parts.extend(
        reason
            .as_ref()
            .map(|reason| Part::Words(reason.to_string())),
    );
    parts.push(about.ticket_link("See your ticket"));
    Some(about.letter(
        format!("Ticket {}: our question is withdrawn", about.ticket.number),
        parts,
    ))
}

fn word_recorded(about: &About<'_>, pair: PairId, sheet: Digest) -> Option<Letter> {
    let (pair, revision) = about.revision(pair, sheet)?;
    let answer = revision.standing()?;
    let said = match answer.word {
        Word::Accept(_) => format!("you said yes to “{}”", revision.accepted()?.title),
        Word::Decline if revision.sheet.offer()?.agreed_fails => {
            "you declined; what was agreed before can't be done on the pair as we found it, so we \
             talk with you before we go on"
                .to_owned()
        }
        Word::Decline => "you declined; we go on as agreed before".to_owned(),
    };
    let take_back = revision.sheet.offer().map(|offer| {
        answer
            .at
            .plus(time::Duration::minutes(i64::from(offer.take_back.get())))
    })?;
    let parts = vec![
        Part::Words(format!(
            "we have your word on your {}: {said} ({}). This is what is agreed now:",
            pair.about.title(),
            about.moment(answer.at)
        )),
        scope_rows(pair.agreed(), pair.promise()),
        about.link(
            "Your receipt",
            about.key.as_ref().map(|key| paths::word(key, sheet)),
        ),
        Part::Words(format!(
            "You can take this back on that page until {}, unless the bench has started.",
            about.moment(take_back)
        )),
        Part::Small(format!(
            "What you were shown has the SHA-256 digest {sheet}; the record stands at {}.",
            about.ticket.head
        )),
    ];
    Some(about.letter(
        format!(
            "Ticket {}: your word on your {}",
            about.ticket.number, pair.about.kind
        ),
        parts,
    ))
}

fn word_taken_back(about: &About<'_>, pair: PairId, sheet: Digest) -> Option<Letter> {
    let (pair, revision) = about.revision(pair, sheet)?;
    let answer_by = revision.sheet.offer()?.answer_by;
    let parts = vec![
        Part::Words(format!(
            "you have taken your answer about your {} back. What was agreed before stands again, \
             and our question is open until {}:",
            pair.about.title(),
            about.moment(answer_by)
        )),
        scope_rows(pair.agreed(), pair.promise()),
        about.link(
            "Look at it again",
            about.key.as_ref().map(|key| paths::offer(key, sheet)),
        ),
    ];
    Some(about.letter(
        format!("Ticket {}: your answer is taken back", about.ticket.number),
        parts,
    ))
}

fn scope_changed(about: &About<'_>, pair: PairId, sheet: Digest) -> Option<Letter> {
    let (pair, revision) = about.revision(pair, sheet)?;
    let Matter::Agreement(agreement) = &revision.sheet.matter else {
        return None;
    };
    let mut parts = vec![Part::Words(format!(
        "as agreed with you {}, the work on your {} has changed. This is what is agreed now:",
        agreement.given.label(),
        pair.about.title()
    ))];
    parts.push(scope_rows(
        &revision.sheet.agreed,
        revision.sheet.agreed.ready_by,
    ));
    parts.extend(
        agreement
            .words
            .as_ref()
            .map(|words| Part::Words(words.to_string())),
    );
    parts.push(about.ticket_link("See your ticket"));
    parts.push(Part::Words(
        "If this is not what you agreed, please ring us at once.".to_owned(),
    ));
    Some(about.letter(
        format!(
            "Ticket {}: the agreed work has changed",
            about.ticket.number
        ),
        parts,
    ))
}

fn replied(about: &About<'_>, pair: PairId, note: NoteId) -> Option<Letter> {
    let pair = about.pair(pair)?;
    let note = pair.notes.iter().find(|known| known.id == note)?;
    let mut parts = vec![Part::Words(format!(
        "you asked about your {}. Our answer:",
        pair.about.title()
    ))];
    parts.extend(
        note.words
            .as_ref()
            .map(|words| Part::Words(words.to_string())),
    );
    parts.push(about.ticket_link("See your ticket"));
    Some(about.letter(format!("Ticket {}: our answer", about.ticket.number), parts))
}

fn ready(about: &About<'_>, pair: PairId) -> Result<Option<Letter>, MoneyProblem> {
    let Some(pair) = about.pair(pair) else {
        return Ok(None);
    };
    let ticket = about.ticket;
    let mut parts = vec![Part::Words(format!(
        "you can collect your {}. Your claim number is {}.",
        pair.about.title(),
        ticket.number
    ))];
    let waiting: Vec<&Pair> = ticket
        .pairs
        .iter()
        .filter(|pair| pair.stage.is_open())
        .collect();
    if !waiting.is_empty() {
        parts.push(Part::Words(format!(
            "We are still working on your {}.",
            titles(waiting.into_iter())
        )));
    }
    parts.push(due_rows(ticket)?);
    parts.push(about.hours());
    parts.push(about.ticket_link("See your ticket"));
    let mut letter = about.letter(
        format!(
            "Ticket {}: ready to collect, your {}",
            ticket.number, pair.about.kind
        ),
        parts,
    );
    letter.calendar = calendar::pickup(about.shop, ticket, about.now);
    Ok(Some(letter))
}

fn due_rows(ticket: &Ticket) -> Result<Part, MoneyProblem> {
    let mut rows = vec![
        ("Agreed".to_owned(), ticket.total()?.to_string()),
        ("Paid".to_owned(), ticket.paid()?.to_string()),
        ("Due at pickup".to_owned(), ticket.due()?.to_string()),
    ];
    if let Some(ready) = ticket.due_for_ready()? {
        let name = "Of it for what you can collect now".to_owned();
        rows.push((name, ready.to_string()));
    }
    Ok(Part::Rows(rows))
}

fn reminder(about: &About<'_>, ordinal: u32) -> Result<Letter, MoneyProblem> {
    let ticket = about.ticket;
    let parts = vec![
        Part::Words(format!(
            "we still have your {} here for you to collect. Your claim number is {}.",
            titles(ticket.ready_pairs()),
            ticket.number
        )),
        due_rows(ticket)?,
        about.hours(),
        Part::Words("If you can't come soon, tell us on your ticket's page or ring us.".to_owned()),
        about.ticket_link("See your ticket"),
    ];
    let subject = match ordinal {
        1 => format!("Ticket {}: ready and waiting for you", ticket.number),
        _ => format!("Ticket {}: still waiting for you", ticket.number),
    };
    Ok(about.letter(subject, parts))
}

fn handed_over(about: &About<'_>) -> Result<Letter, MoneyProblem> {
    let ticket = about.ticket;
    let collected = || {
        ticket
            .pairs
            .iter()
            .filter(|pair| pair.handed_over.is_some())
    };
    let mut parts = vec![Part::Words(format!(
        "thank you. You have your {} back. This is your receipt:",
        titles(collected())
    ))];
    for pair in collected() {
        parts.push(Part::Words(format!(
            "{} ({})",
            capital(&pair.about.title()),
            pair.tag
        )));
        parts.push(scope_rows(pair.agreed(), pair.promise()));
    }
    let payments = ticket.payments.iter().map(|payment| {
        let name = format!("{}, {}", payment.method.label(), about.moment(payment.at));
        (name, payment.taken.to_string())
    });
    parts.push(Part::Rows(payments.collect()));
    parts.push(due_rows(ticket)?);
    parts.push(about.link("Your receipt", about.key.as_ref().map(paths::receipt)));
    Ok(about.letter(format!("Ticket {}: your receipt", ticket.number), parts))
}

fn titles<'a>(pairs: impl Iterator<Item = &'a Pair>) -> String {
    let titles: Vec<String> = pairs.map(|pair| pair.about.title()).collect();
    titles.join(" and your ")
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}
