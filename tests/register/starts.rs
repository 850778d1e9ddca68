//! How a test began and where it was swum.

use crate::squad::Talk;

fn march(day: u32) -> Talk {
    let mut talk = Talk::of_grown_ups();
    talk.now = format!("2026-03-{day:02}T19:00:00Z").parse().unwrap();
    talk
}

fn target(heard: &serde_json::Value, distance: u32) -> f64 {
    let all = heard["targets"].as_array().unwrap();
    let one = all.iter().find(|one| one["distance"] == distance).unwrap();
    one["time_s"].as_f64().unwrap()
}

/// Half a second for a 25, one for a 50: common practice, no source.
#[test]
fn a_hundred_is_stored_as_from_a_push_until_dive_is_said() {
    let mut talk = march(3);
    let heard = talk.hears("heron", "100 test 1:04");
    assert_eq!(heard.result["kind"], "test");
    assert!(heard.text.contains("text DIVE"), "{}", heard.text);
    assert_eq!(target(&heard.result, 50), 32.0);
    let heard = talk.hears("heron", "dive");
    assert_eq!(heard.result["kind"], "ok", "{}", heard.text);
    assert!(heard.text.contains("25s 16.5") && heard.text.contains("50s 33"), "{}", heard.text);
    // As from a push it is 1:06: a training 1:05.5 is no slower.
    assert!(talk.hears("heron", "targets 50").text.contains("50s 33"));
    talk.hears("heron", "undo");
    assert!(talk.hears("heron", "targets 50").text.contains("50s 32"));
}

#[test]
fn what_was_said_and_what_is_long_is_not_asked() {
    let mut talk = march(3);
    for text in ["200 test 3:12", "100 test 1:34 push", "50 test 45 dive", "50 test 46 from a push"]
    {
        let heard = talk.hears("heron", text);
        assert_eq!(heard.result["kind"], "test", "{text}: {}", heard.text);
        assert!(!heard.text.contains("Taken as"), "{text}: {}", heard.text);
    }
}

#[test]
fn a_meet_is_taken_as_from_a_dive_and_backstroke_from_the_water() {
    let mut talk = march(3);
    let heard = talk.hears("heron", "200 free 3:12 meet");
    assert!(heard.text.contains("from a dive; if not, text PUSH"), "{}", heard.text);
    let heard = talk.hears("heron", "100 back 1:45 meet");
    assert!(heard.text.contains("in the water"), "{}", heard.text);
}

#[test]
fn one_word_tells_how_all_of_a_lane_began() {
    let mut talk = march(3);
    talk.hears("coach", "100 test heron 1:30 teal 1:20");
    let heard = talk.hears("coach", "dive");
    assert!(heard.text.contains("heron 100 free 1:30, teal 100 free 1:20"), "{}", heard.text);
    assert!(talk.hears("coach", "teal targets 50").text.contains("50s 41"));
    let heard = talk.hears("coach", "heron push");
    assert!(heard.text.contains("heron") && !heard.text.contains("teal"), "{}", heard.text);
    assert!(talk.hears("coach", "teal targets 50").text.contains("50s 41"));
    assert!(talk.hears("coach", "heron targets 50").text.contains("50s 45"));
}

/// 3:20 in training and 3:05 at a meet: over 7 %, and still no gain in training.
#[test]
fn a_gain_at_a_meet_is_shown_as_one() {
    let mut talk = march(3);
    talk.hears("coach", "heron 200 test 3:20");
    talk.now = "2026-03-20T19:00:00Z".parse().unwrap();
    talk.hears("coach", "heron 200 3:05 meet");
    for text in ["squad improving", "heron trend", "heron"] {
        let heard = talk.hears("coach", text);
        assert!(heard.text.contains("faster (a meet beside training)"), "{text}: {}", heard.text);
    }
    assert!(talk.hears("coach", "heron best").text.contains("meet)"));
    // Beside the training test before it, the next in training is level.
    talk.now = "2026-03-27T19:00:00Z".parse().unwrap();
    talk.hears("coach", "heron 200 test 3:19");
    let heard = talk.hears("coach", "heron");
    assert!(heard.text.contains("level") && !heard.text.contains("beside"), "{}", heard.text);
}
