//! The main sets that a purpose allows: every size worth weighing.

use super::Setting;
use super::pen::once;
use crate::coaching::drills::{DRILLS, Drill};
use crate::session::{Block, Part, Purpose};
use crate::swim::Trial;
use crate::swim::levels::Band;
use crate::units::{Level, Stroke};

/// A main set, and how well its size suits its level.
pub(super) struct MainSet {
    /// Its blocks.
    pub blocks: Vec<Block>,
    /// 0 for the best size, 1 at the edge of what is allowed.
    pub off_dose: f64,
}

impl MainSet {
    /// Its distance.
    pub fn amount(&self) -> u32 {
        self.blocks.iter().map(Block::amount).sum()
    }

    /// Its distance at threshold and above.
    pub fn hard_amount(&self) -> u32 {
        let hard = |block: &Block| {
            let lines = block.repeats.iter().filter(|line| line.level.is_hard());
            u32::from(block.rounds) * lines.map(crate::session::Repeat::amount).sum::<u32>()
        };
        self.blocks.iter().map(hard).sum()
    }
}

/// Every main set for the purpose, in no order of merit; empty where the
/// swimmer's paces don't allow the purpose.
pub(super) fn options(setting: &Setting<'_>) -> Vec<MainSet> {
    match setting.purpose {
        Purpose::PaceHolding | Purpose::RaceRehearsal => pace_holding(setting),
        Purpose::Speed => speed(setting),
        Purpose::Threshold => threshold(setting),
        Purpose::Endurance => endurance(setting),
        Purpose::Technique => technique(setting),
        Purpose::Return => easy_swims(setting),
        Purpose::Test => test(setting),
    }
}

/// Pieces of the newest test at its even pace. In all 1 to 2 times the test in
/// eighths and quarters, at most 1.5 times in halves (common practice, no
/// source), and within the minutes that the level allows.
fn pace_holding(setting: &Setting<'_>) -> Vec<MainSet> {
    let Some(test) = setting.paces.newest() else { return Vec::new() };
    let mut sets = follow_up(setting);
    for piece in [25, 50, 100, 200] {
        let whole = test.distance.amount();
        let is_half = piece * 4 > whole;
        if piece * 2 > whole || piece * 16 < whole || (piece == 25 && whole > 100) {
            continue;
        }
        let most = if is_half { whole * 3 / 2 } else { whole * 2 };
        sets.extend(at_test_pace(setting, test, piece, most));
    }
    sets
}

/// 25s and 50s at the even pace of a tested 50 or 100, long rest.
fn speed(setting: &Setting<'_>) -> Vec<MainSet> {
    let Some(test) = setting.paces.tests.iter().rev().find(|t| t.distance.amount() <= 100) else {
        return Vec::new();
    };
    [25, 50]
        .into_iter()
        .filter(|piece| piece * 2 <= test.distance.amount())
        .flat_map(|piece| at_test_pace(setting, test, piece, test.distance.amount() * 4))
        .collect()
}

fn at_test_pace(setting: &Setting<'_>, test: &Trial, piece: u32, most: u32) -> Vec<MainSet> {
    let hold = crate::units::Distance::new(piece, setting.paces.unit())
        .ok()
        .filter(|distance| distance.fits(setting.paces.course))
        .and_then(|distance| setting.paces.even(test, distance));
    let Some(hold) = hold else { return Vec::new() };
    let each_min = hold.time.seconds() / 60.0;
    sizes(setting, hold.level, each_min, most / piece)
        .into_iter()
        .filter_map(|(count, off_dose)| {
            let lines = vec![setting.held(count, piece, hold)?];
            Some(MainSet { blocks: in_rounds(setting, count, lines), off_dose })
        })
        .collect()
}

/// The set that follows from the last result, exactly one thing changed.
fn follow_up(setting: &Setting<'_>) -> Vec<MainSet> {
    let set = setting.follow_up.clone().filter(|set| {
        set.distance.fits(setting.paces.course)
            && set.target.zip(set.send_off).is_some_and(|(target, on)| target < on.time())
            && setting.targets_shown
    });
    set.map(|set| MainSet { blocks: vec![once(Part::Main, vec![set])], off_dose: -1.0 })
        .into_iter()
        .collect()
}

/// Repeats just under critical speed, written from the slow side of it; longer
/// ones slower still (400s can't be held at the speed of 100s: Toubekis et al.
/// 2011, J Sci Med Sport 14:363-368).
fn threshold(setting: &Setting<'_>) -> Vec<MainSet> {
    let percent = setting.book.number(crate::coaching::RuleId::SlowHalf);
    let mut sets = Vec::new();
    for (piece, slower) in [(50, 0.0), (100, 0.0), (200, 1.0), (300, 1.5), (400, 2.0)] {
        let percent = (percent - slower).max(95.5);
        let Some(one) = setting.at(1, piece, percent) else { continue };
        let Some(target) = one.target.filter(|_| one.distance.fits(setting.paces.course)) else {
            continue;
        };
        // A threshold repeat takes about 40 s to 6 min.
        let each_min = target.seconds() / 60.0;
        if !(0.65..=6.0).contains(&each_min) || (setting.stroke() == Stroke::Fly && piece > 50) {
            continue;
        }
        for (count, off_dose) in sizes(setting, one.level, each_min, 40) {
            if let Some(line) = setting.at(count, piece, percent) {
                sets.push(MainSet { blocks: in_rounds(setting, count, vec![line]), off_dose });
            }
        }
    }
    sets
}

/// Steady swims; where no threshold is known, easy ones.
fn endurance(setting: &Setting<'_>) -> Vec<MainSet> {
    if setting.paces.critical.is_none() || !setting.targets_shown {
        return easy_swims(setting);
    }
    let mut sets = Vec::new();
    for piece in [50, 100, 200, 300, 400] {
        let Some(one) = setting.at(1, piece, 91.5) else { continue };
        let Some(target) = one.target.filter(|_| one.distance.fits(setting.paces.course)) else {
            continue;
        };
        let each_min = target.seconds() / 60.0;
        if !(0.9..=8.0).contains(&each_min) || (setting.stroke() == Stroke::Fly && piece > 50) {
            continue;
        }
        for (count, off_dose) in sizes(setting, Level::Steady, each_min, 40) {
            if let Some(line) = setting.at(count, piece, 91.5) {
                sets.push(MainSet { blocks: vec![once(Part::Main, vec![line])], off_dose });
            }
        }
    }
    // A short session holds fewer minutes than a full dose.
    if sets.is_empty() {
        easy_swims(setting)
    } else {
        sets.into_iter().chain(easy_swims(setting)).collect()
    }
}

/// Stroke first: a drill and easy swimming in turn.
fn technique(setting: &Setting<'_>) -> Vec<MainSet> {
    let piece = setting.length().max(25);
    let drills = drills_for(setting);
    let Some(drill) = pick(&drills, setting.seed / 7) else { return easy_swims(setting) };
    let mut sets = easy_swims(setting);
    for set in &mut sets {
        set.off_dose += 0.5;
    }
    for rounds in 1..=12 {
        let lines = [
            setting.drilled(2, piece, drill),
            setting.easy(2, piece.max(50), setting.stroke_for(piece.max(50))),
        ];
        let lines: Vec<_> = lines.into_iter().flatten().collect();
        if lines.len() == 2 {
            let blocks = vec![Block { part: Part::Main, rounds, repeats: lines }];
            sets.push(MainSet { blocks, off_dose: 0.0 });
        }
    }
    sets
}

/// Easy repeats in any number: what fits always.
fn easy_swims(setting: &Setting<'_>) -> Vec<MainSet> {
    let length = setting.length();
    let pieces: &[u32] = match setting.paces.easy_per_100_s() {
        slow if slow > 150.0 => &[25, 50],
        middling if middling > 110.0 => &[25, 50, 100],
        _ => &[25, 50, 100, 200],
    };
    let mut sets = Vec::new();
    // Open water has no short repeats.
    let pieces = if setting.paces.course.length().is_some() { pieces } else { &[100, 200, 400] };
    for &piece in pieces.iter().filter(|piece| piece.is_multiple_of(length)) {
        for count in 1..=24u16 {
            // Many short ones only where nothing longer would fit.
            let off_dose = if piece == 25 && count > 2 { 0.6 } else { 0.2 };
            if let Some(mut line) = setting.easy(count, piece, setting.stroke_for(piece)) {
                // Kit that was asked for belongs to easy swimming.
                line.equipment = setting.wanted_kit();
                sets.push(MainSet { blocks: vec![once(Part::Main, vec![line])], off_dose });
            }
        }
    }
    sets
}

/// A test alone in the water, easy swimming after it, then a little technique.
fn test(setting: &Setting<'_>) -> Vec<MainSet> {
    let Some(amount) = setting.test else { return Vec::new() };
    let Some(mut swim) = setting.easy(1, amount, setting.stroke()) else { return Vec::new() };
    swim.target = None;
    swim.level = Level::Sprint;
    let recovery = (amount / 2).next_multiple_of(setting.length().max(50)).max(100);
    let easy = setting.easy(1, recovery, Stroke::Choice);
    (1..=8u16)
        .filter_map(|count| {
            let after = setting.easy(count, 50, setting.stroke_for(50))?;
            Some(MainSet {
                blocks: vec![
                    once(Part::Test, vec![swim.clone()]),
                    once(Part::Recovery, vec![easy.clone()?]),
                    once(Part::Main, vec![after]),
                ],
                off_dose: 0.0,
            })
        })
        .collect()
}

/// Counts whose minutes of swimming lie within the level's dose, with how far
/// each is off the best: the low end for a returner.
fn sizes(setting: &Setting<'_>, level: Level, each_min: f64, most: u32) -> Vec<(u16, f64)> {
    let (least, greatest) = match Band::of(level).dose_min {
        Some((least, greatest)) => (f64::from(least), f64::from(greatest)),
        None => return Vec::new(),
    };
    let best = least + (greatest - least) * if setting.seasoned { 0.6 } else { 0.3 };
    (2..=most.min(40) as u16)
        .filter_map(|count| {
            let minutes = f64::from(count) * each_min;
            // Slow repeats may fall short of the least: three are still a set.
            let fits = minutes <= greatest && (minutes >= least * 0.7 || count == 3);
            fits.then(|| (count, (minutes - best).abs() / (greatest - least)))
        })
        .collect()
}

/// More than eight repeats are swum in rounds with an easy swim after each.
fn in_rounds(
    setting: &Setting<'_>,
    count: u16,
    mut lines: Vec<crate::session::Repeat>,
) -> Vec<Block> {
    let rounds = match count {
        ..=8 => 1,
        even if even % 2 == 0 && even <= 16 => 2,
        three if three % 3 == 0 && three <= 27 => 3,
        four if four % 4 == 0 => 4,
        _ => 1,
    };
    if rounds > 1 {
        for line in &mut lines {
            line.count = count / rounds;
        }
        lines.extend(setting.easy(1, 50, Stroke::Choice));
    }
    vec![Block { part: Part::Main, rounds, repeats: lines }]
}

/// The drills that her stroke, her kit and her sore places allow, those of the
/// last sessions last.
pub(super) fn drills_for(setting: &Setting<'_>) -> Vec<&'static Drill> {
    let stroke = match setting.stroke() {
        Stroke::Im => Stroke::Free,
        stroke => stroke,
    };
    let allowed = |drill: &&Drill| {
        drill.stroke == stroke
            && (drill.for_returners || setting.seasoned)
            && drill.equipment.is_none_or(|kit| setting.kit.contains(&kit))
            && !drill.loads.iter().any(|place| setting.hurts(place))
    };
    let (old, new): (Vec<_>, Vec<_>) = DRILLS
        .iter()
        .filter(allowed)
        .partition(|drill| setting.drills_before.iter().any(|id| id == drill.id));
    if new.is_empty() { old } else { new }
}

/// One of `choices`, by the seed.
pub(super) fn pick<T: Copy>(choices: &[T], seed: u64) -> Option<T> {
    let count = u64::try_from(choices.len()).ok().filter(|count| *count > 0)?;
    choices.get(usize::try_from(seed % count).ok()?).copied()
}
