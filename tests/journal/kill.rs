//! A writer in a process of its own, killed in the middle of its work.

use super::*;

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use crate::workload::{Workload, print_line, verify};

/// Where the writer writes; set only in the process that is to be killed.
const WRITE_TO: &str = "LAPWING_TEST_WRITE_TO";
const RUN: &str = "LAPWING_TEST_RUN";

#[test]
fn what_was_acknowledged_survives_a_kill() {
    if let Some(folder) = std::env::var_os(WRITE_TO) {
        let run = std::env::var(RUN).unwrap().parse().unwrap();
        let journal = SledJournal::open(folder).unwrap();
        return Workload { run, writers: 6, window: 8, long_entries: true, checkpoints: true }
            .write(&journal, print_line);
    }
    let folder = tempfile::tempdir().unwrap();
    let mut told = String::new();
    for run in 1..=6_u64 {
        let mut writer = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "kill::what_was_acknowledged_survives_a_kill", "--nocapture"])
            .env(WRITE_TO, folder.path())
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

        let journal = SledJournal::open(folder.path()).unwrap();
        let verified = verify(&journal, told.lines(), true).unwrap();
        assert!(verified.acknowledged > 0 && verified.checkpoints > 0, "{verified:?}");
        assert_no_blobs(folder.path());
    }
}
