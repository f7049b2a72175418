//! The everyday tickets: what is in the shop besides the pairs worth a look, and what was
//! collected over two years. Made from small tables, the same in every demo.

use shared_types::scope::Side;
use shared_types::stage::Stage::{self, Finishing, Heeling, Ready, Soling, Structure, Teardown};
use shared_types::ticket::event::{Audience, PaymentMethod};
use shared_types::ticket::{Construction, Rating};

use super::pictures::Shot;
use super::story::{Act, Besides, Boots, Person, Step, Story, Sum, When, Work, work};

/// A ticket that owns its parts.
pub(super) struct Ordinary {
    id: [u8; 16],
    customer: Person,
    taken_in: When,
    boots: Boots,
    then: Vec<Step>,
}

impl Ordinary {
    /// As a story.
    pub(super) fn story(&self) -> Story<'_> {
        Story {
            id: self.id,
            customer: self.customer,
            taken_in: self.taken_in,
            pairs: std::slice::from_ref(&self.boots),
            then: &self.then,
        }
    }
}

/// Days as hundredths, counted back from the evening of the last whole open day.
#[derive(Clone, Copy)]
struct Back(usize);

impl Back {
    fn when(self) -> When {
        let day = self.0.div_ceil(100);
        let into = i32::try_from(day * 100 - self.0).unwrap_or(0);
        When::Day(day.saturating_sub(1), if day == 0 { 99 } else { into })
    }
}

/// How one ticket went: taken in then, by this job, so many of its stages reached, the last of
/// them then, and whether it was collected.
struct Course(usize, usize, usize, usize, bool);

/// What is here now, and what was collected in the last days.
const NOW: [Course; 28] = [
    Course(20, 0, 0, 0, false),
    Course(45, 5, 0, 0, false),
    Course(80, 2, 0, 0, false),
    Course(115, 1, 0, 0, false),
    Course(150, 9, 0, 0, false),
    Course(190, 3, 0, 0, false),
    Course(225, 7, 0, 0, false),
    Course(260, 4, 0, 0, false),
    Course(300, 8, 0, 0, false),
    Course(335, 1, 1, 60, false),
    Course(370, 2, 1, 85, false),
    Course(400, 11, 1, 30, false),
    Course(430, 4, 2, 70, false),
    Course(465, 11, 2, 95, false),
    Course(490, 3, 2, 45, false),
    Course(520, 1, 2, 40, false),
    Course(550, 2, 3, 20, false),
    Course(575, 10, 1, 65, false),
    Course(600, 1, 3, 35, false),
    Course(625, 6, 1, 55, false),
    Course(610, 12, 1, 75, false),
    Course(680, 3, 3, 25, false),
    Course(700, 0, 3, 40, false),
    Course(740, 2, 5, 60, false),
    Course(1180, 7, 2, 420, false),
    Course(780, 8, 4, 140, true),
    Course(810, 1, 5, 120, true),
    Course(840, 10, 3, 90, true),
];

/// How many tickets of the last weeks and of the time before the shop remembers.
const LATELY: usize = 64;
const BEFORE: usize = 50;

/// A ticket that was collected: as many as fill an ordinary week, and ever fewer before.
fn past(place: usize) -> Course {
    let taken_in = match place.checked_sub(LATELY) {
        None => 870 + place * 17,
        Some(before) => 1960 + before * before * 19,
    };
    let job = (place * 5 + place / JOBS.len()) % JOBS.len();
    let ready = taken_in - 720 - place % 5 * 20;
    Course(taken_in, job, JOBS[job].path.len(), ready, true)
}

/// A kind of job: the pair, the work, and the stages that it goes through.
struct Job {
    kind: &'static str,
    construction: Construction,
    rating: Rating,
    wrong: &'static str,
    work: &'static [Work],
    path: &'static [Stage],
    /// A note for the customer half-way.
    note: &'static str,
    shots: &'static [Shot],
}

const fn job(
    (kind, wrong): (&'static str, &'static str),
    construction: Construction,
    work: &'static [Work],
    path: &'static [Stage],
    (note, shots): (&'static str, &'static [Shot]),
) -> Job {
    Job {
        kind,
        construction,
        rating: Rating::Ordinary,
        wrong,
        work,
        path,
        note,
        shots,
    }
}

static JOBS: [Job; 13] = [
    job(
        ("ankle boots", "Heel tips gone."),
        Construction::Cemented,
        &[work("Top lifts"), work("Heel edges finished")],
        &[Heeling, Finishing, Ready],
        ("", &[]),
    ),
    job(
        ("cap-toe oxfords", "Soles and heels, leather again."),
        Construction::Welt270,
        &[
            work("Teardown"),
            work("Leather soles"),
            work("Soles stitched"),
            work("Top lifts"),
            work("Edges trimmed, dyed and waxed"),
        ],
        &[Teardown, Soling, Heeling, Finishing, Ready],
        (
            "All sound inside, so it stays with what was agreed.",
            &[Shot::LeatherSole],
        ),
    ),
    job(
        ("lace-up boots", "New rubber soles for the winter."),
        Construction::Welt360,
        &[
            work("Teardown"),
            work("Rubber soles with deep lugs"),
            work("Soles stitched"),
            work("Top lifts"),
            work("Edges trimmed, dyed and waxed"),
        ],
        &[Teardown, Soling, Heeling, Finishing, Ready],
        ("The new soles are on.", &[Shot::LuggedSole]),
    ),
    job(
        ("derbies", "Thin under the ball, heels are good."),
        Construction::Welt270,
        &[
            work("Teardown"),
            work("Half soles"),
            work("Soles stitched"),
            work("Edges trimmed, dyed and waxed"),
        ],
        &[Teardown, Soling, Finishing, Ready],
        ("", &[]),
    ),
    job(
        (
            "country boots",
            "Welt worn through at the toe; wants it done properly.",
        ),
        Construction::Welt270,
        &[
            work("Teardown"),
            work("New leather welt, heel to heel"),
            work("Cork filler"),
            work("Rubber soles"),
            work("Soles stitched"),
            work("Top lifts"),
            work("Edges trimmed, dyed and waxed"),
        ],
        &[Teardown, Structure, Soling, Heeling, Finishing, Ready],
        (
            "The old welt is off, and the rib under it is sound. The new one is being sewn.",
            &[],
        ),
    ),
    job(
        ("dress shoes", "Too narrow across the ball."),
        Construction::Cemented,
        &[work("Stretched")],
        &[Finishing, Ready],
        ("", &[]),
    ),
    job(
        ("tall boots", "Zip stuck halfway, slider lost."),
        Construction::Cemented,
        &[
            work("New zip").on(Side::Right),
            work("Cleaned, conditioned and polished"),
        ],
        &[Finishing, Ready],
        ("", &[]),
    ),
    job(
        ("walking shoes", "Heel linings worn through on both."),
        Construction::Cemented,
        &[work("New heel linings")],
        &[Finishing, Ready],
        ("", &[]),
    ),
    job(
        ("loafers", "New, please keep the soles dry."),
        Construction::BlakeStitched,
        &[
            work("Thin rubber over the soles"),
            work("Top lifts"),
            work("Heel edges finished"),
        ],
        &[Soling, Heeling, Finishing, Ready],
        ("", &[]),
    ),
    job(
        ("monk shoes", "Faded and dry, a salt line at the toe."),
        Construction::Welt270,
        &[work("Cleaned, conditioned and polished")],
        &[Finishing, Ready],
        ("", &[]),
    ),
    job(
        ("school shoes", "Heels down, and they pinch."),
        Construction::Cemented,
        &[
            work("Top lifts"),
            work("Heel edges finished"),
            work("Stretched"),
        ],
        &[Heeling, Finishing, Ready],
        ("", &[]),
    ),
    job(
        ("moc-toe boots", "Insole cracked, it pricks underfoot."),
        Construction::Welt360,
        &[
            work("Teardown"),
            work("Insole patched"),
            work("Cork filler"),
            work("Rubber soles"),
            work("Soles stitched"),
            work("Top lifts"),
            work("Edges trimmed, dyed and waxed"),
        ],
        &[Teardown, Structure, Soling, Heeling, Finishing, Ready],
        (
            "The patch under the ball is in and rests before the cork goes over it.",
            &[],
        ),
    ),
    job(
        (
            "high-top shoes",
            "Torn at the little toe, caught on a nail.",
        ),
        Construction::StitchDown,
        &[work("Upper patched").on(Side::Right)],
        &[Finishing, Ready],
        ("", &[]),
    ),
];

const COLOURS: [&str; 9] = [
    "black",
    "dark brown",
    "tan",
    "navy",
    "burgundy",
    "grey",
    "cognac",
    "olive",
    "walnut",
];

const SIZES: [&str; 11] = [
    "eu 43",
    "uk 8",
    "us-men 10.5",
    "eu 39",
    "",
    "us-women 8",
    "eu 41",
    "uk 6.5",
    "eu 45",
    "eu 37",
    "us-men 9",
];

const fn person(name: &'static str, email: &'static str, phone: &'static str) -> Person {
    Person { name, email, phone }
}

/// Customers who come for everyday things, some of them again and again.
const PEOPLE: [Person; 44] = [
    person("Ruth Ashdown", "ruth.ashdown@example.com", "555-0101"),
    person("Mateusz Wilk", "mateusz.wilk@example.org", "555-0102"),
    person("Hoa Trinh", "hoa.trinh@example.com", "555-0103"),
    person("Samir Haddad", "samir.haddad@example.com", "555-0104"),
    person("Greta Lindholm", "greta.lindholm@example.org", "555-0105"),
    person("Obinna Eze", "obinna.eze@example.com", ""),
    person(
        "Carmen Villaseñor",
        "carmen.villasenor@example.com",
        "555-0107",
    ),
    person("Pádraig Keane", "padraig.keane@example.org", "555-0108"),
    person(
        "Anjali Deshpande",
        "anjali.deshpande@example.com",
        "555-0109",
    ),
    person("Wendell Brooks", "", "555-0110"),
    person("Lucía Ferrer Prats", "lucia.ferrer@example.com", "555-0111"),
    person("Tevita Faleafa", "tevita.faleafa@example.org", "555-0112"),
    person("Zofia Dąbrowska", "zofia.dabrowska@example.com", "555-0113"),
    person("Jonas Beck", "jonas.beck@example.org", ""),
    person("Nadia Rahmani", "nadia.rahmani@example.com", "555-0115"),
    person(
        "Everett Longoria",
        "everett.longoria@example.com",
        "555-0116",
    ),
    person("Sunniva Haugen", "sunniva.haugen@example.org", "555-0117"),
    person("Ji-woo Park", "jiwoo.park@example.com", "555-0119"),
    person("Dolores Quintana", "", "555-0120"),
    person("Malik Thompson", "malik.thompson@example.com", "555-0122"),
    person("Aino Virtanen", "aino.virtanen@example.org", "555-0123"),
    person(
        "Beatriz Nogueira",
        "beatriz.nogueira@example.com",
        "555-0124",
    ),
    person("Chidi Anyanwu", "chidi.anyanwu@example.com", "555-0125"),
    person("Harriet Pell", "harriet.pell@example.org", "555-0126"),
    person("Ismael Ouattara", "ismael.ouattara@example.com", "555-0127"),
    person("Katalin Szabó", "katalin.szabo@example.org", "555-0128"),
    person("Leilani Kahale", "leilani.kahale@example.com", "555-0130"),
    person("Murray Teague", "", "555-0131"),
    person("Nguyễn Minh Anh", "minhanh.nguyen@example.com", "555-0132"),
    person("Olga Petrenko", "olga.petrenko@example.org", "555-0133"),
    person("Pilar Iturbe", "pilar.iturbe@example.com", "555-0135"),
    person("Rashid Khoury", "rashid.khoury@example.com", "555-0136"),
    person(
        "Saoirse Donnelly",
        "saoirse.donnelly@example.org",
        "555-0137",
    ),
    person("Temperance Gale", "temperance.gale@example.com", "555-0139"),
    person("Umut Yıldız", "umut.yildiz@example.com", "555-0140"),
    person(
        "Valentín Robledo",
        "valentin.robledo@example.org",
        "555-0141",
    ),
    person("Winona Redbird", "winona.redbird@example.com", "555-0142"),
    person("Xiomara Peña", "xiomara.pena@example.com", "555-0143"),
    person("Yusuf Adeyemi", "yusuf.adeyemi@example.org", ""),
    person("Zeynep Kaya", "zeynep.kaya@example.com", "555-0146"),
    person("Alder Finch", "alder.finch@example.com", "555-0148"),
    person("Bronwen Prosser", "bronwen.prosser@example.org", "555-0149"),
    person("Cosmin Munteanu", "cosmin.munteanu@example.com", "555-0150"),
    person("Delphine Arnaud", "delphine.arnaud@example.com", "555-0152"),
];

/// All everyday tickets.
pub(super) fn all() -> Vec<Ordinary> {
    let courses = NOW
        .into_iter()
        .chain((0..LATELY + BEFORE).map(past))
        .enumerate();
    courses
        .map(|(number, course)| ordinary(number, &course))
        .collect()
}

fn ordinary(number: usize, course: &Course) -> Ordinary {
    let Course(taken_in, job, reached, last, collected) = *course;
    let job = &JOBS[job];
    let mut id = *b"demo: everyday 0";
    id[15] = u8::try_from(number).unwrap_or(u8::MAX);
    Ordinary {
        id,
        customer: PEOPLE[number * 17 % PEOPLE.len()],
        taken_in: Back(taken_in).when(),
        boots: Boots {
            colour: COLOURS[number * 4 % COLOURS.len()],
            kind: job.kind,
            size: SIZES[number * 3 % SIZES.len()],
            construction: job.construction,
            rating: job.rating,
            wrong: job.wrong,
            work: job.work,
            terms: besides(number),
            photos: &[],
        },
        then: steps(number, job, (taken_in, reached, last), collected),
    }
}

/// Most is as priced; one pair goes before others, and one has something taken off.
const fn besides(number: usize) -> Besides {
    match number {
        6 => Besides::Rush,
        13 => Besides::Off("10 %", "member of the choir"),
        _ => Besides::Nothing,
    }
}

/// The stages reached, spread from intake to the last of them; a note half-way; the hand-over.
fn steps(
    number: usize,
    job: &Job,
    (taken_in, reached, last): (usize, usize, usize),
    collected: bool,
) -> Vec<Step> {
    let at = |place: usize| taken_in - (place + 1) * (taken_in - last) / reached;
    let mut steps = Vec::new();
    let methods = PaymentMethod::ALL;
    // Most leave the deposit that they are asked for.
    if number % 3 != 2 {
        let deposit = Act::Pay(Sum::Deposit, methods[number % 2]);
        steps.push(Step(Back(taken_in).when(), 0, deposit));
    }
    for (place, stage) in job.path.iter().take(reached).enumerate() {
        steps.push(Step(Back(at(place)).when(), 0, Act::Move(*stage)));
        if place == 1 && !job.note.is_empty() {
            let note = Act::Note(Audience::Customer, job.note, job.shots);
            steps.push(Step(Back(at(place)).when(), 0, note));
        }
    }
    if collected {
        let then = Back(last.saturating_sub(60 + number % 7 * 40)).when();
        steps.push(Step(then, 0, Act::Pay(Sum::Due, methods[number % 2])));
        steps.push(Step(then, 0, Act::HandOver));
    }
    steps
}
