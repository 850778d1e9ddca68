//! Paced sets. Where no source is named: common practice, no source, worked by
//! hand.

use lapwing::swim::set::{analyse, shape};
use lapwing::swim::splits::pacing;

use crate::support::{near, time, times};

#[test]
fn eight_fifties_fading() {
    let set = analyse(time("48"), &times("48 48 48 48 49 49 50 50"));
    assert_eq!((set.repeats, set.held, set.missed), (8, 6, 2));
    assert_eq!(set.first_lost, Some(7));
    let shape = set.shape.unwrap();
    near(shape.mean.get(), 48.75, 1e-12);
    near(shape.fade.unwrap().get(), 1.0 / 3.0, 1e-12);
    near(shape.spread.get(), 2.0, 1e-12);
    assert_eq!(shape.best, time("48"));
    assert!(!set.fast_start);
}

/// With a strict 2 % this set would hold 2 of 8; a pace clock shows whole
/// seconds, so 1 s counts: 5 of 8, and the first lost is the fourth.
#[test]
fn tolerance_is_what_a_pace_clock_shows() {
    let set = analyse(time("48"), &times("48 48 49 50 49 49 50 51"));
    assert_eq!((set.held, set.first_lost), (5, Some(4)));
    let tenths = analyse(time("22"), &times("22.4 22.5 22.6 23"));
    assert_eq!((tenths.tolerance, tenths.held), (time("0.5"), 2));
    let long = analyse(time("5:00"), &times("5:06 5:07"));
    assert_eq!((long.tolerance, long.held), (time("6"), 1));
    let hundredth = analyse(time("48"), &times("48.96 49.00 49.01 48.5"));
    assert_eq!((hundredth.tolerance, hundredth.held), (time("0.96"), 2));
}

#[test]
fn a_missed_repeat_counts_but_not_in_the_mean() {
    let set = analyse(time("48"), &times("48 x 49 x"));
    assert_eq!((set.held, set.missed, set.first_lost), (2, 2, Some(2)));
    near(set.shape.unwrap().mean.get(), 48.5, 1e-12);
    near(set.shape.unwrap().fade.unwrap().get(), 0.5, 1e-12);
    let none = analyse(time("48"), &times("x x"));
    assert_eq!((none.missed, none.shape), (2, None));
    assert_eq!(analyse(time("48"), &times("48")).shape.unwrap().fade, None);
}

#[test]
fn going_out_too_fast_is_no_fitness() {
    let fast = |list: &str| analyse(time("48"), &times(list)).fast_start;
    assert!(fast("44 44 47 51 52"));
    assert!(fast("46 46 48 50"));
    assert!(!fast("47 47 48 48"));
    assert!(!fast("44 48 48 48"));
    assert!(!fast("x 44 48"));
    assert!(!analyse(time("22"), &times("21 21 22 22")).fast_start, "a second on a pace clock");
    assert!(analyse(time("22"), &times("21.0 21.1 22.1 22.3")).fast_start);
    assert!(!analyse(time("5:00"), &times("4:57 4:57 5:00")).fast_start);
}

/// Mean of a worked set; the fade by Theil–Sen is the median of its 15 slopes.
#[test]
fn one_bad_repeat_does_not_bend_the_fade() {
    let even = shape(&times("85.2 85.0 85.6 86.1 86.9 87.3")).unwrap();
    near(even.mean.get(), 86.0167, 5e-5);
    near(even.fade.unwrap().get(), 0.55, 1e-12);
    let one_bad = shape(&times("85.0 85.0 99.0 85.0 85.0 85.0")).unwrap();
    near(one_bad.fade.unwrap().get(), 0.0, 1e-12);
}

/// 70, 76, 78, 76: the second half is 5.479 % slower (worked by hand). Elite
/// 400s: fast-start-even and parabolic alike (Mauger et al. 2012, Med Sci
/// Sports Exerc 44:2205-2212), so a little slower is no fault.
#[test]
fn splits() {
    let of = |list: &str| {
        let splits: Vec<_> = times(list).into_iter().flatten().collect();
        pacing(&splits)
    };
    near(of("1:10 1:16 1:18 1:16").unwrap().second_half_percent, 5.479, 5e-4);
    assert!(!of("1:10 1:16 1:18 1:16").unwrap().faded);
    assert!(of("44 51").unwrap().faded);
    near(of("50 60 50").unwrap().second_half_percent, 0.0, 1e-12);
    assert!(of("51 49").unwrap().second_half_percent < 0.0);
    assert_eq!(of("51"), None);
}
