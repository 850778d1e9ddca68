//! What every single session must satisfy, for any swimmer and wish.

use jiff::ToSpan;
use lapwing::coaching::{
    Refusal, RefusalReason, SessionWish, SetSwum, Trouble, next_session, rules, targets,
};
use lapwing::session::{Purpose, Session};
use lapwing::units::Course;

use crate::swimmers::*;

#[test]
fn any_swimmer_any_wish() {
    let mut refused = 0;
    for seed in 0..CASES {
        let (facts, wish) = (random(seed), random_wish(seed));
        let minutes = wish.minutes.unwrap_or(facts.minutes);
        let course = if wish.open_water { Course::OpenWater } else { facts.course };
        match next_session(&facts, &wish) {
            Ok(session) => {
                if let Err(wrong) = judge(&session, &facts, minutes, course) {
                    panic!("seed {seed}, {minutes} min: {wrong}\n{facts:#?}");
                }
                assert!(session.on >= facts.today, "seed {seed}");
                assert_eq!(session, next_session(&facts, &wish).unwrap(), "seed {seed}");
                for id in &session.rules {
                    assert!(rules().iter().any(|rule| rule.id == id), "seed {seed}: {id}");
                }
            }
            Err(Refusal { reason: RefusalReason::TooShort { least_minutes }, .. }) => {
                assert!(least_minutes > minutes, "seed {seed}: {least_minutes} of {minutes}");
                refused += 1;
            }
            Err(other) => panic!("seed {seed}: {other:?}"),
        }
    }
    assert!(refused * 100 <= CASES, "{refused} refused for want of time");
}

#[test]
fn a_first_test_leads_to_its_pace() {
    let mut facts = heron();
    facts.tests.push(free_test(200, "3:12", MONDAY));
    let shown: Vec<String> = targets(&facts, &[])
        .iter()
        .map(|t| format!("{} {} {}", t.distance, t.time.short(), t.send_off.unwrap().seconds()))
        .collect();
    assert_eq!(shown, ["50m 48 75", "100m 1:36 150"]);
    let session = next_session(&facts, &SessionWish::default()).unwrap();
    assert_eq!(session.purpose, Purpose::PaceHolding);
    assert_eq!(session.on, jiff::civil::date(2026, 3, 4));
    let main = &session.main().next().unwrap().repeats[0];
    assert_eq!(main.target, Some(time("48")), "{}", show(&session));
}

#[test]
fn err_stopped() {
    let mut facts = heron();
    facts.open.push(Trouble::Faint { since: MONDAY });
    let refusal = next_session(&facts, &SessionWish::default()).unwrap_err();
    assert_eq!((refusal.rule.as_str(), refusal.reason), ("stopped", RefusalReason::Stopped));
}

#[test]
fn err_too_short() {
    let wish = SessionWish { minutes: Some(8), ..SessionWish::default() };
    let refusal = next_session(&heron(), &wish).unwrap_err();
    let RefusalReason::TooShort { least_minutes } = refusal.reason else { panic!("{refusal:?}") };
    let wish = SessionWish { minutes: Some(least_minutes), ..SessionWish::default() };
    assert!(next_session(&heron(), &wish).is_ok(), "{least_minutes} min should do");
}

#[test]
fn pain_never_raises() {
    for seed in 0..CASES / 4 {
        let mut facts = random(seed);
        facts.open.clear();
        let Ok(before) = next_session(&facts, &SessionWish::default()) else { continue };
        facts.suggested.push(before.clone());
        for level in [1, 4, 8] {
            facts.open = vec![Trouble::Pain {
                since: facts.today,
                place: "shoulder".into(),
                level: Some(level),
            }];
            let after = next_session(&facts, &SessionWish::default()).unwrap();
            assert!(
                after.amount() <= before.amount(),
                "seed {seed}: {}{}",
                show(&before),
                show(&after)
            );
            assert!(after.duration_s() <= before.duration_s(), "seed {seed}");
            assert!(!lapwing::coaching::is_hard(&after));
            facts.suggested.push(after.clone());
            let again = next_session(&facts, &SessionWish::default()).unwrap();
            assert!(
                again.amount() <= after.amount(),
                "seed {seed}: {}{}",
                show(&after),
                show(&again)
            );
            facts.suggested.pop();
        }
    }
}

/// The main set comes back with the one thing changed that its result earned.
#[test]
fn a_result_shapes_the_next_main_set() {
    let mut facts = seasoned(heron(), 2000);
    facts.tests.push(free_test(200, "3:12", MONDAY.saturating_sub(9.days())));
    facts.sessions_a_week = 3;
    let on = MONDAY.saturating_sub(4.days());
    facts.tests.push(free_test(400, "6:50", MONDAY.saturating_sub(9.days())));
    facts.sets.push(SetSwum { held: 6, ..fifties(on, "48 48 48 48 49 49 50 50") });
    let threshold = next_session(&facts, &SessionWish::default()).unwrap();
    facts.suggested.push(Session { on, ..threshold });
    let session = next_session(&facts, &SessionWish::default()).unwrap();
    let line = &session.main().next().unwrap().repeats[0];
    assert_eq!(session.purpose, Purpose::PaceHolding, "{}", show(&session));
    assert_eq!((line.count, line.target), (6, Some(time("48"))), "{}", show(&session));
}
