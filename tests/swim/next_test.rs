//! Which test to swim next.

use lapwing::swim::Trial;
use lapwing::swim::next_test::{NextTest, next_test};
use lapwing::units::{Course, Stroke};

use crate::support::{day, near, trial};

fn of(trials: &[Trial]) -> NextTest {
    next_test(trials, day("2026-03-02"), Stroke::Free, Course::Short25m).unwrap()
}

fn after(swims: &[(&str, &str)]) -> u32 {
    let trials: Vec<Trial> = swims.iter().map(|(d, t)| trial(d, t, "2026-02-25")).collect();
    of(&trials).distance.amount()
}

/// Coaches' habit (common practice, no source): a sprinter swims a 400, after
/// a 200 comes a 400, a returner with a long 400 adds a 200, not a long 800.
#[test]
fn as_a_coach_would_choose() {
    assert_eq!(after(&[("100", "1:04")]), 400);
    assert_eq!(after(&[]), 400);
    assert_eq!(after(&[("200", "3:12")]), 400);
    assert_eq!(after(&[("400", "9:20")]), 200);
    assert_eq!(after(&[("200", "2:30"), ("400", "5:20")]), 800);
    assert_eq!(after(&[("100", "4:00")]), 200, "a 400 would take over 15 min");
}

/// The lone 200 by the delta method: the typical error of 2 % and the
/// exponent's 0.025 through `d ln CS / dk = ln 2 * 2^-k/(1 - 2^-k) + ln 2`.
#[test]
fn how_unsure_now() {
    let found = of(&[trial("200", "3:12", "2026-03-01")]);
    let half = 2f64.powf(-1.095);
    let by_exponent = 2f64.ln() * (half / (1.0 - half) + 1.0);
    let wanted = (0.02f64.powi(2) + (0.025 * by_exponent).powi(2)).sqrt() * 100.0;
    near(found.unsure_percent_now.unwrap(), wanted, 1e-9);
    assert!(found.unsure_percent_then < wanted);
    assert_eq!(of(&[]).unsure_percent_now, None);
}

/// Two distances tested and no longer one that can be asked for.
#[test]
fn nothing_to_add() {
    let trials = [trial("200", "4:20", "2026-03-01"), trial("400", "9:20", "2026-02-20")];
    assert_eq!(next_test(&trials, day("2026-03-02"), Stroke::Free, Course::Short25m), None);
}

/// A test of last autumn says nothing of today.
#[test]
fn stale_tests_are_forgotten() {
    assert_eq!(of(&[trial("200", "3:12", "2025-10-01")]).unsure_percent_now, None);
}

#[test]
fn yards_have_their_own_distances() {
    let yards = Trial {
        distance: "200yd".parse().unwrap(),
        course: Course::Short25yd,
        ..trial("200", "2:10", "2026-03-01")
    };
    let found = next_test(&[yards], day("2026-03-02"), Stroke::Free, Course::Short25yd).unwrap();
    assert_eq!(found.distance.to_string(), "500yd");
}
