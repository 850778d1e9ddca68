//! The schedule by itself, in virtual time: whatever becomes of each try.

use proptest::prelude::*;

use super::*;

fn call(alarm: u64, index: u16, to: &str, called: Called) -> Call {
    Call { alarm, number: LetterNumber { place: alarm, index }, to: to.into(), called }
}

fn at(milliseconds: u64) -> Duration {
    Duration::from_millis(milliseconds)
}

/// One way to everybody, or two.
fn taken(calls: &[Call], ways: usize, now: Duration) -> Cries {
    let mut cries = Cries::default();
    cries.take(calls, |_| (0..ways).collect(), now);
    cries
}

fn letters(due: &[Cry]) -> Vec<u16> {
    due.iter().map(|cry| cry.letter.index).collect()
}

fn begin_all(cries: &mut Cries, now: Duration) -> Vec<Cry> {
    let due = cries.due(now);
    due.iter().for_each(|cry| cries.begins(cry, now));
    due
}

#[test]
fn all_of_a_rank_at_once_and_the_next_when_it_is_in_vain() {
    use Called::{Deck, Guardian, SecondContact, Standby};
    let calls = [
        call(1, 0, "a", Deck),
        call(1, 1, "b", Deck),
        call(1, 2, "c", SecondContact),
        call(1, 3, "d", Standby),
        call(1, 4, "e", Guardian),
    ];
    let mut cries = taken(&calls, 1, at(0));
    let first = begin_all(&mut cries, at(0));
    assert_eq!(letters(&first), [0, 1, 4]);
    cries.failed(&first[0], at(20));
    assert_eq!(cries.due(at(30)), []);
    cries.failed(&first[1], at(30));
    let second = begin_all(&mut cries, at(40));
    assert_eq!(letters(&second), [2]);
    cries.failed(&second[0], at(50));
    assert_eq!(letters(&begin_all(&mut cries, at(60))), [3]);
    // Who hangs is passed by as well.
    let mut cries = taken(&calls, 1, at(0));
    begin_all(&mut cries, at(0));
    assert_eq!(cries.due(at(2_999)), []);
    assert_eq!(letters(&cries.due(at(3_000))), [2]);
}

#[test]
fn another_way_is_tried_where_the_first_fails_or_hangs() {
    let calls = [call(1, 0, "a", Called::Deck)];
    let mut cries = taken(&calls, 3, at(0));
    let first = begin_all(&mut cries, at(0));
    assert_eq!(first.iter().map(|cry| cry.way).collect::<Vec<_>>(), [0]);
    cries.failed(&first[0], at(10));
    let second = begin_all(&mut cries, at(10));
    assert_eq!(second.iter().map(|cry| cry.way).collect::<Vec<_>>(), [1]);
    assert_eq!(cries.due(at(900)), []);
    // The second hangs: the third, and the first again by its own schedule.
    let third = begin_all(&mut cries, at(3_010));
    assert_eq!(third.iter().map(|cry| cry.way).collect::<Vec<_>>(), [0, 2]);
}

#[test]
fn the_youngest_and_least_tried_comes_first() {
    let old: Vec<Call> = (1..=50).map(|alarm| call(alarm, 0, "a", Called::Deck)).collect();
    let mut cries = taken(&old, 1, at(0));
    for cry in begin_all(&mut cries, at(0)) {
        cries.failed(&cry, at(5));
    }
    let all = [old, vec![call(51, 0, "b", Called::Deck)]].concat();
    cries.take(&all, |_| vec![0], at(2_000));
    assert_eq!(cries.due(at(2_000))[0].alarm, 51);
    // What is delivered is gone.
    cries.take(&all[50..], |_| vec![0], at(2_000));
    assert_eq!(cries.due(at(9_000)).len(), 1);
}

/// What the other end does for a while.
#[derive(Debug, Clone, Copy)]
enum Spell {
    /// No connection: each try fails at once.
    Down,
    /// Refused with whatever status.
    Refuses,
    /// Each try takes as long as we wait.
    Slow,
}

fn spells() -> impl Strategy<Value = Vec<(Spell, u64)>> {
    let spell = prop_oneof![Just(Spell::Down), Just(Spell::Refuses), Just(Spell::Slow)];
    prop::collection::vec((spell, 1_u64..400_000), 0..8)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    /// 1,000 histories: spells of failure one after the other, then the other end
    /// is there; other alarms wait as well. A new alarm is tried at once, whatever
    /// was before; one that was raised at any time is never left alone for longer
    /// than a minute, and is tried within 5 s of the other end being there, where
    /// that is heard by listening each 2 s.
    #[test]
    fn an_alarm_is_tried_in_time(
        spells in spells(),
        raised in 0_u64..2_000_000,
        others in 0_u64..40,
    ) {
        const STEP: u64 = 200;
        const LISTEN: u64 = 2_000;
        const PATIENCE: u64 = 10_000;
        let up = spells.iter().map(|(_, length)| length).sum::<u64>();
        let during = |now: u64| {
            let mut begun = 0;
            spells.iter().find(|(_, length)| { begun += length; now < begun }).map(|(one, _)| *one)
        };
        let mine = call(1_000, 0, "coach", Called::Deck);
        let other = |number: u64| call(number, 0, "other", Called::Deck);
        let mut calls: Vec<Call> = (0..others).map(other).collect();
        let mut cries = Cries::default();
        let mut out: Vec<(u64, Cry)> = Vec::new();
        let (mut tried, mut last_try, mut heard) = (None, None, None);
        let mut now = 0;
        while tried.is_none() {
            if now >= raised && !calls.contains(&mine) {
                calls.push(mine.clone());
            }
            cries.take(&calls, |_| vec![0], at(now));
            let (back, still): (Vec<_>, Vec<_>) = out.into_iter().partition(|(end, _)| *end <= now);
            out = still;
            back.iter().for_each(|(_, cry)| cries.failed(cry, at(now)));
            if now.is_multiple_of(LISTEN) && !cries.troubled(at(now)).is_empty() {
                let hears = during(now).map(|spell| spell as u8);
                if heard.is_some_and(|before| before != hears) && hears != Some(Spell::Down as u8) {
                    cries.stirs(0);
                }
                heard = Some(hears);
            }
            for cry in begin_all(&mut cries, at(now)) {
                if cry.alarm == 1_000 {
                    // Never alone for longer than a minute and what a slow try takes.
                    let since = now - last_try.unwrap_or(now);
                    prop_assert!(since <= 60_000 + PATIENCE + STEP, "{since} ms without a try");
                    last_try = Some(now);
                }
                match during(now) {
                    None => {
                        if cry.alarm == 1_000 {
                            tried = tried.or(Some(now));
                        }
                        calls.retain(|call| call.alarm != cry.alarm);
                    }
                    Some(Spell::Slow) => out.push((now + PATIENCE, cry)),
                    Some(_) => cries.failed(&cry, at(now)),
                }
            }
            prop_assert!(now < up + raised + 10_000, "never tried");
            now += STEP;
        }
        let late = tried.unwrap_or(u64::MAX) - up.max(raised);
        prop_assert!(late <= 5_000, "{late} ms late");
    }
}
