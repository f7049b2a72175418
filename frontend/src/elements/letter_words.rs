//! Where a letter is, in words.

use shared_types::letter::LetterState;
use shared_types::moment::Zone;

/// What became of a letter, and what to do about it.
pub fn letter_words(state: &LetterState, zone: &Zone) -> String {
    match state {
        LetterState::Waiting {
            tries: 0, next_at, ..
        } => format!("Waits to be sent, from {}.", zone.words(*next_at)),
        LetterState::Waiting {
            next_at,
            tries,
            trouble,
        } => {
            let times = if *tries == 1 {
                "once".to_owned()
            } else {
                format!("{tries} times")
            };
            let said = trouble.as_deref().map_or_else(String::new, |trouble| {
                format!(" The mail server said: {trouble}")
            });
            format!("Tried {times}, next at {}.{said}", zone.words(*next_at))
        }
        LetterState::Sent { at } => format!("Sent {}.", zone.words(*at)),
        LetterState::Kept { at } => format!("Kept here to read since {}.", zone.words(*at)),
        LetterState::GivenUp { at, trouble } => format!(
            "Given up {}. The mail server said: {trouble}",
            zone.words(*at)
        ),
    }
}
