//! Taking the register.

use jiff::Timestamp;
use jiff::civil::{Date, date};
use lapwing::history::Squad;

use crate::{at, in_a_room, tuesday};

const TUESDAY: Date = date(2026, 3, 3);

fn here(squad: &Squad, on: Date, now: Timestamp) -> Vec<String> {
    squad.here_on(on, now).map(|swimmer| swimmer.name.to_string()).collect()
}

#[test]
fn those_named_are_here() {
    let mut talk = tuesday();
    let heard = talk.hears("coach", "here heron teal");
    assert_eq!(heard.result["kind"], "ok");
    assert_eq!(heard.result["here"], 2);
    assert_eq!(heard.result["unmarked"], 1);
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["heron", "teal"]);
}

#[test]
fn the_last_word_holds_and_an_earlier_instant_sees_its_own() {
    let mut talk = tuesday();
    talk.hears("coach", "all here");
    let then = talk.now;
    talk.hears("coach", "absent wren");
    assert_eq!(here(&talk.squad, TUESDAY, then), ["heron", "teal", "wren"]);
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["heron", "teal"]);
    talk.hears("coach", "here wren");
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["heron", "teal", "wren"]);
}

#[test]
fn undo_takes_back_a_whole_register() {
    let mut talk = tuesday();
    talk.hears("coach", "here heron");
    talk.hears("coach", "all here bar heron");
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["teal", "wren"]);
    // Of several it is asked first.
    assert_eq!(talk.hears("coach", "undo").result["kind"], "question");
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["teal", "wren"]);
    talk.hears("coach", "yes");
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["heron"]);
}

#[test]
fn one_who_is_not_known_waits_and_the_rest_is_stored() {
    let mut talk = tuesday();
    let heard = talk.hears("coach", "here heron tael wern");
    let kinds = heard.result["results"].as_array().unwrap();
    assert_eq!((&kinds[0]["kind"], &kinds[1]["kind"]), (&"ok".into(), &"question".into()));
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["heron"]);
    // Once one is settled the next is asked about.
    let heard = talk.hears("coach", "teal");
    assert_eq!(heard.result["results"][1]["options"][0], "wren");
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["heron", "teal"]);
    assert_eq!(talk.hears("coach", "wren").result["kind"], "ok");
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["heron", "teal", "wren"]);
}

#[test]
fn no_to_one_leaves_the_next_to_be_asked_about() {
    let mut talk = tuesday();
    talk.hears("coach", "here heron tael wern");
    let heard = talk.hears("coach", "no");
    assert_eq!(heard.result["results"][1]["options"][0], "wren");
    talk.hears("coach", "no");
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["heron"]);
}

#[test]
fn who_may_be_meant_by_an_exception_is_not_marked_here() {
    let mut talk = tuesday();
    // Heron or wren.
    talk.hears("coach", "all here bar wern");
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["teal"]);
    let heard = talk.hears("coach", "wren");
    assert_eq!((&heard.result["here"], &heard.result["absent"]), (&2.into(), &1.into()));
}

#[test]
fn only_the_coach_takes_it() {
    let mut talk = tuesday();
    for text in ["here", "here teal", "all here", "absent teal"] {
        let heard = talk.hears("heron", text);
        assert_eq!(heard.result["kind"], "refused", "{text}");
        assert!(heard.events.is_empty(), "{text}");
    }
}

#[test]
fn until_four_in_the_morning_it_is_the_evening_before() {
    let mut talk = tuesday();
    for (instant, on) in [
        ("2026-03-03T23:58:00Z", "2026-03-03"),
        ("2026-03-04T00:20:00Z", "2026-03-03"),
        ("2026-03-04T03:58:00Z", "2026-03-03"),
        ("2026-03-04T04:00:00Z", "2026-03-04"),
    ] {
        at(&mut talk, instant);
        assert_eq!(talk.hears("coach", "here heron").result["on"], on, "{instant}");
    }
}

#[test]
fn all_leaves_out_who_is_away_or_ill() {
    let mut talk = tuesday();
    talk.hears("wren", "away until 20 mar");
    talk.hears("teal", "ill");
    talk.hears("coach", "all here");
    assert_eq!(here(&talk.squad, TUESDAY, talk.now), ["heron"]);
}

#[test]
fn whoever_is_stopped_is_named_to_the_coach_alone() {
    let mut talk = tuesday();
    talk.hears("teal", "i fainted");
    let private = talk.hears("coach", "here heron teal").text;
    assert!(private.starts_with("teal is stopped"), "{private}");
    assert_eq!(in_a_room(&talk, "here heron teal"), (String::new(), private));
}

#[test]
fn a_room_hears_nothing_of_the_register() {
    let talk = tuesday();
    for text in ["all here bar wren", "here", "here teel", "absent wren"] {
        let (aloud, alone) = in_a_room(&talk, text);
        assert_eq!(aloud, "", "{text}");
        assert!(alone.contains("wren") || alone.contains("TEAL"), "{text}: {alone}");
    }
}

#[test]
fn whoever_was_seen_is_not_silent() {
    let mut talk = tuesday();
    at(&mut talk, "2026-03-12T20:00:00Z");
    talk.hears("coach", "here heron");
    at(&mut talk, "2026-03-15T20:00:00Z");
    let squad = talk.hears("coach", "squad silent").result;
    let silent: Vec<&str> = squad["swimmers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| row["swimmer"].as_str().unwrap())
        .collect();
    assert_eq!(silent, ["teal", "wren"]);
}
