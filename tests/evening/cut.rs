//! A set cut on the way, over random sets and times.
//!
//! What goes first is common practice, no source: what stands beside the main
//! set before the main set, never the swim-down.

use std::collections::BTreeMap;

use lapwing::coaching::evening::{before_main_s, shortened};
use lapwing::session::{Block, Part, Repeat, Session};
use proptest::prelude::*;
use proptest::strategy::ValueTree;

use super::sets;

/// How many repeats of each line, wherever they stand.
fn counts(session: &Session) -> BTreeMap<String, u32> {
    let mut counts = BTreeMap::new();
    for block in &session.blocks {
        for line in &block.repeats {
            let same = format!("{:?} {:?}", block.part, Repeat { count: 1, ..line.clone() });
            *counts.entry(same).or_default() += u32::from(block.rounds) * u32::from(line.count);
        }
    }
    counts
}

fn swim_down(session: &Session) -> (u32, u64) {
    let all = session.blocks.iter().filter(|block| block.part == Part::SwimDown);
    all.fold((0, 0), |(far, long), block| (far + block.amount(), long + block.hundredths()))
}

fn hard_repeats(session: &Session) -> u32 {
    let of = |block: &Block| {
        let lines = block.repeats.iter().filter(|line| line.level.is_hard());
        u32::from(block.rounds) * lines.map(|line| u32::from(line.count)).sum::<u32>()
    };
    session.blocks.iter().map(of).sum()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn never_longer_than_asked_and_the_swim_down_whole(
        session in sets::session(8), elapsed in 0u32..3600, left in 60u32..3600,
    ) {
        let total = elapsed + left;
        let cut = shortened(&session, elapsed, total);
        prop_assert_eq!(cut.fits, cut.session.duration_s() <= total);
        prop_assert_eq!(swim_down(&cut.session), swim_down(&session));
        if session.duration_s() <= total {
            prop_assert_eq!(&cut.session, &session);
            prop_assert!(cut.given_up.is_empty());
        }
        // Whole repeats are gone, nothing is new: no send-off, no target changed.
        let before = counts(&session);
        for (line, count) in counts(&cut.session) {
            prop_assert!(before.get(&line).is_some_and(|had| count <= *had), "{line}");
        }
        let gone: u32 = cut.given_up.iter()
            .map(|one| u32::from(one.line.count - one.left) * one.line.distance.amount()).sum();
        prop_assert_eq!(cut.session.amount() + gone, session.amount());
    }

    #[test]
    fn what_is_swum_stays(session in sets::session(8), elapsed in 0u32..3600) {
        let cut = shortened(&session, elapsed, 0);
        // Nothing that began before now is taken away.
        let least = elapsed.min(session.duration_s());
        prop_assert!(cut.session.duration_s() >= least);
        let again = shortened(&cut.session, elapsed, 0);
        prop_assert_eq!(again.session, cut.session);
    }

    #[test]
    fn the_purpose_goes_only_where_no_repeat_of_it_fits(
        session in sets::session(6), elapsed in 0u32..1200, left in 60u32..2400,
    ) {
        let cut = shortened(&session, elapsed, elapsed + left);
        prop_assert_eq!(cut.keeps_purpose, hard_repeats(&cut.session) > 0);
        // The main set is touched only once what stands beside it is given up,
        // but for single swims that fit again at the end.
        if hard_repeats(&cut.session) < hard_repeats(&session) && cut.fits {
            let slack = elapsed + left - cut.session.duration_s();
            let smallest = cut.given_up.iter().filter_map(|one| one.line.send_off)
                .map(|on| on.seconds()).min().unwrap();
            prop_assert!(slack < smallest + Session::CHANGE_S + Session::KIT_CHANGE_S);
        }
    }
}

/// Every way of giving up some repeats of some lines, of a set with one round.
fn all_smaller(session: &Session) -> Vec<Session> {
    let mut all = vec![session.clone()];
    for (at, block) in session.blocks.iter().enumerate() {
        if block.part == Part::SwimDown {
            continue;
        }
        for line in 0..block.repeats.len() {
            let before = std::mem::take(&mut all);
            for one in before {
                for count in 0..=block.repeats[line].count {
                    let mut smaller = one.clone();
                    smaller.blocks[at].repeats[line].count = count;
                    all.push(smaller);
                }
            }
        }
    }
    all
}

fn leads_up(block: &&Block) -> bool {
    matches!(block.part, Part::WarmUp | Part::Build)
}

fn tidy(session: &Session) -> Session {
    let mut tidy = session.clone();
    for block in &mut tidy.blocks {
        block.repeats.retain(|line| line.count > 0);
    }
    tidy.blocks.retain(|block| !block.repeats.is_empty());
    tidy
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// Against every other way of cutting a small set: none that gives up less,
    /// line by line, would fit; and none that fits keeps more of the main set.
    #[test]
    fn no_smaller_change_would_fit(session in sets::session(2), share in 0.2f64..0.95) {
        let mut session = session;
        for block in &mut session.blocks {
            block.rounds = 1;
        }
        let total = (f64::from(session.duration_s()) * share) as u32;
        let cut = shortened(&session, 0, total);
        let ours = counts(&cut.session);
        let fits = |one: &Session| one.duration_s() <= total;
        let all: Vec<Session> = all_smaller(&session).iter().map(tidy).collect();
        prop_assert_eq!(cut.fits, all.iter().any(fits));
        for other in all.iter().filter(|one| fits(one)) {
            let theirs = counts(other);
            let keeps_all_of_ours =
                ours.iter().all(|(line, count)| theirs.get(line).is_some_and(|c| c >= count));
            prop_assert!(!keeps_all_of_ours || theirs == ours, "smaller: {theirs:?} not {ours:?}");
            // If a repeat of the main set can be kept behind its warm-up and build,
            // one is.
            let led_up_to = other.blocks.iter().filter(leads_up).eq(session.blocks.iter().filter(leads_up));
            prop_assert!(cut.keeps_purpose || hard_repeats(other) == 0 || !led_up_to);
        }
    }
}

/// On time, the main set begins when what stands before it is over.
#[test]
fn counted_from_the_main_set() {
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let session = sets::session(4).new_tree(&mut runner).unwrap().current();
    let from = before_main_s(&session);
    let cut = shortened(&session, from, from);
    // All before is swum; of the rest only the swim-down stays.
    let parts: Vec<Part> = cut.session.blocks.iter().map(|block| block.part).collect();
    assert!(!parts.contains(&Part::Main), "{parts:?}");
    assert_eq!(
        cut.session.blocks.iter().filter(|block| block.part == Part::WarmUp).count(),
        session.blocks.iter().filter(|block| block.part == Part::WarmUp).count()
    );
}
