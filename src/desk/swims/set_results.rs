//! A set that was swum: settled, doubted or stored, and what it promises.

use super::{set_doubts, set_put_right};
use crate::coaching::{self, Change, NextSet, Promise, SetFeedback, SetSwum};
use crate::desk::decision::days::swum_on;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Settled, whole_lengths};
use crate::desk::known::facts::facts;
use crate::history::{Event, Reasons};
use crate::message::{self, Choice, Kind, Message, Name, Statement, TypedTime};
use crate::reply::{Asks, Outcome, QuestionReply, RefusedWhy, SetReply};
use crate::session::Repeat;
use crate::units::{Centis, Distance, Stroke};

/// `8x50 on 1:05 held 48 48 49 …`
pub fn set(
    desk: &mut Desk<'_>,
    statement: &Statement,
    set: &message::SetResult,
    message: &Message,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    if let Some((doubt, options)) = message::count_in_doubt(set) {
        return Err(which_count(desk, statement, doubt, options));
    }
    let course = resolve::course(None, set.distance, desk.course_of(&who));
    let on = swum_on(desk, set.on, course)?;
    let set = &desk.of_their_lane(&who, on, set);
    let stroke = set.stroke.unwrap_or(Stroke::Free);
    let distance = whole_lengths(set.distance, course)?;
    let mut facts = facts(desk, &who)?;
    let (repeat, lane) = desk.set_swum(&who, on, &facts, set, distance);
    let times = repeat_times(set, distance, stroke, repeat.target)?;
    let mut swum = SetSwum { on, held: 0, set: repeat, times };
    // What was told of the same repeats before is put right by it.
    let told = lane.and_then(|_| set_put_right::told_before(desk, &who, &swum));
    if let Some((_, was)) = &told {
        set_put_right::forget_set(&mut facts, was);
    }
    let mut feedback = coaching::feedback_by(desk.asked.book, &facts, &swum);
    swum.held = feedback.held();
    let repeat = desk.swimmer(&who).is_some_and(|swimmer| desk.has_sent(&swimmer.sets, &swum));
    let timed = !set.times.is_empty() || set.average.is_some();
    if !desk.confirmed
        && !repeat
        && let Some(time) = set_doubts::unlike_them(desk, &who, &facts, timed, &swum, &feedback)
    {
        return Err(ask_yes(desk, Asks::Implausible { distance, time }, message));
    }
    desk.close_question_about(&who);
    let (mut promised, mut replaced) = (facts.promised.is_some(), None);
    // To whoever is out nothing is said of what comes next.
    let out = desk.swimmer(&who).and_then(|swimmer| desk.out(swimmer)).is_some();
    if !repeat {
        desk.record(match told {
            Some((cause, was)) => {
                let now = Box::new(swum.clone());
                Event::SetFixed { who: who.clone(), cause, was: Box::new(was), now }
            }
            None => Event::SetSwum { who: who.clone(), set: swum.clone() },
        });
    }
    if !repeat && !out {
        (promised, replaced) = promise(desk, &who, &swum, &mut feedback)?;
    }
    let rules = feedback.rules.clone();
    desk.keep_reasons(Reasons::Set { who: who.clone(), rules });
    Ok(Outcome::Set(SetReply {
        other: statement.who.is_some(),
        swimmer: who,
        set: swum.set,
        lane,
        feedback,
        promised,
        replaced,
        repeat,
    }))
}

/// Promises what a set leads to, and records it: the change if a session of theirs can
/// hold it, else the same set again, else nothing. True if something is promised; and
/// the earlier promise that it replaces.
fn promise(
    desk: &mut Desk<'_>,
    who: &Name,
    swum: &SetSwum,
    feedback: &mut SetFeedback,
) -> Result<(bool, Option<Repeat>), Stopped> {
    if !feedback.is_of_pace() {
        // Easy work leaves what was promised as it is.
        return Ok((false, None));
    }
    let facts = facts(desk, who)?;
    let can = |change: &NextSet| coaching::promised_by(desk.asked.book, &facts, change);
    let mut promise = can(&feedback.change);
    if promise.is_none() {
        let same = NextSet { what: Change::Same, set: swum.set.clone() };
        promise = can(&same);
        if promise.is_some() {
            if feedback.analysis.as_ref().is_some_and(|analysis| analysis.missed == 0) {
                feedback.rules = vec![coaching::RuleId::SameAgain.id().to_owned()];
            }
            feedback.change = same;
        }
    }
    // A test that was promised comes before any set.
    if facts.promised_hard() == Some(&Promise::Test) && matches!(promise, Some(Promise::Set { .. }))
    {
        return Ok((false, None));
    }
    let before = match &facts.promised {
        Some(Promise::Set { set }) => Some(set),
        _ => None,
    };
    let Some(promise) = promise else {
        // What nothing can be promised of leaves another promise as it is, but for one
        // of the same repeats.
        let replaced = before.filter(|set| set.distance == swum.set.distance).cloned();
        if replaced.is_some() {
            desk.record(Event::Promised { who: who.clone(), promise: None });
        }
        return Ok((false, replaced));
    };
    let stays = |set: &Repeat| {
        let new = match &promise {
            Promise::Set { set } => Some(set.distance),
            Promise::Easy | Promise::Test => None,
        };
        set.distance == swum.set.distance || new == Some(set.distance)
    };
    let replaced = before.filter(|set| !stays(set)).cloned();
    desk.record(Event::Promised { who: who.clone(), promise: Some(promise) });
    Ok((true, replaced))
}

/// Asks how many repeats were swum, where others' results stood beside them.
fn which_count(
    desk: &mut Desk<'_>,
    statement: &Statement,
    doubt: message::Doubt,
    options: Vec<(String, message::SetResult)>,
) -> Stopped {
    let choice = |(word, set)| {
        let settled = Statement { who: statement.who.clone(), kind: Kind::SetResult(set) };
        Choice { word, message: Message { statements: vec![settled] } }
    };
    let choices: Vec<Choice> = options.into_iter().map(choice).collect();
    let reply = QuestionReply {
        asks: Asks::Doubt(doubt),
        options: choices.iter().map(|choice| choice.word.clone()).collect(),
        until: desk.question_until(),
    };
    desk.ask(&reply, choices);
    Box::new(Outcome::Question(reply))
}

/// A time a repeat: those given, else the average for each, else the target
/// for those made and a miss for the rest.
fn repeat_times(
    set: &message::SetResult,
    distance: Distance,
    stroke: Stroke,
    target: Option<Centis>,
) -> Result<Vec<Option<Centis>>, Stopped> {
    let one = |typed: &TypedTime| resolve::time(typed, distance, stroke).map(Settled::likelier);
    if !set.times.is_empty() {
        return Ok(resolve::times(&set.times, distance, stroke, target));
    }
    let count = usize::from(set.count);
    if let Some(average) = &set.average {
        return Ok(vec![one(average); count]);
    }
    let made = usize::from(set.made.unwrap_or(set.count)).min(count);
    match target {
        Some(target) => Ok((0..count).map(|at| (at < made).then_some(target)).collect()),
        None => Err(refused("no_test", RefusedWhy::NoTest)),
    }
}
