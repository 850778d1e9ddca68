//! Reading everything once, to know that it can be read. Knows nothing of what
//! the bodies mean.

use serde::{Deserialize, Serialize};

use super::layout;
use super::store::guarded;
use super::{Journal, JournalError, SledJournal};

/// How many kinds of damage are told in full.
const TOLD: usize = 20;

/// What a check found.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Checked {
    /// How many entries were read whole.
    pub entries: u64,
    /// How long their bodies are together, in bytes.
    pub bytes: u64,
    /// How many parts the snapshot has.
    pub parts: usize,
    /// How many things are wrong; 0 in a sound journal.
    pub faults: u64,
    /// The first twenty of them, in words.
    pub damage: Vec<String>,
}

impl Checked {
    /// Whether nothing was found wrong.
    pub fn is_sound(&self) -> bool {
        self.faults == 0
    }

    fn fault(&mut self, what: String) {
        self.faults += 1;
        if self.damage.len() < TOLD {
            self.damage.push(what);
        }
    }
}

impl SledJournal {
    /// Reads the whole journal: that the places have no holes, that every
    /// entry is whole and fits its checksum, that every message's key leads to
    /// the first entry that bears it, that the snapshot is whole and no further
    /// than the log. The journal may be in use meanwhile.
    ///
    /// # Errors
    /// Only where nothing could be checked: what is damaged is in the answer.
    pub fn check(&self) -> Result<Checked, JournalError> {
        let mut checked = Checked::default();
        let last = self.last().map_or(0, |last| last.number());
        let mut next = 1;
        while next <= last {
            match self.shared.reading(|store| store.entries_from(next)) {
                Ok(entries) => {
                    for (seq, entry) in entries {
                        checked.entries += 1;
                        checked.bytes += entry.body.len() as u64;
                        next = seq.number() + 1;
                        let Some(key) = &entry.key else { continue };
                        match self.find(key) {
                            Ok(Some((first, _))) if first <= seq => {}
                            Ok(_) => checked.fault(format!(
                                "entry {seq}: its message's key does not lead to it"
                            )),
                            Err(error) => checked.fault(format!("entry {seq}: {error}")),
                        }
                    }
                }
                Err(error) => {
                    checked.fault(error.to_string());
                    next = self.record_after(next)?.unwrap_or(last + 1);
                }
            }
        }
        match self.snapshot() {
            Ok(snapshot) => {
                checked.parts = snapshot.parts.len();
                // Asked again: the log may have grown since, and the snapshot with it.
                let number = |place: Option<super::Seq>| place.map_or(0, super::Seq::number);
                if number(snapshot.through) > number(self.last()) {
                    checked.fault("the snapshot goes further than the log".into());
                }
            }
            Err(error) => checked.fault(error.to_string()),
        }
        Ok(checked)
    }

    /// The place at which the first record after `seq` begins.
    fn record_after(&self, seq: u64) -> Result<Option<u64>, JournalError> {
        self.shared.reading(|store| {
            guarded(|| {
                let from = layout::entry_key(seq.saturating_add(1), 0);
                let next = store
                    .tree
                    .range(&from[..]..=&layout::entry_key(u64::MAX, u32::MAX)[..])
                    .keys()
                    .next();
                Ok(next.transpose()?.and_then(|key| layout::entry_place(&key)).map(|(seq, _)| seq))
            })
        })
    }
}
