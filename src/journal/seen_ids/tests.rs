use std::collections::HashMap;
use std::fs;

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use super::super::table::{Row, Table};
use super::*;

/// Entries of a file.
const FILE: u64 = 700;

/// The table of a file with these keys.
fn table(keys: &[u64]) -> Table {
    let mut table = Table::default();
    for (number, key) in (1..).zip(keys) {
        table.push(Row { offset: 100, tag: 1, number, key: *key });
    }
    table
}

#[test]
fn what_is_let_go_is_found_as_before_and_what_is_forgotten_is_not() {
    let folder = tempfile::tempdir().unwrap();
    let mut random = ChaCha8Rng::seed_from_u64(7);
    let ids = SeenIds::default();
    let mut files: Vec<(u64, Vec<u64>)> = Vec::new();
    // As a map has it: the first entry of those known keeps a key.
    let mut map: HashMap<u64, u64> = HashMap::new();
    let mut all: HashMap<u64, Vec<u64>> = HashMap::new();
    for file in 0..60u64 {
        let first = 1 + file * FILE;
        ids.note_file(first);
        let keys: Vec<u64> = (0..FILE)
            .map(|at| match random.random_range(0..20) {
                // Some come twice, and some stand beside others.
                0 if file > 0 => {
                    let (_, earlier) = &files[random.random_range(0..files.len())];
                    earlier[random.random_range(0..earlier.len())]
                }
                1 => u64::MAX - random.random_range(0..40),
                2 => 1 + at % 30,
                _ => random.random_range(1..u64::MAX),
            })
            .collect();
        for (place, key) in (first..).zip(&keys) {
            ids.note(*key, place);
            map.entry(*key).or_insert(place);
            all.entry(*key).or_default().push(place);
        }
        files.push((first, keys));
        if random.random_range(0..3) == 0 {
            // Not those of the file that is still added to.
            ids.let_go(folder.path(), first).unwrap();
        }
        if file > 30 && random.random_range(0..2) == 0 {
            let (first, keys) = files.remove(0);
            ids.forget_all(first, &table(&keys));
            map.retain(|_, place| *place >= files[0].0);
        }
    }
    ids.let_go(folder.path(), u64::MAX).unwrap();
    let lengths: Vec<usize> = ids.runs().iter().map(|run| run.len()).collect();
    assert!(lengths.windows(2).all(|pair| pair[0] >= 2 * pair[1]), "{lengths:?}");
    assert!(ids.recent().places.is_empty() && ids.recent().leaving.is_empty());
    let known = |place: &u64| *place >= files[0].0;
    for (key, places) in &all {
        match (ids.place(*key).unwrap(), map.get(key)) {
            // One that came twice may be known for longer than a map knows it.
            (Some(found), place) => {
                assert!(known(&found) && places.contains(&found), "{key}");
                assert!(place.is_none_or(|place| found <= *place), "{key}");
            }
            (None, place) => assert_eq!(place, None, "{key}"),
        }
    }
    let strange = |key: &u64| !all.contains_key(key);
    for key in (0..10_000).map(|_| random.random_range(1..u64::MAX)).filter(strange) {
        assert_eq!(ids.place(key).unwrap(), None, "{key}");
    }
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0, "the files have no names");
}

#[test]
fn many_leave_little_in_memory() {
    let folder = tempfile::tempdir().unwrap();
    let ids = SeenIds::default();
    let spread = |place: u64| place.wrapping_mul(0x9E37_79B9_7F4A_7C15);
    let all = 6 * RECENT as u64;
    ids.note_file(1);
    for place in 1..=all {
        ids.note(spread(place), place);
        if place % 1000 == 0 && ids.are_many() {
            ids.let_go(folder.path(), place).unwrap();
        }
    }
    assert!(ids.recent().places.capacity() < 3 * RECENT);
    let missed = |place: &u64| ids.place(spread(*place)).unwrap() != Some(*place);
    assert_eq!((1..=all).find(missed), None);
    assert_eq!((all + 1..2 * all).find(|place| ids.place(spread(*place)).unwrap().is_some()), None);
}

#[test]
fn what_can_t_be_let_go_stays() {
    let folder = tempfile::tempdir().unwrap();
    let ids = SeenIds::default();
    ids.note_file(1);
    (1..100).for_each(|place| ids.note(place << 32, place));
    assert!(ids.let_go(&folder.path().join("nowhere"), 50).is_err());
    assert!((1..100).all(|place| ids.place(place << 32).unwrap() == Some(place)));
    ids.let_go(folder.path(), 50).unwrap();
    assert_eq!((ids.recent().places.len(), ids.runs()[0].len()), (50, 49));
    assert!((1..100).all(|place| ids.place(place << 32).unwrap() == Some(place)));
}

#[test]
fn who_looks_while_they_are_let_go_finds_each() {
    const ALL: u64 = 6_000;
    let folder = tempfile::tempdir().unwrap();
    let ids = SeenIds::default();
    ids.note_file(1);
    let spread = |place: u64| place.wrapping_mul(0x9E37_79B9_7F4A_7C15);
    (1..=ALL).for_each(|place| ids.note(spread(place), place));
    std::thread::scope(|scope| {
        let letting_go = scope.spawn(|| {
            // Of each try some stay; the last but one fails, and all of its do.
            for place in (1..=ALL).step_by(200) {
                ids.let_go(folder.path(), place).unwrap();
            }
            assert!(ids.let_go(&folder.path().join("nowhere"), u64::MAX).is_err());
            ids.let_go(folder.path(), u64::MAX).unwrap();
        });
        while !letting_go.is_finished() {
            let missed = |place: &u64| ids.place(spread(*place)).unwrap() != Some(*place);
            assert_eq!((1..=ALL).step_by(7).find(missed), None);
        }
    });
    assert!(ids.recent().places.is_empty());
    assert_eq!((1..=ALL).find(|place| ids.place(spread(*place)).unwrap() != Some(*place)), None);
}
