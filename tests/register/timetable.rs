//! The squad's evenings.

use jiff::ToSpan;
use jiff::civil::{Date, date, time};
use lapwing::history::Event;
use lapwing::units::Course;

use crate::squad::Talk;
use crate::{at, put_in_force, tuesday};

const TUESDAY: Date = date(2026, 3, 3);
const THURSDAY: Date = date(2026, 3, 5);

/// Tuesdays and Thursdays, told at noon on a Tuesday.
fn twice_a_week() -> Talk {
    let mut talk = tuesday();
    at(&mut talk, "2026-03-03T12:00:00Z");
    let heard = talk.hears("coach", "slot tue thu 2000-2100 4 lanes");
    assert_eq!(heard.text, "Every Tue 20:00-21:00, 4 lanes.\nEvery Thu 20:00-21:00, 4 lanes.");
    talk
}

#[test]
fn a_slot_is_a_night_of_every_week_from_now_on() {
    let talk = twice_a_week();
    let night = talk.squad.night(THURSDAY, talk.now).unwrap();
    assert_eq!(night.starts, Some(time(20, 0, 0, 0)));
    assert_eq!((night.minutes, night.lanes, night.course), (60, Some(4), Course::Short25m));
    for (day, is) in [
        (TUESDAY, true),
        (date(2026, 3, 4), false),
        (date(2026, 6, 2), true),
        // It held no night before it was said.
        (date(2026, 2, 26), false),
    ] {
        assert_eq!(talk.squad.night(day, talk.now).is_some(), is, "{day}");
    }
}

#[test]
fn a_night_is_changed_for_once() {
    let mut talk = twice_a_week();
    assert_eq!(talk.hears("coach", "only 3 lanes tonight").text, "Tue 3 Mar 20:00-21:00, 3 lanes.");
    let heard = talk.hears("coach", "thu at 50m");
    assert_eq!(heard.text, "Thu 5 Mar 20:00-21:00, 4 lanes, 50 m pool.");
    let (now, squad) = (talk.now, &talk.squad);
    assert_eq!(squad.night(TUESDAY, now).unwrap().lanes, Some(3));
    assert_eq!(squad.night(THURSDAY, now).unwrap().course, Course::Long50m);
    assert_eq!(squad.night(date(2026, 3, 10), now).unwrap().lanes, Some(4));
    let shown = talk.hears("heron", "slot").text;
    assert!(shown.ends_with("Thu 5 Mar 20:00-21:00, 4 lanes, 50 m pool."), "{shown}");
}

#[test]
fn a_night_of_its_own_and_a_shut_one() {
    let mut talk = twice_a_week();
    talk.hears("coach", "slot 6 mar 1900-2000");
    assert!(talk.squad.night(date(2026, 3, 6), talk.now).is_some());
    let heard = talk.hears("coach", "pool shut thu");
    assert_eq!(heard.text, "Thu 5 Mar: pool shut. Next night: Fri 6 Mar 19:00-20:00.");
    assert_eq!(talk.squad.night(THURSDAY, talk.now), None);
    assert!(talk.squad.night(date(2026, 3, 12), talk.now).is_some());
    talk.hears("coach", "undo");
    assert!(talk.squad.night(THURSDAY, talk.now).is_some());
}

#[test]
fn there_is_nothing_to_change_where_there_is_no_night() {
    let mut talk = twice_a_week();
    let heard = talk.hears("coach", "only 3 lanes tomorrow");
    assert_eq!(heard.result["rule"], "no_night");
    assert!(heard.events.is_empty());
}

#[test]
fn a_swimmer_sees_it_and_does_not_change_it() {
    let mut talk = twice_a_week();
    for text in ["slot mon 2000-2100", "pool shut thu", "only 2 lanes tonight"] {
        assert_eq!(talk.hears("heron", text).result["kind"], "refused", "{text}");
    }
}

#[test]
fn an_earlier_instant_sees_its_own_timetable() {
    let mut talk = twice_a_week();
    let then = talk.now;
    talk.hears("coach", "pool shut thu");
    assert!(talk.squad.night(THURSDAY, then).is_some());
    assert!(talk.squad.night(THURSDAY, talk.now).is_none());
}

#[test]
fn coming_is_to_the_night_ahead() {
    let mut talk = twice_a_week();
    assert_eq!(talk.hears("heron", "in").text, "In on Tue 3 Mar.");
    at(&mut talk, "2026-03-03T21:30:00Z");
    assert_eq!(talk.hears("heron", "in").text, "In on Thu 5 Mar.");
    at(&mut talk, "2026-03-04T12:00:00Z");
    talk.hears("coach", "pool shut thu");
    assert_eq!(talk.hears("heron", "in").text, "In on Tue 10 Mar.");
}

#[test]
fn a_result_after_midnight_is_of_the_night_just_over() {
    let mut talk = twice_a_week();
    at(&mut talk, "2026-03-04T00:20:00Z");
    talk.hears("heron", "200 test 3:12");
    at(&mut talk, "2026-03-05T00:20:00Z");
    talk.hears("heron", "done 1500 45min");
    let heron = talk.squad.swimmers.get(&lapwing::message::Name::new("heron").unwrap()).unwrap();
    assert_eq!(heron.tests.as_of(talk.now).last().unwrap().on, TUESDAY);
    // No night on a Wednesday.
    assert_eq!(heron.swims.as_of(talk.now).last().unwrap().on, THURSDAY);
}

#[test]
fn plans_know_the_nights() {
    let mut talk = twice_a_week();
    talk.hears("coach", "slot tue thu 2000-2045");
    talk.hears("heron", "200 test 3:12");
    at(&mut talk, "2026-03-04T12:00:00Z");
    let plan = talk.hears("heron", "plan").result;
    let sessions = plan["weeks"][0]["sessions"].as_array().unwrap();
    let days: Vec<&str> = sessions.iter().map(|one| one["on"].as_str().unwrap()).collect();
    assert_eq!(days, ["2026-03-05", "2026-03-10"]);
    assert!(sessions.iter().all(|one| one["duration_s"].as_u64().unwrap() <= 45 * 60));
    // Their own days come before the squad's.
    talk.hears("heron", "days mon sat");
    let plan = talk.hears("heron", "plan").result;
    let sessions = plan["weeks"][0]["sessions"].as_array().unwrap();
    let days: Vec<&str> = sessions.iter().map(|one| one["on"].as_str().unwrap()).collect();
    assert_eq!(days, ["2026-03-07", "2026-03-09"]);
}

#[test]
fn a_shut_night_is_in_no_plan() {
    let mut talk = twice_a_week();
    at(&mut talk, "2026-03-04T12:00:00Z");
    talk.hears("heron", "plan");
    let heard = talk.hears("coach", "pool shut thu");
    assert!(heard.text.contains("1 plan leaves the day out"), "{}", heard.text);
    assert_eq!(talk.hears("heron", "next").result["on"], "2026-03-10");
    let plan = talk.hears("heron", "plan").result;
    let sessions = plan["weeks"][0]["sessions"].as_array().unwrap();
    let days: Vec<&str> = sessions.iter().map(|one| one["on"].as_str().unwrap()).collect();
    assert_eq!(days, ["2026-03-10"]);
}

/// Puts a hard set in force on a night.
fn put_hard_set(talk: &mut Talk, on: Date) {
    let mut probe = Talk::of_grown_ups();
    probe.now = talk.now;
    probe.hears("heron", "200 test 3:12");
    let session = (0..20)
        .find_map(|_| {
            probe.now = probe.now.checked_add(48.hours()).unwrap();
            let heard = probe.hears("heron", "harder");
            heard.events.into_iter().find_map(|event| match event {
                Event::SessionSuggested { session, .. } if lapwing::coaching::is_hard(&session) => {
                    Some(session)
                }
                _ => None,
            })
        })
        .expect("a hard session");
    put_in_force(talk, lapwing::session::Session { on, ..session });
}

#[test]
fn the_hard_set_of_a_shut_night_moves_or_is_left_out() {
    let mut talk = twice_a_week();
    put_hard_set(&mut talk, THURSDAY);
    let heard = talk.hears("coach", "pool shut thu");
    assert!(heard.text.contains("Its hard set moves to Tue 10 Mar."), "{}", heard.text);
    let next = date(2026, 3, 10);
    assert!(talk.squad.set_in_force(next, talk.now).is_some());
    // The night and its set are two things: asked about first.
    let asked = talk.hears("coach", "undo");
    assert_eq!(asked.result["kind"], "question", "{}", asked.text);
    talk.hears("coach", "yes");
    assert!(talk.squad.set_in_force(next, talk.now).is_none());
    // The next night has its own.
    put_hard_set(&mut talk, next);
    let heard = talk.hears("coach", "pool shut thu");
    assert!(heard.text.contains("Its hard set is left out"), "{}", heard.text);
    talk.hears("coach", "undo");
    // A hard one on the day beside the next night.
    talk.hears("coach", "slot 6 mar 1900-2000");
    talk.hears("coach", "slot 7 mar 1900-2000");
    put_hard_set(&mut talk, date(2026, 3, 7));
    let heard = talk.hears("coach", "pool shut thu");
    assert!(heard.text.contains("Its hard set is left out"), "{}", heard.text);
}

#[test]
fn what_she_swims_alone_keeps_its_distance_from_a_hard_night() {
    let mut talk = twice_a_week();
    talk.hears("heron", "200 test 3:12");
    talk.hears("heron", "days wed fri");
    put_hard_set(&mut talk, THURSDAY);
    let plan = talk.hears("heron", "plan").result;
    let sessions = plan["weeks"][0]["sessions"].as_array().unwrap();
    let hard = |session: &serde_json::Value| {
        ["3", "4", "5"].iter().any(|level| session["level_share"][level].as_f64() > Some(0.0))
    };
    assert_eq!(sessions.len(), 2);
    assert!(sessions.iter().all(|session| !hard(session)), "Wed and Fri beside a hard Thu");
}
