//! What the people of the shop do and see, and what they are kept from.

mod costs;
mod door;
mod origin;
mod outbox;
mod roles;
mod typing;
mod uploads;
