//! Writing entries anew: what is left out is in no file, what stays is where it
//! was, others read and write meanwhile, and a kill leaves every entry the one or
//! the other.

use super::*;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::thread;
use std::time::{Duration, Instant};

use crate::home::{Home, in_both};

in_both!(
    what_is_left_out_can_be_read_no_more,
    an_empty_journal_and_one_that_may_not_change,
    others_go_on_meanwhile,
    a_check_beside_an_erasure_finds_nothing_wrong,
);

/// Which folder to revise; set only in the process that is to be killed.
const REVISE: &str = "LAPWING_TEST_REVISE";

/// What is to go, and what comes in its place.
const WORDS: &[u8] = b"sentinel-of-heron";
const GONE: &[u8] = b"gone";

/// Every third entry is to go.
fn body(number: u64) -> Vec<u8> {
    let words = if number.is_multiple_of(3) { WORDS } else { b"teal" };
    let length = if number.is_multiple_of(50) { 900 } else { 4 };
    [words, b" ", number.to_string().as_bytes()].concat().repeat(length)
}

/// The store of a folder that was open a moment ago: a process that another test
/// starts just then may hold the lock until it has become another program.
fn reopened(folder: &Path) -> SledJournal {
    let until = Instant::now() + Duration::from_secs(10);
    loop {
        match SledJournal::open(folder) {
            Err(JournalError::Locked(_)) if Instant::now() < until => {
                thread::sleep(Duration::from_millis(20));
            }
            opened => return opened.unwrap(),
        }
    }
}

/// In four streams, of which the first holds all that is to go, in several files.
fn fill(journal: &dyn Journal, entries: u64) {
    for number in 1..=entries {
        let stream = StreamId(format!("s/{}", number % 3));
        let entry = Entry { stream, ..keyed(&format!("gw-{number}"), &body(number)) };
        let ticket = journal.append(entry);
        if number.is_multiple_of(entries / 3 + 1) {
            ticket.wait().unwrap();
            journal.revise(&[], &mut |_| Ok(None)).unwrap();
        } else if number == entries {
            ticket.wait().unwrap();
        }
    }
    let parts = vec![part("swimmer/sentinel-of-heron", WORDS), part("head", b"before")];
    journal.checkpoint(&of_heron(), None, entries / 3, parts.clone()).unwrap();
    journal.checkpoint(&StreamId("s/1".into()), None, 1, vec![part("head", b"teal")]).unwrap();
}

fn of_heron() -> StreamId {
    StreamId("s/0".into())
}

fn without(placed: &Placed) -> Result<Option<Entry>, JournalError> {
    let entry = &placed.entry;
    let goes = entry.body.windows(WORDS.len()).any(|words| words == WORDS);
    let key = entry.key.as_ref().map(MessageKey::erased);
    Ok(goes.then(|| Entry { key, body: GONE.to_vec(), ..entry.clone() }))
}

fn revise(journal: &dyn Journal) -> Result<(), JournalError> {
    let change: &mut Change<'_> = &mut without;
    journal.revise(&[of_heron()], change)
}

/// The files that hold the words.
fn holding(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(folder) = folders.pop() {
        for file in fs::read_dir(folder).unwrap() {
            let path = file.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if fs::read(&path).unwrap().windows(WORDS.len()).any(|bytes| bytes == WORDS) {
                found.push(path);
            }
        }
    }
    found
}

/// That the journal is sound and every entry is what it was or what is to come in
/// its place; how many are that.
fn revised(journal: &dyn Journal, entries: u64) -> u64 {
    let checked = journal.check().unwrap();
    assert!(checked.is_sound(), "{:?}", checked.damage);
    let log = all(journal).unwrap();
    assert!(log.len() as u64 >= entries);
    let mut gone = 0;
    for (seq, entry) in log.into_iter().take(entries as usize) {
        let number = seq.number();
        let is_gone = number.is_multiple_of(3) && entry.body == GONE;
        assert!(is_gone || entry.body == body(number), "{number}");
        gone += u64::from(is_gone);
        assert_eq!(found(journal, &format!("gw-{number}")).unwrap(), Some((seq, entry)));
    }
    gone
}

#[test]
fn what_is_left_out_is_in_no_file() {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    fill(&journal, 402);
    let tips: Vec<_> = [0, 1, 2].map(|n| journal.tip(&StreamId(format!("s/{n}"))).unwrap()).into();
    assert!(!holding(folder.path()).is_empty(), "the words were never stored");
    assert_eq!(revised(&journal, 402), 0);

    revise(&journal).unwrap();
    assert_eq!(holding(folder.path()), Vec::<PathBuf>::new());
    assert_eq!(revised(&journal, 402), 134);
    let now: Vec<_> = [0, 1, 2].map(|n| journal.tip(&StreamId(format!("s/{n}"))).unwrap()).into();
    assert_eq!(now, tips);
    assert_eq!(journal.snapshot(&of_heron()).unwrap(), Default::default());
    assert_eq!(journal.snapshot(&StreamId("s/1".into())).unwrap().parts, [part("head", b"teal")]);
    let next = journal.append(keyed("gw-403", &body(403))).wait().unwrap();
    assert_eq!(next, Seq::new(403));
    assert_no_blobs(folder.path());
    drop(journal);
    let journal = SledJournal::open(folder.path()).unwrap();
    assert_eq!((journal.state(), journal.last()), (State::Writable, Some(Seq::new(403))));
    assert_eq!(revised(&journal, 402), 134);

    let copy = folder.path().join("copy");
    lapwing::journal::backup(&journal, &copy).unwrap();
    let again = SledJournal::open(folder.path().join("restored")).unwrap();
    lapwing::journal::restore(&copy, &again, &mut |_| Ok(())).unwrap();
    assert_eq!(revised(&again, 402), 134);
    assert_eq!(again.tip(&of_heron()).unwrap(), tips[0]);
}

/// Everything else stays where it was, with its mark; the others' snapshots too.
fn what_is_left_out_can_be_read_no_more(home: &impl Home) {
    let journal = home.open();
    fill(journal.as_ref(), 402);
    let tips = |journal: &dyn Journal| {
        [0, 1, 2].map(|n| journal.tip(&StreamId(format!("s/{n}"))).unwrap())
    };
    let before = tips(journal.as_ref());
    revise(journal.as_ref()).unwrap();
    assert_eq!(revised(journal.as_ref(), 402), 134);
    assert_eq!(tips(journal.as_ref()), before);
    assert_eq!(journal.snapshot(&of_heron()).unwrap(), Default::default());
    assert_eq!(journal.snapshot(&StreamId("s/1".into())).unwrap().parts, [part("head", b"teal")]);
    assert_eq!(journal.append(keyed("gw-403", &body(403))).wait().unwrap(), Seq::new(403));
    let journal = home.again(journal);
    assert_eq!((journal.state(), journal.last()), (State::Writable, Some(Seq::new(403))));
    assert_eq!(revised(journal.as_ref(), 402), 134);
}

/// A copy from before holds what was erased: neither putting one file back nor
/// mending with it brings it back unnoticed.
#[test]
fn what_was_erased_does_not_come_back_with_an_old_copy() {
    let folder = tempfile::tempdir().unwrap();
    let (path, copy) = (folder.path().join("journal"), folder.path().join("copy"));
    let journal = SledJournal::open(&path).unwrap();
    fill(&journal, 90);
    lapwing::journal::backup(&journal, &copy).unwrap();
    revise(&journal).unwrap();
    drop(journal);
    // A file is gone that held some of what was erased.
    fs::remove_file(&log_files(&path)[1]).unwrap();
    let journal = SledJournal::open(&path).unwrap();
    assert!(matches!(journal.state(), State::ReadOnly(_)));
    drop(journal);
    let repaired = lapwing::journal::repair(&path, None, &[copy]).unwrap();
    fs::remove_dir_all(&repaired.kept).unwrap();
    assert_eq!(holding(&path), Vec::<PathBuf>::new());
    let journal = SledJournal::open(&path).unwrap();
    assert_eq!(journal.state(), State::Writable);
    let log = all(&journal).unwrap();
    // What nobody wished away came back; what was erased is erased or lost.
    assert_eq!(log.iter().filter(|(seq, _)| !seq.number().is_multiple_of(3)).count(), 60);
    assert!(repaired.from_copies > 0 && !repaired.lost.is_empty(), "{repaired:?}");
}

/// A cut comes after it was written down what is to change and before the file is
/// there: what stands in the log is not changed, and no repair takes it for lost.
#[test]
fn what_was_only_to_be_changed_is_not_lost() {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    fill(&journal, 90);
    drop(journal);
    // The generation of a file that is nowhere, and the first places of all.
    let changing: Vec<u8> = (0..30_u64).flat_map(u64::to_le_bytes).collect();
    fs::write(folder.path().join("log/changing"), changing).unwrap();
    let repaired = lapwing::journal::repair(folder.path(), None, &[]).unwrap();
    assert_eq!((repaired.entries, repaired.lost), (90, vec![]));
    let journal = reopened(folder.path());
    revise(&journal).unwrap();
    assert_eq!(revised(&journal, 90), 30);
}

/// What a repair could not bring back holds nothing that is to go.
#[test]
fn what_was_lost_is_not_looked_at() {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    fill(&journal, 90);
    drop(journal);
    let file = folder.path().join("log/00000000000000000001.log");
    let mut bytes = fs::read(&file).unwrap();
    let words = [WORDS, b" 6"].concat();
    let at = bytes.windows(words.len()).position(|bytes| bytes == words).unwrap();
    bytes[at] ^= 1;
    fs::write(&file, bytes).unwrap();
    let repaired = lapwing::journal::repair(folder.path(), None, &[]).unwrap();
    assert_eq!((repaired.entries, repaired.lost.len()), (89, 1));
    let journal = reopened(folder.path());
    let mut looked_at = Vec::new();
    let change: &mut Change<'_> = &mut |placed| {
        looked_at.push(placed.place.number());
        without(placed)
    };
    journal.revise(&[of_heron(), StreamId::all()], change).unwrap();
    let expected: Vec<u64> = (1..=30).map(|n| n * 3).filter(|n| *n != 6).collect();
    assert_eq!(looked_at, expected);
    assert_eq!(journal.check().unwrap().damage, Vec::<String>::new());
}

fn an_empty_journal_and_one_that_may_not_change(home: &impl Home) {
    let journal = home.open();
    revise(journal.as_ref()).unwrap();
    assert_eq!(journal.last(), None);
    fill(journal.as_ref(), 9);
    let refusal = JournalError::Damaged("no".into());
    let refused = journal.revise(&[of_heron()], &mut |_| Err(refusal.clone()));
    assert_eq!(refused, Err(refusal));
    assert_eq!(revised(journal.as_ref(), 9), 0);
    assert_eq!(journal.append(unkeyed(b"teal")).wait().unwrap(), Seq::new(10));
    journal.close();
    assert_eq!(revise(journal.as_ref()), Err(JournalError::Closed));
}

/// Whoever appends or looks up meanwhile is not kept waiting.
fn others_go_on_meanwhile(home: &impl Home) {
    let journal = home.open();
    fill(journal.as_ref(), 3_000);
    let done = std::sync::atomic::AtomicBool::new(false);
    let appended = thread::scope(|scope| {
        let others = scope.spawn(|| {
            let mut number = 3_000;
            while !done.load(std::sync::atomic::Ordering::Relaxed) {
                number += 1;
                journal.append(keyed(&format!("gw-{number}"), b"wren")).wait().unwrap();
                assert!(found(journal.as_ref(), "gw-3").unwrap().is_some());
                thread::sleep(Duration::from_micros(200));
            }
            number
        });
        for _ in 0..3 {
            revise(journal.as_ref()).unwrap();
        }
        done.store(true, std::sync::atomic::Ordering::Relaxed);
        others.join().unwrap()
    });
    assert!(appended > 3_000, "nothing was appended meanwhile");
    assert_eq!(revised(journal.as_ref(), 3_000), 1_000);
    assert_eq!(journal.last(), Some(Seq::new(appended)));
}

#[test]
fn a_kill_leaves_every_entry_the_one_or_the_other() {
    const ENTRIES: u64 = 3_000;
    if let Some(folder) = std::env::var_os(REVISE) {
        revise(&SledJournal::open(folder).unwrap()).unwrap();
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    fill(&SledJournal::open(folder.path().join("first")).unwrap(), ENTRIES);
    let copy = |name: &str| {
        let to = folder.path().join(name);
        copy_folder(&folder.path().join("first"), &to);
        to
    };
    let begin = |path: &Path| {
        Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "revise::a_kill_leaves_every_entry_the_one_or_the_other"])
            .env(REVISE, path)
            .stdout(Stdio::null())
            .spawn()
            .unwrap()
    };
    let begun = Instant::now();
    assert!(begin(&copy("whole")).wait().unwrap().success());
    let whole = begun.elapsed();
    let mut unfinished = 0;
    for point in 5..=20_u32 {
        let path = copy("killed");
        let mut child = begin(&path);
        thread::sleep(whole * point / 20);
        let _ = child.kill();
        child.wait().unwrap();
        let journal = SledJournal::open(&path).unwrap();
        assert_eq!(journal.state(), State::Writable);
        unfinished += u32::from(revised(&journal, ENTRIES) < ENTRIES / 3);
        // Done again, it ends where it would have ended.
        revise(&journal).unwrap();
        assert_eq!(revised(&journal, ENTRIES), ENTRIES / 3);
        assert_eq!(holding(&path), Vec::<PathBuf>::new());
        drop(journal);
        fs::remove_dir_all(&path).unwrap();
    }
    println!("16 kills within {whole:?}: {unfinished} before the end");
    assert!(unfinished > 0, "no kill came in time");
}

/// Files change places while they are read: none of that is a fault.
fn a_check_beside_an_erasure_finds_nothing_wrong(home: &impl Home) {
    let journal = home.open();
    fill(journal.as_ref(), 2_000);
    let eraser = {
        let journal = Arc::clone(&journal);
        // Each time something else is written, so that each time every file is.
        thread::spawn(move || {
            for round in 0..12_u8 {
                let change = &mut |placed: &Placed| {
                    let body = vec![round; placed.entry.body.len().min(60)];
                    Ok(Some(Entry { body, ..placed.entry.clone() }))
                };
                journal.revise(&[of_heron()], change).unwrap();
            }
        })
    };
    let mut checks = 0;
    while !eraser.is_finished() {
        assert_eq!(journal.check().unwrap().damage, Vec::<String>::new());
        checks += 1;
    }
    eraser.join().unwrap();
    assert!(checks > 0);
}
