//! SHA-256 digests, and the canonical JSON (RFC 8785) over which a record's digest is taken.

use std::fmt;
use std::str::FromStr;

use data_encoding::HEXLOWER;
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

/// A SHA-256 digest, written as 64 lower-case hex digits.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Digest([u8; 32]);

/// The text is not a digest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("this is not a SHA-256 digest in hex")]
pub struct NotADigest;

impl Digest {
    /// What a chain starts from: 32 zero bytes.
    pub const ZERO: Self = Self([0; 32]);

    /// The digest of these bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// The raw 32 bytes.
    pub const fn as_bytes(&self) -> &[u8; 32] {
        &self.0
    }

    /// The first 16 hex digits in groups of four, short enough to compare by eye.
    pub fn short(self) -> String {
        let hex = self.to_string();
        format!(
            "{} {} {} {}",
            &hex[..4],
            &hex[4..8],
            &hex[8..12],
            &hex[12..16]
        )
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&HEXLOWER.encode(&self.0))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Digest({self})")
    }
}

impl FromStr for Digest {
    type Err = NotADigest;

    fn from_str(text: &str) -> Result<Self, NotADigest> {
        let bytes = HEXLOWER.decode(text.as_bytes()).map_err(|_| NotADigest)?;
        bytes.try_into().map(Self).map_err(|_| NotADigest)
    }
}

impl From<Digest> for String {
    fn from(digest: Digest) -> Self {
        digest.to_string()
    }
}

impl TryFrom<String> for Digest {
    type Error = NotADigest;

    fn try_from(text: String) -> Result<Self, NotADigest> {
        text.parse()
    }
}

/// The canonical JSON of a value, per RFC 8785.
///
/// Our records hold only objects, arrays, text, booleans and whole numbers below 2^53, so it
/// cannot fail for them; the error is for values that are none of these.
pub fn canonical_json<T: Serialize>(value: &T) -> Result<String, serde_json::Error> {
    serde_json_canonicalizer::to_string(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST FIPS 180-4's example of a one-block message, "abc".
    #[test]
    fn the_digest_is_sha_256() {
        assert_eq!(
            Digest::of(b"abc").to_string(),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
    }

    /// The example of RFC 8785 §3.2.2 and §3.2.3 (figure 1 and its canonical form), from memory
    /// in the part of its strings and key order.
    #[test]
    fn canonical_json_is_that_of_rfc_8785() {
        let value: serde_json::Value = serde_json::from_str(
            r#"{
              "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
              "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
              "literals": [null, true, false]
            }"#,
        )
        .unwrap();
        let expected = concat!(
            r#"{"literals":[null,true,false],"#,
            r#""numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"#,
            r#""string":"€$\u000f\nA'B\"\\\\\"/"}"#
        );
        assert_eq!(canonical_json(&value).unwrap(), expected);
    }
}
