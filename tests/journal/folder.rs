//! Whose folder it is.

use super::*;

use std::fs;

#[test]
fn a_second_opening_is_refused_as_such() {
    let folder = tempfile::tempdir().unwrap();
    let _open = SledJournal::open(folder.path()).unwrap();
    let refused = SledJournal::open(folder.path()).err();
    assert_eq!(refused, Some(JournalError::Locked(folder.path().to_owned())));
}

#[test]
fn a_newer_format_is_refused_and_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    drop(SledJournal::open(folder.path()).unwrap());
    fs::write(folder.path().join("format"), "lapwing journal 3\n").unwrap();
    let refused = SledJournal::open(folder.path()).err();
    assert_eq!(
        refused,
        Some(JournalError::Newer { folder: folder.path().to_owned(), found: 3, known: 2 })
    );
    assert_eq!(fs::read_to_string(folder.path().join("format")).unwrap(), "lapwing journal 3\n");
}

#[test]
fn an_older_format_is_refused_with_the_way_out() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("format"), "lapwing journal 1\n").unwrap();
    let refused = SledJournal::open(folder.path()).err().unwrap();
    assert!(matches!(refused, JournalError::Older { found: 1, known: 2, .. }), "{refused:?}");
    assert!(refused.to_string().contains("restore"), "{refused}");
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2);
}

#[test]
fn a_store_without_our_marker_is_refused_and_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let store = sled::open(folder.path()).unwrap();
    store.insert("somebody", "else's").unwrap();
    drop(store);
    let before = fs::read_dir(folder.path()).unwrap().count();
    let refused = SledJournal::open(folder.path()).err();
    assert!(matches!(refused, Some(JournalError::NotOurs { .. })), "{refused:?}");
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), before);
}

#[test]
fn a_folder_of_other_files_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("photo.jpg"), "…").unwrap();
    let refused = SledJournal::open(folder.path()).err();
    assert!(matches!(refused, Some(JournalError::NotOurs { .. })), "{refused:?}");
}

#[test]
fn markers_that_we_never_wrote_are_refused() {
    for marker in [
        "",
        "\n",
        "lapwing journal\n",
        "lapwing journal x\n",
        "lapwing journal 0\n",
        "lapwing journal 2\n",
        "lapwing journal 2 00112233445566778899aabbccddeeff half\n",
        "2",
    ] {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("format"), marker).unwrap();
        let refused = SledJournal::open(folder.path()).err();
        assert!(matches!(refused, Some(JournalError::NotOurs { .. })), "{marker:?}: {refused:?}");
    }
}

#[test]
fn a_start_that_was_cut_off_is_finished_by_the_next() {
    let marker = "lapwing journal 2 00112233445566778899aabbccddeeff";
    let unfinished = format!("{marker} unfinished\n");
    // As it stands after each step of a first start.
    let steps: [&dyn Fn(&Path); 3] = [
        &|folder| fs::write(folder.join("lock"), "").unwrap(),
        &|folder| fs::write(folder.join("format"), &unfinished).unwrap(),
        &|folder| {
            fs::write(folder.join("format"), &unfinished).unwrap();
            drop(sled::Config::new().path(folder.join("sled")).open().unwrap());
            fs::create_dir(folder.join("log")).unwrap();
        },
    ];
    for step in steps {
        let folder = tempfile::tempdir().unwrap();
        step(folder.path());
        let journal = SledJournal::open(folder.path()).unwrap();
        journal.append(unkeyed(b"wren")).wait().unwrap();
        drop(journal);
        let line = fs::read_to_string(folder.path().join("format")).unwrap();
        assert!(line.starts_with("lapwing journal 2 ") && !line.contains("unfinished"), "{line}");
        assert_eq!(SledJournal::open(folder.path()).unwrap().last(), Some(Seq::new(1)));
    }
}

#[test]
fn a_journal_that_lost_its_log_takes_nothing_more() {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    journal.append(unkeyed(b"wren")).wait().unwrap();
    drop(journal);
    fs::remove_dir_all(folder.path().join("log")).unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    let State::ReadOnly(why) = journal.state() else { panic!("it takes more") };
    assert!(why.contains("no files") && why.contains("entry 1"), "{why}");
    let refused = journal.append(unkeyed(b"more")).wait();
    assert_eq!(refused, Err(JournalError::ReadOnly(why)));
}

#[test]
fn lost_snapshots_are_made_anew() {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    journal.append(unkeyed(b"wren")).wait().unwrap();
    journal.checkpoint(&dusk(), None, 1, vec![part("a", b"1")]).unwrap();
    drop(journal);
    for harm in [false, true] {
        match harm {
            false => fs::remove_dir_all(folder.path().join("sled")).unwrap(),
            true => fs::write(folder.path().join("sled/db"), vec![0x5A; 100_000]).unwrap(),
        }
        let journal = SledJournal::open(folder.path()).unwrap();
        assert_eq!(journal.state(), State::Writable);
        assert_eq!(journal.snapshot(&dusk()).unwrap(), Default::default());
        assert_eq!(all(&journal).unwrap().len(), 1);
        journal.checkpoint(&dusk(), None, 1, vec![part("a", b"1")]).unwrap();
    }
}

#[cfg(unix)]
#[test]
fn the_folder_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt;
    let outer = tempfile::tempdir().unwrap();
    let fresh = outer.path().join("deep/journal");
    let given = outer.path().join("given");
    fs::create_dir(&given).unwrap();
    fs::set_permissions(&given, fs::Permissions::from_mode(0o755)).unwrap();
    for folder in [fresh, given] {
        let _journal = SledJournal::open(&folder).unwrap();
        for path in [folder.clone(), folder.join("sled"), folder.join("log")] {
            assert_eq!(
                fs::metadata(&path).unwrap().permissions().mode() & 0o777,
                0o700,
                "{}",
                path.display()
            );
        }
    }
}

/// More ids than are kept in memory: after a start they are known as before.
#[test]
fn ids_are_known_beyond_those_in_memory() {
    const MANY: u64 = 90_000;
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    let put = |number: u64| journal.append(keyed(&number.to_string(), b"swum"));
    let tickets: Vec<_> = (1..=MANY).map(put).collect();
    for ticket in tickets {
        ticket.wait().unwrap();
    }
    drop(journal);
    let journal = SledJournal::open(folder.path()).unwrap();
    for number in (1..=MANY).step_by(89) {
        let found = journal.find(&key(&number.to_string())).unwrap();
        assert_eq!(found.map(|placed| placed.place.number()), Some(number));
        assert_eq!(journal.find(&key(&(number + MANY).to_string())).unwrap(), None);
    }
    assert!(journal.check().unwrap().is_sound());
    let log = fs::read_dir(folder.path().join("log")).unwrap();
    let left: Vec<_> = log.map(|file| file.unwrap().file_name()).collect();
    assert_eq!(left.len(), 1, "{left:?}");
}
