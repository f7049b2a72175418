//! What a page says, for tests that read it.

/// The page without the tags that only dress words: what stands between them is one sentence.
pub(crate) fn said(html: &str) -> String {
    let mut said = String::with_capacity(html.len());
    for (place, part) in html.split('<').enumerate() {
        let dresses = [
            "time", "/time", "span", "/span", "q", "/q", "b>", "/b>", "!",
        ];
        match part.split_once('>') {
            Some((_, words)) if dresses.iter().any(|tag| part.starts_with(tag)) => {
                said.push_str(words);
            }
            _ if place == 0 => said.push_str(part),
            _ => {
                said.push('<');
                said.push_str(part);
            }
        }
    }
    said.replace('\u{a0}', " ")
}
