//! The customer gave a word: yes, no, by telephone, and once taken back.

use shared_types::scope::discovery::Discovery;
use shared_types::scope::offer::Word;
use shared_types::scope::sheet::{ChoiceKey, Given};
use shared_types::stage::Stage;
use shared_types::ticket::event::Audience::{Customer, Shop};
use shared_types::ticket::event::PaymentMethod;
use shared_types::ticket::{Construction, Rating};

use crate::demo::pictures::Shot;
use crate::demo::story::When::{Ago, Day};
use crate::demo::story::{Act, Besides, Boots, Choices, Person, Step, Story, Sum, Way, work};

pub(super) static STORIES: [Story<'_>; 4] = [
    Story {
        id: *b"demo: 3rd resole",
        customer: Person {
            name: "Aurelio Bianchetti",
            email: "aurelio.bianchetti@example.com",
            phone: "555-0129",
        },
        taken_in: Day(7, 20),
        pairs: &[Boots {
            colour: "black",
            kind: "brogues",
            size: "uk 9",
            construction: Construction::Welt360,
            rating: Rating::Ordinary,
            wrong: "Third resole. Soles thin under the ball; the left one lets water in.",
            work: &[
                work("Teardown"),
                work("Leather soles"),
                work("Soles stitched"),
                work("Top lifts"),
                work("Edges trimmed, dyed and waxed"),
            ],
            terms: Besides::Nothing,
            photos: &[Shot::BlackBrogues],
        }],
        then: &[
            Step(
                Day(7, 21),
                0,
                Act::Pay(Sum::Minor(50_00), PaymentMethod::Card),
            ),
            Step(Day(3, 30), 0, Act::Move(Stage::Teardown)),
            Step(
                Day(3, 55),
                0,
                Act::Note(
                    Shop,
                    "Welt 2.1 mm and pricked twice already, 2 mm between rows and edge. Rib and insole \
                 good. Welt all round would take 1.49 m.",
                    &[Shot::ThinWelt],
                ),
            ),
            Step(
                Day(3, 60),
                0,
                Act::Measure(&[
                    ("wearer", "man"),
                    ("insole-length", "287"),
                    ("insole-ball", "92"),
                    ("insole-heel", "65"),
                    ("outsole-length", "299"),
                    ("old-sole-at-ball", "3.5"),
                    ("old-sole-at-seat", "4.5"),
                    ("old-heel-base", "21"),
                    ("old-top-lift", "6"),
                    ("last-pitch", "27"),
                    ("new-sole-at-ball", "9 iron"),
                    ("new-sole-at-seat", "9 iron"),
                    ("new-top-lift", "6.5"),
                    ("sole-edge", "5"),
                    ("outsole-pitch", "9"),
                    ("filler-depth", "3"),
                ]),
            ),
            Step(Day(2, 40), 0, Act::Offer(&THIN_WELT_CHOICES)),
            Step(Ago(95), 0, Act::Word(Word::Accept(ChoiceKey::A))),
        ],
    },
    Story {
        id: *b"demo: went as is",
        customer: Person {
            name: "Yuki Arakawa",
            email: "yuki.arakawa@example.org",
            phone: "555-0145",
        },
        taken_in: Day(6, 65),
        pairs: &[Boots {
            colour: "brown",
            kind: "loafers",
            size: "us-women 7.5",
            construction: Construction::BlakeStitched,
            rating: Rating::Ordinary,
            wrong: "Soles thin, right one worn through. Half soles are enough.",
            work: &[
                work("Teardown"),
                work("Half soles"),
                work("Soles stitched"),
                work("Edges trimmed, dyed and waxed"),
            ],
            terms: Besides::Nothing,
            photos: &[Shot::Loafers, Shot::ThinSole],
        }],
        then: &[
            Step(Day(5, 25), 0, Act::Move(Stage::Teardown)),
            Step(Day(5, 60), 0, Act::Offer(&INSOLE_CHOICES)),
            Step(Day(4, 5), 0, Act::Word(Word::Decline)),
            Step(Day(3, 35), 0, Act::Start),
            Step(
                Day(3, 36),
                0,
                Act::Note(
                    Customer,
                    "It goes on as first agreed: half soles and nothing more.",
                    &[],
                ),
            ),
            Step(Day(2, 55), 0, Act::Move(Stage::Soling)),
        ],
    },
    Story {
        id: *b"demo: taken back",
        customer: Person {
            name: "Liam O'Hanrahan",
            email: "liam.ohanrahan@example.com",
            phone: "555-0134",
        },
        taken_in: Day(6, 75),
        pairs: &[Boots {
            colour: "brown",
            kind: "plain-toe derbies",
            size: "eu 42",
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            wrong: "Worn through at the ball, heels down.",
            work: &[
                work("Teardown"),
                work("Leather soles"),
                work("Soles stitched"),
                work("Top lifts"),
                work("Edges trimmed, dyed and waxed"),
            ],
            terms: Besides::Nothing,
            photos: &[],
        }],
        then: &[
            Step(Day(3, 70), 0, Act::Move(Stage::Teardown)),
            Step(
                Day(3, 90),
                0,
                Act::Measure(&[
                    ("insole-length", "281"),
                    ("old-sole-at-ball", "4"),
                    ("old-sole-at-seat", "4.5"),
                    ("old-heel-base", "20"),
                    ("old-top-lift", "6"),
                    ("last-pitch", "26"),
                    ("new-sole-at-ball", "9 iron"),
                    ("new-sole-at-seat", "9 iron"),
                    ("new-top-lift", "6"),
                ]),
            ),
            Step(Day(2, 65), 0, Act::Offer(&HEEL_CHOICES)),
            Step(Ago(1260), 0, Act::Word(Word::Accept(ChoiceKey::A))),
            Step(Ago(1100), 0, Act::TakeBack),
            Step(Ago(1085), 0, Act::Word(Word::Accept(ChoiceKey::B))),
        ],
    },
    Story {
        id: *b"demo: telephoned",
        customer: Person {
            name: "Kwabena Darko",
            email: "",
            phone: "555-0147",
        },
        taken_in: Day(7, 60),
        pairs: &[Boots {
            colour: "black",
            kind: "engineer boots, pull-on",
            size: "us-men 9",
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            wrong: "Right heel wobbles. No e-mail: please ring after four.",
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
            Step(Day(4, 35), 0, Act::Move(Stage::Teardown)),
            Step(Day(4, 70), 0, Act::Offer(&NAILS_CHOICES)),
            Step(
                Day(3, 85),
                0,
                Act::Told(Word::Accept(ChoiceKey::A), Given::ByTelephone),
            ),
            Step(
                Day(3, 86),
                0,
                Act::Note(
                    Shop,
                    "Rang at four, read both choices out with their prices and days. He chose A and \
                 will come by on foot, so no rush.",
                    &[],
                ),
            ),
            Step(Day(1, 10), 0, Act::Start),
            Step(Day(1, 40), 0, Act::Move(Stage::Structure)),
        ],
    },
];

static THIN_WELT_CHOICES: Choices = Choices {
    found: "The strip to which the soles are sewn is thin now and has two rows of old holes. A \
            third row would cut it off along the stitches, perhaps within the year.",
    discoveries: &[Discovery::WeltHoled],
    shots: &[Shot::ThinWelt],
    ways: &[
        Way {
            title: "New leather welt all round",
            words: "Sewn by hand, after which your brogues can be resoled as often again.",
            without: &[],
            with: &[work("New leather welt, all round"), work("Cork filler")],
        },
        Way {
            title: "New synthetic welt, heel to heel",
            words: "It costs less and carries these soles well. It may split one day, and behind \
                    the heel the old welt stays.",
            without: &[],
            with: &[
                work("New synthetic welt, heel to heel"),
                work("Cork filler"),
            ],
        },
    ],
    if_declined: "We could only stitch wider, with fewer holes, and that is weaker. We would do it \
                  if you wish, but we'd rather not promise how long it holds.",
};

static INSOLE_CHOICES: Choices = Choices {
    found: "The insole has a crack across the ball, on the right shoe halfway through. It can't be \
            felt yet.",
    discoveries: &[Discovery::InsoleCracked],
    shots: &[Shot::ThinSole],
    ways: &[Way {
        title: "Insoles patched under the half soles",
        words: "A leather patch where the foot bends, while the sole is off anyway.",
        without: &[],
        with: &[work("Insole patched"), work("Cork filler")],
    }],
    if_declined: "Your loafers get their half soles as agreed. The crack will be felt one day; it \
                  can be patched at the next soles just as well.",
};

static HEEL_CHOICES: Choices = Choices {
    found: "The heels under the tips are of pressed fibre and give when we press a thumb in. The \
            spring under the left arch has come loose.",
    discoveries: &[Discovery::HeelBaseCrumbling],
    shots: &[Shot::FibreHeel],
    ways: &[
        Way {
            title: "Stacked leather heels, springs and cork renewed",
            words: "Everything under the foot made firm, in leather that can be renewed layer by \
                    layer.",
            without: &[],
            with: &[
                work("New shanks"),
                work("Shank covers"),
                work("Cork filler"),
                work("Heel bases of stacked leather"),
            ],
        },
        Way {
            title: "New heels of fibre, springs fixed",
            words: "Sound again at less cost; the fibre dislikes the wet.",
            without: &[],
            with: &[
                work("New shanks"),
                work("Cork filler"),
                work("Heel bases of fibreboard"),
            ],
        },
    ],
    if_declined: "Soles can go on as agreed, but no tip holds on this fibre for long.",
};

static NAILS_CHOICES: Choices = Choices {
    found: "The nails of the right heel have rusted through and the heel base is split along them.",
    discoveries: &[Discovery::HeelBaseSplit],
    shots: &[],
    ways: &[
        Way {
            title: "Both heels new in stacked leather",
            words: "Both, so that the pair stands level.",
            without: &[],
            with: &[work("Heel bases of stacked leather")],
        },
        Way {
            title: "Both heels new in rubber",
            words: "One sturdy block each, at less cost.",
            without: &[],
            with: &[work("Heel blocks of rubber")],
        },
    ],
    if_declined: "We nail the right heel once more as it is. It will wobble again.",
};
