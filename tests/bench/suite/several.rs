//! What several processes over one database do, beside one with the embedded store: all in
//! one run, on the same cores, which the database and the client need too. Read the ratios.
//! Wants PostgreSQL's server.

use std::time::Duration;

use super::client::{self, Load, Text};
use super::database::server;
use super::server::{Child, Kind};
use super::{CONNECTIONS, span};

/// A federation's evening: many squads, each of some of whose swimmers texts come.
const SQUADS: usize = 64;
const SWIMMERS: usize = 8;
/// The same texts to few squads, so that processes decide in the same one at once.
const FEW: usize = 2;

/// Prints the table.
pub fn several() {
    println!(
        "| processes | squads | texts/s | of embedded | p50, ms | p99, ms | p99 at half | CPU \
              a text, µs | decided again |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    for squads in [SQUADS, FEW] {
        let swimmers = SQUADS * SWIMMERS / squads;
        let embedded = Child::start(Kind::Real, squads, swimmers);
        let alone = row("embedded", squads, &[&embedded], None);
        drop(embedded);
        let url = server().new_address();
        // Neighbours of one squad write to any of the processes: the worst case, where these
        // don't bring each squad's texts to one of them.
        for (count, kind) in [
            (1, Kind::Shared),
            (2, Kind::Neighbours),
            (4, Kind::Neighbours),
            (2, Kind::Shared),
            (4, Kind::Shared),
        ] {
            let children: Vec<Child> =
                (0..count).map(|_| Child::start_on(kind, squads, swimmers, &url)).collect();
            let all: Vec<&Child> = children.iter().collect();
            let each = if kind == Kind::Shared && count > 1 { ", each alone" } else { "" };
            row(&format!("{count}{each}"), squads, &all, Some(&alone));
        }
    }
    memory();
}

fn row(what: &str, squads: usize, children: &[&Child], alone: Option<&Load>) -> Load {
    let again = || children.iter().map(|child| decided_again(child)).sum::<u64>();
    // The first texts load the squads.
    client::flat_out_at(children, Text::Done, CONNECTIONS, Duration::from_secs(1));
    let before = again();
    let load = client::flat_out_at(children, Text::Done, CONNECTIONS, span());
    let conflicts = (again() - before) as f64 / (load.a_second * span().as_secs_f64());
    let half = load.a_second / 2.0;
    let calm = client::open_loop_at(children, Text::Done, CONNECTIONS, span(), half);
    let ratio = alone.map_or(1.0, |alone| load.a_second / alone.a_second);
    println!(
        "| {what} | {squads} | {:.0} | {ratio:.2} | {:.1} | {:.1} | {:.1} | {:.0} | {:.2} % |",
        load.a_second,
        load.p50_ms,
        load.p99_ms,
        calm.p99_ms,
        load.server_us,
        conflicts * 100.0
    );
    load
}

/// How often a server has decided something again.
fn decided_again(child: &Child) -> u64 {
    let told = client::get(child, "/again");
    String::from_utf8(told.body).unwrap().parse().unwrap()
}

/// What a process holds of 10,000 swimmers, of whom 500 text.
fn memory() {
    const SQUADS: usize = 333;
    const SWIMMERS: usize = 30;
    const ACTIVE: usize = 500;
    let url = server().new_address();
    drop(Child::start_on(Kind::Shared, SQUADS, SWIMMERS, &url));
    let one = Child::start_on(Kind::Shared, SQUADS, SWIMMERS, &url);
    let begun = one.resident_kib();
    for swimmer in 0..ACTIVE {
        // Some from every squad.
        let from = format!("swimmer{}", swimmer * (SQUADS * SWIMMERS / ACTIVE));
        assert_eq!(client::say(&one, &from, "done 1200 40min rpe 5").status, 200);
    }
    let (begun, served) = (begun as f64 / 1024.0, one.resident_kib() as f64 / 1024.0);
    println!(
        "{} swimmers: {begun:.0} MiB at the start, {served:.0} once {ACTIVE} of them, of all \
              squads, have texted",
        SQUADS * SWIMMERS
    );
}
