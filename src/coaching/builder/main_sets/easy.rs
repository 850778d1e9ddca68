//! Main sets without a time to hold: easy swimming and technique.

use super::set::MainSet;
use crate::coaching::builder::Setting;
use crate::coaching::builder::pen::once;
use crate::coaching::drills::{DRILLS, Drill};
use crate::coaching::focus::worked_on;
use crate::session::{Block, Part};
use crate::units::Stroke;

/// Stroke first: a drill and easy swimming in turn.
pub(in crate::coaching::builder) fn technique(setting: &Setting<'_>) -> Vec<MainSet> {
    // Another than those before it, where there is one.
    let before = before_main(setting, 2);
    let (again, anew): (Vec<_>, Vec<_>) = drills_for(setting)
        .into_iter()
        .partition(|drill| before.iter().any(|other| other.id == drill.id));
    let drills = if anew.is_empty() { again } else { anew };
    let picked = pick(&for_focus(setting, &drills), setting.seed / 7);
    let Some(drill) = picked else { return easy_swims(setting) };
    let easy = easy_swims(setting).into_iter().map(|easy| easy.off_by(0.5));
    let mut sets: Vec<MainSet> = easy.collect();
    let length = setting.length();
    let swims: &[u32] = match setting.paces.easy_per_100_s() {
        slow if slow > 150.0 => &[50],
        _ => &[50, 100, 200],
    };
    let can = |swim: &&u32| **swim <= setting.longest();
    for swim in swims.iter().filter(|swim| swim.is_multiple_of(length.min(50))).filter(can) {
        for rounds in 2..=8 {
            let lines = [
                setting.drilled(2, length, drill),
                setting.easy(2, *swim, setting.stroke_for(*swim)),
            ];
            let repeats: Vec<_> = lines.into_iter().flatten().collect();
            if repeats.len() == 2 {
                let blocks = vec![Block { part: Part::Main, rounds, repeats }];
                sets.push(MainSet::new(blocks, f64::from(swim / 100) * 0.1));
            }
        }
    }
    sets
}

/// Easy repeats in any number: what fits always.
pub(super) fn easy_swims(setting: &Setting<'_>) -> Vec<MainSet> {
    let length = setting.length();
    let pieces: &[u32] = match setting.paces.easy_per_100_s() {
        // Open water has no short repeats.
        _ if setting.paces.course.length().is_none() => &[100, 200, 400],
        slow if slow > 150.0 => &[25, 50],
        middling if middling > 110.0 => &[25, 50, 100],
        _ => &[25, 50, 100, 200],
    };
    let mut sets = Vec::new();
    let can = |piece: &&u32| **piece <= setting.longest();
    for &piece in pieces.iter().filter(|piece| piece.is_multiple_of(length)).filter(can) {
        for count in (1..=24u16).filter(|count| *count <= 12 || count % 4 == 0) {
            // Many short ones only where nothing longer would fit.
            let many = if piece == 25 && count > 2 { 0.6 } else { 0.2 };
            let long = if count > 12 || count == 11 { 0.2 } else { 0.0 };
            if let Some(mut line) = setting.easy(count, piece, setting.stroke_for(piece)) {
                // Kit that was asked for belongs to easy swimming.
                line.equipment = setting.wanted_kit();
                let blocks = vec![once(Part::Main, vec![line])];
                sets.push(MainSet::new(blocks, many + long));
            }
        }
    }
    sets
}

/// The drills that come before the main set, `count` of them where there are so many:
/// no two of one session work on the same thing.
pub(in crate::coaching::builder) fn before_main(
    setting: &Setting<'_>,
    count: usize,
) -> Vec<&'static Drill> {
    let mut drills = drills_for(setting);
    let mut picked: Vec<&'static Drill> = Vec::new();
    while picked.len() < count {
        let Some(drill) = pick(&for_focus(setting, &drills), setting.seed) else { break };
        drills.retain(|other| other.cures != drill.cures);
        picked.push(drill);
    }
    picked
}

/// The drills that their stroke, their kit and their sore places allow; those of the
/// last sessions only where no other is left.
fn drills_for(setting: &Setting<'_>) -> Vec<&'static Drill> {
    let stroke = match setting.stroke() {
        Stroke::Im | Stroke::Choice => Stroke::Free,
        stroke => stroke,
    };
    let open_water = setting.paces.course.length().is_none();
    let allowed = |drill: &&Drill| {
        drill.stroke == stroke
            && drill.open_water == open_water
            && (drill.for_returners || setting.seasoned)
            && drill.equipment.is_none_or(|kit| setting.kit.contains(&kit))
            && !drill.loads.iter().any(|place| setting.hurts(place))
    };
    let (old, new): (Vec<_>, Vec<_>) = DRILLS
        .iter()
        .filter(allowed)
        .partition(|drill| setting.drills_before.iter().any(|id| id == drill.id));
    let anew = new.len() >= 3 && (cures_focus(setting, &new) || !cures_focus(setting, &old));
    if anew { new } else { new.into_iter().chain(old).collect() }
}

/// Of `drills` those that work on the coach's focus; all where none does.
fn for_focus(setting: &Setting<'_>, drills: &[&'static Drill]) -> Vec<&'static Drill> {
    let focus = setting.focus.as_deref().and_then(worked_on);
    let cures = |drill: &&&Drill| focus.is_some_and(|fault| drill.cures == fault);
    let fitting: Vec<&'static Drill> = drills.iter().filter(cures).copied().collect();
    if fitting.is_empty() { drills.to_vec() } else { fitting }
}

fn cures_focus(setting: &Setting<'_>, drills: &[&'static Drill]) -> bool {
    let focus = setting.focus.as_deref().and_then(worked_on);
    focus.is_some_and(|fault| drills.iter().any(|drill| drill.cures == fault))
}

/// One of `choices`, by the seed.
fn pick<T: Copy>(choices: &[T], seed: u64) -> Option<T> {
    let count = u64::try_from(choices.len()).ok().filter(|count| *count > 0)?;
    choices.get(usize::try_from(seed % count).ok()?).copied()
}
