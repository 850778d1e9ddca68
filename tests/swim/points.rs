//! Points: the rules of World Aquatics, read in a federation's reprint. The
//! example 25.50 over 50 m is a national league's; the rest is worked by hand.

use lapwing::swim::Category;
use lapwing::swim::points::{BaseTimes, Event, points, times_for};
use lapwing::units::{Course, Stroke};

use crate::support::time;

#[test]
fn formula() {
    for (base, swum, wanted) in [
        ("20.91", "25.50", 551),
        ("46.40", "50.00", 799),
        ("46.40", "60.00", 462),
        ("46.40", "46.40", 1000),
        ("46.40", "58.46", 500),
        ("46.40", "58.47", 499),
        ("46.40", "58.42", 501),
    ] {
        assert_eq!(points(time(base), time(swum)), wanted, "{swum} on {base}");
    }
}

#[test]
fn back_from_points() {
    let five_hundred = times_for(time("46.40"), 500).unwrap();
    assert_eq!(five_hundred.slowest, time("58.46"));
    assert_eq!(five_hundred.fastest, time("58.43"));
    // Over 50 m a hundredth is more than a point, so some scores can't be had.
    let sprint = times_for(time("20.91"), 999).unwrap();
    assert_eq!((sprint.points, sprint.slowest), (1000, time("20.91")));
    assert_eq!(times_for(time("20.91"), 0), None);
}

#[test]
fn shipped_table() {
    let table = BaseTimes::shipped();
    assert_eq!((table.year, table.events()), (2025, 34));
    assert!(!table.source.is_empty());
    let event =
        |amount, course| Event { category: Category::Men, course, stroke: Stroke::Free, amount };
    assert_eq!(table.points(event(50, Course::Long50m), time("25.50")), Some(551));
    assert_eq!(table.base(event(100, Course::Long50m)), Some(time("46.40")));
    assert_eq!(table.points(event(100, Course::Short25yd), time("50")), None);
}

const GOOD: &str = r#"year = 2030
as_of = "2029-12-31"
source = "a squad's own"
base = [
    { category = "women", course = "50m", distance = 50, stroke = "free", time = "23.61" },
    { category = "men", course = "50m", distance = 50, stroke = "free", time = "20.91" },
]
"#;

#[test]
fn own_table() {
    let table = BaseTimes::read(GOOD).unwrap();
    assert_eq!((table.year, table.events(), table.source.as_str()), (2030, 2, "a squad's own"));
}

#[test]
fn err_bad_tables_name_line_and_reason() {
    for (from, to, wanted) in [
        ("\"20.91\"", "\"20:91\"", "line 6: `20:91` is no time"),
        ("\"20.91\"", "\"2:50\"", "line 6: 50m in 2:50.00 can't be a record"),
        ("\"20.91\"", "\"10.91\"", "line 6: 50m in 10.91 can't be a record"),
        ("\"men\"", "\"women\"", "line 6: 50m free is given twice"),
        ("\"men\"", "\"boys\"", "line 6: unknown variant `boys`"),
        (
            "distance = 50, stroke = \"free\", time = \"20.91\"",
            "distance = 75, stroke = \"free\", time = \"33\"",
            "line 6: 75m is no race",
        ),
        ("\"free\", time = \"20.91\"", "\"kick\", time = \"40\"", "line 6: `kick` is no stroke"),
        ("time = \"20.91\"", "time = \"20.91\", extra = 1", "line 6: unknown field `extra`"),
        ("\"2029-12-31\"", "\"end of 2029\"", "line 2: `end of 2029` is no date"),
        ("\"a squad's own\"", "\"\"", "line 3: the source is empty"),
        ("year = 2030", "year = 30", "line 1: 30 is no year"),
        ("source = \"a squad's own\"\n", "", "missing field `source`"),
        ("base = [", "base = ", "line "),
    ] {
        let text = GOOD.replacen(from, to, if to == "\"women\"" { 1 } else { 9 });
        assert_ne!(text, GOOD);
        let error = BaseTimes::read(&text).unwrap_err().to_string();
        assert!(error.contains(wanted), "{error}, wanted {wanted}");
    }
}

mod properties {
    use super::*;
    use lapwing::units::Centis;
    use proptest::prelude::*;

    proptest! {
        /// The slowest time for a score earns it, and a hundredth more doesn't;
        /// the fastest earns it, and a hundredth less earns more.
        #[test]
        fn inverse(base in 2_000u32..100_000, wanted in 1u32..1_200) {
            let base = Centis::new(base).unwrap();
            let found = times_for(base, wanted).unwrap();
            let at = |hundredths| points(base, Centis::new(hundredths).unwrap());
            prop_assert!(found.points >= wanted);
            prop_assert_eq!(at(found.slowest.hundredths()), found.points);
            prop_assert_eq!(at(found.fastest.hundredths()), found.points);
            prop_assert!(at(found.slowest.hundredths() + 1) < wanted);
            prop_assert!(at(found.fastest.hundredths() - 1) > found.points);
        }
    }
}
