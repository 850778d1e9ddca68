//! The last set each swam by the clock, and the one thing it changes.

use jiff::ToSpan;
use jiff::civil::Date;

use super::person::Person;
use crate::coaching::{SetFeedback, feedback_by};
use crate::desk::bench::desk::Desk;
use crate::profile::Swimmer;
use crate::session::Repeat;

/// How far back a set is still worth coming back to, in days (ours).
const DAYS: i64 = 28;

/// A swimmer's last paced set.
#[derive(Debug, Clone, PartialEq)]
pub struct Paced {
    /// Who.
    pub who: Person,
    /// When.
    pub on: Date,
    /// As it was swum.
    pub set: Repeat,
    /// What it says and changes.
    pub feedback: SetFeedback,
}

/// One a swimmer who has swum one lately, the latest first.
pub fn paced(desk: &Desk<'_>) -> Vec<Paced> {
    let swimmers = desk.squad.swimmers.values();
    let mut all: Vec<Paced> = swimmers.filter_map(|swimmer| of(desk, swimmer)).collect();
    all.sort_by_key(|one| (std::cmp::Reverse(one.on), one.who.name.clone()));
    all
}

fn of(desk: &Desk<'_>, swimmer: &Swimmer) -> Option<Paced> {
    let since = desk.today.saturating_sub(DAYS.days());
    let mut sets = swimmer.sets.since(since, desk.now());
    let last = &sets.rfind(|kept| kept.what.set.target.is_some())?.what;
    let facts = desk.facts_of_results(swimmer);
    let feedback = feedback_by(desk.asked.book, &facts, last);
    feedback.analysis.is_some().then(|| Paced {
        who: Person::of(desk, &swimmer.name),
        on: last.on,
        set: last.set.clone(),
        feedback,
    })
}
