//! The hands that carry the stories out: each step through the shop's own actions, with the clock
//! turned to its moment.

use std::collections::{BTreeSet, HashMap};

use anyhow::{Context as _, bail};
use shared_types::adjust::{Discount, DiscountBy, ScopeTerms};
use shared_types::bench::take_off::TakeOffs;
use shared_types::contact::{CustomerName, Email, Phone};
use shared_types::digest::Digest;
use shared_types::form::intake::{Bringer, Intake, IntakePair};
use shared_types::form::measure;
use shared_types::id::{CustomerId, NoteId, StaffId, TicketId};
use shared_types::moment::Moment;
use shared_types::money::Money;
use shared_types::pricebook::{Offered, Supplies};
use shared_types::promise::dates::{Dates, InHand};
use shared_types::promise::open_work::OpenWork;
use shared_types::scope::ScopeLine;
use shared_types::scope::discovery::Discovery;
use shared_types::scope::offer::{Via, Word};
use shared_types::scope::rules::{AsFound, shipped};
use shared_types::scope::sheet::{Choice, ChoiceKey, Given, Matter, Offer, Picture, Sheet};
use shared_types::shop::Shop;
use shared_types::size::{ShoeSize, SizeSystem};
use shared_types::text::{Line, Words};
use shared_types::ticket::commands::{NewNote, WordGiven, WordOutcome};
use shared_types::ticket::event::{Actor, Audience, Event};
use shared_types::ticket::{Pair, PairAbout, Ticket};

use super::pictures::Shot;
use super::shop;
use super::story::{Act, Almanac, Besides, Boots, Choices, Person, Step, Story, Sum, Way, Work};
use crate::app::App;
use crate::clock::{TurnedClock, new_id};
use crate::counter::intake::{self, Taken};
use crate::error::AppError;
use crate::mail::worker;
use crate::photos::{self, NotKept};
use crate::pricebook::{self, starter};
use crate::scope::advice::Advice;
use crate::{plan, record, scope, staff};

/// An entry of the diary: when, on which ticket, and what.
type Entry<'a> = (Moment, &'a Story<'a>, Option<&'a Step>);

/// The shop with its clock in somebody's hands.
pub(super) struct Hands {
    app: App,
    clock: TurnedClock,
    shop: Shop,
    services: Vec<Offered>,
    owner: StaffId,
    bench: StaffId,
    counter: StaffId,
    pictures: HashMap<Shot, Digest>,
    customers: HashMap<&'static str, CustomerId>,
}

impl Hands {
    /// Opens the shop: its settings, its price book, its people.
    pub(super) async fn open(app: App, clock: TurnedClock) -> anyhow::Result<Self> {
        let shop = shop::settings()?;
        let mut stock = starter::stock(shop.currency())?;
        stock.bench_hour = Some(shop::bench_hour()?);
        let supplies = stock.supplies.iter();
        let supplies: Supplies = supplies.map(|one| (one.id, one.clone())).collect();
        let services = stock.services.iter().map(|entry| entry.offered(&supplies));
        let services = services.collect::<Result<_, _>>()?;
        let mut conn = app.db.write().await?;
        crate::shop::store(&mut conn, &shop, app.now()).await?;
        pricebook::stock(&mut conn, &stock).await?;
        conn.commit().await?;
        let mut hands = Vec::new();
        for hand in [shop::OWNER, shop::BENCH, shop::COUNTER] {
            hands.push(staff::add(&app, hand.person()?).await.map_err(failed)?);
        }
        let [owner, bench, counter] = hands[..] else {
            bail!("the shop has three people");
        };
        let pictures = keep_pictures(&app).await?;
        Ok(Self {
            app,
            clock,
            shop,
            services,
            owner,
            bench,
            counter,
            pictures,
            customers: HashMap::new(),
        })
    }

    /// Lets all stories happen in the order of time; each day begins with the reminders due, and
    /// letters go out after each step.
    pub(super) async fn tell(&mut self, stories: &[Story<'_>], now: Moment) -> anyhow::Result<()> {
        let almanac = Almanac::new(&self.shop.calendar, now);
        let mut day = None;
        for (at, story, step) in diary(stories, &almanac)? {
            self.clock.set(at);
            let today = self.shop.calendar.zone.day(at);
            if day.replace(today) != Some(today) {
                worker::remind(&self.app).await?;
            }
            let what = || format!("{}: {step:?}", story.customer.name);
            match step {
                None => self.take_in(story).await.with_context(what)?,
                Some(step) => self.carry_out(story, step).await.with_context(what)?,
            }
            while worker::deliver_next(&self.app).await? {}
        }
        Ok(())
    }

    async fn take_in(&mut self, story: &Story<'_>) -> anyhow::Result<()> {
        let mut pairs = Vec::new();
        for boots in story.pairs {
            let about = about(boots)?;
            let takes = TakeOffs::of_size(about.size, about.construction);
            let services = shared_types::pricebook::for_pair(&self.services, &takes)?;
            let built = AsFound::new(&about, BTreeSet::new());
            let prices = self.shop.prices;
            let advice = Advice::at_the_counter(shipped::rules(), built, &services, prices);
            let lines = boots.work.iter().map(|work| self.line(work, &takes));
            let lines = reasoned(lines, &advice, boots.work)?;
            let mut photos = Vec::new();
            for shot in boots.photos {
                photos.push(self.picture(*shot)?.digest);
            }
            pairs.push(IntakePair {
                about,
                work: shared_types::scope::Work {
                    lines,
                    terms: self.terms(boots.terms)?,
                },
                promise: None,
                photos,
            });
        }
        let intake = Intake {
            token: TicketId::from_bytes(story.id),
            bringer: self.bringer(story.customer)?,
            pairs,
        };
        let by = (Actor::Staff(self.counter), self.app.now());
        let taken = intake::take_in(&self.app, &self.shop, &intake, by).await;
        let Taken::In(ticket) = taken.map_err(failed)? else {
            bail!("the pair was not taken in");
        };
        self.customers.insert(story.customer.name, ticket.customer);
        Ok(())
    }

    /// Who brings the pairs: a customer who was here before, or a new one.
    fn bringer(&self, person: Person) -> anyhow::Result<Bringer> {
        if let Some(known) = self.customers.get(person.name) {
            return Ok(Bringer::Known(*known));
        }
        Ok(Bringer::New {
            name: CustomerName::parse(person.name)?,
            email: Email::parse_optional(person.email)?,
            phone: Phone::parse_optional(person.phone)?,
        })
    }

    async fn carry_out(&self, story: &Story<'_>, step: &Step) -> anyhow::Result<()> {
        let Step(_, place, act) = step;
        let pictures: anyhow::Result<Vec<_>> =
            shots(act).iter().map(|shot| self.picture(*shot)).collect();
        let pictures = pictures?;
        let id = TicketId::from_bytes(story.id);
        let mut conn = self.app.db.read().await?;
        let open = plan::open_work(&mut conn, &self.shop, self.app.now()).await?;
        drop(conn);
        let decide = |ticket: &Ticket, now| -> anyhow::Result<Vec<Event>> {
            let pair = ticket.pairs.get(*place).context("no such pair")?;
            let with = (pictures.as_slice(), &open, now);
            self.decide(story, (ticket, pair), act, with)
        };
        let done = record::change(&self.app, id, self.actor(act), decide).await;
        done.map_err(failed)?.map(|_| ())
    }

    fn actor(&self, act: &Act) -> Actor {
        match act {
            Act::Word(_) | Act::TakeBack | Act::Note(Audience::Question, ..) => Actor::Customer,
            Act::Offer(_) => Actor::Staff(self.owner),
            Act::Told(..) | Act::Pay(..) | Act::HandOver | Act::Note(Audience::Reply, ..) => {
                Actor::Staff(self.counter)
            }
            Act::Move(_) | Act::Hold(_) | Act::Start | Act::Measure(_) | Act::Note(..) => {
                Actor::Staff(self.bench)
            }
        }
    }

    fn decide(
        &self,
        story: &Story<'_>,
        (ticket, pair): (&Ticket, &Pair),
        act: &Act,
        (pictures, open, now): (&[Picture], &OpenWork, Moment),
    ) -> anyhow::Result<Vec<Event>> {
        let event = match *act {
            Act::Move(to) => ticket.move_stage(pair.id, to)?,
            Act::Hold(hold) => ticket.set_hold(pair.id, hold)?,
            Act::Start => ticket.start_work(pair.id)?,
            Act::Measure(typed) => measure(ticket, pair, typed)?,
            Act::Note(audience, words, _) => {
                let note = NewNote {
                    id: NoteId::from_bytes(new_id(now)),
                    audience,
                    words: Words::parse_optional(words)?,
                    pictures: pictures.to_vec(),
                };
                ticket.note(pair.id, note)?.context("noted before")?
            }
            Act::Offer(choices) => {
                let sheet = self.sheet((ticket, pair), choices, (pictures, open, now))?;
                let digest = sheet.digest()?;
                ticket.make_sheet(pair.id, sheet, digest, now)?
            }
            Act::Word(word) => give_word(ticket, pair, (word, by_link(ticket)?), now)?,
            Act::Told(word, given) => {
                let via = told(story.customer, given)?;
                give_word(ticket, pair, (word, via), now)?
            }
            Act::TakeBack => take_back(ticket, pair, now)?,
            Act::Pay(amount, method) => {
                let amount = match amount {
                    Sum::Minor(minor) => Money::new(minor, self.shop.currency())?,
                    Sum::Deposit => ticket.deposit()?.context("no deposit was asked for")?.open,
                    Sum::Due => ticket.due()?,
                };
                ticket.pay(amount, method, &self.shop.prices)?
            }
            Act::HandOver => {
                let ready = ticket.ready_pairs().map(|pair| pair.id).collect();
                ticket.hand_over(ready, Line::parse(story.customer.name)?)?
            }
        };
        Ok(vec![event])
    }

    /// The offer's sheet, as the owner would prepare it.
    fn sheet(
        &self,
        (ticket, pair): (&Ticket, &Pair),
        asked: &Choices,
        (pictures, open, now): (&[Picture], &OpenWork, Moment),
    ) -> anyhow::Result<Sheet> {
        let board = open.board()?;
        let in_hand = InHand::of(ticket.number, pair);
        let mut dates = Dates::of(&open.practice, Some(&board), in_hand);
        let answer_by = self.shop.answer_by(now);
        let ways = ChoiceKey::ALL.into_iter().zip(asked.ways);
        let ways: anyhow::Result<_> = ways
            .map(|(key, way)| {
                self.choice(pair, (key, way, asked.discoveries), (&mut dates, answer_by))
            })
            .collect();
        let declined = dates.days_if_declined(answer_by)?;
        let offer = Offer {
            found: Words::parse(asked.found)?,
            discoveries: asked.discoveries.iter().copied().collect(),
            pictures: pictures.to_vec(),
            choices: ways?,
            agreed_fails: false,
            if_declined: Words::parse(asked.if_declined)?,
            ready_if_declined: declined.first().context("the shop opens")?.ready_by,
            days_if_declined: if declined.len() > 1 {
                declined
            } else {
                Vec::new()
            },
            answer_by,
            take_back: self.shop.terms.take_back,
            cautions: pair.about.rating.cautions(),
        };
        Ok(Sheet::next(
            &self.shop,
            (ticket.number, pair.tag, scope::title_line(pair)?),
            pair.revisions.last(),
            (pair.standing_scope(), Matter::Offer(offer)),
            now,
        ))
    }

    fn choice(
        &self,
        pair: &Pair,
        (key, way, discoveries): (ChoiceKey, &Way, &[Discovery]),
        (dates, answer_by): (&mut Dates<'_>, Moment),
    ) -> anyhow::Result<Choice> {
        let kept = pair.agreed().lines.iter();
        let kept = kept.filter(|line| !way.without.contains(&line.title.as_str()));
        let takes = pair.at_the_bench().take_offs();
        let services = shared_types::pricebook::for_pair(&self.services, &takes)?;
        let added = way.with.iter().map(|work| self.line(work, &takes));
        let discoveries = discoveries.iter().copied().collect();
        let advice = Advice::new(
            shipped::rules(),
            discoveries,
            (pair, &services),
            self.shop.prices,
        );
        let lines = reasoned(kept.cloned().map(Ok).chain(added), &advice, way.with)?;
        let terms = pair.agreed().terms.clone();
        let work = shared_types::scope::Work { lines, terms };
        let (scope, days) = dates.offer(work, &self.shop, answer_by)?;
        Ok(Choice {
            days,
            key,
            title: Line::parse(way.title)?,
            words: Words::parse_optional(way.words)?,
            scope,
        })
    }

    fn terms(&self, besides: Besides) -> anyhow::Result<ScopeTerms> {
        Ok(match besides {
            Besides::Nothing => ScopeTerms::PLAIN,
            Besides::Rush => ScopeTerms {
                rush: true,
                discount: None,
            },
            Besides::Off(off, reason) => {
                let by = DiscountBy::parse_optional(off, self.shop.currency())?;
                let reason = Line::parse(reason)?;
                ScopeTerms {
                    rush: false,
                    discount: by.map(|by| Discount { by, reason }),
                }
            }
        })
    }

    fn line(&self, work: &Work, takes: &TakeOffs) -> anyhow::Result<ScopeLine> {
        let mut services = self.services.iter();
        let service = services
            .find(|service| service.title.as_str() == work.title)
            .with_context(|| format!("{} is not in the price book", work.title))?;
        let mut line = service.for_pair(takes)?.line();
        line.side = work.side;
        if let Some(reason) = Words::parse_optional(work.reason)? {
            line.reason = Some(reason);
        }
        Ok(line)
    }

    fn picture(&self, shot: Shot) -> anyhow::Result<Picture> {
        let digest = self
            .pictures
            .get(&shot)
            .context("the picture was not drawn")?;
        Ok(Picture {
            digest: *digest,
            shows: Some(Line::parse(shot.shows())?),
        })
    }
}

/// The lines with the reason on each; what the story says of a line stays. Refused, as at the
/// counter, if they do not hang together.
fn reasoned(
    lines: impl Iterator<Item = anyhow::Result<ScopeLine>>,
    advice: &Advice<'_>,
    told: &[Work],
) -> anyhow::Result<Vec<ScopeLine>> {
    let mut lines = advice.with_reasons(lines.collect::<anyhow::Result<_>>()?)?;
    for line in &mut lines {
        let told = told.iter().find(|work| work.title == line.title.as_str());
        if let Some(reason) = Words::parse_optional(told.map_or("", |work| work.reason))? {
            line.reason = Some(reason);
        }
    }
    Ok(lines)
}

/// Draws all pictures, some side by side, and keeps them.
async fn keep_pictures(app: &App) -> anyhow::Result<HashMap<Shot, Digest>> {
    let mut pictures = HashMap::new();
    for shots in Shot::ALL.chunks(4) {
        let draw = |shot: &Shot| {
            tokio::task::spawn_blocking({
                let shot = *shot;
                move || shot.draw()
            })
        };
        let drawn: Vec<_> = shots.iter().map(draw).collect();
        for (shot, drawn) in shots.iter().zip(drawn) {
            let digest = match photos::keep(app, drawn.await??).await {
                Ok(digest) => digest,
                Err(NotKept::Failed(error)) => return Err(failed(error)),
                Err(NotKept::Unusable(problem)) => bail!("{shot:?}: {problem}"),
            };
            pictures.insert(*shot, digest);
        }
    }
    Ok(pictures)
}

/// All that happens, in the order of time.
fn diary<'a>(stories: &'a [Story<'a>], almanac: &Almanac) -> anyhow::Result<Vec<Entry<'a>>> {
    let mut diary = Vec::new();
    for story in stories {
        let taken_in = (story.taken_in, None);
        let then = story.then.iter().map(|step| (step.0, Some(step)));
        for (when, step) in std::iter::once(taken_in).chain(then) {
            let at = almanac
                .moment(when)
                .context("longer ago than the shop is old")?;
            diary.push((at, story, step));
        }
    }
    diary.sort_by_key(|(at, ..)| *at);
    Ok(diary)
}

/// The pictures that a step shows.
fn shots(act: &Act) -> &'static [Shot] {
    match act {
        Act::Note(_, _, shots) => shots,
        Act::Offer(choices) => choices.shots,
        Act::Move(_)
        | Act::Hold(_)
        | Act::Start
        | Act::Measure(_)
        | Act::Word(_)
        | Act::TakeBack
        | Act::Told(..)
        | Act::Pay(..)
        | Act::HandOver => &[],
    }
}

fn about(boots: &Boots) -> anyhow::Result<PairAbout> {
    let size = match boots.size.split_once(' ') {
        Some((system, size)) => {
            let system = SizeSystem::from_code(system).context("no such system of sizes")?;
            Some(ShoeSize::parse(system, size)?)
        }
        None => None,
    };
    Ok(PairAbout {
        kind: Line::parse(boots.kind)?,
        colour: Line::parse(boots.colour)?,
        size,
        construction: boots.construction,
        rating: boots.rating,
        wrong: Words::parse(boots.wrong)?,
    })
}

/// On the page behind the customer's link.
fn by_link(ticket: &Ticket) -> anyhow::Result<Via> {
    let link = ticket.link().context("no link is alive")?.digest;
    Ok(Via::Link { link })
}

fn told(customer: Person, given: Given) -> anyhow::Result<Via> {
    Ok(Via::Told {
        given,
        said_by: Line::parse(&format!("{}, {}", customer.name, customer.phone))?,
    })
}

/// What the bench typed, taken as the form would take it.
fn measure(
    ticket: &Ticket,
    pair: &Pair,
    typed: &[(&'static str, &'static str)],
) -> anyhow::Result<Event> {
    let fields = typed
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()));
    let read = measure::read(&fields.collect(), &pair.about, &pair.agreed().lines);
    let measurements = read.map_err(|errors| anyhow::anyhow!("{errors:?}"))?;
    let seen = pair.measured.as_ref().map(|taken| taken.at);
    let event = ticket.measure(pair.id, measurements, seen)?;
    event.context("measured before")
}

fn give_word(
    ticket: &Ticket,
    pair: &Pair,
    (word, via): (Word, Via),
    now: Moment,
) -> anyhow::Result<Event> {
    let offer = pair.open_offer(now).context("no offer is open")?;
    let cautions = offer.sheet.offer().map(|offer| offer.cautions.is_empty());
    let given = WordGiven {
        sheet: offer.digest,
        turn: offer.turn(),
        read_at: None,
        word,
        via,
        acknowledged: cautions == Some(false),
    };
    recorded(ticket.give_word(given, now)?)
}

fn take_back(ticket: &Ticket, pair: &Pair, now: Moment) -> anyhow::Result<Event> {
    let revision = pair.revisions.last().context("no revision")?;
    let turn = revision.standing().context("no word stands")?.turn;
    recorded(ticket.take_back(revision.digest, turn, by_link(ticket)?, now)?)
}

fn recorded(outcome: WordOutcome) -> anyhow::Result<Event> {
    match outcome {
        WordOutcome::Record(event) => Ok(event),
        WordOutcome::StandsAlready => bail!("this word stands already"),
    }
}

fn failed(error: AppError) -> anyhow::Error {
    if let AppError::Internal(error) = error {
        return error;
    }
    anyhow::anyhow!("{error:?}")
}

#[cfg(test)]
mod tests {
    use shared_types::form::advice::PickedFor;
    use time::macros::datetime;

    use super::*;
    use crate::demo::{everyday, stories};

    /// By the shipped rules: what comes in, with nothing known of its inside, and every choice that
    /// is offered.
    #[test]
    fn all_work_of_the_demo_hangs_together() {
        let everyday = everyday::all();
        let everyday = everyday.iter().map(everyday::Ordinary::story);
        for story in stories::all().chain(everyday) {
            for (place, boots) in story.pairs.iter().enumerate() {
                let titles = boots.work.iter().map(|work| work.title);
                let mut agreed: Vec<&str> = titles.collect();
                hangs_together(boots, &agreed, &[]);
                let (mut asked, mut before): (Option<&Choices>, _) = (None, agreed.clone());
                for Step(_, of, act) in story.then {
                    match act {
                        Act::Offer(choices) if *of == place => {
                            asked = Some(choices);
                            for way in choices.ways {
                                let lines = way_on(&agreed, way);
                                hangs_together(boots, &lines, choices.discoveries);
                            }
                        }
                        Act::Word(Word::Accept(key)) | Act::Told(Word::Accept(key), _) => {
                            let nth = ChoiceKey::ALL.iter().position(|one| one == key);
                            let way = &asked.unwrap().ways[nth.unwrap()];
                            before = agreed.clone();
                            agreed = way_on(&agreed, way);
                        }
                        Act::TakeBack => agreed = before.clone(),
                        Act::Word(Word::Decline)
                        | Act::Told(Word::Decline, _)
                        | Act::Move(_)
                        | Act::Hold(_)
                        | Act::Start
                        | Act::Measure(_)
                        | Act::Note(..)
                        | Act::Offer(_)
                        | Act::Pay(..)
                        | Act::HandOver => {}
                    }
                }
            }
        }
    }

    fn way_on<'a>(agreed: &[&'a str], way: &'a Way) -> Vec<&'a str> {
        let kept = agreed.iter().filter(|title| !way.without.contains(title));
        let added = way.with.iter().map(|work| work.title);
        kept.copied().chain(added).collect()
    }

    fn hangs_together(boots: &Boots, titles: &[&str], discoveries: &[Discovery]) {
        let shop = shop::settings().unwrap();
        let stock = starter::stock(shop.currency()).unwrap();
        let supplies = stock.supplies.iter();
        let supplies: Supplies = supplies.map(|one| (one.id, one.clone())).collect();
        let about = about(boots).unwrap();
        let takes = TakeOffs::of_size(about.size, about.construction);
        let offered = stock.services.iter().map(|one| one.offered(&supplies));
        let offered: Vec<Offered> = offered.collect::<Result<_, _>>().unwrap();
        let services = shared_types::pricebook::for_pair(&offered, &takes).unwrap();
        let line = |title: &&str| {
            let mut services = services.iter();
            let service = services.find(|service| service.title.as_str() == *title);
            service.unwrap_or_else(|| panic!("{title}")).line()
        };
        let lines: Vec<ScopeLine> = titles.iter().map(line).collect();
        let found = AsFound::new(&about, discoveries.iter().copied().collect());
        let advice = Advice::at_the_counter(shipped::rules(), found, &services, shop.prices);
        let advised = advice.advise("", &lines, PickedFor::AnAgreement);
        assert_eq!(advised.objections, [], "{}", boots.kind);
    }

    /// Whenever in the week the demo starts, each ticket's steps come in the order in which they
    /// are told, and none is still to come.
    #[test]
    fn every_story_runs_forward_at_any_hour_of_the_week() {
        let calendar = shop::settings().unwrap().calendar;
        let everyday = everyday::all();
        let everyday = everyday.iter().map(everyday::Ordinary::story);
        let stories: Vec<_> = stories::all().chain(everyday).collect();
        for hour in 0..7 * 24 {
            let now = Moment::from_utc(datetime!(2026-03-05 00:30 UTC));
            let now = now.plus(time::Duration::hours(hour));
            let almanac = Almanac::new(&calendar, now);
            for story in &stories {
                let told =
                    std::iter::once(story.taken_in).chain(story.then.iter().map(|step| step.0));
                let told: Vec<_> = told.map(|when| almanac.moment(when).unwrap()).collect();
                assert!(told.is_sorted(), "{} as of {now}", story.customer.name);
                assert!(
                    told.last() <= Some(&now),
                    "{} as of {now}",
                    story.customer.name
                );
            }
        }
    }
}
