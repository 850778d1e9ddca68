//! Seasons of virtual swimmers: the rules hold, and hearing helps.

#![allow(clippy::unwrap_used, reason = "in a test the panic is the report")]

use jiff::civil::date;
use lapwing::coaching::Rulebook;
use lapwing::language::Language;
use lapwing::message;
use lapwing::simulation::{Plan, Swimmer, Trials, compare, season};
use lapwing::units::Course;

#[test]
fn hearing_helps_and_no_rule_breaks() {
    let trials = Trials { swimmers: 100, weeks: 52, seed: 7, from: date(2026, 1, 5) };
    let found = compare(&Rulebook::default(), trials, || ());
    assert_eq!(found.adaptive.broken.total(), 0, "{found}");
    assert!(found.adaptive.gain_percent > 0.0, "{found}");
    assert!(found.adaptive.gain_percent > found.fixed.gain_percent, "{found}");
}

#[test]
fn the_same_seed_is_the_same_season() {
    let run = |seed| {
        let swimmer = Swimmer::drawn("teal", Course::Short25m, seed);
        season(&Rulebook::default(), swimmer, date(2026, 1, 5), 12, Plan::Adaptive)
    };
    assert_eq!(run(3), run(3));
    assert_ne!(run(3).texts, run(4).texts);
}

/// What they text is what the grammar reads: a test, a set, a session done.
#[test]
fn reports_read_as_texts() {
    let swimmer = Swimmer::drawn("teal", Course::Short25m, 3);
    let texts = season(&Rulebook::default(), swimmer, date(2026, 1, 5), 20, Plan::Adaptive).texts;
    let words: Vec<String> = texts.iter().map(|dated| dated.report.to_string()).collect();
    assert!(words[0].starts_with("200 test "), "{}", words[0]);
    for start in ["done ", "missed"] {
        assert!(words.iter().any(|text| text.starts_with(start)), "{start}");
    }
    assert!(words.iter().any(|text| text.contains(" held ")));
    for text in &words {
        let reading = message::parse(text, Language::English);
        assert!(matches!(reading, message::Reading::Understood(_)), "{text}: {reading:?}");
    }
}
