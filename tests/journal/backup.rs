//! Copies: whole, taken in use, and refused when they are not whole.

use super::*;

use std::fs;
use std::sync::atomic::{AtomicBool, Ordering};

use lapwing::journal::{Copied, Restored, backup};

use crate::home::{Database, Folder, Home, in_both};

in_both!(
    a_restored_copy_is_the_same_journal,
    a_copy_taken_in_use_is_consistent,
    a_copy_that_is_not_whole_is_refused_before_anything_is_written,
    what_makes_no_sense_is_refused_before_anything_is_written,
    a_copy_with_a_gap_says_what_is_gone,
);

fn restore(from: &Path, journal: &dyn Journal) -> Result<Copied, JournalError> {
    lapwing::journal::restore(from, journal, &mut |_| Ok(()))
}

fn filled(home: &impl Home) -> std::sync::Arc<dyn Journal> {
    let journal = home.open();
    fill(journal.as_ref());
    journal
}

fn fill(journal: &dyn Journal) {
    for n in 0..200 {
        let length = if n % 40 == 0 { 50_000 } else { n };
        drop(journal.append(keyed(&n.to_string(), &vec![n as u8; length])));
    }
    let through = journal.append(unkeyed(b"last")).wait().unwrap();
    let parts = vec![part("a", &[1; 9_000]), part("b", b"b")];
    journal.checkpoint(&dusk(), None, through.number(), parts).unwrap();
    journal.append(unkeyed(b"after")).wait().unwrap();
}

fn a_restored_copy_is_the_same_journal<H: Home>(home: &H) {
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(home);
    let file = folder.path().join("backup");
    assert_eq!(backup(journal.as_ref(), &file).unwrap(), Copied { entries: 202, parts: 2 });
    let elsewhere = H::new();
    let other = elsewhere.open();
    assert_eq!(restore(&file, other.as_ref()).unwrap(), Copied { entries: 202, parts: 2 });
    assert_eq!(all(other.as_ref()).unwrap(), all(journal.as_ref()).unwrap());
    assert_eq!(other.snapshot(&dusk()).unwrap(), journal.snapshot(&dusk()).unwrap());
    assert_eq!(other.tip(&dusk()).unwrap(), journal.tip(&dusk()).unwrap());
    for n in 0..200 {
        let id = n.to_string();
        assert_eq!(found(other.as_ref(), &id).unwrap(), found(journal.as_ref(), &id).unwrap());
    }
    assert!(other.check().unwrap().is_sound());
    assert_eq!(restore(&file, other.as_ref()), Err(JournalError::NotEmpty(202)));
}

fn a_copy_taken_in_use_is_consistent<H: Home>(home: &H) {
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(home);
    let alike = |seq: Seq| ["a", "b"].map(|name| part(name, &seq.number().to_be_bytes())).to_vec();
    let first = journal.append(unkeyed(b"first")).wait().unwrap();
    journal.checkpoint(&dusk(), None, first.number(), alike(first)).unwrap();
    let done = AtomicBool::new(false);
    std::thread::scope(|scope| {
        scope.spawn(|| {
            for n in 0_u64.. {
                if done.load(Ordering::Relaxed) {
                    return;
                }
                let seq = journal.append(unkeyed(&n.to_be_bytes())).wait().unwrap();
                journal.checkpoint(&dusk(), None, seq.number(), alike(seq)).unwrap();
            }
        });
        // Ends the writer even where an assertion ends this.
        let _done = StopOnDrop(&done);
        for _ in 0..5 {
            let file = folder.path().join("backup");
            let copied = backup(journal.as_ref(), &file).unwrap();
            let elsewhere = H::new();
            let other = elsewhere.open();
            restore(&file, other.as_ref()).unwrap();
            let entries = all(other.as_ref()).unwrap();
            assert_eq!(entries.len() as u64, copied.entries);
            assert_eq!(entries, all(journal.as_ref()).unwrap()[..entries.len()]);
            let snapshot = other.snapshot(&dusk()).unwrap();
            assert!(Some(Seq::new(snapshot.through)) <= other.last());
            assert_eq!(snapshot.parts[0].bytes, snapshot.parts[1].bytes);
        }
    });
}

struct StopOnDrop<'a>(&'a AtomicBool);

impl Drop for StopOnDrop<'_> {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

fn a_copy_that_is_not_whole_is_refused_before_anything_is_written<H: Home>(home: &H) {
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(home);
    let file = folder.path().join("backup");
    backup(journal.as_ref(), &file).unwrap();
    let sound = fs::read(&file).unwrap();
    let elsewhere = H::new();
    let other = elsewhere.open();
    let mut broken: Vec<Vec<u8>> = [0, 10, 17, 100, sound.len() / 2, sound.len() - 1]
        .iter()
        .map(|&at| sound[..at].to_vec())
        .collect();
    broken.extend([3, 20, 25, 9_100, sound.len() / 2, sound.len() - 1].map(|at| {
        let mut flipped = sound.clone();
        flipped[at] ^= 0x10;
        flipped
    }));
    for bytes in broken {
        fs::write(&file, &bytes).unwrap();
        let refused = restore(&file, other.as_ref());
        assert!(
            matches!(refused, Err(JournalError::BadBackup { .. })),
            "{} bytes: {refused:?}",
            bytes.len()
        );
        assert_eq!(other.last(), None);
    }
}

fn what_makes_no_sense_is_refused_before_anything_is_written<H: Home>(home: &H) {
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(home);
    let file = folder.path().join("backup");
    backup(journal.as_ref(), &file).unwrap();
    let elsewhere = H::new();
    let other = elsewhere.open();
    let mut look = |restored: Restored<'_>| match restored {
        Restored::Entry(placed) if placed.place == Seq::new(9) => Err("no".to_owned()),
        _ => Ok(()),
    };
    let refused = lapwing::journal::restore(&file, other.as_ref(), &mut look);
    assert!(matches!(refused, Err(JournalError::BadBackup { .. })), "{refused:?}");
    assert_eq!(other.last(), None);
}

/// What a repair told of as lost stays told of, in whichever journal it comes to.
fn a_copy_with_a_gap_says_what_is_gone<H: Home>(home: &H) {
    let folder = tempfile::tempdir().unwrap();
    let (path, file) = (folder.path().join("damaged"), folder.path().join("backup"));
    let journal = SledJournal::open(&path).unwrap();
    for n in 0..60_u8 {
        journal.append(keyed(&n.to_string(), &[n; 40])).wait().unwrap();
    }
    drop(journal);
    let log = log_files(&path).pop().unwrap();
    let mut bytes = fs::read(&log).unwrap();
    let at = bytes.windows(40).position(|words| words == [7; 40]).unwrap();
    bytes[at] ^= 1;
    fs::write(&log, bytes).unwrap();
    let repaired = lapwing::journal::repair(&path, None, &[]).unwrap();
    assert_eq!((repaired.entries, repaired.lost.len()), (59, 1));
    let journal = SledJournal::open(&path).unwrap();
    backup(&journal, &file).unwrap();

    let other = home.open();
    restore(&file, other.as_ref()).unwrap();
    assert_eq!(all(other.as_ref()).unwrap(), all(&journal).unwrap());
    assert_eq!(other.entry(Seq::new(8)).unwrap(), None);
    let checked = other.check().unwrap();
    assert_eq!((checked.entries, checked.lost, checked.faults), (59, 1, 0), "{checked:?}");
    assert_eq!(other.append(unkeyed(b"next")).wait().unwrap(), Seq::new(61));
    assert_eq!(other.tip(&dusk()).unwrap().unwrap().number, 61);
    assert!(other.check().unwrap().is_sound());
}

/// From a folder into a database and back: each entry with its place, number and mark.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_journal_moves_to_a_database_and_back() {
    let (folder, database, back) = (Folder::new(), Database::new(), Folder::new());
    let (first, second, third) = (filled(&folder), database.open(), back.open());
    let files = tempfile::tempdir().unwrap();
    let placed = |journal: &dyn Journal| -> Vec<Placed> {
        journal.entries_of(&StreamId::all(), 0).map(Result::unwrap).collect()
    };
    for (from, to) in [(&first, &second), (&second, &third)] {
        let file = files.path().join("copy");
        backup(from.as_ref(), &file).unwrap();
        restore(&file, to.as_ref()).unwrap();
        assert_eq!(placed(to.as_ref()), placed(first.as_ref()));
        assert_eq!(to.snapshot(&dusk()), first.snapshot(&dusk()));
        assert!(to.check().unwrap().is_sound());
    }
    // Both go on alike.
    let on = |journal: &dyn Journal| {
        journal.append(keyed("gw-next", b"next")).wait().unwrap();
        journal.tip(&StreamId::all()).unwrap()
    };
    assert_eq!(on(first.as_ref()), on(second.as_ref()));
}

#[cfg(unix)]
#[test]
fn a_copy_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(&Folder::new());
    let file = folder.path().join("backup");
    backup(journal.as_ref(), &file).unwrap();
    assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o600);
    assert!(!folder.path().join("backup.unfinished").exists());
}
