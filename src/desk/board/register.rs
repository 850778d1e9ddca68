//! Who is at the pool, who is still to come.

use jiff::civil::Date;

use super::name_on_page::Person;
use crate::desk::decision::view::View;
use crate::history::Presence;
use crate::message::Name;

/// The register of a night; each swimmer stands in one list.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Register {
    /// Seen at the pool.
    pub here: Vec<Person>,
    /// Said to come later, with the minutes, and not seen yet.
    pub late: Vec<(Person, u16)>,
    /// Said to come, and not seen yet.
    pub coming: Vec<Person>,
    /// Said nothing, and not seen yet.
    pub unsaid: Vec<Person>,
    /// Said not to come, away, ill or stopped.
    pub out: Vec<Person>,
    /// Looked for, and not there.
    pub absent: Vec<Person>,
}

impl Register {
    /// How many could be there.
    pub fn all(&self) -> usize {
        let lists = [&self.here, &self.coming, &self.unsaid, &self.out, &self.absent];
        lists.iter().map(|list| list.len()).sum::<usize>() + self.late.len()
    }
}

/// The register of `on`, as it stands.
pub fn register(view: &View<'_>, on: Date) -> Register {
    let now = view.now();
    let seen = |name: &Name| view.swimmer(name).and_then(|swimmer| swimmer.seen_on(on, now));
    let person = |name: &Name| Person::of(view, name);
    let mut register = Register::default();
    for name in view.squad.swimmers.keys() {
        match seen(name) {
            Some(Presence::Here) => register.here.push(person(name)),
            Some(Presence::Absent) => register.absent.push(person(name)),
            None => {}
        }
    }
    let turnout = view.squad.turnout(on, now);
    for (name, late) in turnout.coming.iter().filter(|(name, _)| seen(name).is_none()) {
        match late {
            Some(minutes) => register.late.push((person(name), *minutes)),
            None => register.coming.push(person(name)),
        }
    }
    let unseen = |names: &[Name]| -> Vec<Person> {
        names.iter().filter(|name| seen(name).is_none()).map(person).collect()
    };
    register.unsaid = unseen(&turnout.unsaid);
    register.out = unseen(&turnout.out);
    register
}
