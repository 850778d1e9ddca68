//! What somebody can't or may not do, over random swimmers and limits.
//!
//! Common practice, no source: what is barred is left out, never made up for.

use lapwing::coaching::evening::for_swimmer;
use lapwing::coaching::{
    Fault, Rulebook, SessionWish, WeekWish, drill, next_session, week, within,
};
use lapwing::session::{Cue, Limit, Session};
use lapwing::units::{Equipment, Level, SendOff, Stroke};
use rand::seq::IndexedRandom;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use crate::swimmers::*;

const LIMITS: [Limit; 10] = [
    Limit::Kit(Equipment::Fins),
    Limit::Kit(Equipment::PullBuoy),
    Limit::Kit(Equipment::Snorkel),
    Limit::Kit(Equipment::Paddles),
    Limit::Stroke(Stroke::Fly),
    Limit::Stroke(Stroke::Breast),
    Limit::Stroke(Stroke::Kick),
    Limit::BreastKick,
    Limit::Dives,
    Limit::TumbleTurns,
];

fn holds_nothing_barred(session: &Session, limits: &[Limit]) {
    for line in session.blocks.iter().flat_map(|block| &block.repeats) {
        assert!(!limits.iter().any(|one| one.bars(line.stroke)), "{limits:?}: {line:?}");
        let kit = |limit: &Limit| line.equipment.iter().any(|kit| limit.bars_kit(*kit));
        assert!(!limits.iter().any(kit), "{limits:?}: {line:?}");
        if let Some(Cue::Drill(id)) = &line.cue {
            let drill = drill(id).unwrap();
            assert!(!limits.iter().any(|one| one.bars(drill.stroke)), "{limits:?}: {id}");
            let turns = drill.cures == Fault::Turns && limits.contains(&Limit::TumbleTurns);
            assert!(!turns, "{limits:?}: {id}");
        }
    }
}

#[test]
fn no_session_holds_what_is_barred() {
    let mut dice = ChaCha8Rng::seed_from_u64(13);
    let (mut sessions, mut changed) = (0, 0);
    for seed in 0..CASES / 4 {
        let mut facts = random(seed);
        let many = dice.random_range(1..=4);
        facts.limits = LIMITS.sample(&mut dice, many).copied().collect();
        let next = next_session(&facts, &SessionWish::default());
        let planned = week(&facts, &WeekWish::default()).map(|week| week.sessions);
        let all = planned.into_iter().flatten().chain(next);
        for session in all {
            holds_nothing_barred(&session, &facts.limits);
            let lengths: u32 = session.blocks.iter().map(lapwing::session::Block::amount).sum();
            assert_eq!(session.amount(), lengths);
            sessions += 1;
        }
        // A set that somebody else wrote: as far, as long, no harder.
        let mut free = facts.clone();
        free.limits.clear();
        let Ok(set) = next_session(&free, &SessionWish::default()) else { continue };
        let own = within(&set, &facts.limits);
        holds_nothing_barred(&own, &facts.limits);
        assert_eq!((own.amount(), own.duration_s() <= set.duration_s()), (set.amount(), true));
        let hard = |session: &Session| {
            let share = session.level_share();
            share.into_iter().filter(|(level, _)| *level > Level::Easy).map(|(_, s)| s).sum::<f64>()
        };
        assert!(hard(&own) <= hard(&set) + 1e-9);
        if let Ok(hers) = for_swimmer(&Rulebook::default(), &set, &facts, facts.course) {
            holds_nothing_barred(&hers, &facts.limits);
        }
        changed += usize::from(own != set);
    }
    println!("{sessions} sessions within limits, {changed} sets changed");
    assert!(changed > 50, "{changed}");
}

/// A session written anew within a kit limit is no farther, no longer and no
/// harder than the one written without it.
#[test]
fn nobody_swims_more_for_what_she_has_not() {
    let from = |session: &Session, least: Level| -> u32 {
        let lines = session.blocks.iter().flat_map(|block| {
            block.repeats.iter().map(|line| (line.level, u32::from(block.rounds) * line.amount()))
        });
        lines.filter(|(level, _)| *level >= least).map(|(_, amount)| amount).sum()
    };
    let mut named = 0;
    for seed in 0..CASES / 4 {
        let mut facts = random(seed);
        facts.limits.clear();
        let Ok(free) = next_session(&facts, &SessionWish::default()) else { continue };
        for kit in [Equipment::Fins, Equipment::PullBuoy, Equipment::Snorkel] {
            facts.limits = vec![Limit::Kit(kit)];
            let own = next_session(&facts, &SessionWish::default()).unwrap();
            assert!(own.duration_s() <= free.duration_s(), "{seed} {kit:?}");
            for least in Level::ALL {
                assert!(from(&own, least) <= from(&free, least), "{seed} {kit:?} {least:?}");
            }
            let had = free.blocks.iter().any(|block| block.equipment().contains(&kit));
            assert!(!had || own.without == [Limit::Kit(kit)], "{seed} {kit:?}: not named");
            named += usize::from(!own.without.is_empty());
        }
    }
    assert!(named > 50, "{named}");
}

/// On the clock of fins nobody kicks without: it becomes easy free, and what a
/// pull is swum with goes with the buoy.
#[test]
fn nothing_gets_harder_without_its_kit() {
    let mut session = next_session(&random(1), &SessionWish::default()).unwrap();
    let line = &mut session.blocks[0].repeats[0];
    line.stroke = Stroke::Kick;
    line.equipment = vec![Equipment::Fins];
    line.send_off = SendOff::new(70).ok();
    let own = within(&session, &[Limit::Kit(Equipment::Fins)]);
    let swum = &own.blocks[0].repeats[0];
    assert_eq!((swum.stroke, swum.level, swum.target), (Stroke::Free, Level::Easy, None));
    assert_eq!(own.without, [Limit::Kit(Equipment::Fins)]);
    session.blocks[0].repeats[0].stroke = Stroke::Pull;
    let own = within(&session, &[Limit::Kit(Equipment::PullBuoy)]);
    assert_eq!(own.blocks[0].repeats[0].stroke, Stroke::Free);
}

/// A medley holds fly and breaststroke.
#[test]
fn a_limit_bars_what_holds_it() {
    assert!(Limit::Stroke(Stroke::Fly).bars(Stroke::Im));
    assert!(Limit::BreastKick.bars(Stroke::Breast) && !Limit::BreastKick.bars(Stroke::Kick));
    assert!(!Limit::Stroke(Stroke::Fly).bars(Stroke::Choice));
}
