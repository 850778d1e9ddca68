//! What somebody can't or may not do, and what kit there is: `heron no paddles`,
//! `no fly`, `all no paddles`, `paddles ok`, `kit fins board`.

use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::{Event, Right};
use crate::message::{Limits, Statement};
use crate::reply::{LimitsReply, OkReply, Outcome, RefusedWhy};
use crate::session::{Limit, Session};
use crate::units::{Equipment, Stroke};

/// What is left out from now on, or no longer; what the deck said is for the deck
/// to take back.
pub fn limits(
    desk: &mut Desk<'_>,
    statement: &Statement,
    said: &Limits,
) -> Result<Outcome, Stopped> {
    let kept = [Stroke::Free, Stroke::Choice].map(Limit::Stroke);
    match said {
        Limits::Barred { what, .. } if what.iter().any(|one| kept.contains(one)) => {
            Err(refused("limits_free", RefusedWhy::LimitsFree))
        }
        Limits::Barred { what, all: true } => for_all(desk, what, true),
        Limits::Allowed { what, all: true } => for_all(desk, what, false),
        Limits::Barred { what, .. } => for_one(desk, statement, what, true),
        Limits::Allowed { what, .. } => for_one(desk, statement, what, false),
        Limits::KitChanged { have, lack } => kit_changed(desk, statement, have, lack),
        Limits::Kit { kit } => {
            let who = desk.subject(statement)?;
            desk.record(Event::KitSet { who: who.clone(), kit: kit.clone() });
            Ok(told(desk, statement, Some(&who)))
        }
    }
}

/// Kit that is there now, or no longer: beside the rest of what somebody has.
fn kit_changed(
    desk: &mut Desk<'_>,
    statement: &Statement,
    have: &[Equipment],
    lack: &[Equipment],
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let before = desk.swimmer(&who).and_then(|swimmer| swimmer.kit.at(desk.now()).cloned());
    // Who never said what they have is taken to have all of it.
    let whole = || if lack.is_empty() { vec![] } else { Equipment::ALL.to_vec() };
    let mut all = before.unwrap_or_else(whole);
    all.retain(|one| !lack.contains(one) && !have.contains(one));
    all.extend(have);
    all.sort_unstable();
    desk.record(Event::KitSet { who: who.clone(), kit: all });
    Ok(told(desk, statement, Some(&who)))
}

fn for_all(desk: &mut Desk<'_>, what: &[Limit], barred: bool) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let before = desk.squad.limits.at(desk.now()).cloned().unwrap_or_default();
    let limits = changed(&before, what, barred);
    let on = desk.night_meant(None).unwrap_or(desk.evening());
    let shown = |desk: &Desk<'_>| -> Vec<Session> {
        let evening = desk.squad.set_in_force(on, desk.now());
        let sessions = evening.into_iter().flat_map(|evening| evening.sessions());
        sessions.map(|session| desk.shown(session)).collect()
    };
    let set = shown(desk);
    desk.record(Event::LimitsSet { who: None, deck: true, limits: limits.clone() });
    let set_changed = (shown(desk) != set).then_some(on);
    let reply = LimitsReply { who: None, all: true, limits, kit: None, set_changed };
    Ok(Outcome::Ok(OkReply::Limits(reply)))
}

fn for_one(
    desk: &mut Desk<'_>,
    statement: &Statement,
    what: &[Limit],
    barred: bool,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let deck = desk.may(Right::SpeakForOthers) && !desk.is_mine(&who);
    let now = desk.now();
    let swimmer =
        desk.swimmer(&who).ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))?;
    let own = swimmer.limits.at(now).cloned().unwrap_or_default();
    let of_deck = swimmer.deck_limits.at(now).cloned().unwrap_or_default();
    let of_squad = desk.squad.limits.at(now).cloned().unwrap_or_default();
    let theirs = |limit: &Limit| of_squad.contains(limit) || (!deck && of_deck.contains(limit));
    if !barred && what.iter().any(theirs) {
        let limits: Vec<Limit> =
            what.iter().copied().filter(|limit| of_squad.contains(limit)).collect();
        if !limits.is_empty() && desk.may(Right::RunEvening) {
            return Err(refused("squad_limit", RefusedWhy::SquadLimit { limits }));
        }
        return Err(refused("coach_limit", RefusedWhy::CoachLimit));
    }
    let mut set = |deck: bool, limits: Vec<Limit>| {
        desk.record(Event::LimitsSet { who: Some(who.clone()), deck, limits });
    };
    match (deck, barred) {
        (true, true) => set(true, changed(&of_deck, what, true)),
        (false, true) => set(false, changed(&own, what, true)),
        (true, false) => {
            set(true, changed(&of_deck, what, false));
            set(false, changed(&own, what, false));
        }
        (false, false) => set(false, changed(&own, what, false)),
    }
    Ok(told(desk, statement, Some(&who)))
}

fn changed(before: &[Limit], what: &[Limit], barred: bool) -> Vec<Limit> {
    let mut all: Vec<Limit> =
        before.iter().copied().filter(|limit| !what.contains(limit)).collect();
    if barred {
        all.extend(what);
    }
    all.sort_unstable();
    all
}

fn told(view: &View<'_>, statement: &Statement, who: Option<&crate::message::Name>) -> Outcome {
    let swimmer = who.and_then(|who| view.swimmer(who));
    let (limits, kit) = swimmer.map_or_else(Default::default, |swimmer| view.said_of(swimmer));
    let who = statement.who.clone();
    Outcome::Ok(OkReply::Limits(LimitsReply { who, all: false, limits, kit, set_changed: None }))
}
