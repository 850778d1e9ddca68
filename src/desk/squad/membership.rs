//! Texts about who belongs: asked in, handed over to, added as a guest, claimed.

use super::codes::code;
use super::inviting::invite;
use super::joining::welcome;
use super::leaving::{leave, remove};
use super::names::fit;
use super::outcomes::belongs;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Settled};
use crate::desk::decision::view::View;
use crate::history::{Event, Pending, Right};
use crate::message::{Guess, Length, Name, People, Statement};
use crate::reply::{Asks, Belonging, Grave, Outcome, RefusedWhy};
use crate::units::{Pace, Stroke};

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

/// `add robin 2:20`: results are texted for them until they have a telephone here.
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
        // Whoever reads along in a room must not claim them.
        code: desk.asked.room.is_none().then_some(code),
    }))
}

/// Someone is in the squad who has no telephone here.
pub fn guest(view: &View<'_>, name: &Name, guess: Option<Pace>) -> Event {
    Event::GuestAdded { name: name.clone(), guess, code: claim_code(view, name) }
}

fn claim_code(view: &View<'_>, name: &Name) -> String {
    code(view, name.as_str(), CLAIM_LETTERS)
}

/// The pace per 100 that a coach takes a guest to swim.
fn pace(view: &View<'_>, guess: &Guess) -> Result<Pace, Stopped> {
    let hundred = Length { amount: 100, unit: None };
    let wrong = || refused("distance", RefusedWhy::Distance);
    let distance = resolve::distance(guess.distance.unwrap_or(hundred), view.squad.course)
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
