//! The command line.

use std::process::ExitCode;

use mimalloc::MiMalloc;

/// A message takes and gives back memory some thousand times.
#[global_allocator]
static MEMORY: MiMalloc = MiMalloc;

fn main() -> ExitCode {
    lapwing::cli::run(std::env::args_os())
}
