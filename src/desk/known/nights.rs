//! A night of the timetable as it is told, and whether its set is hard.

use jiff::civil::Time;

use crate::coaching;
use crate::desk::decision::view::View;
use crate::history::{EveningKept, Night};
use crate::reply::{NightLine, When};

/// True if any lane of it is hard.
pub fn is_hard(evening: &EveningKept) -> bool {
    evening.sessions().any(coaching::is_hard)
}

/// A night as a line of the timetable.
pub fn line(view: &View<'_>, when: When, night: &Night) -> NightLine {
    let clock = |time: Time| time.strftime("%H:%M").to_string();
    NightLine {
        when,
        starts: night.starts.map(clock),
        ends: night.ends().map(clock),
        lanes: night.lanes,
        course: Some(night.course).filter(|course| *course != view.squad.course),
        shut: false,
    }
}
