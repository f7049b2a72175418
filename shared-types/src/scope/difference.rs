//! What changed from one scope to the next, for the history of revisions and for a choice.

use crate::scope::{Scope, ScopeLine};

/// Lines that came, went and stayed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Difference<'a> {
    /// In the later scope only.
    pub added: Vec<&'a ScopeLine>,
    /// In the earlier scope only.
    pub removed: Vec<&'a ScopeLine>,
    /// In both, with other minutes, material, side or words: earlier, later.
    pub changed: Vec<(&'a ScopeLine, &'a ScopeLine)>,
    /// In both, the same.
    pub kept: Vec<&'a ScopeLine>,
}

/// Compares two scopes line by line; a line is the same work if service and title agree.
pub fn difference<'a>(earlier: &'a Scope, later: &'a Scope) -> Difference<'a> {
    let mut unmatched: Vec<&ScopeLine> = earlier.lines.iter().collect();
    let mut found = Difference::default();
    for line in &later.lines {
        let same = |old: &&ScopeLine| old.service == line.service && old.title == line.title;
        let Some(index) = unmatched
            .iter()
            .position(|old| *old == line)
            .or_else(|| unmatched.iter().position(same))
        else {
            found.added.push(line);
            continue;
        };
        let old = unmatched.remove(index);
        if old == line {
            found.kept.push(line);
        } else {
            found.changed.push((old, line));
        }
    }
    found.removed = unmatched;
    found
}
