//! What a coach changes in a lane's set while it is swum.
//!
//! What is swum, or under way, stays as it was swum; only a pause makes the repeat
//! under way longer. A lane is behind the clock if repeats are changed that should be over
//! by now. What the coach says stands; whatever of it can't be swum is told beside it.
//! Knows no minutes: when the set then ends is worked out afterwards.

mod behind;
mod flow;
mod repeats;

use self::behind::as_meant;
use self::flow::{add, instead, move_on, pause, restart, skip_round};
use self::repeats::{held, of_lines};
use super::cut::is_main;
use super::lane::Lane;
use super::running::{Line, Running, RunningBlock};
use super::written::{Tight, WrittenBlock, tight_on};
use super::{Swims, together};
use crate::session::{EditWhat, Part, Repeat, Scope, Session};
use crate::units::{Distance, SendOff, Stroke};

/// What becomes of a part of a set, in the distances and blocks of one pool.
pub type What = EditWhat<Distance, Vec<WrittenBlock>>;

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
    place: Scope,
    what: &What,
) -> Option<Changed> {
    let lane = lane.lane()?;
    let mut running = Running::at(session, as_meant(session, elapsed_s, place, what));
    let mut lines = match what {
        What::Pause(time) => pause(&mut running, time.hundredths().div_ceil(100))?,
        What::Resume => pause(&mut running, 0)?,
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

/// Block and line: in the first main block that is not swum yet, the line that
/// asks for most; never a drill beside other swims.
fn main_line(session: &Session, running: &Running) -> Option<(usize, usize)> {
    let blocks = session.blocks.iter().zip(&running.blocks).enumerate();
    let is_swum = |line: &Repeat| line.stroke != Stroke::Drill;
    let mut mains: Vec<_> = blocks.filter(|(_, (block, _))| is_main(session, block)).collect();
    // A drill is nothing that anyone times, where anything else is.
    if mains.iter().any(|(_, (block, _))| block.repeats.iter().any(is_swum)) {
        mains.retain(|(_, (block, _))| block.repeats.iter().any(is_swum));
    }
    let to_come = |running: &RunningBlock| running.rounds.iter().flatten().any(Line::is_to_come);
    let open = mains.iter().find(|(_, (_, running))| to_come(running));
    let (number, (block, running)) = *open.or(mains.last())?;
    let left =
        |at: usize| running.rounds.iter().filter_map(|round| round.get(at)).any(Line::is_to_come);
    let (at, _) = block.repeats.iter().enumerate().max_by_key(|(at, line)| {
        let asks = (line.level.is_hard(), line.count, line.level);
        (is_swum(line), left(*at), asks, std::cmp::Reverse(*at))
    })?;
    Some((number, at))
}

/// Block and line of the line with a number, counted from 1 over all of a set.
fn numbered(session: &Session, number: u16) -> Option<(usize, usize)> {
    let blocks = session.blocks.iter().enumerate();
    let mut lines =
        blocks.flat_map(|(block, of)| (0..of.repeats.len()).map(move |line| (block, line)));
    lines.nth(usize::from(number).checked_sub(1)?)
}

/// The set with its rest written for those who swim in the lane now: their times to
/// hold and their send-offs, except send-offs that the coach said.
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
