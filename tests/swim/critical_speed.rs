//! Critical speed: of one test by the published share, of several by the curve.
//!
//! Unless another source is named, a value is the formula worked in double
//! precision, apart from this crate.

use lapwing::swim::Trial;
use lapwing::swim::critical_speed::{Basis, Estimate, estimate};
use lapwing::units::{Course, Stroke};

use crate::support::{day, near, trial};

fn of(trials: &[Trial]) -> Estimate {
    estimate(trials, day("2026-03-02"), Stroke::Free, Course::Short25m)
}

fn per_100(trials: &[Trial]) -> f64 {
    of(trials).pace().unwrap().per_100_s()
}

/// Ours: the exponents at which critical speed is 94, 97 and 91 % of the 400's
/// speed, the published 94.0 ± 1.5 % (18 national and international men).
#[test]
fn one_test() {
    let found = of(&[trial("200", "3:12", "2026-03-02")]);
    assert_eq!(found.basis, Basis::OneTest);
    near(found.pace().unwrap().per_100_s(), 109.0686, 5e-5);
    near(found.low().unwrap().per_100_s(), 102.7709, 5e-5);
    near(found.high().unwrap().per_100_s(), 117.0373, 5e-5);
    assert_eq!(found.linear, None);

    let of_400 = of(&[trial("400", "6:40", "2026-03-02")]);
    let share = |per_100: f64| 100.0 / per_100 / 1.0;
    near(share(of_400.pace().unwrap().per_100_s()), 0.94, 0.0005);
    near(share(of_400.low().unwrap().per_100_s()), 0.97, 0.005);
    near(share(of_400.high().unwrap().per_100_s()), 0.91, 0.005);
}

/// The exponent cancels out near 750 m; the day's form does not.
#[test]
fn one_long_test_keeps_a_band() {
    let found = of(&[trial("800", "14:00", "2026-03-02")]);
    let per_100 = found.pace().unwrap().per_100_s();
    assert!(found.low().unwrap().per_100_s() <= per_100 * 0.98 + 1e-9);
    assert!(found.high().unwrap().per_100_s() >= per_100 * 1.02 - 1e-9);
}

#[test]
fn nothing_from_sprints_other_strokes_or_the_future() {
    assert_eq!(of(&[trial("100", "1:04", "2026-03-02")]).basis, Basis::None);
    assert_eq!(
        of(&[trial("100", "1:04", "2026-03-02"), trial("50", "29", "2026-03-02")]).basis,
        Basis::None
    );
    assert_eq!(of(&[trial("200", "3:12", "2026-03-03")]).basis, Basis::None);
    let back = Trial { stroke: Stroke::Back, ..trial("200", "3:12", "2026-03-02") };
    assert_eq!(of(&[back]).basis, Basis::None);
}

/// By the club's turn rule a 200 in a 50 m pool is 3.2 s slower.
#[test]
fn a_test_in_another_pool_counts_as_if_swum_in_this() {
    let long = Trial { course: Course::Long50m, ..trial("200", "3:15.20", "2026-03-02") };
    near(per_100(&[long]), 109.0686, 5e-5);
}

/// Two results meet on the curve; the line through them stands beside it, as in
/// the contract: 200 in 3:12 and 400 in 6:52 make 1:50.0 and 25.5 m.
#[test]
fn from_two_results_by_the_curve() {
    let found = of(&[trial("200", "3:12", "2026-03-02"), trial("400", "6:52", "2026-03-02")]);
    assert_eq!((found.basis, found.made_from.len()), (Basis::Curve, 2));
    let line = found.linear.as_ref().unwrap();
    near(line.pace.per_100_s(), 110.0, 1e-9);
    near(line.reserve.get(), 25.4545, 5e-5);
    // A 400 of 6:50.1 is what the 200 alone promised, at 94 % of its speed.
    assert!(found.pace().unwrap().per_100_s() > 109.0686);
    let as_expected = [trial("200", "3:12", "2026-03-02"), trial("400", "6:50.10", "2026-03-02")];
    near(per_100(&as_expected), 109.0686, 1e-2);
    let band = found.band.unwrap();
    let one = of(&[trial("200", "3:12", "2026-03-02")]).band.unwrap();
    let width = |band: lapwing::swim::critical_speed::PaceBand| {
        band.high.per_100_s() / band.low.per_100_s()
    };
    assert!(width(band) < width(one));
}

/// A better 200 beside an old 400, and a breakthrough 400 beside an old 200:
/// what the difference of two tests got wrong.
#[test]
fn a_better_test_never_makes_it_slower() {
    let old = [trial("200", "3:14", "2026-01-19"), trial("400", "6:52", "2026-01-20")];
    let with = |new: Trial| per_100(&[old[0], old[1], new]);
    assert!(with(trial("200", "3:00", "2026-03-02")) < per_100(&old));
    assert!(with(trial("400", "6:20", "2026-03-02")) < per_100(&old) * 0.97);
    assert!(with(trial("100", "1:20", "2026-03-02")) <= per_100(&old));
}

/// A second test over the one distance: by the law of one test from what the two
/// make together.
#[test]
fn a_second_test_over_one_distance_moves_the_level_alone() {
    let both = [trial("200", "3:12", "2026-03-02"), trial("200", "3:16", "2026-03-02")];
    let between = 109.0686 * (196.0f64 / 192.0).sqrt();
    near(per_100(&both), between, 5e-3);
    assert_eq!(of(&both).basis, Basis::Curve);
}

mod properties {
    use super::*;
    use lapwing::units::{Centis, Distance, Unit};
    use proptest::prelude::*;

    fn any_trial() -> impl Strategy<Value = Trial> {
        let distance = proptest::sample::select(&[50u32, 100, 200, 300, 400, 800, 1500, 10_000]);
        (distance, 1u32..=Centis::GREATEST.hundredths(), 0i64..100, any::<bool>()).prop_map(
            |(amount, hundredths, days, meet)| Trial {
                distance: Distance::new(amount, Unit::Metre).unwrap(),
                time: Centis::new(hundredths).unwrap(),
                on: day("2026-03-02") - jiff::Span::new().days(days),
                meet,
                ..trial("200", "3:12", "2026-03-02")
            },
        )
    }

    proptest! {
        /// Whatever was texted: the pace lies in its band.
        #[test]
        fn always_makes_sense(trials in proptest::collection::vec(any_trial(), 0..9)) {
            let found = of(&trials);
            prop_assert_eq!(found.band.is_none(), found.basis == Basis::None);
            if let Some(band) = found.band {
                prop_assert!(band.low.per_100_s() <= band.pace.per_100_s());
                prop_assert!(band.pace.per_100_s() <= band.high.per_100_s());
            }
        }

        /// A test that took half as long again means a pace half as slow again.
        #[test]
        fn scales_with_the_test(lengths in 8u32..60, hundredths in 10_000u32..200_000) {
            let at = |hundredths: u32| {
                let test = Trial {
                    distance: Distance::new(lengths * 25, Unit::Metre).unwrap(),
                    time: Centis::new(hundredths).unwrap(),
                    ..trial("200", "3:12", "2026-03-02")
                };
                of(&[test]).band.unwrap()
            };
            let (once, more) = (at(hundredths * 2), at(hundredths * 3));
            for (a, b) in [(once.pace, more.pace), (once.low, more.low), (once.high, more.high)] {
                prop_assert!((b.per_100_s() / a.per_100_s() - 1.5).abs() < 1e-9);
            }
        }
    }
}
