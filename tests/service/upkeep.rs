//! Checking, copying and restoring the journal by command.

use std::fs;
use std::os::unix::fs::PermissionsExt;

use super::program::{Running, lapwing, printed, refused, with_input};

#[test]
fn a_backup_restored_elsewhere_is_the_same_journal() {
    let dir = tempfile::tempdir().unwrap();
    let run = |arguments: &[&str]| printed(lapwing(dir.path(), arguments));
    run(&["squad", "add", "Dawn", "--coach", "+15550100"]);
    let server = Running::serve(dir.path());
    // Beside the server first, with another folder to stand in than its own.
    run(&["backup", "beside"]);
    let checked = run(&["check"]);
    drop(server);
    run(&["backup", "alone"]);
    assert_eq!(run(&["check"]), checked);
    assert!(checked.ends_with("sound\n") && !checked.starts_with("0 entries"), "{checked}");

    for backup in ["beside", "alone"] {
        let mode = fs::metadata(dir.path().join(backup)).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
        let data = format!("from-{backup}");
        run(&["restore", backup, "--data", &data]);
        assert_eq!(run(&["check", "--data", &data]), checked);
        run(&["squad", "add", "Dusk", "--coach", "+15550100", "--data", &data]);
    }
    let said = refused(lapwing(dir.path(), &["restore", "alone"]));
    assert!(!said.is_empty());
    assert_eq!(run(&["check"]), checked);
}

#[test]
fn looking_after_no_data_makes_none() {
    let dir = tempfile::tempdir().unwrap();
    for arguments in [&["check"][..], &["backup", "x"]] {
        assert!(refused(lapwing(dir.path(), arguments)).contains("no data"));
    }
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 0);
}

#[test]
fn a_damaged_journal_fails_the_check() {
    let dir = tempfile::tempdir().unwrap();
    printed(lapwing(dir.path(), &["squad", "add", "Dawn", "--coach", "+15550100"]));
    fs::write(dir.path().join("lapwing-data/journal/format"), "lapwing journal 9\n").unwrap();
    let said = refused(lapwing(dir.path(), &["check"]));
    assert!(said.contains("format 9"), "{said}");
}

/// A coach's own numbers are used; a bad file is refused with every line that
/// is wrong, and nothing starts.
#[test]
fn rules_of_the_coach() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("lapwing-data");
    let printed =
        printed(lapwing(folder.path(), &["squad", "add", "Dusk", "--coach", "c", "--ready"]));
    let code = printed.lines().find_map(|line| line.strip_prefix("join ")).unwrap();
    std::fs::write(data.join("rules.toml"), "first-week-share = 60\nno-such-rule = 3\n").unwrap();
    let said = refused(lapwing(folder.path(), &["serve", "--listen", "127.0.0.1:0"]));
    assert!(said.contains("line 2: no rule `no-such-rule`"), "{said}");
    std::fs::write(data.join("rules.toml"), "first-week-share = 60\n").unwrap();
    let talk = format!("join {code} heron\n200 test 3:12\nplan\nwhy\n");
    let heard = with_input(lapwing(folder.path(), &["chat", "--as", "s"]), &talk);
    let heard = String::from_utf8(heard.stdout).unwrap();
    assert!(heard.contains("first-week-share 60 percent"), "{heard}");
}
