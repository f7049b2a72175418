//! What customers do and see behind their link.

mod at_once;
mod days;
mod decisions;
mod letters;
mod opening;
mod whole_job;
