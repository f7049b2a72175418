//! The pictures of the demo, drawn here.

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
    /// The picture as a file.
    pub(super) fn draw(self) -> anyhow::Result<Vec<u8>> {
        let mut bytes = Vec::new();
        let shade = u8::try_from(self.shows().len()).unwrap_or(200);
        let ground = image::RgbImage::from_pixel(120, 90, image::Rgb([shade, 160, 120]));
        ground.write_to(
            &mut std::io::Cursor::new(&mut bytes),
            image::ImageFormat::Png,
        )?;
        Ok(bytes)
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
            Self::LuggedSole => "The new lugged sole, trimmed and stitched",
            Self::LeatherSole => "The new leather sole, resting before it is stitched",
        }
    }
}
