//! What a coach tells of the set in force, and what each swimmer then hears: what they
//! would have heard from texting it themselves.

use crate::squad::{CODE, Heard, Talk};

/// Four in two lanes, an hour into ten hundreds at threshold.
pub fn at_the_end() -> Talk {
    let mut talk = Talk::opened(true, false);
    for bird in ["heron", "teal", "wren", "robin"] {
        talk.hears(bird, &format!("join {CODE} {bird}"));
    }
    talk.hears("coach", "400s heron 5:40 teal 5:52 wren 7:50 robin 8:04");
    talk.hears("coach", "slot tue 2000-2100 2 lanes");
    talk.hears("coach", "set tue 200 easy, 10x100 threshold, 100 easy");
    talk.now = "2026-03-03T19:56:00Z".parse().unwrap();
    talk.hears("coach", "all here");
    talk.hears("coach", "lanes 2");
    talk.now = "2026-03-03T20:50:00Z".parse().unwrap();
    talk
}

/// To whom, without the line that says where it comes from.
fn advice(heard: &Heard) -> Vec<(String, String)> {
    let one = |(to, text): &(String, String)| {
        let (_, rest) = text.split_once('\n').unwrap();
        (to.clone(), rest.to_owned())
    };
    heard.to_others.iter().map(one).collect()
}

#[test]
fn each_hears_what_they_would_have_heard_themselves() {
    let told = "1:40 1:40 1:42 1:43 1:43 1:44 1:44 1:45 1:46 1:47";
    let mut talk = at_the_end();
    let own = talk.clone().hears("heron", &format!("10x100 held {told}")).text;
    let heard = talk.hears("coach", &format!("heron {told}, teal 96 96 97 97 96 97 96 97 97 97"));
    let letters = advice(&heard);
    assert_eq!(letters.len(), 2, "{:?}", heard.to_others);
    assert_eq!(letters[0], ("+15550101".to_owned(), own));
    assert_eq!(letters[1].0, "+15550102");
    // And once an evening.
    let again = talk.hears("coach", "heron 99 99 99 99 99 99 99 99 99 99");
    assert!(again.to_others.is_empty(), "{:?}", again.to_others);
}

#[test]
fn the_coach_hears_of_each_lane() {
    let mut talk = at_the_end();
    let heard = talk.hears("coach", "lane 1 all made it, wren did 7, robin did 10");
    let lines: Vec<&str> = heard.text.lines().collect();
    assert!(lines[0].starts_with("L1 10x100 on "), "{}", heard.text);
    assert!(lines[0].contains("heron, teal held 10 of 10"), "{}", heard.text);
    assert!(lines[1].starts_with("L2 10x100 on "), "{}", heard.text);
    assert!(lines[1].contains("wren held 7 of 10; robin held 10 of 10"), "{}", heard.text);
    assert_eq!(heard.to_others.len(), 4);
}

/// All of a lane is all that the lane swam, whatever others did.
#[test]
fn a_lane_that_was_cut_made_what_it_swam() {
    let mut talk = at_the_end();
    talk.now = "2026-03-03T20:10:00Z".parse().unwrap();
    talk.hears("coach", "L2 make it 6");
    talk.now = "2026-03-03T20:50:00Z".parse().unwrap();
    let heard = talk.hears("coach", "lane 2 all made it");
    assert!(heard.text.starts_with("L2 6x100 on "), "{}", heard.text);
    assert!(heard.text.contains("wren, robin held 6 of 6"), "{}", heard.text);
}

/// The same repeats told again are told better, and no second set.
#[test]
fn what_is_told_again_is_put_right() {
    let mut talk = at_the_end();
    talk.hears("coach", "lane 1 all made it");
    let heard = talk.hears("coach", "heron 93 93 93 93 94 94 94 95 95 95");
    let sets = |talk: &Talk| {
        let heron = talk.squad.swimmers.values().find(|one| one.name.as_str() == "heron");
        heron.unwrap().sets.as_of(talk.now).map(|kept| kept.what.times.clone()).collect::<Vec<_>>()
    };
    assert_eq!(heard.result["kind"], "set", "{}", heard.text);
    let kept = sets(&talk);
    assert_eq!(kept.len(), 1);
    assert_eq!(kept[0][9].unwrap().seconds(), 95.0);
    talk.hears("coach", "undo");
    assert_eq!(sets(&talk).len(), 1);
    assert!(sets(&talk)[0].iter().all(|time| *time == sets(&talk)[0][0]), "made it, again");
}

/// Asked about as a test is: faster than they swim once, or far behind the others.
#[test]
fn repeats_unlike_her_are_asked_about() {
    for doubtful in [
        "heron 94 94 66 94 94 94 94 94 94 94",
        "heron 94 94 94 94 94 194 94 94 94 94",
        "robin 1:30 1:30 1:31 1:31 1:32 1:30 1:31 1:31 1:31 1:31",
    ] {
        let mut talk = at_the_end();
        let heard = talk.hears("coach", doubtful);
        assert_eq!(heard.result["kind"], "question", "{doubtful}: {}", heard.text);
        assert!(heard.to_others.is_empty());
        let sure = talk.hears("coach", "yes");
        assert_eq!(sure.result["kind"], "set", "{}", sure.text);
    }
    // Who tires is believed.
    let mut talk = at_the_end();
    let heard = talk.hears("coach", "heron 1:33 1:34 1:36 1:38 1:40 1:42 1:44 1:46 1:48 1:50");
    assert_eq!(heard.result["kind"], "set", "{}", heard.text);
}
