//! What results of sets change.

use jiff::ToSpan;
use lapwing::coaching::{Change, Facts, SetFeedback, SetSwum, Trouble, feedback};
use lapwing::session::Repeat;
use lapwing::units::{Centis, Level, SendOff, Stroke};

use crate::swimmers::*;

fn facts() -> Facts {
    let mut facts = heron();
    facts.tests.push(free_test(200, "3:12", MONDAY));
    facts.today = MONDAY.saturating_add(9.days());
    facts
}

fn fifties(facts: &Facts, times: &str) -> SetSwum {
    let times: Vec<Option<Centis>> =
        times.split(' ').map(|word| if word == "x" { None } else { Some(time(word)) }).collect();
    let set = Repeat {
        count: u16::try_from(times.len()).unwrap(),
        distance: distance(50, facts.course),
        stroke: Stroke::Free,
        target: Some(time("48")),
        send_off: Some(SendOff::new(75).unwrap()),
        rest: None,
        level: Level::Sprint,
        equipment: vec![],
        cue: None,
    };
    SetSwum { on: facts.today, set, times, held: 0 }
}

/// Only the field that `what` names may differ.
fn check_one_change(result: &SetSwum, feedback: &SetFeedback) {
    let (old, mut new) = (&result.set, feedback.change.set.clone());
    match feedback.change.what {
        Change::FewerRepeats => {
            assert!(new.count < old.count);
            new.count = old.count;
        }
        Change::MoreRepeats => {
            assert!(new.count > old.count && (new.count - old.count) * 4 <= old.count);
            new.count = old.count;
        }
        Change::LongerSendOff => {
            assert_eq!(new.send_off.unwrap().seconds(), old.send_off.unwrap().seconds() + 10);
            new.send_off = old.send_off;
        }
        Change::ShorterSendOff => {
            assert_eq!(new.send_off.unwrap().seconds(), old.send_off.unwrap().seconds() - 5);
            new.send_off = old.send_off;
        }
        Change::FasterTarget => {
            let (new_s, old_s) = (new.target.unwrap().seconds(), old.target.unwrap().seconds());
            assert!(new_s < old_s && new_s >= old_s * 0.99 - 1e-9);
            new.target = old.target;
        }
        Change::Rest | Change::Retest | Change::Same | Change::SlowerStart => {}
    }
    assert_eq!(&new, old);
}

/// The worked cases of a coach, common practice without source: what each row
/// of times earns a set of 50s at 48 on 1:15.
#[test]
fn one_change_each() {
    let facts = facts();
    for (times, what) in [
        ("48 48 48 48 49 49 50 50", Change::FewerRepeats),
        ("48 48 49 50 49 49 50 51", Change::LongerSendOff),
        ("44 44 47 51 52 52", Change::SlowerStart),
        ("51 51 52 52 53 53", Change::Rest),
        ("48 48 48 48 48 48", Change::MoreRepeats),
        ("48 48 48", Change::ShorterSendOff),
        ("48 48 48 48 48 x", Change::FewerRepeats),
        ("49 49 49 49 49 49", Change::Same),
        ("50 48 48 48 48 48", Change::LongerSendOff),
    ] {
        let result = fifties(&facts, times);
        let feedback = feedback(&facts, &result);
        assert_eq!(feedback.change.what, what, "{times}");
        check_one_change(&result, &feedback);
    }
}

#[test]
fn fewer_repeats_go_down_to_those_held() {
    let facts = facts();
    let result = fifties(&facts, "48 48 48 48 49 49 50 50");
    let feedback = feedback(&facts, &result);
    let analysis = feedback.analysis.unwrap();
    assert_eq!((analysis.held, analysis.missed, analysis.first_lost), (6, 2, Some(7)));
    assert_eq!(feedback.change.set.count, 6);
    assert_eq!(feedback.change.set.send_off, result.set.send_off);
}

#[test]
fn a_second_set_held_earns_a_faster_target() {
    let mut facts = facts();
    let mut before = fifties(&facts, "48 48 48 48 48 48");
    before.on = MONDAY.saturating_add(4.days());
    facts.sets.push(before);
    let result = fifties(&facts, "48 48 48 48 48 48 48");
    let feedback = feedback(&facts, &result);
    assert_eq!(feedback.change.what, Change::FasterTarget);
    assert_eq!(feedback.change.set.target, Some(time("47.6")));
    check_one_change(&result, &feedback);
}

#[test]
fn two_cut_backs_running_ask_for_a_test() {
    let mut facts = facts();
    let mut before = fifties(&facts, "48 48 49 50 50 51 51 52");
    before.on = MONDAY.saturating_add(4.days());
    facts.sets.push(before.clone());
    let result = fifties(&facts, "48 48 49 50 50 51 51 52");
    facts.sets.push(result.clone());
    assert_eq!(feedback(&facts, &result).change.what, Change::Retest);
    facts.sets[0].set.target = Some(time("50"));
    assert_eq!(feedback(&facts, &result).change.what, Change::LongerSendOff);
}

#[test]
fn nothing_is_raised_while_something_hurts() {
    let mut facts = facts();
    facts.open = vec![Trouble::Pain { since: MONDAY, place: "knee".into(), level: 2 }];
    let result = fifties(&facts, "48 48 48 48 48 48 48 48");
    assert_eq!(feedback(&facts, &result).change.what, Change::Same);
}
