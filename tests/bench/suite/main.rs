//! What an answer costs: the whole service as a process of its own beside a bare
//! handler that checks the same signature and answers at once, and beside the same
//! service on a journal that costs nothing. The client signs and sends from this
//! process. All in one run, on the same two cores; read the ratios.
//!
//! ```text
//! cargo bench --bench suite              everything, some minutes
//! cargo bench --bench suite -- texts     what each kind of text costs
//! cargo bench --bench suite -- squads    the same in squads of 30 and 1,000
//! cargo bench --bench suite -- pages     bytes and time of the pages, of 24 and 1,000
//! cargo bench --bench suite -- soak 10   ten minutes at half load, see `tests/soak/run`
//! cargo bench --bench suite -- within    texts without sockets and disk, on one thread
//! cargo bench --bench suite -- growth    what grows with a squad and with a text, likewise
//! cargo bench --bench suite -- several   one, two and four processes over one database
//! ```
//!
//! Every text that is to store something is looked at: what its answer says must
//! be what it was sent for, or the run fails.
#![expect(clippy::unwrap_used, reason = "a benchmark that can't go on has failed")]

mod client;
#[path = "../../journal/server.rs"]
#[expect(dead_code, reason = "shared with the journal's own tests, which use the rest")]
mod database;
mod growth;
mod nothing;
mod pages;
mod seconds;
mod server;
mod several;
mod slow;
mod soak;
mod within;

use std::process::ExitCode;
use std::time::Duration;

use client::{Load, Text};
use mimalloc::MiMalloc;
use server::{Child, Kind};

/// As the program's own.
#[global_allocator]
static MEMORY: MiMalloc = MiMalloc;

const CONNECTIONS: usize = 64;

fn main() -> ExitCode {
    let words: Vec<String> =
        std::env::args().skip(1).filter(|word| !word.starts_with("--")).collect();
    if words.first().is_some_and(|word| word == "serve") {
        server::serve(&words[1..]);
        return ExitCode::SUCCESS;
    }
    if words.first().is_some_and(|word| word == "within") {
        within::within(&words[1..]);
        return ExitCode::SUCCESS;
    }
    if words.first().is_some_and(|word| word == "growth") {
        growth::growth(&words[1..]);
        return ExitCode::SUCCESS;
    }
    if words.first().is_some_and(|word| word == "several") {
        several::several();
        return ExitCode::SUCCESS;
    }
    if words.first().is_some_and(|word| word == "soak") {
        return soak::soak(&words[1..]);
    }
    let wanted = |name: &str| words.is_empty() || words.iter().any(|word| word == name);
    if wanted("texts") {
        texts();
    }
    if wanted("squads") {
        squads();
    }
    if wanted("pages") {
        pages::pages();
    }
    ExitCode::SUCCESS
}

/// How long each load lasts.
fn span() -> Duration {
    let seconds = std::env::var("LAPWING_BENCH_SECONDS").ok().and_then(|word| word.parse().ok());
    Duration::from_secs(seconds.unwrap_or(6))
}

fn texts() {
    println!(
        "| text | requests/s | server CPU µs | of bare | of a free journal | p99 at half, ms |"
    );
    println!("| --- | --- | --- | --- | --- | --- |");
    for text in [Text::Again, Text::Done, Text::Test] {
        let bare = run(Kind::Bare, 8, 8, text);
        let free = run(Kind::Free, 8, 8, text);
        let child = Child::start(Kind::Real, 8, 8);
        let real = client::flat_out(&child, text, CONNECTIONS, span());
        let calm = client::open_loop(&child, text, CONNECTIONS, span() * 2, real.a_second / 2.0);
        println!(
            "| {text:?} | {:.0} | {:.0} | {:.3} | {:.2} | {:.1} (longest {:.0}) |",
            real.a_second,
            real.server_us,
            real.a_second / bare.a_second,
            real.a_second / free.a_second,
            calm.p99_ms,
            calm.longest_ms
        );
    }
}

fn squads() {
    println!("| squad | text | server CPU µs | of one of 30 |");
    println!("| --- | --- | --- | --- |");
    for text in [Text::Done, Text::Test] {
        let small = run(Kind::Real, 1, 30, text).server_us;
        for size in [100, 300, 1_000] {
            let us = run(Kind::Real, 1, size, text).server_us;
            println!("| {size} | {text:?} | {us:.0} | {:.2} |", us / small);
        }
    }
}

fn run(kind: Kind, squads: usize, swimmers: usize, text: Text) -> Load {
    let child = Child::start(kind, squads, swimmers);
    client::flat_out(&child, text, CONNECTIONS, span())
}
