//! What is presumed of those who were there and did not report.

use jiff::civil::date;
use jiff::{Timestamp, ToSpan};
use lapwing::history::Event;
use lapwing::session::Session;
use proptest::prelude::*;
use serde_json::Value;

use crate::squad::Talk;
use crate::{at, put_in_force, tuesday};

/// Heron tested a fortnight ago and has a set in force on Tuesday 17 March.
fn with_a_set() -> (Talk, u64) {
    let mut talk = tuesday();
    talk.hears("heron", "200 test 3:12");
    at(&mut talk, "2026-03-17T19:00:00Z");
    let heard = talk.hears("heron", "next");
    let session = heard
        .events
        .into_iter()
        .find_map(|event| match event {
            Event::SessionSuggested { session, .. } => Some(session),
            _ => None,
        })
        .unwrap();
    talk.hears("heron", "undo");
    let session = Session { on: date(2026, 3, 17), ..session };
    let distance = u64::from(session.amount());
    put_in_force(&mut talk, session);
    (talk, distance)
}

/// Heron's metres of seven days, as told with a short report of the day after.
fn week(talk: &mut Talk) -> u64 {
    let heard = talk.hears("heron", "done 100 10min 2026-03-18");
    talk.hears("heron", "undo");
    heard.result["week_distance"].as_u64().unwrap() - 100
}

#[test]
fn who_was_there_swam_the_set_once() {
    let (mut talk, distance) = with_a_set();
    at(&mut talk, "2026-03-17T20:30:00Z");
    talk.hears("coach", "here heron");
    talk.hears("coach", "all here");
    at(&mut talk, "2026-03-18T12:00:00Z");
    assert_eq!(week(&mut talk), distance);
}

#[test]
fn her_own_report_replaces_it_before_and_after() {
    for reports_first in [true, false] {
        let (mut talk, _) = with_a_set();
        at(&mut talk, "2026-03-17T20:30:00Z");
        let mut texts = [("coach", "here heron"), ("heron", "done 900 40min")];
        if reports_first {
            texts.reverse();
        }
        for (who, text) in texts {
            talk.hears(who, text);
        }
        at(&mut talk, "2026-03-18T12:00:00Z");
        assert_eq!(week(&mut talk), 900, "reports first: {reports_first}");
    }
}

#[test]
fn a_word_of_effort_alone_is_of_the_night_and_adds_no_metres() {
    let (mut talk, distance) = with_a_set();
    at(&mut talk, "2026-03-17T20:30:00Z");
    talk.hears("coach", "here heron");
    let said = talk.hears("coach", "heron rpe 7").result;
    assert_eq!(said["distance"].as_u64(), Some(distance), "the set of the night: {said}");
    at(&mut talk, "2026-03-17T20:40:00Z");
    talk.hears("heron", "rpe 6");
    at(&mut talk, "2026-03-18T12:00:00Z");
    assert_eq!(week(&mut talk), distance, "twice said, once swum");
    talk.hears("heron", "done 900 40min 2026-03-17");
    assert_eq!(week(&mut talk), 900, "her own report says how far");
    talk.hears("heron", "undo");
    assert_eq!(week(&mut talk), distance);
}

#[test]
fn who_was_not_there_or_says_she_missed_it_swam_nothing() {
    let (mut talk, _) = with_a_set();
    at(&mut talk, "2026-03-17T20:30:00Z");
    talk.hears("coach", "here heron");
    talk.hears("coach", "absent heron");
    at(&mut talk, "2026-03-18T12:00:00Z");
    assert_eq!(week(&mut talk), 0);
    talk.hears("coach", "undo");
    talk.hears("heron", "missed yesterday");
    assert_eq!(week(&mut talk), 0);
}

#[test]
fn came_and_reported_came_and_not_seen_are_kept_apart() {
    let mut talk = tuesday();
    at(&mut talk, "2026-03-17T20:30:00Z");
    talk.hears("coach", "here heron teal");
    talk.hears("heron", "done 1500 45min");
    at(&mut talk, "2026-03-18T12:00:00Z");
    let squad = talk.hears("coach", "squad").result;
    let row = |who: &str| {
        let rows = squad["swimmers"].as_array().unwrap();
        let row = rows.iter().find(|row| row["swimmer"] == who).unwrap();
        let silent = row["flags"].as_array().unwrap().contains(&"silent".into());
        (row["last_seen"].clone(), row["last_heard"].clone(), silent)
    };
    let night = Value::from("2026-03-17");
    assert_eq!(row("heron"), (night.clone(), night.clone(), false));
    assert_eq!(row("teal"), (night, Value::Null, false));
    assert_eq!(row("wren"), (Value::Null, Value::Null, true));
}

/// The numbers of how fit heron is, six weeks after a test, with the register of
/// the nights marked in `came`.
fn fitness(came: &[bool]) -> (Value, Value, Value) {
    let mut talk = tuesday();
    talk.hears("heron", "200 test 3:12");
    let start: Timestamp = talk.now;
    for (week, came) in came.iter().enumerate() {
        talk.now = start.checked_add((week as i64 * 168).hours()).unwrap();
        talk.hears("coach", if *came { "here heron" } else { "here teal" });
    }
    talk.now = start.checked_add(43.hours() * 24).unwrap();
    let targets = talk.hears("heron", "targets").result;
    let predicted = talk.hears("heron", "predict 400").result;
    let test = talk.hears("heron", "400 test 6:50").result;
    (targets, predicted, test["critical_speed"].clone())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    #[test]
    fn nothing_presumed_changes_how_fit_she_is(came in proptest::collection::vec(any::<bool>(), 6)) {
        prop_assert_eq!(fitness(&came), fitness(&[false; 6]));
    }
}
