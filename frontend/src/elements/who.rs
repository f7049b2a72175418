//! Who did something, in words.

use shared_types::ticket::event::Actor;

use crate::back_office::Names;

/// Their name, or what they are to the shop.
pub fn who(actor: Actor, names: &Names) -> String {
    match actor {
        Actor::Customer => "the customer".to_owned(),
        Actor::Program => "the program".to_owned(),
        Actor::Staff(id) => names
            .get(&id)
            .map_or_else(|| "someone of the shop".to_owned(), ToString::to_string),
    }
}
