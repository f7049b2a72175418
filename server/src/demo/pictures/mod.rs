//! The pictures of the demo, drawn here: pairs as they came over the counter, and what the bench
//! found in them.

mod boots;
mod details;
mod paint;
mod soles;

use boots::Look;
use paint::Canvas;

/// What a picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Shot {
    GreenBoots,
    ChestnutBoots,
    TanBoots,
    GreyBoots,
    BlackBrogues,
    OxbloodDerbies,
    RidingBoots,
    CourtShoes,
    Loafers,
    AnkleBoots,
    SplitWelt,
    FibreHeel,
    LooseRib,
    Pitch,
    ThinWelt,
    Crumbs,
    SoakedMidsole,
    TornCollar,
    Lift,
    BrokenZip,
    Swatches,
    ThinSole,
    LuggedSole,
    LeatherSole,
}

impl Shot {
    /// All of them.
    pub(super) const ALL: [Self; 24] = [
        Self::GreenBoots,
        Self::ChestnutBoots,
        Self::TanBoots,
        Self::GreyBoots,
        Self::BlackBrogues,
        Self::OxbloodDerbies,
        Self::RidingBoots,
        Self::CourtShoes,
        Self::Loafers,
        Self::AnkleBoots,
        Self::SplitWelt,
        Self::FibreHeel,
        Self::LooseRib,
        Self::Pitch,
        Self::ThinWelt,
        Self::Crumbs,
        Self::SoakedMidsole,
        Self::TornCollar,
        Self::Lift,
        Self::BrokenZip,
        Self::Swatches,
        Self::ThinSole,
        Self::LuggedSole,
        Self::LeatherSole,
    ];

    /// The picture as a JPEG file.
    pub(super) fn draw(self) -> anyhow::Result<Vec<u8>> {
        let mut canvas = Canvas::new()?;
        self.paint(&mut canvas);
        canvas.file()
    }

    fn paint(self, canvas: &mut Canvas) {
        match self {
            Self::GreenBoots => boots::pair(canvas, &Look::WORK.in_colour(0x2f_4a_3a)),
            Self::ChestnutBoots => boots::pair(canvas, &Look::PULL_ON.in_colour(0x6f_3a_22)),
            Self::TanBoots => boots::pair(canvas, &Look::SAFETY.in_colour(0xb9_83_47)),
            Self::GreyBoots => boots::pair(canvas, &Look::HIKING.in_colour(0x77_7b_7b)),
            Self::BlackBrogues => boots::pair(canvas, &Look::BROGUE.in_colour(0x2c_27_26)),
            Self::OxbloodDerbies => boots::pair(canvas, &Look::DERBY.in_colour(0x6b_1f_24)),
            Self::RidingBoots => boots::pair(canvas, &Look::RIDING.in_colour(0x2c_29_2b)),
            Self::CourtShoes => boots::pair(canvas, &Look::COURT.in_colour(0xe6_d9_bb)),
            Self::Loafers => boots::pair(canvas, &Look::LOAFER.in_colour(0x74_48_2c)),
            Self::AnkleBoots => boots::pair(canvas, &Look::ELASTIC.in_colour(0x5d_3b_28)),
            Self::SplitWelt => details::split_welt(canvas),
            Self::FibreHeel => details::fibre_heel(canvas),
            Self::LooseRib => soles::loose_rib(canvas),
            Self::Pitch => boots::pitch(canvas),
            Self::ThinWelt => details::thin_welt(canvas),
            Self::Crumbs => details::crumbs(canvas),
            Self::SoakedMidsole => details::soaked_midsole(canvas),
            Self::TornCollar => details::torn_collar(canvas),
            Self::Lift => details::lift(canvas),
            Self::BrokenZip => details::broken_zip(canvas),
            Self::Swatches => details::swatches(canvas),
            Self::ThinSole => soles::worn_through(canvas),
            Self::LuggedSole => soles::lugged(canvas),
            Self::LeatherSole => soles::leather(canvas),
        }
    }

    /// What it shows, in words.
    pub(super) const fn shows(self) -> &'static str {
        match self {
            Self::GreenBoots => "Dark green lace-up work boots from the side",
            Self::ChestnutBoots => "Chestnut pull-on boots from the side",
            Self::TanBoots => "Tan lace-up boots with a safety toe from the side",
            Self::GreyBoots => "Grey hiking boots from the side",
            Self::BlackBrogues => "Black brogues from the side",
            Self::OxbloodDerbies => "Oxblood derbies from the side",
            Self::RidingBoots => "Tall black riding boots from the side",
            Self::CourtShoes => "Ivory court shoes from the side",
            Self::Loafers => "Brown loafers from the side",
            Self::AnkleBoots => "Brown ankle boots with elastic sides",
            Self::SplitWelt => "The welt is split through at the ball; the thread has torn out",
            Self::FibreHeel => "The heel base of pressed fibre crumbles in layers",
            Self::LooseRib => "The rib has let go of the insole for 60 mm",
            Self::Pitch => "The new sole is thicker, so the heel base comes down to keep the line",
            Self::ThinWelt => "Two rows of old holes and a thin edge: no room for a third row",
            Self::Crumbs => "The foam between boot and sole has gone to crumbs",
            Self::SoakedMidsole => "The midsole is soaked and has come away from the boot",
            Self::TornCollar => "The collar is torn along its stitches at the left ankle",
            Self::Lift => "Both heels from behind: the left with its prescribed lift",
            Self::BrokenZip => "The zip has lost its teeth above the ankle",
            Self::Swatches => "Three trial coats beside the swatch",
            Self::ThinSole => "The sole is worn through under the ball",
            Self::LuggedSole => "The new lugged soles, trimmed and stitched",
            Self::LeatherSole => "The new leather soles, resting before they are stitched",
        }
    }
}
