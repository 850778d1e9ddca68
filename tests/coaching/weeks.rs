//! What weeks must satisfy, one after another.

use jiff::ToSpan;
use jiff::civil::Date;
use lapwing::coaching::{Facts, Trouble, Week, WeekKind, WeekWish, is_hard, week};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use crate::swimmers::*;

fn is_work(kind: WeekKind) -> bool {
    matches!(kind, WeekKind::Normal | WeekKind::Hard)
}

/// Sixteen weeks, planned one after the other.
fn season(seed: u64, check: impl Fn(&Facts, &[Week], &Week)) -> Vec<Week> {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let mut facts = random(seed);
    facts.open.clear();
    facts.swims.clear();
    facts.other.clear();
    facts.cleared = true;
    let mut weeks: Vec<Week> = Vec::new();
    for _ in 0..16 {
        let kind =
            [None, None, None, Some(WeekKind::Hard), Some(WeekKind::Easy)][dice.random_range(0..5)];
        let kind = if seed.is_multiple_of(2) { None } else { kind };
        let wish = WeekWish { kind, ..WeekWish::default() };
        let Ok(planned) = week(&facts, &wish) else { return weeks };
        check(&facts, &weeks, &planned);
        remember(&mut facts, &planned);
        weeks.push(planned);
        facts.today = facts.today.saturating_add(7.days());
    }
    weeks
}

#[test]
fn seasons_keep_the_rules() {
    for seed in 0..CASES / 20 {
        let weeks = season(seed, |facts, before, planned| {
            assert_eq!(planned.starts, facts.today);
            assert!(!planned.sessions.is_empty());
            for session in &planned.sessions {
                judge(session, facts, facts.minutes, facts.course)
                    .unwrap_or_else(|wrong| panic!("seed {seed}: {wrong}"));
                let ahead = (session.on - planned.starts).get_days();
                assert!((0..7).contains(&ahead), "seed {seed}: {}", session.on);
            }
            let running = before.iter().rev().take_while(|week| is_work(week.kind)).count();
            assert!(!is_work(planned.kind) || running < 3, "seed {seed}: no easy week");
            let last_four = &before[before.len().saturating_sub(4)..];
            let base = last_four.iter().filter(|w| is_work(w.kind)).map(Week::distance).max();
            if let Some(base) = base.filter(|_| is_work(planned.kind)) {
                let ratio = f64::from(planned.distance()) / f64::from(base);
                assert!(ratio <= 1.1001, "seed {seed}: {base} then {}", planned.distance());
            }
            if planned.kind == WeekKind::Easy {
                assert!(!planned.sessions.iter().any(is_hard), "seed {seed}");
                if let Some(last) = before.iter().rev().find(|w| is_work(w.kind)) {
                    assert!(planned.distance() < last.distance(), "seed {seed}");
                }
            }
            if let [.., work, easy] = before
                && is_work(work.kind)
                && easy.kind == WeekKind::Easy
                && is_work(planned.kind)
            {
                assert!(
                    planned.distance() >= work.distance(),
                    "seed {seed}: {} after {}",
                    planned.distance(),
                    work.distance()
                );
            }
        });
        let sessions = weeks.iter().flat_map(|week| &week.sessions);
        let hard: Vec<Date> = sessions.filter(|s| is_hard(s)).map(|session| session.on).collect();
        for pair in hard.windows(2) {
            assert!((pair[1] - pair[0]).get_days() >= 2, "seed {seed}: {} {}", pair[0], pair[1]);
        }
    }
}

#[test]
fn volume_grows_over_a_season() {
    let mut facts = heron();
    facts.tests.push(free_test(400, "6:10", MONDAY));
    let mut kinds = Vec::new();
    let mut distances = Vec::new();
    for _ in 0..8 {
        let planned = week(&facts, &WeekWish::default()).unwrap();
        remember(&mut facts, &planned);
        swum(&mut facts, &planned);
        kinds.push(planned.kind);
        distances.push(planned.distance());
        facts.today = facts.today.saturating_add(7.days());
    }
    use WeekKind::{Easy, Normal};
    assert_eq!(kinds, [Normal, Normal, Normal, Easy, Normal, Normal, Normal, Easy]);
    assert!(distances[6] > distances[0], "{distances:?}");
    assert!(distances[4] >= distances[2], "{distances:?}");
}

/// Plans made on any day, over one another, with pain coming and going: what a
/// reader of the plans alone would check.
#[test]
fn plans_made_any_day_keep_the_rules() {
    for seed in 0..CASES / 25 {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let mut facts = random(seed);
        facts.open.clear();
        let mut weeks: Vec<Week> = Vec::new();
        for _ in 0..14 {
            let hurt = dice.random_bool(0.2);
            facts.open = match hurt {
                true => vec![Trouble::Pain {
                    since: facts.today,
                    place: "shoulder".into(),
                    level: Some(dice.random_range(1..8)),
                }],
                false => vec![],
            };
            let kinds = [None, None, Some(WeekKind::Hard), Some(WeekKind::Easy)];
            let wish = WeekWish {
                kind: kinds[dice.random_range(0..4)],
                minutes: dice.random_bool(0.2).then(|| dice.random_range(25..120)),
                sessions: dice.random_bool(0.2).then(|| dice.random_range(1..=9)),
            };
            let Ok(planned) = week(&facts, &wish) else { break };
            let minutes = wish.minutes.unwrap_or(facts.minutes);
            for session in &planned.sessions {
                judge(session, &facts, minutes, facts.course)
                    .unwrap_or_else(|wrong| panic!("seed {seed}: {wrong}"));
            }
            if hurt && let Some(last) = weeks.last() {
                assert!(planned.distance() <= last.distance(), "seed {seed}");
            }
            let mut before: Vec<&Week> = Vec::new();
            let mut cursor = facts.today;
            while let Some(week) = weeks
                .iter()
                .filter(|week| (cursor - week.starts).get_days() >= 7)
                .max_by_key(|week| week.starts)
            {
                before.push(week);
                cursor = week.starts;
            }
            if is_work(planned.kind) {
                let running = before.iter().take_while(|week| is_work(week.kind)).count();
                assert!(running < 3, "seed {seed}");
                let four = before.iter().take(4).filter(|week| is_work(week.kind));
                if let Some(base) = four.map(|week| week.distance()).max() {
                    assert!(planned.distance() * 100 <= base * 115, "seed {seed}");
                }
            }
            // Hard days of the plan in force on each day, and of the new one.
            let in_force = |day: Date| {
                let covers = |week: &&Week| (0..7).contains(&(day - week.starts).get_days());
                weeks.iter().rfind(covers)
            };
            let recent =
                (1..=2).map(|days| facts.today.saturating_sub(days.days())).filter(|day| {
                    in_force(*day).is_some_and(|week| {
                        week.sessions.iter().any(|session| session.on == *day && is_hard(session))
                    })
                });
            let new = planned.sessions.iter().filter(|s| is_hard(s)).map(|session| session.on);
            let mut hard: Vec<Date> = recent.chain(new).collect();
            hard.sort_unstable();
            for pair in hard.windows(2) {
                assert!((pair[1] - pair[0]).get_days() >= 2, "seed {seed}: {pair:?}");
            }
            remember(&mut facts, &planned);
            weeks.push(planned);
            facts.today = facts.today.saturating_add(dice.random_range(0..12).days());
        }
    }
}
