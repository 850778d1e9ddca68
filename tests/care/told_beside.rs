//! Pain and illness that no frame knows, told beside something else: kept or asked about, and
//! never forgotten while nobody answers.

use lapwing::history::{Event, TroubleKind};

use crate::squad::{Heard, Talk};

const TEXTS: &str = include_str!("told_beside.txt");

const PULL: &str = "bit of a pull in my groin on the breaststroke kick, do we have training wed";

/// True where a text's pain or illness is kept, or stands in every answer to what is asked.
fn is_heard(heard: &Heard) -> bool {
    heard.events.iter().any(|event| match event {
        Event::TroubleOpened { trouble, .. } => {
            matches!(trouble, TroubleKind::Pain { .. } | TroubleKind::Ill { .. })
        }
        Event::QuestionAsked { question, .. } | Event::QuestionQueued { question, .. } => {
            !question.what_ails().is_empty()
        }
        _ => false,
    })
}

#[test]
fn what_may_ail_is_kept_or_asked_about_and_nobody_is_asked_for_nothing() {
    let (mut wrong, mut counts) = (Vec::new(), (0, 0));
    for line in TEXTS.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
        let (ails, text) = (line.starts_with('+'), &line[2..]);
        let mut talk = Talk::of_grown_ups();
        let heard = talk.hears("heron", text);
        let calm = heard.result["kind"] != "caution";
        if is_heard(&heard) != ails || !ails && !calm {
            wrong.push(format!("{line} -> {}", heard.text));
        }
        if ails { counts.0 += 1 } else { counts.1 += 1 }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(counts.0 >= 25 && counts.1 >= 20, "{counts:?}");
}

#[test]
fn the_rest_of_the_text_is_answered_beside_the_question() {
    let mut talk = Talk::of_grown_ups();
    let heard = talk.hears("heron", "bit of a pull in my groin on the kick, 200 test 3:12");
    assert!(heard.events.iter().any(|event| matches!(event, Event::TestSwum { .. })));
    assert!(is_heard(&heard), "{}", heard.text);
    let heard = talk.hears("heron", "yes");
    assert!(heard.text.starts_with("Groin pain noted"), "{}", heard.text);
}

/// What is missing from the rest, or what the rest tells by its words alone, is asked for; the
/// pain is kept at once.
#[test]
fn a_pain_waits_for_no_answer_about_the_rest() {
    for text in [
        "shoulder hurts, running late",
        "my shoulder is sore and i missed practice, flight got delayed",
    ] {
        let mut talk = Talk::of_grown_ups();
        let heard = talk.hears("heron", text);
        assert!(heard.text.starts_with("Shoulder pain noted"), "{text}: {}", heard.text);
        let asks = heard.result["results"]
            .as_array()
            .is_some_and(|all| all.iter().any(|one| one["kind"] == "question"));
        assert!(asks, "{text}: {}", heard.text);
    }
}

#[test]
fn what_nobody_answers_lowers_what_follows_and_the_coach_sees_it() {
    let mut talk = Talk::of_grown_ups();
    talk.hears("heron", "200 test 3:12");
    let before = talk.hears("coach", "squad hurt");
    assert!(!before.text.contains("heron"), "{}", before.text);
    let heard = talk.hears("heron", PULL);
    assert!(is_heard(&heard), "{}", heard.text);
    let hurt = talk.hears("coach", "squad hurt");
    assert!(hurt.text.contains("groin asked about"), "{}", hurt.text);
    // `no` is an answer.
    talk.hears("heron", "no");
    let hurt = talk.hears("coach", "squad hurt");
    assert!(!hurt.text.contains("heron"), "{}", hurt.text);
}

#[test]
fn a_session_that_the_coach_asks_for_is_lowered_while_nobody_answers() {
    let session = |pull: bool| {
        let mut talk = Talk::of_grown_ups();
        for text in ["400 test 6:40", "200 test 3:12", "done 2400 60min rpe 5"] {
            talk.hears("heron", text);
            talk.now = talk.now.checked_add(jiff::SignedDuration::from_hours(96)).unwrap();
        }
        if pull {
            talk.hears("heron", PULL);
        }
        let heard = talk.hears("coach", "heron next");
        assert_eq!(heard.result["kind"], "session", "{}", heard.text);
        heard.result
    };
    let hard = |session: &serde_json::Value| {
        let share = |level: u8| session["level_share"][level.to_string()].as_f64().unwrap();
        (3..=5).map(share).sum::<f64>()
    };
    let (asked, well) = (session(true), session(false));
    assert!(hard(&asked) < hard(&well), "{asked} {well}");
}

#[test]
fn no_to_a_question_of_several_things_asks_about_the_pain_alone() {
    let mut talk = Talk::of_grown_ups();
    let heard = talk.hears("heron", "groin pulls a bit on the kick, 200 in like 3 12 ish or so");
    assert!(is_heard(&heard), "{}", heard.text);
    if heard.result["kind"] == "question" {
        let heard = talk.hears("heron", "no");
        assert!(is_heard(&heard), "{}", heard.text);
    }
}
