//! An answer, and what can be read on it.

use anyhow::{Context as _, Result, ensure};
use reqwest::Response;
use reqwest::header::HeaderMap;

/// An answer of the server.
#[derive(Clone, Debug)]
pub(crate) struct Page {
    pub(crate) status: u16,
    pub(crate) headers: HeaderMap,
    pub(crate) bytes: Vec<u8>,
    address: String,
}

impl Page {
    pub(super) async fn read(response: Response) -> Result<Self> {
        Ok(Self {
            status: response.status().as_u16(),
            headers: response.headers().clone(),
            address: response.url().path().to_owned(),
            bytes: response.bytes().await?.to_vec(),
        })
    }

    /// The page, if this is its status; else what it says instead.
    pub(crate) fn expects(self, status: u16) -> Result<Self> {
        ensure!(
            self.status == status,
            "{} answered {} and not {status}: {}",
            self.address,
            self.status,
            self.words()
        );
        Ok(self)
    }

    /// The text as it was sent.
    pub(crate) fn html(&self) -> String {
        String::from_utf8_lossy(&self.bytes).into_owned()
    }

    /// What a reader sees of it: no markup, single blanks.
    pub(crate) fn words(&self) -> String {
        let html = self.html();
        let mut words = String::new();
        let mut rest = html.as_str();
        while let Some(start) = rest.find('<') {
            words.push_str(&rest[..start]);
            let close = if rest[start..].starts_with("<!--") {
                "-->"
            } else {
                ">"
            };
            let end = rest[start..]
                .find(close)
                .map_or(rest.len(), |end| start + end + close.len());
            let tag = &rest[start..end];
            // A comment parts two pieces of one sentence; a tag parts two sentences.
            let is_inline = [
                "<!", "<b", "</b", "<time", "</time", "<span", "</span", "<a", "</a",
            ];
            if !is_inline.iter().any(|inline| tag.starts_with(inline)) {
                words.push(' ');
            }
            rest = &rest[end..];
        }
        words.push_str(rest);
        let words = [
            ("&lt;", "<"),
            ("&gt;", ">"),
            ("&quot;", "\""),
            ("&#39;", "'"),
            ("&#x27;", "'"),
            ("&amp;", "&"),
        ]
        .iter()
        .fold(words, |words, (code, letter)| words.replace(code, letter));
        words.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// Whether a reader finds these words on it.
    pub(crate) fn says(&self, words: &str) -> bool {
        self.words().contains(words)
    }

    /// Fails with the whole page if these words are not on it.
    pub(crate) fn must_say(&self, words: &str) -> Result<()> {
        ensure!(
            self.says(words),
            "{} does not say {words:?}: {}",
            self.address,
            self.words()
        );
        Ok(())
    }

    /// Fails if these words are on it.
    pub(crate) fn must_not_say(&self, words: &str) -> Result<()> {
        ensure!(
            !self.says(words),
            "{} says {words:?}: {}",
            self.address,
            self.words()
        );
        Ok(())
    }

    /// Where the answer leads, as a path.
    pub(crate) fn location(&self) -> Result<&str> {
        let location = self.headers.get("location").with_context(|| {
            format!(
                "{} answered {} and leads nowhere: {}",
                self.address,
                self.status,
                self.words()
            )
        })?;
        Ok(location.to_str()?)
    }

    /// A header, or nothing.
    pub(crate) fn header(&self, name: &str) -> &str {
        let header = self.headers.get(name);
        header.and_then(|header| header.to_str().ok()).unwrap_or("")
    }

    /// What stands in the first field of this name.
    pub(crate) fn value_of(&self, name: &str) -> Result<String> {
        let html = self.html();
        let wanted = format!(" name=\"{name}\"");
        let tag = html
            .split('<')
            .find(|tag| tag.contains(&wanted))
            .with_context(|| format!("{} has no field {name}", self.address))?;
        let value = tag
            .split(" value=\"")
            .nth(1)
            .and_then(|rest| rest.split('"').next());
        Ok(value.unwrap_or_default().to_owned())
    }

    /// The part of the first link after this beginning, up to the next slash or quote.
    pub(crate) fn after(&self, beginning: &str) -> Result<String> {
        let html = self.html();
        let rest = html.split(beginning).nth(1);
        let rest = rest.with_context(|| format!("{} has no {beginning}", self.address))?;
        let end = rest
            .find(['/', '"', '?', '<', '&', ' '])
            .unwrap_or(rest.len());
        Ok(rest[..end].to_owned())
    }
}
