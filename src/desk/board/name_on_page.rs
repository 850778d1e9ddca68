//! Someone on the page: their handle, and for a minor who is responsible.

use crate::desk::decision::view::View;
use crate::history::AgeGroup;
use crate::message::Name;

/// A swimmer, as the page names them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// Their handle; nothing else of a minor is told.
    pub name: Name,
    /// They have no telephone here.
    pub guest: bool,
    /// For a minor, the grown-up responsible for them.
    pub minor: Option<Adult>,
}

/// The grown-up responsible for a minor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Adult {
    /// Who agreed, by the name that they go by here.
    Named(Name),
    /// Someone who agreed and goes by no name here.
    Unnamed,
    /// Nobody has agreed yet.
    Nobody,
}

impl Person {
    /// A swimmer of the squad.
    pub fn of(view: &View<'_>, name: &Name) -> Person {
        let swimmer = view.swimmer(name);
        let minor = swimmer.filter(|swimmer| view.age_group(swimmer) != AgeGroup::Adult);
        let adult = minor.map(|minor| {
            let agreed = minor.guard.as_ref().filter(|guard| guard.agreed.is_some());
            let Some(guard) = agreed else { return Adult::Nobody };
            let name = view.squad.members.get(&guard.address).and_then(|member| member.goes_by());
            name.map_or(Adult::Unnamed, |name| Adult::Named(name.clone()))
        });
        let guest = swimmer.is_some_and(|swimmer| swimmer.guest.is_some());
        Person { name: name.clone(), guest, minor: adult }
    }
}
