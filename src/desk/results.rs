//! Results: tests, sets, sessions done or missed, and what can be computed
//! from them.

use jiff::ToSpan;
use jiff::civil::Date;

use super::approval;
use super::bench::{Desk, Stopped, refused};
use super::facts::{from_a_push, trials};
use super::help::main_of;
use super::resolve::{self, Settled, Toward};
use super::{set_doubts, set_repair};
use crate::coaching::{
    self, Change, Facts, NextSet, OtherTraining, Promise, SessionWish, SetFeedback, SetSwum, Swum,
};
use crate::message::{self, Choice, Day, Kind, Length, Message, Name, Statement, TypedTime};
use crate::profile::{Event, Reasons, TestKept};
use crate::reply::{
    Asks, DoneReply, Outcome, PredictionReply, QuestionReply, RefusedWhy, SetReply, TargetsReply,
    TestReply,
};
use crate::session::Repeat;
use crate::swim::critical_speed;
use crate::swim::even_pace;
use crate::swim::linear::{self, ImpossiblePair};
use crate::swim::next_test::next_test;
use crate::swim::plausible::{self, Acquaintance, Verdict};
use crate::swim::prediction::Reach;
use crate::swim::{self, Trial};
use crate::units::{Centis, Course, Distance, Rpe, Start, Stroke};

/// `200 test 3:12`
pub fn test(
    desk: &mut Desk<'_>,
    statement: &Statement,
    test: &message::Test,
    message: &Message,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let course = resolve::course(test.course, test.distance, desk.course_of(&who));
    let stroke = test.stroke.unwrap_or(Stroke::Free);
    let distance = whole_lengths(test.distance, course)?;
    let on = swum_on(desk, test.on, course)?;
    let time = settle(desk, &test.time, distance, stroke, message)?;
    let trial = Trial { distance, time, stroke, course, on, meet: test.meet };
    let kept = TestKept::new(trial, test.splits.clone(), test.start);
    store_test(desk, statement, who, kept, message)
}

/// `30min test 1850`
pub fn timed_test(
    desk: &mut Desk<'_>,
    statement: &Statement,
    test: &message::TimedTest,
    message: &Message,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let course = resolve::course(test.course, test.distance, desk.course_of(&who));
    let stroke = test.stroke.unwrap_or(Stroke::Free);
    // It may end between the walls.
    let distance = resolve::distance(test.distance, course)
        .ok_or_else(|| refused("distance", RefusedWhy::Distance))?;
    let on = swum_on(desk, test.on, course)?;
    let time = settle(desk, &TypedTime::sure(test.duration), distance, stroke, message)?;
    let trial = Trial { distance, time, stroke, course, on, meet: false };
    let kept = TestKept::new(trial, vec![], None);
    store_test(desk, statement, who, kept, message)
}

fn store_test(
    desk: &mut Desk<'_>,
    statement: &Statement,
    who: Name,
    kept: TestKept,
    message: &Message,
) -> Result<Outcome, Stopped> {
    let trial = kept.trial;
    let start = kept.began();
    let start_taken = start_taken(&kept);
    let before: Vec<Trial> =
        desk.swimmer(&who).map(|swimmer| trials(swimmer, desk).collect()).unwrap_or_default();
    let pushed = from_a_push(&kept);
    let repeat = desk.swimmer(&who).is_some_and(|swimmer| desk.has_sent(&swimmer.tests, &kept));
    if !desk.confirmed
        && !repeat
        && let Some(old) = impossible_with(&trial, &before)
    {
        return Err(ask_yes(desk, Asks::ImpossiblePair { new: trial, old }, message));
    }
    if !desk.confirmed && !repeat && is_unlike_her(desk, &who, &pushed, None) {
        let asks = Asks::Implausible { distance: trial.distance, time: trial.time };
        return Err(ask_yes(desk, asks, message));
    }
    let could = desk.swimmer(&who).and_then(|swimmer| desk.ability(swimmer).unbroken);
    let farther = could.is_some_and(|far| trial.distance.metres() > far.metres());
    let race = desk.swimmer(&who).and_then(|swimmer| swimmer.race.at(desk.now()));
    let raced = race.filter(|race| race.on == trial.on && race.distance == trial.distance);
    let goal = raced.filter(|race| race.stroke == trial.stroke).and_then(|race| race.goal);
    let dropped = match desk.swimmer(&who).and_then(|swimmer| desk.promised(swimmer)) {
        Some(Promise::Set { set }) if !repeat && set.stroke == trial.stroke => Some(set),
        _ => None,
    };
    desk.close_question_about(&who);
    if !repeat {
        desk.record(Event::TestSwum { who: who.clone(), test: kept });
    }
    let facts = facts(desk, &who)?;
    let best_before =
        before.iter().filter(|other| alike(other, &trial)).map(|other| other.time).min();
    let out = desk.swimmer(&who).and_then(|swimmer| desk.out(swimmer)).is_some();
    // Whoever builds up how far they can swim without a stop has no pace to hold yet.
    let builds_up = coaching::test_to_come(&facts).is_some();
    let targets = match builds_up {
        true => vec![],
        false => even_pace::targets(trial.distance, trial.time, trial.course, start),
    };
    let critical = critical_speed::estimate(&facts.tests, facts.today, trial.stroke, trial.course);
    let next = if out || repeat || desk.is_asked_of_danger(&who) {
        None
    } else {
        approval::session(desk, &who, &facts, &SessionWish::default()).ok().map(|(next, _)| next)
    };
    if let Some(session) = &next {
        desk.record(Event::SessionSuggested { who: who.clone(), session: session.clone() });
    }
    let (rules, without) = next
        .as_ref()
        .map(|session| (session.rules.clone(), session.without.clone()))
        .unwrap_or_default();
    let main = main_of(&who, &next);
    desk.keep_reasons(Reasons::Test { who: who.clone(), rules, without, main });
    Ok(Outcome::Test(TestReply {
        other: desk.me() != Some(&who) || statement.who.is_some(),
        swimmer: who,
        trial,
        personal_best: best_before.is_none_or(|best| trial.time <= best),
        best_before,
        targets,
        test_next: match coaching::test_to_come(&facts) {
            Some(far) => Distance::new(far, trial.course.unit()).ok(),
            None => next_test(&facts.tests, facts.today, trial.stroke, trial.course)
                .map(|next| next.distance),
        },
        farther,
        goal,
        critical,
        next,
        dropped,
        start_taken,
        repeat,
    }))
}

/// How a test is taken to have begun, where nobody said and it tells in the time:
/// over 25, 50 and 100, and at a meet.
fn start_taken(kept: &TestKept) -> Option<Start> {
    let tells = kept.trial.meet || kept.trial.distance.amount() <= 100;
    (kept.start.is_none() && tells && kept.trial.course != Course::OpenWater).then(|| kept.began())
}

/// Over 8 % faster (12 % in her first eight weeks) or 20 % slower than her own
/// tests let expect (common practice, no source).
///
/// `new` as from a push; `but` is a test of hers that it takes the place of.
pub fn is_unlike_her(desk: &Desk<'_>, who: &Name, new: &Trial, but: Option<&TestKept>) -> bool {
    beside_her_tests(desk, who, new, but).is_some_and(|verdict| verdict != Verdict::Plausible)
}

/// What her tests say of a time; nothing where they reach no further.
pub fn beside_her_tests(
    desk: &Desk<'_>,
    who: &Name,
    new: &Trial,
    but: Option<&TestKept>,
) -> Option<Verdict> {
    let swimmer = desk.swimmer(who)?;
    let acquaintance = match (new.on - swimmer.joined_on).get_days() {
        ..=55 => Acquaintance::FirstWeeks,
        _ => Acquaintance::Settled,
    };
    let known = swimmer.tests.as_of(desk.now()).map(|kept| &kept.what);
    let known: Vec<Trial> = known.filter(|kept| Some(*kept) != but).map(from_a_push).collect();
    swim::prediction::predict(&known, new.on, new.stroke, new.course, new.distance)
        .filter(|expected| expected.reach == Reach::Within)
        .map(|expected| plausible::check_against(expected.time, new.time, acquaintance))
}

/// The test that a new one can't be true beside: longer and yet faster, or
/// shorter and yet slower.
fn impossible_with(new: &Trial, known: &[Trial]) -> Option<Trial> {
    let mut all: Vec<Trial> = known
        .iter()
        .filter(|other| {
            other.stroke == new.stroke
                && other.course == new.course
                && (0..=critical_speed::WINDOW_DAYS).contains(&other.days_before(new.on))
        })
        .copied()
        .collect();
    all.push(*new);
    linear::impossible_pairs(&all).into_iter().find_map(|ImpossiblePair { shorter, longer }| {
        if shorter == *new {
            Some(longer)
        } else if longer == *new {
            Some(shorter)
        } else {
            None
        }
    })
}

fn alike(one: &Trial, other: &Trial) -> bool {
    one.distance == other.distance && one.stroke == other.stroke && one.course == other.course
}

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
    let set = &desk.of_her_lane(&who, on, set);
    let stroke = set.stroke.unwrap_or(Stroke::Free);
    let distance = whole_lengths(set.distance, course)?;
    let mut facts = facts(desk, &who)?;
    let (repeat, lane) = desk.set_swum(&who, on, &facts, set, distance);
    let times = repeat_times(set, distance, stroke, repeat.target)?;
    let mut swum = SetSwum { on, held: 0, set: repeat, times };
    // What was told of the same repeats before is put right by it.
    let told = lane.and_then(|_| set_repair::told_before(desk, &who, &swum));
    if let Some((_, was)) = &told {
        set_repair::forget_set(&mut facts, was);
    }
    let mut feedback = coaching::feedback_by(desk.asked.book, &facts, &swum);
    swum.held = feedback.held();
    let repeat = desk.swimmer(&who).is_some_and(|swimmer| desk.has_sent(&swimmer.sets, &swum));
    let timed = !set.times.is_empty() || set.average.is_some();
    if !desk.confirmed
        && !repeat
        && let Some(time) = set_doubts::unlike_her(desk, &who, &facts, timed, &swum, &feedback)
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

/// Promises what a set leads to, and keeps it: the change that was settled if a
/// session of hers can hold it, else the same again, else nothing. True if
/// something is promised; and the set promised before in whose place it comes.
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

/// `done 1500 45min rpe 6`
pub fn done(
    desk: &mut Desk<'_>,
    statement: &Statement,
    done: &message::Done,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let course = desk.course_of(&who);
    let on = swum_on(desk, done.on, course)?;
    let minutes = done.duration.map(whole_minutes);
    desk.close_question_about(&who);
    if done.sport.is_some() {
        let training = OtherTraining { on, minutes, rpe: done.rpe };
        let repeat =
            desk.swimmer(&who).is_some_and(|swimmer| desk.has_sent(&swimmer.other, &training));
        if !repeat {
            desk.record(Event::OtherTrained { who: who.clone(), training });
        }
        return Ok(Outcome::Done(DoneReply {
            swimmer: who,
            distance: None,
            duration: done.duration,
            rpe: done.rpe,
            on,
            load: load(done.rpe, minutes),
            week: None,
            eased: None,
            elsewhere: true,
            repeat,
        }));
    }
    if desk.swimmer(&who).is_none() {
        return Err(refused("not_a_swimmer", RefusedWhy::NotASwimmer));
    }
    let lengths = done.lengths.and_then(|count| resolve::lengths(count, course));
    let length = done.distance.or(lengths);
    // What was suggested matters only where something isn't said.
    let suggested = match (length, done.rpe) {
        (Some(_), Some(_)) => None,
        _ => {
            let suggested = facts(desk, &who)?.suggested;
            suggested.into_iter().rev().find(|session| session.on == on)
        }
    };
    let suggested = suggested.as_ref();
    let effort_alone = done.distance.is_none()
        && done.lengths.is_none()
        && done.duration.is_none()
        && done.rpe.is_some()
        && !done.shortened;
    let distance = match length {
        Some(length) => Some(
            resolve::distance(length, course)
                .ok_or_else(|| refused("distance", RefusedWhy::Distance))?,
        ),
        None if done.shortened => None,
        // On a night on which she was seen, the night's set was hers.
        None => desk
            .seen_swum(&who, on)
            .filter(|swum| swum.presumed || effort_alone)
            .and_then(|swum| swum.distance)
            .or_else(|| {
                suggested.and_then(|session| Distance::new(session.amount(), session.unit).ok())
            }),
    };
    if let (Some(distance), Some(time)) = (distance, done.duration)
        && !desk.confirmed
        && distance.metres().get() / time.seconds() > FASTEST_SESSION
    {
        let asks = Asks::Implausible { distance, time };
        return Err(ask_yes(desk, asks, &Message { statements: vec![statement.clone()] }));
    }
    let hard = match done.rpe {
        Some(rpe) => rpe.tenths() >= HARD_RPE_TENTHS,
        None => suggested.is_some_and(coaching::is_hard),
    };
    let swum = Swum { on, distance, minutes, rpe: done.rpe, presumed: false, effort_alone, hard };
    let repeat = desk.swimmer(&who).is_some_and(|swimmer| desk.has_sent(&swimmer.swims, &swum));
    if !repeat {
        desk.record(Event::SessionSwum { who: who.clone(), swum: swum.clone() });
    }
    let facts = facts(desk, &who)?;
    let eased = coaching::eases(desk.asked.book, &facts, &swum).filter(|_| !repeat);
    let week = week_distance(desk, &who, course);
    Ok(Outcome::Done(DoneReply {
        swimmer: who,
        distance,
        duration: done.duration,
        rpe: done.rpe,
        on,
        load: load(done.rpe, minutes),
        week,
        eased,
        elsewhere: false,
        repeat,
    }))
}

/// Metres a second over a whole session that are asked about: faster than the
/// fastest swim long distances (ours).
const FASTEST_SESSION: f64 = 1.8;

/// A session felt as hard as this counts as a hard day: 6, between hard and
/// very hard on the scale of Foster et al. 2001 (the choice is ours).
const HARD_RPE_TENTHS: u8 = 60;

/// RPE × minutes (Foster et al. 2001, J Strength Cond Res 15(1):109-115).
fn load(rpe: Option<Rpe>, minutes: Option<u16>) -> Option<u32> {
    let (rpe, minutes) = (rpe?, minutes?);
    Some((u32::from(rpe.tenths()) * u32::from(minutes) + 5) / 10)
}

fn whole_minutes(time: Centis) -> u16 {
    u16::try_from((time.hundredths() + 3000) / 6000).unwrap_or(u16::MAX)
}

/// What she swam in the seven days that end today, in her pool's unit.
fn week_distance(desk: &Desk<'_>, who: &Name, course: Course) -> Option<Distance> {
    let since = desk.today.checked_sub(6.days()).ok()?;
    let metres: f64 = desk
        .swum_since(desk.swimmer(who)?, since)
        .iter()
        .filter_map(|swum| swum.distance)
        .map(|distance| distance.metres().get())
        .sum();
    let amount = (metres / course.unit().in_metres()).round();
    Distance::new(amount as u32, course.unit()).ok()
}

/// `missed tue`
pub fn missed(
    desk: &mut Desk<'_>,
    statement: &Statement,
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let on = swum_on(desk, on, desk.course_of(&who))?;
    desk.record(Event::SessionMissed { who, on });
    Ok(Outcome::Ok(crate::reply::OkReply::Missed { on }))
}

/// `away until 20/11`
pub fn away(
    desk: &mut Desk<'_>,
    statement: &Statement,
    from: Option<Day>,
    until: Day,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let unit = desk.course_of(&who).unit();
    let ahead = |day: Day| {
        resolve::day(day, desk.today, unit, Toward::Future)
            .ok_or_else(|| refused("day", RefusedWhy::Nothing))
    };
    let (from, until) = (from.map(ahead).transpose()?, ahead(until)?);
    desk.record(Event::WentAway { who, from, until });
    Ok(Outcome::Ok(crate::reply::OkReply::Away { from, until }))
}

/// `targets`
pub fn targets(
    desk: &mut Desk<'_>,
    statement: &Statement,
    distances: &[Length],
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let facts = facts(desk, &who)?;
    let trial = latest_test(&facts).ok_or_else(|| refused("no_test", RefusedWhy::NoTest))?;
    let wanted: Vec<Distance> =
        distances.iter().filter_map(|length| resolve::distance(*length, trial.course)).collect();
    Ok(Outcome::Targets(TargetsReply {
        trial,
        targets: coaching::targets(&facts, &wanted),
        own: coaching::own_holds(&facts),
        critical: critical_speed::estimate(&facts.tests, facts.today, trial.stroke, trial.course),
    }))
}

/// `predict 1500`
pub fn predict(
    desk: &mut Desk<'_>,
    statement: &Statement,
    distance: Length,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let facts = facts(desk, &who)?;
    let latest = latest_test(&facts).ok_or_else(|| refused("no_test", RefusedWhy::NoTest))?;
    let course = resolve::course(None, distance, latest.course);
    let distance = resolve::distance(distance, course)
        .ok_or_else(|| refused("distance", RefusedWhy::Distance))?;
    desk.keep_reasons(Reasons::Prediction { who, distance });
    let prediction =
        swim::prediction::predict(&facts.tests, facts.today, latest.stroke, course, distance)
            .ok_or_else(|| refused("no_test", RefusedWhy::NoTest))?
            .begun(facts.sprints_from);
    Ok(Outcome::Prediction(PredictionReply { prediction, race: None }))
}

/// The test that targets come from: the latest of the pool she swims in, else
/// the latest.
pub fn latest_test(facts: &Facts) -> Option<Trial> {
    let here = |trial: &&Trial| trial.course == facts.course && trial.stroke == Stroke::Free;
    facts
        .tests
        .iter()
        .rev()
        .find(here)
        .or_else(|| facts.tests.iter().rev().find(|trial| trial.course == facts.course))
        .or(facts.tests.last())
        .copied()
}

/// The facts of a swimmer who is known to be there.
pub fn facts(desk: &Desk<'_>, who: &Name) -> Result<Facts, Stopped> {
    desk.facts(who).ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))
}

/// The day something was swum; not one that has not come.
pub fn swum_on(desk: &Desk<'_>, typed: Option<Day>, course: Course) -> Result<Date, Stopped> {
    let Some(typed) = typed else { return Ok(desk.day_swum()) };
    let on = resolve::day(typed, desk.today, course.unit(), Toward::Past)
        .ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
    if on > desk.today {
        return Err(refused("future_day", RefusedWhy::Future { on }));
    }
    Ok(on)
}

pub fn whole_lengths(length: Length, course: Course) -> Result<Distance, Stopped> {
    resolve::distance(length, course)
        .filter(|distance| distance.fits(course))
        .ok_or_else(|| refused("distance", RefusedWhy::Distance))
}

/// The one time meant, or a question.
fn settle(
    desk: &mut Desk<'_>,
    typed: &TypedTime,
    distance: Distance,
    stroke: Stroke,
    message: &Message,
) -> Result<Centis, Stopped> {
    match resolve::time(typed, distance, stroke) {
        Some(Settled::Sure(time)) => Ok(time),
        Some(Settled::Unlikely(time)) if desk.confirmed => Ok(time),
        Some(Settled::Unlikely(time)) => {
            Err(ask_yes(desk, Asks::Implausible { distance, time }, message))
        }
        Some(Settled::Impossible(time)) => {
            let reply = QuestionReply {
                asks: Asks::Impossible { distance, time },
                options: vec![],
                until: desk.question_until(),
            };
            desk.ask(&reply, vec![]);
            Err(Box::new(Outcome::Question(reply)))
        }
        Some(Settled::Two(one, other)) => {
            let choices: Vec<Choice> = [one, other]
                .into_iter()
                .map(|time| Choice { word: time.short(), message: with_time(message, time) })
                .collect();
            let reply = QuestionReply {
                asks: Asks::TwoReadings { distance, one, other },
                options: choices.iter().map(|choice| choice.word.clone()).collect(),
                until: desk.question_until(),
            };
            desk.ask(&reply, choices);
            Err(Box::new(Outcome::Question(reply)))
        }
        None => Err(refused("time", RefusedWhy::Nothing)),
    }
}

/// Asks for a yes before `message` is stored.
pub fn ask_yes(desk: &mut Desk<'_>, asks: Asks, message: &Message) -> Stopped {
    let reply = QuestionReply {
        asks,
        options: vec!["yes".into(), "no".into()],
        until: desk.question_until(),
    };
    desk.ask(&reply, vec![Choice { word: "yes".into(), message: message.clone() }]);
    Box::new(Outcome::Question(reply))
}

/// The message with its one doubtful test time settled.
fn with_time(message: &Message, time: Centis) -> Message {
    let mut settled = message.clone();
    for statement in &mut settled.statements {
        if let Kind::Test(test) = &mut statement.kind
            && test.time.readings.contains(&time)
        {
            test.time = TypedTime::sure(time);
        }
    }
    settled
}
