//! `lastword verify`: walks every ticket's chain, and checks each sheet against its digest.

use shared_types::id::TicketId;
use shared_types::ticket::Ticket;
use shared_types::ticket::chain::{self, StoredEntry};

use super::queries;
use crate::db::Db;

/// What a check of all records came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Verdict {
    /// Tickets checked.
    pub tickets: usize,
    /// Entries checked.
    pub entries: usize,
    /// What is wrong, a sentence each.
    pub troubles: Vec<String>,
}

/// Checks every record.
pub async fn verify(db: &Db) -> anyhow::Result<Verdict> {
    let mut conn = db.read().await?;
    let mut verdict = Verdict::default();
    for (id, length, head) in queries::ends(&mut conn).await? {
        verdict.tickets += 1;
        let troubles = match queries::entries(&mut conn, id).await {
            Ok(entries) => {
                verdict.entries += entries.len();
                let ends = i64::try_from(entries.len())? == length
                    && entries.last().map(|entry| entry.link.to_string()) == head;
                let mut troubles = troubles_of(id, &entries)?;
                if !ends {
                    troubles.push(
                        "the record does not end where it ended when it was written".to_owned(),
                    );
                }
                troubles
            }
            Err(error) => vec![error.to_string()],
        };
        let told = troubles
            .into_iter()
            .map(|trouble| format!("ticket {id}: {trouble}"));
        verdict.troubles.extend(told);
    }
    Ok(verdict)
}

fn troubles_of(id: TicketId, entries: &[StoredEntry]) -> anyhow::Result<Vec<String>> {
    let mut troubles = Vec::new();
    if let Err(broken) = chain::verify(id, entries) {
        troubles.push(broken.to_string());
    }
    let ticket = match Ticket::replay(id, entries) {
        Ok(ticket) => ticket,
        Err(broken) => {
            troubles.push(broken.to_string());
            return Ok(troubles);
        }
    };
    for revision in ticket.pairs.iter().flat_map(|pair| &pair.revisions) {
        if revision.sheet.digest()? != revision.digest {
            troubles.push(format!(
                "revision {} of claim number {} does not have the digest that was agreed",
                revision.sheet.revision, ticket.number
            ));
        }
    }
    Ok(troubles)
}
