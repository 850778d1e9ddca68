//! Writing the journal anew: what is left out is in no file, what stays is
//! where it was, and a kill leaves the one log or the other.

use super::*;

use std::fs;
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::thread;
use std::time::Instant;

/// Which folder to rewrite; set only in the process that is to be killed.
const REWRITE: &str = "LAPWING_TEST_REWRITE";

/// What is to go, and what comes in its place.
const WORDS: &[u8] = b"sentinel-of-heron";
const GONE: &[u8] = b"gone";

/// Every third entry is to go; some are long enough to be cut in pieces.
fn body(number: u64) -> Vec<u8> {
    let words = if number.is_multiple_of(3) { WORDS } else { b"teal" };
    let length = if number.is_multiple_of(50) { 900 } else { 4 };
    [words, b" ", number.to_string().as_bytes()].concat().repeat(length)
}

fn fill(journal: &SledJournal, entries: u64) {
    let tickets: Vec<_> = (1..=entries)
        .map(|number| journal.append(keyed(&format!("gw-{number}"), &body(number))))
        .collect();
    for ticket in tickets {
        ticket.wait().unwrap();
    }
    let through = journal.last().unwrap();
    let parts = vec![part("swimmer/sentinel-of-heron", WORDS), part("squad", b"before")];
    journal.checkpoint(through, parts).wait().unwrap();
}

fn rewrite(journal: &SledJournal) -> Result<(), JournalError> {
    let mut change = |_: Seq, entry: Entry| {
        let goes = entry.body.windows(WORDS.len()).any(|words| words == WORDS);
        let key = entry.key.map(|key| if goes { key.erased() } else { key });
        Ok(Entry { key, body: if goes { GONE.to_vec() } else { entry.body } })
    };
    journal.rewrite(&mut change, &mut || Ok(vec![part("squad", b"after")]))
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

/// That the journal is sound and of one piece; true if it is the new one.
fn is_rewritten(journal: &SledJournal, entries: u64) -> bool {
    assert!(journal.check().unwrap().is_sound());
    let log = all(journal).unwrap();
    assert_eq!(log.len() as u64, entries);
    let after = journal.snapshot().unwrap().parts == [part("squad", b"after")];
    for (seq, entry) in log {
        let number = seq.number();
        let goes = after && number.is_multiple_of(3);
        assert_eq!(entry.body, if goes { GONE.to_vec() } else { body(number) });
        let found = journal.find(&key(&format!("gw-{number}"))).unwrap();
        assert_eq!(found, Some((seq, entry)));
    }
    after
}

#[test]
fn what_is_left_out_is_in_no_file() {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    fill(&journal, 400);
    assert!(!holding(folder.path()).is_empty(), "the words were never stored");
    assert!(!is_rewritten(&journal, 400));

    rewrite(&journal).unwrap();
    assert_eq!(holding(folder.path()), Vec::<PathBuf>::new());
    assert!(is_rewritten(&journal, 400));
    assert_eq!(journal.snapshot().unwrap().through, Some(Seq::new(400)));
    let next = journal.append(keyed("gw-401", &body(401))).wait().unwrap();
    assert_eq!(next, Seq::new(401));
    assert_no_blobs(folder.path());

    let copy = folder.path().join("copy");
    lapwing::journal::backup(&journal, &copy).unwrap();
    assert_eq!(holding(folder.path()), Vec::<PathBuf>::new());
    drop(journal);

    let again = SledJournal::open(folder.path().join("restored")).unwrap();
    lapwing::journal::restore(&copy, &again).unwrap();
    assert_eq!(again.find(&key("gw-3")).unwrap().unwrap().0, Seq::new(3));
    let journal = SledJournal::open(folder.path()).unwrap();
    assert_eq!(journal.last(), Some(Seq::new(401)));
}

#[test]
fn an_empty_journal_and_one_that_may_not_change() {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    rewrite(&journal).unwrap();
    assert_eq!(journal.last(), None);
    fill(&journal, 9);
    let refusal = JournalError::Damaged("no".into());
    let refused = journal.rewrite(&mut |_, _| Err(refusal.clone()), &mut || Ok(vec![]));
    assert_eq!(refused, Err(refusal));
    assert!(!is_rewritten(&journal, 9));
    assert_eq!(journal.append(unkeyed(b"teal")).wait().unwrap(), Seq::new(10));
    journal.close();
    assert_eq!(rewrite(&journal), Err(JournalError::Closed));
}

/// A cut between any two steps by which the stores change places.
#[test]
fn a_cut_between_two_steps_is_finished_or_forgotten() {
    let folder = tempfile::tempdir().unwrap();
    let (old, new) = (folder.path().join("old"), folder.path().join("new"));
    for (path, rewritten) in [(&old, false), (&new, true)] {
        let journal = SledJournal::open(path).unwrap();
        fill(&journal, 60);
        if rewritten {
            rewrite(&journal).unwrap();
        }
    }
    let cases: [(&str, &[&str], bool); 4] = [
        ("a draft that is not whole", &["sled", "sled.draft"], false),
        ("a draft declared whole", &["sled", "sled.next"], true),
        ("the old one half removed", &["sled.half", "sled.next"], true),
        ("the old one removed", &["sled.next"], true),
    ];
    for (name, stores, expected) in cases {
        let path = folder.path().join("cut");
        let _ = fs::remove_dir_all(&path);
        fs::create_dir(&path).unwrap();
        fs::copy(old.join("format"), path.join("format")).unwrap();
        for store in stores {
            let from =
                if store.starts_with("sled.n") || store.ends_with("draft") { &new } else { &old };
            let to = path.join(store.trim_end_matches(".half"));
            fs::create_dir_all(to.join("blobs")).unwrap();
            for file in ["conf", "db"] {
                fs::copy(from.join("sled").join(file), to.join(file)).unwrap();
            }
            if store.ends_with(".half") || store.ends_with("draft") {
                fs::remove_file(to.join("db")).unwrap();
            }
        }
        let journal = SledJournal::open(&path).unwrap();
        assert_eq!(is_rewritten(&journal, 60), expected, "{name}");
        assert!(!path.join("sled.draft").exists() && !path.join("sled.next").exists(), "{name}");
        assert_eq!(holding(&path).is_empty(), expected, "{name}");
    }
}

#[test]
fn a_kill_leaves_the_one_log_or_the_other() {
    const ENTRIES: u64 = 1_200;
    if let Some(folder) = std::env::var_os(REWRITE) {
        rewrite(&SledJournal::open(folder).unwrap()).unwrap();
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    fill(&SledJournal::open(folder.path().join("first")).unwrap(), ENTRIES);
    let copy = |name: &str| {
        let to = folder.path().join(name);
        fs::create_dir_all(to.join("sled/blobs")).unwrap();
        for file in ["format", "sled/conf", "sled/db"] {
            fs::copy(folder.path().join("first").join(file), to.join(file)).unwrap();
        }
        to
    };
    let begin = |path: &Path| {
        Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "rewrite::a_kill_leaves_the_one_log_or_the_other"])
            .env(REWRITE, path)
            .stdout(Stdio::null())
            .spawn()
            .unwrap()
    };
    let begun = Instant::now();
    assert!(begin(&copy("whole")).wait().unwrap().success());
    let whole = begun.elapsed();
    let (mut before, mut after) = (0, 0);
    for point in 5..=20_u32 {
        let path = copy("killed");
        let mut child = begin(&path);
        thread::sleep(whole * point / 20);
        let _ = child.kill();
        child.wait().unwrap();
        let journal = SledJournal::open(&path).unwrap();
        match is_rewritten(&journal, ENTRIES) {
            true => {
                after += 1;
                assert_eq!(holding(&path), Vec::<PathBuf>::new());
            }
            false => before += 1,
        }
        assert!(!path.join("sled.draft").exists() && !path.join("sled.next").exists());
        assert_eq!(journal.append(unkeyed(b"teal")).wait().unwrap(), Seq::new(ENTRIES + 1));
        drop(journal);
        fs::remove_dir_all(&path).unwrap();
    }
    println!("16 kills within {whole:?}: {before} before, {after} after");
    assert!(before > 0, "no kill came in time");
}
