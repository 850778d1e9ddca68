//! Squads by command: seen, renamed, their codes and staff, and their end.

use super::program::{Running, lapwing, printed, refused};
use super::{dusk, json, text};

#[test]
fn a_squad_is_listed_with_its_code() {
    let dir = tempfile::tempdir().unwrap();
    let (id, code) = dusk(dir.path());
    let alone = printed(lapwing(dir.path(), &["squad", "list"]));
    assert_eq!(alone, format!("{id} Dusk join {code}, 25m, UTC, swimmers: 1\n"));
    let _server = Running::serve(dir.path());
    assert_eq!(printed(lapwing(dir.path(), &["squad", "list"])), alone);
    let listed = json(dir.path(), &["squad", "list", "--json"]);
    let squad = &listed[0];
    assert_eq!((&squad["id"], &squad["name"]), (&id.into(), &"Dusk".into()));
    assert_eq!((&squad["code"], &squad["swimmers"]), (&code.into(), &1.into()));
    assert_eq!(squad["staff"][0]["address"], "+15550100");
}

#[test]
fn a_renewed_code_is_the_only_one() {
    let dir = tempfile::tempdir().unwrap();
    let (id, old) = dusk(dir.path());
    let _server = Running::serve(dir.path());
    let shown = printed(lapwing(dir.path(), &["squad", "code"]));
    assert_eq!(shown, format!("join {old}\n"));
    let renewed = printed(lapwing(dir.path(), &["squad", "code", "--renew", "--squad", &id]));
    let new = renewed.trim().strip_prefix("join ").unwrap();
    assert_ne!(new, old);
    assert_eq!(printed(lapwing(dir.path(), &["squad", "code"])), renewed);
    let by_old = text(dir.path(), "+15550102", &format!("join {old} teal"));
    assert!(by_old.contains("code"), "{by_old}");
    text(dir.path(), "+15550102", &format!("join {new} teal"));
    assert_eq!(json(dir.path(), &["squad", "list", "--json"])[0]["swimmers"], 2);
}

#[test]
fn a_squad_is_renamed_and_meant_by_its_name() {
    let dir = tempfile::tempdir().unwrap();
    let (id, _) = dusk(dir.path());
    printed(lapwing(dir.path(), &["squad", "rename", "Night Owls"]));
    let listed = printed(lapwing(dir.path(), &["squad", "list"]));
    assert!(listed.starts_with(&format!("{id} Night Owls join ")), "{listed}");
    let squad = text(dir.path(), "+15550100", "squad");
    assert!(squad.starts_with("Night Owls: 1 swimmer"), "{squad}");
    // The name is as good as the id, in any case, and survives a restart.
    let code = printed(lapwing(dir.path(), &["squad", "code", "--squad", "night owls"]));
    assert!(code.starts_with("join "), "{code}");
    let none = refused(lapwing(dir.path(), &["squad", "code", "--squad", "Dusk"]));
    assert!(none.contains("no squad `Dusk`"), "{none}");
    let unfit = refused(lapwing(dir.path(), &["squad", "rename", " "]));
    assert!(unfit.contains("1 to 60 characters"), "{unfit}");
}

#[test]
fn an_office_ends_and_with_it_what_may_be_seen() {
    let dir = tempfile::tempdir().unwrap();
    dusk(dir.path());
    text(dir.path(), "+15550100", "invite +15550111 assistant kestrel");
    text(dir.path(), "+15550111", "yes");
    let staff = printed(lapwing(dir.path(), &["squad", "staff"]));
    assert_eq!(staff, "coach +15550100\nassistant kestrel +15550111\n");
    let _server = Running::serve(dir.path());
    let seen = text(dir.path(), "+15550111", "squad");
    assert!(seen.starts_with("Dusk:"), "{seen}");
    printed(lapwing(dir.path(), &["squad", "staff", "remove", "+15550111"]));
    assert_eq!(printed(lapwing(dir.path(), &["squad", "staff"])), "coach +15550100\n");
    let seen = text(dir.path(), "+15550111", "squad");
    assert!(!seen.contains("Dusk:"), "{seen}");
    let again = refused(lapwing(dir.path(), &["squad", "staff", "remove", "+15550111"]));
    assert!(again.contains("holds an office"), "{again}");
    let swimmer = refused(lapwing(dir.path(), &["squad", "staff", "remove", "+15550101"]));
    assert!(swimmer.contains("holds an office"), "{swimmer}");
    let last = refused(lapwing(dir.path(), &["squad", "staff", "remove", "+15550100"]));
    assert!(last.contains("only coach"), "{last}");
}

#[test]
fn a_removed_squad_is_nobodys() {
    let dir = tempfile::tempdir().unwrap();
    let (id, code) = dusk(dir.path());
    printed(lapwing(dir.path(), &["squad", "add", "Dawn", "--coach", "+15550200", "--ready"]));
    let unsure = refused(lapwing(dir.path(), &["squad", "remove", &id]));
    assert!(unsure.contains("--yes") && unsure.contains("--erase"), "{unsure}");
    let server = Running::serve(dir.path());
    printed(lapwing(dir.path(), &["squad", "remove", "Dusk", "--yes"]));
    let gone = |what: &str| {
        let listed = json(dir.path(), &["squad", "list", "--json"]);
        let names: Vec<&str> =
            listed.as_array().unwrap().iter().map(|one| one["name"].as_str().unwrap()).collect();
        assert_eq!(names, ["Dawn"], "{what}");
        let joins = text(dir.path(), "+15550103", &format!("join {code} wren"));
        assert!(!joins.contains("Welcome"), "{what}: {joins}");
        for from in ["+15550100", "+15550101"] {
            let said = text(dir.path(), from, "squad");
            assert!(!said.contains("Dusk"), "{what}: {said}");
        }
    };
    gone("beside the server");
    drop(server);
    gone("after a kill");
    let _server = Running::serve(dir.path());
    gone("after a restart");
}

/// What was theirs is in no file of the folder any more, also of a squad that was only
/// closed before.
#[test]
fn a_removed_squad_can_be_erased() {
    let dir = tempfile::tempdir().unwrap();
    let (id, _) = dusk(dir.path());
    text(dir.path(), "+15550101", "200 test 3:12\nhow far is the pelican from the pool");
    printed(lapwing(dir.path(), &["squad", "remove", &id, "--yes"]));
    let held = || {
        let mut files = vec![dir.path().join("lapwing-data/journal")];
        let mut held = false;
        while let Some(path) = files.pop() {
            if path.is_dir() {
                files.extend(std::fs::read_dir(&path).unwrap().map(|one| one.unwrap().path()));
            } else {
                let bytes = std::fs::read(&path).unwrap();
                held |= bytes.windows(7).any(|word| word == b"pelican");
            }
        }
        held
    };
    assert!(held(), "closing alone keeps the history");
    printed(lapwing(dir.path(), &["squad", "remove", &id, "--yes", "--erase"]));
    assert!(!held());
    let checked = printed(lapwing(dir.path(), &["check"]));
    assert!(checked.ends_with("sound\n"), "{checked}");
}
