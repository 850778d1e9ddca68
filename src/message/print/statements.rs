//! Messages and their statements.

use std::fmt;

use super::parts::{Words, course, equipment, is_bare, rating, start, sure, weekday};
use super::people;
use crate::message::{
    Approval, Cut, Done, Edit, EditWhat, Fix, Illness, Kind, LaneResults, Length, Limits, Message,
    Name, NextWish, PlanWish, ProfileChange, Regular, Scope, SetResult, Slot, Sport, SquadFilter,
    Statement, Test, TimedTest, TypedSet, WeekKind,
};
use crate::session::Limit;
use crate::units::{Centis, Unit};

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
                return write!(
                    out,
                    "{}",
                    Words::of("hold").maybe(whom.as_ref()).and(kind_of(*week))
                );
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
            Words::of("shut").each(days.iter().map(|day| weekday(*day))).maybe(on.as_ref())
        }
        Kind::Reopen { days, on } => {
            Words::of("reopen").each(days.iter().map(|day| weekday(*day))).maybe(on.as_ref())
        }
        Kind::LaneGone => Words::of("lost a lane"),
        Kind::LaneResults(one) => lane_results(one),
        Kind::Cut(one) => cut(one),
        Kind::Welfare => Words::of("not safe at home"),
        Kind::Set(set) => {
            let lines: Vec<String> = set.lines.iter().map(ToString::to_string).collect();
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

const fn kind_of(week: WeekKind) -> &'static str {
    match week {
        WeekKind::Easy => "easy",
        WeekKind::Normal => "normal",
        WeekKind::Hard => "hard",
    }
}

/// Minutes where they are whole, else minutes and seconds.
fn lasting(time: Centis) -> String {
    match time.hundredths() {
        whole if whole % 6000 == 0 && whole / 6000 < 1000 => format!("{}min", whole / 6000),
        _ => sure(time),
    }
}

/// A distance and a time so that they stay two: `3m 21s` would be one time.
pub fn apart(distance: Option<Length>, time: Option<String>) -> Vec<String> {
    let far = distance.map(|far| far.to_string());
    let in_metres = distance.is_some_and(|far| far.unit == Some(Unit::Metre));
    let order = if in_metres { [time, far] } else { [far, time] };
    order.into_iter().flatten().collect()
}

fn swum(test: &Test) -> Words {
    let splits = test.splits.iter().map(|split| sure(*split));
    Words::default()
        .and(test.distance)
        .maybe(test.stroke)
        .and("test")
        .maybe(is_bare(&test.time).then_some("took"))
        .and(&test.time)
        .maybe(test.course.map(course))
        .maybe(test.on.as_ref())
        .maybe(test.start.map(start))
        .maybe(test.meet.then_some("meet"))
        .maybe((!test.splits.is_empty()).then_some("splits"))
        .each(splits)
}

fn swum_for(timed: &TimedTest) -> Words {
    Words::default()
        .and(lasting(timed.duration))
        .maybe(timed.stroke)
        .and("test")
        .and(timed.distance)
        .maybe(timed.course.map(course))
        .maybe(timed.on.as_ref())
}

fn held(result: &SetResult) -> Words {
    let times = result.times.iter().map(|time| match time {
        Some(time) => time.to_string(),
        None => "x".to_owned(),
    });
    let made = result.made.map(|made| match result.of {
        Some(of) => format!("made {made}/{of}"),
        None => format!("made {made}"),
    });
    Words::of(&format!("{}x{}", result.count, result.distance))
        .each(result.equipment.iter().map(|kit| equipment(*kit)))
        .maybe(result.stroke)
        .maybe(result.send_off.map(|send_off| format!("on {}", sure(send_off.time()))))
        .maybe(result.rest.map(|rest| format!("rest {}", sure(rest))))
        .maybe(result.target.map(|target| format!("hold {}", sure(target))))
        .maybe((!result.times.is_empty()).then_some("held"))
        .each(times)
        .maybe(result.average.as_ref().map(|average| format!("avg {average}")))
        .maybe(made)
        .maybe(result.rpe.map(|rpe| format!("rpe {}", rating(rpe.tenths()))))
        .maybe(result.heart_rate.map(|beats| format!("hr {beats}")))
        .maybe(result.strokes.map(|strokes| format!("strokes {strokes}")))
        .maybe(result.on.as_ref())
}

fn done(done: &Done) -> Words {
    let verb = done.sport.map_or("done", |sport| match sport {
        Sport::Run => "run",
        Sport::Ride => "ride",
        Sport::Gym => "gym",
        Sport::Other => "other sport",
    });
    Words::of(verb)
        .maybe(done.lengths.map(|lengths| format!("{lengths} lengths")))
        .each(apart(done.distance, done.duration.map(lasting)))
        .maybe(done.rpe.map(|rpe| format!("rpe {}", rating(rpe.tenths()))))
        .maybe(done.on.as_ref())
        .maybe(done.shortened.then_some("cut short"))
}

fn plan(wish: &PlanWish) -> Words {
    Words::of("plan")
        .maybe(wish.week.map(kind_of))
        .maybe(wish.minutes.map(|minutes| format!("{minutes}min")))
        .maybe(wish.sessions.map(|sessions| format!("{sessions} sessions")))
        .maybe(wish.on.as_ref())
}

fn next(wish: &NextWish) -> Words {
    Words::of("next")
        .maybe(wish.minutes.map(|minutes| format!("{minutes}min")))
        .maybe(wish.distance)
        .maybe(wish.open_water.then_some("open water"))
        .each(wish.with.iter().map(|kit| equipment(*kit)))
        .maybe((!wish.without.is_empty()).then_some("without"))
        .each(wish.without.iter().map(|kit| equipment(*kit)))
}

fn profile(change: &ProfileChange) -> Words {
    let unit = |unit: Unit| match unit {
        Unit::Metre => "units metres",
        Unit::Yard => "units yards",
    };
    Words::default()
        .maybe(change.course.map(|one| format!("pool {}", course(one))))
        .maybe((!change.days.is_empty()).then_some("days"))
        .each(change.days.iter().map(|day| weekday(*day)))
        .maybe(change.sessions.map(|sessions| format!("days {sessions}")))
        .maybe(change.minutes.map(|minutes| format!("minutes {minutes}")))
        .maybe(change.born.map(|year| format!("born {year}")))
        .maybe(change.units.map(unit))
        .maybe(change.language.map(|language| format!("language {language}")))
}

fn limits(limits: &Limits) -> Words {
    let said = |verb: &str, what: &[Limit], all: bool| {
        Words::of(verb).maybe(all.then_some("all")).each(what.iter().map(|one| limited(*one)))
    };
    match limits {
        Limits::Barred { what, all } => said("limit", what, *all),
        Limits::Allowed { what, all } => said("allow", what, *all),
        Limits::KitChanged { have, lack } => {
            let each = |kit: &[crate::units::Equipment]| {
                kit.iter().map(|one| equipment(*one)).collect::<Vec<_>>()
            };
            let mut words = Words::default();
            if !have.is_empty() {
                words = words.and("got").each(each(have));
            }
            if !lack.is_empty() {
                words = words.and("no").each(each(lack));
            }
            words
        }
        Limits::Kit { kit } => {
            Words::of("kit").each(kit.iter().map(|kit| limited(Limit::Kit(*kit))))
        }
    }
}

fn limited(limit: Limit) -> &'static str {
    match limit {
        Limit::Kit(kit) => equipment(kit),
        Limit::Stroke(stroke) => stroke.name(),
        Limit::BreastKick => "breast kick",
        Limit::Dives => "dives",
        Limit::TumbleTurns => "tumble turns",
    }
}

fn regular(regular: &Regular) -> Words {
    let switch = |wanted: &bool| if *wanted { "on" } else { "off" };
    match regular {
        Regular::Digest => Words::of("digest"),
        Regular::DigestWanted { wanted } => Words::of("digest").and(switch(wanted)),
        Regular::DigestAt { day, at } => Words::of("digest")
            .maybe(day.as_ref())
            .maybe(at.map(|at| format!("{:02}:{:02}", at.hour(), at.minute()))),
        Regular::Note => Words::of("weekly"),
        Regular::NoteWanted { wanted } => Words::of("weekly").and(switch(wanted)),
    }
}

fn approval(said: Approval, whom: Option<&String>) -> Words {
    let approve = Words::of("approve");
    match said {
        Approval::Waiting => approve,
        Approval::Wanted { wanted } => approve.and(if wanted { "plans on" } else { "plans off" }),
        Approval::All => approve.and("all"),
        Approval::Given => approve.maybe(whom),
        Approval::SentBack => approve.maybe(whom).and("no"),
    }
}

fn slot(slot: &Slot) -> Words {
    Words::of("slot")
        .each(slot.days.iter().map(|day| weekday(*day)))
        .maybe(slot.on.as_ref())
        .maybe(slot.starts.map(|at| format!("{:02}:{:02}", at.hour(), at.minute())))
        .maybe(slot.minutes.map(|minutes| format!("{minutes}min")))
        .maybe(slot.lanes.map(|lanes| format!("lanes {lanes}")))
        .maybe(slot.course.map(course))
}

fn lane_results(results: &LaneResults) -> Words {
    let times = results.times.iter();
    Words::of(&format!("lane {}", results.lane))
        .maybe(results.distance.map(|distance| format!("{distance} test")))
        .each(times.map(|time| time.as_ref().map_or_else(|| "x".to_owned(), ToString::to_string)))
}

fn cut(cut: &Cut) -> Words {
    let only_send_off = *cut == Cut { send_off: cut.send_off, ..Cut::default() };
    Words::default()
        .maybe(only_send_off.then_some("all lanes"))
        .maybe(cut.lane.map(|lane| format!("lane {lane}")))
        .maybe(cut.minutes_left.map(|minutes| format!("{minutes}min left")))
        .maybe(cut.ends.map(|at| format!("finish at {:02}:{:02}", at.hour(), at.minute())))
        .maybe(cut.skip_round.then_some("skip round"))
        .maybe(cut.count.map(|count| format!("make it {count}")))
        .maybe(cut.send_off.map(|send_off| format!("on {}", sure(send_off.time()))))
}

fn fix(fix: &Fix) -> Words {
    if fix.start.is_some() || fix.meet {
        return Words::default().maybe(fix.start.map(start)).maybe(fix.meet.then_some("meet"));
    }
    Words::of("fix")
        .maybe(fix.was.as_ref().map(|name| format!("@{name}")))
        .maybe(fix.on.as_ref())
        .each(apart(fix.distance, fix.time.as_ref().map(ToString::to_string)))
        .maybe(fix.instead.as_ref().map(|wrong| format!("instead of {wrong}")))
}

/// One change to a set, in words.
fn edit(edit: &Edit) -> String {
    let whom = match (edit.lanes.as_slice(), edit.names.as_slice()) {
        ([], []) => String::new(),
        (lanes, []) => {
            let each: Vec<String> = lanes.iter().map(ToString::to_string).collect();
            format!("lane {} ", each.join(" "))
        }
        (_, names) => {
            let each: Vec<String> = names.iter().map(ToString::to_string).collect();
            format!("{} ", each.join(" "))
        }
    };
    let scope = match edit.scope {
        Scope::Main => String::new(),
        Scope::LastRepeats(count) => format!("last {count}: "),
        Scope::FromRepeat(number) => format!("from number {number}: "),
        Scope::Odd => "odd ones: ".to_owned(),
        Scope::Even => "even ones: ".to_owned(),
        Scope::SwimDown => "swim-down: ".to_owned(),
        Scope::WarmUp => "warm-up: ".to_owned(),
        Scope::Rest => "the rest: ".to_owned(),
    };
    let set = |set: &TypedSet| Statement { who: None, kind: Kind::Set(set.clone()) }.to_string();
    let what = match &edit.what {
        EditWhat::Drop => "left out".to_owned(),
        EditWhat::Distance(far) => far.to_string(),
        EditWhat::Count(count) => format!("{count} of them"),
        EditWhat::More(count) => format!("{count} more"),
        EditWhat::SendOff(send_off) => format!("on {send_off}"),
        EditWhat::SendOffBy(seconds) => format!("{seconds:+} s"),
        EditWhat::Rest(rest) => format!("rest {}", rest.short()),
        EditWhat::Stroke(stroke) => stroke.to_string(),
        EditWhat::Kit(kit) => kit.iter().map(|one| equipment(*one)).collect::<Vec<_>>().join(" "),
        EditWhat::Level(level) => level.name().to_owned(),
        EditWhat::Target(time) => format!("hold {}", time.short()),
        EditWhat::Instead(one) => format!("{} instead", set(one)),
        EditWhat::Add(one) => format!("{} as well", set(one)),
        EditWhat::Pause(time) => format!("{} s more before the next", time.seconds()),
        EditWhat::MoveOn => "on to the next part".to_owned(),
        EditWhat::Restart => "from here again".to_owned(),
        EditWhat::Resume => "go on".to_owned(),
    };
    format!("{whom}{scope}{what}")
}
