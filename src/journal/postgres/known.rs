//! What is known of the log: where it ends, how far each stream goes, and what changed
//! lately. Asks nothing of the database.

use std::collections::HashMap;

use crate::journal::high_water::Reach;
use crate::journal::{Basis, Placed, StreamId, Topic};

/// Of so many topics it is known when they changed last (ours: some megabytes). Beyond
/// that all of it is forgotten, and what was decided before is decided again.
const MOST: usize = 200_000;

/// See the module.
#[derive(Debug)]
pub(super) struct Known {
    /// Where the log ends.
    pub end: Reach,
    /// How far each stream goes, by its tag.
    numbers: HashMap<u64, u64>,
    /// Where topics changed last, for those that did …
    changed: HashMap<Topic, u64>,
    /// … behind this place.
    since: u64,
}

impl Known {
    /// All of it as of this end of the log.
    pub(super) fn at(end: Reach, numbers: HashMap<u64, u64>) -> Known {
        Known { end, numbers, changed: HashMap::new(), since: end.place }
    }

    /// How far a stream goes.
    pub(super) fn number(&self, stream: &StreamId) -> u64 {
        self.numbers.get(&stream.tag()).copied().unwrap_or(0)
    }

    /// Whether nothing has changed that this stands on.
    pub(super) fn holds(&self, basis: &Basis) -> bool {
        basis.on.iter().all(|(topic, at)| {
            *at >= self.since && self.changed.get(topic).is_none_or(|changed| changed <= at)
        })
    }

    /// Nothing holds that was decided before now.
    pub(super) fn forget(&mut self) {
        self.changed.clear();
        self.since = self.end.place;
    }

    /// Whether an entry is the next one.
    pub(super) fn is_next(&self, placed: &Placed) -> bool {
        placed.place.number() == self.end.place + 1 && placed.before == self.end.mark
    }

    /// Goes on to the next entry, which changes this.
    pub(super) fn advance(&mut self, placed: &Placed, changes: &[Topic]) {
        let place = placed.place.number();
        self.end = Reach { place, mark: placed.tip.mark };
        // What was lost before, and told of, is in no stream.
        if placed.tip.number > 0 {
            self.numbers.insert(placed.entry.stream.tag(), placed.tip.number);
        }
        if self.changed.len() > MOST {
            self.forget();
        }
        self.changed.extend(changes.iter().map(|topic| (*topic, place)));
    }
}

#[cfg(test)]
mod tests {
    use jiff::Timestamp;

    use super::*;
    use crate::journal::{Entry, Mark, Seq, Tip};

    fn placed(place: u64) -> Placed {
        let stream = StreamId("s/dusk".into());
        let entry = Entry { stream, key: None, at: Timestamp::UNIX_EPOCH, body: vec![] };
        let tip = Tip { number: place, mark: Mark([place as u8; 16]) };
        Placed { place: Seq::new(place), before: Mark([place as u8 - 1; 16]), tip, entry }
    }

    fn basis(name: &str, at: u64) -> Basis {
        Basis { on: vec![(Topic::of("squad", name), at)], changes: vec![] }
    }

    #[test]
    fn what_was_decided_holds_until_that_changes_which_it_stands_on() {
        let end = Reach { place: 4, mark: Mark([4; 16]) };
        let mut known = Known::at(end, HashMap::new());
        assert!(known.holds(&basis("dusk", 4)));
        assert!(!known.holds(&basis("dusk", 3)), "what came before isn't known");
        assert!(known.is_next(&placed(5)) && !known.is_next(&placed(6)));
        known.advance(&placed(5), &[Topic::of("squad", "dusk")]);
        assert!(!known.holds(&basis("dusk", 4)));
        assert!(known.holds(&basis("dusk", 5)));
        assert!(known.holds(&basis("dawn", 4)));
        assert_eq!(known.number(&placed(5).entry.stream), 5);
    }

    #[test]
    fn what_is_forgotten_holds_no_more() {
        let end = Reach { place: 0, mark: Mark::default() };
        let mut known = Known::at(end, HashMap::new());
        let many: Vec<Topic> = (0..=MOST).map(|n| Topic::of("squad", n)).collect();
        known.advance(&placed(1), &many);
        assert!(known.holds(&basis("dusk", 0)));
        known.advance(&placed(2), &[]);
        assert!(!known.holds(&basis("dusk", 1)));
        assert!(known.holds(&basis("dusk", 2)));
    }
}
