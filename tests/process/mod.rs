//! The program as it is installed: started, asked, stopped, and killed without warning.

mod kill;
pub(crate) mod program;
mod start;
mod verify;
