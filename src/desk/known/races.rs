//! The race that is next for a swimmer, and the one just behind.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::coaching::Race;
use crate::desk::decision::view::View;
use crate::history::{RaceEntry, Swimmer};

impl View<'_> {
    /// The race that is next for them: the one they named, or one that they are
    /// entered for.
    pub fn next_race(&self, swimmer: &Swimmer) -> Option<Race> {
        self.races_from(swimmer, self.today).min_by_key(|race| race.on)
    }

    /// The last race of the two weeks before today that they named or were entered for.
    pub fn last_race(&self, swimmer: &Swimmer) -> Option<Race> {
        let since = self.today.saturating_sub(RACED_DAYS.days());
        let over = self.races_from(swimmer, since).filter(|race| race.on < self.today);
        over.max_by_key(|race| race.on)
    }

    fn races_from(&self, swimmer: &Swimmer, from: Date) -> impl Iterator<Item = Race> {
        let named = swimmer.race.at(self.now()).filter(|race| race.on >= from).cloned();
        let entered = swimmer.entered(from, self.now()).into_iter().filter_map(|entry| {
            let RaceEntry { distance, stroke, .. } = entry;
            Some(Race { on: entry.on?, distance, stroke, goal: None })
        });
        named.into_iter().chain(entered)
    }
}

/// A race longer ago than this is behind them (ours).
const RACED_DAYS: i64 = 14;
