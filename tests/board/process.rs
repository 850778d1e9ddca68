//! The installed program: the page over its own socket, and its log.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Output, Stdio};

use rustix::process::{Pid, Signal, kill_process};

const COACH: &str = "+15550100";

struct Running {
    child: Child,
    url: String,
    log: std::thread::JoinHandle<String>,
}

fn lapwing(folder: &Path, words: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_lapwing"));
    command.args(words).current_dir(folder).env_clear().stdin(Stdio::null());
    command
}

fn serve(folder: &Path, words: &[&str]) -> Running {
    let all = [&["serve", "--listen", "127.0.0.1:0"], words].concat();
    let mut command = lapwing(folder, &all);
    command.env("RUST_LOG", "trace").stdout(Stdio::null()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let mut lines = BufReader::new(child.stderr.take().unwrap()).lines();
    let mut said = String::new();
    let url = loop {
        let line = lines.next().unwrap_or_else(|| panic!("it ended: {said}")).unwrap();
        said.push_str(&line);
        if let Some(url) = line.strip_prefix("listening on ") {
            break url.to_owned();
        }
    };
    let log = std::thread::spawn(move || {
        lines.map_while(Result::ok).fold(said, |all, line| all + "\n" + &line)
    });
    Running { child, url, log }
}

fn says(folder: &Path, url: &str, text: &str) -> String {
    let Output { stdout, stderr, status } =
        lapwing(folder, &["send", "--from", COACH, "--url", url, text]).output().unwrap();
    assert!(status.success(), "{}", String::from_utf8_lossy(&stderr));
    String::from_utf8(stdout).unwrap()
}

async fn page(url: &str) -> (u16, String) {
    let client = lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap();
    let response = client.get(url).send().await.unwrap();
    (response.status().as_u16(), response.text().await.unwrap())
}

fn stopped(mut running: Running) -> String {
    let id = i32::try_from(running.child.id()).unwrap();
    kill_process(Pid::from_raw(id).unwrap(), Signal::TERM).unwrap();
    assert_eq!(running.child.wait().unwrap().code(), Some(0));
    running.log.join().unwrap()
}

/// A text, its answer's address, the page; and nothing of the address in the
/// log, however much is logged.
#[tokio::test(flavor = "multi_thread")]
async fn the_address_is_in_the_answer_and_not_in_the_log() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path();
    assert!(lapwing(folder, &["squad", "add", "Dusk", "--coach", COACH]).output().is_ok());
    let running = serve(folder, &[]);
    let said = says(folder, &running.url, "board");
    let url = said.split_whitespace().next().unwrap().to_owned();
    assert!(url.starts_with(&format!("{}/board/", running.url)), "{said}");
    let (status, html) = page(&url).await;
    assert_eq!(status, 200);
    assert!(html.contains("<h1>Dusk</h1>"));
    let token = url.rsplit('/').next().unwrap();
    let (status, _) = page(&format!("{}x", url)).await;
    assert_eq!(status, 404);
    let log = stopped(running);
    assert!(log.contains("/board/{token}"), "the route is logged");
    assert!(!log.contains(token), "the token is in the log");
}

/// `lapwing export` prints the same beside a running server and without one: a
/// squad's, or one swimmer's own with what they said of their health.
#[tokio::test(flavor = "multi_thread")]
async fn a_file_is_printed_with_and_without_a_server() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path();
    let opened = lapwing(folder, &["squad", "add", "Dusk", "--coach", COACH, "--ready"]).output();
    assert!(opened.unwrap().status.success());
    let running = serve(folder, &[]);
    for text in ["add heron 2:20", "add teal 2:20", "200 test: heron 3:12", "heron knee hurts 4"] {
        says(folder, &running.url, text);
    }
    let export = |words: &[&str]| {
        let output = lapwing(folder, &[&["export"], words].concat()).output().unwrap();
        let said = if output.status.success() { output.stdout } else { output.stderr };
        (output.status.code(), String::from_utf8(said).unwrap())
    };
    let all = || {
        [
            export(&["tests.csv"]),
            export(&["everything.jsonl"]),
            export(&["everything.jsonl", "--swimmer", "heron"]),
            export(&["tests.csv", "--swimmer", "plover"]),
        ]
    };
    let beside = all();
    drop(stopped(running));
    assert_eq!(beside, all());
    let [tests, squad, own, nobody] = beside;
    assert!(tests.1.contains("heron,") && tests.1.contains(",192.0,"), "{}", tests.1);
    assert!(squad.1.contains("teal") && !squad.1.contains("knee"), "{}", squad.1);
    assert!(own.1.contains("knee") && !own.1.contains("teal"), "{}", own.1);
    assert!(nobody.0 == Some(1) && nobody.1.contains("plover"), "{nobody:?}");
    // What is no file makes no sense.
    let unknown = export(&["tests.pdf"]);
    assert!(unknown.0 == Some(2) && unknown.1.contains("calendar.ics"), "{unknown:?}");
}

/// The address begins as the settings say; unfit ones stop the start.
#[tokio::test(flavor = "multi_thread")]
async fn the_address_begins_as_it_is_told() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path();
    assert!(lapwing(folder, &["squad", "add", "Dusk", "--coach", COACH]).output().is_ok());
    std::fs::write(folder.join("l.toml"), "[board]\nurl = \"https://squad.example.org/club/\"\n")
        .unwrap();
    let running = serve(folder, &["--config", "l.toml"]);
    let said = says(folder, &running.url, "board");
    assert!(said.starts_with("https://squad.example.org/club/board/"), "{said}");
    drop(stopped(running));
    let refused = lapwing(folder, &["serve", "--board-url", "squad.example.org"]).output().unwrap();
    assert!(!refused.status.success());
    // Nobody serves: there is nothing that could show it.
    let mut chat = lapwing(folder, &["chat", "--as", COACH]);
    chat.stdin(Stdio::piped()).stdout(Stdio::piped());
    let mut child = chat.spawn().unwrap();
    std::io::Write::write_all(&mut child.stdin.take().unwrap(), b"board\n").unwrap();
    let said = String::from_utf8(child.wait_with_output().unwrap().stdout).unwrap();
    assert!(said.contains("server") && !said.contains("http"), "{said}");
}
