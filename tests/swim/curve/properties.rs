//! What must hold over random histories; they come from no theory of swimming.

use jiff::ToSpan;
use jiff::civil::Date;
use lapwing::swim::critical_speed::{self, Basis};
use lapwing::swim::curve::{AtLeast, Curve, LIFT_MOST, shape};
use lapwing::swim::prediction;
use lapwing::swim::{Trial, even_pace, levels};
use lapwing::units::{Centis, Course, Distance, Level, Start, Stroke, Unit};
use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha12Rng;

use crate::support::{day, trial};

const HISTORIES: usize = 10_000;
/// Where figures are looked at.
const AT: [u32; 10] = [25, 50, 75, 100, 200, 300, 400, 800, 1500, 5000];
/// What rounding may do to the logarithm of a time.
const HAIR: f64 = 1e-9;

fn today() -> Date {
    day("2026-03-02")
}

/// Two to ten results of one swimmer in half a year: theirs, or wildly off.
fn history(random: &mut impl Rng) -> Vec<Trial> {
    let level: f64 = random.random_range(240.0..700.0);
    let mut all: Vec<Trial> = (0..random.random_range(2..=10))
        .map(|_| {
            let amount = [50, 100, 200, 200, 400, 400, 800, 1500][random.random_range(0..8)];
            let off = if random.random_bool(0.1) { 0.3 } else { 0.05 };
            let seconds = level * (shape(f64::from(amount)) + random.random_range(-off..off)).exp();
            let course = [Course::Short25m, Course::Short25m, Course::Short25m, Course::Long50m]
                [random.random_range(0..4)];
            Trial {
                distance: Distance::new(amount, Unit::Metre).unwrap(),
                time: Centis::from_seconds(seconds).unwrap(),
                on: today() - random.random_range(0i64..180).days(),
                meet: random.random_bool(0.2),
                course,
                ..trial("200", "3:12", "2026-03-02")
            }
        })
        .collect();
    all.sort_by_key(|trial| trial.on);
    all
}

fn curve(trials: &[Trial]) -> Curve {
    Curve::of(trials, today(), Stroke::Free, Course::Short25m).unwrap()
}

fn distance(amount: u32) -> Distance {
    Distance::new(amount, Unit::Metre).unwrap()
}

/// The logarithms of every figure: times, by the curve and by its shape, and
/// critical speed.
fn figures(curve: &Curve) -> Vec<f64> {
    let times = AT.iter().map(|amount| curve.at(distance(*amount)).seconds.ln());
    let shapes = AT.iter().map(|amount| curve.by_shape(f64::from(*amount)).seconds.ln());
    let critical = critical_speed::by_curve(curve).pace().map(|pace| pace.per_100_s().ln());
    times.chain(shapes).chain(critical).collect()
}

fn none_slower(before: &[f64], after: &[f64]) -> bool {
    before.iter().zip(after).all(|(before, after)| *after <= before + HAIR)
}

#[test]
fn a_faster_result_in_the_place_of_any_makes_no_figure_slower() {
    let mut random = ChaCha12Rng::seed_from_u64(1);
    for number in 0..HISTORIES {
        let trials = history(&mut random);
        let before = figures(&curve(&trials));
        let which = random.random_range(0..trials.len());
        let mut faster = trials.clone();
        let gain = random.random_range(0.0005..0.2);
        faster[which].time =
            Centis::from_seconds(trials[which].time.seconds() * (1.0 - gain)).unwrap();
        let after = figures(&curve(&faster));
        assert!(none_slower(&before, &after), "{number}: {trials:#?}, {which} by {gain}");
    }
}

/// A result more, faster than the curve says for its distance that day, makes no
/// figure slower, a slower one none faster. From one tested distance to the
/// second the comparison is with the curve's own shape, since what one distance
/// promises by the contract's law has no shape.
#[test]
fn a_faster_result_more_makes_no_figure_slower() {
    let mut random = ChaCha12Rng::seed_from_u64(2);
    for number in 0..HISTORIES {
        let trials = history(&mut random);
        let before = curve(&trials);
        let amount = AT[random.random_range(1..9)];
        let off: f64 = random.random_range(-0.15..0.15);
        let (said, of) = match before.lone() {
            Some(lone) if lone.amount() != amount => {
                (before.by_shape(f64::from(amount)), AT.len()..2 * AT.len())
            }
            _ => (before.at(distance(amount)), 0..2 * AT.len()),
        };
        let new = Trial {
            distance: distance(amount),
            time: Centis::from_seconds(said.seconds * (1.0 + off)).unwrap(),
            meet: random.random_bool(0.3),
            ..trial("200", "3:12", "2026-03-02")
        };
        let mut trials = trials;
        trials.push(new);
        let (before, after) =
            (&figures(&before)[of.clone()], &figures(&curve(&trials))[of.clone()]);
        let off = (new.time.seconds() / said.seconds).ln();
        let holds = match off <= 0.0 {
            true => none_slower(before, after),
            false => none_slower(after, before),
        };
        assert!(holds, "{number}: {trials:#?} by {off}");
    }
}

/// Prediction, targets and levels of the day of a test are all of one curve.
#[test]
fn figures_agree() {
    let mut random = ChaCha12Rng::seed_from_u64(3);
    for number in 0..HISTORIES {
        let mut trials = history(&mut random);
        // The last of its day, in this pool.
        let newest = trials.last_mut().unwrap();
        (newest.on, newest.course) = (today(), Course::Short25m);
        let newest = *newest;
        let curve = curve(&trials);
        let found = prediction::by_curve(&curve, newest.distance).unwrap();
        let off = found.time.seconds() / newest.time.seconds() - 1.0;
        assert!(off.abs() <= newest.typical_error() + HAIR, "{number}: {off} {trials:#?}");
        assert!(found.low < found.time && found.time < found.high);
        let piece = distance(newest.distance.amount() / 2);
        if let Some(target) = even_pace::target(newest.distance, found.time, piece, Start::Push) {
            let half = found.time.seconds() / 2.0;
            assert!(
                (target.time.seconds() - half).abs() <= 0.011 + half / f64::from(piece.amount())
            );
        }
        let critical = critical_speed::by_curve(&curve);
        assert_eq!(critical.basis == Basis::None, trials.iter().all(|t| t.distance.amount() < 200));
        if let Some(pace) = critical.pace() {
            let edges = Level::ALL.map(|level| levels::Band::of(level).paces(pace));
            assert!(edges.windows(2).all(|pair| pair[0].1.per_100_s() >= pair[1].1.per_100_s()));
        }
    }
}

/// Evidence narrows every band, time widens it, and from one day to the next no
/// figure moves by more than a hair's breadth of a swim.
#[test]
fn bands_narrow_with_evidence_and_time_moves_nothing_at_once() {
    let mut random = ChaCha12Rng::seed_from_u64(4);
    for number in 0..HISTORIES / 5 {
        let trials = history(&mut random);
        let all = curve(&trials);
        let fewer = Curve::of(&trials[..trials.len() - 1], today(), Stroke::Free, Course::Short25m)
            .unwrap();
        let tomorrow =
            Curve::of(&trials, today() + 1.day(), Stroke::Free, Course::Short25m).unwrap();
        for amount in AT.map(f64::from) {
            let (now, less) = (all.by_shape(amount), fewer.by_shape(amount));
            let later = tomorrow.by_shape(amount);
            assert!(now.sd <= less.sd + HAIR, "{number}: evidence widened {trials:#?}");
            assert!(later.sd >= now.sd, "{number}: time narrowed");
            let moved = (later.seconds / now.seconds).ln().abs();
            assert!(moved < 0.012, "{number}: moved by {moved} at {amount} {trials:#?}");
        }
    }
}

/// Sets show at least so much: never slower, and at most by one step of a target.
#[test]
fn a_set_lifts_by_one_step_at_most() {
    let mut random = ChaCha12Rng::seed_from_u64(5);
    for _ in 0..HISTORIES / 5 {
        let trials = history(&mut random);
        let before = curve(&trials);
        let seconds = before.by_shape(400.0).seconds * random.random_range(0.8..1.1);
        let shown = |seconds| AtLeast { amount: 400.0, seconds };
        let after = figures(&before.clone().with_set(shown(seconds)));
        let before = figures(&before);
        assert!(none_slower(&before, &after));
        assert!(
            before.iter().zip(&after).all(|(before, after)| before - after <= LIFT_MOST + HAIR)
        );
        let again = figures(&curve(&trials).with_set(shown(seconds * 0.99)));
        assert!(none_slower(&after, &again), "a better set is never worth less");
    }
}
