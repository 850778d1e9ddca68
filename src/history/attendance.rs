//! Who is at the pool on a night: what the coach saw, who said they come.
//!
//! Knows no session and no lane; an absence has no reason here.

use jiff::civil::{Date, Time};
use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};

use super::{Kept, Squad, Swimmer, TroubleKept, TroubleKind};
use crate::message::Name;

/// Before this hour of the local day a night is still that of the evening
/// before (ours: a text written on the way home arrives after midnight).
pub const NIGHT_ENDS: i8 = 4;

/// Pain from this level up ends the evening (common practice, no source).
pub const STOPS_FOR_TODAY: u8 = 6;

/// Places that keep out of the water until they have settled, once they hurt more
/// than [`JUST_FELT`] (common practice, no source).
const KEPT_DRY: [&str; 2] = ["ear", "eye"];
/// Pain up to this level is noted and no more; one that was not said may be worse.
const JUST_FELT: u8 = 2;

/// What the coach saw of a swimmer on a night.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Presence {
    /// They were there.
    Here,
    /// They were not.
    Absent,
}

/// What a swimmer says of a night to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attendance {
    /// They come.
    pub coming: bool,
    /// Minutes after the start.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub late_min: Option<u16>,
    /// They come perhaps; until they say more they are looked for.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub perhaps: bool,
    /// They go before the end, at this time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leaves: Option<Time>,
}

impl Attendance {
    /// They come, or do not, from the start to the end.
    pub const fn whole(coming: bool) -> Attendance {
        Attendance { coming, late_min: None, perhaps: false, leaves: None }
    }
}

/// What is known of who comes on a night; each list by handle.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Turnout {
    /// Those who said they come, with their minutes late.
    pub coming: Vec<(Name, Option<u16>)>,
    /// Those who said they come perhaps.
    pub perhaps: Vec<Name>,
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

    /// Those to look for on `day`, by what was known at `now`: who said they
    /// come, and who said nothing unless they are away; nobody who is done.
    pub fn expected_on(&self, day: Date, now: Timestamp) -> impl Iterator<Item = &Swimmer> {
        let swimmers = self.swimmers.values().map(AsRef::as_ref);
        swimmers.filter(move |swimmer| self.is_expected(swimmer, day, now))
    }

    /// True for one of [`expected_on`](Squad::expected_on).
    pub fn is_expected(&self, swimmer: &Swimmer, day: Date, now: Timestamp) -> bool {
        swimmer.would_come(day, now) && !self.is_done(swimmer, day, now)
    }

    /// True for whoever swims no more on `day`, by what was known at `now`: they are
    /// stopped or ill, told that evening of pain that ends it, or of what is to be
    /// kept dry. They are in no lane, in no set, and swim no metres.
    pub fn is_done(&self, swimmer: &Swimmer, day: Date, now: Timestamp) -> bool {
        let is_over = |kept: &Kept<TroubleKept>| {
            kept.what
                .closed
                .is_some_and(|(_, closed)| closed <= now && self.evening_of(closed) <= day)
        };
        let comes_since = |told: Timestamp| {
            let said = swimmer.attendance.latest_on(day, now);
            said.is_some_and(|said| said.what.coming && said.at >= told)
        };
        swimmer.troubles.as_of(now).any(|kept| {
            let begun = self.evening_of(kept.at);
            match &kept.what.kind {
                // A cold, and yet they come: they swim easily.
                TroubleKind::Ill { fever: false, stomach: false }
                    if kept.what.closed.is_none() && comes_since(kept.at) =>
                {
                    false
                }
                TroubleKind::Faint | TroubleKind::Ill { .. } => begun <= day && !is_over(kept),
                TroubleKind::Pain { place, level } => {
                    let strong = level.is_some_and(|level| level >= STOPS_FOR_TODAY);
                    let felt = level.is_none_or(|level| level > JUST_FELT);
                    let dry = felt && KEPT_DRY.contains(&place.as_str());
                    (strong && begun == day) || (dry && begun <= day && !is_over(kept))
                }
                TroubleKind::Held | TroubleKind::Eased => false,
            }
        })
    }

    /// True for the name of one who swims no more on `day`.
    pub fn is_done_by_name(&self, who: &Name, day: Date, now: Timestamp) -> bool {
        self.swimmers.get(who).is_some_and(|swimmer| self.is_done(swimmer, day, now))
    }

    /// Who comes on `day`, by what was known at `now`.
    pub fn turnout(&self, day: Date, now: Timestamp) -> Turnout {
        let mut turnout = Turnout::default();
        for swimmer in self.swimmers.values() {
            let name = swimmer.name.clone();
            match swimmer.says_of(day, now) {
                Some(Attendance { perhaps: true, .. }) if !self.is_done(swimmer, day, now) => {
                    turnout.perhaps.push(name);
                }
                Some(Attendance { coming: true, late_min, .. })
                    if !self.is_done(swimmer, day, now) =>
                {
                    turnout.coming.push((name, late_min));
                }
                None if self.is_expected(swimmer, day, now) => turnout.unsaid.push(name),
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
    /// What the coach saw of them on `day`: the last word by `now`.
    pub fn seen_on(&self, day: Date, now: Timestamp) -> Option<Presence> {
        self.presence.latest_on(day, now).map(|kept| kept.what)
    }

    /// What they say of coming on `day`: the last word by `now`.
    pub fn says_of(&self, day: Date, now: Timestamp) -> Option<Attendance> {
        self.attendance.latest_on(day, now).map(|kept| kept.what)
    }

    fn would_come(&self, day: Date, now: Timestamp) -> bool {
        match self.says_of(day, now) {
            Some(said) => said.coming,
            None => !self.is_away(day, now),
        }
    }
}
