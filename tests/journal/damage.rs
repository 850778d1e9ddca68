//! A store that was damaged from outside: errors, never a panic, and never
//! another entry than the one that was written.

use super::*;

use std::fs;

fn body(n: u64) -> Vec<u8> {
    vec![n as u8 ^ 0x5A; if n.is_multiple_of(30) { 20_000 } else { 200 + n as usize % 300 }]
}

/// A closed journal of 600 entries and a snapshot, and its data file.
fn written() -> (tempfile::TempDir, Vec<u8>) {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    for n in 0..600 {
        let ticket = journal.append(keyed(&n.to_string(), &body(n)));
        if n % 7 == 0 {
            ticket.wait().unwrap();
        }
    }
    let through = journal.append(unkeyed(b"end")).wait().unwrap();
    journal.checkpoint(through, vec![part("a", &[3; 30_000])]).wait().unwrap();
    drop(journal);
    let data = fs::read(folder.path().join("sled/db")).unwrap();
    (folder, data)
}

/// Uses a journal that may be damaged in every way there is. What it gives
/// must be what was written; that it panics fails the test by itself.
fn use_it(folder: &Path) -> bool {
    let Ok(journal) = SledJournal::open(folder) else { return false };
    let mut sound = true;
    for n in 0..600 {
        match journal.find(&key(&n.to_string())) {
            Ok(Some((seq, entry))) => assert_eq!((seq.number(), entry.body), (n + 1, body(n))),
            Ok(None) | Err(_) => sound = false,
        }
    }
    for read in journal.entries_after(None) {
        match read {
            Ok((seq, entry)) if seq.number() <= 600 => {
                assert_eq!(entry.body, body(seq.number() - 1))
            }
            Ok(_) => {}
            Err(_) => sound = false,
        }
    }
    sound &= journal.snapshot().is_ok();
    sound &= journal.check().is_ok_and(|checked| checked.is_sound());
    sound &= journal.append(unkeyed(b"more")).wait().is_ok();
    sound
}

#[test]
fn damage_anywhere_gives_errors() {
    let (folder, sound) = written();
    let data = folder.path().join("sled/db");
    let files: Vec<_> = fs::read_dir(folder.path().join("sled"))
        .unwrap()
        .map(|file| file.unwrap().path())
        .collect();
    let others: Vec<_> = files
        .into_iter()
        .filter(|path| path.is_file())
        .map(|path| (fs::read(&path).unwrap(), path))
        .collect();
    let mut harmed = 0;
    for round in 0..40_usize {
        // The files as they were, but for one stretch of the data.
        for (bytes, path) in &others {
            fs::write(path, bytes).unwrap();
        }
        let mut bytes = sound.clone();
        let at = round * bytes.len() / 40;
        match round % 4 {
            0 => bytes[at] ^= 1,
            1 => bytes[at..].iter_mut().take(64).for_each(|byte| *byte = 0xFF),
            2 => bytes[at..].iter_mut().take(5_000).for_each(|byte| *byte = 0),
            _ => bytes.truncate(at),
        }
        fs::write(&data, &bytes).unwrap();
        harmed += u32::from(!use_it(folder.path()));
    }
    assert!(harmed >= 10, "only {harmed} of 40 damages were noticed");
}

#[test]
fn a_check_tells_which_entries_are_gone() {
    let (folder, _) = written();
    let store = sled::open(folder.path().join("sled")).unwrap();
    let tree = store.open_tree("journal").unwrap();
    // A record in the middle of the log, and one piece of a long entry.
    let records: Vec<_> = tree.scan_prefix(b"e").map(|record| record.unwrap().0).collect();
    let whole = records.iter().filter(|key| key.ends_with(&[0; 4])).nth(20).unwrap();
    let piece = records.iter().filter(|key| key.ends_with(&[0, 0, 0, 1])).nth(10).unwrap();
    tree.remove(whole).unwrap();
    tree.remove(piece).unwrap();
    store.flush().unwrap();
    drop((store, tree));
    let journal = SledJournal::open(folder.path()).unwrap();
    let checked = journal.check().unwrap();
    assert!(!checked.is_sound());
    let place = |key: &[u8]| u64::from_be_bytes(key[1..9].try_into().unwrap());
    for place in [place(whole), place(piece)] {
        assert!(
            checked.damage.iter().any(|what| what.contains(&format!("entry {place}:"))),
            "{place}: {:?}",
            checked.damage
        );
    }
    // Neither hides the rest.
    assert!(checked.entries > 500, "{checked:?}");
}

#[test]
fn bytes_changed_under_a_sound_store_are_seen() {
    let (folder, _) = written();
    let store = sled::open(folder.path().join("sled")).unwrap();
    let tree = store.open_tree("journal").unwrap();
    let mut changed = 0;
    for (n, record) in tree.scan_prefix(b"e").enumerate().step_by(9) {
        let (key, value) = record.unwrap();
        let mut value = value.to_vec();
        let at = (n * 37) % value.len();
        value[at] ^= 0x04;
        tree.insert(key, value).unwrap();
        changed += 1;
    }
    store.flush().unwrap();
    drop((store, tree));
    let journal = SledJournal::open(folder.path()).unwrap();
    let checked = journal.check().unwrap();
    assert!(checked.faults >= changed, "{} of {changed}: {:?}", checked.faults, checked.damage);
}
