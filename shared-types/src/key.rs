//! The secret in a customer's link.

use std::fmt;

use data_encoding::BASE64URL_NOPAD;

use crate::digest::Digest;

/// 256 bits in base64url, 43 characters. Whoever has it may open the ticket; it is shown in links
/// and nowhere else, and only its digest is stored.
#[derive(Clone, PartialEq, Eq)]
pub struct PortalKey([u8; 32]);

/// The text is not a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("this is not the key of a link")]
pub struct NotAKey;

impl PortalKey {
    /// Wraps 32 secret bytes.
    pub const fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// Reads the text in a link; a mail program's stray full stop or bracket behind it is no
    /// reason to send anybody away.
    pub fn parse(text: &str) -> Result<Self, NotAKey> {
        let text = text.trim_end_matches(['.', ',', ')', '>', '=']);
        let bytes = BASE64URL_NOPAD
            .decode(text.as_bytes())
            .map_err(|_| NotAKey)?;
        bytes.try_into().map(Self).map_err(|_| NotAKey)
    }

    /// What is stored of it.
    pub fn digest(&self) -> Digest {
        Digest::of(&self.0)
    }
}

impl fmt::Display for PortalKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&BASE64URL_NOPAD.encode(&self.0))
    }
}

impl fmt::Debug for PortalKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("PortalKey(…)")
    }
}
