//! The pictures of the demo, drawn here.

/// What a picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Shot {}

impl Shot {
    /// The picture as a file.
    pub(super) fn draw(self) -> anyhow::Result<Vec<u8>> {
        match self {}
    }

    /// What it shows, in words.
    pub(super) fn shows(self) -> &'static str {
        match self {}
    }
}
