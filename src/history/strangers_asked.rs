//! When strangers were written to, so that nobody is too often: all squads together, for
//! whoever gets such texts can't tell one squad from another.

use std::collections::BTreeMap;
use std::sync::Arc;

use jiff::{SignedDuration, Timestamp};
use serde::{Deserialize, Serialize};

/// So many texts may go to one address that asks for none, in [`REMEMBERED`]
/// (ours).
const MOST: usize = 3;

/// For how long it is remembered that an address was asked (ours).
const REMEMBERED: SignedDuration = SignedDuration::from_hours(30 * 24);

type Asked = BTreeMap<String, Vec<Timestamp>>;

/// When addresses were written to that had asked for nothing. Cheap to clone:
/// every message is decided beside a copy.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "Asked", into = "Asked")]
pub struct StrangersAsked(Arc<Asked>);

impl StrangersAsked {
    /// True if an address was asked so often that it is asked no more.
    pub fn is_enough(&self, address: &str, now: Timestamp) -> bool {
        let when = self.0.get(address).into_iter().flatten();
        when.filter(|then| is_fresh(**then, now)).count() >= MOST
    }

    /// When an address was asked.
    pub(super) fn of(&self, address: &str) -> Vec<Timestamp> {
        self.0.get(address).cloned().unwrap_or_default()
    }

    /// Takes back what [`of`](Self::of) gave.
    pub(super) fn take(&mut self, address: &str, when: Vec<Timestamp>) {
        if !when.is_empty() {
            Arc::make_mut(&mut self.0).insert(address.to_owned(), when);
        }
    }

    /// Every address that was asked.
    pub(super) fn addresses(&self) -> impl Iterator<Item = &String> {
        self.0.keys()
    }

    /// Forgets that an address was asked.
    pub(super) fn forget(&mut self, address: &str) {
        if self.0.contains_key(address) {
            Arc::make_mut(&mut self.0).remove(address);
        }
    }

    /// True if nobody was asked.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(super) fn note(&mut self, address: &str, now: Timestamp) {
        let asked = Arc::make_mut(&mut self.0);
        asked.retain(|_, when| {
            when.retain(|then| is_fresh(*then, now));
            !when.is_empty()
        });
        asked.entry(address.to_owned()).or_default().push(now);
    }
}

fn is_fresh(then: Timestamp, now: Timestamp) -> bool {
    now.duration_since(then) < REMEMBERED
}

impl From<Asked> for StrangersAsked {
    fn from(asked: Asked) -> Self {
        Self(Arc::new(asked))
    }
}

impl From<StrangersAsked> for Asked {
    fn from(asked: StrangersAsked) -> Self {
        Arc::unwrap_or_clone(asked.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_times_in_thirty_days() {
        let day = |day: i64| Timestamp::UNIX_EPOCH + SignedDuration::from_hours(24 * day);
        let mut asked = StrangersAsked::default();
        for at in [0, 10, 20] {
            assert!(!asked.is_enough("+15550123", day(at)));
            asked.note("+15550123", day(at));
        }
        assert!(asked.is_enough("+15550123", day(29)));
        assert!(!asked.is_enough("+15550124", day(29)));
        assert!(!asked.is_enough("+15550123", day(30)));
        let kept = serde_json::to_vec(&asked).unwrap();
        assert_eq!(serde_json::from_slice::<StrangersAsked>(&kept).unwrap(), asked);
    }
}
