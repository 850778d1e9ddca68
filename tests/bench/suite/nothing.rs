//! A journal that costs nothing: what is appended is durable at once, nothing is
//! kept, and no message is a repeat.

use std::sync::atomic::{AtomicU64, Ordering};

use lapwing::journal::{
    Change, Checked, Entries, Entry, Journal, JournalError, MessageKey, Part, Placed, Seq,
    Snapshot, State, StreamId, Ticket, Tip,
};

#[derive(Default)]
pub struct Nothing(AtomicU64);

impl Journal for Nothing {
    fn append(&self, _: Entry) -> Ticket {
        Ticket::resolved(Seq::new(self.0.fetch_add(1, Ordering::Relaxed) + 1))
    }

    fn find(&self, _: &MessageKey) -> Result<Option<Placed>, JournalError> {
        Ok(None)
    }

    fn entry(&self, _: Seq) -> Result<Option<Placed>, JournalError> {
        Ok(None)
    }

    fn entries_of(&self, _: &StreamId, _: u64) -> Entries<'_> {
        Box::new(std::iter::empty())
    }

    fn streams(&self) -> Result<Vec<StreamId>, JournalError> {
        Ok(vec![])
    }

    fn tip(&self, _: &StreamId) -> Result<Option<Tip>, JournalError> {
        Ok(None)
    }

    fn last(&self) -> Option<Seq> {
        Some(self.0.load(Ordering::Relaxed)).filter(|last| *last > 0).map(Seq::new)
    }

    fn checkpoint(
        &self,
        _: &StreamId,
        _: Option<u64>,
        _: u64,
        _: Vec<Part>,
    ) -> Result<(), JournalError> {
        Ok(())
    }

    fn snapshot(&self, _: &StreamId) -> Result<Snapshot, JournalError> {
        Ok(Snapshot::default())
    }

    fn revise(&self, _: &[StreamId], _: &mut Change<'_>) -> Result<(), JournalError> {
        Ok(())
    }

    fn check(&self) -> Result<Checked, JournalError> {
        Ok(Checked::default())
    }

    fn take_over(&self, _: &[Placed]) -> Result<(), JournalError> {
        Ok(())
    }

    fn state(&self) -> State {
        State::Writable
    }

    fn reopen(&self) -> Result<(), JournalError> {
        Ok(())
    }

    fn close(&self) {}
}
