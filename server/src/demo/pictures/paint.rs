//! A small painter: shapes written as path data, filled, stroked or stitched on a bench of paper.

use std::io::Cursor;
use std::sync::LazyLock;

use anyhow::Context as _;
use image::DynamicImage;
use image::codecs::jpeg::JpegEncoder;
use tiny_skia::{
    Color, FillRule, FilterQuality, GradientStop, LineCap, LineJoin, LinearGradient, Mask, Paint,
    Path, PathBuilder, Pattern, Pixmap, Point, RadialGradient, Shader, SpreadMode, Stroke,
    StrokeDash, Transform,
};

const WIDTH: u32 = 1200;
const HEIGHT: u32 = 900;

/// The shop's palette, as red, green, blue.
pub(super) const PAPER: u32 = 0xf4_ec_df;
pub(super) const INK: u32 = 0x23_1a_15;
pub(super) const OXBLOOD: u32 = 0x6b_1f_24;
pub(super) const OCHRE: u32 = 0xd0_9a_3c;
pub(super) const VERDIGRIS: u32 = 0x4f_7d_6b;
pub(super) const LEATHER: u32 = 0xb5_7f_4c;
pub(super) const RUBBER: u32 = 0x35_31_2f;
pub(super) const STEEL: u32 = 0xb9_bb_b8;

/// What a shape is painted with.
#[derive(Clone, Copy)]
pub(super) enum Ink {
    /// One colour.
    Flat(u32),
    /// One colour with so much of 255 of it.
    Thin(u32, u8),
    /// From the first colour at the first height to the second at the second.
    Down((i16, u32), (i16, u32)),
    /// The same from left to right.
    Across((i16, u32), (i16, u32)),
    /// A soft spot: its middle, how far it reaches, its colour, and how much of it.
    Spot((i16, i16), i16, u32, u8),
}

/// A sheet to paint on.
pub(super) struct Canvas {
    pixels: Pixmap,
    clip: Option<Mask>,
    place: Transform,
}

impl Canvas {
    /// The bench: warm paper, lit from the upper left. It is painted once.
    pub(super) fn new() -> anyhow::Result<Self> {
        static BENCH: LazyLock<Option<Pixmap>> = LazyLock::new(|| {
            let mut canvas = Canvas::on(Pixmap::new(WIDTH, HEIGHT)?);
            canvas.fill(Ink::Down((0, PAPER), (900, 0xdd_cc_b2)), SHEET);
            canvas.fill(Ink::Spot((420, 260), 900, 0xff_fa_f0, 190), SHEET);
            Some(canvas.pixels)
        });
        BENCH.clone().map(Self::on).context("no room for a picture")
    }

    fn on(pixels: Pixmap) -> Self {
        Self {
            pixels,
            clip: None,
            place: Transform::identity(),
        }
    }

    /// Moves and stretches all that is painted from here on, in hundredths.
    #[expect(clippy::float_arithmetic, reason = "shapes are stretched by fractions")]
    pub(super) fn place(&mut self, (x, y): (i16, i16), (wide, high): (i16, i16)) {
        let (wide, high) = (f32::from(wide) / 100.0, f32::from(high) / 100.0);
        let (x, y) = (f32::from(x), f32::from(y));
        self.place = Transform::from_row(wide, 0.0, 0.0, high, x, y);
    }

    /// Turns it by degrees round a point besides.
    pub(super) fn turn(&mut self, degrees: i16, (x, y): (i16, i16)) {
        let (degrees, x, y) = (f32::from(degrees), f32::from(x), f32::from(y));
        self.place = self
            .place
            .pre_concat(Transform::from_rotate_at(degrees, x, y));
    }

    /// Paints only within this shape, until [`Canvas::everywhere`].
    pub(super) fn within(&mut self, shape: &str) {
        let mask = Mask::new(WIDTH, HEIGHT)
            .zip(path(shape))
            .map(|(mut mask, path)| {
                mask.fill_path(&path, FillRule::Winding, true, self.place);
                mask
            });
        self.clip = mask;
    }

    /// Paints on the whole sheet again.
    pub(super) fn everywhere(&mut self) {
        self.clip = None;
    }

    /// Fills a shape.
    pub(super) fn fill(&mut self, ink: Ink, shape: &str) {
        if let Some(path) = path(shape) {
            let paint = paint(ink);
            let clip = self.clip.as_ref();
            self.pixels
                .fill_path(&path, &paint, FillRule::Winding, self.place, clip);
        }
    }

    /// Draws a line of this width.
    pub(super) fn line(&mut self, ink: Ink, width: i16, shape: &str) {
        self.stroke(ink, width, None, shape);
    }

    /// Sews along a line: stitches of this length, and as much between them.
    pub(super) fn sew(&mut self, colour: u32, width: i16, (stitch, gap): (i16, i16), shape: &str) {
        let pattern = vec![f32::from(stitch), f32::from(gap)];
        let shade = StrokeDash::new(pattern.clone(), 0.0);
        self.stroke(Ink::Thin(INK, 90), width + 3, shade, shape);
        self.stroke(
            Ink::Flat(colour),
            width,
            StrokeDash::new(pattern, 0.0),
            shape,
        );
    }

    /// Draws a broken line, without the shade of a thread.
    pub(super) fn dash(&mut self, colour: u32, width: i16, (on, off): (i16, i16), shape: &str) {
        let pattern = StrokeDash::new(vec![f32::from(on), f32::from(off)], 0.0);
        self.stroke(Ink::Flat(colour), width, pattern, shape);
    }

    fn stroke(&mut self, ink: Ink, width: i16, dash: Option<StrokeDash>, shape: &str) {
        let stroke = Stroke {
            width: f32::from(width),
            line_cap: LineCap::Round,
            line_join: LineJoin::Round,
            dash,
            ..Stroke::default()
        };
        if let Some(path) = path(shape) {
            let clip = self.clip.as_ref();
            self.pixels
                .stroke_path(&path, &paint(ink), &stroke, self.place, clip);
        }
    }

    /// Lays a soft shadow under a shape.
    pub(super) fn shadow(&mut self, shape: &str) {
        for width in [70, 54, 40, 28, 18, 10] {
            self.line(Ink::Thin(0x3a_24_10, 13), width, shape);
        }
        self.fill(Ink::Thin(0x3a_24_10, 70), shape);
    }

    /// Darkens a shape towards its edge, so that it looks round.
    pub(super) fn round(&mut self, shape: &str) {
        self.within(shape);
        for width in [64, 46, 30, 16] {
            self.line(Ink::Thin(INK, 20), width, shape);
        }
        self.everywhere();
    }

    /// Rings what the picture is about, as with a piece of chalk.
    pub(super) fn ring(&mut self, (x, y): (i16, i16), (wide, high): (i16, i16)) {
        let ring = oval((x, y), (wide, high));
        self.line(Ink::Thin(0x3a_24_10, 60), 15, &ring);
        self.line(Ink::Flat(0xfb_f6_ea), 9, &ring);
    }

    /// The picture as a JPEG file, with a little grain.
    pub(super) fn file(mut self) -> anyhow::Result<Vec<u8>> {
        let grain = grain()?;
        let (spread, still) = (SpreadMode::Repeat, Transform::identity());
        let paint = Paint {
            shader: Pattern::new(grain.as_ref(), spread, FilterQuality::Nearest, 1.0, still),
            ..Paint::default()
        };
        let sheet = path(SHEET).context("the sheet is a shape")?;
        self.pixels
            .fill_path(&sheet, &paint, FillRule::Winding, still, None);
        let picture = image::RgbaImage::from_raw(WIDTH, HEIGHT, self.pixels.take());
        let picture = DynamicImage::from(picture.context("a picture of this size")?).into_rgb8();
        let mut file = Vec::new();
        let encoder = JpegEncoder::new_with_quality(Cursor::new(&mut file), 92);
        picture.write_with_encoder(encoder)?;
        Ok(file)
    }
}

/// A tile of dark dust, thinly strewn.
fn grain() -> anyhow::Result<Pixmap> {
    let mut tile = Pixmap::new(128, 128).context("no room for a tile")?;
    let mut dust = Dust::new();
    for pixel in tile.pixels_mut() {
        let [_, much] = dust.below(11).to_be_bytes();
        *pixel = Color::from_rgba8(40, 24, 10, much)
            .premultiply()
            .to_color_u8();
    }
    Ok(tile)
}

/// Numbers without a pattern, the same each time (xorshift).
pub(super) struct Dust(u32);

impl Dust {
    pub(super) const fn new() -> Self {
        Self(0x2545_f491)
    }

    /// The next number from 0 to below `limit`.
    pub(super) fn below(&mut self, limit: i16) -> i16 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 17;
        self.0 ^= self.0 << 5;
        let [high, low, ..] = (self.0 >> 1).to_be_bytes();
        i16::from_be_bytes([high, low]) % limit.max(1)
    }
}

/// The whole sheet.
pub(super) const SHEET: &str = "M 0 0 L 1200 0 L 1200 900 L 0 900 Z";

/// An oval by its middle and its half axes.
pub(super) fn oval((x, y): (i16, i16), (wide, high): (i16, i16)) -> String {
    // Four curves; 0.5523 of the half axis brings each within 0.03 % of the oval.
    let (kx, ky) = (wide / 9 * 5, high / 9 * 5);
    let (left, right, top, bottom) = (x - wide, x + wide, y - high, y + high);
    format!(
        "M {left} {y} C {left} {} {} {top} {x} {top} C {} {top} {right} {} {right} {y} \
         C {right} {} {} {bottom} {x} {bottom} C {} {bottom} {left} {} {left} {y} Z",
        y - ky,
        x - kx,
        x + kx,
        y - ky,
        y + ky,
        x + kx,
        x - kx,
        y + ky,
    )
}

/// A rectangle by its upper left corner and its size.
pub(super) fn block((x, y): (i16, i16), (wide, high): (i16, i16)) -> String {
    let (right, bottom) = (x + wide, y + high);
    format!("M {x} {y} L {right} {y} L {right} {bottom} L {x} {bottom} Z")
}

/// Reads path data: `M`, `L`, `C` and `Z` with absolute numbers, everything apart by spaces.
fn path(shape: &str) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let mut letter = "";
    let mut numbers: Vec<f32> = Vec::new();
    for token in shape.split_whitespace() {
        match token.parse() {
            Ok(number) => numbers.push(number),
            Err(_) => letter = token,
        }
        match (letter, numbers.as_slice()) {
            ("M", &[x, y]) => builder.move_to(x, y),
            ("L", &[x, y]) => builder.line_to(x, y),
            ("C", &[ax, ay, bx, by, x, y]) => builder.cubic_to(ax, ay, bx, by, x, y),
            ("Z", _) => builder.close(),
            _ => continue,
        }
        numbers.clear();
    }
    builder.finish()
}

fn paint(ink: Ink) -> Paint<'static> {
    let shader = match ink {
        Ink::Flat(colour) => Some(Shader::SolidColor(opaque(colour, 255))),
        Ink::Thin(colour, much) => Some(Shader::SolidColor(opaque(colour, much))),
        Ink::Down((top, above), (bottom, below)) => {
            let line = (
                Point::from_xy(0.0, f32::from(top)),
                Point::from_xy(0.0, f32::from(bottom)),
            );
            fade(line, (above, below))
        }
        Ink::Across((left, first), (right, last)) => {
            let line = (
                Point::from_xy(f32::from(left), 0.0),
                Point::from_xy(f32::from(right), 0.0),
            );
            fade(line, (first, last))
        }
        Ink::Spot((x, y), reach, colour, much) => {
            let middle = Point::from_xy(f32::from(x), f32::from(y));
            let stops = stops(opaque(colour, much), opaque(colour, 0));
            let (spread, still) = (SpreadMode::Pad, Transform::identity());
            RadialGradient::new(middle, 0.0, middle, f32::from(reach), stops, spread, still)
        }
    };
    Paint {
        shader: shader.unwrap_or(Shader::SolidColor(Color::TRANSPARENT)),
        ..Paint::default()
    }
}

fn fade((from, to): (Point, Point), (first, last): (u32, u32)) -> Option<Shader<'static>> {
    let stops = stops(opaque(first, 255), opaque(last, 255));
    LinearGradient::new(from, to, stops, SpreadMode::Pad, Transform::identity())
}

fn stops(first: Color, last: Color) -> Vec<GradientStop> {
    vec![GradientStop::new(0.0, first), GradientStop::new(1.0, last)]
}

fn opaque(colour: u32, much: u8) -> Color {
    let [_, red, green, blue] = colour.to_be_bytes();
    Color::from_rgba8(red, green, blue, much)
}

/// A colour with so much of 255 of another in it.
pub(super) fn mixed(colour: u32, other: u32, much: i16) -> u32 {
    let much = u32::from(much.clamp(0, 255).unsigned_abs());
    let part = |shift: u32| {
        let (one, two) = ((colour >> shift) & 255, (other >> shift) & 255);
        ((one * (255 - much) + two * much) / 255) << shift
    };
    part(16) | part(8) | part(0)
}
