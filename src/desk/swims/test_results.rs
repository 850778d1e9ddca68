//! A test that was swum: settled, doubted or stored, and what comes next.

use crate::coaching::{self, Promise, SessionWish};
use crate::desk::decision::days::swum_on;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::kept_for_why::main_of;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Settled, whole_lengths};
use crate::desk::known::facts::facts;
use crate::desk::known::trials::{from_a_push, is_unlike_them, trials};
use crate::desk::plans::approval;
use crate::history::{Event, Reasons, TestKept};
use crate::message::{self, Choice, Kind, Message, Name, Statement, TypedTime};
use crate::reply::{Asks, Outcome, QuestionReply, RefusedWhy, TestReply};
use crate::swim::linear::{self, ImpossiblePair};
use crate::swim::next_test::next_test;
use crate::swim::{Trial, critical_speed, even_pace};
use crate::units::{Centis, Course, Distance, Start, Stroke};

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
    if !desk.confirmed && !repeat && is_unlike_them(desk, &who, &pushed, None) {
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
        before.iter().filter(|other| other.is_like(&trial)).map(|other| other.time).min();
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
