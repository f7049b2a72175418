//! What may be done to a ticket, and which events it makes. Nothing here changes anything: the
//! server stores the events with the letters they cause, or nothing at all.

use crate::bench::measurements::Measurements;
use crate::digest::Digest;
use crate::id::{NoteId, PairId};
use crate::moment::Moment;
use crate::money::{Money, MoneyProblem};
use crate::price::PriceRules;
use crate::scope::offer::{OfferState, Refused, Via, Word};
use crate::scope::sheet::{Matter, Picture, Sheet};
use crate::shop::Shop;
use crate::stage::{Hold, Stage};
use crate::text::{Line, Words};
use crate::ticket::event::{Audience, Event, PairTakenIn, PaymentMethod};
use crate::ticket::{Pair, Ticket, TicketNumber};

/// Why the shop can't do that now; each says what to do instead.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RuleBroken {
    /// No such pair here.
    #[error("This pair is not on this ticket.")]
    NoSuchPair,
    /// Handed over already.
    #[error(
        "This pair has been handed over; its record can be read but no longer changed. Take it in again on a new ticket."
    )]
    HandedOver,
    /// A stage that does not follow.
    #[error("The pair is already there, or only the hand-over can take it there.")]
    NoSuchMove,
    /// The sheet was prepared on a scope that is no longer the agreed one.
    #[error(
        "The pair's scope changed after this was prepared. Look at it again and prepare it anew."
    )]
    PreparedOnOldScope,
    /// An offer is open.
    #[error("An offer waits for the customer's word. Withdraw it first, then change the scope.")]
    OfferOpen,
    /// No open offer.
    #[error("There is no open offer on this pair.")]
    NoOpenOffer,
    /// Nothing written and nothing shown.
    #[error("Write a few words or add a picture.")]
    EmptyNote,
    /// Not ready yet.
    #[error("Only pairs on the pickup shelf can be handed over. Mark the pair ready first.")]
    NotReady,
    /// Not paid yet.
    #[error("These pairs are not paid yet. Record the payment first.")]
    NotPaid,
    /// More than is due.
    #[error("That is more than is due. Nothing beyond what was agreed is charged.")]
    MoreThanDue,
    /// Nothing to give back.
    #[error("There is nothing to give back: no more was paid than is agreed.")]
    NothingToReturn,
    /// The page was older than the record.
    #[error(
        "Something changed after this page was opened, so nothing was recorded. Look at it as it stands now."
    )]
    PageTooOld,
    /// Amounts that do not work out.
    #[error(transparent)]
    Money(#[from] MoneyProblem),
}

/// What a word on an offer came to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WordOutcome {
    /// It is to be recorded.
    Record(Event),
    /// The very same word stands already: a double tap, a reload, a second device.
    StandsAlready,
}

/// A word on an offer as it arrives: on which page, and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WordGiven {
    /// The digest of what the page showed.
    pub sheet: Digest,
    /// The turn that the page showed.
    pub turn: u32,
    /// When the page was made, if it says so: the day that it showed must still be the one to keep.
    pub read_at: Option<Moment>,
    /// The word.
    pub word: Word,
    /// How it came.
    pub via: Via,
    /// Whether the caution was ticked.
    pub acknowledged: bool,
}

/// A journal entry as it arrives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewNote {
    /// Which note it will be.
    pub id: NoteId,
    /// Who may read it.
    pub audience: Audience,
    /// The words.
    pub words: Option<Words>,
    /// Pictures.
    pub pictures: Vec<Picture>,
}

/// The events that open a ticket: pairs taken in, the customer's link, each pair's first sheet.
pub fn take_in(
    number: TicketNumber,
    customer: crate::id::CustomerId,
    link: Digest,
    pairs: Vec<(PairTakenIn, Sheet, Digest)>,
) -> Vec<Event> {
    let sheets: Vec<Event> = pairs
        .iter()
        .map(|(pair, sheet, digest)| Event::SheetMade {
            pair: pair.id,
            sheet: Box::new(sheet.clone()),
            digest: *digest,
        })
        .collect();
    let taken = Event::TakenIn {
        number,
        customer,
        pairs: pairs.into_iter().map(|(pair, ..)| pair).collect(),
    };
    let link = Event::LinkIssued {
        generation: 1,
        digest: link,
    };
    [taken, link].into_iter().chain(sheets).collect()
}

impl Ticket {
    fn open_pair(&self, id: PairId) -> Result<&Pair, RuleBroken> {
        let pair = self.pair(id).ok_or(RuleBroken::NoSuchPair)?;
        match pair.handed_over {
            Some(_) => Err(RuleBroken::HandedOver),
            None => Ok(pair),
        }
    }

    /// Makes a revision: sends an offer, or records what was agreed in another way.
    ///
    /// An agreement is refused while an offer is open; a new offer takes the place of an open
    /// one. Either must have been prepared on the scope as it stands.
    pub fn make_sheet(
        &self,
        id: PairId,
        sheet: Sheet,
        digest: Digest,
        now: Moment,
    ) -> Result<Event, RuleBroken> {
        let pair = self.open_pair(id)?;
        let last = pair.revisions.last().map(|revision| revision.digest);
        if sheet.before != last || sheet.is_on_another_scope(pair) {
            return Err(RuleBroken::PreparedOnOldScope);
        }
        if matches!(sheet.matter, Matter::Agreement(_)) && pair.open_offer(now).is_some() {
            return Err(RuleBroken::OfferOpen);
        }
        Ok(Event::SheetMade {
            pair: id,
            sheet: Box::new(sheet),
            digest,
        })
    }

    /// Withdraws the open offer of a pair.
    pub fn withdraw_offer(
        &self,
        id: PairId,
        reason: Option<Words>,
        now: Moment,
    ) -> Result<Event, RuleBroken> {
        let pair = self.open_pair(id)?;
        let offer = pair.open_offer(now).ok_or(RuleBroken::NoOpenOffer)?;
        Ok(Event::OfferWithdrawn {
            pair: id,
            sheet: offer.digest,
            reason,
        })
    }

    /// Decides on a word: recorded once, the same word again changes nothing, anything else is
    /// refused with the reason.
    pub fn give_word(&self, given: WordGiven, now: Moment) -> Result<WordOutcome, Refused> {
        let (pair, revision) = self.revision(given.sheet).ok_or(Refused::Unknown)?;
        let offer = revision.sheet.offer().ok_or(Refused::Unknown)?;
        if pair.handed_over.is_some() {
            return Err(Refused::Superseded);
        }
        match pair.offer_state(revision, now).ok_or(Refused::Unknown)? {
            OfferState::Answered { word, .. } => {
                let same_page = given.turn.checked_add(1) == Some(revision.turn());
                if word == given.word && same_page {
                    Ok(WordOutcome::StandsAlready)
                } else {
                    Err(Refused::AlreadyAnswered)
                }
            }
            OfferState::Superseded => Err(Refused::Superseded),
            OfferState::Withdrawn => Err(Refused::Withdrawn),
            OfferState::Lapsed { .. } => Err(Refused::Lapsed),
            OfferState::Open { .. } => {
                if given.turn != revision.turn() {
                    return Err(Refused::PageTooOld);
                }
                let ready = |at| revision.sheet.ready_after(given.word, at);
                if let Word::Accept(key) = given.word {
                    revision.sheet.choice(key).ok_or(Refused::Unknown)?;
                }
                if ready(given.read_at.unwrap_or(now)) != ready(now) {
                    return Err(Refused::DayMoved);
                }
                let accepts = matches!(given.word, Word::Accept(_));
                if accepts && !offer.cautions.is_empty() && !given.acknowledged {
                    return Err(Refused::CautionNotAcknowledged);
                }
                Ok(WordOutcome::Record(Event::WordGiven {
                    pair: pair.id,
                    sheet: given.sheet,
                    turn: given.turn,
                    word: given.word,
                    via: given.via,
                    acknowledged: given.acknowledged,
                }))
            }
        }
    }

    /// Takes the standing word on an offer back, within its time and before the bench starts.
    pub fn take_back(
        &self,
        sheet: Digest,
        turn: u32,
        via: Via,
        now: Moment,
    ) -> Result<WordOutcome, Refused> {
        let (pair, revision) = self.revision(sheet).ok_or(Refused::Unknown)?;
        match pair.offer_state(revision, now).ok_or(Refused::Unknown)? {
            OfferState::Answered {
                at,
                take_back_until,
                ..
            } => {
                if revision.turn() != turn.saturating_add(1) {
                    return Err(Refused::PageTooOld);
                }
                if take_back_until.is_none() {
                    let started = pair.worked_at.is_some_and(|worked| worked >= at);
                    return Err(if started {
                        Refused::BenchStarted
                    } else {
                        Refused::TakeBackOver
                    });
                }
                Ok(WordOutcome::Record(Event::WordTakenBack {
                    pair: pair.id,
                    sheet,
                    turn,
                    via,
                }))
            }
            OfferState::Open { .. } if revision.turn() == turn.saturating_add(1) => {
                Ok(WordOutcome::StandsAlready)
            }
            OfferState::Superseded => Err(Refused::Superseded),
            OfferState::Withdrawn => Err(Refused::Withdrawn),
            OfferState::Lapsed { .. } => Err(Refused::Lapsed),
            OfferState::Open { .. } => Err(Refused::NothingToTakeBack),
        }
    }

    /// The bench starts on what is agreed; from then on no word is taken back on the page.
    pub fn start_work(&self, id: PairId) -> Result<Event, RuleBroken> {
        self.open_pair(id)?;
        Ok(Event::WorkStarted { pair: id })
    }

    /// Moves a pair to another stage.
    pub fn move_stage(&self, id: PairId, to: Stage) -> Result<Event, RuleBroken> {
        let pair = self.open_pair(id)?;
        if !pair.stage.may_move_to(to) {
            return Err(RuleBroken::NoSuchMove);
        }
        Ok(Event::StageMoved {
            pair: id,
            from: pair.stage,
            to,
        })
    }

    /// Places a hold on a pair, or lifts it.
    pub fn set_hold(&self, id: PairId, hold: Option<Hold>) -> Result<Event, RuleBroken> {
        let pair = self.open_pair(id)?;
        if !pair.stage.is_open() {
            return Err(RuleBroken::NoSuchMove);
        }
        Ok(match hold {
            Some(hold) => Event::HoldPlaced { pair: id, hold },
            None => Event::HoldLifted { pair: id },
        })
    }

    /// Keeps what was measured on a pair; the very same again changes nothing. `seen` says when those
    /// were taken that the form showed: others that came in between are not written over.
    pub fn measure(
        &self,
        id: PairId,
        measurements: Measurements,
        seen: Option<Moment>,
    ) -> Result<Option<Event>, RuleBroken> {
        let pair = self.open_pair(id)?;
        let known = pair.measured.as_ref();
        let is_again = known.is_some_and(|known| known.measurements == measurements);
        if !is_again && known.map(|known| known.at) != seen {
            return Err(RuleBroken::PageTooOld);
        }
        Ok((!is_again).then_some(Event::Measured {
            pair: id,
            measurements: Box::new(measurements),
        }))
    }

    /// Adds a journal entry, once: the very same as the last one is a form sent twice. A question
    /// may still come after the hand-over.
    pub fn note(&self, id: PairId, note: NewNote) -> Result<Option<Event>, RuleBroken> {
        let pair = self.pair(id).ok_or(RuleBroken::NoSuchPair)?;
        if note.words.is_none() && note.pictures.is_empty() {
            return Err(RuleBroken::EmptyNote);
        }
        let is_again = pair.notes.last().is_some_and(|last| {
            last.audience == note.audience
                && last.words == note.words
                && last.pictures == note.pictures
        });
        Ok((!is_again).then_some(Event::Noted {
            pair: id,
            note: note.id,
            audience: note.audience,
            words: note.words,
            pictures: note.pictures,
        }))
    }

    /// Takes a payment of `amount` towards what is due. Paid in cash in full, the sum to pay is
    /// rounded by the shop's cash rule; the price is not.
    pub fn pay(
        &self,
        amount: Money,
        method: PaymentMethod,
        rules: &PriceRules,
    ) -> Result<Event, RuleBroken> {
        let due = self.due()?;
        if amount.minus(due)?.is_positive() || !amount.is_positive() {
            return Err(RuleBroken::MoreThanDue);
        }
        let taken = match (method, rules.cash) {
            (PaymentMethod::Cash, Some(rounding)) if amount == due => rounding.of(amount)?,
            (PaymentMethod::Cash | PaymentMethod::Card | PaymentMethod::Other, _) => amount,
        };
        Ok(Event::Paid {
            amount,
            taken,
            method,
        })
    }

    /// Gives back what was paid beyond what is agreed now.
    pub fn give_back(&self, method: PaymentMethod) -> Result<Event, RuleBroken> {
        let due = self.due()?;
        if due.minor() >= 0 {
            return Err(RuleBroken::NothingToReturn);
        }
        Ok(Event::Paid {
            amount: due,
            taken: due,
            method,
        })
    }

    /// Hands pairs over: they are ready, and they and those handed over before are paid for.
    pub fn hand_over(&self, pairs: Vec<PairId>, to: Line) -> Result<Event, RuleBroken> {
        let leaves = |pair: &Pair| pairs.contains(&pair.id);
        if self
            .pairs
            .iter()
            .any(|pair| leaves(pair) && pair.stage != Stage::Ready)
        {
            return Err(RuleBroken::NotReady);
        }
        let cost = self.cost_of(|pair| leaves(pair) || pair.handed_over.is_some())?;
        let known = pairs.iter().all(|id| self.pair(*id).is_some());
        if pairs.is_empty() || !known {
            return Err(RuleBroken::NoSuchPair);
        }
        if cost.minus(self.paid()?)?.is_positive() {
            return Err(RuleBroken::NotPaid);
        }
        Ok(Event::HandedOver { pairs, to })
    }

    /// Gives the customer a new link; the one before stops opening anything.
    pub fn renew_link(&self, digest: Digest) -> Vec<Event> {
        let revoked = self.link().map(|link| Event::LinkRevoked {
            generation: link.generation,
        });
        let issued = Event::LinkIssued {
            generation: self.next_generation(),
            digest,
        };
        revoked.into_iter().chain([issued]).collect()
    }

    /// The generation of the next link.
    pub fn next_generation(&self) -> u32 {
        self.links.last().map_or(1, |link| link.generation + 1)
    }

    /// Stops the customer's link from opening anything.
    pub fn revoke_link(&self) -> Option<Event> {
        self.link().map(|link| Event::LinkRevoked {
            generation: link.generation,
        })
    }

    /// The reminder that is due, if one is: some pair has waited on the shelf for the days that
    /// the shop set, and it is open now, so that nobody is written to at night.
    pub fn due_reminder(&self, shop: &Shop, now: Moment) -> Option<Event> {
        let ready_since = self.ready_pairs().filter_map(|pair| pair.ready_at).max()?;
        let sent = self
            .reminders
            .iter()
            .filter(|at| **at >= ready_since)
            .count();
        let days = *shop.terms.reminder_days.get(sent)?;
        let waited = now.since(ready_since).whole_days();
        let open = shop.calendar.next_open(now) == Some(now);
        (waited >= i64::from(days) && open).then(|| Event::Reminded {
            ordinal: u32::try_from(sent + 1).unwrap_or(u32::MAX),
        })
    }
}

impl Sheet {
    /// Whether the sheet was prepared on another scope than the one that stands. An agreement
    /// brings its own.
    fn is_on_another_scope(&self, pair: &Pair) -> bool {
        match self.matter {
            Matter::Offer(_) => self.agreed != pair.standing_scope(),
            Matter::Agreement(_) => false,
        }
    }
}
