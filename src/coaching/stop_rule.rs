//! When to change or end a set while it is being swum, in numbers that a wall
//! clock shows.

use super::rulebook::{RuleId, Rulebook};
use crate::session::Repeat;
use crate::units::{Centis, SendOff};

/// The stop rule of one line: two running over the limit, then the longer
/// send-off; again, then easy to the end. Sprints are not slowed: they end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StopRule {
    /// Two running slower than this is lost.
    pub over: Centis,
    /// The send-off from then on; `None` where the rest of the round is missed.
    pub then: Option<SendOff>,
}

/// The stop rule of a timed hard line; `None` for easy ones and those without a
/// target.
pub fn stop_rule(line: &Repeat) -> Option<StopRule> {
    let target = line.target.filter(|_| line.level.is_hard() && line.count > 2)?;
    // What is held still: 2 % or a second, half of it over a 25, to the next whole second.
    let least = if line.distance.amount() <= 25 { 50 } else { 100 };
    let tolerance = (target.hundredths() / 50).max(least);
    let over = Centis::new((target.hundredths() + tolerance).div_ceil(100) * 100).ok()?;
    let more = Rulebook::default().whole(RuleId::StepSendOffLonger).unsigned_abs() as u32;
    let then = match line.distance.amount() {
        ..=25 => None,
        _ => line.send_off.and_then(|on| SendOff::new(on.seconds() + more).ok()),
    };
    Some(StopRule { over, then })
}
