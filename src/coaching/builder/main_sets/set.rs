//! A main set and how well its size suits its level.

use crate::coaching::builder::Setting;
use crate::session::{Block, Extent, Part, Repeat};
use crate::swim::levels::Band;
use crate::units::{Level, Stroke};

/// A main set.
pub(in crate::coaching::builder) struct MainSet {
    blocks: Vec<Block>,
    /// 0 for the best, about 1 at the edge of what is allowed; below 0 for a
    /// set that must come next.
    pub off_dose: f64,
    extent: Extent,
}

impl MainSet {
    /// These blocks, so far off the best.
    pub fn new(blocks: Vec<Block>, off_dose: f64) -> MainSet {
        let extent = Extent::of(&blocks);
        MainSet { blocks, off_dose, extent }
    }

    /// So much farther off the best.
    pub fn off_by(self, more: f64) -> MainSet {
        MainSet { off_dose: self.off_dose + more, ..self }
    }

    /// Its blocks.
    pub fn blocks(&self) -> &[Block] {
        &self.blocks
    }

    /// What they come to.
    pub fn extent(&self) -> Extent {
        self.extent
    }

    /// Its distance.
    pub fn amount(&self) -> u32 {
        self.extent.amount
    }

    /// Tells it from others as long as it is.
    pub fn salt(&self) -> u32 {
        let lines = self.blocks.iter().flat_map(|block| &block.repeats);
        lines.fold(self.amount(), |salt, line| {
            salt.wrapping_mul(31).wrapping_add(line.distance.amount())
        })
    }

    /// Its hundredths of a second.
    pub fn hundredths(&self) -> u64 {
        self.extent.hundredths
    }

    /// The highest level in it.
    pub fn level(&self) -> Level {
        let lines = self.blocks.iter().flat_map(|block| &block.repeats);
        lines.map(|line| line.level).max().unwrap_or(Level::Easy)
    }

    /// Its distance at threshold and above.
    pub fn hard_amount(&self) -> u32 {
        let hard = |block: &Block| {
            let lines = block.repeats.iter().filter(|line| line.level.is_hard());
            u32::from(block.rounds) * lines.map(Repeat::amount).sum::<u32>()
        };
        self.blocks.iter().map(hard).sum()
    }
}

/// Counts whose minutes of swimming lie within the level's dose, with how far
/// each is off the best: the low end for a returner.
pub(super) fn sizes(
    setting: &Setting<'_>,
    level: Level,
    each_min: f64,
    most: u32,
) -> Vec<(u16, f64)> {
    let Some((least, greatest)) = Band::of(level).dose_min else { return Vec::new() };
    let (least, greatest) = (f64::from(least), f64::from(greatest));
    let best = least + (greatest - least) * setting.dose_share();
    (2..=most.min(40) as u16)
        .filter(|count| *count <= 8 || rounds_of(*count) > 1)
        .filter_map(|count| {
            let minutes = f64::from(count) * each_min;
            // About half the least dose is still a set where there is room for no
            // more; under that it is none.
            let fits = (least * 0.45..=greatest).contains(&minutes);
            fits.then(|| (count, (minutes - best).abs() / (greatest - least)))
        })
        .collect()
}

/// More than eight repeats are swum in rounds of three to eight, with an easy
/// swim after each round; one round for a number that can't be split so.
fn rounds_of(count: u16) -> u16 {
    let splits = |rounds: &u16| {
        count.is_multiple_of(*rounds) && (3..=8).contains(&(count / rounds)) && count > 8
    };
    [2, 3, 4, 5].into_iter().find(splits).unwrap_or(1)
}

/// `count` repeats of `line`, in rounds where they are many.
pub(super) fn in_rounds(setting: &Setting<'_>, count: u16, line: Repeat) -> Vec<Block> {
    let rounds = rounds_of(count);
    let mut lines = vec![Repeat { count: count / rounds, ..line }];
    if rounds > 1 {
        lines.extend(setting.easy(1, 50, Stroke::Choice));
    }
    vec![Block { part: Part::Main, rounds, repeats: lines }]
}
