//! What coaching may know of a swimmer, gathered from her profile as of now.

use jiff::ToSpan;
use jiff::civil::Date;

use super::answer::Desk;
use crate::coaching::{Facts, Trouble};
use crate::message::Name;
use crate::profile::{Kept, Swimmer, TroubleKept, TroubleKind};
use crate::swim::Trial;

/// Minutes booked where she said nothing (common practice, no source).
const MINUTES: u16 = 60;
/// Sessions a week where she said nothing (common practice, no source).
const SESSIONS: u8 = 3;
/// How far back sets, swims and weeks are looked at.
const WEEKS: i64 = 16;
/// Pain without a level counts as this much.
pub const UNSAID_LEVEL: u8 = 5;

impl Desk<'_> {
    /// The facts of one swimmer of this squad.
    pub fn facts(&self, name: &Name) -> Option<Facts> {
        let swimmer = self.swimmer(name)?;
        let now = self.now();
        let since = self.today.checked_sub(WEEKS.weeks()).unwrap_or(Date::MIN);
        let days: Vec<_> =
            swimmer.days.at(now).map(|days| days.iter().collect()).unwrap_or_default();
        let sessions = swimmer.sessions.at(now).copied();
        let named = u8::try_from(days.len()).ok().filter(|&number| number > 0);
        Some(Facts {
            handle: name.to_string(),
            today: self.today,
            course: self.course_of(name),
            minutes: swimmer.minutes.at(now).copied().unwrap_or(MINUTES),
            sessions_a_week: sessions.or(named).unwrap_or(SESSIONS),
            days,
            age: swimmer.born.at(now).and_then(|born| u8::try_from(self.today.year() - born).ok()),
            cleared: self.squad.ready,
            joined: swimmer.joined_on.min(self.today),
            tests: trials(swimmer, self).collect(),
            sets: swimmer.sets.since(since, now).map(|kept| kept.what.clone()).collect(),
            swims: swimmer.swims.since(since, now).map(|kept| kept.what.clone()).collect(),
            other: swimmer.other.since(since, now).map(|kept| kept.what.clone()).collect(),
            weeks: swimmer.weeks.since(since, now).map(|kept| kept.what.clone()).collect(),
            suggested: swimmer.suggested.as_of(now).map(|kept| kept.what.clone()).collect(),
            open: swimmer.open_troubles(now).map(trouble).collect(),
            race: swimmer.race.at(now).filter(|race| race.on >= self.today).cloned(),
            focus: swimmer.focus.at(now).cloned(),
        })
    }
}

/// Her tests known now, oldest first.
pub fn trials<'a>(
    swimmer: &'a Swimmer,
    desk: &Desk<'_>,
) -> impl DoubleEndedIterator<Item = Trial> + 'a {
    swimmer.tests.as_of(desk.now()).map(|kept| kept.what.trial)
}

fn trouble(kept: &Kept<TroubleKept>) -> Trouble {
    let since = kept.on;
    match &kept.what.kind {
        TroubleKind::Pain { place, level } => {
            Trouble::Pain { since, place: place.clone(), level: level.unwrap_or(UNSAID_LEVEL) }
        }
        TroubleKind::Ill { fever } => Trouble::Ill { since, fever: *fever },
        TroubleKind::Faint => Trouble::Faint { since },
        TroubleKind::Held => Trouble::Held { since },
    }
}
