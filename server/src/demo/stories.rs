//! The tickets worth a look, each told in full.

use shared_types::scope::offer::Word;
use shared_types::scope::sheet::ChoiceKey;
use shared_types::stage::{Hold, Stage};
use shared_types::ticket::event::Audience::{Customer, Question, Reply, Shop};
use shared_types::ticket::event::PaymentMethod;
use shared_types::ticket::{Construction, Rating};

use super::story::When::{Ago, Day};
use super::story::{Act, Boots, Choices, Person, Step, Story, Way, work};

/// The pair whose welt is split, and whose owner is asked.
pub(super) const SPLIT_WELT: [u8; 16] = *b"demo: split welt";

/// The pair with a safety mark.
const SAFETY: [u8; 16] = *b"demo: safetypair";

/// One pair ready, one not.
const TWO_PAIRS: [u8; 16] = *b"demo: two pairs ";

/// Tickets whose links are printed, and what there is to see.
pub(super) const WORTH_OPENING: [([u8; 16], &str); 3] = [
    (
        SPLIT_WELT,
        "work boots with a split welt: your word is asked",
    ),
    (SAFETY, "safety boots: a caution to tick before you answer"),
    (
        TWO_PAIRS,
        "two pairs: one to collect, one still at the bench",
    ),
];

/// All of them.
pub(super) static ALL: [&Story<'_>; 3] = [&SPLIT_WELT_STORY, &SAFETY_STORY, &TWO_PAIRS_STORY];

const SPLIT: &str = "The moulded strip is split at both balls, so it can't carry a stitch.";
const RIB: &str = "The rib has let go for 60 mm; a new welt needs it sound.";
const CORK: &str = "The old filler comes out with the welt.";
const BASE: &str = "The pressed fibre crumbles, and a nail finds no hold in it.";
static OFFER: Choices = Choices {
    found: "With the soles off, the strip that they are sewn to (the welt) turns out to be \
                split at the ball on both boots. Inside, the ridge that holds it has let go for 60 \
                mm, and the heels underneath are of pressed fibre that crumbles. New soles need \
                all three sound.",
    shots: &[],
    choices: &[
        Way {
            title: "Leather welt, stacked leather heels",
            words: "The lasting way: sewn by hand at the bench, and it can be resoled again \
                        and again. Each layer of the heel can be renewed by itself.",
            without: &[],
            with: &[
                work("Rib reglued").since(RIB),
                work("New leather welt, heel to heel").since(SPLIT),
                work("Cork filler").since(CORK),
                work("Heel bases of stacked leather").since(BASE),
            ],
        },
        Way {
            title: "Synthetic welt, rubber heels",
            words: "The same repair in moulded material. It costs less, usually carries one \
                        more sole, and may split again at the same place.",
            without: &[],
            with: &[
                work("Rib reglued").since(RIB),
                work("New synthetic welt, heel to heel").since(SPLIT),
                work("Cork filler").since(CORK),
                work("Heel blocks of rubber").since(BASE),
            ],
        },
        Way {
            title: "No new soles: put back as it was",
            words: "We close the boots up as they came, and you pay for taking them apart and \
                        putting them back. They can be worn in the dry for a while.",
            without: &[
                "Rubber soles",
                "Soles stitched",
                "Top lifts",
                "Edges trimmed, dyed and waxed",
            ],
            with: &[work("Put back as it was")],
        },
    ],
    if_declined: "New soles alone can't be done well: nothing holds a stitch in a split welt, \
                      and a sole that is only cemented over it comes off together with it. If none \
                      of the three suits you, your boots wait as they are and we talk it over.",
};
static SPLIT_WELT_STORY: Story<'_> = Story {
    id: SPLIT_WELT,
    customer: Person {
        name: "Ingrid Solheim",
        email: "ingrid.solheim@example.com",
        phone: "555-0121",
    },
    taken_in: Day(8, 12),
    pairs: &[Boots {
        colour: "dark green",
        kind: "lace-up work boots",
        size: "eu 44",
        construction: Construction::Welt270,
        rating: Rating::Ordinary,
        wrong: "Soles worn through at the ball, heels down at the outer back. Wants new rubber \
                    soles and heels.",
        work: &[
            work("Teardown"),
            work("Rubber soles"),
            work("Soles stitched"),
            work("Top lifts"),
            work("Edges trimmed, dyed and waxed"),
        ],
        photos: &[],
    }],
    then: &[
        Step(Day(2, 20), 0, Act::Move(Stage::Teardown)),
        Step(
            Day(2, 45),
            0,
            Act::Note(
                Customer,
                "Heels and soles are off. The welt is split at the ball on both boots, left worse \
                 than right, and the heel bases fall apart in the hand.",
                &[],
            ),
        ),
        Step(
            Day(2, 50),
            0,
            Act::Note(
                Shop,
                "Forepart 104 mm, heel seat 68 mm, welt needed 1.14 m the pair. Rib loose for 60 \
                 mm left inside, 25 mm right. Shanks firm, insoles sound. Heel 30 mm at the \
                 breast with the old top lift.",
                &[],
            ),
        ),
        Step(Day(1, 30), 0, Act::Offer(&OFFER)),
        Step(
            Day(0, 10),
            0,
            Act::Note(
                Question,
                "Will the leather welt look different from the one that is on it now?",
                &[],
            ),
        ),
        Step(
            Day(0, 40),
            0,
            Act::Note(
                Reply,
                "A little: it comes in natural tan and darkens with wear, and the stitches show on \
                 it as a fine row. We can dye it dark brown at no charge.",
                &[],
            ),
        ),
    ],
};

static LOOSE: Choices = Choices {
    found: "Under the worn soles the midsole is soaked and has come away from the boot on both \
                feet. A new sole would be sewn to a layer that no longer holds.",
    shots: &[],
    choices: &[Way {
        title: "New midsoles under the new soles",
        words: "The soaked layer goes, a new one comes in, and both are sewn through together.",
        without: &[],
        with: &[work("Midsoles").since("The old ones are soaked and have come away.")],
    }],
    if_declined: "We sew the new soles to what is there, as agreed. They hold less long, and \
                      we say so on the receipt.",
};
static LACES: Choices = Choices {
    found: "At the left ankle the leather is torn along the stitches of the padded collar, and \
                the lining behind the heels is worn through to the stiffener.",
    shots: &[],
    choices: &[
        Way {
            title: "Collar sewn, heels lined anew",
            words: "The tear is closed from inside, and new lining keeps the heel from \
                        rubbing.",
            without: &[],
            with: &[work("Upper patched"), work("New heel linings")],
        },
        Way {
            title: "Collar sewn only",
            words: "The tear would grow; the lining can wait.",
            without: &[],
            with: &[work("Upper patched")],
        },
    ],
    if_declined: "Your boots go on as agreed. The tear grows with wear; it can still be sewn \
                      later.",
};
static SAFETY_STORY: Story<'_> = Story {
    id: SAFETY,
    customer: Person {
        name: "Desta Wolde",
        email: "desta.wolde@example.org",
        phone: "555-0138",
    },
    taken_in: Day(13, 40),
    pairs: &[Boots {
        colour: "tan",
        kind: "safety-toe boots with a puncture plate",
        size: "us-men 10",
        construction: Construction::Welt360,
        rating: Rating::Protective,
        wrong: "Lugs worn flat. Needs them for work on a site; was told about the safety mark \
                    and will ask the employer.",
        work: &[
            work("Teardown"),
            work("Rubber soles with deep lugs"),
            work("Soles stitched"),
            work("Edges trimmed, dyed and waxed"),
        ],
        photos: &[],
    }],
    then: &[
        Step(Day(9, 10), 0, Act::Move(Stage::Teardown)),
        Step(
            Day(9, 30),
            0,
            Act::Note(
                Shop,
                "Puncture plate is of steel, sits firm, no rust. Don't nail through it. Toe cap \
                 undamaged.",
                &[],
            ),
        ),
        Step(Day(9, 60), 0, Act::Offer(&LOOSE)),
        Step(Day(8, 70), 0, Act::Word(Word::Accept(ChoiceKey::A))),
        Step(Day(6, 15), 0, Act::Start),
        Step(Day(6, 60), 0, Act::Move(Stage::Soling)),
        Step(
            Day(6, 80),
            0,
            Act::Note(
                Customer,
                "New midsoles are on, the lugged soles are laid and rest over night before they \
                 are stitched.",
                &[],
            ),
        ),
        Step(Day(6, 81), 0, Act::Hold(Some(Hold::Drying))),
        Step(Day(4, 20), 0, Act::Hold(None)),
        Step(Day(2, 30), 0, Act::Move(Stage::Finishing)),
        Step(Day(1, 60), 0, Act::Offer(&LACES)),
    ],
};

static TWO_PAIRS_STORY: Story<'_> = Story {
    id: TWO_PAIRS,
    customer: Person {
        name: "Amara Nwosu-Field",
        email: "amara.nwosufield@example.com",
        phone: "555-0156",
    },
    taken_in: Day(12, 25),
    pairs: &[
        Boots {
            colour: "brown",
            kind: "ankle boots with elastic sides",
            size: "uk 5.5",
            construction: Construction::BlakeStitched,
            rating: Rating::Ordinary,
            wrong: "Heels worn down at the back, soles thin. Wants them dry for the autumn.",
            work: &[
                work("Thin rubber over the soles"),
                work("Top lifts"),
                work("Heel edges finished"),
                work("Cleaned, conditioned and polished"),
            ],
            photos: &[],
        },
        Boots {
            colour: "burgundy",
            kind: "buckled walking shoes",
            size: "uk 5.5",
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            wrong: "A hole in the right sole under the ball.",
            work: &[
                work("Teardown"),
                work("Leather soles"),
                work("Soles stitched"),
                work("Top lifts"),
                work("Edges trimmed, dyed and waxed"),
            ],
            photos: &[],
        },
    ],
    then: &[
        Step(Day(12, 26), 0, Act::Pay(Some(60_00), PaymentMethod::Card)),
        Step(Day(5, 30), 0, Act::Move(Stage::Soling)),
        Step(Day(5, 70), 0, Act::Move(Stage::Heeling)),
        Step(Day(4, 20), 1, Act::Move(Stage::Teardown)),
        Step(
            Day(4, 40),
            1,
            Act::Note(
                Customer,
                "Taken apart: welt and rib are sound, so it stays with soles and heels as agreed.",
                &[],
            ),
        ),
        Step(Day(3, 50), 0, Act::Move(Stage::Finishing)),
        Step(Day(2, 15), 1, Act::Move(Stage::Soling)),
        Step(Day(1, 20), 0, Act::Move(Stage::Ready)),
        Step(
            Day(0, 70),
            1,
            Act::Note(
                Customer,
                "The leather soles are on and have rested. Next they are stitched.",
                &[],
            ),
        ),
    ],
};
