//! `lapwing version`: what to say when something is to be mended.

use serde::Serialize;

use super::arguments::Listing;
use super::console::{print, print_json};
use super::run::Outcome;
use crate::journal;

/// What is what.
#[derive(Serialize)]
struct Versions {
    version: &'static str,
    journal_format: u32,
    system: &'static str,
    processor: &'static str,
}

/// Prints it.
pub fn run(asked: Listing) -> Outcome {
    let versions = Versions {
        version: env!("CARGO_PKG_VERSION"),
        journal_format: journal::FORMAT,
        system: std::env::consts::OS,
        processor: std::env::consts::ARCH,
    };
    if asked.json {
        print_json(&versions)?;
        return Ok(());
    }
    let Versions { version, journal_format, system, processor } = versions;
    print(format_args!(
        "lapwing {version}\njournal format {journal_format}\n{system} {processor}"
    ))?;
    Ok(())
}
