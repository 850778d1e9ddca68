//! Commands over a database.

use std::fs;

use crate::program::{lapwing, printed, refused};
use crate::server::server;
use crate::{machine, machine_without};

#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_folders_journal_moves_to_a_database_and_back() {
    let dir = tempfile::tempdir().unwrap();
    let url = server().new_address();
    let here = |arguments: &[&str]| printed(lapwing(dir.path(), arguments));
    let there = |arguments: &[&str]| {
        printed(machine(dir.path(), &url, &[arguments, &["--data", "m"]].concat()))
    };
    here(&["squad", "add", "Dawn", "--coach", "+15550100"]);
    here(&["backup", "first"]);
    let checked = here(&["check"]);
    assert!(there(&["restore", "first"]).contains("restored to postgres://"));
    assert!(there(&["check"]).ends_with("sound\n"));
    there(&["squad", "add", "Dusk", "--coach", "+15550100"]);
    assert!(there(&["squad", "list"]).contains("Dawn"));
    assert!(there(&["squad", "list"]).contains("Dusk"));
    assert_eq!(here(&["check"]), checked);

    there(&["backup", "second"]);
    here(&["restore", "second", "--data", "back"]);
    assert!(here(&["squad", "list", "--data", "back"]).contains("Dusk"));
    let entries = |checked: String| checked.split(' ').next().unwrap().to_owned();
    assert_eq!(entries(here(&["check", "--data", "back"])), entries(there(&["check"])));
    let full = refused(machine(dir.path(), &url, &["restore", "first", "--data", "m"]));
    assert!(full.contains("empty journal"), "{full}");
}

/// Nobody begins a second history by leaving the database out, or by naming one where
/// there is a history.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn one_folder_has_one_journal() {
    let dir = tempfile::tempdir().unwrap();
    let url = server().new_address();
    printed(lapwing(dir.path(), &["squad", "add", "Dawn", "--coach", "+15550100"]));
    let said = refused(machine(dir.path(), &url, &["squad", "add", "Dusk", "--coach", "c"]));
    assert!(said.contains("is a journal too"), "{said}");
    fs::remove_dir_all(dir.path().join("lapwing-data/journal")).unwrap();
    printed(machine(dir.path(), &url, &["squad", "add", "Dusk", "--coach", "c"]));
    let said = refused(lapwing(dir.path(), &["squad", "add", "Dawn", "--coach", "+15550100"]));
    assert!(said.contains("--journal") && said.contains("journal-is-elsewhere"), "{said}");
    let said = refused(lapwing(dir.path(), &["squad", "list"]));
    assert!(said.contains("--journal"), "{said}");
    let said = refused(machine(dir.path(), &url, &["repair"]));
    assert!(said.contains("only a journal in a folder"), "{said}");
}

/// What each machine would make for itself must be given.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn what_machines_must_share_is_asked_for() {
    let dir = tempfile::tempdir().unwrap();
    let url = server().new_address();
    for (missing, named) in [
        ("LAPWING_BOARD_URL", "--board-url"),
        ("LAPWING_SECRET", "LAPWING_SECRET"),
        ("LAPWING_PLAIN_TOKEN", "LAPWING_PLAIN_TOKEN"),
    ] {
        let said = refused(machine_without(dir.path(), &url, missing));
        assert!(said.contains(named), "{missing}: {said}");
    }
    for file in ["secret", "plain-token"] {
        assert!(!dir.path().join("lapwing-data").join(file).exists(), "{file}");
    }
}
