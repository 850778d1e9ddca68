//! Repeats that are unlike who swam them: asked about before they are stored.
//!
//! As with tests, over 8 % faster than their own prediction (12 % in the first eight
//! weeks) or over 20 % slower than can be expected (common practice, no source). A
//! set that tires is slower at its end than at its beginning, so a single repeat is
//! held against the others, and the middle one of all against the time to hold.

use crate::coaching::{Facts, SetFeedback, SetSwum};
use crate::desk::decision::view::View;
use crate::desk::known::trials::beside_their_tests;
use crate::message::Name;
use crate::swim::Trial;
use crate::swim::plausible::{Acquaintance, Verdict, check_against};
use crate::units::{Centis, Stroke};

/// A time of the set to be asked about. None of a set that is not `timed`: it says only
/// how many were made.
pub fn unlike_them(
    view: &View<'_>,
    who: &Name,
    facts: &Facts,
    timed: bool,
    swum: &SetSwum,
    feedback: &SetFeedback,
) -> Option<Centis> {
    let mut times: Vec<Centis> = swum.times.iter().flatten().copied().filter(|_| timed).collect();
    times.sort_unstable();
    let (fastest, slowest) = (*times.first()?, *times.last()?);
    too_fast(view, who, swum, fastest).or_else(|| {
        let middle = *times.get(times.len() / 2)?;
        // An easy set may always be slower, and so may who swims the gentle version.
        let held = swum.set.target.filter(|_| !feedback.slower_is_fine && facts.open.is_empty());
        let slow = |beside: Centis, time: Centis| {
            check_against(beside, time, Acquaintance::Settled) == Verdict::TooSlow
        };
        match held {
            Some(held) if slow(held, middle) => Some(middle),
            held => Some(slowest).filter(|_| slow(held.unwrap_or(middle).max(middle), slowest)),
        }
    })
}

/// The fastest, where it is unlike what they would swim once, all out; with kit that
/// makes faster, and of kick and drill, nothing tells.
fn too_fast(view: &View<'_>, who: &Name, swum: &SetSwum, fastest: Centis) -> Option<Centis> {
    let whole =
        !matches!(swum.set.stroke, Stroke::Kick | Stroke::Drill | Stroke::Pull | Stroke::Choice);
    if !whole || !swum.set.equipment.is_empty() {
        return None;
    }
    let course = view.course_of(who);
    let distance = swum.set.distance;
    let trial = Trial {
        distance,
        time: fastest,
        stroke: swum.set.stroke,
        course,
        on: swum.on,
        meet: false,
    };
    let verdict = beside_their_tests(view, who, &trial, None)?;
    (verdict == Verdict::TooFast).then_some(fastest)
}
