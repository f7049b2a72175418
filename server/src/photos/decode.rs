//! From the bytes that arrived to the picture that is kept.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder as _, ImageError, ImageFormat, ImageReader, Limits};
use shared_types::form::PictureProblem;

/// The longest side of what is kept, in pixels.
const LONGEST: u32 = 1600;

/// The longest side of what is looked at, in pixels.
const LIMIT: u32 = 12_000;

/// Reads JPEG, PNG or WebP by content, and writes it anew as JPEG.
pub(super) fn rewrite(bytes: &[u8]) -> Result<Vec<u8>, PictureProblem> {
    let format = image::guess_format(bytes).map_err(|_| PictureProblem::NotAPicture)?;
    let is_whole = if format == ImageFormat::Jpeg {
        jpeg_is_whole(bytes)
    } else if format == ImageFormat::Png {
        png_is_whole(bytes)
    } else if format == ImageFormat::WebP {
        webp_is_whole(bytes)
    } else {
        return Err(PictureProblem::NotAPicture);
    };
    if !is_whole {
        return Err(PictureProblem::Broken);
    }
    let mut reader = ImageReader::with_format(Cursor::new(bytes), format);
    let mut limits = Limits::default();
    limits.max_image_width = Some(LIMIT);
    limits.max_image_height = Some(LIMIT);
    limits.max_alloc = Some(512 * 1024 * 1024);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(problem)?;
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let mut picture = DynamicImage::from_decoder(decoder).map_err(problem)?;
    picture.apply_orientation(orientation);
    if picture.width().max(picture.height()) > LONGEST {
        picture = picture.thumbnail(LONGEST, LONGEST);
    }
    let mut written = Vec::new();
    let encoder = JpegEncoder::new_with_quality(&mut written, 82);
    flat(picture)
        .write_with_encoder(encoder)
        .map_err(|_| PictureProblem::NotAPicture)?;
    Ok(written)
}

/// Puts a picture with transparent parts on white: JPEG has none.
fn flat(picture: DynamicImage) -> DynamicImage {
    if !picture.color().has_alpha() {
        return DynamicImage::ImageRgb8(picture.into_rgb8());
    }
    let clear = picture.into_rgba8();
    let mut flat = image::RgbImage::new(clear.width(), clear.height());
    for (from, to) in clear.pixels().zip(flat.pixels_mut()) {
        let [red, green, blue, alpha] = from.0;
        let over_white = |value: u8| {
            let mixed = u32::from(value) * u32::from(alpha) + 255 * (255 - u32::from(alpha));
            u8::try_from(mixed / 255).unwrap_or(u8::MAX)
        };
        to.0 = [over_white(red), over_white(green), over_white(blue)];
    }
    DynamicImage::ImageRgb8(flat)
}

#[expect(
    clippy::needless_pass_by_value,
    reason = "it is given to map_err as it is"
)]
fn problem(error: ImageError) -> PictureProblem {
    match error {
        ImageError::Limits(_) => PictureProblem::TooManyPixels,
        ImageError::Decoding(_) | ImageError::IoError(_) => PictureProblem::Broken,
        ImageError::Encoding(_) | ImageError::Parameter(_) | ImageError::Unsupported(_) => {
            PictureProblem::NotAPicture
        }
    }
}

/// Whether a PNG has its last chunk (ISO/IEC 15948 §11.2.5), length and checksum included.
fn png_is_whole(bytes: &[u8]) -> bool {
    const LAST: &[u8] = b"\0\0\0\0IEND\xAE\x42\x60\x82";
    bytes.windows(LAST.len()).any(|part| part == LAST)
}

/// Whether a WebP is as long as its RIFF header says (RFC 9649 §2.3).
fn webp_is_whole(bytes: &[u8]) -> bool {
    let size = bytes.get(4..8).and_then(|size| size.try_into().ok());
    let size = size
        .map(u32::from_le_bytes)
        .and_then(|size| usize::try_from(size).ok());
    size.is_some_and(|size| bytes.len() >= size.saturating_add(8))
}

/// Whether a JPEG goes on to its end marker (ITU-T T.81 §B.1): a decoder would paint the missing
/// part of a cut-off one grey and say nothing.
fn jpeg_is_whole(bytes: &[u8]) -> bool {
    let mut at = 2;
    loop {
        // To the next marker: 0xFF, then neither a stuffed zero nor a restart nor a fill byte.
        let Some(found) = bytes.get(at..).and_then(|rest| {
            rest.windows(2)
                .position(|pair| pair[0] == 0xFF && !matches!(pair[1], 0x00 | 0xD0..=0xD7 | 0xFF))
        }) else {
            return false;
        };
        at += found;
        if bytes[at + 1] == 0xD9 {
            return true;
        }
        let Some(length) = bytes.get(at + 2..at + 4) else {
            return false;
        };
        at += 2 + usize::from(u16::from_be_bytes([length[0], length[1]]));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(format: ImageFormat) -> Vec<u8> {
        let mut image = image::RgbImage::new(320, 200);
        for (x, y, pixel) in image.enumerate_pixels_mut() {
            let value = u8::try_from((x * 7 + y * 13) % 256).unwrap();
            pixel.0 = [value, value.wrapping_mul(3), 90];
        }
        let mut bytes = Vec::new();
        let mut target = Cursor::new(&mut bytes);
        DynamicImage::ImageRgb8(image)
            .write_to(&mut target, format)
            .unwrap();
        bytes
    }

    #[test]
    fn whole_pictures_are_kept_and_cut_off_ones_are_not() {
        for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
            let whole = picture(format);
            let kept = rewrite(&whole).unwrap();
            assert_eq!(image::guess_format(&kept).unwrap(), ImageFormat::Jpeg);
            for part in [whole.len() - 2, whole.len() / 2, 40] {
                assert!(rewrite(&whole[..part]).is_err(), "{format:?} cut at {part}");
            }
        }
    }

    #[test]
    fn what_is_not_a_picture_is_refused_whatever_its_name() {
        let page = b"<html><script>alert(1)</script></html>".as_slice();
        let drawing = b"<svg xmlns='http://www.w3.org/2000/svg'/>".as_slice();
        let gif = b"GIF89a\x01\x00\x01\x00\x00\x00\x00;".as_slice();
        for bytes in [
            page,
            drawing,
            gif,
            b"".as_slice(),
            b"\xFF\xD8\xFF\xD9".as_slice(),
        ] {
            assert!(rewrite(bytes).is_err());
        }
    }

    #[test]
    fn what_follows_a_picture_is_left_behind() {
        let mut bytes = picture(ImageFormat::Png);
        bytes.extend_from_slice(b"<script>alert(1)</script>");
        let kept = rewrite(&bytes).unwrap();
        assert!(!kept.windows(8).any(|part| part == b"<script>"));
    }

    #[test]
    fn a_picture_of_too_many_pixels_is_refused_before_it_is_unpacked() {
        let mut bytes = Vec::new();
        let wide = DynamicImage::ImageLuma8(image::GrayImage::new(LIMIT + 1, 1));
        wide.write_to(&mut Cursor::new(&mut bytes), ImageFormat::Png)
            .unwrap();
        assert_eq!(rewrite(&bytes), Err(PictureProblem::TooManyPixels));
    }
}
