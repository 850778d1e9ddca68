//! People, days, and what is said of their coming.

use jiff::civil::Time;

use crate::message::Day;
use crate::reading::frame::Clause;

/// What someone says of coming.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Says {
    /// Comes.
    In,
    /// Does not come.
    Out,
    /// Comes late, by so many minutes where that was said.
    Late(Option<u16>),
    /// Leaves before the end, at that time where one was said.
    Leaves(Option<Time>),
    /// Is away for days.
    Away,
    /// Is back.
    Back,
    /// May come.
    Maybe,
}

/// People, days, and what is said of them.
#[derive(Debug, Clone, Default)]
pub struct Group {
    /// Their places in the roster; none for whoever writes.
    pub people: Vec<usize>,
    /// All of the squad.
    pub everyone: bool,
    /// Those whom `all but` leaves out.
    pub except: Vec<usize>,
    /// The others: `rest in`.
    pub others: bool,
    /// The days that it is about; none for the next evening.
    pub days: Vec<Day>,
    /// What is said.
    pub says: Vec<Says>,
    /// The first day of an absence.
    pub from: Option<Day>,
    /// Its last day.
    pub until: Option<Day>,
    /// How sure the words are, 1 to 3.
    pub strength: u8,
}

/// `cant make monday, back wed`: the day of return comes behind those before it.
pub fn returned(c: &Clause<'_, '_>, before: &[Group], group: &Group) -> Group {
    let out = before.last().filter(|last| last.says.contains(&Says::Out));
    let left = out.and_then(|last| c.date_of(*last.days.last()?));
    let (true, Some(left), [Day::On(weekday)]) =
        (group.says.contains(&Says::Back), left, group.days.as_slice())
    else {
        return group.clone();
    };
    let date = (1..=7i32).find_map(|days| {
        let date = left.checked_add(jiff::Span::new().days(days)).ok()?;
        (date.weekday() == *weekday).then_some(date)
    });
    Group { days: date.into_iter().map(Day::Full).collect(), ..group.clone() }
}
