//! The coach's own targets, over random swimmers.
//!
//! Common practice, no source: a coach's time stands for the repeats at race or
//! test pace; rest is kept, the clock doesn't grow, and nobody sore is sped up.

use lapwing::coaching::{
    Facts, OwnTarget, SessionWish, coached_stroke, held_to_own, next_session, targets,
};
use lapwing::session::{Part, Session};
use lapwing::units::{Centis, Distance, Level};

use crate::swimmers::*;

/// `facts` with the coach's word that repeats over `far` take `percent` of what
/// they would.
fn told(facts: &Facts, far: Distance, percent: f64) -> Option<Facts> {
    let computed = targets(facts, &[far]).first()?.time;
    let target = OwnTarget {
        distance: far,
        time: Centis::from_seconds(computed.seconds() * percent / 100.0).ok()?.to_tenth(),
        stroke: coached_stroke(facts)?,
        course: facts.course,
        on: facts.today,
        at: jiff::Timestamp::UNIX_EPOCH,
    };
    Some(Facts { own_targets: vec![target], ..facts.clone() })
}

#[test]
fn a_session_holds_to_the_coach_s_times_and_keeps_its_clock() {
    let (mut changed, mut kept) = (0, 0);
    for seed in 0..CASES {
        let facts = random(seed);
        let Ok(before) = next_session(&facts, &SessionWish::default()) else { continue };
        let far = Distance::new(50, facts.course.unit()).unwrap();
        let percent = [94.0, 97.0, 104.0, 112.0][seed as usize % 4];
        let Some(told) = told(&facts, far, percent) else { continue };
        let own = told.own_targets[0];
        let after = next_session(&told, &SessionWish::default()).unwrap();
        assert!(after.duration_s() <= u32::from(facts.minutes) * 60);
        assert!(after.amount() <= before.amount(), "{}\n{}", show(&before), show(&after));
        let timed = before
            .blocks
            .iter()
            .filter(|block| block.part == Part::Main)
            .flat_map(|block| &block.repeats)
            .any(|line| {
                line.distance == far
                    && line.stroke == own.stroke
                    && line.level > Level::Threshold
                    && line.target.is_some()
            });
        let sped_up_when_sore = percent < 100.0 && !facts.open.is_empty();
        if !timed || sped_up_when_sore {
            assert_eq!(show(&after), show(&before));
            kept += 1;
            continue;
        }
        holds(&after, &own, &before);
        assert_eq!(show(&held_to_own(&after, &told, facts.course)), show(&after), "once is enough");
        changed += 1;
    }
    assert!(changed > 20 && kept > 100, "{changed} changed, {kept} kept");
}

fn holds(after: &Session, own: &OwnTarget, before: &Session) {
    for (new, old) in lines(after).zip(lines(before)) {
        let is_timed = old.distance == own.distance
            && old.stroke == own.stroke
            && old.level > Level::Threshold;
        let (Some(now), Some(was), true) = (new.target, old.target, is_timed) else {
            assert_eq!(new, old);
            continue;
        };
        let room = new.count < old.count || new.send_off == old.send_off;
        assert!(now == own.time && room || new == old, "{}", show(after));
        if let (Some(on), Some(before)) = (new.send_off, old.send_off) {
            assert!(
                on >= before
                    && u32::from(new.count) * on.seconds()
                        <= u32::from(old.count) * before.seconds()
            );
            assert!(on.rest_after(now) >= before.rest_after(was), "{}", show(after));
        }
    }
}

fn lines(session: &Session) -> impl Iterator<Item = &lapwing::session::Repeat> {
    let main = session.blocks.iter().filter(|block| block.part == Part::Main);
    main.flat_map(|block| &block.repeats)
}
