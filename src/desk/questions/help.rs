//! Help, why, and the rest of a long reply.

use crate::coaching::{self, Facts, PaceFrom, Rule};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::desk::known::facts::{facts, latest_test};
use crate::desk::known::trials::from_a_push;
use crate::history::{Event, MainOf, Reasons, Right};
use crate::reply::{HelpReply, OkReply, Outcome, RefusedWhy, Topic, WhyMain};
use crate::swim::why::{self, Explanation};
use crate::swim::{self, critical_speed};
use crate::units::Distance;

/// `help`, `help test`
pub fn help(view: &View<'_>, topic: Option<&str>) -> Outcome {
    let topic = topic.and_then(named);
    Outcome::Help(match topic {
        Some(topic) => HelpReply::Topic(topic),
        None if view.is_opted_out() => HelpReply::OptedOut,
        None if view.may(Right::SeeSquad) => HelpReply::Coach,
        None => HelpReply::Swimmer,
    })
}

fn named(word: &str) -> Option<Topic> {
    Some(match word {
        "test" | "tests" => Topic::Test,
        "set" | "sets" => Topic::Set,
        "done" | "session" | "rpe" => Topic::Done,
        "plan" | "next" | "week" => Topic::Plan,
        "pain" | "ill" | "hurt" => Topic::Pain,
        "pool" | "profile" | "days" => Topic::Profile,
        "squad" | "coach" => Topic::Squad,
        "here" | "absent" | "register" | "in" | "out" | "late" => Topic::Register,
        "slot" | "shut" | "timetable" | "pools" => Topic::Timetable,
        "lanes" | "lane" | "apart" | "calles" => Topic::Lanes,
        "evening" | "tonight" | "left" | "cut" | "noche" => Topic::Evening,
        "results" | "result" | "resultados" | "held" | "swap" => Topic::Results,
        "test-night" => Topic::TestNight,
        "people" | "personas" | "gente" | "invite" | "add" | "claim" | "hand-over" => Topic::People,
        "undo" | "fix" => Topic::Fix,
        _ => return None,
    })
}

/// `why`: what the last answer rests on, with the swimmer's own numbers.
pub fn why(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    let nothing = || refused("nothing", RefusedWhy::Nothing);
    let reasons = desk.member().and_then(|member| member.reasons.clone()).ok_or_else(nothing)?;
    let of_change = matches!(reasons, Reasons::Set { .. });
    let (explanations, mut rules, without, main) = match reasons {
        Reasons::Test { who, rules, without, main } => {
            (of_test(&facts(desk, &who)?), rules, without, main)
        }
        Reasons::Set { who, rules } => (of_set(&facts(desk, &who)?), rules, vec![], None),
        Reasons::Prediction { who, distance } => {
            (of_prediction(&facts(desk, &who)?, distance), vec![], vec![], None)
        }
        Reasons::Rules { rules, without, main } => (vec![], rules, without, main),
    };
    let main = main.and_then(|of| why_main(desk, of)).map(Box::new);
    // A week's rules are not those of its sessions.
    let limits = coaching::RuleId::Limits.id();
    if !without.is_empty() && !rules.iter().any(|id| id == limits) {
        rules.push(limits.to_owned());
    }
    let rules: Vec<Rule> = rules.iter().filter_map(|id| desk.asked.book.in_force(id)).collect();
    if explanations.is_empty() && rules.is_empty() {
        return Err(nothing());
    }
    Ok(Outcome::Help(HelpReply::Why { main, of_change, explanations, rules, without }))
}

/// What a main set's time to hold is taken from, by what is known now.
fn why_main(view: &View<'_>, MainOf { who, purpose, set }: MainOf) -> Option<WhyMain> {
    let from = coaching::pace_from(&view.facts(&who)?, purpose, &set)?;
    let as_swum = match from {
        PaceFrom::Test(pushed) => view.swimmer(&who).and_then(|swimmer| {
            let mut tests = swimmer.tests.as_of(view.now()).map(|kept| &kept.what);
            let same = tests.rfind(|kept| from_a_push(kept) == pushed)?;
            (same.trial != pushed).then(|| (same.trial, same.began()))
        }),
        _ => None,
    };
    Some(WhyMain { set, from, as_swum })
}

fn of_test(facts: &Facts) -> Vec<Explanation> {
    let Some(trial) = latest_test(facts) else { return vec![] };
    let critical = critical_speed::estimate(&facts.tests, facts.today, trial.stroke, trial.course);
    let first = coaching::targets(facts, &[]).into_iter().next();
    let target = first.map(|target| why::even_pace(trial.distance, trial.time, &target));
    target.into_iter().chain(why::critical_speed(&critical)).collect()
}

fn of_set(facts: &Facts) -> Vec<Explanation> {
    let Some(swum) = facts.sets.last() else { return vec![] };
    swum.set
        .target
        .map(|target| why::set(target, &swim::set::analyse(target, &swum.times)))
        .into_iter()
        .collect()
}

fn of_prediction(facts: &Facts, distance: Distance) -> Vec<Explanation> {
    let Some(trial) = latest_test(facts) else { return vec![] };
    swim::prediction::predict(&facts.tests, facts.today, trial.stroke, trial.course, distance)
        .map(|prediction| why::prediction(&prediction))
        .into_iter()
        .collect()
}

/// `more`: the lines that did not fit into the last reply.
pub fn more(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    let lines = desk.member().map(|member| member.more.clone()).unwrap_or_default();
    if lines.is_empty() {
        return Err(refused("nothing", RefusedWhy::Nothing));
    }
    desk.record(Event::MoreKept { address: desk.asked.from.to_owned(), lines: vec![] });
    Ok(Outcome::Ok(OkReply::More { lines }))
}
