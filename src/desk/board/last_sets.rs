//! The last set each swam by the clock, and the one thing it changes.

use jiff::ToSpan;
use jiff::civil::Date;

use super::name_on_page::Person;
use crate::coaching::{SetFeedback, feedback_by};
use crate::desk::decision::view::View;
use crate::history::Swimmer;
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

/// The last one of each swimmer who swam one lately, the latest first.
pub fn paced(view: &View<'_>) -> Vec<Paced> {
    let swimmers = view.squad.swimmers.values();
    let mut all: Vec<Paced> = swimmers.filter_map(|swimmer| of(view, swimmer)).collect();
    all.sort_by_key(|one| (std::cmp::Reverse(one.on), one.who.name.clone()));
    all
}

fn of(view: &View<'_>, swimmer: &Swimmer) -> Option<Paced> {
    let since = view.today.saturating_sub(DAYS.days());
    let mut sets = swimmer.sets.since(since, view.now());
    let last = &sets.rfind(|kept| kept.what.set.target.is_some())?.what;
    let facts = view.facts_of_results(swimmer);
    let feedback = feedback_by(view.asked.book, &facts, last);
    feedback.analysis.is_some().then(|| Paced {
        who: Person::of(view, &swimmer.name),
        on: last.on,
        set: last.set.clone(),
        feedback,
    })
}
