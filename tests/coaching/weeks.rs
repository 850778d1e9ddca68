//! What weeks must satisfy, one after another.

use jiff::ToSpan;
use jiff::civil::Date;
use lapwing::coaching::{Facts, Week, WeekKind, WeekWish, is_hard, week};
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
        season(seed, |facts, before, planned| {
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
    }
}

#[test]
fn hard_days_lie_apart() {
    for seed in 0..CASES / 20 {
        let weeks = season(seed, |_, _, _| {});
        let hard: Vec<Date> = weeks
            .iter()
            .flat_map(|week| &week.sessions)
            .filter(|session| is_hard(session))
            .map(|session| session.on)
            .collect();
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
        kinds.push(planned.kind);
        distances.push(planned.distance());
        facts.today = facts.today.saturating_add(7.days());
    }
    use WeekKind::{Easy, Normal};
    assert_eq!(kinds, [Normal, Normal, Normal, Easy, Normal, Normal, Normal, Easy]);
    assert!(distances[6] > distances[0], "{distances:?}");
    assert!(distances[4] >= distances[2], "{distances:?}");
}
