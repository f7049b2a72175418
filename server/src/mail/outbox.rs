//! Letters as they are stored.

use shared_types::contact::Email;
use shared_types::id::{LetterId, TicketId};
use shared_types::letter::{LetterBrief, LetterState};
use shared_types::moment::Moment;
use shared_types::ticket::TicketNumber;
use sqlx::FromRow;

use crate::db::{Conn, DbError, all, corrupt, one, run};

/// A letter to be stored.
pub(crate) struct NewLetter<'a> {
    pub(crate) id: LetterId,
    pub(crate) ticket: TicketId,
    pub(crate) notice: &'static str,
    pub(crate) sender: &'a Email,
    pub(crate) recipient: &'a Email,
    pub(crate) subject: &'a str,
    pub(crate) message: &'a [u8],
}

/// Stores a letter, in the transaction of what causes it.
pub(crate) async fn add(
    conn: &mut Conn,
    letter: NewLetter<'_>,
    now: Moment,
) -> Result<(), DbError> {
    run!(
        conn,
        "insert into letter (letter_id, ticket_id, notice, sender, recipient, subject, message,
                             written_at, state, tries, next_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, 'waiting', 0, $8)",
        letter.id.to_string(),
        letter.ticket.to_string(),
        letter.notice,
        letter.sender.as_str(),
        letter.recipient.as_str(),
        letter.subject,
        letter.message,
        now.as_micros()
    )?;
    Ok(())
}

/// A letter that is to be delivered.
#[derive(Debug)]
pub(crate) struct DueLetter {
    pub(crate) id: LetterId,
    pub(crate) sender: Email,
    pub(crate) recipient: Email,
    pub(crate) message: Vec<u8>,
    pub(crate) written_at: Moment,
    pub(crate) tries: i64,
}

#[derive(FromRow)]
struct DueRow {
    letter_id: String,
    sender: String,
    recipient: String,
    message: Vec<u8>,
    written_at: i64,
    tries: i64,
}

/// Takes the letter that is due longest, and puts its next try off to `until`, so that no second
/// worker takes it meanwhile.
pub(crate) async fn take_due(
    conn: &mut Conn,
    now: Moment,
    until: Moment,
) -> Result<Option<DueLetter>, DbError> {
    let row = one!(
        conn,
        DueRow,
        "update letter
         set next_at = $2,
             tries = tries + 1
         where letter_id = (
             select letter_id
             from letter
             where state = 'waiting'
               and next_at <= $1
             order by next_at, letter_id
             limit 1
         )
           and state = 'waiting'
           and next_at <= $1
         returning letter_id, sender, recipient, message, written_at, tries",
        now.as_micros(),
        until.as_micros()
    )?;
    row.map(|row| {
        let read = || -> anyhow::Result<DueLetter> {
            Ok(DueLetter {
                id: row.letter_id.parse()?,
                sender: Email::parse(&row.sender)?,
                recipient: Email::parse(&row.recipient)?,
                message: row.message,
                written_at: Moment::from_micros(row.written_at),
                tries: row.tries,
            })
        };
        read().map_err(|error| corrupt("letter", &row.letter_id, error))
    })
    .transpose()
}

/// Where a letter is from now on: `waiting`, `sent`, `kept` or `given-up`.
pub(crate) async fn settle(
    conn: &mut Conn,
    id: LetterId,
    (state, at): (&'static str, Moment),
    trouble: Option<&str>,
) -> Result<(), DbError> {
    run!(
        conn,
        "update letter
         set state = $2,
             next_at = $3,
             trouble = $4
         where letter_id = $1",
        id.to_string(),
        state,
        at.as_micros(),
        trouble
    )?;
    Ok(())
}

/// Puts a letter that was given up back to be tried.
pub(crate) async fn retry(conn: &mut Conn, id: LetterId, now: Moment) -> Result<u64, DbError> {
    run!(
        conn,
        "update letter
         set state = 'waiting',
             next_at = $2,
             written_at = $2,
             tries = 0
         where letter_id = $1
           and state = 'given-up'",
        id.to_string(),
        now.as_micros()
    )
}

#[derive(FromRow)]
struct BriefRow {
    letter_id: String,
    ticket_id: String,
    number: i64,
    recipient: String,
    subject: String,
    written_at: i64,
    state: String,
    tries: i64,
    next_at: i64,
    trouble: Option<String>,
}

impl BriefRow {
    fn read(self) -> Result<LetterBrief, DbError> {
        let at = Moment::from_micros(self.next_at);
        let state = match self.state.as_str() {
            "waiting" => LetterState::Waiting {
                next_at: at,
                tries: u32::try_from(self.tries).unwrap_or(u32::MAX),
                trouble: self.trouble,
            },
            "sent" => LetterState::Sent { at },
            "kept" => LetterState::Kept { at },
            "given-up" => LetterState::GivenUp {
                at,
                trouble: self.trouble.unwrap_or_default(),
            },
            strange => {
                let strange = anyhow::anyhow!("no state {strange:?}");
                return Err(corrupt("letter", &self.letter_id, strange));
            }
        };
        let read = || -> anyhow::Result<LetterBrief> {
            Ok(LetterBrief {
                id: self.letter_id.parse()?,
                ticket: self.ticket_id.parse()?,
                number: TicketNumber::new(self.number.try_into()?),
                to: Email::parse(&self.recipient)?,
                subject: self.subject,
                written_at: Moment::from_micros(self.written_at),
                state,
            })
        };
        read().map_err(|error| corrupt("letter", &self.letter_id, error))
    }
}

/// The latest two hundred letters, newest first.
pub(crate) async fn latest(conn: &mut Conn) -> Result<Vec<LetterBrief>, DbError> {
    let rows = all!(
        conn,
        BriefRow,
        "select letter.letter_id, letter.ticket_id, ticket.number, letter.recipient,
                letter.subject, letter.written_at, letter.state, letter.tries, letter.next_at,
                letter.trouble
         from letter
         join ticket on ticket.ticket_id = letter.ticket_id
         order by letter.written_at desc, letter.letter_id desc
         limit 200"
    )?;
    rows.into_iter().map(BriefRow::read).collect()
}

/// Letters that were given up, or that a mail server has refused for now.
pub(crate) async fn troubled(conn: &mut Conn) -> Result<Vec<LetterBrief>, DbError> {
    let rows = all!(
        conn,
        BriefRow,
        "select letter.letter_id, letter.ticket_id, ticket.number, letter.recipient,
                letter.subject, letter.written_at, letter.state, letter.tries, letter.next_at,
                letter.trouble
         from letter
         join ticket on ticket.ticket_id = letter.ticket_id
         where letter.state = 'given-up'
            or (letter.state = 'waiting' and letter.trouble is not null)
         order by letter.written_at desc, letter.letter_id desc
         limit 50"
    )?;
    rows.into_iter().map(BriefRow::read).collect()
}

/// Letters on one ticket, newest first.
pub(crate) async fn of_ticket(
    conn: &mut Conn,
    ticket: TicketId,
) -> Result<Vec<LetterBrief>, DbError> {
    let rows = all!(
        conn,
        BriefRow,
        "select letter.letter_id, letter.ticket_id, ticket.number, letter.recipient,
                letter.subject, letter.written_at, letter.state, letter.tries, letter.next_at,
                letter.trouble
         from letter
         join ticket on ticket.ticket_id = letter.ticket_id
         where letter.ticket_id = $1
         order by letter.written_at desc, letter.letter_id desc",
        ticket.to_string()
    )?;
    rows.into_iter().map(BriefRow::read).collect()
}

#[derive(FromRow)]
struct MessageRow {
    message: Vec<u8>,
}

/// One letter with its finished bytes.
pub(crate) async fn get(
    conn: &mut Conn,
    id: LetterId,
) -> Result<Option<(LetterBrief, Vec<u8>)>, DbError> {
    let brief = one!(
        conn,
        BriefRow,
        "select letter.letter_id, letter.ticket_id, ticket.number, letter.recipient,
                letter.subject, letter.written_at, letter.state, letter.tries, letter.next_at,
                letter.trouble
         from letter
         join ticket on ticket.ticket_id = letter.ticket_id
         where letter.letter_id = $1",
        id.to_string()
    )?;
    let message = one!(
        conn,
        MessageRow,
        "select message
         from letter
         where letter_id = $1",
        id.to_string()
    )?;
    match (brief, message) {
        (Some(brief), Some(row)) => Ok(Some((brief.read()?, row.message))),
        _ => Ok(None),
    }
}
