//! The outbox and who delivers it. Letters are written in the transaction of what causes them
//! ([`outbox`]) and delivered by a worker ([`worker`]); only here is the mail library known.

pub(crate) mod message;
pub(crate) mod outbox;
pub mod worker;

use std::time::Duration;

use lettre::address::Envelope;
use lettre::transport::smtp::AsyncSmtpTransport;
use lettre::{Address, AsyncTransport as _, Tokio1Executor};
use shared_types::contact::Email;

/// Who takes letters.
#[derive(Debug)]
pub enum Mailer {
    /// A mail server.
    Smtp(AsyncSmtpTransport<Tokio1Executor>),
    /// Nobody: letters are kept and shown to staff.
    Kept,
}

/// What a try to deliver came to.
#[derive(Debug)]
pub(crate) enum Delivery {
    /// The mail server took the letter.
    Taken,
    /// There is no mail server.
    Kept,
    /// It did not work now; it may have been taken all the same, so the next try sends the very
    /// same bytes.
    Later(String),
    /// The mail server will never take it.
    Never(String),
}

impl Mailer {
    /// How long one delivery may take. The library's own limit covers only the connection.
    const PATIENCE: Duration = Duration::from_mins(1);

    /// The mailer for this address of a mail server.
    pub fn new(smtp: Option<&str>) -> anyhow::Result<Self> {
        let Some(smtp) = smtp else {
            return Ok(Self::Kept);
        };
        let transport = AsyncSmtpTransport::<Tokio1Executor>::from_url(smtp)
            .map_err(|error| anyhow::anyhow!("--smtp can't be used: {error}"))?
            .timeout(Some(Duration::from_secs(20)))
            .build();
        Ok(Self::Smtp(transport))
    }

    /// Whether a mail server is set up.
    pub fn is_sending(&self) -> bool {
        matches!(self, Self::Smtp(_))
    }

    /// Tries to deliver a finished message.
    pub(crate) async fn deliver(&self, from: &Email, to: &Email, message: &[u8]) -> Delivery {
        let Self::Smtp(transport) = self else {
            return Delivery::Kept;
        };
        let envelope = match envelope(from, to) {
            Ok(envelope) => envelope,
            Err(error) => return Delivery::Never(error.to_string()),
        };
        let sending = transport.send_raw(&envelope, message);
        match tokio::time::timeout(Self::PATIENCE, sending).await {
            Ok(Ok(_)) => Delivery::Taken,
            Ok(Err(error)) if error.is_permanent() => Delivery::Never(error.to_string()),
            Ok(Err(error)) => Delivery::Later(error.to_string()),
            Err(_) => Delivery::Later("the mail server did not answer in time".to_owned()),
        }
    }
}

fn envelope(from: &Email, to: &Email) -> anyhow::Result<Envelope> {
    let address = |email: &Email| email.as_str().parse::<Address>();
    Ok(Envelope::new(Some(address(from)?), vec![address(to)?])?)
}
