//! What was said unasked: which kinds there are, what of them an address was
//! told, and on which of its days.
//!
//! Knows no words and no hours. It is asked at any instant, also at one before
//! the last, and must not say a thing twice then either.

use jiff::Timestamp;
use jiff::civil::{Date, Time, Weekday, time};
use jiff::tz::TimeZone;
use serde::{Deserialize, Serialize};

use crate::units::Weekdays;

/// How many are remembered of one address; whatever is older than all of them
/// counts as said.
const KEPT: usize = 16;

/// A kind of text that nobody asked for.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Unasked {
    /// Who comes, on the evening of a squad night.
    #[default]
    Count,
    /// The squad's week, for whoever runs it.
    Digest,
    /// A swimmer's own week.
    Note,
    /// What a set comes to that the coach told of a swimmer.
    Advice,
}

impl Unasked {
    /// Every kind that is due at a time, the one that can wait least first.
    pub const ALL: [Unasked; 3] = [Unasked::Count, Unasked::Digest, Unasked::Note];
}

/// What somebody on deck said of the digest. The last word holds, at whatever
/// instant it is asked: nobody is told what they declined.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct DigestWish {
    /// Whether they want it; none where they did not say.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wanted: Option<bool>,
    /// The day of the week.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub day: Option<Weekdays>,
    /// The time of day.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<Time>,
}

impl DigestWish {
    /// When it comes where nobody said (ours: the week is over).
    const DAY: Weekday = Weekday::Sunday;
    /// And at what time of day.
    const AT: Time = time(18, 0, 0, 0);

    /// The day and the time of its coming.
    pub fn when(&self) -> (Weekday, Time) {
        let day = self.day.as_ref().and_then(|days| days.iter().next());
        (day.unwrap_or(Self::DAY), self.at.unwrap_or(Self::AT))
    }

    /// True if nothing was said.
    pub fn is_unsaid(&self) -> bool {
        *self == Self::default()
    }

    /// Takes in what was said; what was not, stays.
    pub(super) fn take(&mut self, said: &DigestWish) {
        let DigestWish { wanted, day, at } = said.clone();
        self.wanted = wanted.or(self.wanted);
        self.day = day.or(self.day.take());
        self.at = at.or(self.at);
    }
}

/// What held before message `cause` changed it holds again; a later change
/// stands, and now came after what was before this one.
pub(super) fn take_back<T>(before: &mut Vec<(u64, T)>, now: &mut T, cause: u64) {
    let Some(at) = before.iter().position(|(said, _)| *said == cause) else { return };
    let (_, held) = before.remove(at);
    match before.get_mut(at) {
        Some((_, later)) => *later = held,
        None => *now = held,
    }
}

/// A text that was said, and the local day of its squad, as instants: people
/// are in squads of different zones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct SaidAt {
    /// When it was said.
    pub at: Timestamp,
    /// The beginning of that day.
    pub from: Timestamp,
    /// Its end: the beginning of the next.
    pub until: Timestamp,
}

impl SaidAt {
    /// Something said at `at` in a zone; `None` at the end of time.
    pub fn new(at: Timestamp, zone: &TimeZone) -> Option<Self> {
        let local = at.to_zoned_datetime(zone.clone());
        let from = local.start_of_day().ok()?.timestamp();
        let until = local.tomorrow().ok()?.start_of_day().ok()?.timestamp();
        Some(Self { at, from, until })
    }

    /// True if either was said on the other's day.
    fn shares_a_day(&self, other: &Self) -> bool {
        (self.from..self.until).contains(&other.at) || (other.from..other.until).contains(&self.at)
    }
}

/// When an address was told anything, in whatever squad.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct DaysSpoken(Vec<SaidAt>);

impl DaysSpoken {
    /// True if something more may be said.
    pub fn allow(&self, said: &SaidAt) -> bool {
        let known = self.0.len() < KEPT || self.0.iter().any(|kept| kept.until <= said.from);
        known && !self.0.iter().any(|kept| kept.shares_a_day(said))
    }

    pub(super) fn keep(&mut self, said: SaidAt) {
        let place = self.0.partition_point(|kept| kept.at <= said.at);
        self.0.insert(place, said);
        let over = self.0.len().saturating_sub(KEPT);
        self.0.drain(..over);
    }
}

/// Two texts about a week lie at least so many days apart (ours).
const SAME_WEEK_DAYS: i64 = 5;

/// What a member was told, by the night or the week it is about.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Told(Vec<(Unasked, Date)>);

impl Told {
    /// True if that was told, or is so old that nobody knows. A week is told
    /// once, on whatever day of it: its day may be changed between.
    pub fn holds(&self, what: Unasked, on: Date) -> bool {
        let forgotten = self.0.len() >= KEPT && self.0.iter().all(|(_, kept)| *kept >= on);
        let apart = match what {
            Unasked::Count | Unasked::Advice => 1,
            Unasked::Digest | Unasked::Note => SAME_WEEK_DAYS,
        };
        let told = |(kind, kept): &(Unasked, Date)| {
            *kind == what && i64::from((on - *kept).get_days().abs()) < apart
        };
        forgotten || self.0.iter().any(told)
    }

    /// True if nothing was told.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(super) fn keep(&mut self, what: Unasked, on: Date) {
        let place = self.0.partition_point(|(_, kept)| *kept <= on);
        self.0.insert(place, (what, on));
        let over = self.0.len().saturating_sub(KEPT);
        self.0.drain(..over);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(at: &str, zone: &str) -> SaidAt {
        SaidAt::new(at.parse().unwrap(), &TimeZone::get(zone).unwrap()).unwrap()
    }

    #[test]
    fn a_day_is_shared_by_the_clock_of_either_squad() {
        let mut spoken = DaysSpoken::default();
        spoken.keep(said("2026-03-01T18:00:00Z", "UTC"));
        assert!(!spoken.allow(&said("2026-03-01T08:00:00Z", "UTC")));
        assert!(spoken.allow(&said("2026-03-02T08:00:00Z", "UTC")));
        // Monday in Auckland, and still the UTC squad's Sunday.
        assert!(!spoken.allow(&said("2026-03-01T20:00:00Z", "Pacific/Auckland")));
        // By UTC it is Monday, in Honolulu still Sunday, where 18:00 UTC was too.
        assert!(!spoken.allow(&said("2026-03-02T01:00:00Z", "Pacific/Honolulu")));
    }

    #[test]
    fn what_is_too_old_to_be_known_counts_as_said() {
        let mut spoken = DaysSpoken::default();
        let mut told = Told::default();
        for day in 10..30 {
            spoken.keep(said(&format!("2026-03-{day}T18:00:00Z"), "UTC"));
            told.keep(Unasked::Count, jiff::civil::date(2026, 3, day));
        }
        assert!(!spoken.allow(&said("2026-03-02T18:00:00Z", "UTC")));
        assert!(told.holds(Unasked::Count, jiff::civil::date(2026, 3, 2)));
        assert!(!told.holds(Unasked::Count, jiff::civil::date(2026, 3, 31)));
    }

    #[test]
    fn counts_stored_before_there_were_other_kinds_still_read() {
        let stored = r#"{"event":"count_said","address":"+15550100","on":"2026-03-03"}"#;
        let event: crate::history::Event = serde_json::from_str(stored).unwrap();
        let crate::history::Event::SaidUnasked { what, said, .. } = event else { panic!() };
        assert_eq!((what, said), (Unasked::Count, None));
    }
}
