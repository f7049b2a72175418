//! The computation from the command line: a JSON file in, a table or JSON out, without the web.

pub mod bench_sheet;
pub mod plan;
pub mod quote;
