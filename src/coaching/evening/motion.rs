//! What a coach changes in a set while it is swum: a count, a send-off, a round.
//!
//! What is swum stays as it was swum. Knows no minutes: whether it then ends in
//! time is seen afterwards.

use super::cut::is_main;
use super::lane::Lane;
use super::running::{Line, Running};
use crate::coaching::Facts;
use crate::session::{Repeat, Session};
use crate::units::{Course, SendOff, Stroke};

/// The set with `count` repeats in its main line, in each round still to come,
/// and never fewer than are swum, and that line; `None` without a main set.
pub fn with_count(session: &Session, elapsed_s: u32, count: u16) -> Option<(Session, Repeat)> {
    let mut running = Running::at(session, elapsed_s);
    let (block, at) = main_line(session, &running)?;
    let mut changed = None;
    for round in &mut running.blocks[block].rounds {
        let line = round.get_mut(at)?;
        if line.to_come() > 0 {
            line.repeat.count = count.max(line.swum);
            changed = Some(line.repeat.clone());
        }
    }
    let line = changed.or_else(|| line_in_question(session, elapsed_s))?;
    Some((running.session(), line))
}

/// The set with another send-off for what is still to come of its main line, and
/// that line as it is from now on; `None` without a main set.
pub fn with_send_off(session: &Session, elapsed_s: u32, on: SendOff) -> Option<(Session, Repeat)> {
    let mut running = Running::at(session, elapsed_s);
    let (block, at) = main_line(session, &running)?;
    let mut changed = None;
    for round in &mut running.blocks[block].rounds {
        let line = round.get(at)?.clone();
        let from_now =
            Repeat { count: line.to_come(), send_off: Some(on), rest: None, ..line.repeat.clone() };
        if line.to_come() > 0 {
            changed = Some(from_now.clone());
            let swum = Repeat { count: line.swum, ..line.repeat };
            let before = Line { repeat: swum, swum: line.swum };
            round.splice(at..=at, [before, Line { repeat: from_now, swum: 0 }]);
        }
    }
    let line = changed.or_else(|| line_in_question(session, elapsed_s))?;
    Some((running.session(), line))
}

/// The set without the last round of its main set, but for what is swum of it;
/// `None` where there are no rounds.
pub fn without_last_round(session: &Session, elapsed_s: u32) -> Option<Session> {
    let mut running = Running::at(session, elapsed_s);
    let mains = session.blocks.iter().zip(&mut running.blocks).rev();
    let (_, block) =
        mains.into_iter().find(|(block, _)| is_main(session, block) && block.rounds > 1)?;
    let last = block.rounds.last_mut()?;
    for line in last.iter_mut() {
        line.repeat.count = line.swum;
    }
    Some(running.session())
}

/// The line that a change of the main set means, as it now stands.
pub fn line_in_question(session: &Session, elapsed_s: u32) -> Option<Repeat> {
    let running = Running::at(session, elapsed_s);
    let (block, at) = main_line(session, &running)?;
    session.blocks.get(block)?.repeats.get(at).cloned()
}

/// The send-off that those of a lane need at least for `line`; `None` where
/// nothing is known of them.
pub fn least_send_off(swimmers: &[&Facts], course: Course, line: &Repeat) -> Option<SendOff> {
    Lane::of(swimmers, course)?.least_send_off(line)
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
    let (at, _) = lines.max_by_key(|(at, line)| {
        let asks = (line.level.is_hard(), line.count, line.level);
        (is_swum(line), asks, std::cmp::Reverse(*at))
    })?;
    Some((block, at))
}
