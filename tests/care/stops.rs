//! What lifts a stop, and what doesn't.

use lapwing::history::{CareKind, Event, TroubleKind};

use crate::squad::{COACH, Talk};

/// True while the service gives heron no session.
fn is_stopped(talk: &mut Talk) -> bool {
    let heard = talk.hears("heron", "next");
    heard.result["kind"] == "caution" && heard.result["about"] == "stop"
}

#[test]
fn nothing_a_swimmer_texts_lifts_a_stop() {
    for grave in ["chest pain", "banged my head", "dizzy", "my heart was racing"] {
        let mut talk = Talk::of_grown_ups();
        talk.hears("heron", "200 test 3:12");
        talk.hears("heron", grave);
        for text in [
            "undo",
            "yes",
            "no",
            "ok now",
            "im ok now",
            "harder",
            "easier",
            "better",
            "all better",
            "again",
            "cleared",
            "my doctor cleared me",
            "release heron",
            "release",
            "plan",
            "200 test 3:10",
            "undo",
            "swap tue thu",
            "ok to swim?",
        ] {
            let heard = talk.hears("heron", text);
            assert!(
                !heard.events.iter().any(|event| matches!(event, Event::Released { .. })),
                "{text}"
            );
            assert_ne!(heard.result["kind"], "session", "{grave}, then {text}");
            assert_ne!(heard.result["kind"], "plan", "{grave}, then {text}");
            assert!(is_stopped(&mut talk), "{grave}, then {text}");
        }
        for text in ["release heron", "undo", "teal ok"] {
            talk.hears("teal", text);
            assert!(is_stopped(&mut talk), "{grave}, then {text} from teal");
        }
    }
}

#[test]
fn the_coach_lifts_it_and_is_told_on_whose_word() {
    let mut talk = Talk::of_grown_ups();
    talk.hears("heron", "chest pain");
    let heard = talk.hears("coach", "release heron");
    assert_eq!(heard.result["rule"], "needs_clearance");
    assert!(is_stopped(&mut talk));
    let heard = talk.hears("coach", "release heron on my word");
    let kept = |event: &Event| {
        matches!(event, Event::CareRecorded { what: CareKind::Overruled { .. }, .. })
    };
    assert!(heard.events.iter().any(kept), "{:?}", heard.events);
    assert!(heard.text.contains("on your word that a clinician has cleared it"), "{}", heard.text);
    assert_eq!(heard.result["kind"], "ok");
    assert!(!is_stopped(&mut talk));

    let mut talk = Talk::of_grown_ups();
    talk.hears("heron", "chest pain");
    let heard = talk.hears("heron", "doctor cleared me");
    assert_eq!(heard.to_others.len(), 1);
    assert_eq!(heard.to_others[0].0, COACH);
    assert!(heard.to_others[0].1.contains("RELEASE heron"), "{:?}", heard.to_others);
    let heard = talk.hears("coach", "release heron");
    assert!(!heard.text.contains("on your word"), "{}", heard.text);
    assert!(!is_stopped(&mut talk));
    // A later stop is not covered by the earlier word.
    talk.hears("heron", "fainted");
    let heard = talk.hears("coach", "release heron");
    assert!(heard.text.contains("on your word"), "{}", heard.text);
}

#[test]
fn undoing_a_release_is_not_possible_and_a_second_stop_stops_again() {
    let mut talk = Talk::of_grown_ups();
    talk.hears("heron", "dizzy");
    talk.hears("coach", "release heron");
    talk.hears("heron", "dizzy again");
    talk.hears("coach", "undo");
    assert!(is_stopped(&mut talk));
}

#[test]
fn private_words_ease_and_leave_no_trace() {
    let mut talk = Talk::of_grown_ups();
    let heard = talk.hears("heron", "im pregnant");
    assert!(heard.private, "the words are not kept");
    assert!(heard.to_others.is_empty());
    assert!(
        heard.events.iter().all(|event| matches!(
            event,
            Event::TroubleOpened { trouble: TroubleKind::Eased, .. } | Event::MoreKept { .. }
        )),
        "{:?}",
        heard.events
    );
    let said = serde_json::to_string(&heard.result).unwrap() + &heard.text;
    assert!(!said.contains("pregnan"), "{said}");
    let squad = talk.hears("coach", "squad");
    assert!(!squad.text.contains("hurt"), "{}", squad.text);
    talk.hears("heron", "200 test 3:12");
    let next = talk.hears("heron", "next");
    let share = &next.result["level_share"];
    assert_eq!((share["4"].as_f64(), share["5"].as_f64()), (Some(0.0), Some(0.0)), "{share}");
    assert!(talk.hears("heron", "not eating").private);
    assert!(talk.hears("heron", "i want to die").private);
    assert!(!talk.hears("heron", "shoulder hurts 4").private);
}
