//! The price book of a new shop: services to begin with, whose minutes and prices are invented and
//! plausible; the owner sets them anew.

mod supplies;

use anyhow::Context as _;
use shared_types::cement::Cement;
use shared_types::hands::{FINISHER, OUTSOLE_STITCHER};
use shared_types::minutes::Minutes;
use shared_types::money::{Currency, Money};
use shared_types::pricebook::BookEntry;
use shared_types::scope::rules::shipped;
use shared_types::stage::Stage::{self, Finishing, Heeling, Soling, Structure, Teardown};
use shared_types::supply::kept::Supply;
use shared_types::text::{Line, Words};

/// One row: its number, which never changes hands, where and how long, and what it is called.
struct Row {
    number: u8,
    stage: Stage,
    minutes: u32,
    rest: u32,
    material: i64,
    title: &'static str,
    about: &'static str,
}

const fn row(
    number: u8,
    stage: Stage,
    (minutes, rest, material): (u32, u32, i64),
    title: &'static str,
    about: &'static str,
) -> Row {
    Row {
        number,
        stage,
        minutes,
        rest,
        material,
        title,
        about,
    }
}

/// Bench minutes, clock minutes of rest after them, and in minor units the material for a pair that
/// no supply stands for.
const ROWS: [Row; 41] = [
    row(
        1,
        Teardown,
        (40, 0, 0),
        "Teardown",
        "We take heels and soles off to see how the pair is inside. Only then is it sure what new \
         soles can hold on to.",
    ),
    row(
        2,
        Finishing,
        (40, 120, 350),
        "Put back as it was",
        "We close the pair up again without further repair, as well as its state allows.",
    ),
    row(
        3,
        Structure,
        (30, 240, 200),
        "Rib reglued",
        "The rib is the ridge under the insole to which everything else is sewn. Where it has let \
         go, we glue it down again.",
    ),
    row(
        4,
        Structure,
        (90, 720, 950),
        "New rib all round",
        "A new ridge under the insole, for when the old one has let go along most of its length.",
    ),
    row(
        5,
        Structure,
        (320, 1440, 200),
        "Leather insole sewn by hand",
        "A thick leather insole with its own carved ridge takes the place of the glued one. The \
         strongest base there is, and the most work.",
    ),
    row(
        6,
        Structure,
        (35, 240, 600),
        "Insole patched",
        "A cracked insole gets a leather patch where the foot bends. It keeps going for a while.",
    ),
    row(
        7,
        Structure,
        (130, 720, 150),
        "New insole",
        "The base on which foot and shoe stand is made anew. The shoe comes apart further for it.",
    ),
    row(
        8,
        Structure,
        (45, 0, 300),
        "Welt spliced",
        "The welt is the strip to which the sole is sewn. A short damaged length of it is replaced; \
         the join stays visible.",
    ),
    row(
        9,
        Structure,
        (150, 0, 0),
        "New leather welt, heel to heel",
        "A new strip of leather round the front of the shoe, sewn by hand at the bench. The sole is \
         sewn to it, and so is the next one.",
    ),
    row(
        10,
        Structure,
        (130, 0, 0),
        "New synthetic welt, heel to heel",
        "The same strip in a moulded material: it costs less and may split again after some years.",
    ),
    row(
        11,
        Structure,
        (200, 0, 0),
        "New leather welt, all round",
        "A new strip of leather round the whole shoe, heel included, sewn by hand.",
    ),
    row(
        12,
        Structure,
        (18, 0, 0),
        "New shanks",
        "The stiff spring under the arch. A rusted or broken one lets the shoe sag and squeak.",
    ),
    row(
        13,
        Structure,
        (12, 0, 0),
        "Shank covers",
        "Leather over the spring under the arch, so that it neither squeaks nor prints through.",
    ),
    row(
        14,
        Structure,
        (20, 0, 0),
        "Cork filler",
        "Fresh cork fills the hollow under the foot, so that the new sole lies flat.",
    ),
    row(
        15,
        Soling,
        (30, 120, 0),
        "Midsoles",
        "A layer between the shoe and its sole, for thickness and warmth.",
    ),
    row(
        16,
        Soling,
        (70, 720, 0),
        "Leather soles",
        "New soles of tanned leather from toe to heel.",
    ),
    row(
        17,
        Soling,
        (60, 720, 0),
        "Rubber soles",
        "New rubber soles from toe to heel, for wet and rough ground.",
    ),
    row(
        18,
        Soling,
        (65, 720, 0),
        "Rubber soles with deep lugs",
        "Thick rubber soles with a coarse tread from toe to heel.",
    ),
    row(
        19,
        Soling,
        (45, 720, 0),
        "Half soles",
        "New soles from the toe to the arch; the rest of the sole stays.",
    ),
    row(
        20,
        Soling,
        (20, 120, 0),
        "Thin rubber over the soles",
        "A thin rubber sheet under the front keeps wet and wear from the sole.",
    ),
    row(
        21,
        Soling,
        (35, 0, 50),
        "Soles stitched",
        "The soles are sewn to the welt with two waxed threads.",
    ),
    row(
        22,
        Soling,
        (240, 0, 150),
        "Soles stitched by hand",
        "The soles are sewn on with awl and two threads, stitch for stitch, where a machine can't \
         reach.",
    ),
    row(
        23,
        Heeling,
        (15, 0, 0),
        "Top lifts",
        "The ground layer of the heel, which takes the wear.",
    ),
    row(
        24,
        Heeling,
        (35, 60, 0),
        "Heel bases of fibreboard",
        "The body of the heel from pressed fibre. It costs less than leather and dislikes the wet.",
    ),
    row(
        25,
        Heeling,
        (60, 60, 100),
        "Heel bases of stacked leather",
        "The body of the heel built from layers of leather. Each layer can be renewed by itself.",
    ),
    row(
        26,
        Heeling,
        (40, 60, 0),
        "Heel blocks of rubber",
        "The body of the heel in one piece of rubber: sturdy and plain.",
    ),
    row(
        27,
        Heeling,
        (50, 60, 1200),
        "Lift renewed as prescribed",
        "A raise on one shoe, rebuilt to the height that your clinician wrote down. We don't assess \
         legs, feet or gait.",
    ),
    row(
        28,
        Finishing,
        (65, 120, 400),
        "Edges trimmed, dyed and waxed",
        "The edges of sole and heel are cut to shape, smoothed, coloured and sealed.",
    ),
    row(
        29,
        Finishing,
        (15, 0, 150),
        "Heel edges finished",
        "The edges of the heels alone are smoothed and coloured.",
    ),
    row(
        30,
        Finishing,
        (45, 60, 700),
        "Upper patched",
        "A tear is closed with leather from inside and sewn.",
    ),
    row(
        31,
        Finishing,
        (80, 60, 1500),
        "Upper panel replaced",
        "A worn-out part of the upper is cut out and replaced with matching leather.",
    ),
    row(
        32,
        Finishing,
        (60, 720, 1200),
        "New heel linings",
        "New lining inside the heels, and the stiff piece behind it made firm again.",
    ),
    row(
        33,
        Finishing,
        (70, 0, 0),
        "New zip",
        "The old zip is cut out and a new one sewn in along the same line.",
    ),
    row(
        34,
        Finishing,
        (12, 1440, 0),
        "Stretched",
        "A day and a night on the stretcher, across or over the instep.",
    ),
    row(
        35,
        Finishing,
        (75, 1440, 1800),
        "Dyed to a swatch",
        "The leather is stripped and dyed in thin coats to the colour that you bring. Each coat must \
         dry.",
    ),
    row(
        36,
        Finishing,
        (30, 720, 300),
        "Cleaned, conditioned and polished",
        "The leather is cleaned, fed and polished, and rests over night before it goes home.",
    ),
    row(
        37,
        Teardown,
        (25, 3600, 300),
        "Dried slowly and treated inside",
        "A damp or mouldy shoe dries for some days away from any heater, and is cleaned and treated \
         inside, before anything is glued to it.",
    ),
    row(
        38,
        Structure,
        (25, 60, 150),
        "Heel seats plugged and renailed",
        "Rusted nails come out, their holes are plugged, and new nails hold the heel.",
    ),
    row(
        39,
        Structure,
        (50, 240, 700),
        "New heel seat pieces",
        "The leather on which the heel stands is renewed where rust has eaten it.",
    ),
    row(
        40,
        Finishing,
        (25, 60, 400),
        "Lining patched",
        "A leather patch covers the hole in the lining.",
    ),
    row(
        41,
        Soling,
        (75, 720, 0),
        "New unit soles",
        "A moulded sole is replaced as a whole. The new one may look a little different.",
    ),
];

/// What a new shop begins with.
pub(crate) struct Stock {
    /// Supplies.
    pub(crate) supplies: Vec<Supply>,
    /// Services that use them.
    pub(crate) services: Vec<BookEntry>,
    /// What an hour at the bench costs, if that is known.
    pub(crate) bench_hour: Option<Money>,
}

/// Supplies and services, with costs and materials in this currency.
pub(crate) fn stock(currency: Currency) -> anyhow::Result<Stock> {
    let services = ROWS
        .iter()
        .map(|row| row.service(currency).with_context(|| row.title));
    Ok(Stock {
        supplies: supplies::supplies(currency)?,
        services: services.collect::<anyhow::Result<_>>()?,
        bench_hour: None,
    })
}

impl Row {
    /// The machine that it needs.
    const fn station(&self) -> Option<&'static str> {
        match self.number {
            21 => Some(OUTSOLE_STITCHER),
            28 | 29 => Some(FINISHER),
            _ => None,
        }
    }

    /// Soles are laid while their cement is open: solvent cement, coated twice (common practice, no
    /// source; the owner follows the sheet of the maker).
    fn cement(&self) -> Option<Cement> {
        let joining = match self.number {
            15 | 20 => 10,
            16..=19 | 41 => 15,
            _ => return None,
        };
        let [dries, open, joining] = [20, 60, joining].map(Minutes::new);
        Cement::new(dries, open, joining).ok()
    }

    fn service(&self, currency: Currency) -> anyhow::Result<BookEntry> {
        Ok(BookEntry {
            id: shipped::service(self.number),
            title: Line::parse(self.title)?,
            about: Words::parse_optional(self.about)?,
            stage: self.stage,
            minutes: Minutes::new(self.minutes),
            rest: Minutes::new(self.rest),
            material: Money::new(self.material, currency)?,
            uses: supplies::uses_of(self.number),
            set_price: None,
            station: self.station().map(Line::parse).transpose()?,
            p90: None,
            cement: self.cement(),
        })
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use shared_types::bench::take_off::TakeOffs;
    use shared_types::supply::sold::HowMuch;
    use shared_types::ticket::Construction;

    use super::*;

    #[test]
    fn every_service_that_a_rule_names_is_in_the_book() {
        let services = stock(Currency::USD).unwrap().services;
        let known: BTreeSet<_> = services.iter().map(|service| service.id).collect();
        let rules = shipped::rules();
        for (id, rule) in &rules.rules {
            let named = rule.claim.services();
            assert!(
                named.is_subset(&known),
                "{id} names a service that is not there"
            );
        }
        assert_eq!(rules.check(&known), Ok(()));
    }

    #[test]
    fn every_row_is_a_service_of_its_own() {
        let services = stock(Currency::USD).unwrap().services;
        let ids: BTreeSet<_> = services.iter().map(|service| service.id).collect();
        let titles: BTreeSet<_> = services.iter().map(|service| &service.title).collect();
        assert_eq!((ids.len(), titles.len()), (ROWS.len(), ROWS.len()));
    }

    /// What a customer pays for a service's material stays about what the book asked before its
    /// services took supplies by quantity: within a sixth for a pair of a usual size.
    #[test]
    fn a_usual_pair_s_material_costs_about_what_it_did() {
        let before = [
            (5, 3_800),
            (7, 2_200),
            (9, 1_850),
            (10, 900),
            (11, 2_400),
            (12, 700),
            (13, 350),
            (14, 500),
            (15, 1_600),
            (16, 3_800),
            (17, 3_400),
            (18, 4_200),
            (19, 1_900),
            (20, 1_100),
            (21, 400),
            (22, 600),
            (23, 850),
            (24, 900),
            (25, 2_100),
            (26, 1_650),
            (33, 1_400),
            (41, 4_200),
        ];
        let stock = stock(Currency::USD).unwrap();
        let supplies = stock.supplies.iter().map(|one| (one.id, one.clone()));
        let supplies = supplies.collect();
        let usual = TakeOffs::of_size(None, Construction::Unknown);
        let mut off = Vec::new();
        for (number, before) in before {
            let id = shipped::service(number);
            let entry = stock.services.iter().find(|entry| entry.id == id).unwrap();
            let service = entry.offered(&supplies).unwrap().for_pair(&usual).unwrap();
            let uses = service.uses.iter().map(|used| used.amount.minor());
            let now = uses.sum::<i64>() + service.material.minor();
            if (now - before).abs() * 6 > before {
                off.push((number, before, now));
            }
        }
        assert_eq!(off, []);
    }

    #[test]
    fn every_quantity_is_counted_as_its_supply_is_sold() {
        let stock = stock(Currency::USD).unwrap();
        for entry in &stock.services {
            for planned in &entry.uses {
                let mut supplies = stock.supplies.iter();
                let supply = supplies.find(|supply| supply.id == planned.supply).unwrap();
                if let HowMuch::TakeOff(take_off) = planned.how_much {
                    assert_eq!(take_off.unit(), supply.unit, "{}", entry.title);
                }
            }
        }
    }
}
