//! Who is at the pool on a night: what the coach saw, who said she comes.
//!
//! Knows no session and no lane; an absence has no reason here.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};

use super::{Squad, Swimmer, TroubleKind};
use crate::message::Name;

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

/// What a swimmer says of a night to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attendance {
    /// She comes.
    pub coming: bool,
    /// Minutes after the start.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub late_min: Option<u16>,
}

/// What is known of who comes on a night; each list by handle.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Turnout {
    /// Those who said they come, with their minutes late.
    pub coming: Vec<(Name, Option<u16>)>,
    /// Those who said they don't, or are away, ill or stopped.
    pub out: Vec<Name>,
    /// Those who said nothing.
    pub unsaid: Vec<Name>,
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

    /// Those to look for on `day`, by what was known at `now`: who said she
    /// comes, and who said nothing unless she is away, ill or stopped.
    pub fn expected_on(&self, day: Date, now: Timestamp) -> impl Iterator<Item = &Swimmer> {
        self.swimmers
            .values()
            .map(AsRef::as_ref)
            .filter(move |swimmer| swimmer.is_expected(day, now))
    }

    /// Who comes on `day`, by what was known at `now`.
    pub fn turnout(&self, day: Date, now: Timestamp) -> Turnout {
        let mut turnout = Turnout::default();
        for swimmer in self.swimmers.values() {
            let name = swimmer.name.clone();
            match swimmer.says_of(day, now) {
                Some(Attendance { coming: true, late_min }) => {
                    turnout.coming.push((name, late_min));
                }
                None if swimmer.is_expected(day, now) => turnout.unsaid.push(name),
                _ => turnout.out.push(name),
            }
        }
        turnout
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

    /// What she says of coming on `day`: the last word by `now`.
    pub fn says_of(&self, day: Date, now: Timestamp) -> Option<Attendance> {
        self.attendance.latest_on(day, now).map(|kept| kept.what)
    }

    fn is_expected(&self, day: Date, now: Timestamp) -> bool {
        match self.says_of(day, now) {
            Some(said) => said.coming,
            None => {
                let unfit = |kind: &TroubleKind| {
                    matches!(kind, TroubleKind::Faint | TroubleKind::Ill { .. })
                };
                !self.is_away(day, now)
                    && !self.open_troubles(now).any(|kept| unfit(&kept.what.kind))
            }
        }
    }
}
