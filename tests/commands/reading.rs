//! `lapwing read`: how a text is read, without and with a sender.

use super::program::{Running, lapwing, printed, refused};
use super::{dusk, json, text};

#[test]
fn a_text_of_anybody_needs_no_data() {
    let dir = tempfile::tempdir().unwrap();
    let read = printed(lapwing(dir.path(), &["read", "did", "8x50", "yesterday,", "avg", "48"]));
    for title in ["tokens", "language", "fragments", "words say", "readings", "best", "decision"] {
        assert!(read.lines().any(|line| line.starts_with(title)), "{title}: {read}");
    }
    assert!(read.contains("8x50 (repeat)"), "{read}");
    assert!(!dir.path().join("lapwing-data").exists());
    let view = json(dir.path(), &["read", "--json", "200 test 3:12"]);
    assert_eq!(view["notation"][0], "200 test 3:12");
    assert_eq!(view["decision"]["does"], "take");
    assert_eq!(view["tokens"][1], serde_json::json!({ "text": "test", "form": "word" }));
    let cost = view["cost"].as_f64().unwrap();
    let parts: f64 =
        view["best"].as_array().unwrap().iter().map(|part| part["cost"].as_f64().unwrap()).sum();
    assert!((cost - parts).abs() < 0.02 * (1.0 + cost.abs()), "{view}");
}

#[test]
fn a_members_text_is_read_as_theirs_and_stored_nowhere() {
    let dir = tempfile::tempdir().unwrap();
    dusk(dir.path());
    let _server = Running::serve(dir.path());
    let before = printed(lapwing(dir.path(), &["check"]));
    let read = printed(lapwing(dir.path(), &["read", "--as", "heron", "200 test 3:12"]));
    assert!(read.contains("answer     200 free 3:12 stored"), "{read}");
    let by_address = json(dir.path(), &["read", "--as", "+15550100", "--json", "heron is dizzy"]);
    assert_eq!(by_address["understood"][0]["kind"], "faint", "{by_address}");
    assert!(!by_address["signs"].as_array().unwrap().is_empty(), "{by_address}");
    assert_eq!(printed(lapwing(dir.path(), &["check"])), before);
    let nobody = refused(lapwing(dir.path(), &["read", "--as", "wren", "next"]));
    assert!(nobody.contains("`wren`"), "{nobody}");
    // Of several squads it is the one that they text to.
    printed(lapwing(dir.path(), &["squad", "add", "Dawn", "--coach", "+15550200", "--ready"]));
    let theirs = json(dir.path(), &["read", "--as", "+15550101", "--json", "200 test 3:12"]);
    assert_eq!(theirs["understood"][0]["kind"], "test", "{theirs}");
    let unsaid = refused(lapwing(dir.path(), &["read", "--as", "heron", "next"]));
    assert!(unsaid.contains("say which squad"), "{unsaid}");
    let said = printed(lapwing(dir.path(), &["read", "--as", "heron", "--squad", "Dusk", "next"]));
    assert!(said.contains("decision   takes next"), "{said}");
    // What it says is what happens.
    let said = text(dir.path(), "+15550101", "200 test 3:12");
    let first = said.lines().next().unwrap();
    assert!(read.contains(first), "{first} is not in {read}");
}
