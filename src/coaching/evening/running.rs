//! A set while it is swum: its repeats one by one, each swum or still to come.
//!
//! Knows the clock of one lane; decides nothing about what to leave out.

use crate::session::{Block, Part, Repeat, Session};

/// A session taken apart into its rounds, with what is swum of each line.
#[derive(Debug, Clone)]
pub(super) struct Running {
    session: Session,
    pub blocks: Vec<RunningBlock>,
}

/// A block in its rounds.
#[derive(Debug, Clone)]
pub(super) struct RunningBlock {
    pub part: Part,
    pub rounds: Vec<Vec<Line>>,
}

/// One line of one round.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Line {
    /// The line, with the repeats that it has now.
    pub repeat: Repeat,
    /// How many of them are swum or under way.
    pub swum: u16,
}

impl RunningBlock {
    /// A block of which nothing is swum.
    pub fn to_come(block: &Block) -> RunningBlock {
        let line = |repeat: &Repeat| Line { repeat: repeat.clone(), swum: 0 };
        let round: Vec<Line> = block.repeats.iter().map(line).collect();
        RunningBlock { part: block.part, rounds: vec![round; usize::from(block.rounds)] }
    }
}

impl Line {
    /// Repeats still to come.
    pub fn to_come(&self) -> u16 {
        self.repeat.count.saturating_sub(self.swum)
    }

    /// True while any are.
    pub fn is_to_come(&self) -> bool {
        self.to_come() > 0
    }
}

impl Running {
    /// `session` so many seconds after its start, on time: a repeat that was
    /// begun counts as swum.
    pub fn at(session: &Session, elapsed_s: u32) -> Running {
        let elapsed = u64::from(elapsed_s) * 100;
        let mut blocks = Vec::with_capacity(session.blocks.len());
        for (mut clock, block) in session.starts() {
            let rounds = (0..block.rounds)
                .map(|_| {
                    let lines = block.repeats.iter().map(|repeat| {
                        let each = repeat.hundredths() / u64::from(repeat.count.max(1));
                        let begun = match elapsed.saturating_sub(clock) {
                            0 => 0,
                            since => since.div_ceil(each.max(1)).min(u64::from(repeat.count)),
                        };
                        clock += repeat.hundredths();
                        // At most the count, which is one.
                        let swum = u16::try_from(begun).unwrap_or(repeat.count);
                        Line { repeat: repeat.clone(), swum }
                    });
                    lines.collect()
                })
                .collect();
            blocks.push(RunningBlock { part: block.part, rounds });
        }
        Running { session: session.clone(), blocks }
    }

    /// The session as it now is, without what has no repeats left; rounds that
    /// are alike are written as rounds.
    pub fn session(&self) -> Session {
        let blocks = self.blocks.iter().filter_map(block).collect();
        Session { blocks, ..self.session.clone() }
    }
}

/// What of `session` is swum or under way so many seconds after its start, in its
/// unit.
pub fn swum_amount(session: &Session, elapsed_s: u32) -> u32 {
    let running = Running::at(session, elapsed_s);
    let lines = running.blocks.iter().flat_map(|block| block.rounds.iter().flatten());
    lines.map(|line| u32::from(line.swum) * line.repeat.distance.amount()).sum()
}

fn block(running: &RunningBlock) -> Option<Block> {
    let rounds: Vec<Vec<Repeat>> = running
        .rounds
        .iter()
        .map(|lines| {
            let left = lines.iter().filter(|line| line.repeat.count > 0);
            joined(left.map(|line| line.repeat.clone()))
        })
        .filter(|lines| !lines.is_empty())
        .collect();
    let first = rounds.first()?.clone();
    if rounds.len() > 1 && rounds.iter().all(|round| *round == first) {
        let rounds = u16::try_from(rounds.len()).ok()?;
        return Some(Block { part: running.part, rounds, repeats: first });
    }
    let repeats = joined(rounds.into_iter().flatten());
    Some(in_rounds(running.part, repeats))
}

/// Lines that come again and again as rounds.
fn in_rounds(part: Part, mut repeats: Vec<Repeat>) -> Block {
    let whole = |each: &usize| {
        repeats.len().is_multiple_of(*each)
            && repeats.chunks(*each).all(|round| repeats.starts_with(round))
    };
    let each = (1..=repeats.len()).find(whole).unwrap_or(repeats.len());
    match u16::try_from(repeats.len() / each.max(1)) {
        Ok(rounds @ 2..=50) => {
            repeats.truncate(each);
            Block { part, rounds, repeats }
        }
        _ => Block { part, rounds: 1, repeats },
    }
}

/// Lines that differ only in their count, one behind the other, as one.
fn joined(lines: impl Iterator<Item = Repeat>) -> Vec<Repeat> {
    let mut all: Vec<Repeat> = Vec::new();
    for line in lines {
        match all.last_mut() {
            Some(last) if Repeat { count: line.count, ..last.clone() } == line => {
                last.count = last.count.saturating_add(line.count);
            }
            _ => all.push(line),
        }
    }
    all
}
