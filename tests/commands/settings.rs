//! What a server is started with: settings that are refused by `check-config` as by
//! `serve`, what is warned of, and backups.

use std::fs;
use std::path::Path;

use super::dusk;
use super::program::{Running, lapwing, printed, refused};

/// Both refuse it, in words that say this.
fn both_refuse(folder: &Path, more: &[&str], words: &[&str]) {
    for command in ["check-config", "serve"] {
        let mut lapwing = lapwing(folder, &[command]);
        lapwing.args(more).env("UNFIT", "a/b");
        let said = refused(lapwing);
        for word in words {
            assert!(said.contains(word), "{command} lacks {word}: {said}");
        }
    }
}

#[test]
fn what_serve_refuses_check_config_refuses() {
    let dir = tempfile::tempdir().unwrap();
    let data = dir.path().join("lapwing-data");
    fs::create_dir(&data).unwrap();
    let listen = ["--listen", "127.0.0.1:0"];
    fs::write(data.join("rules.toml"), "ramp-week = 5\nramp-weak = 5\n").unwrap();
    both_refuse(dir.path(), &listen, &["rules.toml", "line 2: no rule `ramp-weak`"]);
    fs::remove_file(data.join("rules.toml")).unwrap();

    let file = "[[gateway]]\nname = \"tern\"\ntoken_env = \"UNFIT\"\n\
                [[chat]]\nname = \"club\"\ntoken_env = \"UNFIT\"\ncalled = \"lapwing\"\n";
    fs::write(dir.path().join("l.toml"), file).unwrap();
    both_refuse(
        dir.path(),
        &["--config", "l.toml", "--listen", "127.0.0.1:0"],
        &["line 3: `gateway.token_env`", "line 6: `chat.token_env`"],
    );

    fs::write(data.join("plain-token"), "a/b\n").unwrap();
    both_refuse(dir.path(), &listen, &["plain-token"]);
    fs::remove_file(data.join("plain-token")).unwrap();
    fs::write(data.join("secret"), "whsec_c2hvcnQ=\n").unwrap();
    both_refuse(dir.path(), &listen, &["lapwing-data/secret", "24 to 64 bytes"]);
    fs::remove_file(data.join("secret")).unwrap();

    both_refuse(dir.path(), &["--listen", "127.0.0.1"], &["ADDR:PORT", "--listen"]);
    both_refuse(dir.path(), &["--listen", "203.0.113.7:7373"], &["no address of this machine"]);
    both_refuse(
        dir.path(),
        &["--listen", "127.0.0.1:0", "--metrics", "127.0.0.1"],
        &["ADDR:PORT", "--metrics"],
    );
    let file = dir.path().join("l.toml");
    both_refuse(
        dir.path(),
        &["--listen", "127.0.0.1:0", "--data", file.to_str().unwrap()],
        &["l.toml"],
    );
}

#[test]
fn checking_makes_nothing_and_minds_no_server() {
    let dir = tempfile::tempdir().unwrap();
    let check = || printed(lapwing(dir.path(), &["check-config"]));
    let said = check();
    assert!(said.contains("data: ./lapwing-data"), "{said}");
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 0);
    let _server = Running::serve(dir.path());
    assert_eq!(check(), said);
}

#[test]
fn a_server_warns_of_what_will_not_work() {
    let dir = tempfile::tempdir().unwrap();
    let start = |more: &[&str]| {
        let mut command = lapwing(dir.path(), &["serve", "--listen", "0.0.0.0:0"]);
        command.args(more);
        Running::start(command).stopped()
    };
    let said = start(&[]);
    assert!(said.contains("pages: no address") && said.contains("--board-url"), "{said}");
    assert!(said.contains("ALERTS CAN'T GO") && said.contains("--outbox-url"), "{said}");
    let said = start(&[
        "--board-url",
        "https://squad.example.org",
        "--outbox-url",
        "https://gateway.example.org/in",
    ]);
    assert!(!said.contains("no address"), "{said}");
}

/// A token may be as short as the other end makes it, but that is told.
#[test]
fn a_token_that_might_be_guessed_is_warned_of() {
    let dir = tempfile::tempdir().unwrap();
    let short = |arguments: &[&str]| {
        let mut command = lapwing(dir.path(), arguments);
        command.env("LAPWING_PLAIN_TOKEN", "wren-7");
        command
    };
    let output = short(&["check-config"]).output().unwrap();
    assert!(output.status.success());
    let checked = String::from_utf8(output.stderr).unwrap();
    let served = Running::start(short(&["serve", "--listen", "127.0.0.1:0"])).stopped();
    for said in [checked, served] {
        assert!(said.contains("the token of plain is short"), "{said}");
    }
    assert!(!Running::serve(dir.path()).stopped().contains("is short"));
}

#[test]
fn a_backup_is_written_over_only_if_that_is_meant() {
    let dir = tempfile::tempdir().unwrap();
    dusk(dir.path());
    let _server = Running::serve(dir.path());
    let data = dir.path().join("lapwing-data");
    fs::write(data.join("rules.toml"), "ramp-week = 5\n").unwrap();
    let output = lapwing(dir.path(), &["backup", "copy"]).output().unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    for missing in ["lapwing-data/secret", "lapwing-data/plain-token", "lapwing-data/rules.toml"] {
        assert!(said.contains(&format!("not in it: ./{missing}")), "{missing}: {said}");
    }
    let first = fs::read(dir.path().join("copy")).unwrap();
    let twice = refused(lapwing(dir.path(), &["backup", "copy"]));
    assert!(twice.contains("copy is there already") && twice.contains("--force"), "{twice}");
    assert_eq!(fs::read(dir.path().join("copy")).unwrap(), first);
    printed(lapwing(dir.path(), &["backup", "copy", "--force"]));
}
