//! Lanes that end together, by what is worth swimming.
//!
//! Too long: what [`shortened`] gives up, in its order. Too short: easy repeats
//! beside the main set, then a longer swim-down; never a slower one, and no hard
//! swimming to fill a clock. Knows one lane.

use super::Swims;
use super::cut::{is_main, shortened};
use super::running::Running;
use crate::session::{Part, Repeat, Session};
use crate::units::{Distance, Level, SendOff};

/// Lanes are out together if they end within so many seconds of each other
/// (common practice, no source).
pub const TOGETHER_S: u32 = 120;

/// The longest swim-down that fills a clock, in lengths (ours).
const MOST_LENGTHS: u32 = 16;

/// `session`, of which `elapsed_s` seconds have passed, so that it ends at most
/// `ends_s` seconds after it began and as near to that as whole repeats allow.
pub fn ending_at(session: &Session, elapsed_s: u32, lane: &Swims<'_>, ends_s: u32) -> Session {
    let mut fitted = shortened(session, elapsed_s, ends_s).session;
    // A repeat more each time; each is at least a second, so it comes to an end.
    while let Some(longer) = longer(&fitted, elapsed_s, ends_s) {
        fitted = longer;
    }
    with_longer_swim_down(&fitted, elapsed_s, lane, ends_s)
}

/// One easy repeat more beside the main set, where one fits.
fn longer(session: &Session, elapsed_s: u32, ends_s: u32) -> Option<Session> {
    let left_s = ends_s.checked_sub(session.duration_s())?;
    let mut running = Running::at(session, elapsed_s);
    let beside = session.blocks.iter().zip(&mut running.blocks);
    let beside = beside.filter(|(block, _)| block.part == Part::Main && !is_main(session, block));
    let lines = beside.flat_map(|(_, running)| running.rounds.iter_mut().flatten());
    let line =
        lines.filter(|line| line.to_come() > 0 && line.repeat.level == Level::Easy).last()?;
    let each = Repeat { count: 1, ..line.repeat.clone() }.hundredths().div_ceil(100);
    if each == 0 || each > u64::from(left_s) {
        return None;
    }
    line.repeat.count = line.repeat.count.checked_add(1)?;
    Some(running.session())
}

/// The swim-down as many lengths longer as fit, where it is one swim that has not
/// begun.
fn with_longer_swim_down(
    session: &Session,
    elapsed_s: u32,
    lane: &Swims<'_>,
    ends_s: u32,
) -> Session {
    let left_s = ends_s.saturating_sub(session.duration_s());
    let length = lane.course.length().unwrap_or(100);
    let begun = Running::at(session, elapsed_s)
        .blocks
        .last()
        .is_none_or(|block| block.rounds.iter().flatten().any(|line| line.swum > 0));
    let mut longer = session.clone();
    let Some(last) = longer.blocks.last_mut().filter(|block| block.part == Part::SwimDown) else {
        return longer;
    };
    let ([line], 1, Some(of_lane), false) =
        (last.repeats.as_mut_slice(), last.rounds, lane.lane(), begun)
    else {
        return longer;
    };
    let before = line.send_off.map_or(0, SendOff::seconds);
    let swum = line.distance.amount() / length;
    let fits = (swum + 1..=MOST_LENGTHS).rev().find_map(|lengths| {
        let distance = Distance::new(lengths * length, line.distance.unit()).ok()?;
        let time = of_lane.slowest().easy_time(distance, line.stroke)?;
        let send_off = SendOff::after(time, 0);
        (send_off.seconds() <= before + left_s).then_some((distance, send_off))
    });
    if let (1, Some((distance, send_off))) = (line.count, fits) {
        *line = Repeat { distance, send_off: Some(send_off), ..line.clone() };
    }
    longer
}
