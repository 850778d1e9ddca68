//! Who comes into the squad: by its code, or as they were asked in.

use super::names::fit;
use super::outcomes::belongs;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::{Event, Invitation, Right, Role, TroubleKind, Unnamed};
use crate::message::{Kind, Message, Name, Statement};
use crate::reply::{Asks, Belonging, OfficeLetter, OkReply, Outcome, RefusedWhy};

/// How many people a squad holds (ours: ten times the largest club evening).
const MOST_PEOPLE: usize = 5_000;

/// `join CODE NAME`
pub fn join(desk: &mut Desk<'_>, code: &str, name: &Name) -> Result<Outcome, Stopped> {
    let squad = &desk.squad;
    let expired = squad.expires.is_some_and(|until| until <= desk.asked.wall);
    if !code.eq_ignore_ascii_case(&squad.code) || expired {
        return Err(refused("bad_code", RefusedWhy::BadCode));
    }
    if desk.member().is_some_and(|member| member.names().any(|mine| mine == name)) {
        return Ok(welcome(desk, name));
    }
    if let Some(invitation) = desk.invitation().filter(|asked| asked.role != Role::Swimmer) {
        return desk.takes_office(invitation.role, Some(name.clone()));
    }
    swims(desk, name)
}

/// They swim here from now on. If another swimmer texts from the same telephone, only
/// once it is clear that they are two people.
pub fn swims(desk: &mut Desk<'_>, name: &Name) -> Result<Outcome, Stopped> {
    let address = desk.asked.from.to_owned();
    let own = desk.member().is_some_and(|member| member.answers_to(name));
    let theirs =
        desk.squad.former.get(name).is_none_or(|left| left.address.as_ref() == Some(&address));
    if !theirs || (!own && desk.squad.is_taken(name)) {
        return Err(refused("name_taken", RefusedWhy::NameTaken));
    }
    if desk.squad.swimmers.len().max(desk.squad.members.len()) >= MOST_PEOPLE {
        return Err(refused("squad_full", RefusedWhy::SquadFull));
    }
    if !own {
        fit(desk, name)?;
    }
    if desk.member().is_some_and(|member| member.name.is_some()) && !desk.confirmed {
        let kind = Kind::Join { code: desk.squad.code.clone(), name: name.clone() };
        let message = Message { statements: vec![Statement { who: None, kind }] };
        return Err(ask_yes(desk, Asks::AnotherPerson { name: name.clone() }, &message));
    }
    desk.record(Event::Joined { address, name: name.clone() });
    desk.takes_up_stop(name);
    desk.tell_joined(name);
    Ok(welcome(desk, name))
}

impl View<'_> {
    /// The sender's invitation, if it still holds.
    pub fn invitation(&self) -> Option<Invitation> {
        let invitation = self.squad.invitations.get(self.asked.from)?;
        (invitation.until > self.asked.wall).then(|| invitation.clone())
    }
}

impl Desk<'_> {
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

    /// Someone asked in takes up what they were asked for.
    pub fn takes_office(&mut self, role: Role, called: Option<Name>) -> Result<Outcome, Stopped> {
        if called.as_ref().is_some_and(|name| self.squad.is_taken(name)) {
            return Err(refused("name_taken", RefusedWhy::NameTaken));
        }
        let address = self.asked.from.to_owned();
        self.record(Event::RoleGiven { address, role, called: called.clone() });
        self.tell(Right::Invite, |voice| voice.has_come(called.as_ref(), role));
        Ok(belongs(Belonging::InAs { role, squad: self.squad.name.clone() }))
    }

    /// Tells those who may remove them that somebody is in.
    pub fn tell_joined(&mut self, name: &Name) {
        let squad = self.squad.name.clone();
        let stopped = self.swimmer(name).is_some_and(|one| one.stop_kept(self.now()).is_some());
        let letter = OfficeLetter::Joined { who: name.clone(), squad, stopped };
        self.tell(Right::Remove, |voice| voice.office_letter(&letter));
    }

    /// What was stopped stays stopped, though they were forgotten, or were here by
    /// another name.
    pub fn takes_up_stop(&mut self, name: &Name) {
        let (address, now) = (self.asked.from.to_owned(), self.now());
        let kept = self.squad.stop_outliving(&address);
        let before = self.squad.former.values().filter(|left| left.name != *name);
        let before = before.filter(|left| left.address.as_ref() == Some(&address));
        let before = before.filter_map(|left| left.stop_kept(now)).max_by_key(|stop| stop.since);
        let Some(stop) = kept.or(before) else { return };
        let who = name.clone();
        if stop.knock {
            self.record(Event::HeadKnocked { who: who.clone() });
        }
        let trouble = if stop.held { TroubleKind::Held } else { TroubleKind::Faint };
        self.record(Event::TroubleOpened { who, trouble });
        if kept.is_some() {
            let of = Unnamed::of(&self.squad.id.0, &address);
            self.record(Event::StopTakenUp { of });
        }
    }
}

/// What they are told who is in.
pub fn welcome(view: &View<'_>, name: &Name) -> Outcome {
    Outcome::Ok(OkReply::Joined {
        name: name.clone(),
        squad: view.squad.name.clone(),
        ask_readiness: !view.squad.ready,
        questions: !view.squad.ready && !view.squad.minors,
        minors: view.squad.minors,
        closed: view.squad.is_closed(),
    })
}
