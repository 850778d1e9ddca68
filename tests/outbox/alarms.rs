//! An alarm before a peer that does everything wrong: whatever it did before and
//! whatever waits, the alarm is tried within five seconds of the peer being
//! there, by real sockets and in real time.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use lapwing::outbox::{Carrier, Destination, Routes, Signed, Siren};
use lapwing::service::{LetterEvent, Service};
use lapwing::signing::Secret;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use tokio::task::JoinHandle;
use tokio::time::sleep;
use tokio_util::sync::CancellationToken;

use super::peer::{Peer, Reserved, Way};
use super::squads::{HASTE, TestClock, alarm, coach, courier, open, say_as, squad};

/// What was asked for.
const IN_TIME: Duration = Duration::from_secs(5);

/// A clock whose passing is the real one, under a time of day that a test sets.
struct Running {
    clock: Arc<TestClock>,
    stopping: CancellationToken,
    tasks: Vec<JoinHandle<()>>,
}

impl Running {
    /// Time passes as it does.
    fn clock(clock: &Arc<TestClock>) -> JoinHandle<()> {
        let (clock, begun) = (Arc::clone(clock), Instant::now());
        tokio::spawn(async move {
            let mut told = 0;
            loop {
                sleep(Duration::from_millis(20)).await;
                let passed = u64::try_from(begun.elapsed().as_millis()).unwrap_or(u64::MAX);
                clock.forward_ms(passed - told);
                told = passed;
            }
        })
    }

    fn start(service: &Arc<Service>, clock: &Arc<TestClock>, routes: Vec<Routes>) -> Running {
        let stopping = CancellationToken::new();
        let mut tasks = vec![Running::clock(clock)];
        for routes in routes {
            let siren = Siren::new(Arc::clone(service), clock.clone(), routes);
            tasks.push(tokio::spawn(siren.run(stopping.clone())));
        }
        Running { clock: Arc::clone(clock), stopping, tasks }
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.stopping.cancel();
        self.tasks.iter().for_each(JoinHandle::abort);
    }
}

fn way_to(url: &str, secret: &Secret) -> Arc<Carrier> {
    let destination = Destination::new(url, true, None).unwrap();
    Carrier::new(destination, Signed(vec![secret.clone()]), HASTE).unwrap()
}

/// Waits for something, at most so long. Moments in which this machine let
/// nothing of ours run are not counted: they say nothing of the program.
async fn until(what: &str, most: Duration, mut come: impl FnMut() -> bool) -> Duration {
    const STEP: Duration = Duration::from_millis(10);
    let mut waited = Duration::ZERO;
    while !come() {
        assert!(waited < most, "{what} does not come within {most:?}");
        let begun = Instant::now();
        sleep(STEP).await;
        waited += begun.elapsed().min(5 * STEP);
    }
    waited
}

/// How a peer misbehaves for a while.
#[derive(Debug, Clone, Copy)]
enum Spell {
    Refuses(u16),
    Rests(u16),
    Breaks,
    Silent,
    Redirects,
    Down,
}

const SPELLS: [Spell; 10] = [
    Spell::Refuses(400),
    Spell::Refuses(401),
    Spell::Refuses(410),
    Spell::Refuses(500),
    Spell::Rests(429),
    Spell::Rests(503),
    Spell::Breaks,
    Spell::Silent,
    Spell::Redirects,
    Spell::Down,
];

/// A peer that behaves as it is told at the moment, at one address.
struct Fickle {
    place: Place,
    /// Keeps the address ours while the place changes hands.
    kept: Reserved,
    secret: Secret,
    clock: Arc<TestClock>,
    way: Arc<Mutex<Way>>,
    /// By whichever connection: one from before it was down may outlive that.
    taken: Arc<AtomicUsize>,
}

enum Place {
    Open(Peer),
    Down(Reserved),
}

impl Fickle {
    fn new(secret: &Secret, clock: &Arc<TestClock>) -> Fickle {
        let kept = Reserved::new();
        let place = Place::Down(Reserved::at(kept.address()));
        let (secret, clock) = (secret.clone(), Arc::clone(clock));
        let way = Arc::new(Mutex::new(Way::Break));
        Fickle { place, kept, secret, clock, way, taken: Arc::default() }
    }

    fn url(&self) -> String {
        format!("http://{}/in", self.kept.address())
    }

    async fn be(self, spell: Option<Spell>) -> Fickle {
        let way = match spell {
            None => Way::Take(204),
            Some(Spell::Refuses(code)) => Way::Refuse(code),
            Some(Spell::Rests(code)) => Way::RefuseFor(code, 86_400),
            Some(Spell::Breaks | Spell::Down) => Way::Break,
            Some(Spell::Silent) => Way::Silence,
            Some(Spell::Redirects) => Way::Redirect,
        };
        *self.way.lock().unwrap() = way;
        let down = matches!(spell, Some(Spell::Down));
        let place = match self.place {
            Place::Open(peer) if down => Place::Down(peer.stop().await),
            Place::Down(reserved) if !down => {
                let (way, taken) = (Arc::clone(&self.way), Arc::clone(&self.taken));
                let choose = move |_: &super::peer::Got, _| {
                    let way = *way.lock().unwrap();
                    taken.fetch_add(usize::from(way == Way::Take(204)), Ordering::SeqCst);
                    way
                };
                let clock = self.clock.clone();
                Place::Open(Peer::start_on(reserved.listen(), &self.secret, clock, choose))
            }
            as_it_is => as_it_is,
        };
        Fickle { place, ..self }
    }

    fn taken(&self) -> usize {
        self.taken.load(Ordering::SeqCst)
    }
}

/// Random histories of a receiver, each with an alarm raised before, in or after
/// its bad spells and the clock set by a day either way: the alarm is taken within
/// 5 s of the receiver being there. In real time, so few of them; a thousand more
/// are tried in virtual time (`outbox::alarm_schedule`).
///
/// `cargo test --test outbox alarms -- --ignored` runs 200 of them, for about
/// half an hour.
async fn histories(count: u64, most_spell: u64) {
    let mut running = tokio::task::JoinSet::new();
    let late = Arc::new(Mutex::new(Duration::ZERO));
    for seed in 0..count {
        let late = Arc::clone(&late);
        running.spawn(async move {
            let took = history(seed, most_spell).await;
            let mut late = late.lock().unwrap();
            *late = (*late).max(took);
        });
        if running.len() >= 20 {
            running.join_next().await.unwrap().unwrap();
        }
    }
    running.join_all().await;
    eprintln!("{count} histories, the latest alarm {} ms after", late.lock().unwrap().as_millis());
}

async fn history(seed: u64, most_spell: u64) -> Duration {
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let service = open(dir.path(), &clock);
    squad(&service, 1).await;
    let mut peer = Fickle::new(&secret, &clock);
    let running =
        Running::start(&service, &clock, vec![Routes::only(way_to(&peer.url(), &secret))]);
    let spells = chance.random_range(1..=3);
    let raised_in = chance.random_range(0..=spells);
    let mut history = Vec::new();
    for spell in 0..spells {
        let what = SPELLS[chance.random_range(0..SPELLS.len())];
        peer = peer.be(Some(what)).await;
        let length = chance.random_range(200..=most_spell);
        history.push((what, length));
        if spell == raised_in {
            sleep(Duration::from_millis(chance.random_range(0..length / 2))).await;
            alarm(&service, 1).await;
            let step = [-86_400, 0, 86_400][chance.random_range(0..3)];
            running.clock.step(step);
        }
        sleep(Duration::from_millis(length)).await;
    }
    let peer = peer.be(None).await;
    if raised_in == spells {
        alarm(&service, 1).await;
    }
    let what = format!("seed {seed}: {history:?}, raised in {raised_in}: the alarm");
    until(&what, IN_TIME, || peer.taken() >= 1).await
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn twenty_histories_in_real_time() {
    histories(20, 4_000).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
#[ignore = "takes half an hour"]
async fn two_hundred_histories_in_real_time() {
    histories(200, 90_000).await;
}

/// Ten thousand letters wait, the way out is told to rest for a day: the alarm is
/// taken at once.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn ten_thousand_letters_hold_up_no_alarm() {
    const SWIMMERS: u32 = 100;
    const LETTERS: usize = 10_000;
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let service = open(dir.path(), &clock);
    squad(&service, 7).await;
    let code = squad(&service, 1).await;
    for number in 0..SWIMMERS {
        let text = format!("join {code} swim{}", letters_of(number));
        say_as(&service, &format!("+1666{number:04}"), &text).await;
    }
    while service.letters_waiting() < LETTERS {
        say_as(&service, &coach(1), "tell all: cap on").await;
        say_as(&service, &coach(1), "yes").await;
    }
    let written = service.letters_waiting();
    let alarms = Arc::new(AtomicUsize::new(0));
    let seen = Arc::clone(&alarms);
    let peer = Peer::start(&secret, clock.clone(), move |got, _| {
        if String::from_utf8_lossy(&got.body).contains("ALERT") {
            seen.fetch_add(1, Ordering::SeqCst);
            return Way::Take(204);
        }
        Way::RefuseFor(503, 86_400)
    })
    .await;
    let courier = courier(&service, &clock, &peer.url(), true, &secret);
    let stopping = CancellationToken::new();
    let delivering = tokio::spawn(courier.run(stopping.clone()));
    let _running =
        Running::start(&service, &clock, vec![Routes::only(way_to(&peer.url(), &secret))]);
    sleep(Duration::from_millis(500)).await;
    let begun = Instant::now();
    alarm(&service, 7).await;
    until("the alarm", IN_TIME, || alarms.load(Ordering::SeqCst) == 1).await;
    eprintln!("{written} letters wait; the alarm took {} ms", begun.elapsed().as_millis());
    until("that it is heard", IN_TIME, || service.unheard().is_empty()).await;
    stopping.cancel();
    delivering.abort();
}

/// A number in letters that make a name.
fn letters_of(number: u32) -> String {
    let letter = |digit: char| char::from(b'a' + digit.to_digit(10).unwrap() as u8);
    number.to_string().chars().map(letter).collect()
}

/// Each fitting way is tried where the better one fails; what is delivered once
/// is not sent again.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn another_way_out_is_taken_where_the_first_fails() {
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let service = open(dir.path(), &clock);
    squad(&service, 1).await;
    let gone = Peer::start(&secret, clock.clone(), |_, _| Way::Refuse(410)).await;
    let silent = Peer::start(&secret, clock.clone(), |_, _| Way::Silence).await;
    let good = Peer::start(&secret, clock.clone(), |_, _| Way::Take(200)).await;
    let routes = Routes::default()
        .and("+1555", way_to(&gone.url(), &secret))
        .and("+1", way_to(&silent.url(), &secret))
        .and("@", way_to("http://127.0.0.1:9/", &secret))
        .and("", way_to(&good.url(), &secret));
    let _running = Running::start(&service, &clock, vec![routes]);
    alarm(&service, 1).await;
    until("the alarm", IN_TIME, || good.seen().taken.len() == 1).await;
    sleep(Duration::from_millis(2_500)).await;
    assert_eq!(good.seen().taken.len(), 1);
    assert_eq!(service.letters_waiting(), 0);
    assert_eq!(good.seen().taken[0].to, coach(1));
}

/// Nobody is reached: it is told to whoever raised it, in a letter and in the
/// answer to the next text, and over a start; once somebody is, no more.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn somebody_knows_that_nobody_is_reached() {
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let service = open(dir.path(), &clock);
    squad(&service, 1).await;
    let swimmer = "+1555000101";
    let takes = Arc::new(AtomicUsize::new(0));
    let coach_takes = Arc::clone(&takes);
    let peer = Peer::start(&secret, clock.clone(), move |got, _| {
        let is_coach = got.to == coach(1) && coach_takes.load(Ordering::SeqCst) == 0;
        if is_coach { Way::Refuse(500) } else { Way::Take(204) }
    })
    .await;
    let routes = || vec![Routes::only(way_to(&peer.url(), &secret))];
    let running = Running::start(&service, &clock, routes());
    alarm(&service, 1).await;
    until("the notice", IN_TIME, || peer.seen().taken.iter().any(|got| got.to == swimmer)).await;
    assert_eq!(service.unheard().len(), 1);
    let answer = say_as(&service, swimmer, "targets").await;
    assert!(answer.contains("have not reached your coach"), "{answer}");
    drop(running);
    service.close().await;
    let service = open(dir.path(), &clock);
    assert_eq!(service.unheard().len(), 1);
    let _running = Running::start(&service, &clock, routes());
    takes.store(1, Ordering::SeqCst);
    until("the alarm", IN_TIME, || peer.seen().taken.iter().any(|got| got.to == coach(1))).await;
    until("that it is heard", IN_TIME, || service.unheard().is_empty()).await;
    let answer = say_as(&service, swimmer, "targets").await;
    assert!(!answer.contains("have not reached"), "{answer}");
    let notices = peer.seen().taken.iter().filter(|got| got.to == swimmer).count();
    assert_eq!(notices, 1);
}

/// What a snapshot keeps of alarms is what there was, whatever came between.
#[tokio::test]
async fn alarms_outlive_a_start() {
    let dir = tempfile::tempdir().unwrap();
    let clock = TestClock::new();
    let service = open(dir.path(), &clock);
    for number in 0..3 {
        squad(&service, number).await;
        alarm(&service, number).await;
    }
    let calls = service.calls();
    assert_eq!(calls.len(), 3);
    let first = &calls[0];
    let delivered = LetterEvent::Delivered { to: first.to.to_string(), letter: first.number };
    service.settle(delivered).await.unwrap();
    let left = service.calls();
    service.close().await;
    let service = open(dir.path(), &clock);
    assert_eq!(service.calls(), left);
    assert_eq!((left.len(), service.unheard().len()), (2, 2));
}
