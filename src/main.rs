//! The command line.

use std::process::ExitCode;

fn main() -> ExitCode {
    lapwing::cli::run(std::env::args_os())
}
