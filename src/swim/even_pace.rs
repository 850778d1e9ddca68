//! Repeats at the even pace of a test: the time for each, and the send-off.
//!
//! Knows one swim; not the swimmer's level of training, which may ask for more
//! rest than is set here.

use crate::units::{Centis, Course, Distance, SendOff, Start};

/// The pieces that a test is broken into, in units of the course.
const PIECES: [u32; 5] = [25, 50, 100, 200, 400];

/// A repeat at the pace of a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Target {
    /// How far.
    pub distance: Distance,
    /// The time to hold.
    pub time: Centis,
    /// Leave every so often; `None` for a piece longer than half the test,
    /// which is swum once, never as a set.
    pub send_off: Option<SendOff>,
}

/// The usual repeats for a test of `distance` in `time`: from a sixteenth to a
/// half of it, whole lengths of `course`; 25s only after a test of 100 or less,
/// where they are the way to race speed.
///
/// ```
/// use lapwing::swim::even_pace::targets;
/// use lapwing::units::{Course, Start};
/// let test = "200m".parse().unwrap();
/// let targets = targets(test, "3:12".parse().unwrap(), Course::Short25m, Start::Push);
/// let shown: Vec<String> = targets
///     .iter()
///     .map(|t| format!("{} {} on {}", t.distance, t.time.short(), t.send_off.unwrap()))
///     .collect();
/// assert_eq!(shown, ["50m 48 on 1:15", "100m 1:36 on 2:30"]);
/// ```
pub fn targets(distance: Distance, time: Centis, course: Course, start: Start) -> Vec<Target> {
    let whole = distance.amount();
    PIECES
        .into_iter()
        .filter(|&piece| piece * 2 <= whole && piece * 16 >= whole && (piece > 25 || whole <= 100))
        .filter_map(|piece| Distance::new(piece, distance.unit()).ok())
        .filter(|piece| piece.fits(course))
        .filter_map(|piece| target(distance, time, piece, start))
        .collect()
}

/// One repeat of `piece` at the even pace of a test: `time * piece / distance`,
/// to the nearest hundredth. `None` unless the piece is shorter than the test
/// and in its unit.
///
/// A repeat begins with a push, so after a test from a dive 0.5 s is added for
/// a 25 and 1 s for a 50 or more (common practice, no source).
pub fn target(distance: Distance, time: Centis, piece: Distance, start: Start) -> Option<Target> {
    if piece.unit() != distance.unit() || piece.amount() >= distance.amount() {
        return None;
    }
    let dive = match start {
        Start::Dive if piece.amount() <= 25 => 0.5,
        Start::Dive => 1.0,
        Start::Push | Start::Water => 0.0,
    };
    let share = f64::from(piece.amount()) / f64::from(distance.amount());
    let time = Centis::from_seconds(time.seconds() * share + dive).ok()?;
    let send_off = rest_share(distance, share).map(|rest| {
        let rest_s = (time.seconds() * rest).max(least_rest_s(piece)).ceil();
        SendOff::after(time, rest_s as u32)
    });
    Some(Target { distance: piece, time, send_off })
}

/// Rest as a share of the swim, for a piece that is `share` of the test.
///
/// Common practice, no source: the shorter the test, the faster its pace lies
/// above what settles and the more rest it wants; a half wants half the swim
/// or more, whatever the test. An untrained adult loses 50s at 200 pace on 1:00.
fn rest_share(test: Distance, share: f64) -> Option<f64> {
    let (eighth, quarter, half) = match test.amount() {
        0..150 => (2.5, 2.5, 4.4),
        150..300 => (0.55, 0.55, 0.55),
        300..600 => (0.35, 0.45, 0.55),
        _ => (0.25, 0.35, 0.5),
    };
    match share {
        s if s > 0.5 => None,
        s if s > 0.25 => Some(half),
        s if s > 0.125 => Some(quarter),
        _ => Some(eighth),
    }
}

/// Seconds of rest below which a repeat is no repeat: 5 for a 25, else 10.
pub fn least_rest_s(piece: Distance) -> f64 {
    if piece.amount() <= 25 { 5.0 } else { 10.0 }
}
