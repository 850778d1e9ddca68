//! Who goes, by their own word or by the coach's, and what ends then.

use super::outcomes::{belongs, office_done};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused, turned_down};
use crate::desk::decision::view::View;
use crate::history::{Event, Pending, Right, Role};
use crate::message::{Kind, Name, People, Statement};
use crate::reply::{Asks, Belonging, Grave, OfficeDone, OfficeRefusal, Outcome, RefusedWhy};

/// `remove heron`: whoever is named goes, an officer or a coach only with a code.
pub fn remove(desk: &mut Desk<'_>, name: &Name) -> Result<Outcome, Stopped> {
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

impl Desk<'_> {
    /// Takes an office from whoever texts from an address. A coach and a welfare
    /// officer go only with a code: nobody shall do that in another's name, nor
    /// put an officer out of the way.
    pub fn out_of_office(&mut self, address: &str) -> Result<Outcome, Stopped> {
        let Some(member) = self.squad.members.get(address).cloned() else {
            return Err(turned_down("no_office", OfficeRefusal::NoSuchOffice));
        };
        let who = member.goes_by().map_or_else(|| address.to_owned(), Name::to_string);
        let by_officer = self.may(Right::HearWelfare);
        let pending = Pending::Goes { address: address.to_owned() };
        match member.role {
            Role::Coach => Ok(self.wants_code(pending, Grave::CoachGoes { who })),
            Role::WelfareOfficer if !by_officer => Ok(self.wants_code(pending, Grave::OfficerGoes)),
            _ => {
                self.parts(address);
                Ok(office_done(OfficeDone::OutOfOffice { who }))
            }
        }
    }

    /// All that an address has here ends.
    pub fn parts(&mut self, address: &str) {
        part(self, address, None);
    }
}

impl View<'_> {
    fn coaches(&self) -> usize {
        self.squad.holders(Right::HandOver).count()
    }
}
