//! What the people of the shop do and see, and what they are kept from.

mod bench_sheet;
mod costs;
mod door;
mod hands;
mod origin;
mod outbox;
mod plan;
mod roles;
mod rules;
mod terms;
mod typing;
mod uploads;
