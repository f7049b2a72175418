//! A letter's parts, set as text and as HTML from the same words.

use std::fmt::Write as _;

use shared_types::shop::Shop;

/// A part of a letter.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// A paragraph.
    Words(String),
    /// Names and values, such as a work and its price.
    Rows(Vec<(String, String)>),
    /// A link of ours: what it leads to, and the address.
    Link(String, String),
    /// What stands small at the end.
    Small(String),
}

/// A letter.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Letter {
    /// Its subject.
    pub(super) subject: String,
    /// The parts between greeting and signature.
    pub(super) parts: Vec<Part>,
    /// A calendar entry (RFC 5545).
    pub(super) calendar: Option<String>,
    /// How the customer is called.
    pub(super) greeting: String,
}

impl Letter {
    /// The text part.
    pub(super) fn text(&self, shop: &Shop) -> String {
        let mut text = format!("{},\n\n", self.greeting);
        for part in &self.parts {
            match part {
                Part::Words(words) | Part::Small(words) => text.push_str(words),
                Part::Rows(rows) => {
                    let rows = rows
                        .iter()
                        .map(|(name, value)| format!("  {name}: {value}"));
                    text.push_str(&rows.collect::<Vec<_>>().join("\n"));
                }
                Part::Link(label, address) => {
                    text.push_str(label);
                    text.push_str(":\n");
                    text.push_str(address);
                }
            }
            text.push_str("\n\n");
        }
        text.push_str(&signature(shop).join("\n"));
        text.push('\n');
        text
    }

    /// The HTML part: tables and styles in place, because mail programs know nothing else.
    pub(super) fn html(&self, shop: &Shop) -> String {
        let mut html = String::from(
            "<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\">\
             <meta name=\"color-scheme\" content=\"light dark\"><title>",
        );
        html.push_str(&escaped(&self.subject));
        html.push_str(
            "</title></head><body style=\"margin:0;padding:24px;background:#f3ebdc;color:#221913;\
             font:17px/1.5 Georgia,serif\"><table role=\"presentation\" align=\"center\" \
             style=\"max-width:560px;width:100%\"><tr><td>",
        );
        paragraph(&mut html, &format!("{},", self.greeting), "");
        for part in &self.parts {
            match part {
                Part::Words(words) => paragraph(&mut html, words, ""),
                Part::Small(words) => paragraph(&mut html, words, "font-size:14px;"),
                Part::Rows(rows) => table(&mut html, rows),
                Part::Link(label, address) => {
                    // Writing to a String can't fail.
                    let _ = write!(
                        html,
                        "<p style=\"margin:24px 0\"><a href=\"{}\" style=\"background:#6d1a22;\
                         color:#fcf7ec;padding:14px 22px;text-decoration:none;\
                         border-radius:4px;display:inline-block\">{}</a></p>",
                        escaped(address),
                        escaped(label)
                    );
                }
            }
        }
        paragraph(&mut html, &signature(shop).join("\n"), "color:#5b4c3f;");
        html.push_str("</td></tr></table></body></html>");
        html
    }
}

fn signature(shop: &Shop) -> Vec<String> {
    let mut lines = vec![shop.name.to_string(), shop.address.to_string()];
    lines.extend(shop.phone.as_ref().map(ToString::to_string));
    lines
}

fn paragraph(html: &mut String, words: &str, style: &str) {
    let words = escaped(words).replace('\n', "<br>");
    let _ = write!(html, "<p style=\"margin:0 0 16px;{style}\">{words}</p>");
}

fn table(html: &mut String, rows: &[(String, String)]) {
    html.push_str("<table style=\"width:100%;border-collapse:collapse;margin:0 0 16px\">");
    for (name, value) in rows {
        let _ = write!(
            html,
            "<tr><th scope=\"row\" style=\"text-align:left;font-weight:normal;padding:6px 12px 6px \
             0;border-bottom:1px solid #cdbb9d\">{}</th><td style=\"text-align:right;padding:6px \
             0;border-bottom:1px solid #cdbb9d;white-space:nowrap\">{}</td></tr>",
            escaped(name),
            escaped(value)
        );
    }
    html.push_str("</table>");
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}
