//! Finds the best session that fits: weighs every main set with the drills
//! that could go before it.

use std::cell::OnceCell;

use super::Setting;
use super::compose::{EasyParts, Middle};
use super::main_sets::{self, MainSet, before_main};
use super::pen::once;
use crate::coaching::RuleId;
use crate::session::{Block, Extent, Part, Purpose, Session};
use crate::units::{Level, SendOff};

/// The best session for the setting; `None` where nothing fits its minutes.
pub(in crate::coaching) fn build(setting: &Setting<'_>) -> Option<Session> {
    let budget = u64::from(setting.budget_s) * 100;
    let most = setting.aim.unwrap_or(u32::MAX);
    let mut mains = main_sets::options(setting);
    mains.retain(|main| main.amount() < most && main.hundredths() < budget);
    mains.sort_by(|a, b| a.off_dose.total_cmp(&b.off_dose));
    let easy = EasyParts::new(setting);
    let builds: Vec<Build> = mains.iter().map(|_| OnceCell::new()).collect();
    // No session is put together until it is known to be the best: its length is
    // all that is weighed.
    let mut best: Option<(f64, Middle<'_>, u32)> = None;
    let kinds = [Preparation::Full, Preparation::Short, Preparation::None];
    let drills = kinds.map(|kind| drill_blocks(setting, kind.drills()));
    for (kind, drills) in kinds.into_iter().zip(&drills) {
        if drills.len() < kind.drills() {
            continue;
        }
        let drills = (drills.as_slice(), Extent::of(drills));
        for (main, build) in mains.iter().zip(&builds) {
            // What a set can't better any more need not be looked at.
            let at_least = main.off_dose + kind.cost();
            if best.as_ref().is_some_and(|(least, ..)| at_least >= *least) {
                break;
            }
            let Some(middle) = middle(setting, drills, main, build) else { continue };
            let Some(amount) = fitted(setting, &easy, &middle, main) else { continue };
            let cost = cost(setting, main, kind, amount);
            if best.as_ref().is_none_or(|(least, ..)| cost < *least) {
                best = Some((cost, middle, amount));
            }
        }
    }
    best.and_then(|(_, middle, amount)| easy.compose(&middle, amount))
}

/// The least seconds in which anything at all fits: one easy repeat each for
/// warm-up, main set and swim-down.
pub(in crate::coaching) fn least_seconds(setting: &Setting<'_>) -> u32 {
    let smallest = main_sets::options(setting).into_iter().min_by_key(MainSet::amount);
    smallest
        .and_then(|main| {
            let middle = Middle::new((&[], Extent::NONE), None, &main);
            EasyParts::new(setting).duration_s(&middle, main.amount() + 2 * setting.length())
        })
        .unwrap_or(u32::MAX)
}

/// How much goes before the main set.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Preparation {
    /// Two drills and a build.
    Full,
    /// One drill and a build.
    Short,
    /// No drill; only where minutes are few.
    None,
}

impl Preparation {
    fn drills(self) -> usize {
        match self {
            Preparation::Full => 2,
            Preparation::Short => 1,
            Preparation::None => 0,
        }
    }

    fn cost(self) -> f64 {
        match self {
            Preparation::Full => 0.0,
            Preparation::Short => 0.3,
            Preparation::None => 1.0,
        }
    }
}

/// How far the longest session round `main` is that keeps to the minutes and the
/// aim.
fn fitted(
    setting: &Setting<'_>,
    easy: &EasyParts<'_, '_>,
    middle: &Middle<'_>,
    main: &MainSet,
) -> Option<u32> {
    let step = setting.step();
    let most = setting.aim.unwrap_or(20_000).min(20_000) / step;
    let duration_s = |steps: u32| easy.duration_s(middle, steps * step);
    // Too little distance can't hold the parts, too much doesn't fit the time:
    // look for the longest that does, from the aim down.
    let smallest = (main.amount() / step).max(1);
    let too_long = |steps: u32| duration_s(steps).is_some_and(|long| long > setting.budget_s);
    let (mut low, mut high) = (smallest, most);
    while low < high {
        let half = low + (high - low).div_ceil(2);
        if too_long(half) { high = half - 1 } else { low = half }
    }
    (smallest..=low)
        .rev()
        .take(6)
        .find(|steps| duration_s(*steps).is_some_and(|long| long <= setting.budget_s))
        .map(|steps| steps * step)
        .filter(|amount| within_shares(setting, main, *amount))
}

/// The build to a main set, once it was asked for, and what it comes to.
type Build = OnceCell<Option<(Block, Extent)>>;

fn middle<'a>(
    setting: &Setting<'_>,
    drills: (&'a [Block], Extent),
    main: &'a MainSet,
    build: &'a Build,
) -> Option<Middle<'a>> {
    // The pace is met before it is timed, unless there is hardly time to swim.
    let build = match setting.hard() && setting.budget_s >= 900 {
        true => Some(build.get_or_init(|| build_up(setting, main).map(with_extent)).as_ref()?),
        false => None,
    };
    Some(Middle::new(drills, build, main))
}

fn with_extent(block: Block) -> (Block, Extent) {
    let extent = Extent::of(std::slice::from_ref(&block));
    (block, extent)
}

/// Hard swimming keeps to its share of the whole.
fn within_shares(setting: &Setting<'_>, main: &MainSet, amount: u32) -> bool {
    let rule = match setting.purpose {
        Purpose::Test => return true,
        _ if !setting.seasoned => RuleId::HardShareReturner,
        _ if main.level() <= Level::Threshold => RuleId::HardShareThreshold,
        _ => RuleId::HardShareRace,
    };
    f64::from(main.hard_amount()) <= setting.book.share(rule) * f64::from(amount)
}

/// Less is better: the dose counts most, then the distance, then what is new.
fn cost(setting: &Setting<'_>, main: &MainSet, kind: Preparation, amount: u32) -> f64 {
    let amount = f64::from(amount);
    let holds = f64::from(setting.budget_s) * 100.0 / setting.paces.easy_per_100_s();
    let most = setting.aim.map_or(holds, |aim| f64::from(aim).min(holds.max(amount)));
    let missing = (1.0 - amount / most).max(0.0);
    // An aim is a promise to the week; without one, filling the time is a wish.
    let short = match setting.promised {
        true => 20.0 * (1.0 - amount / f64::from(setting.aim.unwrap_or(1).max(1))),
        false => 3.0 * missing,
    };
    let main_amount = f64::from(main.amount());
    let thin = match setting.hard() {
        true => 0.0,
        // The purpose should be most of an easy session.
        false => 1.5 * (0.5 - main_amount / amount).abs(),
    };
    short + main.off_dose + kind.cost() + thin + chance(setting.seed, main.salt())
}

/// A little noise, the same for the same swimmer and day.
fn chance(seed: u64, salt: u32) -> f64 {
    let mixed = (seed ^ u64::from(salt)).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 40;
    mixed as f64 / f64::from(1u32 << 24) * 0.1
}

/// Steady swims and one at the pace of the main set, so that the pace is met
/// before it is timed.
fn build_up(setting: &Setting<'_>, main: &MainSet) -> Option<Block> {
    let hard = main.blocks().iter().flat_map(|block| &block.repeats).find(|l| l.level.is_hard())?;
    let piece = match hard.distance.amount() {
        25 => 25,
        // Slow swimmers meet the pace over a single length.
        _ if setting.paces.easy_per_100_s() > 150.0 => setting.length().min(50),
        _ => 50,
    };
    let count = if setting.budget_s >= 2400 { 3 } else { 1 };
    let pace = crate::units::Pace::of(hard.distance, hard.target?);
    let distance = crate::units::Distance::new(piece, setting.paces.unit()).ok()?;
    let exact = pace.time_for(distance)?;
    let level = setting.paces.level(distance, exact);
    let time = setting.paces.as_shown(level, distance, exact);
    let send_off = setting.paces.easy_send_off(distance, setting.stroke());
    let rising = match setting.paces.critical {
        Some(_) => setting.at(count, piece, 93.0),
        None => setting.easy(count, piece, setting.stroke_for(piece)),
    };
    let send_off = SendOff::after(time, 10).max(send_off);
    let last = setting.held(1, piece, crate::coaching::paces::Hold { time, level, send_off })?;
    Some(once(Part::Build, vec![rising?, last]))
}

fn drill_blocks(setting: &Setting<'_>, count: usize) -> Vec<Block> {
    let piece = setting.length().min(50);
    let swims = if setting.budget_s >= 2400 { 4 } else { 2 };
    let drills = before_main(setting, count).into_iter();
    let lines = drills.map_while(|drill| setting.drilled(swims, piece, drill));
    lines.map(|line| once(Part::Drill, vec![line])).collect()
}
