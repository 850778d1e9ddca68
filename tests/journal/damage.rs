//! A store that was damaged from outside: what was acknowledged is all there, or
//! it is said that it is not; and mending brings back every entry whose bytes are
//! still whole somewhere.

use super::*;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;
use std::sync::Arc;
use std::thread;

use lapwing::journal::repair;
use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use tempfile::TempDir;

fn body(n: u64) -> Vec<u8> {
    let length = if n.is_multiple_of(30) { 9_000 } else { 200 + n % 300 };
    (0..length).map(|at| ((n * 31 + at * 7) % 251) as u8).collect()
}

/// A store in use, as a kill leaves it, and an older copy of it.
struct Store {
    now: PathBuf,
    older: PathBuf,
    entries: u64,
    /// The bytes of every entry in the log, by its place.
    frames: BTreeMap<u64, Vec<u8>>,
}

fn store(folder: &Path, entries: u64) -> Store {
    let path = folder.join(format!("live-{entries}"));
    let (now, older) =
        (folder.join(format!("now-{entries}")), folder.join(format!("older-{entries}")));
    let journal = SledJournal::open(&path).unwrap();
    let mut ticket = None;
    for n in 1..=entries {
        let stream = StreamId(format!("s/{}", n % 5));
        ticket = Some(journal.append(Entry { stream, ..keyed(&n.to_string(), &body(n)) }));
        if n % (entries / 4 + 1) == 0 {
            ticket.take().unwrap().wait().unwrap();
            // Ends a file of the log, so that there are several.
            journal.revise(&[], &mut |_| Ok(None)).unwrap();
        }
        if n == entries * 3 / 4 {
            ticket.take().unwrap().wait().unwrap();
            journal.checkpoint(&StreamId("s/1".into()), None, 1, parts(1)).unwrap();
            copy_folder(&path, &older);
        }
    }
    ticket.unwrap().wait().unwrap();
    journal.checkpoint(&StreamId("s/1".into()), Some(1), 2, parts(2)).unwrap();
    copy_folder(&path, &now);
    let frames = frames_in(&path);
    assert_eq!(frames.len() as u64, entries);
    Store { now, older, entries, frames }
}

fn parts(version: u8) -> Vec<Part> {
    vec![part("head", &[version; 8_000]), part("swimmer/heron", &[version; 20_000])]
}

/// Every entry in the files of a log, told by its first bytes, its length and its
/// place, which is all that this needs to know of the format.
fn frames_in(folder: &Path) -> BTreeMap<u64, Vec<u8>> {
    let mut frames = BTreeMap::new();
    for path in files_under(folder) {
        let bytes = fs::read(&path).unwrap();
        for at in (0..bytes.len()).filter(|&at| bytes[at..].starts_with(b"lwe2")) {
            let number = |from: usize, length: usize| -> Option<u64> {
                let mut eight = [0; 8];
                eight[..length].copy_from_slice(bytes.get(at + from..at + from + length)?);
                Some(u64::from_le_bytes(eight))
            };
            let length = number(4, 4).map(|content| 80 + content as usize);
            let frame = length.and_then(|length| bytes.get(at..at + length));
            if let (Some(frame), Some(place)) = (frame, number(16, 8)) {
                frames.entry(place).or_insert_with(|| frame.to_vec());
            }
        }
    }
    frames
}

/// The places of the entries that are whole in some file of a log.
fn whole(folder: &Path, store: &Store) -> BTreeSet<u64> {
    let mut found = BTreeSet::new();
    for path in files_under(folder) {
        let bytes = fs::read(&path).unwrap();
        for at in (0..bytes.len().saturating_sub(24)).filter(|&at| bytes[at..].starts_with(b"lwe2"))
        {
            let place = u64::from_le_bytes(bytes[at + 16..at + 24].try_into().unwrap());
            if store.frames.get(&place).is_some_and(|frame| bytes[at..].starts_with(frame)) {
                found.insert(place);
            }
        }
    }
    found
}

fn files_under(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).into_iter().flatten() {
        let path = entry.unwrap().path();
        match path.is_dir() {
            true => files.extend(files_under(&path)),
            false => files.push(path),
        }
    }
    files.sort();
    files
}

/// Damages a store in one way; says which.
fn harm(folder: &Path, store: &Store, random: &mut ChaCha8Rng) -> String {
    let files: Vec<PathBuf> =
        files_under(folder).into_iter().filter(|path| path.metadata().unwrap().len() > 0).collect();
    let log = log_files(folder);
    // Half of all in the newest part of the log: that is where stores lose most.
    let path = match random.random_range(0..4) {
        0 | 1 => log.last().unwrap().clone(),
        2 => log[random.random_range(0..log.len())].clone(),
        _ => files[random.random_range(0..files.len())].clone(),
    };
    let shown = path.strip_prefix(folder).unwrap().display().to_string();
    let mut bytes = fs::read(&path).unwrap();
    // What was written ahead is no harm to lose.
    let used = bytes.iter().rposition(|byte| *byte != 0).map_or(1, |at| at + 1);
    let at = match random.random_range(0..3) {
        0 => used.saturating_sub(random.random_range(1..=used.min(4_000))),
        _ => random.random_range(0..used),
    };
    let what = match random.random_range(0..9) {
        0 | 1 => {
            bytes[at] ^= 1 << random.random_range(0..8);
            format!("a bit at {at}")
        }
        2 | 3 => {
            let run = random.random_range(16..=512).min(bytes.len() - at);
            random.fill_bytes(&mut bytes[at..at + run]);
            format!("{run} random bytes at {at}")
        }
        4 => {
            let run = random.random_range(16..=8_192).min(bytes.len() - at);
            bytes[at..at + run].fill(0);
            format!("{run} zeros at {at}")
        }
        5 => {
            bytes.truncate(at);
            format!("cut at {at}")
        }
        6 => {
            fs::remove_file(&path).unwrap();
            return format!("{shown}: missing");
        }
        7 => {
            let other = files[random.random_range(0..files.len())].clone();
            let theirs = fs::read(&other).unwrap();
            fs::write(&other, &bytes).unwrap();
            fs::write(&path, theirs).unwrap();
            return format!("{shown}: changed places with {}", other.display());
        }
        _ => {
            // An old copy: of this file, of the log, or of all but the mark.
            match random.random_range(0..3) {
                0 => {
                    let old = store.older.join(path.strip_prefix(folder).unwrap());
                    let Ok(bytes) = fs::read(old) else { return "nothing".into() };
                    fs::write(&path, bytes).unwrap();
                    return format!("{shown}: an old copy");
                }
                which => {
                    let mark = fs::read(folder.join("high-water")).unwrap();
                    let of = if which == 1 { "log" } else { "" };
                    fs::remove_dir_all(folder.join(of)).unwrap();
                    copy_folder(&store.older.join(of), &folder.join(of));
                    fs::write(folder.join("high-water"), mark).unwrap();
                    return format!("an old copy of `{of}`");
                }
            }
        }
    };
    fs::write(&path, bytes).unwrap();
    format!("{shown}: {what}")
}

/// How a store takes it.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Verdict {
    Refused,
    ReadOnly,
    FaultsTold,
    Complete,
}

fn verdict(folder: &Path, store: &Store) -> Verdict {
    let Ok(journal) = SledJournal::open(folder) else { return Verdict::Refused };
    // Whatever it gives must be what was written.
    let mut complete = true;
    let mut next = 1;
    for read in journal.entries_of(&StreamId::all(), 0) {
        match read {
            Ok(placed) => {
                let n = placed.place.number();
                assert_eq!(placed.entry.body, body(n));
                complete &= n == next;
                next = n + 1;
            }
            Err(_) => complete = false,
        }
    }
    complete &= next == store.entries + 1;
    for n in (1..=store.entries).step_by(7) {
        match found(&journal, &n.to_string()) {
            Ok(Some((seq, entry))) => assert_eq!((seq.number(), entry.body), (n, body(n))),
            Ok(None) | Err(_) => complete = false,
        }
    }
    let snapshot = journal.snapshot(&StreamId("s/1".into())).unwrap_or_default();
    let known = [(0, vec![]), (1, parts(1)), (2, parts(2))];
    assert!(known.contains(&(snapshot.through, snapshot.parts.clone())), "{}", snapshot.through);
    if let State::ReadOnly(_) = journal.state() {
        assert!(journal.append(unkeyed(b"more")).wait().is_err());
        return Verdict::ReadOnly;
    }
    if journal.check().map_or(true, |checked| !checked.is_sound()) {
        return Verdict::FaultsTold;
    }
    assert!(complete, "silent: it says that it is sound, and not all is there");
    Verdict::Complete
}

/// Mends a damaged store; gives how many entries are lost.
fn mend(folder: &Path, store: &Store) -> u64 {
    let there = whole(folder, store);
    let Ok(repaired) = repair(folder, None, &[]) else {
        assert!(there.is_empty(), "{} entries are whole, and none came back", there.len());
        return store.entries;
    };
    let journal = SledJournal::open(folder).unwrap();
    assert_eq!(journal.state(), State::Writable);
    let back: BTreeSet<u64> = all(&journal)
        .unwrap()
        .into_iter()
        .inspect(|(seq, entry)| assert_eq!(entry.body, body(seq.number())))
        .map(|(seq, _)| seq.number())
        .collect();
    let missed: Vec<u64> = there.difference(&back).copied().collect();
    assert!(missed.is_empty(), "whole, but not brought back: {missed:?}");
    let lost: u64 = repaired.lost.iter().map(|lost| lost.last - lost.first + 1).sum();
    assert_eq!(repaired.entries, back.len() as u64);
    let checked = journal.check().unwrap();
    assert_eq!((checked.entries, checked.lost), (repaired.entries, lost));
    let snapshots = |what: &String| what.contains("snapshot");
    assert!(checked.damage.iter().all(snapshots), "{:?}", checked.damage);
    // It goes on where it would have gone on.
    let next = journal.append(unkeyed(b"more")).wait().unwrap().number();
    assert_eq!(next, repaired.entries + lost + 1);
    lost
}

/// Damages stores of these sizes so many times.
fn harm_many(rounds: std::ops::Range<u64>, sizes: &[u64]) {
    let folder = tempfile::tempdir().unwrap();
    let stores: Vec<Store> = sizes.iter().map(|size| store(folder.path(), *size)).collect();
    let mut verdicts: BTreeMap<String, u32> = BTreeMap::new();
    let (mut lost, mut mended) = (0, 0);
    for round in rounds.clone() {
        let mut random = ChaCha8Rng::seed_from_u64(round);
        let store = &stores[random.random_range(0..stores.len())];
        let path = folder.path().join("harmed");
        let _ = fs::remove_dir_all(&path);
        copy_folder(&store.now, &path);
        let what = harm(&path, store, &mut random);
        let (given, whole) = (verdict(&path, store), format!("round {round}, {what}"));
        println!("{whole}: {given:?}");
        if given != Verdict::Complete {
            mended += 1;
            lost += mend(&path, store);
        }
        *verdicts.entry(format!("{given:?}")).or_default() += 1;
    }
    println!("{rounds:?} damages: {verdicts:?}; {mended} mended, {lost} entries lost in all");
    assert!(verdicts.len() > 2, "{verdicts:?}");
}

#[test]
fn sixty_random_damages() {
    harm_many(0..60, &[200, 1_000]);
}

/// `cargo test --release --test journal thousand_random -- --ignored --nocapture`;
/// with `FROM=600` before it from that one on.
#[test]
#[ignore = "takes half an hour"]
fn a_thousand_random_damages() {
    let from = std::env::var("FROM").ok().and_then(|from| from.parse().ok()).unwrap_or(0);
    harm_many(from..1_000, &[300, 1_000, 3_000, 10_000, 30_000, 100_000]);
}

/// The name of the store in its marker is one digit off: the files know better.
#[test]
fn a_marker_that_names_another_is_mended() {
    let folder = tempfile::tempdir().unwrap();
    let store = store(folder.path(), 300);
    let marker = store.now.join("format");
    let mut bytes = fs::read(&marker).unwrap();
    let digit = bytes.len() - 5;
    bytes[digit] = if bytes[digit] == b'0' { b'1' } else { b'0' };
    fs::write(&marker, bytes).unwrap();
    assert_eq!(verdict(&store.now, &store), Verdict::ReadOnly);
    assert_eq!(mend(&store.now, &store), 0);
}

/// What comes in while the files are read is no fault.
#[test]
fn a_check_beside_a_writer_finds_nothing_missing() {
    let folder = TempDir::new().unwrap();
    let journal = Arc::new(SledJournal::open(folder.path()).unwrap());
    let writer = {
        let journal = Arc::clone(&journal);
        thread::spawn(move || {
            for number in 0..400 {
                journal.append(keyed(&number.to_string(), &[7; 3000])).wait().unwrap();
            }
        })
    };
    while !writer.is_finished() {
        assert_eq!(journal.check().unwrap().damage, Vec::<String>::new());
    }
    writer.join().unwrap();
    assert_eq!(journal.check().unwrap().entries, 400);
}

#[test]
fn a_check_tells_which_entry_is_gone() {
    let folder = tempfile::tempdir().unwrap();
    let store = store(folder.path(), 600);
    let file = &log_files(&store.now)[1];
    let mut bytes = fs::read(file).unwrap();
    let frame = &store.frames[&250];
    let at = bytes.windows(frame.len()).position(|bytes| bytes == frame).unwrap();
    bytes[at + 100] ^= 1;
    fs::write(file, bytes).unwrap();
    let journal = SledJournal::open(&store.now).unwrap();
    let checked = journal.check().unwrap();
    assert!(checked.damage.iter().any(|what| what.contains("entry 250")), "{:?}", checked.damage);
    // It hides none of the rest.
    assert_eq!(checked.entries, 599);
}

#[test]
fn two_histories_are_told_apart() {
    let folder = tempfile::tempdir().unwrap();
    let store = store(folder.path(), 200);
    // An old copy that went on by itself, beside the mark of the newer one.
    let mark = fs::read(store.now.join("high-water")).unwrap();
    let journal = SledJournal::open(&store.older).unwrap();
    for n in 0..100 {
        journal.append(unkeyed(&[n])).wait().unwrap();
    }
    drop(journal);
    fs::write(store.older.join("high-water"), mark).unwrap();
    let journal = SledJournal::open(&store.older).unwrap();
    let State::ReadOnly(why) = journal.state() else { panic!("it takes more") };
    assert!(why.contains("another history"), "{why}");
}

#[test]
fn anothers_files_are_told_apart() {
    let folder = tempfile::tempdir().unwrap();
    let one = store(folder.path(), 200);
    let two = store(folder.path(), 201);
    for file in ["high-water", "log/00000000000000000001.log"] {
        let path = folder.path().join("mixed");
        let _ = fs::remove_dir_all(&path);
        copy_folder(&one.now, &path);
        fs::copy(two.now.join(file), path.join(file)).unwrap();
        let journal = SledJournal::open(&path).unwrap();
        let State::ReadOnly(why) = journal.state() else { panic!("it takes more") };
        assert!(why.contains("another journal's"), "{why}");
    }
}
