//! The program as a process: starting, keys, signals, settings, sending.

use std::fs;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::time::Duration;

use rustix::process::Signal;

use super::program::{Running, lapwing, printed, refused};

const SECRET: &str = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";

fn send(folder: &Path, url: &str, secret: Option<&str>) -> std::process::Command {
    let mut command = lapwing(folder, &["send", "--from", "+15550101", "--url", url, "help"]);
    command.envs(secret.map(|secret| ("LAPWING_SECRET", secret)));
    command
}

#[test]
fn keys_are_made_once_and_kept_for_the_owner_alone() {
    let dir = tempfile::tempdir().unwrap();
    let data = dir.path().join("lapwing-data");
    let mut kept = Vec::new();
    for _ in 0..2 {
        let mut server = Running::serve(dir.path());
        let keys = ["secret", "plain-token"].map(|name| {
            let path = data.join(name);
            assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o600);
            let key = fs::read_to_string(&path).unwrap().trim().to_owned();
            assert!(server.said.contains(&format!("./lapwing-data/{name}")), "{}", server.said);
            assert!(!server.said.contains(&key));
            key
        });
        assert!(keys[0].starts_with("whsec_"));
        assert!(!printed(send(dir.path(), &server.url, None)).is_empty());
        server.signal(Signal::TERM);
        assert_eq!(server.end().0, Some(0));
        kept.push(keys);
    }
    assert_eq!(kept[0], kept[1]);
}

#[test]
fn given_secrets_hold_and_are_kept_nowhere() {
    let dir = tempfile::tempdir().unwrap();
    let older = "whsec_C2FVsBQIhrscChlQIMV+b5sSYspob7oD";
    let mut command = lapwing(dir.path(), &["serve", "--listen", "127.0.0.1:0"]);
    command.env("LAPWING_SECRET", format!("{SECRET} {older}")).env("LAPWING_PLAIN_TOKEN", "wren-7");
    let server = Running::start(command);
    for secret in [SECRET, older] {
        assert!(!printed(send(dir.path(), &server.url, Some(secret))).is_empty());
    }
    let other = format!("whsec_{}", "A".repeat(32));
    let said = refused(send(dir.path(), &server.url, Some(&other)));
    assert!(said.contains("401") && !said.contains(&other), "{said}");
    assert!(refused(send(dir.path(), &server.url, None)).contains("LAPWING_SECRET"));
    assert!(!dir.path().join("lapwing-data/secret").exists());
    assert!(!dir.path().join("lapwing-data/plain-token").exists());
}

#[test]
fn unfit_keys_and_settings_stop_the_start_and_are_not_repeated() {
    let dir = tempfile::tempdir().unwrap();
    for word in ["", "whsec_c2hvcnQ=", "abc"] {
        let mut command = lapwing(dir.path(), &["serve", "--listen", "127.0.0.1:0"]);
        command.env("LAPWING_SECRET", word);
        let said = refused(command);
        assert!(said.contains("LAPWING_SECRET"), "{said}");
        assert!(word.is_empty() || !said.contains(word), "{said}");
    }
    fs::write(dir.path().join("l.toml"), "listen = \"127.0.0.1:0\"\ndate = \"x\"\n").unwrap();
    let said = refused(lapwing(dir.path(), &["serve", "--config", "l.toml"]));
    assert!(said.contains("line 2") && said.contains("date"), "{said}");
    let said = refused(lapwing(dir.path(), &["serve", "--clock", "sundial"]));
    assert!(said.contains("sundial"), "{said}");
}

#[test]
fn settings_come_from_flags_the_environment_and_a_file() {
    let dir = tempfile::tempdir().unwrap();
    fs::write(dir.path().join("l.toml"), "data = \"a\"\nlisten = \"127.0.0.1:0\"\n").unwrap();
    let mut command = lapwing(dir.path(), &["serve", "--data", "b"]);
    command
        .env("LAPWING_CONFIG", "l.toml")
        .env("LAPWING_DATA", "c")
        .env("LAPWING_CLOCK", "message");
    let server = Running::start(command);
    assert_ne!(server.port(), 7373);
    assert!(dir.path().join("b/secret").exists());
    assert!(!dir.path().join("a").exists() && !dir.path().join("c").exists());
}

/// Many systems allow a process 1,024 files at first, some fewer.
#[test]
fn the_limit_of_open_files_is_raised() {
    let dir = tempfile::tempdir().unwrap();
    let plain = lapwing(dir.path(), &[]);
    let mut command = std::process::Command::new("/bin/sh");
    command.arg("-c").arg("ulimit -Sn 64 && exec \"$0\" serve --listen 127.0.0.1:0");
    command.arg(plain.get_program()).current_dir(dir.path()).env_clear();
    command.stdin(std::process::Stdio::null()).stderr(std::process::Stdio::piped());
    let server = Running::start(command);
    let open: Vec<TcpStream> =
        (0..200).map(|_| TcpStream::connect(("127.0.0.1", server.port())).unwrap()).collect();
    let mut last = open.last().unwrap();
    last.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
    last.write_all(b"GET /health HTTP/1.1\r\nhost: a\r\n\r\n").unwrap();
    let mut heard = [0; 12];
    last.read_exact(&mut heard).unwrap();
    assert_eq!(&heard, b"HTTP/1.1 200");
}

#[test]
fn a_port_in_use_is_told() {
    let dir = tempfile::tempdir().unwrap();
    let other = tempfile::tempdir().unwrap();
    let server = Running::serve(dir.path());
    let taken = server.url.trim_start_matches("http://");
    assert!(refused(lapwing(other.path(), &["serve", "--listen", taken])).contains(taken));
}

/// Sends the head of a text of so many bytes and waits until its body is read, which is
/// told to whoever asks first (RFC 9110, 10.1.1): it is under way then.
fn begin(stream: &mut TcpStream, line: &str, length: usize) {
    const GO_ON: &[u8] = b"HTTP/1.1 100 Continue\r\n\r\n";
    write!(
        stream,
        "{line} HTTP/1.1\r\nhost: a\r\nexpect: 100-continue\r\n\
         content-type: text/plain\r\ncontent-length: {length}\r\n\r\n"
    )
    .unwrap();
    let mut heard = [0; GO_ON.len()];
    stream.read_exact(&mut heard).unwrap();
    assert_eq!(heard, GO_ON);
}

/// SIGTERM ends what was begun and exits with 0; so does SIGINT.
#[test]
fn signals_let_a_message_under_way_be_answered() {
    for signal in [Signal::TERM, Signal::INT] {
        let dir = tempfile::tempdir().unwrap();
        let mut server = Running::serve(dir.path());
        let token = fs::read_to_string(dir.path().join("lapwing-data/plain-token")).unwrap();
        let mut begun = TcpStream::connect(("127.0.0.1", server.port())).unwrap();
        let _idle = TcpStream::connect(("127.0.0.1", server.port())).unwrap();
        begin(&mut begun, &format!("POST /v1/plain/{}?from=a", token.trim()), 4);
        server.signal(signal);
        while TcpStream::connect(("127.0.0.1", server.port())).is_ok() {}
        begun.write_all(b"help").unwrap();
        let mut heard = String::new();
        begun.read_to_string(&mut heard).unwrap();
        assert!(heard.starts_with("HTTP/1.1 200"), "{heard}");
        let (code, took) = server.end();
        assert_eq!(code, Some(0));
        // Whoever says nothing is not waited for.
        assert!(took < Duration::from_secs(6), "{took:?}");
        assert!(!dir.path().join("lapwing-data/control").exists());
    }
}

/// Whoever never sends the rest holds up the end for 10 s at most.
#[test]
fn the_end_comes_within_ten_seconds() {
    let dir = tempfile::tempdir().unwrap();
    let mut command = lapwing(dir.path(), &["serve", "--listen", "127.0.0.1:0"]);
    command.env("LAPWING_PLAIN_TOKEN", "wren-7");
    let mut server = Running::start(command);
    let mut begun = TcpStream::connect(("127.0.0.1", server.port())).unwrap();
    begin(&mut begun, "POST /v1/plain/wren-7?from=a", 4);
    server.signal(Signal::TERM);
    let (code, took) = server.end();
    assert_eq!(code, Some(0));
    // Half as long again for a machine that is busy.
    assert!(took < Duration::from_secs(15), "{took:?}");
    assert!(took > Duration::from_secs(5), "what was under way was cut after {took:?}");
}

#[test]
fn the_demo_never_touches_real_data() {
    let dir = tempfile::tempdir().unwrap();
    let mut command = lapwing(dir.path(), &["demo", "--listen", "127.0.0.1:0"]);
    command.env("LAPWING_DATA", "lapwing-data");
    let mut demo = Running::start(command);
    assert!(demo.said.matches("curl ").count() == 2, "{}", demo.said);
    assert!(!dir.path().join("lapwing-data").exists());
    demo.signal(Signal::TERM);
    assert_eq!(demo.end().0, Some(0));
    // Once more: its data are there by now.
    drop(Running::start(lapwing(dir.path(), &["demo", "--listen", "127.0.0.1:0"])));
    printed(lapwing(dir.path(), &["squad", "add", "Dawn", "--coach", "+15550100"]));
    let said = refused(lapwing(dir.path(), &["demo", "--data", "lapwing-data"]));
    assert!(said.contains("no demo's"), "{said}");
}

/// All that is wrong is told at once, and by `serve` in the same words.
#[test]
fn settings_are_checked_before_anything_is_opened() {
    let dir = tempfile::tempdir().unwrap();
    fs::write(dir.path().join("l.toml"), "listne = \"x\"\nlimit = 0\n").unwrap();
    let with = |command| {
        let mut command = lapwing(dir.path(), &[command, "--config", "l.toml"]);
        command.env("LAPWING_SECRET", "whsec_c2hvcnQ=");
        command
    };
    let said = refused(with("check-config"));
    for words in ["l.toml, line 1", "`listen`?", "l.toml, line 2", "LAPWING_SECRET", "24 to 64"] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(!said.contains("c2hvcnQ"), "{said}");
    assert_eq!(refused(with("serve")), said);
    assert!(!dir.path().join("lapwing-data").exists());
    fs::write(dir.path().join("l.toml"), "listen = \"127.0.0.1:0\"\n").unwrap();
    let sound = printed(lapwing(dir.path(), &["check-config", "--config", "l.toml"]));
    assert!(sound.contains("listen: 127.0.0.1:0"), "{sound}");
    assert!(!dir.path().join("lapwing-data").exists());
}
