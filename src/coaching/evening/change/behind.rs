//! A coach changes repeats that should be over by now: so the lane is behind the clock.
//!
//! Nobody leaves out a swim-down that was swum. How far behind the lane is, is not known;
//! it counts as being where the changed part begins.

use super::{What, main_line, numbered};
use crate::coaching::evening::running::{Running, RunningBlock};
use crate::session::{Part, Scope, Session};

/// The seconds that have passed for whoever makes this change: those of the clock, unless
/// nothing of what is meant would then be still to come. While anything else is, only of the
/// swim-down: fewer repeats than were swum by then are no reason to doubt the clock.
pub(super) fn as_meant(session: &Session, elapsed_s: u32, place: Scope, what: &What) -> u32 {
    let goes_on = matches!(
        what,
        What::Pause(_)
            | What::Resume
            | What::MoveOn
            | What::Restart
            | What::SkipRound
            | What::Add(_)
    );
    let running = Running::at(session, elapsed_s);
    let whole = elapsed_s >= session.duration_s();
    let is_past = |block: usize| {
        let of_end = session.blocks.get(block).is_some_and(|one| one.part == Part::SwimDown);
        (whole || of_end) && running.blocks.get(block).is_some_and(is_over)
    };
    match (!goes_on).then(|| block_meant(session, &running, place)).flatten() {
        Some(block) if is_past(block) => {
            session.starts_s().nth(block).map_or(elapsed_s, |(begins_s, _)| begins_s.min(elapsed_s))
        }
        _ => elapsed_s,
    }
}

fn is_over(block: &RunningBlock) -> bool {
    block.rounds.iter().flatten().all(|line| line.to_come() == 0)
}

/// The first block of those that are meant, where all of them are one part of the set. The
/// warm-up is over for good once anything else is swum.
fn block_meant(session: &Session, running: &Running, place: Scope) -> Option<usize> {
    match place {
        Scope::SwimDown => session.blocks.iter().position(|block| block.part == Part::SwimDown),
        Scope::WarmUp | Scope::Rest => None,
        Scope::Line(number) => numbered(session, number).map(|(block, _)| block),
        _ => main_line(session, running).map(|(block, _)| block),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::coaching::evening::test_sessions::{self, line};

    /// 200 on 5:00, a minute, 8x50 on 1:05, a minute, 200 on 5:00: the main set begins after
    /// 360 s, the swim-down after 940, and all is over after 1240.
    fn session() -> Session {
        test_sessions::session(vec![
            (Part::WarmUp, 1, vec![line(1, 200, 300)]),
            (Part::Main, 1, vec![line(8, 50, 65)]),
            (Part::SwimDown, 1, vec![line(1, 200, 300)]),
        ])
    }

    #[test]
    fn whoever_changes_what_is_over_is_behind_the_clock() {
        let at = |elapsed, place, what: What| as_meant(&session(), elapsed, place, &what);
        assert_eq!(at(1800, Scope::SwimDown, What::Drop), 940);
        assert_eq!(at(1800, Scope::Line(3), What::Drop), 940);
        assert_eq!(at(1800, Scope::Main, What::Count(10)), 360);
        // Once the swim-down is under way, it may still be left out.
        assert_eq!(at(1000, Scope::SwimDown, What::Drop), 940);
        assert_eq!(at(1000, Scope::Main, What::Count(3)), 1000);
        // As long as anything of it is to come, the clock is right.
        assert_eq!(at(500, Scope::SwimDown, What::Drop), 500);
        assert_eq!(at(500, Scope::Main, What::Count(6)), 500);
        // What only goes on changes nothing that is over.
        assert_eq!(at(1800, Scope::Rest, What::Resume), 1800);
        assert_eq!(at(1800, Scope::WarmUp, What::Drop), 1800);
    }
}
