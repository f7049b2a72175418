//! Supplies to begin with, and which service takes how much of them. Costs, wastes and markups are
//! invented and plausible; the owner sets them anew.

use shared_types::bench::take_off::TakeOff;
use shared_types::id::SupplyId;
use shared_types::money::{Currency, Money};
use shared_types::pricebook::Planned;
use shared_types::supply::SupplyUnit::{self, Gram, Metre, Pair, Piece, SquareDecimetre};
use shared_types::supply::kept::Supply;
use shared_types::supply::sold::HowMuch;
use shared_types::supply::{Percent, Quantity};
use shared_types::text::Line;

/// One row: its number, which never changes hands, name, unit, cost in minor units, waste.
struct Row(u8, &'static str, SupplyUnit, i64, u16);

/// What is added to every cost.
const MARKUP: Percent = Percent::new(50);

const SOLE_LEATHER: u8 = 1;
const RUBBER_SHEET: u8 = 2;
const LUGGED: u8 = 3;
const THIN_RUBBER: u8 = 4;
const UNITS: u8 = 5;
const MIDSOLE_SHEET: u8 = 6;
const INSOLE_LEATHER: u8 = 7;
const INSOLE_BOARD: u8 = 8;
const WELTING: u8 = 9;
const SYNTHETIC_WELTING: u8 = 10;
const LINEN: u8 = 11;
const SOLE_THREAD: u8 = 12;
const CORK: u8 = 13;
const SHANKS: u8 = 14;
const SHANK_LEATHER: u8 = 15;
const TOP_LIFTS: u8 = 16;
const LIFTS: u8 = 17;
const FIBREBOARD: u8 = 18;
const BLOCKS: u8 = 19;
const CEMENT: u8 = 20;
const ZIPS: u8 = 21;

const ROWS: [Row; 21] = [
    Row(SOLE_LEATHER, "Sole leather", SquareDecimetre, 430, 20),
    Row(RUBBER_SHEET, "Rubber sole sheet", SquareDecimetre, 400, 15),
    Row(LUGGED, "Rubber soles with deep lugs", Pair, 2_700, 0),
    Row(THIN_RUBBER, "Thin rubber sheet", SquareDecimetre, 240, 15),
    Row(UNITS, "Unit soles", Pair, 2_700, 0),
    Row(MIDSOLE_SHEET, "Midsole sheet", SquareDecimetre, 180, 20),
    Row(INSOLE_LEATHER, "Insole leather", SquareDecimetre, 520, 20),
    Row(INSOLE_BOARD, "Insole board", SquareDecimetre, 320, 20),
    Row(WELTING, "Leather welting", Metre, 1_000, 10),
    Row(SYNTHETIC_WELTING, "Synthetic welting", Metre, 480, 10),
    Row(LINEN, "Waxed linen thread", Metre, 16, 15),
    Row(SOLE_THREAD, "Sole thread", Metre, 30, 15),
    Row(CORK, "Cork sheet", SquareDecimetre, 64, 15),
    Row(SHANKS, "Steel shanks", Pair, 460, 0),
    Row(SHANK_LEATHER, "Shank leather, 40 mm wide", Metre, 780, 5),
    Row(TOP_LIFTS, "Top lifts", Pair, 560, 0),
    Row(LIFTS, "Leather lifts", Piece, 160, 0),
    Row(FIBREBOARD, "Fibreboard heel bases", Pair, 600, 0),
    Row(BLOCKS, "Rubber heel blocks", Pair, 1_100, 0),
    Row(CEMENT, "Contact cement", Gram, 3, 0),
    Row(ZIPS, "Zip", Piece, 460, 0),
];

/// Which service takes how much of which supply, for a pair.
const USES: [(u8, u8, HowMuch); 30] = [
    (5, INSOLE_LEATHER, HowMuch::TakeOff(TakeOff::Insoles)),
    (5, LINEN, HowMuch::TakeOff(TakeOff::InseamsByHand)),
    (7, INSOLE_BOARD, HowMuch::TakeOff(TakeOff::Insoles)),
    (9, WELTING, HowMuch::TakeOff(TakeOff::WeltHeelToHeel)),
    (9, LINEN, HowMuch::TakeOff(TakeOff::InseamsByHand)),
    (
        10,
        SYNTHETIC_WELTING,
        HowMuch::TakeOff(TakeOff::WeltHeelToHeel),
    ),
    (10, LINEN, HowMuch::TakeOff(TakeOff::InseamsByHand)),
    (11, WELTING, HowMuch::TakeOff(TakeOff::WeltAllRound)),
    (11, LINEN, HowMuch::TakeOff(TakeOff::InseamsByHand)),
    (12, SHANKS, one()),
    (13, SHANK_LEATHER, HowMuch::TakeOff(TakeOff::ShankCovers)),
    (14, CORK, HowMuch::TakeOff(TakeOff::Cork)),
    (15, MIDSOLE_SHEET, HowMuch::TakeOff(TakeOff::Outsoles)),
    (15, CEMENT, HowMuch::TakeOff(TakeOff::Cement)),
    (16, SOLE_LEATHER, HowMuch::TakeOff(TakeOff::Outsoles)),
    (16, CEMENT, HowMuch::TakeOff(TakeOff::Cement)),
    (17, RUBBER_SHEET, HowMuch::TakeOff(TakeOff::Outsoles)),
    (17, CEMENT, HowMuch::TakeOff(TakeOff::Cement)),
    (18, LUGGED, one()),
    (18, CEMENT, HowMuch::TakeOff(TakeOff::Cement)),
    (19, SOLE_LEATHER, HowMuch::TakeOff(TakeOff::HalfSoles)),
    (20, THIN_RUBBER, HowMuch::TakeOff(TakeOff::HalfSoles)),
    (21, SOLE_THREAD, HowMuch::TakeOff(TakeOff::OutsoleSeams)),
    (
        22,
        SOLE_THREAD,
        HowMuch::TakeOff(TakeOff::OutsoleSeamsByHand),
    ),
    (23, TOP_LIFTS, one()),
    (24, FIBREBOARD, one()),
    (25, LIFTS, HowMuch::TakeOff(TakeOff::Lifts)),
    (26, BLOCKS, one()),
    (41, UNITS, one()),
    (33, ZIPS, HowMuch::Fixed(Quantity::whole(2))),
];

const fn one() -> HowMuch {
    HowMuch::Fixed(Quantity::whole(1))
}

/// The id of a supply of the shipped book.
const fn id(number: u8) -> SupplyId {
    let mut bytes = *b"supply\x00\x00\x80\x00\x00\x00\x00\x00\x00\x00";
    bytes[15] = number;
    SupplyId::from_bytes(bytes)
}

/// What a shipped service takes.
pub(super) fn uses_of(service: u8) -> Vec<Planned> {
    let uses = USES.iter().filter(|(of, _, _)| *of == service);
    uses.map(|(_, supply, how_much)| Planned {
        supply: id(*supply),
        how_much: *how_much,
    })
    .collect()
}

/// The supplies, with their costs in this currency.
pub(super) fn supplies(currency: Currency) -> anyhow::Result<Vec<Supply>> {
    ROWS.iter()
        .map(|Row(number, name, unit, cost, waste)| {
            Ok(Supply {
                id: id(*number),
                name: Line::parse(name)?,
                unit: *unit,
                cost: Money::new(*cost, currency)?,
                waste: Percent::new(*waste),
                markup: MARKUP,
            })
        })
        .collect()
}
