//! Machines that serve from one database, all at once, whatever becomes of one of them or
//! of the database.

use std::fs;
use std::path::Path;
use std::sync::Mutex;
use std::thread;
use std::time::{Duration, Instant};

use rustix::process::Signal;

use crate::machine;
use crate::machines::{
    PATIENCE, get, join, serving, squads, text, texted_during, until_ready, verify,
};
use crate::program::{Running, lapwing, printed};
use crate::receiver::{Got, Receiver};
use crate::server::{Server, server};

fn serve(folder: &Path, journal: &str, outbox: &Receiver) -> Running {
    Running::start(serving(folder, journal, outbox, 0))
}

fn folders(count: usize) -> Vec<tempfile::TempDir> {
    (0..count).map(|_| tempfile::tempdir().unwrap()).collect()
}

/// A machine in each folder, and where they listen.
fn begun(
    folders: &[tempfile::TempDir],
    journal: &str,
    outbox: &Receiver,
) -> (Vec<Running>, Vec<u16>) {
    let machines: Vec<Running> =
        folders.iter().map(|folder| serve(folder.path(), journal, outbox)).collect();
    let ports = machines.iter().map(Running::port).collect();
    (machines, ports)
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn machines_serve_beside_each_other_whichever_is_killed() {
    let (folders, outbox, url) = (folders(3), Receiver::begin(), server().new_address());
    let codes = squads(folders[0].path(), &url);
    let (mut machines, _) = begun(&folders, &url, &outbox);
    let ports = |machines: &[Running]| machines.iter().map(Running::port).collect::<Vec<_>>();
    join(&codes, &ports(&machines), 2);
    let open = Mutex::new(ports(&machines));
    let told = texted_during(&open, || {
        for killed in 0..machines.len() {
            thread::sleep(Duration::from_secs(1));
            machines[killed].child.kill().unwrap();
            thread::sleep(Duration::from_millis(500));
            machines[killed] = serve(folders[killed].path(), &url, &outbox);
            *open.lock().unwrap() = ports(&machines);
        }
        thread::sleep(Duration::from_secs(1));
    });
    println!("{} texts", told.len());
    assert!(told.len() > 60, "{}", told.len());
    // A command of a machine that serves goes through it, another's beside them.
    let listed = |folder: &Path| printed(machine(folder, &url, &["squad", "list"]));
    let told_nothing = printed(lapwing(folders[0].path(), &["squad", "list"]));
    assert_eq!(told_nothing, listed(folders[0].path()));
    let elsewhere = tempfile::tempdir().unwrap();
    assert_eq!(listed(folders[0].path()), listed(elsewhere.path()));
    verify((server(), &url), &ports(&machines), &told, &outbox);
    machines.into_iter().for_each(|machine| drop(machine.stopped()));
}

/// What one has written down of a squad, another need not write: nobody is called for that.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn machines_that_write_snapshots_complain_of_none() {
    let (folders, outbox, url) = (folders(2), Receiver::begin(), server().new_address());
    let codes = squads(folders[0].path(), &url);
    let log = |folder: &tempfile::TempDir| folder.path().join("log");
    let machines = folders.iter().map(|folder| {
        let file = fs::File::create(log(folder)).unwrap();
        Running::start_logging(serving(folder.path(), &url, &outbox, 0), file)
    });
    let machines: Vec<Running> = machines.collect();
    let ports: Vec<u16> = machines.iter().map(Running::port).collect();
    join(&codes, &ports, 2);
    for number in 0..400 {
        let words = format!("200 test 3:{:02}", 10 + number % 7);
        let told = text(ports[number % 2], &format!("gw-{number}"), "15550200", &words);
        assert!(told.is_some(), "{number}");
    }
    let complaints = |folder| {
        let said = fs::read_to_string(log(folder)).unwrap();
        said.lines().filter(|line| line.contains("ERROR")).collect::<Vec<_>>().join("\n")
    };
    assert_eq!(folders.iter().map(complaints).collect::<String>(), "");
    machines.into_iter().for_each(|machine| drop(machine.stopped()));
}

/// One that stands still, in whatever it does, holds the others up for some seconds at
/// most, and goes on with them later.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_machine_that_stands_still_holds_nobody_up() {
    let (folders, outbox, url) = (folders(2), Receiver::begin(), server().new_address());
    let codes = squads(folders[0].path(), &url);
    let (machines, ports) = begun(&folders, &url, &outbox);
    join(&codes, &ports, 2);
    let open = Mutex::new(ports.clone());
    let told = texted_during(&open, || {
        for (round, (still, other)) in [(0, 1), (1, 0), (0, 1)].into_iter().enumerate() {
            thread::sleep(Duration::from_secs(1));
            *open.lock().unwrap() = vec![ports[other]];
            machines[still].signal(Signal::STOP);
            let begun = Instant::now();
            let id = format!("gw-still-{round}");
            while text(ports[other], &id, "15550100", "squad").is_none() {
                assert!(begun.elapsed() < Duration::from_secs(10), "it is held up");
            }
            println!("answered after {:?}", begun.elapsed());
            thread::sleep(Duration::from_secs(1));
            machines[still].signal(Signal::CONT);
            *open.lock().unwrap() = ports.clone();
        }
        thread::sleep(Duration::from_secs(1));
    });
    assert!(told.len() > 30, "{}", told.len());
    verify((server(), &url), &ports, &told, &outbox);
    machines.into_iter().for_each(|machine| drop(machine.stopped()));
}

/// Danger that is told to one machine while the one that sends stands still: another
/// brings the alarm, within some seconds.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn an_alarm_goes_out_whichever_machine_stands_still() {
    let (folders, outbox, url) = (folders(2), Receiver::begin(), server().new_address());
    let codes = squads(folders[0].path(), &url);
    let (machines, ports) = begun(&folders, &url, &outbox);
    join(&codes, &ports, 2);
    // One of them leads by then.
    thread::sleep(Duration::from_secs(2));
    for (still, other) in [(0, 1), (1, 0)] {
        machines[still].signal(Signal::STOP);
        let begun = Instant::now();
        let from = format!("1555020{other}");
        let id = format!("gw-danger-{other}");
        while text(ports[other], &id, &from, "chest pain, I feel faint").is_none() {
            assert!(begun.elapsed() < Duration::from_secs(10), "it is held up");
        }
        let told = Instant::now();
        let coach = format!("+1555010{other}");
        let is_it = |got: &Got| got.to == coach && got.at > begun;
        while !outbox.got().iter().any(is_it) {
            assert!(told.elapsed() < Duration::from_secs(10), "nobody is called");
            thread::sleep(Duration::from_millis(20));
        }
        println!("the coach was called after {:?}", told.elapsed());
        assert!(told.elapsed() < Duration::from_secs(6));
        machines[still].signal(Signal::CONT);
        until_ready(ports[still]);
    }
    outbox.verify();
    machines.into_iter().for_each(|machine| drop(machine.stopped()));
}

/// How many ids are brought to two machines at once.
fn ids() -> usize {
    std::env::var("IDS").ok().and_then(|number| number.parse().ok()).unwrap_or(10_000)
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn what_is_brought_to_two_machines_at_once_is_stored_once() {
    const BRINGERS: usize = 8;
    const SWIMMERS: usize = 7;
    let (folders, outbox, url) = (folders(2), Receiver::begin(), server().new_address());
    let codes = squads(folders[0].path(), &url);
    let (machines, ports) = begun(&folders, &url, &outbox);
    join(&codes, &ports, SWIMMERS);
    let bring = |port: u16, bringer: usize, number: usize| {
        let from = format!("15550{}0{}", 2 + number % SWIMMERS, bringer % 2);
        let words = format!("done {} {}min rpe {}", 1200 + number % 9 * 50, 40 + number % 20, 5);
        let begun = Instant::now();
        loop {
            if let Some(answer) = text(port, &format!("gw-{bringer}-{number}"), &from, &words) {
                return answer;
            }
            assert!(begun.elapsed() < PATIENCE, "no answer");
            thread::sleep(Duration::from_millis(20));
        }
    };
    let begun = Instant::now();
    thread::scope(|scope| {
        for bringer in 0..BRINGERS {
            let (bring, ports) = (&bring, &ports);
            scope.spawn(move || {
                for number in 0..ids() / BRINGERS {
                    let (one, other) = thread::scope(|pair| {
                        let one = pair.spawn(|| bring(ports[0], bringer, number));
                        let other = pair.spawn(|| bring(ports[1], bringer, number));
                        (one.join().unwrap(), other.join().unwrap())
                    });
                    assert_eq!(one, other, "{bringer}-{number}");
                }
            });
        }
    });
    println!("{} ids in {:?}", ids(), begun.elapsed());
    let counted = "select count(*), count(distinct key) from lapwing.log where key is not null";
    let counted = server().sql(url.rsplit('/').next().unwrap(), counted);
    let before = 2 * (SWIMMERS + 1);
    let expected = ids() / BRINGERS * BRINGERS + before;
    assert_eq!(counted, format!("{expected}|{expected}"));
    machines.into_iter().for_each(|machine| drop(machine.stopped()));
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_database_that_is_away_is_told_and_waited_for() {
    let (folders, outbox, server) = (folders(2), Receiver::begin(), Server::begin(""));
    let url = server.new_address();
    let codes = squads(folders[0].path(), &url);
    let (machines, ports) = begun(&folders, &url, &outbox);
    join(&codes, &ports, 2);
    let open = Mutex::new(ports.clone());
    let told = texted_during(&open, || {
        thread::sleep(Duration::from_secs(1));
        server.crash();
        let until = Instant::now() + Duration::from_secs(30);
        while ports.iter().any(|port| get(*port, "/ready") != Some(503)) {
            assert!(Instant::now() < until, "one is ready without a database");
            thread::sleep(Duration::from_millis(100));
        }
        assert!(ports.iter().all(|port| get(*port, "/health") == Some(200)));
        server.start();
        ports.iter().for_each(|port| until_ready(*port));
        thread::sleep(Duration::from_secs(1));
    });
    assert!(told.len() > 10, "{}", told.len());
    verify((&server, &url), &ports, &told, &outbox);
    machines.into_iter().for_each(|machine| drop(machine.stopped()));
    let again = printed(lapwing(folders[0].path(), &["check", "--journal", &url]));
    assert!(again.ends_with("sound\n"), "{again}");
}

/// A standby that the server waits for takes its place beneath machines that serve.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_standby_takes_over_beneath_machines_that_serve() {
    let (folders, outbox, first) = (folders(2), Receiver::begin(), Server::begin(""));
    let alone = first.new_address();
    let codes = squads(folders[0].path(), &alone);
    let second = first.standby();
    first.sql("postgres", "alter system set synchronous_standby_names = '*'");
    first.sql("postgres", "select pg_reload_conf()");
    let host = |server: &Server| server.folder().display().to_string().replace('/', "%2F");
    let both = format!("postgres://heron@{},{}/squads0", host(&first), host(&second));
    let (machines, ports) = begun(&folders, &both, &outbox);
    join(&codes, &ports, 2);
    let open = Mutex::new(ports.clone());
    let told = texted_during(&open, || {
        thread::sleep(Duration::from_secs(2));
        first.crash();
        second.promote();
        ports.iter().for_each(|port| until_ready(*port));
        thread::sleep(Duration::from_secs(2));
    });
    println!("{} texts", told.len());
    assert!(told.len() > 30, "{}", told.len());
    verify((&second, &both), &ports, &told, &outbox);
    machines.into_iter().for_each(|machine| drop(machine.stopped()));
}
