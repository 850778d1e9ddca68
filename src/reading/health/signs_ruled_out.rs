//! Signs that what stands over or behind them rules out: idioms, names of things, longer
//! phrases with a sense of their own.

use super::sign::{Sign, Signs};
use super::signs_in_text::{Mark, between};

const HIDES: Signs = Signs::of(&[Sign::Idiom, Sign::Gear]);

/// Signs that a condition's name bears, which `drill`, `course` or `programme` right
/// behind it makes the name of a thing: `anaphylaxis drill`, `ambulance programme`.
const CONDITIONS: Signs = Signs::of(&[
    Sign::AllergicReaction,
    Sign::HeartAttack,
    Sign::StrokeSick,
    Sign::Seizure,
    Sign::Asthma,
    Sign::AsthmaAttack,
    Sign::Ambulance,
    Sign::Emergency,
    Sign::Choke,
    Sign::Drown,
    Sign::Hypothermia,
    Sign::Heatstroke,
]);

/// Takes from each mark the signs that a longer one over it rules out: `catch my
/// breath` is no part of a stroke, `breath holding` no tightness; and from names of
/// conditions those that a thing's name behind them does.
pub fn settle(marks: &mut [Mark]) {
    let all = marks.to_vec();
    let longest = all.iter().map(Mark::len).max().unwrap_or_default();
    for mark in marks.iter_mut() {
        let longer = |one: &&Mark| one.overlaps(mark.from, mark.to) && one.len() > mark.len();
        let near = between(&all, mark.from.saturating_sub(longest), mark.to);
        let over = near.filter(longer).fold(Signs::NONE, |all, one| all.and(one.signs));
        if over.has(Sign::Breathe) {
            mark.signs = mark.signs.without(Signs::of(&[Sign::Technique]));
        }
        if over.has(Sign::Fainted) {
            mark.signs = mark.signs.without(Signs::of(&[Sign::Unresponsive]));
        }
        if over.has(Sign::BreathHold) {
            mark.signs = mark.signs.without(Signs::of(&[Sign::Tight, Sign::Breathe]));
        }
        let named = |one: &Mark| one.from == mark.to && one.signs.has(Sign::Thing);
        if mark.signs.meets(CONDITIONS) && between(&all, mark.to, mark.to + 1).any(named) {
            mark.signs = mark.signs.without(CONDITIONS);
        }
    }
}

/// Takes away what idioms and names of things hide; true where a thing hid a
/// grave word.
pub fn hide(marks: &mut Vec<Mark>) -> bool {
    let hides: Vec<Mark> = marks.iter().filter(|mark| mark.signs.meets(HIDES)).copied().collect();
    let denied: Vec<Mark> =
        marks.iter().filter(|mark| mark.signs.has(Sign::ButNot)).copied().collect();
    if hides.is_empty() && denied.is_empty() {
        return false;
    }
    // A longer phrase with a sense of its own is no idiom.
    let longer = |hide: &Mark| {
        marks.iter().any(|mark| {
            !mark.signs.meets(HIDES)
                && mark.len() > hide.len()
                && mark.from <= hide.from
                && hide.to <= mark.to
        })
    };
    let hides: Vec<Mark> = hides.iter().filter(|hide| !longer(hide)).copied().collect();
    let mut gear = false;
    marks.retain_mut(|mark| {
        if mark.signs.has(Sign::Not)
            && denied.iter().any(|one| one.overlaps(mark.from, mark.to) && one.len() > mark.len())
        {
            mark.signs = mark.signs.without(Signs::of(&[Sign::Not]));
        }
        if mark.signs.meets(HIDES) {
            return true;
        }
        let hidden =
            hides.iter().find(|hide| hide.overlaps(mark.from, mark.to) && hide.len() >= mark.len());
        gear |= hidden.is_some_and(|hide| hide.signs.has(Sign::Gear));
        hidden.is_none()
    });
    gear
}
