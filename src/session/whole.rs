//! A whole session, with the sums that must be exact.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use strum::VariantArray;

use super::{Block, Blocks, Limit, Part, Repeat};
use crate::units::{Level, Unit};

/// What the main set is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[derive(VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Purpose {
    /// Long and easy to steady.
    Endurance,
    /// Fractions of the test at its even pace.
    PaceHolding,
    /// The day of a race: its warm-up, and an easy swim after it.
    Race,
    /// Race rhythm.
    RaceRehearsal,
    /// Back after a break, illness or pain.
    Return,
    /// Short and fast with long rest.
    Speed,
    /// Stroke first, nothing hard.
    Technique,
    /// A timed test and what goes round it.
    Test,
    /// Short rest at the fastest pace that settles.
    Threshold,
}

/// The share of the session's distance at each level; the shares sum to 1.
pub type LevelShare = BTreeMap<Level, f64>;

/// A session for one swimmer on one day.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Session {
    /// The local day it is for.
    pub on: Date,
    /// What it is for.
    pub purpose: Purpose,
    /// The unit of the pool that it is written for.
    pub unit: Unit,
    /// From warm-up to swim-down.
    pub blocks: Blocks,
    /// The ids of the rules that decided it, most important first.
    pub rules: Vec<String>,
    /// What of it was left out for whoever swims it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub without: Vec<Limit>,
}

impl Session {
    /// Seconds allowed for going from one block to the next (common practice,
    /// no source).
    pub const CHANGE_S: u32 = 60;
    /// Seconds more where the equipment changes (common practice, no source).
    pub const KIT_CHANGE_S: u32 = 30;

    /// The whole distance, in [`Session::unit`]: exactly the sum over blocks of
    /// rounds × count × distance.
    pub fn amount(&self) -> u32 {
        self.blocks.iter().map(Block::amount).sum()
    }

    /// Seconds between blocks: a minute a change, half a minute more where the
    /// equipment differs.
    pub fn change_over_s(&self) -> u32 {
        let pairs = self.blocks.iter().zip(self.blocks.iter().skip(1));
        pairs.map(|(before, after)| before.change_s(after)).sum()
    }

    /// Each block with when it begins, in hundredths of a second after the session does.
    pub fn starts(&self) -> impl Iterator<Item = (u64, &Block)> {
        let mut clock: u64 = 0;
        let mut before: Option<&Block> = None;
        self.blocks.iter().map(move |block| {
            clock += before
                .map_or(0, |before| before.hundredths() + u64::from(before.change_s(block)) * 100);
            before = Some(block);
            (clock, block)
        })
    }

    /// The same in whole seconds: nothing of a block is swum by then.
    pub fn starts_s(&self) -> impl Iterator<Item = (u32, &Block)> {
        let whole = |hundredths: u64| u32::try_from(hundredths / 100).unwrap_or(u32::MAX);
        self.starts().map(move |(begins, block)| (whole(begins), block))
    }

    /// Swimming, resting and change-overs, in whole seconds rounded up.
    pub fn duration_s(&self) -> u32 {
        let hundredths: u64 = self.blocks.iter().map(Block::hundredths).sum();
        u32::try_from(hundredths.div_ceil(100)).unwrap_or(u32::MAX) + self.change_over_s()
    }

    /// The share of the distance at each of the five levels.
    pub fn level_share(&self) -> LevelShare {
        let mut amounts: BTreeMap<Level, u32> = Level::ALL.into_iter().map(|l| (l, 0)).collect();
        for block in &self.blocks {
            for repeat in &block.repeats {
                *amounts.entry(repeat.level).or_default() +=
                    u32::from(block.rounds) * repeat.amount();
            }
        }
        let all = f64::from(self.amount().max(1));
        amounts.into_iter().map(|(level, amount)| (level, f64::from(amount) / all)).collect()
    }

    /// True if another asks for the same swims on the same day.
    pub fn swims_as(&self, other: &Session) -> bool {
        (self.on, &self.blocks) == (other.on, &other.blocks)
    }

    /// The main blocks, in order.
    pub fn main(&self) -> impl Iterator<Item = &Block> {
        self.blocks.iter().filter(|block| block.part == Part::Main)
    }

    /// The lines of the main blocks, each with how often it is swum in all: a line of
    /// rounds as often as there are rounds.
    pub fn main_lines(&self) -> impl Iterator<Item = (u32, &Repeat)> {
        self.main().flat_map(|block| {
            let rounds = u32::from(block.rounds);
            block.repeats.iter().map(move |line| (rounds * u32::from(line.count), line))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Centis, Distance, Equipment, SendOff, Stroke};

    fn fifties(count: u16, level: Level, send_off: u32, equipment: &[Equipment]) -> Repeat {
        Repeat {
            count,
            distance: Distance::new(50, Unit::Metre).unwrap(),
            stroke: Stroke::Free,
            target: Some(Centis::new(4800).unwrap()),
            send_off: Some(SendOff::new(send_off).unwrap()),
            rest: None,
            aim: None,
            level,
            equipment: equipment.to_vec(),
            cue: None,
        }
    }

    #[test]
    fn sums_are_exact() {
        let block = |part, rounds, repeats| Block { part, rounds, repeats };
        let session = Session {
            on: jiff::civil::date(2026, 3, 4),
            purpose: Purpose::PaceHolding,
            unit: Unit::Metre,
            blocks: vec![
                block(Part::WarmUp, 1, vec![fifties(4, Level::Easy, 80, &[])]),
                block(Part::Drill, 1, vec![fifties(2, Level::Easy, 80, &[Equipment::Fins])]),
                block(
                    Part::Main,
                    2,
                    vec![fifties(4, Level::Hard, 75, &[]), fifties(1, Level::Easy, 90, &[])],
                ),
                block(Part::SwimDown, 1, vec![fifties(2, Level::Easy, 80, &[])]),
            ]
            .into(),
            rules: vec![],
            without: vec![],
        };
        assert_eq!(session.amount(), 200 + 100 + 500 + 100);
        assert_eq!(session.change_over_s(), 90 + 90 + 60);
        assert_eq!(session.duration_s(), 8 * 80 + 2 * (4 * 75 + 90) + 240);
        let share = session.level_share();
        assert!((share.values().sum::<f64>() - 1.0).abs() < 1e-12);
        assert!((share[&Level::Hard] - 400.0 / 900.0).abs() < 1e-12);
    }
}
