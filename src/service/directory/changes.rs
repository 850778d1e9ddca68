//! What a message changes of it: who is in a squad, what opens one, what is to be looked after.

use jiff::{Timestamp, ToSpan};

use super::{Belonging, Directory, Keys};
use crate::history::{Event, Role, Squad, SquadId};
use crate::service::record::Record;

/// For how long the address of a page that was shut is remembered.
const SHUT_DAYS: i64 = 2;

impl Directory {
    /// Sets when to look again whether something is to be said in a squad; `None`
    /// for at once.
    pub fn look_at(&mut self, id: &SquadId, when: Option<Timestamp>) {
        if let Some(keys) = self.squads.get_mut(id).filter(|keys| keys.look != when) {
            keys.look = when;
            self.dirty_squads.insert(id.clone());
        }
    }

    /// Notes that nobody in a squad is to be erased any more.
    pub fn erased(&mut self, id: &SquadId) {
        self.keys(id, |keys| keys.to_erase = false);
    }

    /// Takes in what a message did in a squad.
    pub fn note(&mut self, id: &SquadId, record: &Record) {
        record.events.iter().for_each(|event| self.note_event(id, event));
        self.look_at(id, None);
        // Where they were, is not known of those who are forgotten.
        let forgets = record.events.iter().any(|event| matches!(event, Event::Forgotten { .. }));
        for address in &record.gone {
            self.leave(address, id);
            if !forgets {
                self.person(address, |one| one.left.push(id.clone()));
            }
        }
    }

    fn note_event(&mut self, id: &SquadId, event: &Event) {
        match event {
            Event::SquadOpened { name, coach, code, .. } => {
                self.keys(id, |keys| keys.name.clone_from(name));
                self.join_by(code, id);
                self.enter(coach, id);
            }
            Event::Joined { address, .. } | Event::Claimed { address, .. } => {
                self.enter(address, id);
                self.answered(address, id);
                self.take(address, id);
            }
            Event::RoleGiven { address, role, .. } => {
                self.officer(address, id, *role == Role::WelfareOfficer);
                self.enter_as(address, id);
            }
            Event::GuardianAsked { address, .. } => self.enter_as(address, id),
            Event::AccessEnded { address } => self.officer(address, id, false),
            Event::Invited { address, .. } => {
                self.answered(address, id);
                self.person(address, |one| one.inviting.push(id.clone()));
            }
            Event::InvitationClosed { address } => self.answered(address, id),
            Event::GuestAdded { code, .. } => self.open_by(code, id),
            Event::CodeRenewed { code } => self.join_by(code, id),
            Event::SquadRenamed { name } => self.keys(id, |keys| keys.name.clone_from(name)),
            Event::SquadClosed => self.close(id),
            Event::SquadTaken { address } => self.take(address, id),
            Event::BoardOpened { token, until, .. } => self.open_board(token, *until, id),
            Event::CalendarOpened { token, .. } => self.open_calendar(token, id),
            Event::Forgotten { .. } => self.keys(id, |keys| keys.to_erase = true),
            Event::Erased { .. } => self.keys(id, |keys| keys.to_erase = false),
            _ => {}
        }
    }

    /// Takes in what a squad is known to be, some of whose messages were lost.
    pub fn state(&mut self, squad: &Squad) {
        let id = &squad.id;
        let officers = squad.safe.officers.iter().cloned().collect();
        self.keys(id, |keys| {
            keys.name.clone_from(&squad.name);
            keys.officers = officers;
        });
        if squad.closed {
            self.close(id);
        } else {
            self.join_by(&squad.code, id);
        }
        squad.claims.keys().for_each(|code| self.open_by(code, id));
        for board in &squad.boards {
            self.open_board(&board.token, board.until, id);
        }
        for calendar in &squad.calendars {
            self.open_calendar(&calendar.token, id);
        }
        for address in self.people_of(id) {
            if !squad.members.contains_key(&address) {
                self.leave(&address, id);
            }
        }
        for address in squad.members.keys() {
            self.enter(address, id);
        }
        for address in squad.invitations.keys() {
            self.answered(address, id);
            self.person(address, |one| one.inviting.push(id.clone()));
        }
    }

    /// Drops an address from a squad that it is no longer in; true if it is in
    /// none now.
    pub fn leave(&mut self, address: &str, id: &SquadId) -> bool {
        if let Some(people) = self.people_of.get_mut(id) {
            people.remove(address);
        }
        let mut none = true;
        self.person(address, |one| {
            one.squads.retain(|squad| squad != id);
            none = one.squads.is_empty();
            if one.squads.len() < 2 || one.in_hand.as_ref() == Some(id) {
                one.in_hand = None;
            }
        });
        none
    }

    /// A squad is joined by this code, and by no other.
    fn join_by(&mut self, code: &str, id: &SquadId) {
        let code = code.to_uppercase();
        let mut before = code.clone();
        self.keys(id, |keys| std::mem::swap(&mut keys.joined_by, &mut before));
        self.by_code.remove(&before);
        self.by_code.insert(code, id.clone());
    }

    /// Nothing opens a squad any more, and nobody is asked into it.
    fn close(&mut self, id: &SquadId) {
        let mut shut = Keys::default();
        self.keys(id, |keys| {
            let (name, to_erase) = (std::mem::take(&mut keys.name), keys.to_erase);
            shut =
                std::mem::replace(keys, Keys { name, to_erase, closed: true, ..Keys::default() });
        });
        for code in shut.codes.iter().chain([&shut.joined_by]) {
            self.by_code.remove(code);
        }
        for (token, _) in &shut.boards {
            self.by_board.remove(token);
        }
        let asked = self.people.iter().filter(|(_, one)| one.inviting.contains(id));
        for address in asked.map(|(address, _)| address.clone()).collect::<Vec<_>>() {
            self.answered(&address, id);
        }
    }

    /// An address holds an office in a squad.
    fn enter_as(&mut self, address: &str, id: &SquadId) {
        let new = self.enter(address, id);
        self.answered(address, id);
        if new {
            self.take(address, id);
        }
    }

    fn officer(&mut self, address: &str, id: &SquadId, holds: bool) {
        let known = self.squads.get(id).is_some_and(|keys| keys.officers.contains(address));
        if holds && !known {
            self.keys(id, |keys| keys.officers.extend([address.to_owned()]));
        } else if known && !holds {
            self.keys(id, |keys| keys.officers.retain(|officer| officer != address));
        }
    }

    /// Forgets that an address was ever in a squad that it is not in.
    pub fn forget(&mut self, address: &str, id: &SquadId) {
        if self.people.get(address).is_some_and(|one| one.left.contains(id)) {
            self.person(address, |one| one.left.retain(|squad| squad != id));
        }
    }

    /// True if the address was not in that squad.
    fn enter(&mut self, address: &str, id: &SquadId) -> bool {
        self.people_of.entry(id.clone()).or_default().insert(address.to_owned());
        let mut new = false;
        self.person(address, |one| {
            new = !one.squads.contains(id);
            if new {
                one.left.retain(|squad| squad != id);
                one.squads.push(id.clone());
            }
        });
        new
    }

    fn take(&mut self, address: &str, id: &SquadId) {
        if self.squads_of(address).len() > 1 {
            self.person(address, |one| one.in_hand = Some(id.clone()));
        }
    }

    fn answered(&mut self, address: &str, id: &SquadId) {
        let asked = self.people.get(address).is_some_and(|one| one.inviting.contains(id));
        if asked {
            self.person(address, |one| one.inviting.retain(|squad| squad != id));
        }
    }

    fn open_by(&mut self, code: &str, id: &SquadId) {
        let code = code.to_uppercase();
        self.by_code.insert(code.clone(), id.clone());
        self.keys(id, |keys| {
            keys.codes.insert(code);
        });
    }

    fn open_board(&mut self, token: &str, until: Timestamp, id: &SquadId) {
        self.by_board.insert(token.to_owned(), id.clone());
        let old = until.checked_sub((SHUT_DAYS * 24).hours()).unwrap_or(Timestamp::MIN);
        let mut shut = Vec::new();
        self.keys(id, |keys| {
            keys.boards.push((token.to_owned(), until));
            shut.extend(keys.boards.extract_if(.., |(_, until)| *until < old));
        });
        for (token, _) in shut {
            self.by_board.remove(&token);
        }
    }

    /// A calendar's address is remembered for good: whether it is shut, the squad says.
    fn open_calendar(&mut self, token: &str, id: &SquadId) {
        self.by_board.insert(token.to_owned(), id.clone());
        self.keys(id, |keys| keys.boards.push((token.to_owned(), Timestamp::MAX)));
    }

    pub(super) fn keys(&mut self, id: &SquadId, change: impl FnOnce(&mut Keys)) {
        change(self.squads.entry(id.clone()).or_default());
        self.dirty_squads.insert(id.clone());
    }

    fn person(&mut self, address: &str, change: impl FnOnce(&mut Belonging)) {
        let one = self.people.entry(address.to_owned()).or_default();
        change(one);
        if *one == Belonging::default() {
            self.people.remove(address);
        }
        self.dirty_people.insert(address.to_owned());
    }
}
