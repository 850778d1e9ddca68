//! The command line as a person meets it: the installed program, run in a folder of
//! its own, with and without a server beside it.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod chat;
mod lists;
#[path = "../service/program.rs"]
#[expect(dead_code, reason = "shared with the service's own tests, which use the rest")]
mod program;
mod reading;
mod settings;
mod squads;
mod troubles;

use std::path::Path;

use program::{lapwing, printed, with_input};
use serde_json::Value;

/// A squad of a coach and heron; gives its id and its code.
fn dusk(folder: &Path) -> (String, String) {
    let added =
        printed(lapwing(folder, &["squad", "add", "Dusk", "--coach", "+15550100", "--ready"]));
    let word = |at: usize| added.lines().nth(at).unwrap().split(' ').nth(1).unwrap().to_owned();
    let (id, code) = (word(0), word(1));
    text(folder, "+15550101", &format!("join {code} heron"));
    // Nothing is said unasked while a test runs, whatever day and hour it is.
    text(folder, "+15550100", "digest off");
    (id, code)
}

/// Texts from a terminal, and gives what was answered.
fn text(folder: &Path, from: &str, lines: &str) -> String {
    let output = with_input(lapwing(folder, &["chat", "--as", from]), &format!("{lines}\n"));
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// What a command prints as JSON.
fn json(folder: &Path, arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(lapwing(folder, arguments))).unwrap()
}
