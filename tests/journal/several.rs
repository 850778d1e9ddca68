//! Several processes that write to one database: what stands on what another changed is
//! given back, all are handed the same log, one of them leads.

use super::*;

use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, Weak};
use std::thread;
use std::time::{Duration, Instant};

use lapwing::journal::{Basis, Follower, Topic};

use crate::home::{Database, Home};
use crate::postgres::{Told, cut_lines, name_of, verify};

/// One that keeps what it is handed: an entry changes its stream, and its message's id.
#[derive(Default)]
struct Folds {
    taken: Mutex<Vec<Placed>>,
    anew: AtomicU64,
    led: AtomicBool,
}

fn topic_of(stream: &StreamId) -> Topic {
    Topic::of("stream", &stream.0)
}

fn topic_of_key(key: &MessageKey) -> Topic {
    Topic::of("key", key)
}

impl Follower for Folds {
    fn through(&self) -> u64 {
        self.taken.lock().unwrap().last().map_or(0, |placed| placed.place.number())
    }

    fn changes(&self, placed: &Placed) -> Vec<Topic> {
        let key = placed.entry.key.as_ref().map(topic_of_key);
        key.into_iter().chain([topic_of(&placed.entry.stream)]).collect()
    }

    fn take_in(&self, entries: Vec<Placed>) -> Result<(), JournalError> {
        self.taken.lock().unwrap().extend(entries);
        Ok(())
    }

    fn begin_anew(&self) -> Result<(), JournalError> {
        self.anew.fetch_add(1, Ordering::Relaxed);
        Ok(())
    }

    fn begin_to_lead(&self) {
        self.led.store(true, Ordering::Relaxed);
    }
}

/// A process's journal, and what it was handed of it.
struct Process {
    journal: Arc<dyn Journal>,
    folds: Arc<Folds>,
}

impl Process {
    fn of(home: &Database) -> Process {
        let (journal, folds) = (home.open(), Arc::new(Folds::default()));
        let follower: Arc<dyn Follower> = folds.clone();
        let follower: Weak<dyn Follower> = Arc::downgrade(&follower);
        journal.follow(follower);
        Process { journal, folds }
    }

    /// How far it has been handed the log.
    fn seen(&self) -> u64 {
        self.folds.through()
    }

    /// Decides to write this on what it has seen.
    fn write(&self, entry: Entry) -> Result<Seq, JournalError> {
        self.write_on(entry, self.seen())
    }

    /// The same on what it had seen at a place.
    fn write_on(&self, entry: Entry, at: u64) -> Result<Seq, JournalError> {
        let topics = entry.key.as_ref().map(topic_of_key).into_iter();
        let changes: Vec<Topic> = topics.chain([topic_of(&entry.stream)]).collect();
        let on = changes.iter().map(|topic| (*topic, at)).collect();
        self.journal.append_on(entry, Basis { on, changes }).wait()
    }

    /// The same until it is written, or turns out to be written.
    fn write_once(&self, entry: &Entry) -> Result<Seq, JournalError> {
        loop {
            let at = self.seen();
            if let Some(placed) = self.journal.find(entry.key.as_ref().unwrap())? {
                return Ok(placed.place);
            }
            match self.write_on(entry.clone(), at) {
                Err(JournalError::Moved) => {}
                written => return written,
            }
        }
    }
}

fn until(what: &str, mut is_so: impl FnMut() -> bool) {
    let until = Instant::now() + Duration::from_secs(30);
    while !is_so() {
        assert!(Instant::now() < until, "{what}");
        thread::sleep(Duration::from_millis(10));
    }
}

fn in_stream(stream: &str, id: &str) -> Entry {
    Entry { stream: StreamId(stream.into()), ..keyed(id, id.as_bytes()) }
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn what_stands_on_what_another_changed_is_given_back() {
    let home = Database::new();
    let (first, second) = (Process::of(&home), Process::of(&home));
    assert_eq!(first.write(in_stream("s/dusk", "gw-1")), Ok(Seq::new(1)));
    // Whether or not it was handed the other's meanwhile.
    let basis = |stream: &str, at| {
        let topic = Topic::of("stream", stream);
        Basis { on: vec![(topic, at)], changes: vec![topic] }
    };
    let stale = second.journal.append_on(in_stream("s/dusk", "gw-2"), basis("s/dusk", 0)).wait();
    assert_eq!(stale, Err(JournalError::Moved));
    assert_eq!(second.seen(), 1, "it is handed what it did not know");
    assert_eq!(second.write(in_stream("s/dusk", "gw-2")), Ok(Seq::new(2)));
    let apart = first.journal.append_on(in_stream("s/dawn", "gw-3"), basis("s/dawn", 1)).wait();
    assert_eq!(apart, Ok(Seq::new(3)), "it stands on nothing that changed");
    first.journal.append(in_stream("s/dusk", "gw-4")).wait().unwrap();
    assert_eq!(second.journal.catch_up().wait(), Ok(Seq::new(4)));
    assert_eq!(second.seen(), 4);
    let again = second.journal.append_on(in_stream("s/dusk", "gw-5"), basis("s/dusk", 3)).wait();
    assert_eq!(again, Err(JournalError::Moved));
    assert!(second.journal.check().unwrap().is_sound());
}

/// What one process has not asked for it is handed all the same, soon.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn who_does_nothing_hears_of_what_others_write() {
    let home = Database::new();
    let (first, second) = (Process::of(&home), Process::of(&home));
    for id in ["gw-1", "gw-2", "gw-3"] {
        first.write(in_stream("s/dusk", id)).unwrap();
    }
    until("nothing is handed over", || second.seen() == 3);
}

/// Writers of three processes, in streams that they share, while their lines are cut.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn writers_beside_each_other_make_one_log() {
    let home = Database::new();
    let database = name_of(&home);
    let processes = [Process::of(&home), Process::of(&home), Process::of(&home)];
    let over = AtomicBool::new(false);
    let told: Told = thread::scope(|scope| {
        let writers: Vec<_> = processes
            .iter()
            .enumerate()
            .flat_map(|(which, process)| (0..4).map(move |writer| (which, process, writer)))
            .map(|(which, process, writer)| {
                let over = &over;
                scope.spawn(move || {
                    let mut told = Told::new();
                    for number in 0.. {
                        if over.load(Ordering::Relaxed) {
                            break;
                        }
                        let id = format!("{which}-{writer}-{number}");
                        match process.write_once(&keyed(&id, id.as_bytes())) {
                            Ok(place) => told.push((id, place)),
                            Err(_) => thread::sleep(Duration::from_millis(20)),
                        }
                    }
                    told
                })
            })
            .collect();
        for _ in 0..8 {
            thread::sleep(Duration::from_millis(300));
            cut_lines(&database);
        }
        over.store(true, Ordering::Relaxed);
        writers.into_iter().flat_map(|writer| writer.join().unwrap()).collect()
    });
    assert!(told.len() > 60, "{}", told.len());
    verify(processes[0].journal.as_ref(), &told);
    let log: Vec<Placed> = processes[0]
        .journal
        .entries_of(&StreamId::all(), 0)
        .map(|placed| placed.unwrap())
        .collect();
    for process in &processes {
        process.journal.catch_up().wait().unwrap();
        assert!(*process.folds.taken.lock().unwrap() == log, "one was handed another log");
        assert_eq!(process.folds.anew.load(Ordering::Relaxed), 0);
    }
}

/// Everybody writes every message: each is there once.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn what_is_brought_to_two_at_once_is_stored_once() {
    let home = Database::new();
    let processes = [Process::of(&home), Process::of(&home)];
    let places: Vec<Vec<Seq>> = thread::scope(|scope| {
        let writers: Vec<_> = processes
            .iter()
            .map(|process| {
                scope.spawn(|| {
                    let ids = (0..300).map(|number| format!("gw-{number}"));
                    let write = |id: String| process.write_once(&in_stream("s/dusk", &id)).unwrap();
                    ids.map(write).collect()
                })
            })
            .collect();
        writers.into_iter().map(|writer| writer.join().unwrap()).collect()
    });
    assert_eq!(places[0], places[1]);
    assert_eq!(all(processes[0].journal.as_ref()).unwrap().len(), 300);
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn one_of_several_leads_and_another_when_that_is_gone() {
    let home = Database::new();
    let processes = [Process::of(&home), Process::of(&home), Process::of(&home)];
    assert!(processes.iter().all(|process| !process.journal.leads()), "nobody asked to");
    processes[0].journal.lead();
    until("nobody leads", || processes[0].journal.leads());
    assert!(processes[0].folds.led.load(Ordering::Relaxed));
    processes[1].journal.lead();
    thread::sleep(Duration::from_secs(2));
    assert!(processes[0].journal.leads() && !processes[1].journal.leads());
    processes[0].journal.close();
    until("nobody leads", || processes[1].journal.leads());
    assert!(!processes[0].journal.leads() && !processes[2].journal.leads());
    // Whoever's line is cut leads no more, or again.
    cut_lines(&name_of(&home));
    processes[2].journal.lead();
    let leading = || processes.iter().filter(|process| process.journal.leads()).count();
    until("nobody leads", || leading() == 1);
}

/// Snapshots of what was folded before something was erased are not taken, and whoever
/// folded it is told to begin anew.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn who_folded_what_was_erased_begins_anew() {
    let home = Database::new();
    let (first, second) = (Process::of(&home), Process::of(&home));
    first.write(in_stream("s/dusk", "gw-1")).unwrap();
    second.journal.catch_up().wait().unwrap();
    second.journal.checkpoint(&dusk(), None, 1, vec![part("head", b"heron")]).unwrap();
    first
        .journal
        .revise(&[dusk()], &mut |placed| {
            Ok(Some(Entry { body: b"gone".to_vec(), ..placed.entry.clone() }))
        })
        .unwrap();
    let stale = second.journal.checkpoint(&dusk(), None, 1, vec![part("head", b"heron")]);
    assert_eq!(stale, Err(JournalError::Moved));
    first.journal.checkpoint(&dusk(), None, 1, vec![part("head", b"gone")]).unwrap();
    first.journal.checkpoint(&StreamId::all(), None, 1, vec![part("all", b"gone")]).unwrap();
    until("it goes on with what was erased", || second.folds.anew.load(Ordering::Relaxed) == 1);
    assert_eq!(first.folds.anew.load(Ordering::Relaxed), 0, "it knew");
    until("it is told and does not know", || {
        second.journal.checkpoint(&dusk(), None, 1, vec![part("head", b"gone")]).is_ok()
    });
}
