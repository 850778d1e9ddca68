//! The two halves of the power-cut test that need the real store: `write`
//! works until its disk is gone, `verify` looks for what was acknowledged.
//! The driver beside it, `run`, cuts the power.

#[path = "../journal/workload.rs"]
mod workload;

use std::error::Error;
use std::io::Read;

use lapwing::journal::SledJournal;
use workload::{Workload, print_line, verify};

const USAGE: &str = "usage: write FOLDER RUN WRITERS WINDOW short|long | mend FOLDER | verify FOLDER short|long < LINES";

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["write", folder, run, writers, window, length] => {
            let workload = Workload {
                run: run.parse()?,
                writers: writers.parse()?,
                window: window.parse()?,
                long_entries: length == "long",
                checkpoints: true,
            };
            workload.write(&SledJournal::open(folder)?, print_line);
            Ok(())
        }
        ["mend", folder] => {
            // Nothing is lost, so nothing may be found to be.
            let repaired = lapwing::journal::repair(folder.as_ref(), None, &[])?;
            if !repaired.lost.is_empty() {
                return Err(format!("a repair found lost {:?}", repaired.lost).into());
            }
            Ok(())
        }
        ["verify", folder, length] => {
            let mut lines = String::new();
            std::io::stdin().read_to_string(&mut lines)?;
            let journal = SledJournal::open(folder)?;
            let verified = verify(&journal, lines.lines(), length == "long")?;
            if std::fs::read_dir(std::path::Path::new(folder).join("sled/blobs"))?.next().is_some()
            {
                return Err("the store has written a side file, which is never synced".into());
            }
            println!("{} {} {}", verified.acknowledged, verified.checkpoints, verified.untold);
            Ok(())
        }
        _ => Err(USAGE.into()),
    }
}
