//! What sets show of a swimmer's paces: that they can do at least so much.

use super::{Facts, SetSwum};
use crate::swim::critical_speed::EXPONENT;
use crate::swim::curve::{AtLeast, Curve};
use crate::swim::levels::{Band, Rest};
use crate::units::{Centis, Level, Pace, Stroke};

/// `curve` with the sets swum since the last test: a long one on short rest, all
/// of it swum, shows that its mean pace settles. The best of them counts; a set
/// never makes anything slower.
pub(super) fn shown_by_sets(facts: &Facts, curve: Curve, stroke: Stroke) -> Curve {
    let tested = curve.results().iter().map(|test| test.on).max();
    let paces = facts
        .sets
        .iter()
        .filter(|swum| swum.set.stroke == stroke && Some(swum.on) > tested)
        .filter(|swum| swum.set.equipment.is_empty() && swum.on <= facts.today)
        .filter_map(settled_pace)
        .filter(|pace| pace.unit() == facts.course.unit());
    let Some(best) = paces.min_by(|one, other| one.per_100_s().total_cmp(&other.per_100_s()))
    else {
        return curve;
    };
    // Critical speed is a share of the speed over 400, the same for all.
    let share = 2.0 * (1.0 - libm::exp2(-EXPONENT));
    curve.with_set(AtLeast { amount: 400.0, seconds: best.per_100_s() * 4.0 / share })
}

/// The mean pace of a set that can only be swum at a pace that settles: at least
/// the least minutes of a threshold set, with no more rest than one has, no
/// repeat missed.
fn settled_pace(swum: &SetSwum) -> Option<Pace> {
    let threshold = Band::of(Level::Threshold);
    let times: Vec<Centis> = swum.times.iter().copied().collect::<Option<_>>()?;
    let seconds: f64 = times.iter().map(|time| time.seconds()).sum();
    let mean = Centis::from_seconds(seconds / times.len().max(1) as f64).ok()?;
    let long = threshold.dose_min.is_some_and(|(least, _)| seconds >= f64::from(least) * 60.0);
    let rest_s = match (swum.set.send_off, swum.set.rest) {
        (Some(send_off), _) => send_off.rest_after(mean)?.seconds(),
        (None, rest) => rest?.seconds(),
    };
    let Rest::Per100 { most_s, .. } = threshold.rest else { return None };
    let most_s = (most_s * f64::from(swum.set.distance.amount()) / 100.0).clamp(10.0, 60.0);
    (long && rest_s <= most_s).then(|| Pace::of(swum.set.distance, mean))
}
