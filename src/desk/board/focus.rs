//! What each works on, what the coach noted, what comes next.

use jiff::civil::Date;

use super::name_on_page::Person;
use crate::coaching::Race;
use crate::desk::decision::view::View;

/// A swimmer's focus and next date.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Focus {
    /// Who.
    pub who: Person,
    /// The one thing they work on, in the coach's words.
    pub focus: Option<String>,
    /// The coach's last note and its day.
    pub note: Option<(Date, String)>,
    /// Their next race.
    pub race: Option<Race>,
}

/// Those of whom there is anything to tell, the next race first.
pub fn focuses(view: &View<'_>) -> Vec<Focus> {
    let now = view.now();
    let mut all: Vec<Focus> = view
        .squad
        .swimmers
        .values()
        .map(|swimmer| Focus {
            who: Person::of(view, &swimmer.name),
            focus: swimmer.focus_at(now).cloned(),
            note: swimmer
                .notes
                .as_of(now)
                .rfind(|note| !note.what.is_empty())
                .map(|note| (note.on, note.what.clone())),
            race: view.next_race(swimmer),
        })
        .filter(|one| one.focus.is_some() || one.note.is_some() || one.race.is_some())
        .collect();
    all.sort_by_key(|one| {
        let race = one.race.as_ref().map(|race| race.on);
        (race.is_none(), race, one.who.name.clone())
    });
    all
}
