//! Times that are asked about.

use lapwing::swim::plausible::{Acquaintance, Verdict, check, check_against};
use lapwing::units::Stroke;

use crate::support::{metres, time};

/// The world record over 50 m is 20.91 s, 2.391 m/s. The bands are common
/// practice, no source.
#[test]
fn by_speed() {
    for (distance, text, stroke, verdict) in [
        ("50", "20.91", Stroke::Free, Verdict::Plausible),
        ("200", "3:12", Stroke::Free, Verdict::Plausible),
        ("200", "3.12", Stroke::Free, Verdict::TooFast),
        ("800", "12:30", Stroke::Free, Verdict::Plausible),
        ("1500", "2:30", Stroke::Free, Verdict::TooFast),
        ("25", "9.3", Stroke::Free, Verdict::Plausible),
        ("25", "9.2", Stroke::Free, Verdict::TooFast),
        ("25", "2:00", Stroke::Kick, Verdict::Plausible),
        ("25", "2:00", Stroke::Breast, Verdict::TooSlow),
        ("100", "6:00", Stroke::Breast, Verdict::TooSlow),
        ("50", "24", Stroke::Drill, Verdict::TooFast),
    ] {
        let found = check(metres(distance), time(text), stroke);
        assert_eq!(found, verdict, "{distance} {stroke} in {text}");
    }
}

#[test]
fn by_the_swimmers_own_prediction() {
    let against = |text, known| check_against(time("3:12"), time(text), known);
    assert_eq!(against("2:12", Acquaintance::Settled), Verdict::TooFast);
    assert_eq!(against("2:56", Acquaintance::Settled), Verdict::TooFast);
    assert_eq!(against("2:56", Acquaintance::FirstWeeks), Verdict::Plausible);
    assert_eq!(against("2:57", Acquaintance::Settled), Verdict::Plausible);
    assert_eq!(against("3:50.4", Acquaintance::Settled), Verdict::Plausible);
    assert_eq!(against("3:50.41", Acquaintance::Settled), Verdict::TooSlow);
}
