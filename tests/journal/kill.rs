//! A writer in a process of its own, killed in the middle of its work.

use super::*;

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use crate::home::{Database, Folder, Home, open};
use crate::workload::{Workload, print_line, verify};

/// Where the writer writes; set only in the process that is to be killed.
const WRITE_TO: &str = "LAPWING_TEST_WRITE_TO";
const RUN: &str = "LAPWING_TEST_RUN";

fn work(journal: &dyn Journal) {
    let run = std::env::var(RUN).unwrap().parse().unwrap();
    Workload { run, writers: 6, window: 8, long_entries: true, checkpoints: true }
        .write(journal, print_line);
}

#[test]
fn what_was_acknowledged_survives_a_kill() {
    if let Some(folder) = std::env::var_os(WRITE_TO) {
        return work(&SledJournal::open(folder).unwrap());
    }
    let home = Folder::new();
    let path = home.0.path().join("journal");
    kill_over_and_over("what_was_acknowledged_survives_a_kill", path.to_str().unwrap(), &home);
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn what_a_database_acknowledged_survives_a_kill() {
    if let Some(url) = std::env::var_os(WRITE_TO) {
        let url = url.to_str().unwrap().parse().unwrap();
        return work(&open(&url).unwrap());
    }
    let home = Database::new();
    let database = home.0.to_string();
    let database = database.rsplit('/').next().unwrap();
    let url = crate::server::server().address("heron", database);
    kill_over_and_over("what_a_database_acknowledged_survives_a_kill", &url, &home);
}

fn kill_over_and_over(test: &str, write_to: &str, home: &impl Home) {
    let mut told = String::new();
    for run in 1..=6_u64 {
        let mut writer = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", &format!("kill::{test}"), "--nocapture", "--include-ignored"])
            .env(WRITE_TO, write_to)
            .env(RUN, run.to_string())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let out = BufReader::new(writer.stdout.take().unwrap());
        // The test runner's own lines are among those of the writer.
        let (tell, begun) = mpsc::channel();
        let reader = thread::spawn(move || -> Vec<String> {
            out.lines()
                .map(|line| line.unwrap())
                .filter(|line| line.starts_with("entry ") || line.starts_with("parts "))
                .inspect(|line| {
                    if line.starts_with("parts ") {
                        // Nobody listens after the first, which is all right.
                        let _ = tell.send(());
                    }
                })
                .collect()
        });
        // In mid-write, however busy the machine: both kinds have been written.
        begun.recv_timeout(Duration::from_secs(60)).unwrap();
        thread::sleep(Duration::from_millis(60 * run));
        writer.kill().unwrap();
        writer.wait().unwrap();
        let lines = reader.join().unwrap();
        assert!(!lines.is_empty(), "run {run}: killed before it wrote anything");
        told.extend(lines.iter().flat_map(|line| [line, "\n"]));

        let journal = home.open();
        let verified = verify(journal.as_ref(), told.lines(), true).unwrap();
        assert!(verified.acknowledged > 0 && verified.checkpoints > 0, "{verified:?}");
        home.look();
    }
}
