//! Kills, machines that stand still, cut lines and a server that crashes, one after the
//! other by chance, while all machines take texts (`SEED`, `ROUNDS`, `MACHINES`).

use std::net::TcpListener;
use std::process::{Child, Stdio};
use std::sync::Mutex;
use std::thread;
use std::time::Duration;

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rustix::process::{Pid, Signal, kill_process};

use crate::machines::{join, serving, squads, texted_during, until_ready, verify};
use crate::receiver::Receiver;
use crate::server::Server;

/// A machine that serves; killed when the test ends.
struct Machine(Child);

impl Machine {
    fn signal(&self, signal: Signal) {
        kill_process(Pid::from_child(&self.0), signal).unwrap();
    }
}

impl Drop for Machine {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

fn number(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).ok().and_then(|number| number.parse().ok()).unwrap_or(otherwise)
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn whatever_fails_nothing_is_lost_or_doubled_by_two() {
    whatever_fails(number("MACHINES", 2) as usize, number("ROUNDS", 6));
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn whatever_fails_nothing_is_lost_or_doubled_by_four() {
    whatever_fails(4, number("ROUNDS", 6));
}

fn whatever_fails(count: usize, rounds: u64) {
    let mut dice = ChaCha8Rng::seed_from_u64(number("SEED", 8));
    let (server, outbox) = (Server::begin(""), Receiver::begin());
    let url = server.new_address();
    let folders: Vec<_> = (0..count).map(|_| tempfile::tempdir().unwrap()).collect();
    let codes = squads(folders[0].path(), &url);
    let free = || TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
    let ports: Vec<u16> = (0..count).map(|_| free()).collect();
    let start = |at: usize| {
        let mut command = serving(folders[at].path(), &url, &outbox, ports[at]);
        Machine(command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap())
    };
    let mut machines: Vec<Machine> = (0..count).map(start).collect();
    ports.iter().for_each(|port| until_ready(*port));
    join(&codes, &ports, 2);
    let open = Mutex::new(ports.clone());
    let told = texted_during(&open, || {
        for round in 0..rounds {
            thread::sleep(Duration::from_millis(dice.random_range(200..1500)));
            let one = dice.random_range(0..count);
            match dice.random_range(0..4) {
                0 => {
                    println!("{round}: {one} is killed");
                    machines[one].0.kill().unwrap();
                    machines[one].0.wait().unwrap();
                    machines[one] = start(one);
                    until_ready(ports[one]);
                }
                1 => {
                    println!("{round}: {one} stands still");
                    machines[one].signal(Signal::STOP);
                    // Whoever asks it waits, and asks again once it goes on.
                    thread::sleep(Duration::from_millis(dice.random_range(100..7000)));
                    machines[one].signal(Signal::CONT);
                }
                2 => {
                    println!("{round}: lines are cut");
                    let cut = "select pg_terminate_backend(pid) from pg_stat_activity \
                               where application_name = 'lapwing'";
                    server.sql("postgres", cut);
                }
                _ => {
                    println!("{round}: the server crashes");
                    server.crash();
                    thread::sleep(Duration::from_millis(dice.random_range(0..3000)));
                    server.start();
                    ports.iter().for_each(|port| until_ready(*port));
                }
            }
        }
        ports.iter().for_each(|port| until_ready(*port));
        thread::sleep(Duration::from_secs(1));
    });
    println!("{} texts", told.len());
    assert!(told.len() > 60, "{}", told.len());
    verify((&server, &url), &ports, &told, &outbox);
}
