//! `lapwing completions`: what a shell completes our commands by.

use std::io::Write;

use clap::CommandFactory;

use super::arguments::{Arguments, Completions};
use super::run::Outcome;

/// Prints it.
pub fn run(asked: Completions) -> Outcome {
    let mut script = Vec::new();
    clap_complete::generate(asked.shell, &mut Arguments::command(), "lapwing", &mut script);
    let mut out = std::io::stdout().lock();
    out.write_all(&script)?;
    out.flush()?;
    Ok(())
}
