//! Machines that know each other: a squad's texts go to one of them, and are answered by
//! another where that one is gone or stands still.

use std::net::TcpListener;
use std::path::Path;
use std::process::Command;
use std::sync::Mutex;
use std::thread;
use std::time::{Duration, Instant};

use rustix::process::Signal;

use crate::machines::{body, get, join, serving, squads, text, texted_during, until_ready, verify};
use crate::program::Running;
use crate::receiver::Receiver;
use crate::server::server;

/// Where a machine listens, and where its figures are.
#[derive(Clone, Copy)]
struct Ports {
    texts: u16,
    figures: u16,
}

impl Ports {
    fn free() -> Ports {
        let free = || TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
        Ports { texts: free(), figures: free() }
    }

    /// A machine that tells the others where it is reached.
    fn serving(self, folder: &Path, journal: &str, outbox: &Receiver) -> Command {
        let mut command = serving(folder, journal, outbox, self.texts);
        command
            .env("LAPWING_NEIGHBOUR_URL", format!("http://127.0.0.1:{}", self.texts))
            .env("LAPWING_METRICS", format!("127.0.0.1:{}", self.figures));
        command
    }

    /// What its figures count under this name.
    fn figure(self, name: &str) -> f64 {
        let figures = body(self.figures, "/metrics").unwrap_or_default();
        let of = |line: &str| line.strip_prefix(name)?.trim().parse::<f64>().ok();
        figures.lines().filter_map(of).sum()
    }

    fn brought_on(self) -> f64 {
        self.figure("lapwing_messages_total{channel=\"plain\",outcome=\"brought_on\"}")
    }
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_squads_texts_go_to_one_machine_while_it_answers() {
    let (outbox, url) = (Receiver::begin(), server().new_address());
    let folders: Vec<tempfile::TempDir> = (0..2).map(|_| tempfile::tempdir().unwrap()).collect();
    let codes = squads(folders[0].path(), &url);
    let all = [Ports::free(), Ports::free()];
    let begin = |at: usize| Running::start(all[at].serving(folders[at].path(), &url, &outbox));
    let mut machines = [begin(0), begin(1)];
    let ports: Vec<u16> = all.iter().map(|ports| ports.texts).collect();
    join(&codes, &ports, 2);
    let brought = || all.iter().map(|ports| ports.brought_on()).sum::<f64>();
    let open = Mutex::new(ports.clone());
    let told = texted_during(&open, || {
        let until = Instant::now() + Duration::from_secs(20);
        while brought() < 1.0 {
            assert!(Instant::now() < until, "nothing is brought to another machine");
            thread::sleep(Duration::from_millis(50));
        }
        // Both know each other by now, and no text is decided twice.
        thread::sleep(Duration::from_secs(1));
        let again = || all.iter().map(|ports| ports.figure("lapwing_decided_again")).sum::<f64>();
        let (before, passed) = (again(), brought());
        thread::sleep(Duration::from_secs(3));
        let (again, passed) = (again() - before, brought() - passed);
        println!("{passed} texts brought on in three seconds, {again} decided again");
        assert!(passed > 10.0 && again < passed / 10.0, "{passed} {again}");
        for (gone, other) in [(0, 1), (1, 0)] {
            machines[gone].child.kill().unwrap();
            *open.lock().unwrap() = vec![ports[other]];
            thread::sleep(Duration::from_secs(1));
            machines[gone] = begin(gone);
            until_ready(ports[gone]);
            *open.lock().unwrap() = ports.clone();
            thread::sleep(Duration::from_secs(2));
        }
        for (still, other) in [(0, 1), (1, 0)] {
            *open.lock().unwrap() = vec![ports[other]];
            machines[still].signal(Signal::STOP);
            let begun = Instant::now();
            for squad in ["15550100", "15550101"] {
                let id = format!("gw-still-{still}-{squad}");
                while text(ports[other], &id, squad, "squad").is_none() {
                    assert!(begun.elapsed() < Duration::from_secs(10), "it is held up");
                }
            }
            println!("answered after {:?}", begun.elapsed());
            machines[still].signal(Signal::CONT);
            until_ready(ports[still]);
            *open.lock().unwrap() = ports.clone();
        }
    });
    assert!(told.len() > 60, "{}", told.len());
    verify((server(), &url), &ports, &told, &outbox);
    machines.into_iter().for_each(|machine| drop(machine.stopped()));
}

/// Nobody but a machine that knows the key brings anything in by that way.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_stranger_brings_nothing() {
    let (outbox, url) = (Receiver::begin(), server().new_address());
    let folder = tempfile::tempdir().unwrap();
    squads(folder.path(), &url);
    let ports = Ports::free();
    let machine = Running::start(ports.serving(folder.path(), &url, &outbox));
    let brought = "{\"incoming\":{\"channel\":\"plain\",\"id\":\"gw-1\",\"from\":\"+15550100\",\
                   \"room\":null,\"sent_at\":null,\"body\":{\"text\":\"squad\"}},\"back\":\
                   {\"answers\":\"answer\",\"alone\":null,\"handle\":null,\"thread\":null}}";
    for headers in
        ["", "webhook-id: gw-1\r\nwebhook-timestamp: 0\r\nwebhook-signature: v1,AAAA\r\n"]
    {
        let status = crate::machines::post(ports.texts, "/v1/neighbour", headers, brought);
        assert_eq!(status, Some(401));
    }
    assert_eq!(get(ports.texts, "/v1/neighbour"), Some(405));
    drop(machine.stopped());
}
