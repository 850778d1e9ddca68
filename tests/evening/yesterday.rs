//! Yesterday's results: asked for, put right by naming them, taken back one by one.

use crate::capture::at_the_end;
use crate::squad::Talk;

fn times(talk: &Talk, bird: &str) -> Vec<f64> {
    let swimmer = talk.squad.swimmers.values().find(|one| one.name.as_str() == bird).unwrap();
    let set = swimmer.sets.as_of(talk.now).next_back();
    set.map_or_else(Vec::new, |kept| {
        kept.what.times.iter().flatten().map(|time| time.seconds()).collect()
    })
}

/// The next morning, with both lanes told.
fn next_day() -> Talk {
    let mut talk = at_the_end();
    talk.hears("coach", "heron 93 93 94 94 95 95 95 96 96 96, teal 96 96 97 97 96 97 96 97 97 97");
    talk.hears("coach", "lane 2 all made it");
    talk.now = "2026-03-04T09:00:00Z".parse().unwrap();
    talk
}

#[test]
fn sets_are_asked_for() {
    let mut talk = next_day();
    let heard = talk.hears("coach", "what were the times last night");
    for one in ["heron 10x100", "teal 10x100", "wren 10x100", "robin 10x100"] {
        assert!(heard.text.contains(one), "{one}: {}", heard.text);
    }
}

#[test]
fn one_repeat_is_put_right_by_its_name_and_place() {
    let mut talk = next_day();
    let heard = talk.hears("coach", "heron's third was 97");
    assert!(heard.text.starts_with("heron 10x100"), "{}", heard.text);
    assert!(heard.text.contains("number 3 now 1:37 (was 1:34)"), "{}", heard.text);
    assert_eq!(times(&talk, "heron")[..4], [93.0, 93.0, 97.0, 94.0]);
    let undone = talk.hears("coach", "undo");
    assert!(undone.text.contains("heron 10x100"), "{}", undone.text);
    assert_eq!(times(&talk, "heron")[..4], [93.0, 93.0, 94.0, 94.0]);
    // The others stand.
    assert_eq!(times(&talk, "wren").len(), 10);
}

#[test]
fn undo_asks_first_where_it_is_more_than_one_thing() {
    let mut talk = next_day();
    let heard = talk.hears("coach", "undo");
    assert_eq!(heard.result["kind"], "question", "{}", heard.text);
    assert!(heard.text.contains("wren") && heard.text.contains("robin"), "{}", heard.text);
    assert_eq!(times(&talk, "wren").len(), 10);
    // Nothing is lost with a question that nobody answers.
    let other = talk.clone().hears("coach", "tonight");
    assert!(!other.text.contains("Undo"), "{}", other.text);
    let mut all = talk.clone();
    all.hears("coach", "yes");
    assert!(times(&all, "wren").is_empty() && times(&all, "robin").is_empty());
    assert_eq!(times(&all, "heron").len(), 10);
    talk.hears("coach", "wren");
    assert!(times(&talk, "wren").is_empty());
    assert_eq!(times(&talk, "robin").len(), 10);
}

#[test]
fn one_swimmers_are_taken_back_by_name() {
    let mut talk = next_day();
    let heard = talk.hears("coach", "undo robin");
    assert_eq!(heard.result["kind"], "ok", "{}", heard.text);
    assert!(times(&talk, "robin").is_empty());
    // What is not of the last text is asked about.
    let asked = talk.hears("coach", "scratch heron's set from last night");
    assert_eq!(asked.result["kind"], "question", "{}", asked.text);
    assert!(asked.text.contains("heron 10x100"), "{}", asked.text);
    talk.hears("coach", "yes");
    assert!(times(&talk, "heron").is_empty());
    assert_eq!(times(&talk, "teal").len(), 10);
}
