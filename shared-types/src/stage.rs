//! The stages of a pair, and what may hold it.

use serde::{Deserialize, Serialize};

/// Where a pair is. The order is that of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// On the shelf, waiting for the bench.
    TakenIn,
    /// Being taken apart and looked at.
    Teardown,
    /// Insole, rib, welt, shank and filler.
    Structure,
    /// The outsole goes on.
    Soling,
    /// Heel base and top lift.
    Heeling,
    /// Edges, upper, care.
    Finishing,
    /// On the pickup shelf.
    Ready,
    /// With its owner again.
    Collected,
}

impl Stage {
    /// All stages in order.
    pub const ALL: [Self; 8] = [
        Self::TakenIn,
        Self::Teardown,
        Self::Structure,
        Self::Soling,
        Self::Heeling,
        Self::Finishing,
        Self::Ready,
        Self::Collected,
    ];

    /// The stages that are work, each a run of stitches along the welt.
    pub const RUNS: [Self; 5] = [
        Self::Teardown,
        Self::Structure,
        Self::Soling,
        Self::Heeling,
        Self::Finishing,
    ];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::TakenIn => "taken-in",
            Self::Teardown => "teardown",
            Self::Structure => "structure",
            Self::Soling => "soling",
            Self::Heeling => "heeling",
            Self::Finishing => "finishing",
            Self::Ready => "ready",
            Self::Collected => "collected",
        }
    }

    /// Finds a stage by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|stage| stage.code() == code)
    }

    /// Its name on a button and in a list.
    pub const fn label(self) -> &'static str {
        match self {
            Self::TakenIn => "Taken in",
            Self::Teardown => "Teardown",
            Self::Structure => "Structure",
            Self::Soling => "Soling",
            Self::Heeling => "Heeling",
            Self::Finishing => "Finishing",
            Self::Ready => "Ready",
            Self::Collected => "Collected",
        }
    }

    /// What the customer reads.
    pub const fn for_customer(self) -> &'static str {
        match self {
            Self::TakenIn => "Your pair is on our shelf and waits for its turn at the bench.",
            Self::Teardown => "We are taking your pair apart to see how it is inside.",
            Self::Structure => "We are rebuilding the parts that hold your pair together.",
            Self::Soling => "The soles are going on.",
            Self::Heeling => "We are building the heels.",
            Self::Finishing => "We are trimming, dyeing and polishing.",
            Self::Ready => "Your pair is ready. You can collect it.",
            Self::Collected => "Your pair is with you again.",
        }
    }

    /// How many runs of stitches are finished.
    pub fn runs_done(self) -> usize {
        Self::RUNS.iter().filter(|run| **run < self).count()
    }

    /// Whether the pair is still to be worked on.
    pub fn is_open(self) -> bool {
        self < Self::Ready
    }

    /// Whether the bench may move a pair from this stage to `next`: to any stage of the work,
    /// forward or back, and to the pickup shelf; back from the shelf if something was missed.
    /// Only the hand-over itself makes a pair collected.
    pub fn may_move_to(self, next: Self) -> bool {
        self != next && self != Self::Collected && next != Self::Collected && next != Self::TakenIn
    }
}

/// Why nobody works on a pair just now, apart from waiting for the customer's word, which the
/// offer itself says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hold {
    /// Something has to come first.
    Material,
    /// Cement, dye or wet leather needs its time.
    Drying,
}

impl Hold {
    /// All reasons.
    pub const ALL: [Self; 2] = [Self::Material, Self::Drying];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Material => "material",
            Self::Drying => "drying",
        }
    }

    /// Finds a hold by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|hold| hold.code() == code)
    }

    /// Its name on a button.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Material => "Waits for material",
            Self::Drying => "Rests and dries",
        }
    }

    /// What the customer reads.
    pub const fn for_customer(self) -> &'static str {
        match self {
            Self::Material => "We wait for material that we have ordered.",
            Self::Drying => "It rests: cement, dye or wet leather needs its time.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_hand_over_collects_and_nothing_leaves_collected() {
        for stage in Stage::ALL {
            assert!(!stage.may_move_to(Stage::Collected), "{stage:?}");
            assert!(!Stage::Collected.may_move_to(stage), "{stage:?}");
            assert!(!stage.may_move_to(stage), "{stage:?}");
        }
        assert!(Stage::Ready.may_move_to(Stage::Finishing));
        assert!(Stage::TakenIn.may_move_to(Stage::Ready));
    }

    #[test]
    fn codes_lead_back_to_their_stage() {
        for stage in Stage::ALL {
            assert_eq!(Stage::from_code(stage.code()), Some(stage));
        }
    }
}
