//! `lastword verify`: walks every ticket's chain, and checks each sheet against its digest.

use shared_types::ticket::{Ticket, chain};

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
    for id in queries::all_tickets(&mut conn).await? {
        verdict.tickets += 1;
        let entries = match queries::entries(&mut conn, id).await {
            Ok(entries) => entries,
            Err(error) => {
                verdict.troubles.push(format!("ticket {id}: {error}"));
                continue;
            }
        };
        verdict.entries += entries.len();
        if let Err(broken) = chain::verify(id, &entries) {
            verdict.troubles.push(format!("ticket {id}: {broken}"));
        }
        match Ticket::replay(id, &entries) {
            Err(broken) => verdict.troubles.push(format!("ticket {id}: {broken}")),
            Ok(ticket) => {
                let revisions = ticket.pairs.iter().flat_map(|pair| &pair.revisions);
                for revision in revisions {
                    if revision.sheet.digest()? != revision.digest {
                        verdict.troubles.push(format!(
                            "ticket {}, revision {}: the sheet does not have the digest that was \
                             agreed",
                            ticket.number, revision.sheet.revision
                        ));
                    }
                }
            }
        }
    }
    Ok(verdict)
}
