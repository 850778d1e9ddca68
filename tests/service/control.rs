//! One folder, many commands: beside a server, without one, at the same time,
//! and after a kill.

use std::collections::BTreeSet;
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::Stdio;
use std::time::{Duration, Instant};

use rustix::process::Signal;

use super::program::{Running, deep, lapwing, printed, refused, with_input};

fn add(folder: &Path, name: &str) -> std::process::Command {
    lapwing(folder, &["squad", "add", name, "--coach", "+15550100", "--ready"])
}

/// That these are exactly the two lines of the contract; gives id and code.
fn id_and_code(printed: &str) -> (String, String) {
    let lines: Vec<&str> = printed.lines().collect();
    assert_eq!(lines.len(), 2, "{printed}");
    let id = lines[0].strip_prefix("squad ").unwrap().to_owned();
    let code = lines[1].strip_prefix("join ").unwrap().to_owned();
    let fits =
        |letter: u8| letter.is_ascii_uppercase() || letter.is_ascii_digit() || letter == b'-';
    assert!((6..=12).contains(&code.len()) && code.bytes().all(fits), "{code}");
    assert!(!id.is_empty() && !printed.contains('\u{1b}'));
    (id, code)
}

#[test]
fn a_squad_is_added_with_and_without_a_server() {
    let dir = tempfile::tempdir().unwrap();
    id_and_code(&printed(add(dir.path(), "Dawn")));
    let server = Running::serve(dir.path());
    let control = dir.path().join("lapwing-data/control");
    assert_eq!(fs::metadata(&control).unwrap().permissions().mode() & 0o777, 0o600);
    id_and_code(&printed(add(dir.path(), "Dusk")));
    drop(server);
    id_and_code(&printed(add(dir.path(), "Noon")));
}

#[test]
fn what_a_squad_may_not_be_is_told_by_both_ways() {
    let dir = tempfile::tempdir().unwrap();
    let nowhere = || {
        let arguments = ["squad", "add", "Dawn", "--coach", "a", "--timezone", "Nowhere/Land"];
        refused(lapwing(dir.path(), &arguments))
    };
    let alone = nowhere();
    let _server = Running::serve(dir.path());
    assert_eq!(nowhere(), alone);
    for wrong in [["--course", "open"], ["--course", "33m"], ["--expires", "0"], ["--coach", "a b"]]
    {
        let mut command = lapwing(dir.path(), &["squad", "add", "Dawn"]);
        command.args(wrong);
        if wrong[0] != "--coach" {
            command.args(["--coach", "a"]);
        }
        assert_eq!(command.output().unwrap().status.code(), Some(2), "{wrong:?}");
    }
}

#[test]
fn commands_at_the_same_time_all_succeed() {
    let dir = tempfile::tempdir().unwrap();
    let racing: Vec<_> =
        (0..6).map(|at| add(dir.path(), &format!("Squad {at}")).spawn().unwrap()).collect();
    let codes: BTreeSet<String> = racing
        .into_iter()
        .map(|child| child.wait_with_output().unwrap())
        .map(|output| {
            assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
            id_and_code(&String::from_utf8(output.stdout).unwrap()).1
        })
        .collect();
    assert_eq!(codes.len(), 6);
}

#[test]
fn a_folder_has_one_server() {
    let dir = tempfile::tempdir().unwrap();
    let server = Running::serve(dir.path());
    let begun = Instant::now();
    let said = refused(lapwing(dir.path(), &["serve", "--listen", "127.0.0.1:0"]));
    assert!(said.contains("in use") && said.contains(&server.child.id().to_string()), "{said}");
    assert!(begun.elapsed() < Duration::from_secs(20), "{:?}", begun.elapsed());
}

#[test]
fn a_killed_server_leaves_nothing_in_the_way() {
    let dir = tempfile::tempdir().unwrap();
    let mut server = Running::serve(dir.path());
    server.signal(Signal::KILL);
    server.end();
    assert!(dir.path().join("lapwing-data/control").exists());
    id_and_code(&printed(add(dir.path(), "Dawn")));
    let _again = Running::serve(dir.path());
    id_and_code(&printed(add(dir.path(), "Dusk")));
}

#[test]
fn a_folder_may_have_a_long_name() {
    let dir = tempfile::tempdir().unwrap();
    let folder = deep(dir.path(), 200);
    let data = folder.to_str().unwrap();
    let mut command = lapwing(dir.path(), &["serve", "--listen", "127.0.0.1:0", "--data", data]);
    let _server = Running::start(std::mem::replace(&mut command, lapwing(dir.path(), &[])));
    id_and_code(&printed(lapwing(
        dir.path(),
        &["squad", "add", "Dawn", "--coach", "a", "--data", data],
    )));
    assert!(folder.join("control").exists());
}

#[test]
fn typing_is_answered_with_and_without_a_server() {
    let dir = tempfile::tempdir().unwrap();
    let chat = || {
        let output =
            with_input(lapwing(dir.path(), &["chat", "--as", "+15550101"]), "help\n\nhelp\n");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    let alone = chat();
    assert!(!alone.is_empty() && !alone.contains('\u{1b}'), "{alone}");
    let _server = Running::serve(dir.path());
    assert_eq!(chat(), alone);
}

/// Whoever chats without a server owns the folder; others go through them, and
/// a chat outlives the server it went through.
#[test]
fn a_chat_shares_the_folder() {
    use std::io::Write;

    let dir = tempfile::tempdir().unwrap();
    let mut server = Running::serve(dir.path());
    let mut chat =
        lapwing(dir.path(), &["chat", "--as", "+15550101"]).stdin(Stdio::piped()).spawn().unwrap();
    let mut keys = chat.stdin.take().unwrap();
    keys.write_all(b"help\n").unwrap();
    std::thread::sleep(Duration::from_millis(500));
    server.signal(Signal::TERM);
    server.end();
    keys.write_all(b"help\n").unwrap();
    std::thread::sleep(Duration::from_millis(1000));
    id_and_code(&printed(add(dir.path(), "Dawn")));
    drop(keys);
    let output = chat.wait_with_output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let said = String::from_utf8(output.stdout).unwrap();
    let (first, second) = said.split_at(said.len() / 2);
    assert!(!first.is_empty());
    assert_eq!(first, second);
}
