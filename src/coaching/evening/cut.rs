//! The shortest change that makes a set end in time.
//!
//! What is given up, in this order (common practice, no source): swims beside
//! the main set, then repeats of the main set from its end, then the build that
//! led up to it, then what is left of the warm-up. Never the swim-down, never a
//! part of a repeat; send-offs and targets stay as they are.

use super::running::{Line, Running};
use crate::session::{Block, Part, Repeat, Session};

/// A set made shorter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shortened {
    /// The whole session as it now is, with what was swum before.
    pub session: Session,
    /// What was given up, in the order of the session.
    pub given_up: Vec<GivenUp>,
    /// It ends in time.
    pub fits: bool,
    /// Some of what it was for is swum or still to come.
    pub keeps_purpose: bool,
}

/// A line of which repeats were given up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GivenUp {
    /// The part of the session it belongs to.
    pub part: Part,
    /// The line, with the repeats it had still to come over the rounds.
    pub line: Repeat,
    /// How many of them are left.
    pub left: u16,
    /// How many are swum or under way.
    pub swum: u16,
}

/// `session`, of which `elapsed_s` seconds have passed, made to take at most
/// `total_s` seconds in all.
///
/// Nothing that was given up could be kept: with any repeat of it put back the
/// set would be too long.
pub fn shortened(session: &Session, elapsed_s: u32, total_s: u32) -> Shortened {
    let whole = Running::at(session, elapsed_s);
    let order = order_of_giving_up(session, &whole);
    let fits = |given: &[Place]| without(&whole, given).session().duration_s() <= total_s;
    let first = |few: usize| -> Vec<Place> { order.iter().take(few).copied().collect() };
    // Each repeat given up makes it shorter, so the first that suffices is
    // found by halving.
    let (mut few, mut many) = (0, order.len());
    while few < many {
        let half = (few + many) / 2;
        if fits(&first(half)) { many = half } else { few = half + 1 }
    }
    let mut given = first(few);
    // What was given up early may not have been needed after all.
    for at in (0..few.saturating_sub(1)).rev() {
        let kept = given.remove(at);
        if !fits(&given) {
            given.insert(at, kept);
        }
    }
    let running = without(&whole, &given);
    let shorter = if few == 0 { session.clone() } else { running.session() };
    let keeps_purpose = keeps_purpose(session, &whole, &running);
    Shortened {
        given_up: given_up(&whole, &running),
        fits: shorter.duration_s() <= total_s,
        session: shorter,
        keeps_purpose,
    }
}

/// Seconds from the start of a session to its main set.
pub fn before_main_s(session: &Session) -> u32 {
    let main = session.starts_s().find(|(_, block)| is_main(session, block));
    main.map_or(0, |(begins_s, _)| begins_s)
}

/// True for the blocks that the session is for: the hard ones of a hard
/// session, else all its main blocks.
pub(super) fn is_main(session: &Session, block: &Block) -> bool {
    let is_hard = |block: &Block| block.repeats.iter().any(|line| line.level.is_hard());
    let hard = session.main().any(is_hard);
    match block.part {
        Part::Test => true,
        Part::Main => !hard || is_hard(block),
        _ => false,
    }
}

/// Where one repeat stands: block, round, line.
type Place = (usize, usize, usize);

/// Every repeat to come that may be given up, the first to go first.
fn order_of_giving_up(session: &Session, running: &Running) -> Vec<Place> {
    let turn = |block: &Block| match block.part {
        Part::SwimDown => None,
        _ if is_main(session, block) => Some(1),
        Part::Build => Some(2),
        Part::WarmUp => Some(3),
        _ => Some(0),
    };
    let mut order = Vec::new();
    for wanted in 0..=3 {
        for (at, (block, running)) in session.blocks.iter().zip(&running.blocks).enumerate().rev() {
            if turn(block) != Some(wanted) {
                continue;
            }
            for (round, lines) in running.rounds.iter().enumerate().rev() {
                for (place, line) in lines.iter().enumerate().rev() {
                    order.extend((0..line.to_come()).map(|_| (at, round, place)));
                }
            }
        }
    }
    order
}

fn without(whole: &Running, given: &[Place]) -> Running {
    let mut left = whole.clone();
    for place in given {
        if let Some(line) = line_at(&mut left, *place) {
            line.repeat.count -= 1;
        }
    }
    left
}

fn line_at(running: &mut Running, (block, round, line): Place) -> Option<&mut Line> {
    running.blocks.get_mut(block)?.rounds.get_mut(round)?.get_mut(line)
}

fn given_up(before: &Running, after: &Running) -> Vec<GivenUp> {
    let mut all: Vec<GivenUp> = Vec::new();
    for (before, after) in before.blocks.iter().zip(&after.blocks) {
        for (at, line) in before.rounds.first().into_iter().flatten().enumerate() {
            let sum = |rounds: &[Vec<Line>], of: fn(&Line) -> u16| -> u16 {
                rounds.iter().filter_map(|round| round.get(at)).map(of).sum()
            };
            let had = sum(&before.rounds, Line::to_come);
            let left = sum(&after.rounds, Line::to_come);
            if had > left {
                let line = Repeat { count: had, ..line.repeat.clone() };
                let swum = sum(&before.rounds, |line| line.swum);
                all.push(GivenUp { part: before.part, line, left, swum });
            }
        }
    }
    all
}

/// True if a repeat of the main set is swum or stays, or there was none.
fn keeps_purpose(session: &Session, before: &Running, after: &Running) -> bool {
    let matters = |line: &Repeat, block: &Block| {
        let hard = block.repeats.iter().any(|one| one.level.is_hard());
        !hard || line.level.is_hard()
    };
    let repeats = |running: &Running| -> u32 {
        let mains = session.blocks.iter().zip(&running.blocks);
        let mains = mains.filter(|(block, _)| is_main(session, block));
        mains
            .flat_map(|(block, running)| {
                running.rounds.iter().flatten().filter(|line| matters(&line.repeat, block))
            })
            .map(|line| u32::from(line.repeat.count))
            .sum()
    };
    repeats(before) == 0 || repeats(after) > 0
}
