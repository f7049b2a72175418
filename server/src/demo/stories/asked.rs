//! Added scope was offered, and no word has come yet.

use shared_types::scope::discovery::Discovery;
use shared_types::scope::offer::Word;
use shared_types::scope::sheet::ChoiceKey;
use shared_types::stage::{Hold, Stage};
use shared_types::ticket::event::Audience::{Customer, Question, Reply, Shop};
use shared_types::ticket::{Construction, Rating};

use crate::demo::pictures::Shot;
use crate::demo::story::When::{Ago, Day};
use crate::demo::story::{Act, Besides, Boots, Choices, Person, Step, Story, Way, work};

/// The pair whose welt is split, and whose owner is asked.
pub(in crate::demo) const SPLIT_WELT: [u8; 16] = *b"demo: split welt";

/// The pair with a safety mark.
pub(super) const SAFETY: [u8; 16] = *b"demo: safetypair";

pub(super) static STORIES: [Story<'_>; 4] = [
    Story {
        id: SPLIT_WELT,
        customer: Person {
            name: "Ingrid Solheim",
            email: "ingrid.solheim@example.com",
            phone: "555-0121",
        },
        taken_in: Day(5, 12),
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
            terms: Besides::Nothing,
            photos: &[Shot::GreenBoots],
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
                    &[Shot::FibreHeel],
                ),
            ),
            Step(
                Day(2, 50),
                0,
                Act::Note(
                    Shop,
                    "Measured: ball 95 mm, heel seat 68 mm, welt 1.17 m for the pair. Rib loose \
                 for 60 mm left inside, 25 mm right. Shanks firm, insoles sound. Heel 30 mm at the \
                 breast with the old top lift.",
                    &[Shot::LooseRib],
                ),
            ),
            Step(
                Day(2, 52),
                0,
                Act::Measure(&[
                    ("insole-length", "293"),
                    ("insole-ball", "95"),
                    ("insole-heel", "68"),
                    ("outsole-length", "309"),
                    ("old-sole", "rubber"),
                    ("old-sole-at-ball", "4.5"),
                    ("old-sole-at-seat", "5"),
                    ("old-heel-base", "23"),
                    ("old-top-lift", "7"),
                    ("new-sole-at-ball", "6"),
                    ("new-sole-at-seat", "6"),
                    ("new-top-lift", "7"),
                    ("last-pitch", "30"),
                    ("left-heel", "28.5"),
                    ("right-heel", "29"),
                    ("sole-edge", "8"),
                    ("outsole-pitch", "7"),
                    ("filler-depth", "4"),
                ]),
            ),
            Step(Day(1, 30), 0, Act::Offer(&SPLIT_WELT_CHOICES)),
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
    },
    Story {
        id: SAFETY,
        customer: Person {
            name: "Desta Wolde",
            email: "desta.wolde@example.org",
            phone: "555-0138",
        },
        taken_in: Day(6, 40),
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
                work("Top lifts"),
                work("Edges trimmed, dyed and waxed"),
            ],
            terms: Besides::Nothing,
            photos: &[Shot::TanBoots],
        }],
        then: &[
            Step(Day(5, 10), 0, Act::Move(Stage::Teardown)),
            Step(
                Day(5, 30),
                0,
                Act::Note(
                    Shop,
                    "Puncture plate is of steel, sits firm, no rust. Don't nail through it. Toe cap \
                 undamaged.",
                    &[],
                ),
            ),
            Step(
                Day(5, 35),
                0,
                Act::Measure(&[
                    ("insole-length", "290"),
                    ("insole-ball", "96"),
                    ("outsole-length", "308"),
                    ("old-sole", "lug"),
                    ("sole-edge", "9"),
                    ("outsole-pitch", "6"),
                    ("new-sole-at-ball", "10"),
                    ("new-sole-at-seat", "10"),
                ]),
            ),
            Step(Day(4, 60), 0, Act::Offer(&MIDSOLE_CHOICES)),
            Step(Day(3, 40), 0, Act::Word(Word::Accept(ChoiceKey::A))),
            Step(Day(3, 55), 0, Act::Start),
            Step(Day(3, 60), 0, Act::Move(Stage::Soling)),
            Step(
                Day(3, 80),
                0,
                Act::Note(
                    Customer,
                    "New midsoles are on, the lugged soles are laid. They rest over night before they \
                 are stitched.",
                    &[],
                ),
            ),
            Step(Day(3, 81), 0, Act::Hold(Some(Hold::Drying))),
            Step(Day(2, 20), 0, Act::Hold(None)),
            Step(
                Day(2, 70),
                0,
                Act::Note(Customer, "Stitched all round.", &[Shot::LuggedSole]),
            ),
            Step(Day(1, 30), 0, Act::Move(Stage::Finishing)),
            Step(Day(0, 60), 0, Act::Offer(&COLLAR_CHOICES)),
        ],
    },
    Story {
        id: *b"demo: oldmidsole",
        customer: Person {
            name: "Rangi Tamihana",
            email: "rangi.tamihana@example.com",
            phone: "555-0163",
        },
        taken_in: Day(5, 55),
        pairs: &[Boots {
            colour: "grey",
            kind: "hiking boots",
            size: "eu 42",
            construction: Construction::Cemented,
            rating: Rating::Ordinary,
            wrong: "Sole comes off at the toe. Stood in the attic for some years, hardly worn.",
            work: &[
                work("Teardown"),
                work("Rubber soles with deep lugs"),
                work("Top lifts"),
                work("Edges trimmed, dyed and waxed"),
            ],
            terms: Besides::Nothing,
            photos: &[Shot::GreyBoots],
        }],
        then: &[
            Step(Day(2, 60), 0, Act::Move(Stage::Teardown)),
            Step(
                Day(2, 75),
                0,
                Act::Note(
                    Shop,
                    "Foam midsole gone all the way through, both boots: hydrolysis. Upper, lining and \
                 rand are good. Nothing to cement to until every crumb is off.",
                    &[Shot::Crumbs],
                ),
            ),
            Step(Day(1, 15), 0, Act::Offer(&CRUMBS_CHOICES)),
            Step(
                Ago(170),
                0,
                Act::Note(
                    Question,
                    "Honestly, would you repair them if they were yours?",
                    &[],
                ),
            ),
        ],
    },
    Story {
        id: *b"demo: lapsed one",
        customer: Person {
            name: "Benedikta Krall",
            email: "b.krall@example.org",
            phone: "555-0172",
        },
        taken_in: Day(9, 70),
        pairs: &[Boots {
            colour: "walnut",
            kind: "pull-on boots with a stacked heel",
            size: "us-women 8.5",
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            wrong: "Creaks at every step, and the heel tips are gone.",
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
            Step(Day(7, 25), 0, Act::Move(Stage::Teardown)),
            Step(
                Day(7, 50),
                0,
                Act::Note(
                    Customer,
                    "We found what creaks: the spring under the arch is rusted through on the right.",
                    &[],
                ),
            ),
            Step(Day(6, 20), 0, Act::Offer(&SHANK_CHOICES)),
        ],
    },
];

const SPLIT: &str = "The moulded strip is split at both balls, so it can't carry a stitch.";
const RIB: &str = "The rib has let go for 60 mm; a new welt needs it sound.";
const CORK: &str = "The old filler comes out with the welt.";
const BASE: &str = "The pressed fibre crumbles, and a nail finds no hold in it.";

static SPLIT_WELT_CHOICES: Choices = Choices {
    found: "With the soles off, the strip that they are sewn to (the welt) turns out to be split at \
            the ball on both boots. Inside, the ridge that holds it has let go for 60 mm, and the \
            heels underneath are of pressed fibre that crumbles. New soles need all three sound.",
    discoveries: &[
        Discovery::WeltSplitLong,
        Discovery::RibLoosePart,
        Discovery::HeelBaseCrumbling,
    ],
    shots: &[Shot::SplitWelt, Shot::FibreHeel, Shot::LooseRib],
    ways: &[
        Way {
            title: "Leather welt, stacked leather heels",
            words: "The lasting way: sewn by hand at the bench, and it can be resoled again and \
                    again. Each layer of the heel can be renewed by itself.",
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
            words: "The same repair in moulded material. It costs less, usually carries one more \
                    sole, and may split again at the same place.",
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
    if_declined: "New soles alone can't be done well: nothing holds a stitch in a split welt, and a \
                  sole that is only cemented over it comes off together with it. If none of the \
                  three suits you, your boots wait as they are and we talk it over.",
};

static MIDSOLE_CHOICES: Choices = Choices {
    found: "Under the worn soles the midsole is soaked and has come away from the boot on both \
            feet. A new sole would be sewn to a layer that no longer holds.",
    discoveries: &[],
    shots: &[Shot::SoakedMidsole],
    ways: &[Way {
        title: "New midsoles under the new soles",
        words: "The soaked layer goes, a new one comes in, and both are sewn through together.",
        without: &[],
        with: &[work("Midsoles").since("The old ones are soaked and have come away.")],
    }],
    if_declined: "We sew the new soles to what is there, as agreed. They hold less long.",
};

static COLLAR_CHOICES: Choices = Choices {
    found: "At the left ankle the leather is torn along the stitches of the padded collar, and the \
            lining behind the heels is worn through to the stiff piece inside.",
    discoveries: &[Discovery::UpperTorn, Discovery::LiningWorn],
    shots: &[Shot::TornCollar],
    ways: &[
        Way {
            title: "Collar sewn, heels lined anew",
            words: "The tear is closed from inside, and new lining keeps the heel from rubbing.",
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
    if_declined: "Your boots go on as agreed. The tear grows with wear; it can still be sewn later.",
};

static CRUMBS_CHOICES: Choices = Choices {
    found: "The foam between boot and sole has gone to crumbs. It does that by itself, with years \
            and damp, worn or not. Nothing can be glued to it, so it would have to come off whole.",
    discoveries: &[Discovery::MidsoleCrumbling],
    shots: &[Shot::Crumbs],
    ways: &[
        Way {
            title: "New midsoles and lugged soles",
            words: "The leather above is good and deserves it. The boots become a little stiffer \
                    and about 80 g heavier each, and the new midsole doesn't crumble.",
            without: &[],
            with: &[work("Midsoles").since("Takes the place of the crumbled foam.")],
        },
        Way {
            title: "No new soles: you take them back",
            words: "You pay for the teardown alone. For what the repair costs, a plain new pair can \
                    be had; we would understand.",
            without: &[
                "Rubber soles with deep lugs",
                "Top lifts",
                "Edges trimmed, dyed and waxed",
            ],
            with: &[],
        },
    ],
    if_declined: "New soles can't be glued to crumbs, so what was agreed can't be done. Your boots \
                  wait here until we have talked.",
};

static SHANK_CHOICES: Choices = Choices {
    found: "The steel spring under the arch is rusted through in the right boot and about to go in \
            the left. That is the creak, and without it the boot sags under the arch.",
    discoveries: &[Discovery::ShankBroken],
    shots: &[],
    ways: &[
        Way {
            title: "New springs, covered with leather",
            words: "Firm and quiet again. The cork above them is renewed with it.",
            without: &[],
            with: &[
                work("New shanks"),
                work("Shank covers"),
                work("Cork filler"),
            ],
        },
        Way {
            title: "New springs only",
            words: "Firm again; they may squeak in damp weather.",
            without: &[],
            with: &[work("New shanks"), work("Cork filler")],
        },
    ],
    if_declined: "We put soles and heels on as agreed. The creak stays, and the new soles bend \
                  where they shouldn't.",
};
