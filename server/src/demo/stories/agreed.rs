//! Nothing was asked beyond what was agreed at the counter.

use shared_types::scope::Side;
use shared_types::stage::{Hold, Stage};
use shared_types::ticket::event::Audience::{Customer, Shop};
use shared_types::ticket::event::PaymentMethod;
use shared_types::ticket::{Construction, Rating};

use crate::demo::pictures::Shot;
use crate::demo::story::When::Day;
use crate::demo::story::{Act, Besides, Boots, Person, Step, Story, Sum, work};

/// One pair ready, one not.
pub(super) const TWO_PAIRS: [u8; 16] = *b"demo: two pairs ";

pub(super) static STORIES: [Story<'_>; 6] = [
    Story {
        id: TWO_PAIRS,
        customer: Person {
            name: "Amara Nwosu-Field",
            email: "amara.nwosufield@example.com",
            phone: "555-0156",
        },
        taken_in: Day(6, 25),
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
                terms: Besides::Nothing,
                photos: &[Shot::AnkleBoots],
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
                terms: Besides::Nothing,
                photos: &[Shot::ThinSole],
            },
        ],
        then: &[
            Step(
                Day(6, 26),
                0,
                Act::Pay(Sum::Minor(60_00), PaymentMethod::Card),
            ),
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
                    &[Shot::LeatherSole],
                ),
            ),
        ],
    },
    Story {
        id: *b"demo: thick sole",
        customer: Person {
            name: "Marisol Etxeberria",
            email: "marisol.etxeberria@example.org",
            phone: "555-0118",
        },
        taken_in: Day(6, 15),
        pairs: &[Boots {
            colour: "chestnut",
            kind: "pull-on boots",
            size: "eu 41",
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            wrong: "Wants a coarser sole for the farm. The heel should feel as it does now.",
            work: &[
                work("Teardown"),
                work("Rubber soles with deep lugs"),
                work("Soles stitched"),
                work("Heel bases of stacked leather")
                    .since("The new sole is thicker; the heel is built anew to fit it."),
                work("Top lifts"),
                work("Edges trimmed, dyed and waxed"),
            ],
            terms: Besides::Nothing,
            photos: &[Shot::ChestnutBoots],
        }],
        then: &[
            Step(Day(5, 20), 0, Act::Move(Stage::Teardown)),
            Step(
                Day(5, 60),
                0,
                Act::Note(
                    Shop,
                    "Measured: old sole 5 mm at the forepart, heel 30 mm (base 24, lift 6). New sole 9 \
                 mm, its lift 12. To keep the pitch: heel 34 mm in all, so base 34 − 12 = 22 mm, 2 \
                 mm less than before.",
                    &[],
                ),
            ),
            Step(
                Day(5, 62),
                0,
                Act::Measure(&[
                    ("wearer", "woman"),
                    ("insole-length", "274"),
                    ("insole-ball", "86"),
                    ("insole-heel", "61"),
                    ("outsole-length", "290"),
                    ("old-sole-at-ball", "5"),
                    ("old-sole-at-seat", "5"),
                    ("old-heel-base", "24"),
                    ("old-top-lift", "6"),
                    ("left-heel", "28.5"),
                    ("right-heel", "28"),
                    ("new-sole-at-ball", "9"),
                    ("new-sole-at-seat", "5"),
                    ("new-top-lift", "12"),
                    ("sole-edge", "8"),
                    ("inseam", "left-alone"),
                    ("outsole-seam", "lock"),
                    ("outsole-tex", "350"),
                    ("outsole-pitch", "6"),
                    ("filler-depth", "4"),
                    ("insole-thickness", "8"),
                    ("insole-thickness-unit", "iron"),
                    ("lift", "5"),
                ]),
            ),
            Step(Day(4, 45), 0, Act::Move(Stage::Soling)),
            Step(Day(1, 35), 0, Act::Move(Stage::Heeling)),
            Step(
                Day(1, 75),
                0,
                Act::Note(
                    Customer,
                    "The lugged soles are stitched. They are 4 mm thicker in front and the tips 6 mm \
                 thicker behind, so we build the heel base 2 mm lower: the boots stand as they \
                 were made.",
                    &[Shot::Pitch],
                ),
            ),
        ],
    },
    Story {
        id: *b"demo: uneven one",
        customer: Person {
            name: "Thandiwe Mokoena",
            email: "thandiwe.mokoena@example.com",
            phone: "555-0167",
        },
        taken_in: Day(6, 30),
        pairs: &[Boots {
            colour: "oxblood",
            kind: "derbies",
            size: "uk 7",
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            wrong: "Soles and heels. The left has a 6 mm lift on prescription; it must come back \
                    exactly as it is.",
            work: &[
                work("Teardown"),
                work("Leather soles"),
                work("Soles stitched"),
                work("Lift renewed as prescribed").on(Side::Left),
                work("Top lifts"),
                work("Edges trimmed, dyed and waxed"),
            ],
            terms: Besides::Nothing,
            photos: &[Shot::OxbloodDerbies],
        }],
        then: &[
            Step(
                Day(6, 31),
                0,
                Act::Note(
                    Shop,
                    "The clinician's sheet was shown: left, 6 mm, heel to toe. Renew like for like; we \
                 advise nothing.",
                    &[Shot::Lift],
                ),
            ),
            Step(Day(5, 40), 0, Act::Move(Stage::Teardown)),
            Step(
                Day(5, 70),
                0,
                Act::Measure(&[
                    ("wearer", "woman"),
                    ("insole-length", "270"),
                    ("insole-ball", "84"),
                    ("insole-heel", "60"),
                    ("old-sole-at-ball", "4"),
                    ("old-sole-at-seat", "4.5"),
                    ("old-heel-base", "22"),
                    ("old-top-lift", "6"),
                    ("left-heel", "33.5"),
                    ("right-heel", "27.5"),
                    ("new-sole-at-ball", "9 iron"),
                    ("new-sole-at-seat", "9 iron"),
                    ("new-top-lift", "6"),
                    ("outsole-pitch", "9"),
                ]),
            ),
            Step(Day(3, 25), 0, Act::Move(Stage::Soling)),
            Step(Day(1, 10), 0, Act::Move(Stage::Heeling)),
            Step(
                Day(0, 55),
                0,
                Act::Note(
                    Customer,
                    "The lift is rebuilt and measured in three places: 6 mm, as before. It rests until \
                 the cement has its strength.",
                    &[],
                ),
            ),
            Step(Day(0, 56), 0, Act::Hold(Some(Hold::Drying))),
        ],
    },
    Story {
        id: *b"demo: broken zip",
        customer: Person {
            name: "Eleni Papadaki",
            email: "eleni.papadaki@example.com",
            phone: "555-0151",
        },
        taken_in: Day(5, 35),
        pairs: &[Boots {
            colour: "black",
            kind: "tall riding boots",
            size: "uk 6",
            construction: Construction::Cemented,
            rating: Rating::Ordinary,
            wrong: "Left zip broken, and the leather beside it worn through by the stirrup.",
            work: &[
                work("New zip").on(Side::Left),
                work("Upper panel replaced").on(Side::Left),
                work("Cleaned, conditioned and polished"),
            ],
            terms: Besides::Nothing,
            photos: &[Shot::RidingBoots, Shot::BrokenZip],
        }],
        then: &[
            Step(Day(3, 15), 0, Act::Move(Stage::Finishing)),
            Step(
                Day(3, 60),
                0,
                Act::Note(
                    Customer,
                    "The old zip is out and the new panel is cut. The zip in this length comes from \
                 the maker; we go on as soon as it is here.",
                    &[],
                ),
            ),
            Step(Day(3, 61), 0, Act::Hold(Some(Hold::Material))),
        ],
    },
    Story {
        id: *b"demo: dyed ivory",
        customer: Person {
            name: "Sofia Grigorescu",
            email: "sofia.grigorescu@example.org",
            phone: "555-0176",
        },
        taken_in: Day(5, 45),
        pairs: &[Boots {
            colour: "ivory",
            kind: "court shoes",
            size: "eu 38",
            construction: Construction::Cemented,
            rating: Rating::Ordinary,
            wrong: "To be dyed to the swatch of a dress, for a wedding in three weeks. The day \
                    can't move.",
            work: &[
                work("Dyed to a swatch"),
                work("Top lifts"),
                work("Heel edges finished"),
            ],
            terms: Besides::Nothing,
            photos: &[Shot::CourtShoes],
        }],
        then: &[
            Step(
                Day(5, 46),
                0,
                Act::Pay(Sum::Minor(40_00), PaymentMethod::Cash),
            ),
            Step(Day(1, 25), 0, Act::Move(Stage::Finishing)),
            Step(
                Day(1, 70),
                0,
                Act::Note(
                    Customer,
                    "Three trial coats beside your swatch: the second is it, we think. Each coat dries \
                 for a day and a night, and there is time for all of them.",
                    &[Shot::Swatches],
                ),
            ),
            Step(Day(0, 80), 0, Act::Hold(Some(Hold::Drying))),
        ],
    },
    Story {
        id: *b"demo: no pick-up",
        customer: Person {
            name: "Florian Achterberg",
            email: "f.achterberg@example.org",
            phone: "555-0189",
        },
        taken_in: Day(61, 50),
        pairs: &[Boots {
            colour: "cognac",
            kind: "lace-up boots",
            size: "eu 45",
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            wrong: "New soles and heels.",
            work: &[
                work("Teardown"),
                work("Rubber soles"),
                work("Soles stitched"),
                work("Top lifts"),
                work("Edges trimmed, dyed and waxed"),
            ],
            terms: Besides::Nothing,
            photos: &[],
        }],
        then: &[
            Step(Day(56, 30), 0, Act::Move(Stage::Teardown)),
            Step(Day(54, 30), 0, Act::Move(Stage::Soling)),
            Step(Day(52, 40), 0, Act::Move(Stage::Heeling)),
            Step(Day(51, 40), 0, Act::Move(Stage::Finishing)),
            Step(Day(50, 50), 0, Act::Move(Stage::Ready)),
            Step(
                Day(3, 90),
                0,
                Act::Note(
                    Shop,
                    "All three reminders went out, and we rang twice. Next step: ask what local law \
                 requires before anything else is done with the pair.",
                    &[],
                ),
            ),
        ],
    },
];
