//! What somebody can't or may not do, over random swimmers and limits.
//!
//! Common practice, no source: what is barred is left out, never made up for.

use lapwing::coaching::evening::for_swimmer;
use lapwing::coaching::{
    Fault, Rulebook, SessionWish, WeekWish, drill, next_session, week, within,
};
use lapwing::session::{Cue, Limit, Session};
use lapwing::units::{Equipment, Level, Stroke};
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

/// A medley holds fly and breaststroke.
#[test]
fn a_limit_bars_what_holds_it() {
    assert!(Limit::Stroke(Stroke::Fly).bars(Stroke::Im));
    assert!(Limit::BreastKick.bars(Stroke::Breast) && !Limit::BreastKick.bars(Stroke::Kick));
    assert!(!Limit::Stroke(Stroke::Fly).bars(Stroke::Choice));
}
