//! The questions that follow joining, and whom to call.

use lapwing::history::Event;
use serde_json::Value;

use crate::squad::{COACH, CODE, Talk};

fn joined() -> Talk {
    let mut talk = Talk::opened(false, false);
    let heard = talk.hears("heron", &format!("join {CODE} heron"));
    assert_eq!(heard.result["kind"], "ok");
    assert!(heard.text.contains("1 of 3"), "{}", heard.text);
    talk
}

/// True if hard work may be written: rules of the next session don't forbid it.
fn is_cleared(talk: &mut Talk) -> bool {
    let heard = talk.hears("heron", "next");
    let rules = heard.result["rules"].as_array().unwrap().clone();
    !rules.contains(&Value::from("not-cleared"))
}

#[test]
fn three_clear_noes_clear() {
    let mut talk = joined();
    assert!(!is_cleared(&mut talk));
    let second = talk.hears("heron", "no");
    assert_eq!(second.result["kind"], "question");
    assert!(second.text.starts_with("2 of 3"), "{}", second.text);
    // What is texted meanwhile is stored and answered.
    let test = talk.hears("heron", "200 test 3:12");
    assert_eq!(test.result["kind"], "test");
    assert!(!is_cleared(&mut talk));
    assert!(talk.hears("heron", "No.").text.starts_with("3 of 3"));
    let last = talk.hears("heron", "no");
    assert_eq!(last.result["kind"], "ok");
    assert!(last.to_others.is_empty());
    assert!(is_cleared(&mut talk));
    // No question waits any more.
    assert_eq!(talk.hears("heron", "no").result["kind"], "refused");
}

#[test]
fn any_yes_or_unclear_word_keeps_it_easy_until_the_coach_releases() {
    for at in 0..3 {
        for word in ["yes", "maybe", "not sure", "I don't know", "a bit"] {
            let mut talk = joined();
            let told: Vec<(String, String)> = (0..3)
                .flat_map(|one| talk.hears("heron", if one == at { word } else { "no" }).to_others)
                .collect();
            assert_eq!(told.len(), 1, "{word}");
            assert_eq!(told[0].0, COACH);
            assert!(told[0].1.contains("RELEASE heron"), "{told:?}");
            for text in ["no", "yes", "undo", "harder", "better", "cleared"] {
                talk.hears("heron", text);
                assert!(!is_cleared(&mut talk), "{word}, then {text}");
            }
            let heard = talk.hears("coach", "release heron");
            assert!(heard.text.contains("cleared"), "{}", heard.text);
            assert!(is_cleared(&mut talk), "{word}");
        }
    }
}

#[test]
fn a_question_of_the_text_before_goes_before() {
    let mut talk = joined();
    let asked = talk.hears("heron", "200 test 1:15");
    assert_eq!(asked.result["kind"], "question");
    let heard = talk.hears("heron", "no");
    assert!(!heard.events.iter().any(|event| matches!(event, Event::ReadinessAnswered { .. })));
}

#[test]
fn nobody_is_asked_where_the_club_has_screened_or_minors_swim() {
    for (ready, minors) in [(true, false), (false, true), (true, true)] {
        let mut talk = Talk::opened(ready, minors);
        let heard = talk.hears("heron", &format!("join {CODE} heron"));
        assert!(!heard.text.contains("1 of 3"), "{}", heard.text);
    }
}

#[test]
fn the_contact_is_shown_with_a_danger_and_nowhere_else() {
    const NUMBER: &str = "+1 555 0199";
    let mut talk = Talk::of_grown_ups();
    let heard = talk.hears("heron", &format!("contact {NUMBER}"));
    assert_eq!(heard.result["kind"], "ok");
    let shown: Vec<String> = [
        ("heron", "next"),
        ("heron", "me"),
        ("heron", "shoulder hurts 8"),
        ("heron", "ill"),
        ("coach", "squad"),
        ("coach", "heron"),
        ("coach", "squad hurt"),
        ("teal", "heron fainted"),
        ("heron", "chest pain"),
        ("coach", "heron is dizzy"),
        ("teal", "dizzy"),
    ]
    .iter()
    .flat_map(|(who, text)| {
        let heard = talk.hears(who, text);
        let said = std::iter::once(("sender".to_owned(), heard.text)).chain(heard.to_others);
        let result = ("result".to_owned(), heard.result.to_string());
        let shown = said.chain([result]).filter(|(_, words)| words.contains(NUMBER));
        shown.map(|(to, _)| format!("{who}: {text} -> {to}")).collect::<Vec<_>>()
    })
    .collect();
    let coach = format!("heron: chest pain -> {COACH}");
    let reported = format!("teal: heron fainted -> {COACH}");
    assert_eq!(shown, [reported, coach]);
}
