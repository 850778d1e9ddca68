//! Main sets with a time to hold: pieces of a test or a race, threshold,
//! steady.

use super::easy::easy_swims;
use super::set::{MainSet, in_rounds, sizes};
use crate::coaching::RuleId;
use crate::coaching::builder::Setting;
use crate::coaching::builder::pen::once;
use crate::session::{Block, Part};
use crate::swim::Trial;
use crate::units::{Distance, Level, Stroke};

/// Steady swimming is written at this percent of critical speed: the middle of
/// the level.
pub(in crate::coaching::builder) const STEADY_PERCENT: f64 = 91.5;

/// Pieces of the newest test at its even pace.
pub(super) fn pace_holding(setting: &Setting<'_>) -> Vec<MainSet> {
    let Some(test) = setting.paces.newest() else { return Vec::new() };
    let mut sets = follow_up(setting, |level| level > Level::Threshold);
    sets.extend(pieces_of(setting, test));
    sets
}

/// Pieces of the race at the pace that is hoped for or predicted.
pub(super) fn race_rehearsal(setting: &Setting<'_>) -> Vec<MainSet> {
    setting.race.as_ref().map_or(Vec::new(), |race| pieces_of(setting, race))
}

/// Pieces of a swim at its even pace: in all 1 to 2 times the swim in eighths
/// and quarters, at most 1.5 times in halves (common practice, no source), and
/// within the minutes that the level allows.
fn pieces_of(setting: &Setting<'_>, swim: &Trial) -> Vec<MainSet> {
    let whole = swim.distance.amount();
    [25, 50, 100, 200]
        .into_iter()
        .filter(|piece| *piece <= setting.longest())
        .filter(|piece| piece * 2 <= whole && piece * 16 >= whole && (*piece > 25 || whole <= 100))
        .flat_map(|piece| {
            let most = if piece * 4 > whole { whole * 3 / 2 } else { whole * 2 };
            at_pace_of(setting, swim, piece, most)
        })
        .collect()
}

/// 25s and 50s at the even pace of a tested 50 or 100, long rest: alone, or
/// 25s with one 50 at the end of each round.
pub(super) fn speed(setting: &Setting<'_>) -> Vec<MainSet> {
    let sprint = setting.paces.tests.iter().rev().find(|test| test.distance.amount() <= 100);
    let Some(test) = sprint.map(|test| setting.paces.as_now(test)) else { return Vec::new() };
    let test = &test;
    let whole = test.distance.amount();
    let mut sets = at_pace_of(setting, test, 25, whole * 4);
    let hold = |amount: u32| {
        let distance = Distance::new(amount, setting.paces.unit()).ok()?;
        setting.paces.even(test, distance).filter(|_| distance.fits(setting.paces.course))
    };
    if let (Some(short), Some(long)) = (hold(25), hold(50)) {
        for (rounds, count) in [(2, 4), (2, 5), (2, 6), (2, 7), (3, 4), (3, 5)] {
            let lines = [
                setting.held(count, 25, short),
                setting.held(1, 50, long),
                setting.easy(1, 100, Stroke::Choice),
            ];
            let repeats: Vec<_> = lines.into_iter().flatten().collect();
            let minutes = f64::from(rounds)
                * (f64::from(count) * short.time.seconds() + long.time.seconds())
                / 60.0;
            if repeats.len() == 3 && minutes <= 8.0 {
                let best = 3.0 + 5.0 * setting.dose_share();
                let off_dose = (minutes - best).abs() / 5.0 - 0.1;
                sets.push(MainSet::new(
                    vec![Block { part: Part::Main, rounds, repeats }],
                    off_dose,
                ));
            }
        }
    }
    sets
}

fn at_pace_of(setting: &Setting<'_>, swim: &Trial, piece: u32, most: u32) -> Vec<MainSet> {
    let hold = Distance::new(piece, setting.paces.unit())
        .ok()
        .filter(|distance| distance.fits(setting.paces.course))
        .and_then(|distance| setting.paces.even(swim, distance));
    let Some(hold) = hold else { return Vec::new() };
    let each_min = hold.time.seconds() / 60.0;
    // The pace is learnt in short pieces, and over more than two of them.
    let long = piece * 8 > swim.distance.amount() && piece > 50 && !setting.seasoned;
    sizes(setting, hold.level, each_min, most / piece)
        .into_iter()
        .filter_map(|(count, off_dose)| {
            let line = setting.held(count, piece, hold)?;
            let odd = if long || count < 3 { 0.3 } else { 0.0 };
            Some(MainSet::new(in_rounds(setting, count, line), off_dose + odd))
        })
        .collect()
}

/// The set that was promised, whatever its level.
pub(super) fn bound(setting: &Setting<'_>) -> Vec<MainSet> {
    follow_up(setting, |_| true)
}

/// The set that follows from the last result, exactly one thing changed.
fn follow_up(setting: &Setting<'_>, suits: impl Fn(Level) -> bool) -> Vec<MainSet> {
    let set = setting.follow_up.clone().filter(|set| {
        suits(set.level)
            && set.distance.fits(setting.paces.course)
            && set.target.zip(set.send_off).is_some_and(|(target, on)| target < on.time())
            && setting.targets_shown
    });
    set.map(|set| MainSet::new(vec![once(Part::Main, vec![set])], -1.5)).into_iter().collect()
}

/// Repeats just under critical speed, written from the slow side of it; longer
/// ones slower still (400s can't be held at the speed of 100s: Toubekis et al.
/// 2011, J Sci Med Sport 14:363-368).
pub(super) fn threshold(setting: &Setting<'_>) -> Vec<MainSet> {
    let percent = setting.book.number(RuleId::SlowHalf);
    let anew = [(50, 0.0), (100, 0.0), (200, 1.0), (300, 1.5), (400, 2.0)].into_iter().flat_map(
        |(piece, slower)| {
            // A threshold repeat takes about 40 s to 6 min, best 1:10 to 4:00.
            let lengths = Lengths { shortest_min: 0.65, good: 1.15..=4.0, longest_min: 6.0 };
            at_level(setting, Level::Threshold, piece, (percent - slower).max(95.5), &lengths)
        },
    );
    follow_up(setting, |level| level == Level::Threshold).into_iter().chain(anew).collect()
}

/// Steady swims; where no threshold is known, easy ones.
pub(super) fn endurance(setting: &Setting<'_>) -> Vec<MainSet> {
    let lengths = Lengths { shortest_min: 0.9, good: 1.5..=6.0, longest_min: 8.5 };
    let mut sets: Vec<MainSet> = [50, 100, 200, 300, 400]
        .into_iter()
        .flat_map(|piece| at_level(setting, Level::Steady, piece, STEADY_PERCENT, &lengths))
        .collect();
    // A short session holds fewer minutes than a full dose: then it is easy.
    let beside = if sets.is_empty() { 0.0 } else { 0.5 };
    sets.extend(easy_swims(setting).into_iter().map(|easy| easy.off_by(beside)));
    sets
}

/// How long one repeat may take, in minutes.
struct Lengths {
    shortest_min: f64,
    good: std::ops::RangeInclusive<f64>,
    longest_min: f64,
}

fn at_level(
    setting: &Setting<'_>,
    level: Level,
    piece: u32,
    percent: f64,
    lengths: &Lengths,
) -> Vec<MainSet> {
    let one = setting.at(1, piece, percent).filter(|one| one.distance.fits(setting.paces.course));
    let Some(one) = one.filter(|one| one.level == level) else { return Vec::new() };
    let Some(target) = one.target else { return Vec::new() };
    let each_min = target.seconds() / 60.0;
    // Nobody holds butterfly together over many lengths.
    let too_long = (setting.stroke() == Stroke::Fly && piece > 50) || piece > setting.longest();
    if too_long || !(lengths.shortest_min..=lengths.longest_min).contains(&each_min) {
        return Vec::new();
    }
    let odd = if lengths.good.contains(&each_min) { 0.0 } else { 0.25 };
    sizes(setting, level, each_min, 40)
        .into_iter()
        .map(|(count, off_dose)| {
            let line = crate::session::Repeat { count, ..one.clone() };
            MainSet::new(in_rounds(setting, count, line), off_dose + odd)
        })
        .collect()
}
