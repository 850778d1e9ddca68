//! Minutes at half load, with everything else that can go on: the program itself serves,
//! and meanwhile is backed up, checked, asked to forget people, and begun with by a
//! thousand connections that never end what they say. `tests/soak/run` runs it.
//!
//! Those go on at all times, and each is made anew at a moment of its own; with the word
//! `in-step` all of them in one moment, every eight seconds.
//!
//! It is warmed up until the profiles are as full as they get, and only then is its peak
//! measured. Its memory must stay about what it is after the warm-up, and 99 of 100 answers
//! come within 10 ms, each counted from the instant at which its request was due. What of
//! it holds them up is told too: the same for the answers that were due while each of these
//! things went on.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, ExitCode, Stdio};
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};

use super::CONNECTIONS;
use super::client::{self, Load, Text};
use super::seconds::{Second, each_second};
use super::server::{Child, SECRET};
use super::slow::Slow;

const PROGRAM: &str = env!("CARGO_BIN_EXE_lapwing");
const SQUADS: usize = 8;
const SWIMMERS: usize = 30;
/// How long the server's peak is measured.
const PEAK: Duration = Duration::from_secs(5);
/// So many texts a swimmer warm up: then each profile's window is full of sessions, and
/// what is kept of tests is as much as ever. Before that a text costs less and memory grows.
const WARM: u32 = 800;
/// 99 of 100 answers come within so many milliseconds, …
const P99_MS: f64 = 10.0;
/// … and the memory in the last tenth is on the mean at most so many times that in the
/// first, all else going on in both.
const GROWTH: f64 = 1.1;

/// Soaks for so many minutes, ten where it isn't said; with `in-step`, the slow connections
/// are made anew all in one moment.
pub fn soak(words: &[String]) -> ExitCode {
    let minutes: f64 = words.first().map_or(10.0, |word| word.parse().unwrap());
    let slow = match words.get(1).map(String::as_str) {
        None => Slow::Apart,
        Some("in-step") => Slow::InStep,
        Some(other) => panic!("`{other}` is neither minutes nor in-step"),
    };
    let all = Duration::from_secs_f64(minutes * 60.0);
    let files = getrlimit(Resource::Nofile);
    setrlimit(Resource::Nofile, Rlimit { current: files.maximum, ..files }).unwrap();
    let folder = tempfile::tempdir_in("target").unwrap();
    let codes: Vec<String> = (0..SQUADS).map(|squad| opened(folder.path(), squad)).collect();
    let (child, errors) = Child::program(folder.path(), PROGRAM, SQUADS * SWIMMERS);
    for swimmer in 0..child.swimmers {
        let code = &codes[swimmer / SWIMMERS];
        said(&child, &format!("swimmer{swimmer}"), &format!("join {code} heron{swimmer}"));
    }
    let warming = Instant::now();
    let mut texts = 0.0;
    while texts < f64::from(WARM) * child.swimmers as f64 && warming.elapsed() < all / 2 {
        texts +=
            client::flat_out(&child, Text::Mixed, CONNECTIONS, PEAK).a_second * PEAK.as_secs_f64();
    }
    let warm = warming.elapsed();
    let peak = client::flat_out(&child, Text::Mixed, CONNECTIONS, PEAK).a_second;
    let rate = peak / 2.0;
    println!("flat out {peak:.0} a second; {minutes} minutes at {rate:.0}");
    client::open_loop(&child, Text::Mixed, CONNECTIONS, PEAK, rate);
    let begun = Instant::now();
    let ended = AtomicBool::new(false);
    let (load, beside, memory, begun_slowly) = thread::scope(|scope| {
        let load = scope.spawn(|| {
            let load = client::open_loop(&child, Text::Mixed, CONNECTIONS, all, rate);
            ended.store(true, Ordering::Relaxed);
            load
        });
        let slow = scope.spawn(|| slow.keep_up(&child, &ended));
        let memory = scope.spawn(|| each_second(&child, &ended));
        let mut beside: Vec<(Beside, Instant, Instant)> = Vec::new();
        for round in 0.. {
            for what in Beside::ALL {
                if ended.load(Ordering::Relaxed) {
                    break;
                }
                let from = Instant::now();
                what.go_on(&child, folder.path(), &codes[0], round);
                beside.push((what, from, Instant::now()));
            }
            if ended.load(Ordering::Relaxed) {
                break;
            }
        }
        (load.join().unwrap(), beside, memory.join().unwrap(), slow.join().unwrap())
    });
    let took = begun.elapsed().as_secs_f64();
    drop(child);
    let errors = errors.join().unwrap();
    let tenth = memory.len().div_ceil(10);
    let mean_mib = |some: &[Second]| {
        some.iter().map(|second| second.kib).sum::<u64>() as f64 / some.len() as f64 / 1024.0
    };
    let (first, last) = (mean_mib(&memory[..tenth]), mean_mib(&memory[memory.len() - tenth..]));
    let highest = memory.iter().map(|second| second.kib).max().unwrap() / 1024;
    let (shared, ours): (Vec<_>, Vec<_>) = memory.iter().partition(|second| second.is_shared());
    let ours: Vec<_> = ours.into_iter().map(Second::span).collect();
    let growth = last / first;
    println!("| {took:.0} s after a warm-up of {} s | figure | goal |", warm.as_secs());
    println!("| --- | --- | --- |");
    println!("| answers a second | {:.0} | {rate:.0} |", load.a_second);
    println!("| 99 of 100 within, ms | {:.1} | {P99_MS:.0} |", load.p99_ms);
    println!(
        "| without the {} seconds in which other programs were at work too, ms | {:.1} | |",
        shared.len(),
        p99_during(&load, &ours)
    );
    println!("| the longest, ms | {:.0} | |", load.longest_ms);
    println!(
        "| server CPU an answer, all that goes on beside with it, µs | {:.0} | |",
        load.server_us
    );
    println!("| memory, MiB, first and last tenth | {first:.0} to {last:.0} | {GROWTH} times |");
    println!("| memory at its highest, MiB | {highest} | |");
    for what in Beside::ALL {
        let spans: Vec<(Instant, Instant)> =
            beside.iter().filter(|one| one.0 == what).map(|one| (one.1, one.2)).collect();
        let all: Duration = spans.iter().map(|(from, to)| *to - *from).sum();
        println!(
            "| {}: how often, s each, 99 of 100 within ms | {}, {:.1}, {:.1} | |",
            what.words(),
            spans.len(),
            all.as_secs_f64() / spans.len().max(1) as f64,
            p99_during(&load, &spans)
        );
    }
    println!("| slow connections begun, {} | {begun_slowly} | |", slow.words());
    println!("| errors in the log | {} | 0 |", errors.len());
    errors.iter().take(5).for_each(|line| println!("{line}"));
    let kept_up = load.a_second > rate * 0.98;
    let holds = kept_up && load.p99_ms < P99_MS && growth < GROWTH && errors.is_empty();
    println!("{}", if holds { "holds" } else { "does not hold" });
    if holds { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// What goes on beside the load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Beside {
    Backup,
    Check,
    /// The answer comes after two seconds at most, and erasing goes on behind it.
    Erasure,
}

impl Beside {
    const ALL: [Beside; 3] = [Beside::Backup, Beside::Check, Beside::Erasure];

    fn words(self) -> &'static str {
        match self {
            Beside::Backup => "backups",
            Beside::Check => "checks",
            Beside::Erasure => "wishes to be forgotten, until they are answered",
        }
    }

    fn go_on(self, child: &Child, folder: &Path, code: &str, round: usize) {
        match self {
            Beside::Backup => drop(run(folder, &["backup", "--force", "backup"])),
            Beside::Check => {
                let told = run(folder, &["check"]);
                assert!(told.ends_with("sound\n"), "{told}");
            }
            Beside::Erasure => {
                let leaver = format!("leaver{round}");
                let joins = format!("join {code} {leaver}");
                for text in [&joins, "200 test 3:20", "forget me", "yes"] {
                    said(child, &leaver, text);
                }
            }
        }
    }
}

/// Within how many ms 99 of 100 of those answers came that were due in these spans.
fn p99_during(load: &Load, spans: &[(Instant, Instant)]) -> f64 {
    let due = |at: &Instant| spans.iter().any(|(from, to)| from <= at && at < to);
    let answers = load.answers.iter().filter(|(at, _)| due(at));
    let mut times: Vec<Duration> = answers.map(|(_, took)| *took).collect();
    times.sort_unstable();
    client::within_ms(&times, 0.99)
}

/// Opens a squad; gives its code.
fn opened(folder: &Path, squad: usize) -> String {
    let (name, coach) = (format!("Dusk {squad}"), format!("coach{squad}"));
    let told = run(folder, &["squad", "add", &name, "--coach", &coach, "--ready"]);
    told.split("join ").nth(1).unwrap().trim().to_owned()
}

/// Runs a command of the program's in a folder; gives what it prints.
fn run(folder: &Path, words: &[&str]) -> String {
    let done = Command::new(PROGRAM).args(words).current_dir(folder).output().unwrap();
    let told = String::from_utf8(done.stdout).unwrap();
    let wrong = String::from_utf8_lossy(&done.stderr);
    assert!(done.status.success(), "{words:?}: {told}{wrong}");
    told
}

fn said(child: &Child, from: &str, text: &str) {
    let answer = client::say(child, from, text);
    let body = String::from_utf8_lossy(&answer.body);
    assert_eq!(answer.status, 200, "{text}: {body}");
    assert!(!body.contains("not_understood"), "{text}: {body}");
}

impl Child {
    /// Starts the program in a folder, whose squads have so many swimmers together;
    /// gives the errors that its log tells of, once it has ended.
    fn program(
        folder: &Path,
        program: &str,
        swimmers: usize,
    ) -> (Child, thread::JoinHandle<Vec<String>>) {
        let mut child = Command::new(program)
            .args(["serve", "--listen", "127.0.0.1:0"])
            .current_dir(folder)
            .env("LAPWING_SECRET", SECRET)
            .stdin(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut log = BufReader::new(child.stderr.take().unwrap()).lines().map_while(Result::ok);
        let listening = log.find_map(|line| Some(line.split_once("listening on ")?.1.to_owned()));
        let address = listening.unwrap().trim().trim_start_matches("http://").to_owned();
        let errors = move || log.filter(|line| line.contains("ERROR")).collect();
        (Child::new(child, address, swimmers), thread::spawn(errors))
    }
}
