//! A disk that fills up, and has space again later: on a small file system in
//! memory, mounted where only the test's own process sees it.

use super::*;

use std::fs;
use std::process::Command;
use std::sync::atomic::{AtomicU64, Ordering};

/// Where the small file system is; set only in the process that has it.
const SMALL_DISK: &str = "LAPWING_TEST_SMALL_DISK";

const TEST: &str = "full_disk::a_full_disk_loses_nothing_and_is_cured_in_place";

#[test]
fn a_full_disk_loses_nothing_and_is_cured_in_place() {
    if let Some(disk) = std::env::var_os(SMALL_DISK) {
        return fill_and_free(Path::new(&disk));
    }
    let disk = tempfile::tempdir().unwrap();
    // A name space of its own, so that the mount ends with the process; the
    // user's own one too, so that it takes no privilege where that is allowed.
    let output = Command::new("unshare")
        .args(["--user", "--map-root-user", "--mount", "sh", "-ec"])
        .arg(r#"mount -t tmpfs -o size=24m tmpfs "$LAPWING_TEST_SMALL_DISK"; exec "$0" --exact "$1" --nocapture"#)
        .arg(std::env::current_exe().unwrap())
        .arg(TEST)
        .env(SMALL_DISK, disk.path())
        .output()
        .expect("this test needs `unshare` (util-linux)");
    let said = format!(
        "{}{}",
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr)
    );
    assert!(output.status.success() && said.contains("1 passed"), "{}: {said}", output.status);
}

fn fill_and_free(disk: &Path) {
    let ballast = disk.join("ballast");
    fs::write(&ballast, vec![1; 8 << 20]).unwrap();
    let journal = SledJournal::open(disk.join("journal")).unwrap();
    let mut acknowledged = Vec::new();
    for cycle in 0..2 {
        let full = fill(&journal, cycle, &mut acknowledged);
        assert!(matches!(full, JournalError::Full { .. }), "{full:?}");
        assert!(full.to_string().contains("disk is full"), "{full}");

        // Still full: nothing may be written, and nothing wrong may be read.
        assert_eq!(journal.append(unkeyed(b"late")).wait(), Err(full));
        assert_right_or_refused(&journal, &acknowledged);
        assert!(matches!(journal.reopen(), Err(JournalError::Full { .. })));
        assert_right_or_refused(&journal, &acknowledged);

        // Space alone cures nothing; reopening does.
        if cycle == 0 {
            fs::remove_file(&ballast).unwrap();
        } else {
            fs::remove_file(disk.join("filler")).unwrap();
        }
        assert!(journal.append(unkeyed(b"too soon")).wait().is_err());
        journal.reopen().unwrap();
        assert_whole(&journal, &acknowledged);
        let entry = keyed(&format!("cured-{cycle}"), b"wren");
        acknowledged.push((journal.append(entry.clone()).wait().unwrap(), entry));
        assert_whole(&journal, &acknowledged);
        if cycle == 0 {
            // Leaves 2 MiB for the second time.
            let free = 24 * 1024 * 1024 - used(disk);
            fs::write(disk.join("filler"), vec![2; (free - (2 << 20)) as usize]).unwrap();
        }
    }
    journal.close();
    let journal = SledJournal::open(disk.join("journal")).unwrap();
    assert_whole(&journal, &acknowledged);
    assert_no_blobs(&disk.join("journal"));
}

/// Appends from four threads until the disk is full; gives the error.
fn fill(journal: &SledJournal, cycle: u32, acknowledged: &mut Vec<(Seq, Entry)>) -> JournalError {
    let next = AtomicU64::new(0);
    let outcomes: Vec<_> = std::thread::scope(|scope| {
        let writers: Vec<_> = (0..4)
            .map(|_| {
                scope.spawn(|| {
                    let mut mine = Vec::new();
                    loop {
                        let n = next.fetch_add(1, Ordering::Relaxed);
                        let entry = keyed(
                            &format!("{cycle}-{n}"),
                            &vec![n as u8; if n.is_multiple_of(20) { 30_000 } else { 700 }],
                        );
                        match journal.append(entry.clone()).wait() {
                            Ok(seq) => mine.push((seq, entry)),
                            Err(error) => return (mine, error),
                        }
                    }
                })
            })
            .collect();
        writers.into_iter().map(|writer| writer.join().unwrap()).collect()
    });
    let mut error = None;
    for (mine, why) in outcomes {
        acknowledged.extend(mine);
        assert_eq!(*error.get_or_insert(why.clone()), why);
    }
    assert!(!acknowledged.is_empty());
    error.unwrap()
}

/// With a full disk below it the store can't always look things up, but what
/// it does give must be right.
fn assert_right_or_refused(journal: &SledJournal, acknowledged: &[(Seq, Entry)]) {
    for (seq, entry) in acknowledged {
        match found(journal, &entry.key.as_ref().unwrap().id) {
            Ok(found) => assert_eq!(found, Some((*seq, entry.clone()))),
            Err(error) => assert!(matches!(error, JournalError::Full { .. }), "{error:?}"),
        }
    }
    assert!(journal.last() >= acknowledged.iter().map(|(seq, _)| *seq).max());
}

fn assert_whole(journal: &SledJournal, acknowledged: &[(Seq, Entry)]) {
    let log = all(journal).unwrap();
    for (seq, entry) in acknowledged {
        assert_eq!(log[seq.number() as usize - 1], (*seq, entry.clone()));
        let id = &entry.key.as_ref().unwrap().id;
        assert_eq!(found(journal, id).unwrap(), Some((*seq, entry.clone())));
    }
    let checked = journal.check().unwrap();
    assert!(checked.is_sound(), "{:?}", checked.damage);
}

fn used(folder: &Path) -> u64 {
    fs::read_dir(folder)
        .unwrap()
        .map(|file| {
            let file = file.unwrap();
            if file.path().is_dir() { used(&file.path()) } else { file.metadata().unwrap().len() }
        })
        .sum()
}
