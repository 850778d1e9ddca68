//! A test night by text.

use serde_json::{Value, json};

use crate::squad::{CODE, Heard, Talk};

/// Heron and teal on Tuesday 10 March, heron with four swims and a 400 behind
/// them, teal new.
fn tuesday() -> Talk {
    let mut talk = Talk::of_grown_ups();
    talk.hears("heron", "400 test 6:40");
    for day in 3..=6 {
        talk.now = format!("2026-03-{day:02}T19:00:00Z").parse().unwrap();
        talk.hears("heron", "done 1500 45min rpe 5");
    }
    talk.now = "2026-03-10T18:00:00Z".parse().unwrap();
    talk
}

fn swimmers(heard: &Heard) -> Vec<&str> {
    let heats = heard.result["heats"].as_array().unwrap().iter();
    let places = heats.flat_map(|heat| heat["swimmers"].as_array().unwrap());
    places.map(|place| place["swimmer"].as_str().unwrap()).collect()
}

#[test]
fn the_new_swim_easy_and_who_has_swum_is_owed_none() {
    let mut talk = tuesday();
    let heard = talk.hears("coach", "test night 400 thu");
    assert_eq!(swimmers(&heard), ["heron"], "{}", heard.text);
    assert_eq!(heard.result["on"], "2026-03-12");
    // 6:40, to the next whole minute.
    assert_eq!(heard.result["minutes"], 7);
    assert!(
        heard.text.contains("even 200 instead, flat out after 4 more swims: teal."),
        "{}",
        heard.text
    );
    let owed = |heard: &Heard| heard.result["swimmers"].as_array().map(Vec::len);
    // While it is ahead those in its heats owe it, and nobody who may not swim it.
    assert_eq!(owed(&talk.hears("coach", "squad owed")), Some(1));
    talk.now = "2026-03-12T19:30:00Z".parse().unwrap();
    talk.hears("coach", "heron 400 test 6:30");
    assert_eq!(owed(&talk.hears("coach", "squad owed")), Some(0));
}

#[test]
fn pain_takes_her_out_and_undo_takes_the_night_back() {
    let mut talk = tuesday();
    talk.hears("heron", "shoulder hurts 3");
    let heard = talk.hears("coach", "test night 400");
    assert!(swimmers(&heard).is_empty(), "{}", heard.text);
    assert!(heard.text.contains("Easy swim instead: heron."), "{}", heard.text);
    assert!(!heard.text.contains("shoulder"), "{}", heard.text);
    talk.hears("coach", "undo");
    assert_eq!(talk.hears("coach", "test night").result["kind"], "refused");
}

#[test]
fn once_it_is_over_those_fit_to_swim_it_are_owed_one_on_the_next_night() {
    let mut talk = tuesday();
    talk.hears("coach", "slot tue thu 20:00-21:00 4 lanes");
    talk.hears("coach", "test night 400 thu");
    talk.now = "2026-03-13T10:00:00Z".parse().unwrap();
    let heard = talk.hears("coach", "test night");
    assert_eq!(heard.result["owed"], Value::from(vec!["heron"]), "{}", heard.text);
    assert_eq!(heard.result["catch_up"], "2026-03-17");
}

#[test]
fn only_those_who_run_the_evening_call_one() {
    let mut talk = tuesday();
    assert_eq!(talk.hears("heron", "test night 400").result["kind"], "refused");
}

/// Wren was there on three nights and reported none, robin on the last of them
/// and reported one swim more.
#[test]
fn nights_presumed_and_swims_reported_count_towards_the_first_test() {
    let mut talk = Talk::of_grown_ups();
    talk.hears("wren", &format!("join {CODE} wren"));
    talk.hears("robin", &format!("join {CODE} robin"));
    talk.hears("coach", "slot tue thu 20:00-21:00 4 lanes");
    for (day, here) in [("03", "here wren"), ("05", "here wren"), ("10", "here wren robin")] {
        talk.now = format!("2026-03-{day}T20:05:00Z").parse().unwrap();
        talk.hears("coach", here);
    }
    talk.now = "2026-03-11T18:00:00Z".parse().unwrap();
    talk.hears("robin", "done 1000 rpe 3");
    talk.now = "2026-03-12T20:05:00Z".parse().unwrap();
    talk.hears("coach", "here wren robin");
    // Tonight is not behind them yet.
    let heard = talk.hears("coach", "test night 200");
    assert_eq!(heard.result["even_200"][0], json!({ "swimmer": "wren", "after_swims": 1 }));
    assert_eq!(heard.result["even_200"][1], json!({ "swimmer": "robin", "after_swims": 2 }));
    let told = "flat out after 1 more swim: wren.\nAfter 2 more: robin.";
    assert!(heard.text.contains(told), "{}", heard.text);
    talk.now = "2026-03-17T20:05:00Z".parse().unwrap();
    talk.hears("coach", "here wren robin");
    let heard = talk.hears("coach", "test night 200");
    assert_eq!(swimmers(&heard), ["wren"], "{}", heard.text);
}

#[test]
fn with_nobody_coming_it_speaks_of_the_night_and_not_of_lanes() {
    let mut talk = Talk::of_grown_ups();
    talk.hears("coach", "slot tue 20:00-21:00 4 lanes");
    talk.hears("heron", "out tue");
    talk.hears("teal", "out tue");
    let heard = talk.hears("coach", "test night 200 tue");
    assert_eq!(heard.result["kind"], "refused");
    assert!(heard.text.contains("heats") && !heard.text.contains("lanes"), "{}", heard.text);
}
