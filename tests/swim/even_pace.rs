//! Even-pace targets and their send-offs.

use lapwing::swim::even_pace::{target, targets};
use lapwing::units::{Course, Start};

use crate::support::{metres, time};

fn shown(distance: &str, total: &str, course: Course, start: Start) -> Vec<String> {
    targets(metres(distance), time(total), course, start)
        .iter()
        .map(|target| {
            let send_off = target.send_off.unwrap();
            format!("{} {} {}", target.distance, target.time.short(), send_off.seconds())
        })
        .collect()
}

/// Worked sessions of an experienced coach (common practice, no source): a
/// returner's 400 in 9:20 as 50s in 1:10 on 1:35; a triathlete's in 6:10.
#[test]
fn worked_cases() {
    let push = |distance, total| shown(distance, total, Course::Short25m, Start::Push);
    assert_eq!(push("200", "3:12"), ["50m 48 75", "100m 1:36 150"]);
    assert_eq!(push("400", "9:20")[0], "50m 1:10 95");
    assert_eq!(push("400", "6:10")[0], "50m 46.25 65");
    assert_eq!(push("400", "5:00")[0], "50m 37.5 55");
}

/// A masters sprinter's 100 in 1:04 from a dive: 33 for the 50s on 3:00 and
/// 16.5 for the 25s on 1:00 (common practice, no source).
#[test]
fn repeats_are_pushed_though_the_test_was_dived() {
    let dived = shown("100", "1:04", Course::Short25m, Start::Dive);
    assert_eq!(dived, ["25m 16.5 60", "50m 33 180"]);
}

#[test]
fn pieces_fit_the_pool() {
    assert!(shown("100", "1:04", Course::Long50m, Start::Push)[0].starts_with("50m"));
    assert_eq!(shown("50", "30", Course::Long50m, Start::Push), [""; 0]);
}

#[test]
fn three_quarters_is_no_set() {
    let piece = target(metres("200"), time("3:12"), metres("150"), Start::Push).unwrap();
    assert_eq!((piece.time, piece.send_off), (time("2:24"), None));
    assert_eq!(target(metres("200"), time("3:12"), metres("200"), Start::Push), None);
    assert_eq!(target(metres("200"), time("3:12"), "50yd".parse().unwrap(), Start::Push), None);
}

mod properties {
    use super::*;
    use lapwing::units::{Centis, Distance, Unit};
    use proptest::prelude::*;

    proptest! {
        /// Twice the piece takes twice the time; a slower test never gives a
        /// faster target or a shorter send-off.
        #[test]
        fn scale_and_keep_order(
            whole in (2u32..=60).prop_map(|fifties| fifties * 50),
            piece in (1u32..=15).prop_map(|lengths| lengths * 25),
            hundredths in 2_000u32..400_000,
            slower in 0u32..10_000,
        ) {
            let metres = |amount| Distance::new(amount, Unit::Metre).unwrap();
            prop_assume!(piece * 2 < whole);
            let at = |hundredths, piece| {
                target(metres(whole), Centis::new(hundredths).unwrap(), metres(piece), Start::Push).unwrap()
            };
            let (one, two) = (at(hundredths, piece), at(hundredths, piece * 2));
            prop_assert!(two.time.hundredths().abs_diff(one.time.hundredths() * 2) <= 1);
            let later = at(hundredths + slower, piece);
            prop_assert!(later.time >= one.time);
            prop_assert!(later.send_off >= one.send_off);
            let rest = one.send_off.unwrap().rest_after(one.time);
            let held_at_an_hour = one.send_off.unwrap().seconds() == 3600;
            prop_assert!(held_at_an_hour || rest.is_some_and(|rest| rest.seconds() >= 5.0));
        }
    }
}
