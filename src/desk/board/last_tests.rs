//! Each swimmer's last test, what it says, and who is due.

use super::name_on_page::Person;
use crate::desk::decision::view::View;
use crate::desk::evening::test_night;
use crate::desk::known::trials::{trials, trials_from_a_push};
use crate::desk::squad::overview;
use crate::reply::Trend;
use crate::swim::Trial;
use crate::swim::real_change::Change;

/// A swimmer's tests.
#[derive(Debug, Clone, PartialEq)]
pub struct Tested {
    /// Who.
    pub who: Person,
    /// Their last test.
    pub last: Option<Trial>,
    /// The one before it over the same distance, stroke and course.
    pub before: Option<Trial>,
    /// What it says beside that one.
    pub trend: Trend,
    /// The trend compares a race at a meet with a test in training.
    pub across: bool,
    /// They are due one.
    pub due: Option<Due>,
}

/// Why a test is due.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Due {
    /// They are in a heat of the test night, and have not swum it yet.
    Tonight,
    /// They missed the test night.
    TestNight,
    /// The last is too long ago, or there is none.
    Overdue,
}

/// Each swimmer's, those who are due first.
pub fn tested(view: &View<'_>) -> Vec<Tested> {
    let (owed, over) = test_night::owed(view);
    let by_night = if over { Due::TestNight } else { Due::Tonight };
    let mut all: Vec<Tested> = view
        .squad
        .swimmers
        .values()
        .map(|swimmer| {
            let (trend, across) = overview::trend(&trials_from_a_push(swimmer, view));
            let mut tests: Vec<Trial> = trials(swimmer, view).collect();
            let last = tests.pop();
            let is_alike = |one: &&Trial| {
                last.is_some_and(|last| {
                    one.meet == last.meet && Change::between(one, &last).is_some()
                })
            };
            let overdue = overview::is_overdue(view, swimmer, last).then_some(Due::Overdue);
            Tested {
                who: Person::of(view, &swimmer.name),
                before: tests.iter().rfind(is_alike).copied(),
                last,
                trend,
                across,
                due: owed.contains(&swimmer.name).then_some(by_night).or(overdue),
            }
        })
        .collect();
    all.sort_by_key(|one| (one.due.is_none(), one.who.name.clone()));
    all
}
