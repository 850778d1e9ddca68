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
    fs::write(folder.path().join("format"), "lapwing journal 2\n").unwrap();
    let refused = SledJournal::open(folder.path()).err();
    assert_eq!(
        refused,
        Some(JournalError::Newer { folder: folder.path().to_owned(), found: 2, known: 1 })
    );
    assert_eq!(fs::read_to_string(folder.path().join("format")).unwrap(), "lapwing journal 2\n");
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
        "lapwing journal 1 half\n",
        "1",
    ] {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("format"), marker).unwrap();
        let refused = SledJournal::open(folder.path()).err();
        assert!(matches!(refused, Some(JournalError::NotOurs { .. })), "{marker:?}: {refused:?}");
    }
}

#[test]
fn a_start_that_was_cut_off_is_finished_by_the_next() {
    // As it stands after each step of a first start.
    let steps: [&dyn Fn(&Path); 3] = [
        &|folder| fs::write(folder.join("lock"), "").unwrap(),
        &|folder| fs::write(folder.join("format"), "lapwing journal 1 unfinished\n").unwrap(),
        &|folder| {
            fs::write(folder.join("format"), "lapwing journal 1 unfinished\n").unwrap();
            drop(sled::Config::new().path(folder.join("sled")).open().unwrap());
        },
    ];
    for step in steps {
        let folder = tempfile::tempdir().unwrap();
        step(folder.path());
        let journal = SledJournal::open(folder.path()).unwrap();
        journal.append(unkeyed(b"wren")).wait().unwrap();
        drop(journal);
        assert_eq!(
            fs::read_to_string(folder.path().join("format")).unwrap(),
            "lapwing journal 1\n"
        );
        assert_eq!(SledJournal::open(folder.path()).unwrap().last(), Some(Seq::new(1)));
    }
}

#[test]
fn a_store_that_lost_its_contents_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path()).unwrap();
    journal.append(unkeyed(b"wren")).wait().unwrap();
    drop(journal);
    fs::remove_dir_all(folder.path().join("sled")).unwrap();
    let refused = SledJournal::open(folder.path()).err();
    assert!(matches!(refused, Some(JournalError::Damaged(_))), "{refused:?}");
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
        for path in [folder.clone(), folder.join("sled")] {
            assert_eq!(
                fs::metadata(&path).unwrap().permissions().mode() & 0o777,
                0o700,
                "{}",
                path.display()
            );
        }
    }
}
