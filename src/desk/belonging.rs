//! Who comes into the squad, who goes, who runs it.

use super::bench::{Desk, Stopped, refused};
use super::join::{swims, welcome};
use super::names::fit;
use super::offices::{as_coach, belongs, code};
use super::resolve::{self, Settled};
use super::results::ask_yes;
use crate::language::Language;
use crate::message::{Guess, Kind, Length, Message, Name, Office, People, Statement};
use crate::profile::{Event, Invitation, Pending, Right, Role};
use crate::reply::{self, Asks, Belonging, Grave, Outcome, RefusedWhy};
use crate::units::{Pace, Stroke};
use jiff::{Timestamp, ToSpan};

/// An invitation waits this long (ours).
const INVITED_DAYS: i64 = 14;

/// `invite …`, `hand over …`, `remove …`, `leave`, `add …`, `claim …`, `squads`
pub fn people(
    desk: &mut Desk<'_>,
    statement: &Statement,
    said: &People,
) -> Result<Outcome, Stopped> {
    match said {
        People::Invite { to, office, name } => invite(desk, to, *office, name.as_ref()),
        People::HandOver { to } => hand_over(desk, to),
        People::Remove { name } => remove(desk, name),
        People::Leave => leave(desk, statement),
        People::Add { name, guess } => add(desk, name, guess.as_ref()),
        People::Claim { code } => claim(desk, code),
        People::Squads => Ok(belongs(Belonging::Squads {
            names: desk.asked.squads.to_vec(),
            here: desk.squad.name.clone(),
        })),
    }
}

/// How many may be asked in at once and not have answered (ours: a club's autumn
/// intake).
const ASKED_IN: usize = 200;

/// One text to the address, and nothing is kept of it but the invitation.
fn invite(
    desk: &mut Desk<'_>,
    to: &str,
    office: Option<Office>,
    name: Option<&Name>,
) -> Result<Outcome, Stopped> {
    desk.demand(Right::Invite)?;
    if desk.squad.members.contains_key(to) {
        return Err(refused("already_in", RefusedWhy::AlreadyIn));
    }
    let open = desk.squad.invitations.values().filter(|one| one.until > desk.asked.wall);
    if open.count() >= ASKED_IN && !desk.squad.invitations.contains_key(to) {
        return Err(refused("many_asked_in", RefusedWhy::ManyAskedIn));
    }
    if let Some(name) = name {
        if desk.squad.is_taken(name) {
            return Err(refused("name_taken", RefusedWhy::NameTaken));
        }
        fit(desk, name)?;
    }
    let role = match office {
        None => Role::Swimmer,
        Some(Office::Coach) => Role::Coach,
        Some(Office::Assistant) => Role::Assistant,
        Some(Office::Guardian) => Role::Guardian,
        Some(Office::WelfareOfficer) => Role::WelfareOfficer,
    };
    if role == Role::Coach {
        let (pending, what) = as_coach(to, name);
        return Ok(desk.wants_code(pending, what));
    }
    asked_in(desk, to, role, name.cloned())
}

/// Somebody is asked in, as what the coach says.
pub fn asked_in(
    desk: &mut Desk<'_>,
    to: &str,
    role: Role,
    name: Option<Name>,
) -> Result<Outcome, Stopped> {
    let days = (INVITED_DAYS * 24).hours();
    let until = desk.asked.wall.checked_add(days).unwrap_or(Timestamp::MAX);
    let invitation = Invitation { role, name: name.clone(), until };
    let by = desk.member().and_then(|member| member.goes_by());
    let text = desk.voice().invitation(&desk.squad.name, &desk.squad.code, by, &invitation);
    desk.ask_stranger(to, text)?;
    desk.record(Event::Invited { address: to.to_owned(), invitation });
    Ok(belongs(Belonging::Invited { name, role }))
}

impl Desk<'_> {
    /// The sender's invitation, if it still holds.
    pub fn invitation(&self) -> Option<Invitation> {
        let invitation = self.squad.invitations.get(self.asked.from)?;
        (invitation.until > self.asked.wall).then(|| invitation.clone())
    }

    /// `yes` or `no` from someone who is asked in.
    pub fn invited(&mut self, comes: bool) -> Result<Outcome, Stopped> {
        let gone = || refused("bad_code", RefusedWhy::BadCode);
        let invitation = self.invitation().ok_or_else(gone)?;
        if !comes {
            self.record(Event::InvitationClosed { address: self.asked.from.to_owned() });
            return Ok(belongs(Belonging::Declined));
        }
        match (invitation.role, invitation.name) {
            (Role::Swimmer, None) => {
                Ok(belongs(Belonging::NeedsName { code: self.squad.code.clone() }))
            }
            (Role::Swimmer, Some(name)) => swims(self, &name),
            (role, name) => self.takes_office(role, name),
        }
    }

    /// Someone asked in takes up what she was asked for.
    pub fn takes_office(&mut self, role: Role, called: Option<Name>) -> Result<Outcome, Stopped> {
        if called.as_ref().is_some_and(|name| self.squad.is_taken(name)) {
            return Err(refused("name_taken", RefusedWhy::NameTaken));
        }
        let address = self.asked.from.to_owned();
        let told = reply::voice(Language::English).has_come(called.as_ref(), role);
        self.record(Event::RoleGiven { address, role, called });
        self.tell(Right::Invite, &told);
        Ok(belongs(Belonging::InAs { role, squad: self.squad.name.clone() }))
    }

    /// Asked about once, then done.
    fn sure(&mut self, asks: Asks, who: Option<Name>, said: People) -> Result<(), Stopped> {
        if self.confirmed {
            return Ok(());
        }
        let statement = Statement { who, kind: Kind::People(said) };
        Err(ask_yes(self, asks, &Message { statements: vec![statement] }))
    }

    fn coaches(&self) -> usize {
        self.squad.holders(Right::HandOver).count()
    }
}

/// To one who stands on deck already, once a code has come back; the old coach
/// becomes an assistant.
fn hand_over(desk: &mut Desk<'_>, to: &Name) -> Result<Outcome, Stopped> {
    desk.demand(Right::HandOver)?;
    let address = desk.squad.address_of(to).map(str::to_owned);
    let on_deck = address
        .filter(|address| desk.squad.may(address, Right::RunEvening) && address != desk.asked.from);
    let Some(address) = on_deck else {
        return Err(refused("not_on_deck", RefusedWhy::NotOnDeck { name: to.clone() }));
    };
    let pending = Pending::HandOver { address, to: to.clone() };
    Ok(desk.wants_code(pending, Grave::HandOver { to: to.clone() }))
}

fn remove(desk: &mut Desk<'_>, name: &Name) -> Result<Outcome, Stopped> {
    desk.demand(Right::Remove)?;
    let address = desk.squad.address_of(name).map(str::to_owned);
    if address.is_none() && desk.swimmer(name).is_none() {
        return Err(desk.who_is(name));
    }
    if address.as_deref() == Some(desk.asked.from) {
        return leave(desk, &Statement { who: None, kind: Kind::People(People::Leave) });
    }
    let office = |to: &String| {
        let role = desk.squad.members.get(to).map(|member| member.role);
        matches!(role, Some(Role::Coach | Role::WelfareOfficer))
    };
    if let Some(address) = address.clone().filter(office) {
        return desk.out_of_office(&address);
    }
    desk.sure(Asks::Remove { name: name.clone() }, None, People::Remove { name: name.clone() })?;
    match address {
        Some(address) => part(desk, &address, Some(name)),
        None => desk.record(Event::SwimmerLeft { who: name.clone() }),
    }
    Ok(belongs(Belonging::Removed { name: name.clone() }))
}

/// No more texts, no more access; what was swum stays with the squad.
pub fn leave(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let Some(member) = desk.member() else {
        return Err(refused("not_a_member", RefusedWhy::NotAMember));
    };
    let who = statement.who.clone();
    if who.as_ref().is_some_and(|who| !member.answers_to(who)) {
        return Err(refused("coach_only", RefusedWhy::CoachOnly));
    }
    if member.role == Role::Coach && desk.coaches() < 2 {
        return Err(refused("last_coach", RefusedWhy::LastCoach));
    }
    let squad = desk.squad.name.clone();
    desk.sure(Asks::Leave { squad: squad.clone() }, who.clone(), People::Leave)?;
    let me = who.or_else(|| desk.me().cloned());
    let mine = desk.asked.from;
    part(desk, mine, me.as_ref());
    Ok(belongs(Belonging::Left { squad }))
}

/// Ends the access of an address: of one of the swimmers who text from it, or,
/// where it holds an office, of all that it has here.
pub fn part(desk: &mut Desk<'_>, address: &str, name: Option<&Name>) {
    let Some(member) = desk.squad.members.get(address).cloned() else { return };
    let whole = member.role != Role::Swimmer || name.is_none();
    let names: Vec<Name> =
        member.names().filter(|one| whole || Some(*one) == name).cloned().collect();
    for who in names {
        desk.record(Event::SwimmerLeft { who });
    }
    if whole {
        let wards = desk.squad.wards(address).map(|ward| ward.name.clone());
        for who in wards.collect::<Vec<_>>() {
            desk.record(Event::GuardianEnded { who });
        }
        desk.record(Event::AccessEnded { address: address.to_owned() });
    }
}

/// `add robin 2:20`: results are texted for her until she has a telephone here.
fn add(desk: &mut Desk<'_>, name: &Name, guess: Option<&Guess>) -> Result<Outcome, Stopped> {
    desk.demand(Right::AddGuest)?;
    if desk.squad.is_taken(name) {
        return Err(refused("name_taken", RefusedWhy::NameTaken));
    }
    fit(desk, name)?;
    let guess = guess.map(|guess| pace(desk, guess)).transpose()?;
    let code = claim_code(desk, name);
    desk.record(guest(desk, name, guess));
    Ok(belongs(Belonging::GuestAdded {
        name: name.clone(),
        guess,
        // Whoever reads along in a room must not claim her.
        code: desk.asked.room.is_none().then_some(code),
    }))
}

/// Someone is in the squad who has no telephone here.
pub fn guest(desk: &Desk<'_>, name: &Name, guess: Option<Pace>) -> Event {
    Event::GuestAdded { name: name.clone(), guess, code: claim_code(desk, name) }
}

fn claim_code(desk: &Desk<'_>, name: &Name) -> String {
    code(desk, name.as_str(), CLAIM_LETTERS)
}

/// The pace per 100 that a coach takes a guest to swim.
fn pace(desk: &Desk<'_>, guess: &Guess) -> Result<Pace, Stopped> {
    let hundred = Length { amount: 100, unit: None };
    let wrong = || refused("distance", RefusedWhy::Distance);
    let distance = resolve::distance(guess.distance.unwrap_or(hundred), desk.squad.course)
        .ok_or_else(wrong)?;
    match resolve::time(&guess.time, distance, Stroke::Free).ok_or_else(wrong)? {
        Settled::Sure(time) | Settled::Two(time, _) => Ok(Pace::of(distance, time)),
        Settled::Unlikely(time) | Settled::Impossible(time) => {
            Err(refused("time", RefusedWhy::Unlikely { distance, time }))
        }
    }
}

/// How many letters a guest's code has.
const CLAIM_LETTERS: usize = 8;

/// `claim CODE`: the history kept of a guest becomes that of this telephone.
fn claim(desk: &mut Desk<'_>, code: &str) -> Result<Outcome, Stopped> {
    let unknown = || refused("bad_code", RefusedWhy::BadCode);
    let name = desk.squad.claims.get(code).cloned().ok_or_else(unknown)?;
    if desk.member().is_some_and(|member| member.name.is_some()) {
        let asks = Asks::AnotherPerson { name: name.clone() };
        desk.sure(asks, None, People::Claim { code: code.to_owned() })?;
    }
    let address = desk.asked.from.to_owned();
    desk.record(Event::Claimed { address, name: name.clone() });
    desk.takes_up_stop(&name);
    desk.tell_joined(&name);
    Ok(welcome(desk, &name))
}
