//! The program with its journal in a database: commands over it, machines that serve
//! beside each other, whatever becomes of one of them or of the database.

#![expect(clippy::unwrap_used, reason = "a test fails where it stands")]

mod beside;
mod chance;
mod commands;
mod machines;
mod neighbours;
#[path = "../service/program.rs"]
#[expect(dead_code, reason = "shared with the service's own tests, which use the rest")]
mod program;
mod receiver;
mod replay;
#[path = "../journal/server.rs"]
#[expect(dead_code, reason = "shared with the journal's own tests, which use the rest")]
mod server;
mod serving;

use std::path::Path;
use std::process::Command;

/// The program as every machine is to run it: with the same keys and the same address.
fn machine(folder: &Path, journal: &str, arguments: &[&str]) -> Command {
    let mut command = program::lapwing(folder, arguments);
    command
        .env("LAPWING_JOURNAL", journal)
        .env("LAPWING_BOARD_URL", "https://squad.example.org")
        .env("LAPWING_SECRET", "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw")
        .env("LAPWING_PLAIN_TOKEN", "wren-7");
    command
}

/// The same without one of those.
fn machine_without(folder: &Path, journal: &str, missing: &str) -> Command {
    let mut command = machine(folder, journal, &["serve", "--listen", "127.0.0.1:0"]);
    command.env_remove(missing);
    command
}
