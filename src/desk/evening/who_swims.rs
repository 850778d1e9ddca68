//! Who swims on a night, and who does not, and why.
//!
//! Knows the register, what people said and what is open; no lane.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::desk::decision::view::View;
use crate::desk::known::booking::Booking;
use crate::history::{Attendance, Kept, Presence, Swimmer};
use crate::message::Name;

/// Whoever said to come late is waited for so many minutes more (ours).
const LATE_MIN: i64 = 15;

/// What somebody does on a night.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Swims, or is looked for.
    Swims,
    /// Was not seen when the register was taken, and did not say to come later.
    Unseen,
    /// Is not there, or went.
    Out,
    /// Was there, and swims no more today: ill, hurt, or done.
    Done,
    /// Must not swim until the coach releases.
    Stopped,
}

impl View<'_> {
    /// What `swimmer` does on the night of `on`.
    pub fn part_in(&self, swimmer: &Swimmer, on: Date, booking: &Booking) -> Part {
        self.part_once(swimmer, on, booking, self.is_register_taken(on))
    }

    /// Somebody was seen at the pool.
    fn is_register_taken(&self, on: Date) -> bool {
        self.squad.here_on(on, self.now()).next().is_some()
    }

    /// [`part_in`](Self::part_in), knowing whether the register is taken: that is looked
    /// up once for a squad.
    fn part_once(&self, swimmer: &Swimmer, on: Date, booking: &Booking, taken: bool) -> Part {
        let now = self.now();
        if swimmer.is_stopped(now) {
            return Part::Stopped;
        }
        let seen = swimmer.presence.latest_on(on, now);
        let said = swimmer.attendance.latest_on(on, now);
        // The last word holds, whether it was seen or said.
        let word = said.filter(|said| seen.is_none_or(|seen| said.at > seen.at));
        if word.is_some_and(|said| !said.what.coming) || self.has_left(swimmer, on) {
            return Part::Out;
        }
        if self.is_done(swimmer, on, booking) {
            return Part::Done;
        }
        match (word, seen.map(|seen| seen.what)) {
            (_, Some(Presence::Here)) | (Some(_), Some(Presence::Absent)) => Part::Swims,
            (None, Some(Presence::Absent)) => Part::Out,
            (_, None) if taken => {
                let since = |said: &Kept<Attendance>| {
                    booking.starts.is_some_and(|starts| said.at >= starts)
                };
                let comes = said.filter(|said| said.what.coming);
                match comes
                    .is_some_and(|said| since(said) || self.is_waited_for(&said.what, booking))
                {
                    true => Part::Swims,
                    false => Part::Unseen,
                }
            }
            (_, None) if self.squad.is_expected(swimmer, on, now) => Part::Swims,
            (_, None) => Part::Out,
        }
    }

    /// Those who swim on `on`, by handle.
    pub fn swimming(&self, on: Date, booking: &Booking) -> Vec<Name> {
        self.with_part(on, booking, Part::Swims)
    }

    /// Those of whom `part` is true.
    pub fn with_part(&self, on: Date, booking: &Booking, part: Part) -> Vec<Name> {
        let taken = self.is_register_taken(on);
        let all = self.squad.swimmers.values();
        let all = all.filter(|one| self.part_once(one, on, booking, taken) == part);
        all.map(|one| one.name.clone()).collect()
    }

    /// They said when they go, and that is past.
    fn has_left(&self, swimmer: &Swimmer, on: Date) -> bool {
        let leaves = swimmer.says_of(on, self.now()).and_then(|said| said.leaves);
        leaves.is_some_and(|at| {
            let leaves = self.squad.zone().to_timestamp(on.to_datetime(at));
            leaves.is_ok_and(|leaves| leaves <= self.now())
        })
    }

    /// They said to come late, and may still.
    fn is_waited_for(&self, said: &Attendance, booking: &Booking) -> bool {
        let (Some(late), true) = (said.late_min, said.coming) else { return false };
        let until = booking
            .starts
            .and_then(|starts| starts.checked_add((i64::from(late) + LATE_MIN).minutes()).ok());
        until.is_none_or(|until| self.now() <= until)
    }

    /// Something keeps them out of the water for the rest of the day, or they have
    /// told what they swam.
    fn is_done(&self, swimmer: &Swimmer, on: Date, booking: &Booking) -> bool {
        let now = self.now();
        let begun = booking.starts.filter(|starts| *starts <= now);
        let told = begun.is_some_and(|begun| {
            let swims = swimmer.swims.as_of(now).filter(|kept| kept.on == on && kept.at >= begun);
            swims.into_iter().any(|kept| !kept.what.effort_alone)
        });
        told || self.squad.is_done(swimmer, on, now)
    }
}
