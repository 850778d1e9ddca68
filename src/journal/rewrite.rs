//! Writing the whole journal anew, so that what is left out is in none of its
//! files any more.
//!
//! The store keeps old pages for as long as it likes, so nothing is
//! overwritten: a second store is written beside the first and takes its place
//! in one step. Knows nothing of what is to go.

use std::sync::atomic::Ordering;

use super::contract::{Change, Parts};
use super::folder::Folder;
use super::sled_journal::Shared;
use super::store::{Store, Work};
use super::{Entry, JournalError, MessageKey, Seq, layout, record};
use crate::digest;

/// How many bytes of bodies are written in one step.
const STEP: usize = 1024 * 1024;

impl MessageKey {
    /// The key with its words gone: it still finds the entry that the message
    /// left, and nobody can read from it what the message was called.
    #[must_use]
    pub fn erased(&self) -> MessageKey {
        let id = digest::hex(&layout::index_key(self)[1..]);
        MessageKey { channel: layout::ERASED.to_owned(), id }
    }
}

impl Shared {
    /// Writes the journal anew; nobody reads or writes it meanwhile.
    pub(super) fn rewrite(
        &self,
        folder: &Folder,
        change: &mut Change<'_>,
        parts: &mut Parts<'_>,
    ) -> Result<(), JournalError> {
        let mut held = self.changing_store();
        let Some(store) = held.as_ref() else {
            return Err(self.queue.refusal().unwrap_or(JournalError::Closed));
        };
        let last = self.last.load(Ordering::Acquire);
        copy(folder, store, last, change, parts)?;
        // From here on the store that was open is not the one to go on with.
        let path = folder.store();
        *held = None;
        let opened = Store::let_go_of(&path)
            .and_then(|()| folder.adopt_draft())
            .and_then(|()| Store::open(folder));
        match opened {
            Ok(opened) => {
                *held = Some(opened);
                Ok(())
            }
            Err(error) => {
                for job in self.queue.fail(error.clone()) {
                    let _ = job.promise.send(Err(error.clone()));
                }
                Err(error)
            }
        }
    }
}

/// Writes a second store with the entries up to `last`, changed.
fn copy(
    folder: &Folder,
    from: &Store,
    last: u64,
    change: &mut Change<'_>,
    parts: &mut Parts<'_>,
) -> Result<(), JournalError> {
    let path = folder.new_draft()?;
    let draft = Store::begin(&path)?;
    let mut written = 0;
    while written < last {
        let mut work = Vec::new();
        let mut bytes = 0;
        let mut next = written + 1;
        while next <= last && bytes < STEP {
            for (seq, entry) in from.entries_from(next)? {
                // What lies beyond the last durable entry was never acknowledged.
                if seq.number() <= last {
                    let entry: Entry = change(seq, entry)?;
                    record::fits(&entry)?;
                    bytes += entry.body.len();
                    work.push(Work::Append(entry));
                }
                next = seq.number() + 1;
            }
        }
        draft.commit(written, &work.iter().collect::<Vec<_>>())?;
        written += work.len() as u64;
    }
    if last > 0 {
        let work = Work::Checkpoint { through: Seq::new(last), parts: parts()? };
        draft.commit(last, &[&work])?;
    }
    drop(draft);
    Store::let_go_of(&path)
}
