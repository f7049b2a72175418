//! The buttons that mend work which does not hang together: one tap ticks what is missing, or
//! takes out what is too much, and everything else that was typed stays.

use crate::form::Fields;
use crate::form::scope::ScopeField;
use crate::id::ServiceId;
use crate::scope::ScopeLine;
use crate::scope::rules::mend::Mend;

/// What a mending button sends: `mend:a-:add:<id>+<id>`, for the part of the form with that prefix.
pub fn code(prefix: &str, mend: &Mend) -> String {
    match mend {
        Mend::Add(services) => {
            let ids: Vec<_> = services.iter().map(ToString::to_string).collect();
            format!("mend:{prefix}:add:{}", ids.join("+"))
        }
        Mend::TakeOut(service) => format!("mend:{prefix}:out:{service}"),
    }
}

/// The mending button that was pressed, if one was, and the prefix of its part.
pub fn pressed(act: &str) -> Option<(&str, Mend)> {
    let (prefix, rest) = act.strip_prefix("mend:")?.split_once(':')?;
    let mend = match rest.split_once(':')? {
        ("add", ids) => {
            let ids = ids.split('+').map(|id| id.parse().ok());
            Mend::Add(ids.collect::<Option<Vec<ServiceId>>>()?)
        }
        ("out", id) => Mend::TakeOut(id.parse().ok()?),
        _ => return None,
    };
    Some((prefix, mend))
}

/// Ticks or unticks in one part of a form; a line that stands agreed is kept rather than added
/// anew.
pub fn apply(fields: &mut Fields, prefix: &str, mend: &Mend, agreed: &[ScopeLine]) {
    let (keep, service) = (
        ScopeField::Keep.name(prefix),
        ScopeField::Service.name(prefix),
    );
    let places = |id: ServiceId| {
        let of_it = agreed.iter().enumerate();
        let of_it = of_it.filter(move |(_, line)| line.service == Some(id));
        of_it.map(|(place, _)| place.to_string())
    };
    match mend {
        Mend::Add(ids) => {
            for id in ids {
                let kept: Vec<String> = places(*id).collect();
                let ticks = if kept.is_empty() {
                    vec![(&service, id.to_string())]
                } else {
                    kept.into_iter().map(|place| (&keep, place)).collect()
                };
                for (name, value) in ticks {
                    if !fields.has(name, &value) {
                        fields.push(name.clone(), value);
                    }
                }
            }
        }
        Mend::TakeOut(id) => {
            fields.untick(&service, &id.to_string());
            for place in places(*id) {
                fields.untick(&keep, &place);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn service(number: u8) -> ServiceId {
        ServiceId::from_bytes([number; 16])
    }

    #[test]
    fn a_button_says_what_it_does_and_where() {
        let (add, out) = (
            Mend::Add(vec![service(1), service(2)]),
            Mend::TakeOut(service(3)),
        );
        for (prefix, mend) in [("p0-", add), ("", out)] {
            assert_eq!(pressed(&code(prefix, &mend)), Some((prefix, mend)));
        }
        for odd in [
            "",
            "mend",
            "mend:a-",
            "mend:a-:add:",
            "mend:a-:add:x",
            "mend:a-:off:x",
            "price",
        ] {
            assert_eq!(pressed(odd), None, "{odd}");
        }
    }
}
