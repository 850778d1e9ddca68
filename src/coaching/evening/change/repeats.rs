//! Changes of single lines, or of some of their repeats; only of what is still to come.

use super::{What, main_line, numbered};
use crate::coaching::evening::lane::{Lane, carries_targets};
use crate::coaching::evening::running::{Line, Running, RunningBlock};
use crate::coaching::evening::written::percent;
use crate::session::{Aim, Part, Repeat, Scope, Session};
use crate::units::SendOff;

/// Changes those repeats to come that the change is about.
pub(super) fn of_lines(
    session: &Session,
    running: &mut Running,
    lane: &Lane,
    place: Scope,
    what: &What,
) -> Option<Vec<Repeat>> {
    let chosen = chosen(session, running, place)?;
    let mut lines = Vec::new();
    for (block, only) in chosen {
        let rounds = &mut running.blocks.get_mut(block)?.rounds;
        let last_round = rounds.len().saturating_sub(1);
        for (number, round) in rounds.iter_mut().enumerate() {
            // The last so many are those at the very end.
            if matches!((place, what), (Scope::LastRepeats(_), _) | (_, What::More(_)))
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
    place: Scope,
) -> Option<Vec<(usize, Option<usize>)>> {
    let to_come = |block: &RunningBlock| block.rounds.iter().flatten().any(|l| l.to_come() > 0);
    let of_part = |wanted: fn(Part) -> bool| {
        let blocks = running.blocks.iter().enumerate();
        let blocks = blocks.filter(|(_, block)| wanted(block.part) && to_come(block));
        blocks.map(|(at, _)| (at, None)).collect::<Vec<_>>()
    };
    let chosen = match place {
        Scope::SwimDown => of_part(|part| part == Part::SwimDown),
        Scope::WarmUp => of_part(|part| part == Part::WarmUp),
        Scope::Rest => of_part(|part| part != Part::SwimDown),
        Scope::Line(number) => {
            let (block, line) = numbered(session, number)?;
            vec![(block, Some(line))]
        }
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
    place: Scope,
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
        Scope::LastRepeats(last) => number > count.saturating_sub(last),
        Scope::FromRepeat(first) => number >= first,
        Scope::Odd => number % 2 == 1,
        Scope::Even => number.is_multiple_of(2),
        Scope::Main | Scope::Line(_) | Scope::SwimDown | Scope::WarmUp | Scope::Rest => true,
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
pub(super) fn held(line: Repeat, lane: &Lane) -> Repeat {
    let of_aim = |aim| lane.target_on(aim, line.distance, line.stroke, line.send_off);
    let target = match line.aim {
        Some(aim) => of_aim(aim),
        None => line.target.filter(|time| line.send_off.is_none_or(|on| *time < on.time())),
    };
    Repeat { target, ..line }
}
