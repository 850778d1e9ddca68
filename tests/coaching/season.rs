//! Towards a race, swaps, stop rules, drills and sore places.

use jiff::ToSpan;
use jiff::civil::date;
use lapwing::coaching::{
    DRILLS, Fault, Phase, Race, Realism, RefusalReason, SessionWish, Trouble, WeekKind,
    WeekPlanned, WeekWish, drill, next_session, outlook, phase, stop_rule, swap, week, worked_on,
};
use lapwing::session::{Cue, Purpose};
use lapwing::units::{Course, Equipment, Level, Stroke};

use crate::swimmers::*;

fn race_in(days: i64, goal: &str) -> Race {
    Race {
        on: MONDAY.saturating_add(days.days()),
        distance: distance(1500, Course::Short25m),
        stroke: Stroke::Free,
        goal: Some(time(goal)),
    }
}

#[test]
fn phases_follow_the_calendar() {
    let mut facts = seasoned(heron(), 2000);
    facts.tests.push(free_test(400, "6:10", MONDAY.yesterday().unwrap()));
    for (days, expected) in [
        (200, Phase::Base),
        (80, Phase::Build),
        (20, Phase::Sharpen),
        (9, Phase::Taper),
        (-3, Phase::Recover),
    ] {
        facts.race = Some(race_in(days, "26:00"));
        assert_eq!(phase(&facts), expected, "{days} days");
    }
    facts.open.push(Trouble::Ill { since: MONDAY, fever: false });
    assert_eq!(phase(&facts), Phase::Return);
}

#[test]
fn goals_are_judged_and_split() {
    let mut facts = heron();
    facts.tests.push(free_test(400, "6:10", MONDAY));
    for (goal, verdict) in
        [("27:00", Realism::Likely), ("24:00", Realism::Possible), ("20:00", Realism::FarOff)]
    {
        let found = outlook(&facts, &race_in(70, goal)).unwrap();
        let judged = found.goal.unwrap();
        assert_eq!(judged.verdict, verdict, "{goal}: {judged:?}");
        assert_eq!(found.splits.last().unwrap().time, time(goal));
        assert_eq!(found.splits.len(), 15);
        assert!(found.splits.windows(2).all(|pair| pair[0].time < pair[1].time));
        assert!(found.expected < found.prediction.time);
        assert_eq!((found.weeks_left, found.phase), (10, Phase::Build));
        assert_eq!(found.taper_from, date(2026, 5, 1));
    }
}

#[test]
fn a_season_ends_in_a_taper_on_time() {
    let mut facts = seasoned(heron(), 2000);
    facts.tests.push(free_test(400, "6:10", MONDAY));
    facts.race = Some(race_in(59, "26:00"));
    let mut kinds = Vec::new();
    let mut last_work = 0;
    for _ in 0..9 {
        let planned = week(&facts, &WeekWish::default()).unwrap();
        let race = facts.race.as_ref().unwrap().on;
        let (of_race, training): (Vec<_>, Vec<_>) =
            planned.sessions.iter().partition(|session| session.purpose == Purpose::Race);
        assert!(of_race.iter().all(|session| session.on == race));
        assert!(training.iter().all(|session| session.on != race));
        let race_day: u32 = of_race.iter().map(|session| session.amount()).sum();
        for session in training {
            let left = (race - session.on).get_days();
            assert!(!(0..3).contains(&left) || !lapwing::coaching::is_hard(session));
        }
        if planned.kind == WeekKind::Normal {
            last_work = planned.distance();
        }
        if planned.kind == WeekKind::Taper {
            let trained = planned.distance() - race_day;
            assert!(trained * 10 <= last_work * 7, "{trained}");
        }
        kinds.push(planned.kind);
        remember(&mut facts, &planned);
        swum(&mut facts, &planned);
        facts.today = facts.today.saturating_add(7.days());
    }
    assert_eq!(kinds[7..], [WeekKind::Taper, WeekKind::Taper]);
}

#[test]
fn days_are_swapped_within_the_rules() {
    let mut facts = heron();
    let on = |day: i8| date(2026, 3, day);
    facts.weeks.push(WeekPlanned {
        starts: MONDAY,
        kind: WeekKind::Normal,
        distance: distance(6000, Course::Short25m),
        days: vec![(on(3), true), (on(5), false), (on(7), true)],
    });
    let swapped = swap(&facts, on(5), on(6)).unwrap();
    assert_eq!(swapped.days, [(on(3), true), (on(6), false), (on(7), true)]);
    let refused = swap(&facts, on(3), on(6)).unwrap_err();
    assert_eq!(
        (refused.rule.as_str(), refused.reason),
        ("hard-days-apart", RefusalReason::NotHarder)
    );
    assert_eq!(swap(&facts, on(4), on(6)).unwrap_err().reason, RefusalReason::NotPlanned);
    assert_eq!(swap(&facts, on(3), on(20)).unwrap_err().reason, RefusalReason::NotPlanned);
}

/// The stop rules of worked sessions (common practice, no source): over 1:12
/// for 50s in 1:10, over 1:41 for 100s in 1:39, over 17 for 25s in 16.
#[test]
fn sets_end_in_numbers() {
    let mut facts = heron();
    facts.tests.push(free_test(200, "3:12", MONDAY));
    facts.today = MONDAY.saturating_add(2.days());
    let session = next_session(&facts, &SessionWish::default()).unwrap();
    let mut line = session.main().next().unwrap().repeats[0].clone();
    for (amount, target, over, longer) in
        [(50, "1:10", "1:12", true), (100, "1:39", "1:41", true), (25, "16", "17", false)]
    {
        line.distance = distance(amount, Course::Short25m);
        line.target = Some(time(target));
        line.count = 6;
        let rule = stop_rule(&line).unwrap();
        assert_eq!(rule.over, time(over));
        assert_eq!(rule.then.is_some(), longer);
    }
    line.level = Level::Easy;
    assert_eq!(stop_rule(&line), None);
}

#[test]
fn drills_are_whole_and_safe() {
    for drill in DRILLS {
        let ids = DRILLS.iter().filter(|other| other.id == drill.id).count();
        assert_eq!(ids, 1, "{}", drill.id);
        for words in [drill.words.en, drill.words.es] {
            assert!(words.chars().count() <= 90, "{words}");
            for never in ["hold your breath", "no breath", "underwater", "sin respirar", "apnea"] {
                assert!(!words.contains(never), "{words}");
            }
        }
        assert!(!matches!(drill.equipment, Some(Equipment::Paddles | Equipment::Board)));
    }
    for stroke in [Stroke::Free, Stroke::Back, Stroke::Breast, Stroke::Fly] {
        assert!(DRILLS.iter().filter(|drill| drill.stroke == stroke).count() >= 3, "{stroke}");
    }
}

#[test]
fn sore_places_are_spared() {
    for (place, stroke, spared) in [
        ("shoulder", Stroke::Fly, Stroke::Fly),
        ("back", Stroke::Fly, Stroke::Fly),
        ("knee", Stroke::Breast, Stroke::Breast),
    ] {
        let mut facts = seasoned(heron(), 2000);
        let mut test = free_test(100, "1:30", MONDAY.saturating_sub(4.days()));
        test.stroke = stroke;
        facts.tests.push(test);
        facts.open.push(Trouble::Pain { since: MONDAY, place: place.into(), level: Some(4) });
        let wish = SessionWish {
            with: vec![Equipment::Paddles, Equipment::Board],
            ..SessionWish::default()
        };
        let session = next_session(&facts, &wish).unwrap();
        let lines = session.blocks.iter().flat_map(|block| &block.repeats);
        for line in lines {
            assert_ne!(line.stroke, spared, "{place}: {}", show(&session));
            if let Some(Cue::Drill(id)) = &line.cue {
                let drill = lapwing::coaching::drill(id).unwrap();
                assert!(!drill.loads.contains(&place), "{place}: {id}");
            }
            if place == "shoulder" {
                let kit = &line.equipment;
                assert!(!kit.contains(&Equipment::Paddles) && !kit.contains(&Equipment::Board));
            }
        }
    }
}

#[test]
fn the_coachs_focus_is_passed_on() {
    let mut facts = heron();
    facts.focus = Some("exhale before turning head".into());
    let session = next_session(&facts, &SessionWish::default()).unwrap();
    let cue = session.blocks[0].repeats[0].cue.clone();
    assert_eq!(cue, Some(Cue::Coach("exhale before turning head".into())));
}

#[test]
fn asked_for_and_left_out_kit() {
    let mut facts = seasoned(heron(), 2000);
    facts.tests.push(free_test(400, "6:10", MONDAY));
    let without = SessionWish { without: Equipment::ALL.to_vec(), ..SessionWish::default() };
    let session = next_session(&facts, &without).unwrap();
    assert!(session.blocks.iter().all(|block| block.equipment().is_empty()), "{}", show(&session));
}

/// A coach who gives someone one thing to think of gives drills for it (common
/// practice, no source): where a drill of theirs works on it, it is among the
/// session's.
#[test]
fn the_drills_work_on_the_coachs_focus() {
    for (focus, fault) in [
        ("exhale before turning head", Fault::Breathing),
        ("High elbow, please", Fault::Catch),
        ("nada mas largo", Fault::Length),
        ("legs up", Fault::Balance),
    ] {
        assert_eq!(worked_on(focus), Some(fault));
        for days in 0..14 {
            let mut facts = heron();
            facts.today = MONDAY.saturating_add(days.days());
            facts.tests = vec![free_test(400, "7:20", MONDAY)];
            facts.focus = Some(focus.into());
            let session = next_session(&facts, &SessionWish::default()).unwrap();
            let lines = session.blocks.iter().flat_map(|block| &block.repeats);
            let drilled: Vec<Fault> = lines
                .filter_map(|line| match &line.cue {
                    Some(Cue::Drill(id)) => drill(id).map(|drill| drill.cures),
                    _ => None,
                })
                .collect();
            assert!(drilled.contains(&fault), "{focus}: {drilled:?}");
        }
    }
}
