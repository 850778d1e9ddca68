//! Whose words reach those on deck, and after what.

use super::minors::{GUARDIAN, looked_after};
use super::squad::{COACH, Talk};

const WISH: &str = "could we have a longer warm up next week";

/// What the coach is told after a wish and a yes.
fn told(talk: &mut Talk, who: &str) -> Option<String> {
    talk.hears(who, WISH);
    let heard = talk.hears(who, "yes");
    heard.to_others.into_iter().find(|(to, _)| to == COACH).map(|(_, words)| words)
}

#[test]
fn a_wish_goes_to_the_coach_after_a_yes() {
    let mut talk = Talk::of_grown_ups();
    let offered = talk.hears("heron", WISH);
    assert_eq!(offered.result["kind"], "question", "{}", offered.text);
    assert!(offered.to_others.is_empty() && offered.text.contains("YES or NO"), "{}", offered.text);
    let told = talk.hears("heron", "yes").to_others;
    assert_eq!(told, [(COACH.to_owned(), format!("heron asks: {WISH}"))]);
    assert!(talk.hears("heron", "yes").to_others.is_empty(), "once");
}

#[test]
fn a_no_ends_it_and_a_repeat_is_asked_once() {
    let mut talk = Talk::of_grown_ups();
    let first = talk.hears("heron", WISH).text;
    assert_eq!(talk.hears("heron", WISH).text, first);
    assert!(talk.hears("heron", "no").to_others.is_empty());
    assert!(talk.hears("heron", "yes").to_others.is_empty());
}

/// An offer takes no yes that was meant for a result.
#[test]
fn an_open_question_keeps_its_yes() {
    let mut talk = Talk::of_grown_ups();
    assert_eq!(talk.hears("heron", "200 test 1:20").result["kind"], "question");
    assert_eq!(talk.hears("heron", WISH).result["kind"], "ok");
    assert!(talk.hears("heron", "yes").to_others.is_empty());
    assert!(!talk.hears("heron", "200 test 3:12").text.contains("know"), "nothing was lost");
}

#[test]
fn a_childs_words_reach_nobody() {
    for child in ["heron", "robin"] {
        for text in [WISH, "tell coach the pool is cold", "yes"] {
            let mut talk = looked_after();
            let heard = talk.hears(child, text);
            assert_ne!(heard.result["kind"], "question", "{child}: {}", heard.text);
            assert!(heard.to_others.is_empty(), "{child}, {text}: {:?}", heard.to_others);
        }
    }
}

#[test]
fn a_guardian_asks_for_herself() {
    let mut talk = looked_after();
    let words = told(&mut talk, GUARDIAN).unwrap();
    assert!(words.starts_with("The guardian of ") && words.ends_with(WISH), "{words}");
}

#[test]
fn nobody_is_written_to_who_wants_no_texts() {
    let mut talk = Talk::of_grown_ups();
    talk.hears("coach", "stop");
    for text in [WISH, "tell coach the pool is cold"] {
        let heard = talk.hears("heron", text);
        assert!(heard.to_others.is_empty(), "{text}: {:?}", heard.to_others);
        assert!(heard.text.contains("takes no texts"), "{text}: {}", heard.text);
    }
    let mut talk = Talk::of_grown_ups();
    talk.hears("heron", WISH);
    talk.hears("heron", "stop");
    assert!(talk.hears("heron", "tell coach the pool is cold").to_others.is_empty());
}

#[test]
fn health_has_a_way_of_its_own() {
    for text in [
        "tell coach my shoulder hurts",
        "tell coach ive got a stinking cold",
        "tell coach im pregnant",
        "hows my sister know if its asthma or shes just unfit",
        "resting hr is up a bit, do i skip the hard set",
    ] {
        let mut talk = Talk::of_grown_ups();
        let heard = talk.hears("teal", text);
        let carried = |words: &String| words.contains("teal says");
        assert!(!heard.to_others.iter().any(|(_, words)| carried(words)), "{:?}", heard.to_others);
        assert!(!heard.text.contains("Pass it on"), "{text}: {}", heard.text);
    }
}

#[test]
fn others_words_go_to_nobody_else() {
    let mut talk = Talk::of_grown_ups();
    for text in ["tell all: pool shut", "tell teal: cap on"] {
        let heard = talk.hears("heron", text);
        assert_eq!(heard.result["kind"], "refused", "{text}");
        assert!(heard.to_others.is_empty());
    }
    let heard = talk.hears("heron", "tell coach the pool is cold");
    assert_eq!(heard.to_others, [(COACH.to_owned(), "heron says: the pool is cold".to_owned())]);
}

#[test]
fn what_is_carried_is_short_and_in_the_sms_alphabet() {
    let mut talk = Talk::of_grown_ups();
    let long = format!("tell coach the pool is cold{}", " and dark \u{1f976}".repeat(40));
    let heard = talk.hears("heron", &long);
    for (_, words) in &heard.to_others {
        assert!(words.chars().count() <= 320, "{}", words.len());
        assert_eq!(lapwing::reply::alphabet(words), lapwing::reply::Alphabet::Gsm7, "{words}");
    }
}
