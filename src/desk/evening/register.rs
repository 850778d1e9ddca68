//! The register: who is at the pool.

use jiff::civil::Date;

use super::outcomes::became_of_lanes;
use super::tonight::Tonight;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::with_name;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::{Event, Presence, Right};
use crate::message::{Choice, Day, Kind, Message, Name, Statement};
use crate::reply::{Asks, OkReply, Outcome, QuestionReply, RefusedWhy, RegisterReply};

/// `here heron teal`, `all here bar wren`; `here` alone shows the register.
pub fn here(
    desk: &mut Desk<'_>,
    statement: &Statement,
    names: &[Name],
    all_but: bool,
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = desk.evening_meant(on)?;
    if names.is_empty() && !all_but {
        return Ok(Outcome::Ok(OkReply::Register(register(desk, on, true))));
    }
    let before = desk.tonight(on);
    let (known, unknown) = desk.known_of(names);
    if all_but {
        // Who may be meant by a name that is asked about waits too.
        let open: Vec<Name> = unknown.iter().flat_map(|name| desk.like(name)).collect();
        let now = desk.now();
        let all: Vec<Name> =
            desk.squad.expected_on(on, now).map(|swimmer| swimmer.name.clone()).collect();
        let there = all.into_iter().filter(|name| !known.contains(name) && !open.contains(name));
        mark(desk, on, Presence::Here, there.collect());
        mark(desk, on, Presence::Absent, known);
    } else if known.is_empty() {
        return Err(nobody_known(desk, &unknown));
    } else {
        mark(desk, on, Presence::Here, known);
    }
    Ok(taken(desk, &before, statement, &unknown))
}

/// `absent wren`
pub fn absent(
    desk: &mut Desk<'_>,
    statement: &Statement,
    names: &[Name],
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = desk.evening_meant(on)?;
    let (known, unknown) = desk.known_of(names);
    if known.is_empty() {
        return Err(nobody_known(desk, &unknown));
    }
    let before = desk.tonight(on);
    mark(desk, on, Presence::Absent, known);
    Ok(taken(desk, &before, statement, &unknown))
}

impl View<'_> {
    /// Those of `names` who swim here, and those to be asked about.
    fn known_of(&self, names: &[Name]) -> (Vec<Name>, Vec<Name>) {
        names.iter().cloned().partition(|name| self.squad.swimmers.contains_key(name))
    }
}

/// A question about the first of those not known, where nothing else is said.
fn nobody_known(view: &View<'_>, unknown: &[Name]) -> Stopped {
    match unknown.first() {
        Some(name) => view.who_is(name),
        None => refused("nothing", RefusedWhy::Nothing),
    }
}

fn mark(desk: &mut Desk<'_>, on: Date, presence: Presence, names: Vec<Name>) {
    for who in names {
        desk.record(match presence {
            Presence::Here => Event::MarkedHere { who, on },
            Presence::Absent => Event::MarkedAbsent { who, on },
        });
    }
}

/// What was stored, and beside it the question about the first who is not
/// known; the others not known wait for its answer.
fn taken(
    desk: &mut Desk<'_>,
    before: &Tonight,
    statement: &Statement,
    unknown: &[Name],
) -> Outcome {
    let mut reply = register(desk, before.on, false);
    reply.lanes = became_of_lanes(desk, before).map(Box::new);
    if unknown.is_empty() && matches!(statement.kind, Kind::Here { all_but: true, .. }) {
        // "All" is who was looked for; who was not must not be lost on the way.
        reply.left_out = left_out(desk, &reply);
    }
    let stored = Outcome::Ok(OkReply::Register(reply));
    let Some(name) = unknown.first() else { return stored };
    let Outcome::Question(asked) = *desk.who_is(name) else { return stored };
    let message = Message { statements: vec![statement.clone()] };
    let mut choices: Vec<Choice> =
        asked.options.iter().filter_map(|option| with_name(&message, name, option)).collect();
    if unknown.len() > 1 {
        choices.push(Choice { word: "no".into(), message: without(&message, name) });
    }
    let reply = QuestionReply { asks: Asks::WhoElse { name: name.clone() }, ..asked };
    desk.ask(&reply, choices);
    Outcome::Mixed(vec![stored, Outcome::Question(reply)])
}

/// Those who were not looked for, and were not there.
pub fn left_out(view: &View<'_>, reply: &RegisterReply) -> Vec<Name> {
    let marked = |name: &&Name| {
        [&reply.here, &reply.absent, &reply.unmarked].iter().any(|all| all.contains(name))
    };
    view.squad.swimmers.keys().filter(|name| !marked(name)).cloned().collect()
}

/// The message without one of the names in its lists.
fn without(message: &Message, name: &Name) -> Message {
    let mut message = message.clone();
    for statement in &mut message.statements {
        if let Kind::Here { names, .. } | Kind::Absent { names, .. } = &mut statement.kind {
            names.retain(|one| one != name);
        }
    }
    message
}

/// The register of `on` as it now stands.
pub fn register(view: &View<'_>, on: Date, listed: bool) -> RegisterReply {
    let now = view.now();
    let here: Vec<Name> = view.squad.here_on(on, now).map(|one| one.name.clone()).collect();
    let absent: Vec<Name> = view.squad.absent_on(on, now).map(|one| one.name.clone()).collect();
    let unmarked = view
        .squad
        .expected_on(on, now)
        .filter(|swimmer| swimmer.seen_on(on, now).is_none())
        .map(|swimmer| swimmer.name.clone())
        .collect();
    let stopped = view
        .squad
        .here_on(on, now)
        .filter(|one| one.is_stopped(now))
        .map(|one| one.name.clone())
        .collect();
    RegisterReply { on, here, absent, unmarked, stopped, left_out: vec![], listed, lanes: None }
}
