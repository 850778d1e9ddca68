//! Services beside each other over one database, by a clock that is set: what one of them
//! alone may do is done once, and what one erases is gone for all.

use std::sync::atomic::{AtomicI64, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use jiff::{Timestamp, ToSpan};
use lapwing::clock::{Clock, ClockMode, WallClock};
use lapwing::history::SquadId;
use lapwing::journal::{Journal, PostgresJournal};
use lapwing::service::{Answer, Body, Failure, Incoming, NewSquad, Service, examine};

use crate::server::server;

struct Hand(Arc<Mutex<Timestamp>>);

impl Clock for Hand {
    fn now(&self) -> Timestamp {
        *self.0.lock().unwrap()
    }
}

/// The machine's clock, set wrong by so many seconds.
#[derive(Default)]
struct Wrong(AtomicI64);

impl Clock for Wrong {
    fn now(&self) -> Timestamp {
        let off = self.0.load(Ordering::Relaxed);
        Timestamp::from_second(Timestamp::now().as_second() + off).unwrap()
    }
}

struct Processes {
    all: Vec<Arc<Service>>,
    hand: Arc<Mutex<Timestamp>>,
    url: String,
    squad: SquadId,
    code: String,
}

fn open(url: &str, hand: &Arc<Mutex<Timestamp>>) -> Arc<Service> {
    open_by(Arc::new(WallClock), url, hand)
}

/// The same on a machine with this clock.
fn open_by(clock: Arc<dyn Clock>, url: &str, hand: &Arc<Mutex<Timestamp>>) -> Arc<Service> {
    let journal = PostgresJournal::open(url.parse().unwrap(), clock).unwrap();
    Service::open(Arc::new(journal), Arc::new(Hand(Arc::clone(hand))), ClockMode::Wall).unwrap()
}

impl Processes {
    async fn begin(count: usize) -> Processes {
        let url = server().new_address();
        let hand = Arc::new(Mutex::new("2026-03-02T12:00:00Z".parse().unwrap()));
        let all: Vec<Arc<Service>> = (0..count).map(|_| open(&url, &hand)).collect();
        let squad = NewSquad::of_grown_ups("Dusk", "coach");
        let added = all[0].add_squad(squad).await.unwrap();
        Processes { all, hand, url, squad: SquadId(added.id), code: added.code }
    }

    /// Says it to one of them; gives what is answered.
    async fn say(&self, at: usize, from: &str, text: &str) -> String {
        let incoming = Incoming {
            channel: "chat".into(),
            id: None,
            from: from.into(),
            room: None,
            sent_at: None,
            body: Body::Text(text.into()),
        };
        let Answer { replies, .. } = self.all[at % self.all.len()].receive(incoming).await.unwrap();
        replies.into_iter().filter(|reply| reply.to == from).map(|reply| reply.text).collect()
    }

    fn set(&self, now: Timestamp) {
        *self.hand.lock().unwrap() = now;
    }

    /// How many texts wait that nobody asked for, as one of them knows it.
    fn unasked(&self, at: usize) -> usize {
        let service = &self.all[at];
        let letters = service.undelivered().unwrap().into_iter();
        let texts = letters.map(|one| service.letter(one.number).unwrap().spoken.text);
        texts.filter(|text| !text.contains("has joined")).count()
    }

    /// In how many rows of a table's column some words stand.
    fn holds(&self, table: &str, column: &str, words: &str) -> String {
        let database = self.url.rsplit('/').next().unwrap();
        let asked = format!(
            "select count(*) from lapwing.{table} where position('{words}'::bytea in {column}) > 0"
        );
        server().sql(database, &asked)
    }

    async fn close(self) {
        for service in self.all {
            service.close().await;
        }
    }
}

async fn until(what: &str, mut is_so: impl FnMut() -> bool) {
    let until = Instant::now() + Duration::from_secs(60);
    while !is_so() {
        assert!(Instant::now() < until, "{what}");
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

/// All of them look whether something is to be said, at the same time; some weeks long.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "wants PostgreSQL's server"]
async fn what_is_said_unasked_is_said_by_one_of_them() {
    let here = Processes::begin(3).await;
    here.say(0, "coach", "slot tue thu 2000-2100 4 lanes").await;
    here.say(1, "coach", "digest off").await;
    here.say(2, "heron", &format!("join {} heron", here.code)).await;
    let first: Timestamp = "2026-03-03T12:00:00Z".parse().unwrap();
    for week in 0..4i64 {
        let noon = first.checked_add((week * 7 * 24).hours()).unwrap();
        here.set(noon);
        here.say(week as usize, "heron", "in").await;
        let due = noon.checked_add(330.minutes()).unwrap();
        here.set(due);
        let squads = std::slice::from_ref(&here.squad);
        for _ in 0..2 {
            let (one, two, three) = tokio::join!(
                here.all[0].say_due(squads, due),
                here.all[1].say_due(squads, due),
                here.all[2].say_due(squads, due),
            );
            one.and(two).and(three).unwrap();
        }
    }
    for at in 0..3 {
        // What the others said is heard of soon.
        until("it isn't heard", || here.unasked(at) >= 4).await;
        assert_eq!(here.unasked(at), 4);
    }
    here.close().await;
}

/// It declares itself not ready and leads no more; the others go on, and so does it once
/// its clock is right.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "wants PostgreSQL's server"]
async fn whose_clock_is_an_hour_off_stands_aside() {
    let mut here = Processes::begin(1).await;
    let clock = Arc::new(Wrong::default());
    let wrong = open_by(Arc::clone(&clock) as Arc<dyn Clock>, &here.url, &here.hand);
    here.all.push(Arc::clone(&wrong));
    wrong.lead();
    until("nobody leads", || wrong.leads()).await;
    here.all[0].lead();
    here.say(1, "heron", &format!("join {} heron", here.code)).await;
    clock.0.store(3_600, Ordering::Relaxed);
    until("it is ready", || wrong.ready().is_err()).await;
    until("nobody leads", || here.all[0].leads() && !wrong.leads()).await;
    assert!(here.say(0, "heron", "200 test 3:12").await.contains("3:12"));
    let turned_away = Incoming {
        channel: "chat".into(),
        id: None,
        from: "heron".into(),
        room: None,
        sent_at: None,
        body: Body::Text("200 test 3:11".into()),
    };
    assert!(matches!(wrong.receive(turned_away).await, Err(Failure::Unavailable)));
    clock.0.store(0, Ordering::Relaxed);
    until("it stays away", || wrong.ready().is_ok()).await;
    assert!(here.say(1, "heron", "best").await.contains("3:12"));
    here.close().await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "wants PostgreSQL's server"]
async fn who_is_forgotten_by_one_is_forgotten_by_all() {
    let here = Processes::begin(2).await;
    here.all[0].lead();
    until("nobody leads", || here.all[0].leads()).await;
    for (at, who) in ["heronette", "teal"].into_iter().enumerate() {
        here.say(at, who, &format!("join {} {who}", here.code)).await;
        here.say(at + 1, who, "200 test 3:12").await;
    }
    here.say(0, "heronette", "my shoulder feels like zugspitze").await;
    assert!(here.say(1, "coach", "squad").await.contains("heronette"));
    assert_ne!(here.holds("log", "frame", "zugspitze"), "0");
    // Told to the one that does not lead.
    here.say(1, "heronette", "forget me").await;
    here.say(1, "heronette", "yes").await;
    for words in ["heronette", "zugspitze"] {
        until("it is not erased", || here.holds("log", "frame", words) == "0").await;
        until("it is in a snapshot", || here.holds("part", "bytes", words) == "0").await;
    }
    for at in 0..2 {
        assert!(!here.say(at, "coach", "squad").await.contains("heronette"), "{at}");
        assert!(here.say(at, "teal", "best").await.contains("3:12"), "{at}");
        let stranger = here.say(at, "heronette", "best").await;
        assert!(!stranger.contains("3:12"), "{at}: {stranger}");
    }
    // What both have folded by then is what there is.
    let fresh = open(&here.url, &here.hand);
    let told = Processes { all: vec![fresh], ..here };
    assert!(told.say(0, "teal", "best").await.contains("3:12"));
    let journal = PostgresJournal::open_to_read(told.url.parse().unwrap(), Arc::new(WallClock));
    let journal: Arc<dyn Journal> = Arc::new(journal.unwrap());
    let checked = tokio::task::spawn_blocking(move || examine(journal.as_ref()).unwrap());
    let checked = checked.await.unwrap();
    assert!(checked.is_sound(), "{:?}", checked.damage);
    assert_eq!(told.holds("log", "frame", "zugspitze"), "0");
    told.close().await;
}
