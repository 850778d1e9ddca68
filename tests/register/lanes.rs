//! Drawing lanes by text.

use jiff::civil::{Date, date};
use lapwing::history::{Event, Stamped};
use lapwing::message::Name;
use lapwing::units::Lane;
use proptest::prelude::*;
use serde_json::json;

use crate::squad::{Heard, Talk};

const TUESDAY: Date = date(2026, 3, 3);

/// A squad on a Tuesday at eight, each with a 400 in so many seconds; nought
/// for none.
fn tuesday(swimmers: &[(&str, u32)]) -> Talk {
    let mut talk = Talk::opened(true, false);
    talk.now = "2026-03-03T19:00:00Z".parse().unwrap();
    for (at, (handle, seconds)) in swimmers.iter().enumerate() {
        joins(&mut talk, handle, at);
        if *seconds > 0 {
            let (minutes, seconds) = (seconds / 60, seconds % 60);
            let heard = talk.hears("coach", &format!("{handle} 400 test {minutes}:{seconds:02}"));
            assert_eq!(heard.result["kind"], "test", "{}", heard.text);
        }
    }
    talk
}

fn joins(talk: &mut Talk, handle: &str, at: usize) {
    let event =
        Event::Joined { address: format!("+15552{at:03}"), name: Name::new(handle).unwrap() };
    let cause = talk.squad.next_cause;
    talk.squad.apply(&Stamped { cause, at: talk.now, by: format!("+15552{at:03}"), event });
}

const FIVE: [(&str, u32); 5] =
    [("heron", 400), ("teal", 390), ("wren", 480), ("siskin", 490), ("robin", 0)];

/// The lanes in one line: `teal heron | wren siskin robin`.
fn shown(heard: &Heard) -> String {
    assert_eq!(heard.result["kind"], "lanes", "{}", heard.text);
    let lanes = heard.result["lanes"].as_array().unwrap().iter().map(|lane| {
        let names = lane["swimmers"].as_array().unwrap().iter().map(|one| one.as_str().unwrap());
        names.collect::<Vec<_>>().join(" ")
    });
    lanes.collect::<Vec<_>>().join(" | ")
}

#[test]
fn by_pace_with_the_untested_last() {
    let mut talk = tuesday(&FIVE);
    let heard = talk.hears("coach", "lanes 2");
    assert_eq!(shown(&heard), "teal heron | wren siskin robin");
    let first = &heard.result["lanes"][0];
    assert_eq!(first["lane"], 1);
    // 6:40 at critical speed 94 % of it: 106.4 per 100; 97.5 % of that over 50
    // is 54.6, and with 10 s of rest 1:05.
    assert_eq!(first["send_offs"][0], json!({ "distance": 50, "send_off_s": 65 }));
    assert_eq!(first["send_offs"][1]["distance"], 100);
    assert!(heard.text.contains("robin?"), "{}", heard.text);
    let kept = talk.squad.evening_kept(TUESDAY, talk.now).unwrap();
    let lane = kept.lane_of(&Name::new("wren").unwrap()).map(|lane| lane.lane);
    assert_eq!(lane, Lane::new(2).ok());
}

/// The guess for a guest counts like a pace, and is marked.
#[test]
fn a_guest_goes_where_the_coach_guessed() {
    let mut talk = tuesday(&FIVE);
    let heard = talk.hears("coach", "add crake 2:05");
    assert_eq!(heard.result["kind"], "ok", "{}", heard.text);
    let heard = talk.hears("coach", "lanes 2");
    assert_eq!(shown(&heard), "teal heron | crake wren siskin robin");
    assert!(heard.text.contains("crake?, wren, siskin, robin?"), "{}", heard.text);
}

#[test]
fn how_many_is_asked_once_and_remembered() {
    let mut talk = tuesday(&FIVE);
    let heard = talk.hears("coach", "lanes");
    assert_eq!(heard.result["kind"], "refused");
    assert!(heard.text.contains("LANES 4"), "{}", heard.text);
    talk.hears("coach", "lanes 2");
    assert_eq!(shown(&talk.hears("coach", "lanes")), "teal heron | wren siskin robin");
    talk.now = "2026-03-10T19:00:00Z".parse().unwrap();
    assert_eq!(shown(&talk.hears("coach", "lanes")), "teal heron | wren siskin robin");
}

/// The timetable knows how many lanes the next night has, and which night it is.
#[test]
fn as_many_as_are_booked() {
    let mut talk = tuesday(&FIVE);
    assert_eq!(talk.hears("coach", "slot thu 2000-2100 2 lanes").result["kind"], "ok");
    let heard = talk.hears("coach", "lanes");
    assert_eq!(heard.result["on"], "2026-03-05");
    assert_eq!(shown(&heard), "teal heron | wren siskin robin");
    let heard = talk.hears("coach", "lanes 1 thu");
    assert_eq!(heard.result["kind"], "ok", "the timetable is changed: {}", heard.text);
    assert_eq!(heard.result["moved"].as_array().unwrap().len(), 3);
    let heard = talk.hears("coach", "lanes");
    assert_eq!(shown(&heard), "teal heron wren siskin robin");
    assert_eq!(heard.result["moved"], json!([]));
}

#[test]
fn only_whoever_runs_the_evening() {
    let mut talk = Talk::of_grown_ups();
    for text in ["lanes", "lanes 4", "heron lane 2", "teal any lane", "apart heron teal"] {
        let heard = talk.hears("heron", text);
        assert_eq!(heard.result["kind"], "refused", "{text}");
        assert!(heard.events.iter().all(|event| !matches!(event, Event::LanePinned { .. })));
    }
}

#[test]
fn the_register_says_who_is_there() {
    let mut talk = tuesday(&FIVE);
    talk.hears("coach", "here heron wren siskin robin");
    assert_eq!(shown(&talk.hears("coach", "lanes 2")), "heron | wren siskin robin");
    // One comes late: they join the lane of their pace, and nobody moves.
    talk.hears("coach", "here teal");
    let heard = talk.hears("coach", "lanes");
    assert_eq!(shown(&heard), "teal heron | wren siskin robin");
    assert_eq!(heard.result["moved"], json!([]));
    // A lane is lost.
    let heard = talk.hears("coach", "lanes 1");
    assert_eq!(heard.result["moved"].as_array().unwrap().len(), 3);
    assert!(heard.text.contains("to L1"), "{}", heard.text);
}

#[test]
fn those_who_said_they_are_away_or_are_absent_get_no_lane() {
    let mut talk = tuesday(&FIVE);
    talk.hears("coach", "wren away until 20/3");
    talk.hears("coach", "absent teal");
    assert_eq!(shown(&talk.hears("coach", "lanes 2")), "heron | siskin robin");
    talk.hears("coach", "absent heron siskin robin");
    assert_eq!(talk.hears("coach", "lanes").result["rule"], "nobody_there");
}

#[test]
fn whoever_says_she_comes_gets_a_lane_even_if_she_was_to_be_away() {
    let mut talk = tuesday(&FIVE);
    talk.hears("coach", "wren away until 20/3");
    talk.hears("coach", "wren in");
    talk.hears("coach", "siskin out");
    assert_eq!(shown(&talk.hears("coach", "lanes 2")), "teal heron | wren robin");
}

#[test]
fn a_stop_is_never_in_a_lane_and_pain_stays_in_hers() {
    let mut talk = tuesday(&FIVE);
    talk.hears("coach", "wren fainted");
    talk.hears("coach", "siskin shoulder hurts 4");
    talk.hears("coach", "all here");
    talk.hears("coach", "here wren");
    let heard = talk.hears("coach", "lanes 2");
    assert_eq!(shown(&heard), "teal heron | siskin robin");
    assert!(heard.text.starts_with("wren is stopped"), "{}", heard.text);
    assert!(heard.text.contains("easy for siskin"), "{}", heard.text);
    assert!(!heard.text.contains("shoulder"), "{}", heard.text);
    // In a room none of it is said aloud.
    let heard = talk.hears_in("coach", Some("squad"), "lanes 2");
    for word in ["wren", "siskin", "stopped", "easy"] {
        assert!(!heard.text.contains(word), "{}", heard.text);
    }
}

#[test]
fn pins_and_partings_hold_until_taken_back() {
    let mut talk = tuesday(&FIVE);
    talk.hears("coach", "heron lane 2");
    assert_eq!(shown(&talk.hears("coach", "lanes 2")), "teal | heron wren siskin robin");
    talk.hears("coach", "heron any lane");
    assert_eq!(shown(&talk.hears("coach", "lanes")), "teal heron | wren siskin robin");
    talk.hears("coach", "apart wren, siskin");
    let then = talk.now;
    let parted = shown(&talk.hears("coach", "lanes 3"));
    assert_eq!(parted, "teal heron | wren | siskin robin");
    // The lanes, then what was said before them.
    talk.hears("coach", "undo");
    assert_eq!(talk.squad.partings(talk.now).len(), 1);
    talk.hears("coach", "undo");
    assert_eq!(talk.squad.partings(talk.now), []);
    talk.hears("coach", "apart wren siskin");
    talk.hears("coach", "together siskin wren");
    assert_eq!(talk.squad.partings(talk.now), []);
    talk.hears("coach", "apart wren siskin teal");
    assert_eq!(talk.squad.partings(talk.now).len(), 3);
    assert_eq!(talk.squad.partings(then), []);
}

#[test]
fn what_gives_way_is_told() {
    let mut talk = tuesday(&FIVE);
    talk.hears("coach", "heron lane 3");
    talk.hears("coach", "apart teal wren");
    let heard = talk.hears("coach", "lanes 1");
    assert_eq!(shown(&heard), "teal heron wren siskin robin");
    let mut text = heard.text;
    while text.contains("MORE") {
        text = text.replace("Text MORE for the rest.", &talk.hears("coach", "more").text);
    }
    for told in ["No L3 tonight for heron", "Could not keep apart: teal and wren"] {
        assert!(text.contains(told), "{text}");
    }
}

#[test]
fn whoever_is_not_known_is_asked_about() {
    let mut talk = tuesday(&FIVE);
    let heard = talk.hears("coach", "apart heron siskn");
    assert_eq!(heard.result["kind"], "question", "{}", heard.text);
    talk.hears("coach", "siskin");
    assert_eq!(talk.squad.partings(talk.now).len(), 1);
    assert_eq!(talk.hears("coach", "herron lane 2").result["kind"], "question");
}

/// Lanes drawn again after the set was put: whoever moved hears of their new lane.
#[test]
fn the_set_goes_by_the_lanes_last_drawn() {
    let mut talk = tuesday(&FIVE);
    talk.hears("coach", "lanes 2");
    talk.hears("coach", "set 4x50 easy, 6x50 threshold on 1:40, 100 easy");
    let lane_of_heron = |talk: &Talk| {
        let heron = Name::new("heron").unwrap();
        let kept = talk.squad.set_in_force(TUESDAY, talk.now)?;
        kept.lane_of(&heron).map(|lane| lane.lane.number())
    };
    assert_eq!(lane_of_heron(&talk), Some(1));
    talk.hears("coach", "heron lane 2");
    talk.hears("coach", "lanes");
    assert_eq!(lane_of_heron(&talk), Some(2));
    let heard = talk.hears("coach", "heron my lane");
    assert!(heard.text.contains("L2"), "{}", heard.text);
}

/// Random squads: all of every lane get away a gap apart before its first leaves
/// again, and each has a rest, on every repeat that the answer names; nobody is lost,
/// nobody twice.
#[test]
fn every_lane_has_room() {
    let handles: Vec<String> = (0..24).map(|at| format!("bird{at:02}")).collect();
    let config = ProptestConfig { cases: 40, ..ProptestConfig::default() };
    let squads = (prop::collection::vec(300u32..700, 1..24), 1u8..=6);
    proptest!(config, |((seconds, lanes) in squads)| {
        let swimmers: Vec<(&str, u32)> =
            handles.iter().map(String::as_str).zip(seconds.iter().copied()).collect();
        let mut talk = tuesday(&swimmers);
        let heard = talk.hears("coach", &format!("lanes {lanes}"));
        let drawn = heard.result["lanes"].as_array().unwrap();
        prop_assert_eq!(drawn.len(), usize::from(lanes));
        let mut seen: Vec<&str> = Vec::new();
        for lane in drawn {
            let names: Vec<&str> =
                lane["swimmers"].as_array().unwrap().iter().map(|one| one.as_str().unwrap()).collect();
            let own = |name: &&str| swimmers.iter().find(|(handle, _)| handle == name).unwrap().1;
            let times: Vec<u32> = names.iter().map(own).collect();
            prop_assert!(times.is_sorted(), "fastest first: {:?}", times);
            let (Some(slowest), turn) = (times.last(), 5 * names.len()) else {
                prop_assert_eq!(&lane["send_offs"], &json!([]));
                continue;
            };
            for one in lane["send_offs"].as_array().unwrap() {
                // At 94 % of the 400's speed and 97.5 % of that, to the hundredth.
                let share = one["distance"].as_f64().unwrap() / 400.0;
                let swum = f64::from(*slowest) * share / (0.94 * 0.975);
                let send_off = one["send_off_s"].as_f64().unwrap();
                prop_assert!(swum < send_off + 0.5, "{swum} on {send_off}: {lane}");
                prop_assert!(turn as f64 <= send_off, "{turn} on {send_off}: {lane}");
            }
            seen.extend(names);
        }
        seen.sort_unstable();
        prop_assert_eq!(seen, swimmers.iter().map(|(name, _)| *name).collect::<Vec<_>>());
    });
}
