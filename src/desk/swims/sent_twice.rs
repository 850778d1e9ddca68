//! The same result sent twice: a gateway that tries again under a new id, or a
//! thumb that does. It is kept once.

use jiff::SignedDuration;

use crate::desk::decision::view::View;
use crate::history::Ledger;

/// The same again within this is the same swim (ours: nobody swims a test or a
/// set over again, to the second, within ten minutes).
const REPEAT: SignedDuration = SignedDuration::from_mins(10);

impl View<'_> {
    /// True if an earlier message of the same sender, minutes ago, stored this.
    pub fn has_sent<T: PartialEq>(&self, records: &Ledger<T>, what: &T) -> bool {
        let now = self.now();
        let Some(member) = self.member() else { return false };
        let Some(&first) = member.undoable.iter().min() else { return false };
        let mine = |cause: u64| cause != self.cause && member.undoable.contains(&cause);
        // Few are of the sender's last messages: that is looked at first.
        records.as_of(now).any(|kept| {
            kept.cause >= first
                && mine(kept.cause)
                && now.duration_since(kept.at) <= REPEAT
                && kept.what == *what
        })
    }
}
