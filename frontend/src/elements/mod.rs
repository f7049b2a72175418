//! What more than one page uses.

pub mod bill;
pub mod caution;
pub mod field;
pub mod flash;
pub mod hours;
pub mod intake_pair;
pub mod journal;
pub mod length_field;
pub mod letter_words;
pub mod needs;
pub mod offer_sheet;
pub mod pair_words;
pub mod picture_ticks;
pub mod pictures;
pub mod price_table;
pub mod prose;
pub mod question;
pub mod stage_line;
pub mod take_back;
pub mod terms_fields;
pub mod to_put_right;
pub mod welt;
pub mod when;
pub mod who;
pub mod work_picker;
pub mod worked_out;
