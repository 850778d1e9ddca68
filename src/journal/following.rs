//! What a journal that several processes write to asks of whoever appends: on what an
//! entry was decided, and that what others add is folded as it comes. Knows no store.

use std::hash::{DefaultHasher, Hash, Hasher};

use super::{JournalError, Placed};

/// Something that entries change and that others stand on: a squad, a person, a message's
/// id. A number made of its name, the same in all of one process. Two names may share one:
/// then something is decided again that need not have been.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Topic(u64);

impl Topic {
    /// The topic of this name, among those of its kind.
    pub fn of(kind: &str, name: impl Hash) -> Topic {
        let mut hasher = DefaultHasher::new();
        (kind, name).hash(&mut hasher);
        Topic(hasher.finish())
    }
}

/// What an entry was decided on.
#[derive(Debug, Clone, Default)]
pub struct Basis {
    /// What it stands on, each as it was known at this place of the log.
    pub on: Vec<(Topic, u64)>,
    /// What it changes.
    pub changes: Vec<Topic>,
}

/// Whoever folds a log that others add to.
pub trait Follower: Send + Sync {
    /// The place up to which it has folded the log.
    fn through(&self) -> u64;

    /// What an entry changes.
    fn changes(&self, placed: &Placed) -> Vec<Topic>;

    /// Folds entries that are durable, own ones and others', in the order of the log and
    /// without holes from [`through`](Self::through) on; some of those before that, too.
    ///
    /// # Errors
    /// One can't be read: nothing more is taken.
    fn take_in(&self, entries: Vec<Placed>) -> Result<(), JournalError>;

    /// Throws away what is folded and reads it anew: something was erased, or the log is
    /// not the one that it was.
    ///
    /// # Errors
    /// It can't be read.
    fn begin_anew(&self) -> Result<(), JournalError>;

    /// This process [leads](super::Journal::leads) from now on.
    fn begin_to_lead(&self);
}
