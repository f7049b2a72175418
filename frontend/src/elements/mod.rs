//! What more than one page uses.

pub mod field;
pub mod flash;
pub mod hours;
pub mod letter_words;
pub mod pair_words;
pub mod welt;
pub mod who;
pub mod work_picker;
pub mod worked_out;
