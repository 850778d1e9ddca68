//! Messages and their statements.

use std::fmt;

use super::evening::{cut, edit, for_lanes, slot};
use super::parts::{Words, course};
use super::people;
use super::swum::{apart, done, fix, held, lane_results, swum, swum_for};
use super::wishes::{approval, limits, next, plan, profile, regular};
use crate::message::{Illness, Kind, Message, Name, SquadFilter, Statement};
use crate::units::weekday_word;

impl fmt::Display for Message {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, statement) in self.statements.iter().enumerate() {
            if at > 0 {
                out.write_str("; ")?;
            }
            write!(out, "{statement}")?;
        }
        Ok(())
    }
}

impl fmt::Display for Statement {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let whom = self.who.as_ref().map(|who| format!("@{who}"));
        let verb = match (&self.kind, &whom) {
            // The person stands behind these verbs.
            (Kind::Tell { text }, whom) => {
                let whom = whom.as_deref().unwrap_or("all");
                return write!(out, "tell {whom}: {text}");
            }
            (Kind::Note { text }, whom) => return free(out, "note", whom.as_deref(), text),
            (Kind::Focus { text }, whom) => return free(out, "focus", whom.as_deref(), text),
            (Kind::Hold { week }, whom) => {
                return write!(out, "{}", Words::of("hold").maybe(whom.as_ref()).and(week.word()));
            }
            (Kind::Release, whom) => {
                return write!(out, "{}", Words::of("release").maybe(whom.as_ref()));
            }
            (Kind::Approval(said), whom) => {
                return write!(out, "{}", approval(*said, whom.as_ref()));
            }
            (Kind::Swimmer, Some(whom)) => return out.write_str(whom),
            (kind, _) => words(kind),
        };
        match whom {
            Some(whom) => write!(out, "{whom} {verb}"),
            None => write!(out, "{verb}"),
        }
    }
}

fn free(out: &mut fmt::Formatter<'_>, verb: &str, whom: Option<&str>, text: &str) -> fmt::Result {
    match whom {
        Some(whom) => write!(out, "{verb} {whom}: {text}"),
        None => write!(out, "{verb}: {text}"),
    }
}

fn words(kind: &Kind) -> Words {
    let on = |verb: &str, day: &Option<crate::message::Day>| Words::of(verb).maybe(day.as_ref());
    match kind {
        Kind::Test(test) => swum(test),
        Kind::TimedTest(timed) => swum_for(timed),
        Kind::SetResult(result) => held(result),
        Kind::Done(one) => done(one),
        Kind::Missed { on: day } => on("missed", day),
        Kind::Ill { what } => Words::of(match what {
            None => "ill",
            Some(Illness::Cold) => "a cold",
            Some(Illness::Fever) => "fever",
            Some(Illness::Stomach) => "stomach bug",
        }),
        Kind::Better => Words::of("better"),
        Kind::Away { from: None, until } => Words::of("away until").and(until),
        Kind::Away { from: Some(from), until } => {
            Words::of("away from").and(from).and("until").and(until)
        }
        Kind::Pain(pain) => Words::default()
            .maybe((pain.place != "body").then_some(&pain.place))
            .and("pain")
            .maybe(pain.level),
        Kind::Faint => Words::of("dizzy"),
        Kind::Plan(wish) => plan(wish),
        Kind::Next(wish) => next(wish),
        Kind::Swap { days } => Words::of("swap").each(days),
        Kind::SwapResults { names, on, distance } => {
            named("swap", names).maybe(on.as_ref()).maybe(*distance)
        }
        Kind::Shorter => Words::of("shorter"),
        Kind::Easier => Words::of("easier"),
        Kind::Harder => Words::of("harder"),
        Kind::Again => Words::of("again"),
        Kind::More => Words::of("more"),
        Kind::Targets { distances } => Words::of("targets").each(distances),
        Kind::OwnTargets { holds } if holds.is_empty() => Words::of("own target no"),
        Kind::OwnTargets { holds } => Words::of("own target")
            .each(holds.iter().flat_map(|(far, time)| [far.to_string(), time.to_string()])),
        Kind::Predict { distance } => Words::of("predict").and(distance),
        Kind::Race { distance, on, goal } => Words::of("race")
            .and(distance)
            .and(on)
            .maybe(goal.as_ref().map(|goal| format!("goal {goal}"))),
        Kind::Ask(ask) => Words::of(&ask.text),
        Kind::Leaves { at, on: day } => {
            on("leaving", day).maybe(at.map(|at| at.strftime("%H:%M").to_string()))
        }
        Kind::Maybe { on: day } => on("maybe", day),
        Kind::Back { on: day } => on("back", day),
        Kind::Tired => Words::of("tired"),
        Kind::Goal { distance, stroke, time, by } => {
            Words::of("goal").and(distance).maybe(*stroke).and(time).maybe(by.as_ref())
        }
        Kind::Ability { unbroken, most } => Words::default()
            .maybe(unbroken.map(|far| format!("{far} without a stop")))
            .maybe(most.map(|far| format!("{far} a session at most"))),
        Kind::Quiet { from } => Words::of("no texts before").and(from.strftime("%H:%M")),
        Kind::Restate { says, changed } => match says.get(*changed) {
            Some(one) => words(&one.kind),
            None => Words::of("fix"),
        },
        Kind::Move { names, lane, by } => {
            let to = lane.map_or_else(
                || format!("{} {}", if *by < 0 { "up" } else { "down" }, by.abs()),
                |lane| format!("to lane {lane}"),
            );
            named("move", names).and(to)
        }
        Kind::SwapLanes { names } => named("swap lanes", names),
        Kind::LaneOrder { lane, names } => {
            named("order", names).maybe(lane.map(|lane| format!("in lane {lane}")))
        }
        Kind::DrawnAs { lanes } => Words::default().each(lanes.iter().map(|(lane, names)| {
            let names: Vec<String> = names.iter().map(ToString::to_string).collect();
            format!("lane {lane} {}", names.join(" "))
        })),
        Kind::Gap { seconds } => Words::of("gap").and(seconds),
        Kind::NamesInRooms { shown } => {
            Words::of(if *shown { "show names in the chat" } else { "no names in the chat" })
        }
        Kind::LaneOf { lane } => Words::of("tonight lane").and(lane),
        Kind::Change(edits) => Words::of("change the set").each(edits.iter().map(edit)),
        Kind::Trend => Words::of("trend"),
        Kind::Best => Words::of("best"),
        Kind::Tonight => Words::of("my lane"),
        Kind::Board => Words::of("board"),
        Kind::Log => Words::of("log"),
        Kind::Swimmer => Words::of("me"),
        Kind::Compare { names } => named("compare", names),
        Kind::Profile(change) => profile(change),
        Kind::Squad { filter, on } => {
            Words::of("squad").maybe(filter.map(SquadFilter::word)).maybe(on.as_ref())
        }
        Kind::Entry(entry) => Words::of(if entry.scratched { "scratch" } else { "entry" })
            .maybe(entry.on.as_ref())
            .maybe(entry.stroke)
            .each(apart(Some(entry.distance), entry.time.as_ref().map(ToString::to_string))),
        Kind::RelayLeg(leg) => Words::of("relay")
            .and(format!("{}x{}", leg.count, leg.distance))
            .maybe(leg.stroke)
            .maybe(leg.on.as_ref())
            .each((1..leg.leg).map(|_| "x"))
            .and(&leg.time),
        Kind::Entries => Words::of("entries"),
        Kind::Meet { on, course: pool } => Words::of("meet").and(on).maybe(pool.map(course)),
        Kind::Lanes { count } => Words::of("lanes").maybe(*count),
        Kind::TestNight { distance, on } => {
            Words::of("test night").maybe(*distance).maybe(on.as_ref())
        }
        Kind::Pin { lane: Some(lane) } => Words::of("lane").and(lane),
        Kind::Pin { lane: None } => Words::of("any lane"),
        Kind::Apart { names, apart: true } => named("apart", names),
        Kind::Apart { names, .. } => named("together", names),
        Kind::Here { names, all_but: false, on } => named("here", names).maybe(on.as_ref()),
        Kind::Here { names, on, .. } => {
            let verb = if names.is_empty() { "here all" } else { "here all but" };
            named(verb, names).maybe(on.as_ref())
        }
        Kind::Absent { names, on } => named("absent", names).maybe(on.as_ref()),
        Kind::Attend { late_min: Some(minutes), on: day, .. } => {
            Words::of("late").and(minutes).maybe(day.as_ref())
        }
        Kind::Attend { coming: true, on: day, .. } => on("coming", day),
        Kind::Attend { on: day, .. } => on("not coming", day),
        Kind::Regular(one) => regular(one),
        Kind::Limits(said) => limits(said),
        Kind::Slot(one) => slot(one),
        Kind::Shut { days, on } => {
            Words::of("shut").each(days.iter().map(|day| weekday_word(*day))).maybe(on.as_ref())
        }
        Kind::Reopen { days, on } => {
            Words::of("reopen").each(days.iter().map(|day| weekday_word(*day))).maybe(on.as_ref())
        }
        Kind::LaneGone => Words::of("lost a lane"),
        Kind::LaneResults(one) => lane_results(one),
        Kind::Cut(one) => cut(one),
        Kind::Welfare => Words::of("not safe at home"),
        Kind::Set(set) => {
            let lines = set.lines.iter().map(ToString::to_string);
            let lines: Vec<String> = lines.chain(set.lanes.iter().map(for_lanes)).collect();
            let lines = lines.join(", ");
            match &set.on {
                Some(on) => Words::of(&on.to_string()).and(lines),
                None => Words::of(&lines),
            }
        }
        Kind::Join { code, name } => Words::of("join").and(code).and(name),
        Kind::Fix(one) => fix(one),
        Kind::Help { topic } => Words::of("help").maybe(topic.as_ref()),
        Kind::People(said) => people::said(said),
        Kind::Undo => Words::of("undo"),
        Kind::Yes => Words::of("yes"),
        Kind::No => Words::of("no"),
        Kind::Why => Words::of("why"),
        Kind::Stop => Words::of("stop"),
        Kind::Start => Words::of("start"),
        Kind::Forget => Words::of("forget me"),
        Kind::Choose { word } => Words::of(word),
        // Worded with the person that they are about, in `Display`.
        Kind::Tell { .. } | Kind::Note { .. } | Kind::Focus { .. } => Words::default(),
        Kind::Hold { .. } | Kind::Release | Kind::Approval(_) => Words::default(),
    }
}

fn named(verb: &str, names: &[Name]) -> Words {
    Words::of(verb).each(names.iter().map(|name| format!("@{name}")))
}
