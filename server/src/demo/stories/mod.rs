//! The tickets worth a look, each told in full.
//!
//! - `asked`: added scope was offered, and no word has come
//! - `answered`: the customer gave a word, and one took it back
//! - `agreed`: nothing was asked beyond what was agreed at the counter

mod agreed;
mod answered;
mod asked;

use super::story::Story;

pub(super) use asked::SPLIT_WELT;

/// Tickets whose links are printed, and what there is to see.
pub(super) const WORTH_OPENING: [([u8; 16], &str); 3] = [
    (
        SPLIT_WELT,
        "work boots with a split welt: your word is asked",
    ),
    (
        asked::SAFETY,
        "safety boots: a caution to tick before you answer",
    ),
    (
        agreed::TWO_PAIRS,
        "two pairs: one to collect, one still at the bench",
    ),
];

/// All of them.
pub(super) fn all<'a>() -> impl Iterator<Item = Story<'a>> {
    let all: [&'a [Story<'a>]; 3] = [&asked::STORIES, &answered::STORIES, &agreed::STORIES];
    all.into_iter().flatten().copied()
}
