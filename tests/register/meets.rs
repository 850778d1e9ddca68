//! Meets, entries, and the race that is next.

use serde_json::{Value, json};

use crate::squad::{Heard, Talk};

fn march() -> Talk {
    let mut talk = Talk::of_grown_ups();
    talk.now = "2026-03-03T19:00:00Z".parse().unwrap();
    talk.hears("heron", "100 test 1:05.3 push");
    talk.hears("teal", "200 test 3:00");
    talk
}

fn entries(heard: &Heard) -> &Vec<Value> {
    heard.result["meets"][0]["entries"].as_array().unwrap()
}

/// The turn rule: 0.8 s a 50 of freestyle more in 50 m than in 25 m (the
/// handbook's figure, see `swim::conversion`).
#[test]
fn the_entry_time_is_hers_and_in_another_pool_an_estimate_that_says_so() {
    let mut talk = march();
    talk.hears("coach", "meet 20 mar 25m");
    let heard = talk.hears("coach", "entry heron 100 free");
    assert_eq!(heard.result["on"], "2026-03-20", "{}", heard.text);
    assert_eq!(heard.result["entry_time_s"], 65.3);
    assert_eq!(heard.result["estimate"], false);
    assert!(heard.text.contains("1:05.3, swum on 3 Mar"), "{}", heard.text);
    talk.hears("coach", "meet 29 mar 50m");
    let heard = talk.hears("heron", "entry 100 free 29 mar");
    assert_eq!(heard.result["entry_time_s"], 66.9, "{}", heard.text);
    assert_eq!(heard.result["estimate"], true);
    let told = "an estimate: 1:05.3 on 3 Mar in a 25 m pool";
    assert!(heard.text.contains(told), "{}", heard.text);
    let heard = talk.hears("coach", "entry heron 100 free 29 mar 1:04.0");
    assert_eq!(heard.result["entry_time_s"], 64.0);
    // The later word for the same race stands.
    let heard = talk.hears("heron", "entries");
    assert_eq!(heard.result["meets"][1]["entries"].as_array().unwrap().len(), 1);
    let heard = talk.hears("coach", "entry teal 400 free 29 mar");
    assert_eq!(heard.result["estimate"], true, "{}", heard.text);
    let heard = talk.hears("coach", "entry teal 400 free");
    assert!(heard.text.contains("estimate from other distances"), "{}", heard.text);
    let heard = talk.hears("coach", "entry teal 100 fly");
    assert_eq!(heard.result["entry_time_s"], Value::Null, "{}", heard.text);
}

#[test]
fn a_scratch_takes_one_race_out_and_undo_puts_it_back() {
    let mut talk = march();
    talk.hears("coach", "meet 20 mar 25m");
    talk.hears("coach", "entry heron 100 free");
    talk.hears("coach", "entry heron 50 free");
    let heard = talk.hears("coach", "scratch heron 100 free");
    assert_eq!(heard.result["scratched"], true, "{}", heard.text);
    assert_eq!(entries(&talk.hears("coach", "entries")).len(), 1);
    assert_eq!(talk.hears("coach", "scratch heron 100 free").result["kind"], "refused");
    talk.hears("coach", "undo");
    assert_eq!(entries(&talk.hears("coach", "entries")).len(), 2);
}

#[test]
fn what_was_entered_without_a_day_is_for_the_meet_once_it_is_named() {
    let mut talk = march();
    let heard = talk.hears("heron", "entry 100 free");
    assert_eq!(heard.result["on"], Value::Null, "{}", heard.text);
    assert_eq!(heard.result["kind"], "ok");
    let heard = talk.hears("coach", "meet 20 mar 50m");
    assert_eq!(entries(&heard).len(), 1, "{}", heard.text);
    assert_eq!(entries(&talk.hears("coach", "entries")).len(), 1);
    talk.hears("coach", "undo");
    let heard = talk.hears("heron", "entries");
    assert_eq!(heard.result["meets"][0]["on"], Value::Null, "{}", heard.text);
    assert_eq!(entries(&heard).len(), 1);
}

#[test]
fn a_swimmer_sees_her_own_entries_and_the_coach_all() {
    let mut talk = march();
    talk.hears("coach", "meet 20 mar 25m");
    talk.hears("heron", "entry 100 free");
    talk.hears("teal", "entry 200 free");
    let heard = talk.hears("heron", "entries");
    assert_eq!(entries(&heard).len(), 1);
    assert!(!heard.text.contains("teal") && !heard.text.contains("3:00"), "{}", heard.text);
    assert_eq!(entries(&talk.hears("coach", "entries")).len(), 2);
    assert_eq!(talk.hears("heron", "entry teal 100 free").result["kind"], "refused");
    assert_eq!(talk.hears("heron", "meet 22 mar 25m").result["kind"], "refused");
}

/// An entry feeds what `race` feeds: the card, who races, the taper.
#[test]
fn an_entry_is_a_race_to_come() {
    let mut talk = march();
    talk.hears("heron", "race 1500 on 20 apr");
    talk.hears("coach", "entry heron 100 free 22 mar");
    let heard = talk.hears("coach", "heron");
    assert!(heard.text.contains("Race: 100 free, 22 Mar."), "{}", heard.text);
    let heard = talk.hears("coach", "squad races");
    assert_eq!(heard.result["swimmers"].as_array().unwrap().len(), 1);
    assert!(heard.text.contains("Sun 22 Mar, 100 free"), "{}", heard.text);
    for day in [5, 7, 10, 12, 14] {
        talk.now = format!("2026-03-{day:02}T19:00:00Z").parse().unwrap();
        talk.hears("heron", "done 1500 45min rpe 4");
    }
    talk.now = "2026-03-16T10:00:00Z".parse().unwrap();
    let plan = talk.hears("heron", "plan");
    assert_eq!(plan.result["weeks"][0]["kind"], json!("taper"), "{}", plan.text);
    talk.hears("coach", "scratch heron 100 free");
    assert!(talk.hears("coach", "heron").text.contains("Race: 1500 free, 20 Apr."));
}

/// A flying takeover is no flat start: it makes no best, no test, no critical
/// speed; the first leg is one.
#[test]
fn later_legs_of_a_relay_are_kept_apart() {
    let mut talk = march();
    talk.hears("heron", "50 test 33 push");
    let heard = talk.hears("coach", "relay 4x50 free heron 31.2 teal 29.8");
    assert_eq!(heard.result["results"][0]["kind"], "test", "{}", heard.text);
    assert_eq!(heard.result["results"][1]["relay_leg"], 2, "{}", heard.text);
    assert!(heard.text.contains("heron 31.2 best by 1.8 s"), "{}", heard.text);
    let heard = talk.hears("coach", "teal");
    assert!(heard.text.contains("Relay legs: 50 free 29.8 (3 Mar)."), "{}", heard.text);
    assert_eq!(heard.result["bests"].as_array().unwrap().len(), 1, "{}", heard.text);
    assert_eq!(heard.result["tests"].as_array().unwrap().len(), 1);
    let squad = &talk.squad.swimmers;
    let tests =
        |who: &str| squad.values().find(|one| one.name.as_str() == who).unwrap().tests.len();
    assert_eq!((tests("heron"), tests("teal")), (3, 1));
    talk.hears("coach", "undo");
    assert!(!talk.hears("coach", "teal").text.contains("Relay"));
}
