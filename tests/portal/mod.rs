//! What customers do and see behind their link.

mod whole_job;
