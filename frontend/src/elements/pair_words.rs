//! A pair in words, and its progress as the welt draws it, for the shop's lists and page heads.

use shared_types::brief::{PairBrief, PairWord};
use shared_types::moment::{Moment, Zone};
use shared_types::stage::{Hold, Stage};
use shared_types::ticket::{Pair, Tag, TicketNumber};

use super::welt::{WeltNow, WeltProgress};

/// The pair as it is called out: `1042 A, dark green lace-up work boots, EU 44`.
pub fn called_out(brief: &PairBrief) -> String {
    format!("{}, {}", tag_words(brief.number, brief.tag), brief.title)
}

/// What its tag says: `1042 A`.
pub fn tag_words(number: TicketNumber, tag: Tag) -> String {
    format!("{number}\u{a0}{tag}")
}

/// The words with a capital at their beginning.
pub fn begun(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// The words on one line, as with an amount of time: `4 h 50 min`.
pub fn unbroken(words: &str) -> String {
    words.replace(' ', "\u{a0}")
}

/// What the stage means at the bench.
pub const fn at_the_bench(stage: Stage) -> &'static str {
    match stage {
        Stage::TakenIn => "on the shelf, waiting for the bench",
        Stage::Teardown => "being taken apart and looked at",
        Stage::Structure => "insole, rib, welt, shank and filler",
        Stage::Soling => "the soles go on",
        Stage::Heeling => "heel base and top lifts",
        Stage::Finishing => "edges, upper and care",
        Stage::Ready => "on the pickup shelf",
        Stage::Collected => "with its owner again",
    }
}

/// Why nobody works on it, for the bench; nothing if somebody can.
pub fn held_words(brief: &PairBrief, now: Moment, zone: &Zone) -> Option<String> {
    match (&brief.word, brief.hold) {
        (PairWord::Asked { answer_by, .. }, _) if brief.waits_for_word(now) => {
            let until = zone.words(*answer_by);
            Some(format!("Waits for the customer’s word, until {until}"))
        }
        (PairWord::Asked { answer_by, .. }, _) => {
            let until = zone.words(*answer_by);
            Some(format!("Nobody answered by {until}: ring them"))
        }
        (PairWord::Nothing | PairWord::Given { .. }, Some(hold)) => Some(hold.label().to_owned()),
        (PairWord::Nothing | PairWord::Given { .. }, None) => None,
    }
}

/// The word that was given, in one sentence; nothing if none waits to be acted on.
pub fn fresh_words(word: &PairWord) -> Option<String> {
    let PairWord::Given { accepted, .. } = word else {
        return None;
    };
    Some(match accepted {
        Some(title) => format!("The customer said yes to “{title}”."),
        None => "The customer said no; the offer says what follows.".to_owned(),
    })
}

/// How far a pair of a list has come.
pub fn progress_of_brief(brief: &PairBrief, now: Moment) -> WeltProgress {
    let waits = brief.waits_for_word(now);
    progress(brief.stage, brief.hold, waits, brief.all_round)
}

/// How far a pair has come.
pub fn progress_of_pair(pair: &Pair, now: Moment) -> WeltProgress {
    let waits = pair.open_offer(now).is_some();
    let all_round = pair.about.construction.is_all_round();
    progress(pair.stage, pair.hold, waits, all_round)
}

fn progress(stage: Stage, hold: Option<Hold>, waits: bool, all_round: bool) -> WeltProgress {
    let count = |runs: usize| u8::try_from(runs).unwrap_or(u8::MAX);
    WeltProgress {
        runs: count(Stage::RUNS.len()),
        done: count(stage.runs_done()),
        now: match (stage, hold) {
            (Stage::Ready | Stage::Collected, _) => WeltNow::Finished,
            _ if waits => WeltNow::WaitingForWord,
            (_, Some(Hold::Material | Hold::Drying)) => WeltNow::Resting,
            (Stage::TakenIn, None) => WeltNow::NotStarted,
            (_, None) => WeltNow::Stitching,
        },
        all_round,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_begin_with_a_capital() {
        assert_eq!(begun("dark green boots"), "Dark green boots");
        assert_eq!(begun("écru pumps"), "Écru pumps");
        assert_eq!(begun(""), "");
    }

    #[test]
    fn a_pair_that_waits_for_a_word_is_not_drawn_as_being_worked_on() {
        let waiting = progress(Stage::Teardown, Some(Hold::Drying), true, false);
        assert_eq!(waiting.now, WeltNow::WaitingForWord);
        let finished = progress(Stage::Ready, None, true, false);
        assert_eq!(finished.now, WeltNow::Finished);
        assert_eq!(finished.done, finished.runs);
    }
}
