//! What waits for whoever runs the squad: tests owed and overdue, who is slower,
//! who has not been heard of, who jumped, whose plan waits.

use jiff::civil::Date;

use super::last_tests::{Due, Tested};
use super::name_on_page::Person;
use super::weeks::Weeks;
use crate::desk::decision::view::View;
use crate::desk::plans::approval;
use crate::history::Right;
use crate::reply::Trend;
use crate::swim::Trial;
use crate::units::Centis;

/// All that waits; a list without anybody is nothing to do.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct ToDo {
    /// Owed a test by a test night.
    pub owed: Vec<Person>,
    /// Their last test is too long ago, or there is none.
    pub overdue: Vec<Person>,
    /// Slower at their last test than at the one before it, by a real change.
    pub slower: Vec<Slower>,
    /// Not heard from or seen for long.
    pub ring: Vec<Person>,
    /// Swam more this week than the ramp allows.
    pub jumped: Vec<Person>,
    /// Their plan waits for the reader's yes.
    pub waiting: Vec<Person>,
}

/// Somebody who is slower.
#[derive(Debug, Clone, PartialEq)]
pub struct Slower {
    /// Who.
    pub who: Person,
    /// Their last test.
    pub last: Trial,
    /// How much slower than the one before it.
    pub by: Centis,
    /// The day of that one.
    pub since: Date,
}

impl ToDo {
    /// True where nothing waits.
    pub fn is_nothing(&self) -> bool {
        *self == ToDo::default()
    }
}

/// What waits, by what the page shows below.
pub fn todo(view: &View<'_>, tested: &[Tested], weeks: &[Weeks]) -> ToDo {
    let due = |is: fn(Due) -> bool| -> Vec<Person> {
        let those = tested.iter().filter(|one| one.due.is_some_and(is));
        those.map(|one| one.who.clone()).collect()
    };
    let of_weeks = |is: fn(&Weeks) -> bool| -> Vec<Person> {
        weeks.iter().filter(|one| is(one)).map(|one| one.who.clone()).collect()
    };
    let waiting = match view.may(Right::SayYes) {
        true => approval::waiting(view),
        false => Vec::new(),
    };
    ToDo {
        owed: due(|due| due != Due::Overdue),
        overdue: due(|due| due == Due::Overdue),
        slower: tested.iter().filter_map(slower).collect(),
        ring: of_weeks(|one| one.ring),
        jumped: of_weeks(|one| one.jumped),
        waiting: waiting.iter().map(|line| Person::of(view, &line.who)).collect(),
    }
}

fn slower(one: &Tested) -> Option<Slower> {
    let (last, before) = (one.last?, one.before?);
    let by = Centis::from_seconds(last.time.seconds() - before.time.seconds()).ok()?;
    let is = one.trend == Trend::Down && !one.across;
    is.then(|| Slower { who: one.who.clone(), last, by, since: before.on })
}
