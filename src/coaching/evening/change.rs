//! What a coach changes in a lane's set while it is swum.
//!
//! What is swum, or under way, stays as it was swum; only a pause makes the repeat
//! under way longer. What the coach says stands; what of it can't be swum is told
//! beside it. Knows no minutes: when it then ends is seen afterwards.

use super::cut::is_main;
use super::lane::{Lane, carries_targets};
use super::running::{Line, Running, RunningBlock};
use super::written::{Tight, WrittenBlock, filled_for, percent, tight_on};
use super::{Swims, together};
use crate::session::{Aim, Part, Repeat, Session};
use crate::units::{Centis, Distance, Equipment, Level, SendOff, Stroke};

/// Which part of a set a change is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Where {
    /// The main line.
    Main,
    /// The last so many repeats of it.
    Last(u16),
    /// From this repeat of it on, counted from 1.
    From(u16),
    /// Its odd repeats.
    Odd,
    /// Its even repeats.
    Even,
    /// The swim-down.
    SwimDown,
    /// The warm-up.
    WarmUp,
    /// All that is to come but the swim-down.
    Rest,
}

/// What becomes of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum What {
    /// Left out.
    Drop,
    /// So far each.
    Distance(Distance),
    /// So many in each round.
    Count(u16),
    /// So many more.
    More(u16),
    /// On this send-off.
    SendOff(SendOff),
    /// So many seconds more, or fewer, of send-off.
    SendOffBy(i16),
    /// After so much rest.
    Rest(Centis),
    /// That way.
    Stroke(Stroke),
    /// With that.
    Kit(Vec<Equipment>),
    /// So hard.
    Level(Level),
    /// To be held in this time.
    Target(Centis),
    /// These blocks in its place.
    Instead(Vec<WrittenBlock>),
    /// These as well, before the swim-down.
    Add(Vec<WrittenBlock>),
    /// So many seconds before what comes next.
    Pause(u32),
    /// On with the next block.
    MoveOn,
    /// From there again.
    Restart,
    /// Without the last round.
    SkipRound,
}

/// A set as it is after a change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Changed {
    /// All of it, with what was swum before.
    pub session: Session,
    /// Lines that are swum otherwise from now on.
    pub lines: Vec<Repeat>,
    /// Send-offs among them that the lane's slowest can't make.
    pub tight: Vec<Tight>,
}

/// `session`, of which `elapsed_s` seconds have passed, with one change; `None`
/// where there is nothing that it could be a change of.
pub fn changed(
    session: &Session,
    elapsed_s: u32,
    lane: &Swims<'_>,
    place: Where,
    what: &What,
) -> Option<Changed> {
    let lane = lane.lane()?;
    let mut running = Running::at(session, elapsed_s);
    let mut lines = match what {
        What::Pause(seconds) => pause(&mut running, *seconds)?,
        What::MoveOn => move_on(&mut running)?,
        What::Restart => restart(&mut running, place)?,
        What::SkipRound => skip_round(session, &mut running)?,
        What::Add(blocks) => add(&mut running, &lane, blocks),
        What::Instead(blocks) => instead(session, &mut running, &lane, place, blocks)?,
        _ => of_lines(session, &mut running, &lane, place, what)?,
    };
    lines.dedup();
    let tight = lines.iter().filter_map(|line| tight_on(&lane, line)).collect();
    Some(Changed { session: running.session(), lines, tight })
}

/// The line that a change of the main set means, as it now stands.
pub fn line_in_question(session: &Session, elapsed_s: u32) -> Option<Repeat> {
    let running = Running::at(session, elapsed_s);
    let (block, at) = main_line(session, &running)?;
    session.blocks.get(block)?.repeats.get(at).cloned()
}

/// A change of single lines: of those to come, the repeats that it is of.
fn of_lines(
    session: &Session,
    running: &mut Running,
    lane: &Lane,
    place: Where,
    what: &What,
) -> Option<Vec<Repeat>> {
    let chosen = chosen(session, running, place)?;
    let mut lines = Vec::new();
    for (block, only) in chosen {
        let rounds = &mut running.blocks[block].rounds;
        let last_round = rounds.len().saturating_sub(1);
        for (number, round) in rounds.iter_mut().enumerate() {
            // The last so many are those at the very end.
            if matches!((place, what), (Where::Last(_), _) | (_, What::More(_)))
                && number != last_round
            {
                continue;
            }
            let whole = std::mem::take(round);
            for (at, line) in whole.into_iter().enumerate() {
                match only.is_none_or(|only| only == at) && line.to_come() > 0 {
                    true => round.extend(edited(line, lane, place, what, &mut lines)),
                    false => round.push(line),
                }
            }
        }
    }
    Some(lines)
}

/// The blocks that a change is of, and the one line of each where it is of one.
fn chosen(
    session: &Session,
    running: &Running,
    place: Where,
) -> Option<Vec<(usize, Option<usize>)>> {
    let to_come = |block: &RunningBlock| block.rounds.iter().flatten().any(|l| l.to_come() > 0);
    let of_part = |wanted: fn(Part) -> bool| {
        let blocks = running.blocks.iter().enumerate();
        let blocks = blocks.filter(|(_, block)| wanted(block.part) && to_come(block));
        blocks.map(|(at, _)| (at, None)).collect::<Vec<_>>()
    };
    let chosen = match place {
        Where::SwimDown => of_part(|part| part == Part::SwimDown),
        Where::WarmUp => of_part(|part| part == Part::WarmUp),
        Where::Rest => of_part(|part| part != Part::SwimDown),
        _ => {
            let (block, line) = main_line(session, running)?;
            vec![(block, Some(line))]
        }
    };
    (!chosen.is_empty()).then_some(chosen)
}

/// A line in its parts: what is swum of it, what stays and what is changed.
fn edited(
    line: Line,
    lane: &Lane,
    place: Where,
    what: &What,
    lines: &mut Vec<Repeat>,
) -> Vec<Line> {
    if let What::Count(_) | What::More(_) = what {
        let count = match what {
            What::More(more) => line.repeat.count.saturating_add(*more),
            What::Count(count) => (*count).max(line.swum),
            _ => line.repeat.count,
        };
        let repeat = Repeat { count, ..line.repeat };
        lines.push(repeat.clone());
        return vec![Line { repeat, swum: line.swum }];
    }
    let count = line.repeat.count;
    let is_meant = |number: u16| match place {
        Where::Last(last) => number > count.saturating_sub(last),
        Where::From(first) => number >= first,
        Where::Odd => number % 2 == 1,
        Where::Even => number.is_multiple_of(2),
        Where::Main | Where::SwimDown | Where::WarmUp | Where::Rest => true,
    };
    let one = |repeat: Repeat, swum| Line { repeat: Repeat { count: 1, ..repeat }, swum };
    let mut parts = Vec::with_capacity(usize::from(count));
    let mut meant = 0;
    for number in 1..=count {
        if number <= line.swum {
            parts.push(one(line.repeat.clone(), 1));
        } else if !is_meant(number) {
            parts.push(one(line.repeat.clone(), 0));
        } else if *what != What::Drop {
            meant += 1;
            parts.push(one(otherwise(&line.repeat, lane, what), 0));
        }
    }
    if meant > 0 {
        lines.push(Repeat { count: meant, ..otherwise(&line.repeat, lane, what) });
    }
    parts
}

/// One repeat, swum otherwise.
fn otherwise(line: &Repeat, lane: &Lane, what: &What) -> Repeat {
    let line = line.clone();
    match what {
        What::SendOff(on) => sent_off(line, lane, *on),
        What::SendOffBy(seconds) => {
            let before = line.send_off.map_or(0, SendOff::seconds);
            match SendOff::new(before.saturating_add_signed(i32::from(*seconds))) {
                Ok(on) => sent_off(line, lane, on),
                Err(_) => line,
            }
        }
        What::Rest(rest) => match lane.likely_time(&line) {
            Some(time) => {
                let on = SendOff::after(time, rest.hundredths().div_ceil(100));
                sent_off(line, lane, on)
            }
            None => line,
        },
        What::Distance(distance) => {
            let aimed = Repeat { distance: *distance, ..line.clone() };
            let told = line.aim.is_none() && line.target.is_some();
            lane.aimed(&Repeat { target: line.target.filter(|_| !told), ..aimed })
        }
        What::Stroke(stroke) => {
            let timed = carries_targets(lane.slowest(), *stroke);
            let aim = line.aim.filter(|_| timed);
            let line = Repeat { stroke: *stroke, aim, target: None, ..line };
            held(line, lane)
        }
        What::Kit(kit) => Repeat { equipment: kit.clone(), ..line },
        What::Level(level) => {
            let timed = carries_targets(lane.slowest(), line.stroke);
            let aim = percent(*level).filter(|_| timed).map(Aim::CriticalSpeed);
            held(Repeat { level: *level, aim, target: None, ..line }, lane)
        }
        What::Target(time) => {
            let level = lane.level(line.distance, *time);
            Repeat { target: Some(*time), aim: None, level, ..line }
        }
        _ => line,
    }
}

fn sent_off(line: Repeat, lane: &Lane, on: SendOff) -> Repeat {
    held(Repeat { send_off: Some(on), rest: None, ..line }, lane)
}

/// The line with the time to hold that its aim is for those who make its send-off.
fn held(line: Repeat, lane: &Lane) -> Repeat {
    let of_aim = |aim| lane.target_on(aim, line.distance, line.stroke, line.send_off);
    let target = match line.aim {
        Some(aim) => of_aim(aim),
        None => line.target.filter(|time| line.send_off.is_none_or(|on| *time < on.time())),
    };
    Repeat { target, ..line }
}

/// The repeat that was begun last, with what it leaves, so much longer.
fn pause(running: &mut Running, seconds: u32) -> Option<Vec<Repeat>> {
    let begun = running.blocks.iter_mut().flat_map(|block| &mut block.rounds);
    let begun = begun.filter_map(|round| {
        let at = round.iter().rposition(|line| line.swum > 0)?;
        Some((round, at))
    });
    let (round, at) = begun.last()?;
    let line = round[at].clone();
    let mut longer = Repeat { count: 1, ..line.repeat.clone() };
    match (longer.send_off, longer.rest) {
        (Some(on), _) => longer.send_off = SendOff::new(on.seconds() + seconds).ok().or(Some(on)),
        (None, rest) => {
            let more = Centis::from_whole_seconds(seconds).ok()?;
            longer.rest = Some(rest.map_or(more, |rest| rest + more));
        }
    }
    let part = |count: u16, swum: u16, repeat: &Repeat| Line {
        repeat: Repeat { count, ..repeat.clone() },
        swum,
    };
    let before = line.swum.saturating_sub(1);
    let parts = [
        part(before, before, &line.repeat),
        part(1, 1, &longer),
        part(line.to_come(), 0, &line.repeat),
    ];
    round.splice(at..=at, parts.into_iter().filter(|line| line.repeat.count > 0));
    Some(Vec::new())
}

/// Nothing more of the first block that isn't over.
fn move_on(running: &mut Running) -> Option<Vec<Repeat>> {
    let open = |block: &&mut RunningBlock| {
        block.part != Part::SwimDown && block.rounds.iter().flatten().any(|l| l.to_come() > 0)
    };
    let block = running.blocks.iter_mut().find(open)?;
    for line in block.rounds.iter_mut().flatten() {
        line.repeat.count = line.swum;
    }
    Some(Vec::new())
}

/// The line begun last, from one of its repeats on again.
fn restart(running: &mut Running, place: Where) -> Option<Vec<Repeat>> {
    let from = match place {
        Where::From(number) => number.max(1),
        _ => 1,
    };
    let lines = running.blocks.iter_mut().flat_map(|block| block.rounds.iter_mut().flatten());
    let line = lines.filter(|line| line.swum > 0).last()?;
    let again = line.repeat.count.saturating_sub(from - 1).max(1);
    line.repeat.count = line.swum.saturating_add(again);
    Some(vec![Repeat { count: again, ..line.repeat.clone() }])
}

/// The main set without its last round, but for what is swum of it.
fn skip_round(session: &Session, running: &mut Running) -> Option<Vec<Repeat>> {
    let mains = session.blocks.iter().zip(&mut running.blocks).rev();
    let (block, rounds) =
        mains.into_iter().find(|(block, _)| is_main(session, block) && block.rounds > 1)?;
    for line in rounds.rounds.last_mut()?.iter_mut() {
        line.repeat.count = line.swum;
    }
    Some(block.repeats.first().cloned().into_iter().collect())
}

/// Blocks behind all but the swim-down.
fn add(running: &mut Running, lane: &Lane, blocks: &[WrittenBlock]) -> Vec<Repeat> {
    let new = filled_for(lane, blocks);
    let lines = new.iter().flat_map(|block| block.repeats.clone()).collect();
    let end = running.blocks.iter().position(|block| block.part == Part::SwimDown);
    let end = end.unwrap_or(running.blocks.len());
    running.blocks.splice(end..end, new.iter().map(RunningBlock::to_come));
    lines
}

/// Blocks in the place of what is to come of others.
fn instead(
    session: &Session,
    running: &mut Running,
    lane: &Lane,
    place: Where,
    blocks: &[WrittenBlock],
) -> Option<Vec<Repeat>> {
    let goes = |at: usize, block: &RunningBlock| match place {
        Where::SwimDown => block.part == Part::SwimDown,
        Where::WarmUp => block.part == Part::WarmUp,
        Where::Rest => block.part != Part::SwimDown,
        _ => session.blocks.get(at).is_some_and(|block| is_main(session, block)),
    };
    let going: Vec<usize> =
        (0..running.blocks.len()).filter(|at| goes(*at, &running.blocks[*at])).collect();
    let last = *going.last()?;
    for at in going {
        for line in running.blocks[at].rounds.iter_mut().flatten() {
            line.repeat.count = line.swum;
        }
    }
    let mut new = filled_for(lane, blocks);
    if place == Where::SwimDown {
        new.iter_mut().for_each(|block| block.part = Part::SwimDown);
    }
    let lines = new.iter().flat_map(|block| block.repeats.clone()).collect();
    running.blocks.splice(last + 1..last + 1, new.iter().map(RunningBlock::to_come));
    Some(lines)
}

/// Block and line: in the first main block that is not swum yet, the line that
/// asks for most; never a drill beside other swims.
fn main_line(session: &Session, running: &Running) -> Option<(usize, usize)> {
    let to_come =
        |at: &usize| running.blocks[*at].rounds.iter().flatten().any(|line| line.to_come() > 0);
    let mains = session.blocks.iter().enumerate().filter(|(_, block)| is_main(session, block));
    let mains: Vec<usize> = mains.map(|(at, _)| at).collect();
    let is_swum = |line: &Repeat| line.stroke != Stroke::Drill;
    // A drill is nothing that anyone times, where anything else is.
    let swims = |at: &usize| session.blocks[*at].repeats.iter().any(is_swum);
    let timed: Vec<usize> = mains.iter().copied().filter(swims).collect();
    let mains = if timed.is_empty() { mains } else { timed };
    let block = mains.iter().copied().find(|at| to_come(at)).or(mains.last().copied())?;
    let lines = session.blocks[block].repeats.iter().enumerate();
    let left = |at: usize| {
        running.blocks[block]
            .rounds
            .iter()
            .filter_map(|round| round.get(at))
            .any(|l| l.to_come() > 0)
    };
    let (at, _) = lines.max_by_key(|(at, line)| {
        let asks = (line.level.is_hard(), line.count, line.level);
        (is_swum(line), left(*at), asks, std::cmp::Reverse(*at))
    })?;
    Some((block, at))
}

/// The set with what is to come of it made for those who swim in the lane now:
/// their times to hold and their send-offs, but for those that the coach said.
pub fn aimed_anew(
    session: &Session,
    elapsed_s: u32,
    lane: &Swims<'_>,
    stands: impl Fn(&Repeat) -> bool,
) -> Session {
    let Some(of_lane) = lane.lane() else { return session.clone() };
    let mut running = Running::at(session, elapsed_s);
    let blocks = running.blocks.iter_mut();
    let rounds = blocks.flat_map(|block| {
        let part = block.part;
        block.rounds.iter_mut().map(move |round| (part, round))
    });
    for (part, round) in rounds {
        let whole = std::mem::take(round);
        for line in whole {
            let now = match stands(&line.repeat) || line.repeat.send_off.is_none() {
                true => held(line.repeat.clone(), &of_lane),
                false if part == Part::SwimDown => swum_down(&line.repeat, &of_lane),
                false => of_lane.aimed(&line.repeat),
            };
            let to_come = line.to_come();
            let parts = [
                Line {
                    repeat: Repeat { count: line.swum, ..line.repeat.clone() },
                    swum: line.swum,
                },
                Line { repeat: Repeat { count: to_come, ..now }, swum: 0 },
            ];
            round.extend(parts.into_iter().filter(|line| line.repeat.count > 0));
        }
    }
    running.session()
}

/// The line as a swim-down: one swim alone needs no rest, as nothing follows it.
fn swum_down(line: &Repeat, lane: &Lane) -> Repeat {
    let time = lane.slowest().easy_time(line.distance, line.stroke);
    match time.filter(|_| line.count == 1) {
        Some(time) => Repeat { send_off: Some(SendOff::after(time, 0)), ..line.clone() },
        None => lane.aimed(line),
    }
}

/// As [`aimed_anew`], and with repeats taken or given so that it ends when it did.
pub fn dealt_anew(
    session: &Session,
    elapsed_s: u32,
    lane: &Swims<'_>,
    stands: impl Fn(&Repeat) -> bool,
    ends_s: u32,
) -> Session {
    let anew = aimed_anew(session, elapsed_s, lane, stands);
    together::ending_at(&anew, elapsed_s, lane, ends_s)
}
