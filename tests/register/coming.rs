//! Who says they come.

use serde_json::json;

use crate::{at, in_a_room, tuesday};

#[test]
fn a_swimmer_is_answered_in_one_line() {
    let mut talk = tuesday();
    for (text, answer) in [
        ("in", "In on Tue 3 Mar."),
        ("out", "Out on Tue 3 Mar."),
        ("10 late", "In on Tue 3 Mar, 10 min late."),
        ("in thu", "In on Thu 5 Mar."),
        ("cant make it thu", "Out on Thu 5 Mar."),
    ] {
        let heard = talk.hears("heron", text);
        assert_eq!((heard.text.as_str(), heard.result["kind"].as_str()), (answer, Some("ok")));
    }
}

#[test]
fn the_coach_sees_the_count() {
    let mut talk = tuesday();
    talk.hears("heron", "in");
    talk.hears("teal", "10 late");
    talk.hears("coach", "wren out");
    let heard = talk.hears("coach", "who is in");
    assert_eq!(heard.text, "Tue 3 Mar: 2 in (1 late), 1 out.\nIn: heron, teal (+10).\nOut: wren.");
    assert_eq!(heard.result["kind"], "squad");
    assert_eq!(
        heard.result["night"],
        json!({ "on": "2026-03-03", "in": 2, "late": 1, "out": 1, "unsaid": 0 })
    );
    assert_eq!(in_a_room(&talk, "squad tonight"), (String::new(), heard.text));
    assert_eq!(talk.hears("heron", "who is in").result["kind"], "refused");
}

#[test]
fn the_last_word_holds_as_of_the_instant() {
    let mut talk = tuesday();
    talk.hears("heron", "in");
    let then = talk.now;
    talk.hears("heron", "out");
    let day = talk.squad.local_day(then);
    let coming = |now| talk.squad.turnout(day, now).coming.len();
    assert_eq!((coming(then), coming(talk.now)), (1, 0));
}

#[test]
fn undo_takes_a_word_back() {
    let mut talk = tuesday();
    talk.hears("heron", "out");
    talk.hears("heron", "undo");
    let day = talk.squad.local_day(talk.now);
    assert_eq!(talk.squad.turnout(day, talk.now).unsaid.len(), 3);
}

#[test]
fn only_those_to_be_expected_are_looked_for() {
    let mut talk = tuesday();
    talk.hears("heron", "out");
    talk.hears("teal", "ill");
    let heard = talk.hears("coach", "all here");
    assert_eq!((&heard.result["here"], &heard.result["unmarked"]), (&1.into(), &0.into()));
    // Whoever says they come is looked for all the same.
    talk.hears("teal", "in");
    assert_eq!(talk.hears("coach", "here").result["unmarked"], 1);
}

#[test]
fn whoever_is_stopped_is_told_so_and_not_counted() {
    let mut talk = tuesday();
    talk.hears("heron", "i fainted");
    assert_eq!(talk.hears("heron", "in").kind(), "stop");
    assert_eq!(talk.hears("heron", "out").result["kind"], "ok");
    let day = talk.squad.local_day(talk.now);
    assert!(talk.squad.turnout(day, talk.now).coming.is_empty());
}

#[test]
fn a_night_that_is_over_is_not_stored() {
    let mut talk = tuesday();
    let heard = talk.hears("heron", "in 2026-03-01");
    assert_eq!(heard.result["kind"], "refused");
    assert!(heard.events.is_empty());
}

#[test]
fn nobody_speaks_for_another_but_the_coach() {
    let mut talk = tuesday();
    assert_eq!(talk.hears("heron", "teal out").result["kind"], "refused");
}

#[test]
fn a_word_that_they_come_is_heard_from_them() {
    let mut talk = tuesday();
    at(&mut talk, "2026-03-13T12:00:00Z");
    talk.hears("heron", "in");
    assert_eq!(talk.hears("coach", "squad silent").result["swimmers"][0]["swimmer"], "teal");
}
