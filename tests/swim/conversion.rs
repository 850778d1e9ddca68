//! Converting between pools by the turn rule.

use lapwing::swim::conversion::convert;
use lapwing::units::{Centis, Course, Stroke};

use crate::support::time;

fn by_rule(
    (distance, text, stroke): (&str, &str, Stroke),
    from: Course,
    to: Course,
) -> Option<Centis> {
    convert(distance.parse().unwrap(), time(text), stroke, from, to)
}

/// The turn rule of a club handbook, with the handbook's own example (it
/// prints 58.19 by truncation).
#[test]
fn turn_rule() {
    let free = ("100yd", "50.00", Stroke::Free);
    let rule = |swim, from, to| by_rule(swim, from, to).unwrap();
    assert_eq!(rule(free, Course::Short25yd, Course::Long50m), time("57.10"));
    assert_eq!(rule(free, Course::Short25yd, Course::Short25m), time("55.50"));
    let fly = ("100m", "1:06.00", Stroke::Fly);
    assert_eq!(rule(fly, Course::Long50m, Course::Short25yd), time("58.20"));
    // 200 medley: 3.2 s for its turns.
    let medley = ("200m", "2:30.00", Stroke::Im);
    assert_eq!(rule(medley, Course::Short25m, Course::Long50m), time("2:33.20"));
}

#[test]
fn no_row_no_answer() {
    assert_eq!(by_rule(("100m", "1:30", Stroke::Kick), Course::Long50m, Course::Short25m), None);
    assert_eq!(by_rule(("400m", "5:20", Stroke::Free), Course::Long50m, Course::Short25m), None);
    assert_eq!(by_rule(("100m", "1:30", Stroke::Free), Course::Short25m, Course::OpenWater), None);
    assert_eq!(by_rule(("100m", "1:30", Stroke::Free), Course::Short25yd, Course::Short25m), None);
}

mod properties {
    use super::*;
    use lapwing::units::Distance;
    use proptest::prelude::*;

    const POOLS: [Course; 3] = [Course::Short25m, Course::Long50m, Course::Short25yd];
    const RACED: [Stroke; 5] =
        [Stroke::Free, Stroke::Back, Stroke::Breast, Stroke::Fly, Stroke::Im];

    proptest! {
        /// There and back again is the same time, to the hundredth that each
        /// way rounds.
        #[test]
        fn over_there_back_is_identity(
            from in proptest::sample::select(&POOLS), to in proptest::sample::select(&POOLS),
            stroke in proptest::sample::select(&RACED), amount in proptest::sample::select(&[50u32, 100, 200]),
            hundredths in 2_500u32..40_000,
        ) {
            let distance = Distance::new(amount, from.unit()).unwrap();
            let start = Centis::new(hundredths).unwrap();
            let there = convert(distance, start, stroke, from, to).unwrap();
            let over_there = Distance::new(amount, to.unit()).unwrap();
            let back = convert(over_there, there, stroke, to, from).unwrap();
            prop_assert!(back.hundredths().abs_diff(hundredths) <= 1);
        }
    }
}
