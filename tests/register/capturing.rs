//! Several results in one text, one of them in doubt.

use serde_json::Value;

use crate::squad::{CODE, Talk};

fn evening() -> Talk {
    let mut talk = Talk::of_grown_ups();
    talk.hears("wren", &format!("join {CODE} wren"));
    talk.hears("robin", &format!("join {CODE} robin"));
    talk.now = "2026-03-03T20:10:00Z".parse().unwrap();
    talk
}

fn stored(talk: &Talk, who: &str) -> (usize, usize) {
    let swimmer = talk.squad.swimmers.values().find(|one| one.name.as_str() == who).unwrap();
    (swimmer.tests.len(), swimmer.sets.len())
}

#[test]
fn of_a_list_with_one_wrong_count_only_that_one_waits() {
    let mut talk = evening();
    talk.hears("coach", "200 test heron 3:12 teal 3:05 wren 3:33");
    let heard = talk.hears("coach", "6x50 heron 48 49 49 50 51 51 teal 47 47");
    assert_eq!(stored(&talk, "heron"), (1, 1), "{}", heard.text);
    assert_eq!(stored(&talk, "teal"), (1, 0), "{}", heard.text);
    assert!(heard.text.contains("teal"), "{}", heard.text);
    assert_eq!(heard.result["results"][1]["kind"], "question", "{}", heard.result);
    // The right count, by their name alone or whole, settles it.
    let heard = talk.hears("coach", "teal 6x50 47 47 47 48 48 48");
    assert_eq!(stored(&talk, "teal"), (1, 1), "{}", heard.text);
}

#[test]
fn a_name_like_another_is_asked_about_and_yes_takes_the_one_suggested() {
    let mut talk = evening();
    let heard = talk.hears("coach", "200 test robbin 4:40");
    assert_eq!(heard.result["kind"], "question", "{}", heard.text);
    assert_eq!(heard.result["options"][0], "robin", "{}", heard.result);
    assert_eq!(talk.hears("coach", "yes").result["kind"], "test");
    assert_eq!(stored(&talk, "robin"), (1, 0));
}

#[test]
fn in_a_list_only_the_unknown_one_waits() {
    let mut talk = evening();
    let heard = talk.hears("coach", "200 test heron 3:12 robbin 4:40 wren 3:33");
    assert_eq!(stored(&talk, "heron"), (1, 0), "{}", heard.text);
    assert_eq!(stored(&talk, "wren"), (1, 0));
    let asked = &heard.result["results"][1];
    assert_eq!(asked["kind"], "question", "{}", heard.text);
    assert_eq!(asked["options"], Value::from(vec!["robin"]));
    let heard = talk.hears("coach", "y");
    assert_eq!(stored(&talk, "robin"), (1, 0), "{}", heard.text);
}

#[test]
fn a_y_or_an_ok_agrees_but_not_to_be_forgotten() {
    for word in ["y", "ok", "yep", "yes"] {
        let mut talk = evening();
        talk.hears("heron", "200 test 3:12");
        assert_eq!(talk.hears("heron", "200 test 2:11").result["kind"], "question");
        assert_eq!(talk.hears("heron", word).result["kind"], "test", "{word}");
        talk.hears("heron", "forget me");
        let heard = talk.hears("heron", word);
        let forgotten = heard.events.iter().any(|event| format!("{event:?}").contains("Forgotten"));
        assert_eq!(forgotten, word == "yes", "{word}: {}", heard.text);
    }
}

#[test]
fn what_comes_after_midnight_is_of_the_night_just_over() {
    let mut talk = evening();
    talk.hears("coach", "slot tue thu 20:00-21:00 4 lanes");
    talk.hears("heron", "200 test 3:12");
    talk.now = "2026-03-06T00:20:00Z".parse().unwrap();
    talk.hears("heron", "8x50 on 1:15 held 48 48 49 50 49 49 50 51");
    let heron = talk.squad.swimmers.values().find(|one| one.name.as_str() == "heron").unwrap();
    let on = heron.sets.as_of(talk.now).last().unwrap().on;
    assert_eq!(on.to_string(), "2026-03-05");
}
