//! Who is at the pool on a night: what the coach saw, whom to look for.
//!
//! Knows no session and no lane; an absence has no reason here.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};

use super::{Squad, Swimmer, TroubleKind};

/// Before this hour of the local day a night is still that of the evening
/// before (ours: a text written on the way home arrives after midnight).
const NIGHT_ENDS: i8 = 4;

/// What the coach saw of a swimmer on a night.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Presence {
    /// She was there.
    Here,
    /// She was not.
    Absent,
}

impl Squad {
    /// The local day whose evening it is at `at`: before four in the morning
    /// still that of the day before.
    pub fn evening_of(&self, at: Timestamp) -> Date {
        let local = at.to_zoned_datetime(self.zone());
        let late = local.hour() < NIGHT_ENDS;
        local.date().saturating_sub(i64::from(late).days())
    }

    /// Those the coach saw on `day`, by what was known at `now`.
    pub fn here_on(&self, day: Date, now: Timestamp) -> impl Iterator<Item = &Swimmer> {
        self.marked(Presence::Here, day, now)
    }

    /// Those the coach marked absent on `day`, by what was known at `now`.
    pub fn absent_on(&self, day: Date, now: Timestamp) -> impl Iterator<Item = &Swimmer> {
        self.marked(Presence::Absent, day, now)
    }

    /// Those to look for on `day`, by what was known at `now`: all but who is
    /// away, ill or stopped.
    pub fn expected_on(&self, day: Date, now: Timestamp) -> impl Iterator<Item = &Swimmer> {
        self.swimmers.values().map(AsRef::as_ref).filter(move |swimmer| {
            !swimmer.is_away(day, now)
                && !swimmer.open_troubles(now).any(|kept| {
                    matches!(kept.what.kind, TroubleKind::Faint | TroubleKind::Ill { .. })
                })
        })
    }

    fn marked(
        &self,
        presence: Presence,
        day: Date,
        now: Timestamp,
    ) -> impl Iterator<Item = &Swimmer> {
        self.swimmers
            .values()
            .map(AsRef::as_ref)
            .filter(move |swimmer| swimmer.seen_on(day, now) == Some(presence))
    }
}

impl Swimmer {
    /// What the coach saw of her on `day`: the last word by `now`.
    pub fn seen_on(&self, day: Date, now: Timestamp) -> Option<Presence> {
        self.presence.latest_on(day, now).map(|kept| kept.what)
    }
}
