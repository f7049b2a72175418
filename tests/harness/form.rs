//! What is typed into a form and sent.

use anyhow::Result;
use reqwest::RequestBuilder;
use reqwest::multipart::{self, Part};
use shared_types::form::Fields;

/// A form as it is sent: plain, or in parts as soon as a picture goes with it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Form {
    fields: Vec<(String, String)>,
    pictures: Vec<(String, Vec<u8>)>,
}

impl Form {
    /// Nothing typed.
    pub(crate) fn new() -> Self {
        Self::default()
    }

    /// A form as a page shows it.
    pub(crate) fn shown(fields: &Fields) -> Result<Self> {
        Ok(Self {
            fields: serde_json::from_value(serde_json::to_value(fields)?)?,
            pictures: Vec::new(),
        })
    }

    /// Also this field; a name may come several times.
    pub(crate) fn with(mut self, name: impl Into<String>, value: impl Into<String>) -> Self {
        self.fields.push((name.into(), value.into()));
        self
    }

    /// This field instead of what stood there.
    pub(crate) fn set(mut self, name: impl Into<String>, value: impl Into<String>) -> Self {
        let name = name.into();
        self.fields.retain(|(known, _)| *known != name);
        self.with(name, value)
    }

    /// Also this picture.
    pub(crate) fn picture(mut self, name: impl Into<String>, bytes: Vec<u8>) -> Self {
        self.pictures.push((name.into(), bytes));
        self
    }

    pub(super) fn into_body(self, request: RequestBuilder) -> Result<RequestBuilder> {
        if self.pictures.is_empty() {
            return Ok(request.form(&self.fields));
        }
        let mut form = multipart::Form::new();
        for (name, value) in self.fields {
            form = form.text(name, value);
        }
        for (name, bytes) in self.pictures {
            let part = Part::bytes(bytes)
                .file_name("picture.jpg")
                .mime_str("image/jpeg")?;
            form = form.part(name, part);
        }
        Ok(request.multipart(form))
    }
}

/// A picture of this many pixels a side, as a telephone would send it; `shade` tells two apart.
pub(crate) fn picture(side: u32, shade: u8) -> Result<Vec<u8>> {
    use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
    let picture = RgbImage::from_fn(side, side, |x, y| {
        let part = |place: u32| u8::try_from(place * 255 / side).unwrap_or(u8::MAX);
        Rgb([part(x), part(y), shade])
    });
    let mut bytes = std::io::Cursor::new(Vec::new());
    DynamicImage::ImageRgb8(picture).write_to(&mut bytes, ImageFormat::Jpeg)?;
    Ok(bytes.into_inner())
}
