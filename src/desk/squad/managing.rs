//! What whoever runs the server does with a whole squad: another name, another code,
//! an office that ends, the squad's own end. No text can ask for these.

use super::codes::code;
use super::leaving;
use crate::desk::decision::asked::Asked;
use crate::desk::decision::decided::Say;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::history::{Event, Right, Role, Squad, Touched};
use crate::message::Name;
use crate::reply::{Grave, OfficeLetter};

/// As many letters as a code has that a squad is opened with.
const JOIN_LETTERS: usize = 8;

/// What was done with a squad, ready to be stored.
#[derive(Debug)]
pub struct Managed {
    /// What happened.
    pub events: Vec<Event>,
    /// What to say, to whom.
    pub said: Vec<Say>,
    /// The squad with that folded in.
    pub squad: Squad,
    /// What of it changed.
    pub touched: Vec<Touched>,
}

/// Why an office was not taken from anybody.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NotTaken {
    /// Nobody who texts from there holds one.
    #[error("nobody who texts from there holds an office; `lapwing squad staff` lists who does")]
    NoOffice,
    /// The squad would have nobody to run it.
    #[error(
        "that is the squad's only coach: let them text `hand over` or `invite ADDRESS coach` \
         first, or remove the squad"
    )]
    OnlyCoach,
    /// Minors swim in it, and nobody else hears of harm.
    #[error(
        "that is the only welfare officer of a squad with minors: let the coach name another first"
    )]
    OnlyOfficer,
}

/// Gives the squad another name.
pub fn renamed(squad: &Squad, asked: &Asked<'_>, name: String) -> Managed {
    let mut desk = Desk::new(squad, asked);
    desk.record(Event::SquadRenamed { name });
    managed(desk)
}

/// Has the squad joined by another code.
pub fn code_renewed(squad: &Squad, asked: &Asked<'_>) -> Managed {
    let mut desk = Desk::new(squad, asked);
    let code = code(&desk, "join", JOIN_LETTERS);
    desk.record(Event::CodeRenewed { code });
    managed(desk)
}

/// Takes their office from whoever texts from an address. The other coaches are told
/// where a coach or an officer goes.
///
/// # Errors
/// They hold none, or nobody else holds one that there must be.
pub fn out_of_office(squad: &Squad, asked: &Asked<'_>, address: &str) -> Result<Managed, NotTaken> {
    let mut desk = Desk::new(squad, asked);
    let second = squad.safe.second_contact.as_deref() == Some(address);
    let member = squad.members.get(address).filter(|member| member.role != Role::Swimmer);
    if member.is_none() && !second {
        return Err(NotTaken::NoOffice);
    }
    if second {
        desk.record(Event::SecondContactNamed { address: None });
    }
    let Some(member) = member else { return Ok(managed(desk)) };
    let only = |role| squad.members.values().filter(|other| other.role == role).count() < 2;
    let who = member.goes_by().map_or_else(|| address.to_owned(), Name::to_string);
    let what = match member.role {
        Role::Coach if only(Role::Coach) => return Err(NotTaken::OnlyCoach),
        Role::WelfareOfficer if squad.minors && only(Role::WelfareOfficer) => {
            return Err(NotTaken::OnlyOfficer);
        }
        Role::Coach => Some(Grave::CoachGoes { who }),
        Role::WelfareOfficer => Some(Grave::OfficerGoes),
        Role::Assistant | Role::Guardian | Role::Swimmer => None,
    };
    desk.parts(address);
    if let Some(what) = what {
        let told = OfficeLetter::Confirmed { what, squad: squad.name.clone() };
        desk.tell(Right::HandOver, |voice| voice.office_letter(&told));
    }
    Ok(managed(desk))
}

/// Closes the squad: everybody leaves it, and no code or page opens it any more. With
/// `erase`, every swimmer of it is forgotten as if they had asked for it.
pub fn closed(squad: &Squad, asked: &Asked<'_>, erase: bool) -> Managed {
    let mut desk = Desk::new(squad, asked);
    if erase {
        let all = squad.swimmers.keys().chain(squad.former.keys());
        for who in all.cloned().collect::<Vec<_>>() {
            desk.outlives(&who);
            desk.record(Event::Forgotten { who });
        }
    }
    let guests = squad.swimmers.values().filter(|swimmer| swimmer.address.is_none());
    for who in guests.map(|swimmer| swimmer.name.clone()).collect::<Vec<_>>() {
        if desk.squad.swimmers.contains_key(&who) {
            desk.record(Event::SwimmerLeft { who });
        }
    }
    for address in desk.squad.members.keys().cloned().collect::<Vec<_>>() {
        leaving::part(&mut desk, &address, None);
    }
    if !squad.closed {
        desk.record(Event::SquadClosed);
    }
    managed(desk)
}

fn managed(desk: Desk<'_>) -> Managed {
    let Desk { events, to_others, view: View { squad, .. }, touched, .. } = desk;
    Managed { events, said: to_others, squad, touched }
}
