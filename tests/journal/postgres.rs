//! What only a database can do: lines that break, a server that crashes or is replaced
//! by its standby, another version's tables, damage.

use super::*;

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use lapwing::clock::Clock;
use lapwing::journal::PostgresJournal;

use crate::home::{Database, Home, open, open_to_read};
use crate::server::{Server, server};

/// What writers were told: which messages are stored, and where.
pub type Told = Vec<(String, Seq)>;

/// Several threads append until it is over; whoever fails goes on with another message
/// once the journal can be written again.
fn write_until(over: &AtomicBool, journal: &dyn Journal) -> Told {
    thread::scope(|scope| {
        let writers: Vec<_> = (0..4)
            .map(|writer| {
                scope.spawn(move || {
                    let mut told = Told::new();
                    for number in 0.. {
                        if over.load(Ordering::Relaxed) {
                            break;
                        }
                        let id = format!("{writer}-{number}");
                        match journal.append(keyed(&id, id.as_bytes())).wait() {
                            Ok(place) => told.push((id, place)),
                            Err(_) => thread::sleep(Duration::from_millis(20)),
                        }
                    }
                    told
                })
            })
            .collect();
        writers.into_iter().flat_map(|writer| writer.join().unwrap()).collect()
    })
}

/// All that writers were told is there, once.
pub fn verify(journal: &dyn Journal, told: &Told) {
    let log = all(journal).unwrap();
    for (id, place) in told {
        let entry = &log[place.number() as usize - 1].1;
        assert_eq!(entry, &keyed(id, id.as_bytes()), "{id} at {place}");
    }
    let mut ids: Vec<_> = log.iter().map(|(_, entry)| entry.key.clone().unwrap().id).collect();
    ids.sort();
    let count = ids.len();
    ids.dedup();
    assert_eq!(ids.len(), count, "some are there twice");
    let checked = journal.check().unwrap();
    assert!(checked.is_sound(), "{:?}", checked.damage);
}

pub fn name_of(home: &Database) -> String {
    home.0.to_string().rsplit('/').next().unwrap().to_owned()
}

/// Cuts every line that we have to a database.
pub fn cut_lines(database: &str) {
    let cut = format!(
        "select pg_terminate_backend(pid) from pg_stat_activity where datname = '{database}' and \
         application_name = 'lapwing'"
    );
    server().sql("postgres", &cut);
}

/// Does that while writers write, and gives what they were told.
fn while_written(journal: &dyn Journal, meanwhile: impl FnOnce()) -> Told {
    let over = AtomicBool::new(false);
    thread::scope(|scope| {
        let writers = scope.spawn(|| write_until(&over, journal));
        meanwhile();
        over.store(true, Ordering::Relaxed);
        writers.join().unwrap()
    })
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn lines_that_break_lose_and_double_nothing() {
    let home = Database::new();
    let (journal, database) = (home.open(), name_of(&home));
    let told = while_written(journal.as_ref(), || {
        for _ in 0..20 {
            thread::sleep(Duration::from_millis(150));
            cut_lines(&database);
        }
    });
    assert!(told.len() > 50, "{}", told.len());
    verify(journal.as_ref(), &told);
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_server_that_crashes_loses_and_doubles_nothing() {
    let server = Server::begin("");
    let journal = open(&server.new_database()).unwrap();
    let told = while_written(&journal, || {
        for _ in 0..3 {
            thread::sleep(Duration::from_millis(700));
            server.crash();
            server.start();
        }
        thread::sleep(Duration::from_millis(700));
    });
    assert!(told.len() > 50, "{}", told.len());
    verify(&journal, &told);
}

/// A standby that the server waits for takes its place: whatever was acknowledged is
/// there, and it goes on there.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_standby_takes_over_with_all_that_was_acknowledged() {
    let first = Server::begin("");
    let url = first.new_database();
    drop(open(&url).unwrap());
    let second = first.standby();
    first.sql("postgres", "alter system set synchronous_standby_names = '*'");
    first.sql("postgres", "select pg_reload_conf()");

    let both = format!(
        "postgres://heron@{},{}/squads0",
        first.folder().display().to_string().replace('/', "%2F"),
        second.folder().display().to_string().replace('/', "%2F")
    );
    let alone = second.url("heron", "squads0");
    let refused = open(&alone).err().unwrap();
    assert!(matches!(refused, JournalError::Storage(_)), "{refused}");
    let journal = open(&both.parse().unwrap()).unwrap();
    let mut before = 0;
    let told = while_written(&journal, || {
        thread::sleep(Duration::from_millis(1500));
        let read = open_to_read(&alone).unwrap();
        before = read.last().unwrap().number();
        first.crash();
        second.promote();
        thread::sleep(Duration::from_millis(1500));
    });
    assert!(before > 50, "{before}");
    assert!(told.len() as u64 > before + 20, "{} of {before}", told.len());
    verify(&journal, &told);
}

/// Who waits for a standby that is away, again and again, leaves no lines behind.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn who_waits_for_a_standby_uses_no_lines_up() {
    let server = Server::begin("");
    let journal = open(&server.new_database()).unwrap();
    let follows = |name: &str| {
        server.sql("postgres", &format!("alter system set synchronous_standby_names = '{name}'"));
        server.sql("postgres", "select pg_reload_conf()");
    };
    follows("wren");
    // The server takes a moment to heed it.
    let stored = |number: usize| {
        thread::sleep(Duration::from_millis(50));
        journal.append(keyed(&format!("gw-{number}"), b"heron")).wait()
    };
    assert!((0..20).any(|number| stored(number).is_err()), "nothing is waited for");
    thread::sleep(Duration::from_secs(40));
    let counted = "select count(*) from pg_stat_activity where application_name = 'lapwing'";
    let lines: u32 = server.sql("postgres", counted).parse().unwrap();
    assert!(lines <= 6, "{lines}");
    follows("");
    while journal.append(keyed("gw-last", b"wren")).wait().is_err() {
        thread::sleep(Duration::from_millis(100));
    }
    assert!(journal.check().unwrap().is_sound());
}

/// A server that takes connections and says nothing keeps nobody from one that answers.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_server_that_stands_still_keeps_nobody_from_the_others() {
    let (still, other) = (Server::begin(""), Server::begin(""));
    let _ = other.new_database();
    let both = format!(
        "postgres://heron@{},{}/squads0",
        still.folder().display().to_string().replace('/', "%2F"),
        other.folder().display().to_string().replace('/', "%2F")
    );
    let both = both.parse().unwrap();
    still.stand_still();
    let journal = open(&both).unwrap();
    journal.append(keyed("gw-1", b"heron")).wait().unwrap();
    assert_eq!(open_to_read(&both).unwrap().last().unwrap().number(), 1);
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn who_reads_reads_beside_those_who_write() {
    let home = Database::new();
    let first = home.open();
    first.append(keyed("gw-1", b"heron")).wait().unwrap();
    let reader = open_to_read(&home.0).unwrap();
    assert!(matches!(reader.state(), State::ReadOnly(_)));
    assert_eq!(found(&reader, "gw-1").unwrap(), Some((Seq::new(1), keyed("gw-1", b"heron"))));
    let refused = reader.append(unkeyed(b"no")).wait();
    assert!(matches!(refused, Err(JournalError::ReadOnly(_))), "{refused:?}");
    let refused = reader.revise(&[dusk()], &mut |_| Ok(None));
    assert!(matches!(refused, Err(JournalError::ReadOnly(_))), "{refused:?}");
    first.append(keyed("gw-2", b"wren")).wait().unwrap();
    assert_eq!(all(&reader).unwrap().len(), 2);
    assert!(reader.check().unwrap().is_sound());
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn what_a_later_version_keeps_is_refused() {
    for change in ["schema = 99", "format = 99"] {
        let home = Database::new();
        home.open().close();
        server().sql(&name_of(&home), &format!("update lapwing.meta set {change}"));
        for opened in [open(&home.0), open_to_read(&home.0)] {
            let refused = opened.err().unwrap();
            assert!(matches!(refused, JournalError::Newer { found: 99, .. }), "{refused}");
        }
    }
    let empty = open_to_read(&Database::new().0).err().unwrap();
    assert!(empty.to_string().contains("no journal"), "{empty}");
}

/// Who runs it needs no right to change tables once they are made.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_role_without_rights_to_the_tables_form_serves() {
    let home = Database::new();
    let database = name_of(&home);
    let role = format!("role_of_{database}");
    server().sql("postgres", &format!("create role {role} login"));
    let url = server().url(&role, &database);
    let refused = open(&url).err().unwrap().to_string();
    assert!(refused.contains("permission denied"), "{refused}");
    home.open().close();
    server().sql(&database, &lapwing::journal::grants(&role));
    let journal = open(&url).unwrap();
    journal.append(keyed("gw-1", b"heron")).wait().unwrap();
    journal.checkpoint(&dusk(), None, 1, vec![part("head", b"heron")]).unwrap();
    journal.checkpoint(&dusk(), Some(1), 1, vec![part("head", b"")]).unwrap();
    journal.revise(&[dusk()], &mut |_| Ok(Some(keyed("gw-1", b"gone")))).unwrap();
    assert_eq!(found(&journal, "gw-1").unwrap().unwrap().1.body, b"gone");
    assert!(journal.check().unwrap().is_sound());
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_server_that_keeps_nothing_for_sure_is_refused() {
    let server = Server::begin("fsync = off");
    let refused = open(&server.new_database()).err().unwrap().to_string();
    assert!(refused.contains("fsync"), "{refused}");
}

/// A clock that can be set wrong.
struct Skewed(std::sync::atomic::AtomicI64);

impl Clock for Skewed {
    fn now(&self) -> Timestamp {
        let off = self.0.load(Ordering::Relaxed);
        Timestamp::from_second(Timestamp::now().as_second() + off).unwrap()
    }
}

/// Whoever's clock is wrong writes nothing until it is right again.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_clock_that_is_an_hour_off_stops_whoever_has_it() {
    let home = Database::new();
    let clock = Arc::new(Skewed(3_600.into()));
    let opened = || PostgresJournal::open(home.0.clone(), Arc::clone(&clock) as Arc<dyn Clock>);
    let refused = opened().err().unwrap().to_string();
    assert!(refused.contains("3600 s ahead") || refused.contains("3599 s ahead"), "{refused}");
    clock.0.store(20, Ordering::Relaxed);
    let journal = opened().unwrap();
    journal.append(keyed("gw-1", b"heron")).wait().unwrap();
    clock.0.store(-3_600, Ordering::Relaxed);
    let until = Instant::now() + Duration::from_secs(60);
    while journal.state() == State::Writable {
        assert!(Instant::now() < until, "it writes on");
        thread::sleep(Duration::from_millis(50));
    }
    assert!(journal.append(keyed("gw-2", b"no")).wait().is_err());
    assert!(journal.reopen().unwrap_err().to_string().contains("behind"));
    clock.0.store(0, Ordering::Relaxed);
    while journal.state() != State::Writable {
        assert!(Instant::now() < until, "it stays away");
        thread::sleep(Duration::from_millis(50));
    }
    journal.append(keyed("gw-3", b"wren")).wait().unwrap();
    assert_eq!(all(&journal).unwrap().len(), 2);
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn damage_is_told() {
    for damage in [
        "update lapwing.log set frame = set_byte(frame, 90, get_byte(frame, 90) # 1) where place = 5",
        "delete from lapwing.log where place = 5",
        "delete from lapwing.log where place = 12",
        "update lapwing.log set key = null where place = 5",
        "update lapwing.log set number = 99 where place = 5",
        "update lapwing.log set stream = 'other' where place = 5",
        "update lapwing.log set at = 5 where place = 5",
        "update lapwing.log set frame = (select frame from lapwing.log where place = 6) where place = 5",
        "update lapwing.head set place = 13",
        "update lapwing.head set mark = set_byte(mark, 3, get_byte(mark, 3) # 1)",
        "update lapwing.stream set number = 13",
        "update lapwing.snapshot set through = 4",
        "update lapwing.snapshot set mark = set_byte(mark, 3, get_byte(mark, 3) # 1)",
    ] {
        let home = Database::new();
        let journal = home.open();
        for n in 0..12 {
            journal.append(keyed(&n.to_string(), b"heron heron heron")).wait().unwrap();
        }
        journal.checkpoint(&dusk(), None, 7, vec![part("head", b"heron")]).unwrap();
        let checked = journal.check().unwrap();
        assert_eq!((checked.entries, checked.parts, checked.faults), (12, 1, 0), "{checked:?}");
        server().sql(&name_of(&home), damage);
        assert!(!journal.check().unwrap().is_sound(), "{damage}");
    }
}

/// Whoever waits for the database keeps no thread that answers others.
#[tokio::test(flavor = "multi_thread", worker_threads = 1)]
#[ignore = "wants PostgreSQL's server"]
async fn who_waits_keeps_nobody_from_work() {
    let home = Database::new();
    let journal = home.open();
    journal.append(keyed("gw-1", b"heron")).await.unwrap();
    let database = name_of(&home);
    let locked = thread::spawn(move || {
        let hold = "begin; lock lapwing.log; select pg_sleep(2); commit";
        server().sql(&database, hold);
    });
    tokio::time::sleep(Duration::from_millis(700)).await;
    let theirs = Arc::clone(&journal);
    let waits = tokio::spawn(async move { found(theirs.as_ref(), "gw-1").unwrap().is_some() });
    let mut worked = 0;
    while !waits.is_finished() {
        let (tell, told) = tokio::sync::oneshot::channel();
        tokio::spawn(async move { tell.send(()) });
        told.await.unwrap();
        worked += 1;
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
    assert!(waits.await.unwrap());
    assert!(worked > 20, "{worked}");
    locked.join().unwrap();
    tokio::task::spawn_blocking(move || journal.close()).await.unwrap();
}
