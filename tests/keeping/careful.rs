//! The way back after pain, illness and absence, checked against all that is told.

use jiff::civil::Date;

use crate::talk::{Heard, is_hard, is_test, sessions};

/// Days after `better` without anything hard: a week after strong pain or illness,
/// two after a fever, the clear days before the first swim counted in (common
/// practice, no source).
pub const PAIN_BACK_DAYS: i32 = 7;
pub const ILL_BACK_DAYS: i32 = 9;
pub const FEVER_BACK_DAYS: i32 = 17;
/// From so many days without a swim on the next is easy.
const BREAK_DAYS: i32 = 10;

/// What asks for care.
#[derive(Debug, Clone, Copy, Default)]
pub struct Careful {
    /// Something is open, and how long its way back is; light pain has none.
    open: Option<Option<i32>>,
    /// The way back ends with this day.
    back_until: Option<Date>,
    last_swum: Option<Date>,
}

impl Careful {
    pub fn open(&mut self, days: Option<i32>) {
        let longest = self.open.flatten().max(days);
        self.open = Some(longest);
    }

    pub fn better(&mut self, today: Date) {
        let days = self.open.take().flatten();
        let until = days.map(|days| today.saturating_add(jiff::Span::new().days(days)));
        self.back_until = self.back_until.max(until);
    }

    pub fn swum(&mut self, today: Date) {
        self.last_swum = Some(today);
    }

    /// Nothing hard and no test is told while any of it lasts.
    pub fn hears(&self, heard: &Heard, today: Date, whose: &str) {
        let away = self.last_swum.is_some_and(|last| (today - last).get_days() >= BREAK_DAYS);
        for session in sessions(&heard.result) {
            let on: Date = session["on"].as_str().unwrap().parse().unwrap();
            let back = self.back_until.is_some_and(|until| on <= until);
            if self.open.is_some() || back || away {
                let easy = !is_hard(&session) && !is_test(&session);
                assert!(easy, "{whose}: {self:?}, then {session:#}");
            }
        }
    }
}
