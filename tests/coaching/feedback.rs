//! What results of sets change.

use jiff::ToSpan;
use lapwing::coaching::{Change, Facts, SetFeedback, SetSwum, Trouble, feedback};
use lapwing::session::Repeat;
use lapwing::units::{Centis, Level, SendOff, Stroke};

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

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
        aim: None,
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
    facts.open = vec![Trouble::Pain { since: MONDAY, place: "knee".into(), level: Some(2) }];
    let result = fifties(&facts, "48 48 48 48 48 48 48 48");
    assert_eq!(feedback(&facts, &result).change.what, Change::Same);
}

/// Any target, any times: exactly one field differs, and never a slower target.
#[test]
fn any_result_changes_one_thing() {
    for seed in 0..CASES {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let mut facts = random(seed);
        let amount = [25, 50, 100, 200][dice.random_range(0..4)];
        let target = Centis::new(dice.random_range(1_400..30_000)).unwrap();
        let count: u16 = dice.random_range(1..=20);
        let set = Repeat {
            count,
            distance: distance(amount, facts.course),
            stroke: Stroke::Free,
            target: dice.random_bool(0.9).then_some(target),
            send_off: dice
                .random_bool(0.8)
                .then(|| SendOff::after(target, dice.random_range(0..60))),
            rest: None,
            aim: None,
            level: Level::Threshold,
            equipment: vec![],
            cue: None,
        };
        let drift = dice.random_range(-0.01..0.02);
        let swum = |facts: &Facts, dice: &mut ChaCha8Rng| {
            let times = (0..count).map(|index| {
                let factor = 1.0 + drift * f64::from(index) + dice.random_range(-0.02..0.02);
                let time = Centis::from_seconds(target.seconds() * factor).unwrap();
                dice.random_bool(0.95).then(|| time.to_second())
            });
            SetSwum { on: facts.today, set: set.clone(), times: times.collect(), held: 0 }
        };
        for _ in 0..dice.random_range(0..3) {
            let mut before = swum(&facts, &mut dice);
            before.on = facts.today.saturating_sub(3.days());
            facts.sets.push(before);
        }
        let result = swum(&facts, &mut dice);
        let feedback = feedback(&facts, &result);
        if result.set.send_off.is_some() || feedback.change.what != Change::LongerSendOff {
            check_one_change(&result, &feedback);
        }
        if facts.open.iter().any(|trouble| !matches!(trouble, Trouble::Held { .. })) {
            assert!(
                !matches!(
                    feedback.change.what,
                    Change::MoreRepeats | Change::FasterTarget | Change::ShorterSendOff
                ),
                "seed {seed}"
            );
        }
    }
}

#[test]
fn a_faster_test_earns_a_faster_target() {
    let mut facts = facts();
    let mut before = fifties(&facts, "48 48 49 50 50 51");
    before.on = MONDAY.saturating_add(2.days());
    facts.sets.push(before);
    facts.tests.push(free_test(200, "3:09", MONDAY.saturating_add(5.days())));
    let result = fifties(&facts, "48 48 47 48 48 47");
    let feedback = feedback(&facts, &result);
    assert_eq!(feedback.change.what, Change::FasterTarget);
    assert_eq!(feedback.change.set.target, Some(time("47.6")));
}

#[test]
fn easy_sets_may_be_slower() {
    let facts = facts();
    let mut result = fifties(&facts, "66 66 68 70");
    result.set.target = Some(time("60"));
    let feedback = feedback(&facts, &result);
    assert!(feedback.slower_is_fine);
    assert_eq!(feedback.change.what, Change::Same);
}
