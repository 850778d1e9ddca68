//! Who belongs to a squad: invitations, guests, those who share a telephone,
//! those who left.
//!
//! Knows no rights and no words; what becomes of a question is decided
//! elsewhere.

use std::sync::Arc;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::{Event, Member, Role, Squad, Stamped, Swimmer, Touched};
use crate::message::Name;
use crate::units::Pace;

/// Someone asked in who has not answered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Invitation {
    /// As what.
    pub role: Role,
    /// What they are to be called, where it was said.
    pub name: Option<Name>,
    /// The answer is no use after this.
    pub until: Timestamp,
}

/// What is known of a swimmer without a telephone.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct Guest {
    /// What the coach takes their pace to be.
    pub guess: Option<Pace>,
}

impl Squad {
    /// Takes in what happened to who belongs; `None` for all other events.
    pub(super) fn apply_belonging(&mut self, stamped: &Stamped) -> Option<Touched> {
        let at = stamped.at;
        match &stamped.event {
            Event::Joined { address, name } => {
                self.invitations.remove(address);
                self.member_or_new(address, Role::Swimmer).take_name(name);
                let back = self.former.remove(name).filter(|left| left.is_of(address));
                let today = self.local_day(at);
                let new = || Swimmer::new(name.clone(), Some(address.clone()), at, today);
                let swimmer = back
                    .map_or_else(new, |left| Swimmer { left: None, ..Arc::unwrap_or_clone(left) });
                self.swimmers.insert(name.clone(), Arc::new(swimmer));
                Some(Touched::Swimmer(name.clone()))
            }
            Event::RoleGiven { address, role, called } => {
                self.invitations.remove(address);
                let member = self.member_or_new(address, *role);
                member.role = *role;
                if called.is_some() {
                    member.called.clone_from(called);
                }
                Some(Touched::Head)
            }
            Event::Invited { address, invitation } => {
                self.invitations.insert(address.clone(), invitation.clone());
                Some(Touched::Head)
            }
            Event::InvitationClosed { address } => {
                self.invitations.remove(address);
                Some(Touched::Head)
            }
            Event::GuestAdded { name, guess, code } => {
                self.claims.insert(code.clone(), name.clone());
                let today = self.local_day(at);
                let swimmer = Swimmer::new(name.clone(), None, at, today);
                let guest = Some(Guest { guess: *guess });
                self.swimmers.insert(name.clone(), Arc::new(Swimmer { guest, ..swimmer }));
                Some(Touched::Swimmer(name.clone()))
            }
            Event::Claimed { address, name } => {
                self.invitations.remove(address);
                self.claims.retain(|_, guest| guest != name);
                self.member_or_new(address, Role::Swimmer).take_name(name);
                if let Some(swimmer) = self.swimmers.get_mut(name).map(Arc::make_mut) {
                    swimmer.address = Some(address.clone());
                    swimmer.guest = None;
                }
                Some(Touched::Swimmer(name.clone()))
            }
            Event::SwimmerLeft { who } => {
                if let Some(swimmer) = self.swimmers.remove(who) {
                    self.end_of_name(who, swimmer.address.as_deref());
                    let left = Some(self.local_day(at));
                    let kept = Swimmer { left, ..Arc::unwrap_or_clone(swimmer) };
                    self.former.insert(who.clone(), Arc::new(kept));
                }
                Some(Touched::Swimmer(who.clone()))
            }
            Event::AccessEnded { address } => {
                self.members.remove(address);
                self.shut_boards(address);
                self.calendars.retain(|open| open.address != *address);
                Some(Touched::Head)
            }
            Event::Forgotten { who } => {
                self.leave_partings(who);
                self.leave_evenings(who);
                let gone = self.swimmers.remove(who).or_else(|| self.former.remove(who));
                self.to_erase |= gone.is_some();
                let guard = gone.as_ref().and_then(|gone| gone.guard.clone());
                self.end_of_name(who, gone.and_then(|gone| gone.address.clone()).as_deref());
                if let Some(guard) = guard {
                    self.let_guardian_go(&guard.address);
                }
                Some(Touched::Swimmer(who.clone()))
            }
            _ => None,
        }
    }

    pub(super) fn member_or_new(&mut self, address: &str, role: Role) -> &mut Member {
        let new = || Arc::new(Member::new(role, None));
        Arc::make_mut(self.members.get_or_insert_with(address.to_owned(), new))
    }

    /// A swimmer's name goes from their telephone; whoever only swam goes with it.
    fn end_of_name(&mut self, name: &Name, address: Option<&str>) {
        self.claims.retain(|_, guest| guest != name);
        let Some(address) = address else { return };
        let Some(member) = self.members.get_mut(address).map(Arc::make_mut) else { return };
        member.drop_name(name);
        // Whatever waits for its next word may speak of them.
        *member = Member {
            name: member.name.take(),
            others: std::mem::take(&mut member.others),
            called: member.called.take().filter(|called| called != name),
            opted_out: member.opted_out,
            stands_by: member.stands_by,
            ..Member::new(member.role, None)
        };
        if member.role == Role::Swimmer && member.name.is_none() {
            self.members.remove(address);
        }
    }

    /// The address of who goes by `name`: they swim, or are called so.
    pub fn address_of(&self, name: &Name) -> Option<&str> {
        let goes_by = |member: &Member| member.answers_to(name);
        self.members.iter().find(|(_, member)| goes_by(member)).map(|(address, _)| address.as_str())
    }

    /// True if `name` is somebody's here.
    pub fn is_taken(&self, name: &Name) -> bool {
        self.swimmers.contains_key(name) || self.address_of(name).is_some()
    }

    /// A swimmer, also one who left.
    pub fn ever_swam(&self, name: &Name) -> Option<&Arc<Swimmer>> {
        self.swimmers.get(name).or_else(|| self.former.get(name))
    }
}

impl Swimmer {
    /// True if they text from `address`.
    fn is_of(&self, address: &str) -> bool {
        self.address.as_deref() == Some(address)
    }
}

impl Member {
    /// The handles of those who swim and text from here.
    pub fn names(&self) -> impl Iterator<Item = &Name> {
        self.name.iter().chain(&self.others)
    }

    /// True if several swimmers text from here.
    pub fn is_shared(&self) -> bool {
        !self.others.is_empty()
    }

    /// What they are called here: their handle, or what their invitation said.
    pub fn goes_by(&self) -> Option<&Name> {
        self.name.as_ref().or(self.called.as_ref())
    }

    /// True if `name` is one of theirs.
    pub fn answers_to(&self, name: &Name) -> bool {
        self.names().chain(&self.called).any(|one| one == name)
    }

    fn take_name(&mut self, name: &Name) {
        match &self.name {
            None => self.name = Some(name.clone()),
            Some(first) if first == name || self.others.contains(name) => {}
            Some(_) => self.others.push(name.clone()),
        }
    }

    fn drop_name(&mut self, name: &Name) {
        self.others.retain(|other| other != name);
        if self.name.as_ref() == Some(name) {
            self.name = (!self.others.is_empty()).then(|| self.others.remove(0));
        }
    }
}
