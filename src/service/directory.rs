//! Who is in which squad, who is asked into one, what a code opens, which of
//! several squads an address means, and what is to be looked after in which
//! squad: all that must be known of squads that are not in memory.

use std::collections::{BTreeSet, HashMap, HashSet};

use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};

use super::record::Record;
use crate::profile::{Event, Role, Squad, SquadId};

/// For how long the address of a page that was shut is remembered.
const SHUT_DAYS: i64 = 2;

/// Where an address belongs. Squads stand in the order of arrival.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Belonging {
    /// The squads that it is in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    squads: Vec<SquadId>,
    /// The squads that asked it in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    inviting: Vec<SquadId>,
    /// The squads that it left.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left: Vec<SquadId>,
    /// The one of several that it means where it names none.
    #[serde(skip_serializing_if = "Option::is_none")]
    in_hand: Option<SquadId>,
}

/// What opens a squad, and what is to be looked after in it.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Keys {
    /// Its name.
    name: String,
    /// The code to join it by.
    joined_by: String,
    /// Codes to claim a guest's history by.
    codes: BTreeSet<String>,
    /// The addresses of its welfare officers.
    #[serde(skip_serializing_if = "BTreeSet::is_empty")]
    officers: BTreeSet<String>,
    /// Digests of its pages' and calendars' addresses, and until when they are open.
    boards: Vec<(String, Timestamp)>,
    /// Not before this instant is anything to be said in it unasked.
    look: Option<Timestamp>,
    /// Someone in it wished to be forgotten, and is still in the log.
    to_erase: bool,
    /// It was closed for good.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    closed: bool,
}

/// Squads by address and by code.
#[derive(Default)]
pub(super) struct Directory {
    people: HashMap<String, Belonging>,
    squads: HashMap<SquadId, Keys>,
    people_of: HashMap<SquadId, BTreeSet<String>>,
    by_code: HashMap<String, SquadId>,
    by_board: HashMap<String, SquadId>,
    /// Those of whom no snapshot says what is so.
    dirty_people: HashSet<String>,
    dirty_squads: HashSet<SquadId>,
}

impl Directory {
    /// True if there is such a squad.
    pub fn holds(&self, id: &SquadId) -> bool {
        self.squads.contains_key(id)
    }

    /// All squads there are, but for those that were closed, in the order of their
    /// ids.
    pub fn ids(&self) -> Vec<SquadId> {
        let open = self.squads.iter().filter(|(_, keys)| !keys.closed);
        let mut ids: Vec<SquadId> = open.map(|(id, _)| id.clone()).collect();
        ids.sort();
        ids
    }

    /// Those among these squads that are called so, in whatever case.
    pub fn named<'a>(&self, name: &str, among: &'a [SquadId]) -> Vec<&'a SquadId> {
        let name = name.to_lowercase();
        let is_it = |id: &&SquadId| self.name(id).is_some_and(|one| one.to_lowercase() == name);
        among.iter().filter(is_it).collect()
    }

    /// A squad's name.
    pub fn name(&self, id: &SquadId) -> Option<&str> {
        self.squads.get(id).map(|keys| keys.name.as_str())
    }

    /// The squads that an address is in, in the order of its joining.
    pub fn squads_of(&self, address: &str) -> &[SquadId] {
        self.people.get(address).map(|one| one.squads.as_slice()).unwrap_or_default()
    }

    /// The addresses of a squad's people, looked at where they stand.
    pub fn people_in(&self, id: &SquadId) -> impl Iterator<Item = &String> {
        self.people_of.get(id).into_iter().flatten()
    }

    /// The addresses of a squad's people.
    pub fn people_of(&self, id: &SquadId) -> BTreeSet<String> {
        self.people_of.get(id).cloned().unwrap_or_default()
    }

    /// The squad that an address means where it names none: its only one, else
    /// the one that it named or joined last.
    pub fn in_hand(&self, address: &str) -> Option<&SquadId> {
        match self.squads_of(address) {
            [only] => Some(only),
            _ => self.people.get(address)?.in_hand.as_ref(),
        }
    }

    /// The squad that asked an address in last.
    pub fn inviting(&self, address: &str) -> Option<&SquadId> {
        self.people.get(address)?.inviting.last()
    }

    /// The squad whose welfare officer hears the worry of somebody in none: one
    /// that asked it in or that it left, else the only one that has an officer.
    pub fn hearing(&self, address: &str) -> Option<&SquadId> {
        let has_officer =
            |id: &&SquadId| self.squads.get(*id).is_some_and(|keys| !keys.officers.is_empty());
        if let Some(one) = self.people.get(address)
            && let Some(id) = one.inviting.iter().chain(&one.left).rev().find(has_officer)
        {
            return Some(id);
        }
        let mut all = self.squads.keys().filter(has_officer);
        all.next().filter(|_| all.next().is_none())
    }

    /// The squad that a code opens.
    pub fn by_code(&self, code: &str) -> Option<&SquadId> {
        self.by_code.get(&code.to_uppercase())
    }

    /// The squad of which a page with this digest was opened.
    pub fn by_board(&self, digest: &str) -> Option<&SquadId> {
        self.by_board.get(digest)
    }

    /// The squads in which something may be to be said unasked at `now`.
    pub fn to_look_at(&self, now: Timestamp) -> Vec<SquadId> {
        let due = |keys: &Keys| !keys.closed && keys.look.is_none_or(|look| look <= now);
        self.squads.iter().filter(|(_, keys)| due(keys)).map(|(id, _)| id.clone()).collect()
    }

    /// Sets when to look again whether something is to be said in a squad; `None`
    /// for at once.
    pub fn look_at(&mut self, id: &SquadId, when: Option<Timestamp>) {
        if let Some(keys) = self.squads.get_mut(id).filter(|keys| keys.look != when) {
            keys.look = when;
            self.dirty_squads.insert(id.clone());
        }
    }

    /// The squads in which someone wished to be forgotten.
    pub fn to_erase(&self) -> Vec<SquadId> {
        self.squads.iter().filter(|(_, keys)| keys.to_erase).map(|(id, _)| id.clone()).collect()
    }

    /// Notes that nobody in a squad is to be erased any more.
    pub fn erased(&mut self, id: &SquadId) {
        self.keys(id, |keys| keys.to_erase = false);
    }

    /// Takes in what a message did in a squad.
    pub fn note(&mut self, id: &SquadId, record: &Record) {
        record.events.iter().for_each(|event| self.note_event(id, event));
        self.look_at(id, None);
        // Where she was, is not known of whoever is forgotten.
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

    /// What changed of people since the last call, by address.
    pub fn changed_people(&mut self) -> HashSet<String> {
        std::mem::take(&mut self.dirty_people)
    }

    /// What changed of squads since the last call.
    pub fn changed_squads(&mut self) -> Vec<(SquadId, Keys)> {
        let dirty = std::mem::take(&mut self.dirty_squads);
        let keys = |id: SquadId| Some((id.clone(), self.squads.get(&id)?.clone()));
        dirty.into_iter().filter_map(keys).collect()
    }

    /// Where an address belongs.
    pub fn belonging(&self, address: &str) -> Belonging {
        self.people.get(address).cloned().unwrap_or_default()
    }

    /// Takes back what [`belonging`](Self::belonging) gave.
    pub fn restore_person(&mut self, address: &str, belonging: Belonging) {
        for id in &belonging.squads {
            self.people_of.entry(id.clone()).or_default().insert(address.to_owned());
        }
        if belonging != Belonging::default() {
            self.people.insert(address.to_owned(), belonging);
        }
    }

    /// Takes back what [`changed_squads`](Self::changed_squads) gave.
    pub fn restore_squad(&mut self, id: &SquadId, keys: Keys) {
        let joined_by = Some(&keys.joined_by).filter(|_| !keys.closed);
        for code in keys.codes.iter().chain(joined_by) {
            self.by_code.insert(code.clone(), id.clone());
        }
        for (board, _) in &keys.boards {
            self.by_board.insert(board.clone(), id.clone());
        }
        self.squads.insert(id.clone(), keys);
    }

    /// Marks all that is known as changed, for a snapshot of everything.
    pub fn touch_all(&mut self) {
        self.dirty_people.extend(self.people.keys().cloned());
        self.dirty_squads.extend(self.squads.keys().cloned());
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

    fn keys(&mut self, id: &SquadId, change: impl FnOnce(&mut Keys)) {
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
