//! Kills, machines that stand still, cut lines and a server that crashes, one after the
//! other by chance (`SEED`, `ROUNDS`).

use std::net::TcpListener;
use std::path::Path;
use std::process::{Child, Stdio};
use std::sync::Mutex;
use std::sync::atomic::AtomicBool;
use std::thread;
use std::time::{Duration, Instant};

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rustix::process::{Pid, Signal, kill_process};

use crate::machine;
use crate::machines::{Ends, get, squad, text_until, until_away, verify};
use crate::program::printed;
use crate::server::Server;

/// A machine that serves, or waits to.
struct Machine {
    child: Child,
    port: u16,
}

impl Machine {
    fn start(folder: &Path, journal: &str, port: u16) -> Machine {
        let listen = format!("127.0.0.1:{port}");
        let mut command = machine(folder, journal, &["serve", "--listen", &listen]);
        let child = command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        Machine { child, port }
    }

    fn signal(&self, signal: Signal) {
        kill_process(Pid::from_child(&self.child), signal).unwrap();
    }
}

impl Drop for Machine {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Which of these ports serves, once one does.
fn until_one_serves(ports: &[u16]) -> usize {
    let until = Instant::now() + Duration::from_secs(60);
    loop {
        if let Some(serves) = ports.iter().position(|port| get(*port, "/ready") == Some(200)) {
            return serves;
        }
        assert!(Instant::now() < until, "nobody serves");
        thread::sleep(Duration::from_millis(50));
    }
}

fn number(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).ok().and_then(|number| number.parse().ok()).unwrap_or(otherwise)
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn whatever_fails_nothing_is_lost_or_doubled() {
    let mut dice = ChaCha8Rng::seed_from_u64(number("SEED", 8));
    let server = Server::begin("");
    let url = server.new_address();
    let folders: Vec<_> = (0..3).map(|_| tempfile::tempdir().unwrap()).collect();
    squad(folders[0].path(), &url);
    let start = |at: usize, port: u16| Machine::start(folders[at].path(), &url, port);
    let mut machines: Vec<Machine> = (0..folders.len())
        .map(|at| {
            let free = TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
            start(at, free)
        })
        .collect();
    let ports: Vec<u16> = machines.iter().map(|machine| machine.port).collect();
    let (over, port) = (AtomicBool::new(false), Mutex::new(0));
    let told = thread::scope(|scope| {
        let writers = scope.spawn(|| text_until(&over, &port));
        let ends = Ends(&over);
        for round in 0..number("ROUNDS", 6) {
            let serving = until_one_serves(&ports);
            *port.lock().unwrap() = ports[serving];
            thread::sleep(Duration::from_millis(dice.random_range(200..1500)));
            match dice.random_range(0..4) {
                0 => {
                    println!("{round}: {serving} is killed");
                    machines[serving] = start(serving, {
                        machines[serving].child.kill().unwrap();
                        machines[serving].child.wait().unwrap();
                        ports[serving]
                    });
                }
                1 => {
                    println!("{round}: {serving} stands still");
                    machines[serving].signal(Signal::STOP);
                    let others = ports.iter().copied().filter(|one| *one != ports[serving]);
                    until_one_serves(&others.collect::<Vec<_>>());
                    machines[serving].signal(Signal::CONT);
                    until_away(ports[serving]);
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
                }
            }
        }
        *port.lock().unwrap() = ports[until_one_serves(&ports)];
        thread::sleep(Duration::from_secs(1));
        drop(ends);
        writers.join().unwrap()
    });
    println!("{} texts", told.len());
    assert!(told.len() > 20, "{}", told.len());
    verify(&server, "squads0", ports[until_one_serves(&ports)], &told);
    let checked = printed(machine(folders[0].path(), &url, &["check"]));
    assert!(checked.ends_with("sound\n"), "{checked}");
}
