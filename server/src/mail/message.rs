//! A letter as a message (RFC 5322): text and HTML with the same words, and what is attached.

use std::time::SystemTime;

use lettre::message::header::{ContentType, HeaderName, HeaderValue};
use lettre::message::{Attachment, Mailbox, MultiPart, SinglePart};
use lettre::{Address, Message};
use shared_types::contact::Email;
use shared_types::id::LetterId;
use shared_types::moment::Moment;

/// What goes into a message.
#[derive(Debug)]
pub(crate) struct Draft<'a> {
    /// Which letter; its Message-ID for ever.
    pub(crate) id: LetterId,
    /// The shop.
    pub(crate) from: (&'a str, &'a Email),
    /// The customer.
    pub(crate) to: (&'a str, &'a Email),
    /// One line.
    pub(crate) subject: &'a str,
    /// The text part.
    pub(crate) text: String,
    /// The HTML part.
    pub(crate) html: String,
    /// A calendar entry.
    pub(crate) calendar: Option<String>,
    /// When it was written.
    pub(crate) at: Moment,
}

/// Most characters of a name and of a subject: what a header line holds (RFC 5322 §2.1.1).
const NAME: usize = 100;
const SUBJECT: usize = 150;

/// The finished bytes. Every try sends these, so that two that arrive are seen to be one.
pub(crate) fn finish(draft: Draft<'_>) -> anyhow::Result<Vec<u8>> {
    let host = draft
        .from
        .1
        .as_str()
        .rsplit('@')
        .next()
        .unwrap_or("localhost");
    let written = SystemTime::UNIX_EPOCH
        + std::time::Duration::from_micros(u64::try_from(draft.at.as_micros())?);
    let parts = MultiPart::alternative_plain_html(draft.text, draft.html);
    let body = match draft.calendar {
        Some(calendar) => {
            let kind = ContentType::parse("text/calendar; charset=utf-8")?;
            let entry: SinglePart =
                Attachment::new("pickup.ics".to_owned()).body(calendar.into_bytes(), kind);
            MultiPart::mixed().multipart(parts).singlepart(entry)
        }
        None => parts,
    };
    let automatic = HeaderName::new_from_ascii_str("Auto-Submitted");
    let message = Message::builder()
        .from(mailbox(draft.from.0, draft.from.1)?)
        .to(mailbox(draft.to.0, draft.to.1)?)
        .subject(one_line(draft.subject, SUBJECT))
        .date(written)
        .message_id(Some(format!("<{}@{host}>", draft.id)))
        .raw_header(HeaderValue::new(automatic, "auto-generated".to_owned()))
        .multipart(body)?;
    Ok(message.formatted())
}

/// The text part of a finished message, and the names of what is attached, for staff to read.
pub(crate) fn read(message: &[u8]) -> (String, Vec<String>) {
    let Ok(parsed) = mailparse::parse_mail(message) else {
        return ("This letter can't be shown.".to_owned(), Vec::new());
    };
    let mut text = None;
    let mut attached = Vec::new();
    for part in parsed.parts() {
        let disposition = part.get_content_disposition();
        if let Some(name) = disposition.params.get("filename") {
            attached.push(name.clone());
        } else if part.ctype.mimetype == "text/plain" && text.is_none() {
            text = part.get_body().ok();
        }
    }
    (text.unwrap_or_default(), attached)
}

fn mailbox(name: &str, email: &Email) -> anyhow::Result<Mailbox> {
    let address: Address = email.as_str().parse()?;
    Ok(Mailbox::new(Some(one_line(name, NAME)), address))
}

/// A header's text: no control characters, no long blanks, not too long.
fn one_line(text: &str, most: usize) -> String {
    let cleaned: String = text
        .chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .take(most)
        .collect();
    cleaned.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An address that the counter may type must never be one that a letter can't be written to.
    #[test]
    fn every_address_that_is_accepted_can_be_written_to() {
        for address in [
            "ana@example.com",
            "ana.lópez@example.com",
            "o'neil+boots@mail.example.org",
            "anna@bücher.example",
            "{odd}~!#$%&*=?^_`|@example.com",
            "x@a-b.c-d.example",
            "名前@example.com",
        ] {
            let email = Email::parse(address).unwrap();
            let bytes = finish(Draft {
                id: LetterId::from_bytes([1; 16]),
                from: ("Juniper Row", &email),
                to: ("Ana \"the boot\" López <x>", &email),
                subject: "Ticket 1001",
                text: "Hello".to_owned(),
                html: "<p>Hello</p>".to_owned(),
                calendar: None,
                at: Moment::from_micros(1_780_000_000_000_000),
            })
            .unwrap_or_else(|error| panic!("{address}: {error}"));
            let parsed = mailparse::parse_mail(&bytes).unwrap();
            assert_eq!(read(&bytes).0.trim(), "Hello", "{address}");
            assert!(
                parsed
                    .headers
                    .iter()
                    .filter(|header| header.get_key() == "To")
                    .count()
                    == 1
            );
            super::super::envelope(&email, &email).unwrap();
        }
    }
}
