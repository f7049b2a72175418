//! The shop's rules as the browser gets them: only what a check of ticks needs, so that the page
//! stays light. Services are named by their places among those of the book.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};
use shared_types::id::ServiceId;
use shared_types::scope::discovery::Discovery;
use shared_types::scope::rules::Standing;
use shared_types::scope::rules::condition::Condition;
use shared_types::scope::rules::{AsFound, Case, Claim, Need, Reason, Rule, RuleId, RuleSet};
use shared_types::text::Words;
use shared_types::ticket::{Construction, Rating};

/// The rules, and what is known of the pair beyond what is typed.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub struct LiveRules {
    rules: Vec<Light>,
    found: Vec<Discovery>,
    built: Option<(Construction, Rating)>,
}

/// A rule: what it says, when, and why for the bench.
#[derive(Clone, Debug, Serialize, Deserialize)]
struct Light(Says, Option<Case>, Words);

/// Places of services.
type Places = Vec<u8>;

/// What a rule says.
#[derive(Clone, Debug, Serialize, Deserialize)]
enum Says {
    #[serde(rename = "r")]
    Requires(Places, Places, Vec<Condition>),
    #[serde(rename = "o")]
    OneOf(Places),
    #[serde(rename = "e")]
    Excludes(Places, Places),
    #[serde(rename = "s")]
    Spares(Places, Places),
    #[serde(rename = "u")]
    Unfit(Places),
    #[serde(rename = "m")]
    Mends(Condition, Places),
}

impl LiveRules {
    /// The rules of a form about one pair with what its teardown showed, or about pairs that are
    /// being typed; `known` are the services of the form, in the order of its book.
    pub fn new(rules: &RuleSet, known: &[ServiceId], pair: Option<&AsFound>) -> Self {
        let holds = |rule: &&Rule| {
            let built = |pair: &AsFound| {
                let ways = &rule.case.constructions;
                (ways.is_empty() || ways.contains(&pair.construction))
                    && rule.case.rating.is_none_or(|rating| rating == pair.rating)
            };
            rule.standing == Standing::On && pair.is_none_or(built)
        };
        let all: BTreeSet<ServiceId> = known.iter().copied().collect();
        let rules = rules.clone().among(&all);
        let light = |rule: &Rule| {
            let case = (rule.case != Case::default()).then(|| rule.case.clone());
            Some(Light(
                says(&rule.claim, known)?,
                case,
                rule.reason.bench.clone(),
            ))
        };
        Self {
            rules: rules
                .rules
                .values()
                .filter(holds)
                .filter_map(light)
                .collect(),
            found: pair.map_or_else(Vec::new, |pair| pair.discoveries.iter().copied().collect()),
            built: pair.map(|pair| (pair.construction, pair.rating)),
        }
    }

    /// The pair that a form is about; nothing where pairs are typed.
    pub fn pair(&self) -> Option<AsFound> {
        let (construction, rating) = self.built?;
        Some(AsFound {
            construction,
            rating,
            discoveries: self.found.iter().copied().collect(),
        })
    }

    /// The rules again, as far as a check needs them.
    pub fn rules(&self, known: &[ServiceId]) -> RuleSet {
        let rule = |(number, light): (usize, &Light)| {
            let Light(says, case, words) = light;
            let reason = Reason {
                bench: words.clone(),
                customer: words.clone(),
            };
            let rule = Rule {
                standing: Standing::On,
                case: case.clone().unwrap_or_default(),
                claim: claim(says, known),
                reason,
            };
            Some((RuleId::parse(&number.to_string()).ok()?, rule))
        };
        let rules: BTreeMap<_, _> = self.rules.iter().enumerate().filter_map(rule).collect();
        RuleSet {
            rules,
            put_back: None,
        }
    }
}

/// What a check needs of a claim; nothing of one that is only about what is better.
fn says(claim: &Claim, known: &[ServiceId]) -> Option<Says> {
    let places = |of: &mut dyn Iterator<Item = &ServiceId>| -> Places {
        let place = |one: &ServiceId| known.iter().position(|known| known == one);
        of.filter_map(|one| u8::try_from(place(one)?).ok())
            .collect()
    };
    let set = |of: &BTreeSet<ServiceId>| places(&mut of.iter());
    Some(match claim {
        Claim::Requires { these, any_of } => {
            let mut lines = any_of.iter().filter_map(|need| match need {
                Need::Line(service) => Some(service),
                Need::Sound(_) => None,
            });
            let sound = any_of.iter().filter_map(|need| match need {
                Need::Line(_) => None,
                Need::Sound(condition) => Some(*condition),
            });
            Says::Requires(set(these), places(&mut lines), sound.collect())
        }
        Claim::OneOf { these } => Says::OneOf(set(these)),
        Claim::Excludes { these, those } => Says::Excludes(set(these), set(those)),
        Claim::Spares { done, spared } => Says::Spares(set(done), set(spared)),
        Claim::Unfit { these } => Says::Unfit(set(these)),
        Claim::Mends {
            condition,
            best_first,
        } => Says::Mends(*condition, places(&mut best_first.iter())),
        Claim::Prefers { .. } | Claim::Together { .. } => return None,
    })
}

fn claim(says: &Says, known: &[ServiceId]) -> Claim {
    let all = |places: &Places| -> Vec<ServiceId> {
        let one = |place: &u8| known.get(usize::from(*place)).copied();
        places.iter().filter_map(one).collect()
    };
    let set = |places: &Places| all(places).into_iter().collect();
    match says {
        Says::Requires(these, lines, sound) => {
            let lines = all(lines).into_iter().map(Need::Line);
            Claim::Requires {
                these: set(these),
                any_of: lines
                    .chain(sound.iter().copied().map(Need::Sound))
                    .collect(),
            }
        }
        Says::OneOf(these) => Claim::OneOf { these: set(these) },
        Says::Excludes(these, those) => Claim::Excludes {
            these: set(these),
            those: set(those),
        },
        Says::Spares(done, spared) => Claim::Spares {
            done: set(done),
            spared: set(spared),
        },
        Says::Unfit(these) => Claim::Unfit { these: set(these) },
        Says::Mends(condition, best_first) => Claim::Mends {
            condition: *condition,
            best_first: all(best_first),
        },
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::scope::rules::consistency::check_scope;
    use shared_types::scope::rules::shipped;

    use super::*;

    /// Ticks of every pair of services on every kind of pair are judged alike by the whole rules
    /// and by those that the browser gets, and these come through JSON.
    #[test]
    fn the_browser_judges_as_the_server_does() {
        let known: Vec<ServiceId> = (1..=41).map(shipped::service).collect();
        let offered = known.iter().copied().collect();
        let rules = shipped::rules();
        for (construction, discoveries) in [
            (
                Construction::Welt270,
                [Discovery::WeltSplitLong, Discovery::RibTorn],
            ),
            (
                Construction::Cemented,
                [Discovery::Damp, Discovery::MidsoleCrumbling],
            ),
            (
                Construction::Moulded,
                [Discovery::UnitBroken, Discovery::ShankBroken],
            ),
        ] {
            let found = AsFound {
                construction,
                rating: Rating::Protective,
                discoveries: discoveries.into(),
            };
            let sent = serde_json::to_string(&LiveRules::new(&rules, &known, Some(&found)));
            let sent = sent.unwrap();
            assert!(sent.len() < 12_000, "{} bytes", sent.len());
            let live: LiveRules = serde_json::from_str(&sent).unwrap();
            assert_eq!(live.pair(), Some(found.clone()));
            let light = live.rules(&known);
            for one in &known {
                for other in &known {
                    let lines = [*one, *other].into();
                    let count = |rules| check_scope(rules, &found, &lines, &offered).unwrap().len();
                    assert_eq!(count(&light), count(&rules), "{one} {other}");
                }
            }
        }
    }
}
