//! `lapwing chat` as a person uses it: how one leaves, what arrives, what is shown of
//! the reading.

use std::io::{BufRead, BufReader, Write};
use std::process::Stdio;
use std::time::{Duration, Instant};

use super::program::{Running, lapwing, with_input};
use super::{dusk, text};

#[test]
fn exit_and_quit_leave_and_opt_nobody_out() {
    let dir = tempfile::tempdir().unwrap();
    dusk(dir.path());
    for word in ["exit", "quit", "QUIT", " exit "] {
        let typed = format!("{word}\n200 test 3:12\n");
        let output = with_input(lapwing(dir.path(), &["chat", "--as", "+15550101"]), &typed);
        assert!(output.status.success());
        assert!(output.stdout.is_empty(), "what follows is not sent");
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(said.contains("`exit`, `quit` or Ctrl-D leaves"), "{said}");
    }
    let said = text(dir.path(), "+15550101", "200 test 3:12");
    assert!(said.contains("200 free 3:12 stored"), "{said}");
}

#[test]
fn letters_are_shown_as_they_arrive() {
    let dir = tempfile::tempdir().unwrap();
    dusk(dir.path());
    // Before the chat begins: not shown in it.
    text(dir.path(), "+15550101", "knee hurts 7");
    let mut server = Running::serve(dir.path());
    let mut chat =
        lapwing(dir.path(), &["chat", "--as", "+15550100"]).stdin(Stdio::piped()).spawn().unwrap();
    let mut keys = chat.stdin.take().unwrap();
    let mut lines = BufReader::new(chat.stdout.take().unwrap()).lines();
    writeln!(keys, "squad").unwrap();
    assert!(lines.any(|line| line.unwrap().starts_with("Dusk: 1 swimmer")));
    text(dir.path(), "+15550101", "shoulder hurts 7");
    let mut arrives = |word: &str| {
        let begun = Instant::now();
        for line in lines.by_ref().map_while(Result::ok) {
            assert!(!line.contains("knee hurt") || !line.starts_with("arrived:"), "{line}");
            if line.starts_with("arrived: ") && line.contains(word) {
                return;
            }
            assert!(begun.elapsed() < Duration::from_secs(30), "{word} does not arrive");
        }
        panic!("the chat ended before {word}");
    };
    arrives("shoulder");
    // Also once the chat itself holds the folder.
    server.signal(rustix::process::Signal::TERM);
    server.end();
    writeln!(keys, "squad").unwrap();
    text(dir.path(), "+15550101", "ankle hurts 7");
    arrives("ankle");
    writeln!(keys, "exit").unwrap();
    assert!(chat.wait().unwrap().success());
}

#[test]
fn the_reading_is_shown_before_the_answer() {
    let dir = tempfile::tempdir().unwrap();
    dusk(dir.path());
    let chat = lapwing(dir.path(), &["chat", "--as", "+15550101", "--reading"]);
    let output = with_input(chat, "did 1500 in 45 minutes, felt hard\n");
    let said = String::from_utf8(output.stdout).unwrap();
    let decision = said.find("decision ").unwrap();
    let answer = said.find("1500").map(|_| said.rfind("stored")).unwrap();
    assert!(answer.is_some_and(|answer| answer > decision), "{said}");
}
