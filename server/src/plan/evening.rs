//! An evening: every open pair with its days, how sure they are, and what it waits for.

use std::collections::BTreeMap;

use frontend::back_office::plan::{Days, PairDays};
use shared_types::brief::PairBrief;
use shared_types::moment::Moment;
use shared_types::promise::chance::Chance;
use shared_types::promise::evening::{Evening, Waiting};
use shared_types::promise::open_work::{OpenWork, tag_of};
use shared_types::promise::workshop::{Misfit, Tag};
use shared_types::scope::ScopeLine;
use shared_types::shop::Shop;
use shared_types::ticket::{self, Ticket};

use crate::db::{Conn, DbError};
use crate::{pricebook, record};

/// On how many further openings a waiting pair's owner may answer, as pages say it.
const FURTHER: usize = 3;

/// What has to be read before an evening can be worked out.
pub(crate) struct EveningWork {
    /// The open work.
    pub(crate) work: OpenWork,
    /// All pairs that are still here, those on the pickup shelf too.
    pub(crate) pairs: Vec<PairBrief>,
    waiting: Vec<Waiting>,
}

impl EveningWork {
    /// Reads it: two queries, and the record of each pair that waits for its owner's word.
    pub(crate) async fn read(conn: &mut Conn, shop: &Shop, now: Moment) -> Result<Self, DbError> {
        let pairs = record::briefs_still_here(conn).await?;
        let services = pricebook::services_ever(conn).await?;
        let work = OpenWork::new(shop, &services, &pairs, now);
        let mut waiting = Vec::new();
        for brief in pairs.iter().filter(|pair| pair.waits_for_word(now)) {
            let ticket = record::load(conn, brief.ticket).await?;
            let lines = ticket.and_then(|ticket| most_work(&ticket, brief, now));
            waiting.extend(lines.map(|lines| Waiting {
                tag: tag_of(brief.number, brief.tag),
                steps: work.practice.steps(&lines),
            }));
        }
        Ok(Self {
            work,
            pairs,
            waiting,
        })
    }

    /// Plays the draws and tells each open pair's days, in order of work.
    pub(crate) fn days(&self) -> Result<(Days, Evening), Misfit> {
        let board = self.work.board()?;
        let (draws, chance) = (self.work.practice.draws, self.work.practice.chance);
        let evening = Evening::of(&board, draws, chance, (&self.waiting, FURTHER))?;
        let briefs = self.pairs.iter();
        let briefs: BTreeMap<Tag, &PairBrief> = briefs
            .map(|brief| (tag_of(brief.number, brief.tag), brief))
            .collect();
        let risks: BTreeMap<Tag, _> = evening
            .at_risk(chance)
            .into_iter()
            .map(|risk| (risk.tag.clone(), risk))
            .collect();
        let waits: BTreeMap<&Tag, _> = evening
            .waiting
            .iter()
            .map(|(tag, waits)| (tag, waits))
            .collect();
        let planned = evening.plan.pairs.iter().zip(&evening.forecasts);
        let pairs = planned.filter_map(|(planned, forecast)| {
            let brief = *briefs.get(&planned.tag)?;
            Some(PairDays {
                brief: brief.clone(),
                by: [Chance::FIFTY, Chance::EIGHTY, Chance::NINETY_FIVE]
                    .map(|chance| forecast.by(chance)),
                odds: forecast.odds(brief.promise),
                is_at_risk: risks.contains_key(&planned.tag),
                instead: forecast.by(chance),
                starts: planned.steps.first().map(|step| step.starts),
                finished: planned.finished,
                reasons: planned.reasons.clone(),
                waits: waits
                    .get(&planned.tag)
                    .map_or_else(Vec::new, |waits| (*waits).clone()),
            })
        });
        let pairs = pairs.collect();
        Ok((Days { pairs }, evening))
    }
}

/// What the longest choice of a pair's open offer leaves to do.
fn most_work(ticket: &Ticket, brief: &PairBrief, now: Moment) -> Option<Vec<ScopeLine>> {
    let pair: &ticket::Pair = ticket.pair(brief.pair)?;
    let offer = pair.open_offer(now)?.sheet.offer()?;
    let choices = offer.choices.iter();
    let left = choices.map(|choice| pair.to_do(&choice.scope.lines));
    left.max_by_key(|lines| lines.iter().map(|line| line.minutes.get()).sum::<u32>())
}
