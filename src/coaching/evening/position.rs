//! Where a lane should be: what it swims at an instant of its session, on time.
//!
//! Knows the clock of one lane; not whether anyone keeps to it.

use crate::session::{Block, Part, Repeat, Session};

/// Where a lane should be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Position {
    /// Between two blocks, on the way to this one.
    Changing {
        /// What comes next.
        next: Part,
        /// Seconds until it begins.
        in_s: u32,
    },
    /// In the middle of a line.
    Swimming {
        /// What the block is for.
        part: Part,
        /// The round, counted from 1, and of how many.
        round: (u16, u16),
        /// The line.
        line: Repeat,
        /// The repeat under way, counted from 1.
        number: u16,
        /// Seconds until the next one begins, or what comes after it.
        next_s: u32,
    },
    /// It is over.
    Over,
}

/// Where a lane that swims `session` should be so many seconds after its start.
pub fn position(session: &Session, elapsed_s: u32) -> Position {
    let now = u64::from(elapsed_s) * 100;
    let found = session.starts().find_map(|(begins, block)| match now < begins {
        true => Some(Position::Changing { next: block.part, in_s: seconds(begins - now) }),
        false => within(block, begins, now),
    });
    found.unwrap_or(Position::Over)
}

/// Where in a block that begins at `clock` it is; `None` where it is over.
fn within(block: &Block, mut clock: u64, now: u64) -> Option<Position> {
    for round in 1..=block.rounds {
        for line in &block.repeats {
            let whole = line.hundredths();
            if now >= clock + whole {
                clock += whole;
                continue;
            }
            let each = (whole / u64::from(line.count.max(1))).max(1);
            let swum = (now - clock) / each;
            return Some(Position::Swimming {
                part: block.part,
                round: (round, block.rounds),
                line: line.clone(),
                number: u16::try_from(swum + 1).unwrap_or(line.count).min(line.count),
                next_s: seconds(clock + (swum + 1) * each - now),
            });
        }
    }
    None
}

fn seconds(hundredths: u64) -> u32 {
    u32::try_from(hundredths.div_ceil(100)).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::coaching::evening::test_sessions::{self, line};
    use proptest::prelude::*;

    /// 4x50 on 1:20, a minute, twice (3x50 on 1:15, 50 on 2:00), a minute, 100
    /// on 3:00: ends after 320 + 60 + 690 + 60 + 180 s.
    fn session() -> Session {
        test_sessions::session(vec![
            (Part::WarmUp, 1, vec![line(4, 50, 80)]),
            (Part::Main, 2, vec![line(3, 50, 75), line(1, 50, 120)]),
            (Part::SwimDown, 1, vec![line(1, 100, 180)]),
        ])
    }

    #[test]
    fn the_clock_is_walked_by_hand() {
        let at = |elapsed| match position(&session(), elapsed) {
            Position::Swimming { part, round: (round, _), number, next_s, .. } => {
                format!("{part:?} {round} {number} {next_s}")
            }
            Position::Changing { next, in_s } => format!("to {next:?} {in_s}"),
            Position::Over => "over".to_owned(),
        };
        for (elapsed, expected) in [
            (0, "WarmUp 1 1 80"),
            (80, "WarmUp 1 2 80"),
            (319, "WarmUp 1 4 1"),
            (320, "to Main 60"),
            (380, "Main 1 1 75"),
            (380 + 225, "Main 1 1 120"),
            (380 + 345 + 80, "Main 2 2 70"),
            (1069, "Main 2 1 1"),
            (1070, "to SwimDown 60"),
            (1130, "SwimDown 1 1 180"),
            (1310, "over"),
        ] {
            assert_eq!(at(elapsed), expected, "after {elapsed} s");
        }
        assert_eq!(session().duration_s(), 1310);
    }

    proptest! {
        /// It is over exactly when the session's own sum says so.
        #[test]
        fn it_ends_with_the_session(elapsed in 0u32..2000) {
            let over = position(&session(), elapsed) == Position::Over;
            prop_assert_eq!(over, elapsed >= session().duration_s());
        }
    }
}
