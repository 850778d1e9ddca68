//! Converting between pools by published tables.

use lapwing::swim::Category;
use lapwing::swim::conversion::{Converted, Method, convert};
use lapwing::units::{Course, Stroke};

use crate::support::time;

fn by(
    method: Method,
    (distance, text, stroke): (&str, &str, Stroke),
    from: Course,
    to: Course,
) -> Option<Converted> {
    convert(distance.parse().unwrap(), time(text), stroke, from, to, method)
}

/// US college sport, Division I, factors of 2023-24, from a news reprint of
/// the committee's document; times worked by hand.
#[test]
fn college_factors() {
    let women = Method::CollegeFactors(Category::Women);
    let men = Method::CollegeFactors(Category::Men);
    for (method, swim, wanted) in [
        (men, ("100m", "50.00", Stroke::Free), "100yd 43.65"),
        (women, ("400m", "4:20.00", Stroke::Free), "500yd 4:51.72"),
        (men, ("1500m", "15:00.00", Stroke::Free), "1650yd 14:37.50"),
        (women, ("200m", "2:30.00", Stroke::Breast), "200yd 2:13.20"),
        (men, ("100m", "60.00", Stroke::Back), "100yd 50.70"),
    ] {
        let found = by(method, swim, Course::Long50m, Course::Short25yd).unwrap();
        assert_eq!(format!("{} {}", found.distance, found.time), wanted);
        assert_eq!(found.method.name(), "college factors 2023-24");
    }
    let back = by(men, ("100yd", "45.00", Stroke::Free), Course::Short25yd, Course::Long50m);
    assert_eq!(back.unwrap().time, time("51.55"));
    assert_eq!(by(men, ("100m", "50", Stroke::Free), Course::Short25m, Course::Short25yd), None);
    assert_eq!(by(men, ("300m", "50", Stroke::Free), Course::Long50m, Course::Short25yd), None);
}

/// The turn rule of a club handbook, with the handbook's own example (it
/// prints 58.19 by truncation).
#[test]
fn turn_rule() {
    let free = ("100yd", "50.00", Stroke::Free);
    let rule = |swim, from, to| by(Method::TurnRule, swim, from, to).unwrap().time;
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
    let rule = |swim, from, to| by(Method::TurnRule, swim, from, to);
    assert_eq!(rule(("100m", "1:30", Stroke::Kick), Course::Long50m, Course::Short25m), None);
    assert_eq!(rule(("400m", "5:20", Stroke::Free), Course::Long50m, Course::Short25m), None);
    assert_eq!(rule(("100m", "1:30", Stroke::Free), Course::Short25m, Course::OpenWater), None);
    assert_eq!(rule(("100m", "1:30", Stroke::Free), Course::Short25yd, Course::Short25m), None);
}

mod properties {
    use super::*;
    use lapwing::units::{Centis, Distance};
    use proptest::prelude::*;

    const POOLS: [Course; 3] = [Course::Short25m, Course::Long50m, Course::Short25yd];
    const RACED: [Stroke; 5] =
        [Stroke::Free, Stroke::Back, Stroke::Breast, Stroke::Fly, Stroke::Im];

    proptest! {
        /// There and back again is the same time, to the hundredth that each
        /// way rounds.
        #[test]
        fn there_and_back_is_identity(
            from in proptest::sample::select(&POOLS), to in proptest::sample::select(&POOLS),
            stroke in proptest::sample::select(&RACED), amount in proptest::sample::select(&[50u32, 100, 200]),
            method in proptest::sample::select(&[
                Method::TurnRule,
                Method::CollegeFactors(Category::Women),
                Method::CollegeFactors(Category::Men),
            ]),
            hundredths in 2_500u32..40_000,
        ) {
            let distance = Distance::new(amount, from.unit()).unwrap();
            let start = Centis::new(hundredths).unwrap();
            if let Some(there) = convert(distance, start, stroke, from, to, method) {
                let back = convert(there.distance, there.time, stroke, to, from, method).unwrap();
                prop_assert_eq!(back.distance, distance);
                prop_assert!(back.time.hundredths().abs_diff(hundredths) <= 1);
            } else {
                prop_assert!(method != Method::TurnRule, "the rule covers every race here");
            }
        }
    }
}
