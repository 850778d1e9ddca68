//! Taking back what put a result right.

use crate::squad::Talk;

/// Heron 3:12 and teal 3:20 over 200, by the coach, on Tuesday 3 March; a day
/// later.
fn after_two_tests() -> Talk {
    let mut talk = Talk::of_grown_ups();
    talk.now = "2026-03-03T20:10:00Z".parse().unwrap();
    talk.hears("coach", "heron 200 test 3:12");
    talk.hears("coach", "teal 200 test 3:20");
    talk.now = "2026-03-04T10:00:00Z".parse().unwrap();
    talk
}

fn best(talk: &mut Talk, who: &str) -> String {
    let heard = talk.hears("coach", &format!("{who} best"));
    heard.result["tests"].to_string() + &heard.text
}

#[test]
fn undo_takes_back_a_swap_and_again_what_was_before_it() {
    let mut talk = after_two_tests();
    talk.hears("coach", "swap heron teal tue 200");
    assert!(best(&mut talk, "heron").contains("3:20"));
    let heard = talk.hears("coach", "undo");
    assert!(heard.text.contains("heron") && heard.text.contains("teal"), "{}", heard.text);
    assert!(best(&mut talk, "heron").contains("3:12"));
    assert!(best(&mut talk, "teal").contains("3:20"));
    talk.hears("coach", "undo");
    assert!(best(&mut talk, "heron").contains("3:12"));
    assert!(!best(&mut talk, "teal").contains("3:20"));
}

#[test]
fn undo_takes_back_a_fix_and_again_what_was_before_it() {
    let mut talk = after_two_tests();
    talk.hears("coach", "fix heron tue 200 3:21");
    assert!(best(&mut talk, "heron").contains("3:21"));
    let heard = talk.hears("coach", "undo");
    assert!(heard.text.contains("3:12"), "{}", heard.text);
    assert!(best(&mut talk, "heron").contains("3:12"));
    talk.hears("coach", "undo");
    assert!(best(&mut talk, "heron").contains("3:12"));
    assert!(!best(&mut talk, "teal").contains("3:20"));
}

#[test]
fn a_swap_that_was_swapped_back_is_undone_step_by_step() {
    let mut talk = after_two_tests();
    talk.hears("coach", "swap heron teal tue 200");
    talk.hears("coach", "fix heron tue 200 3:22");
    talk.hears("coach", "swap heron teal tue 200");
    assert!(best(&mut talk, "teal").contains("3:22"));
    talk.hears("coach", "undo");
    assert!(best(&mut talk, "heron").contains("3:22"));
    talk.hears("coach", "undo");
    assert!(best(&mut talk, "heron").contains("3:20"));
    talk.hears("coach", "undo");
    assert!(best(&mut talk, "heron").contains("3:12"));
    assert!(best(&mut talk, "teal").contains("3:20"));
}

#[test]
fn undo_takes_back_whose_a_result_was() {
    let mut talk = after_two_tests();
    talk.hears("coach", "that was heron");
    assert!(!best(&mut talk, "teal").contains("3:20"));
    talk.hears("coach", "undo");
    assert!(best(&mut talk, "teal").contains("3:20"));
    assert!(!best(&mut talk, "heron").contains("3:20"));
    talk.hears("coach", "undo");
    assert!(!best(&mut talk, "teal").contains("3:20"));
}
