//! Copies: whole, taken in use, and refused when they are not whole.

use super::*;

use std::fs;
use std::sync::atomic::{AtomicBool, Ordering};

use lapwing::journal::{Copied, Restored, backup};

fn restore(from: &Path, journal: &SledJournal) -> Result<Copied, JournalError> {
    lapwing::journal::restore(from, journal, &mut |_| Ok(()))
}

fn filled(folder: &Path) -> SledJournal {
    let journal = SledJournal::open(folder).unwrap();
    for n in 0..200 {
        let length = if n % 40 == 0 { 50_000 } else { n };
        drop(journal.append(keyed(&n.to_string(), &vec![n as u8; length])));
    }
    let through = journal.append(unkeyed(b"last")).wait().unwrap();
    let parts = vec![part("a", &[1; 9_000]), part("b", b"b")];
    journal.checkpoint(&dusk(), None, through.number(), parts).unwrap();
    journal.append(unkeyed(b"after")).wait().unwrap();
    journal
}

#[test]
fn a_restored_copy_is_the_same_journal() {
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(&folder.path().join("journal"));
    let file = folder.path().join("backup");
    assert_eq!(backup(&journal, &file).unwrap(), Copied { entries: 202, parts: 2 });
    let other = SledJournal::open(folder.path().join("other")).unwrap();
    assert_eq!(restore(&file, &other).unwrap(), Copied { entries: 202, parts: 2 });
    assert_eq!(all(&other).unwrap(), all(&journal).unwrap());
    assert_eq!(other.snapshot(&dusk()).unwrap(), journal.snapshot(&dusk()).unwrap());
    assert_eq!(other.tip(&dusk()).unwrap(), journal.tip(&dusk()).unwrap());
    for n in 0..200 {
        let id = n.to_string();
        assert_eq!(found(&other, &id).unwrap(), found(&journal, &id).unwrap());
    }
    assert!(other.check().unwrap().is_sound());
    assert_eq!(restore(&file, &other), Err(JournalError::NotEmpty(202)));
}

#[test]
fn a_copy_taken_in_use_is_consistent() {
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(&folder.path().join("journal"));
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
        for n in 0..5 {
            let file = folder.path().join("backup");
            let copied = backup(&journal, &file).unwrap();
            let other = SledJournal::open(folder.path().join(format!("other-{n}"))).unwrap();
            restore(&file, &other).unwrap();
            let entries = all(&other).unwrap();
            assert_eq!(entries.len() as u64, copied.entries);
            assert_eq!(entries, all(&journal).unwrap()[..entries.len()]);
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

#[test]
fn a_copy_that_is_not_whole_is_refused_before_anything_is_written() {
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(&folder.path().join("journal"));
    let file = folder.path().join("backup");
    backup(&journal, &file).unwrap();
    let sound = fs::read(&file).unwrap();
    let other = SledJournal::open(folder.path().join("other")).unwrap();
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
        let refused = restore(&file, &other);
        assert!(
            matches!(refused, Err(JournalError::BadBackup { .. })),
            "{} bytes: {refused:?}",
            bytes.len()
        );
        assert_eq!(other.last(), None);
    }
}

#[test]
fn what_makes_no_sense_is_refused_before_anything_is_written() {
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(&folder.path().join("journal"));
    let file = folder.path().join("backup");
    backup(&journal, &file).unwrap();
    let other = SledJournal::open(folder.path().join("other")).unwrap();
    let mut look = |restored: Restored<'_>| match restored {
        Restored::Entry(placed) if placed.place == Seq::new(9) => Err("no".to_owned()),
        _ => Ok(()),
    };
    let refused = lapwing::journal::restore(&file, &other, &mut look);
    assert!(matches!(refused, Err(JournalError::BadBackup { .. })), "{refused:?}");
    assert_eq!(other.last(), None);
}

#[cfg(unix)]
#[test]
fn a_copy_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let journal = filled(&folder.path().join("journal"));
    let file = folder.path().join("backup");
    backup(&journal, &file).unwrap();
    assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o600);
    assert!(!folder.path().join("backup.unfinished").exists());
}
