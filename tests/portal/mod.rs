//! What customers do and see behind their link.

mod at_once;
mod decisions;
mod opening;
mod whole_job;
