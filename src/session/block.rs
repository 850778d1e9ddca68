//! A block of a session: rounds of repeats with one part to play.

use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantArray, VariantNames};

use super::Session;
use crate::units::{Centis, Distance, Equipment, Level, SendOff, Stroke};

/// What a block is for, by the contract's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[derive(IntoStaticStr, VariantArray, VariantNames)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// Easy, first, before anything timed.
    WarmUp,
    /// Technique, with a cue and perhaps equipment.
    Drill,
    /// Up to the pace of what follows.
    Build,
    /// A timed test.
    Test,
    /// Easy swimming between hard parts.
    Recovery,
    /// What the session is for.
    Main,
    /// Easy, last, never cut.
    SwimDown,
}

/// One thing to think of while swimming.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cue {
    /// A row of the drill table, by its id; each language words it.
    Drill(String),
    /// The coach's own words, passed on as they are.
    Coach(String),
}

/// What a time to hold is taken from, so that each swimmer of a lane has their
/// own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Aim {
    /// So many tenths of a percent of their critical speed.
    CriticalSpeed(u16),
    /// The even pace of their test over that distance.
    TestPace(Distance),
}

/// One line of a set: `count` times `distance`, each on the same send-off or
/// after the same rest.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Repeat {
    /// How many, 1 to 100.
    pub count: u16,
    /// How far each.
    pub distance: Distance,
    /// Which stroke or way of swimming.
    pub stroke: Stroke,
    /// The time to swim each in; none where nothing is known of the swimmer.
    pub target: Option<Centis>,
    /// What the target is taken from, where a lane's swimmers have each their own;
    /// none where it holds as it stands.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub aim: Option<Aim>,
    /// Leave every so often.
    pub send_off: Option<SendOff>,
    /// Rest after each, where there is no send-off.
    pub rest: Option<Centis>,
    /// How hard it is meant to be.
    pub level: Level,
    /// What to swim it with.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub equipment: Vec<Equipment>,
    /// What to think of.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cue: Option<Cue>,
}

/// Rounds of repeats.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Block {
    /// What it is for.
    pub part: Part,
    /// How many times through, 1 to 50.
    pub rounds: u16,
    /// In the order swum.
    pub repeats: Vec<Repeat>,
}

/// Equipment as a set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Kit(u8);

/// What blocks one after the other come to, without the blocks themselves.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Extent {
    /// How far, in the pool's unit.
    pub amount: u32,
    /// Swimming and resting, in hundredths of a second.
    pub hundredths: u64,
    /// Seconds from one to the next.
    change_s: u32,
    /// What the first is swum with, and the last; none without a block.
    kit: Option<(Kit, Kit)>,
}

impl Extent {
    /// No blocks.
    pub const NONE: Extent = Extent { amount: 0, hundredths: 0, change_s: 0, kit: None };

    /// What these come to.
    pub fn of(blocks: &[Block]) -> Extent {
        blocks.iter().fold(Extent::NONE, |before, block| {
            let kit = block.kit();
            let (amount, hundredths) = (block.amount(), block.hundredths());
            before.then(Extent { amount, hundredths, change_s: 0, kit: Some((kit, kit)) })
        })
    }

    /// These, and others after them.
    pub fn then(self, next: Extent) -> Extent {
        let ((first, last), (next_first, next_last)) = match (self.kit, next.kit) {
            (Some(own), Some(others)) => (own, others),
            (_, None) => return self,
            (None, _) => return next,
        };
        Extent {
            amount: self.amount + next.amount,
            hundredths: self.hundredths + next.hundredths,
            change_s: self.change_s + next.change_s + last.change_s(next_first),
            kit: Some((first, next_last)),
        }
    }

    /// How long, in whole seconds rounded up.
    pub fn duration_s(&self) -> u32 {
        u32::try_from(self.hundredths.div_ceil(100)).unwrap_or(u32::MAX) + self.change_s
    }
}

impl Kit {
    /// Seconds between a block with this and one with the next.
    fn change_s(self, next: Kit) -> u32 {
        match self == next {
            true => Session::CHANGE_S,
            false => Session::CHANGE_S + Session::KIT_CHANGE_S,
        }
    }
}

impl Repeat {
    /// Count × distance, in the distance's own unit.
    pub fn amount(&self) -> u32 {
        u32::from(self.count) * self.distance.amount()
    }

    /// Count × (send-off, else target and rest); a repeat with neither takes
    /// no time that we could know.
    pub fn hundredths(&self) -> u64 {
        let each = match (self.send_off, self.target, self.rest) {
            (Some(send_off), _, _) => send_off.time().hundredths(),
            (None, target, rest) => {
                target.map_or(0, Centis::hundredths) + rest.map_or(0, Centis::hundredths)
            }
        };
        u64::from(self.count) * u64::from(each)
    }
}

impl Block {
    /// Rounds × the repeats' amounts.
    pub fn amount(&self) -> u32 {
        u32::from(self.rounds) * self.repeats.iter().map(Repeat::amount).sum::<u32>()
    }

    /// Rounds × the repeats' times.
    pub fn hundredths(&self) -> u64 {
        u64::from(self.rounds) * self.repeats.iter().map(Repeat::hundredths).sum::<u64>()
    }

    /// The block for all of a lane: without times to hold that each has their own
    /// of.
    pub fn for_all(&self) -> Block {
        let mut all = self.clone();
        for line in all.repeats.iter_mut().filter(|line| line.aim.is_some()) {
            line.target = None;
        }
        all
    }

    /// The equipment of all its repeats.
    fn kit(&self) -> Kit {
        let kit = self.repeats.iter().flat_map(|repeat| &repeat.equipment);
        Kit(kit.fold(0, |all, one| all | 1 << *one as u8))
    }

    /// Seconds between this block and the next: a minute, half a minute more where the
    /// equipment differs.
    pub fn change_s(&self, next: &Block) -> u32 {
        self.kit().change_s(next.kit())
    }

    /// The equipment of all its repeats, in the contract's order, each once.
    pub fn equipment(&self) -> Vec<Equipment> {
        let mut all: Vec<Equipment> =
            self.repeats.iter().flat_map(|repeat| repeat.equipment.iter().copied()).collect();
        all.sort_unstable();
        all.dedup();
        all
    }
}
