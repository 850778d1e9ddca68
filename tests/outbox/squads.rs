//! Squads whose swimmers text what their coaches are told, and a clock that a test
//! moves.

use std::num::NonZeroU32;
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::Duration;

use jiff::{SignedDuration, Timestamp};
use lapwing::clock::{Clock, ClockMode};
use lapwing::journal::SledJournal;
use lapwing::outbox::{Carrier, Courier, Destination, Patience, Routes, Signed, Siren};
use lapwing::service::{Body, Incoming, NewSquad, Service, Spoken, Via};
use lapwing::signing::Secret;

/// Longer than anything takes, however busy the machine is.
pub const PATIENCE: Patience =
    Patience { connect: Duration::from_secs(60), whole: Duration::from_secs(60) };

/// For an other end that may never answer: a test waits for all of it.
pub const HASTE: Patience =
    Patience { connect: Duration::from_secs(2), whole: Duration::from_millis(500) };

/// A clock that stands still until it is moved.
pub struct TestClock(Mutex<(Timestamp, Duration)>);

impl TestClock {
    pub fn new() -> Arc<TestClock> {
        let begun = "2026-03-02T19:00:00Z".parse().unwrap();
        Arc::new(TestClock(Mutex::new((begun, Duration::ZERO))))
    }

    /// So much time passes.
    pub fn forward(&self, seconds: i64) {
        self.forward_ms(seconds.unsigned_abs() * 1000);
    }

    /// The same in milliseconds.
    pub fn forward_ms(&self, milliseconds: u64) {
        let mut at = self.0.lock().unwrap();
        at.0 += SignedDuration::from_millis(i64::try_from(milliseconds).unwrap());
        at.1 += Duration::from_millis(milliseconds);
    }

    /// Somebody sets the time of day; no time passes.
    pub fn step(&self, seconds: i64) {
        self.0.lock().unwrap().0 += SignedDuration::from_secs(seconds);
    }
}

impl Clock for TestClock {
    fn now(&self) -> Timestamp {
        self.0.lock().unwrap().0
    }

    fn passed(&self) -> Duration {
        self.0.lock().unwrap().1
    }
}

pub fn open(folder: &Path, clock: &Arc<TestClock>) -> Arc<Service> {
    let journal = Arc::new(SledJournal::open(folder.join("journal")).unwrap());
    Service::open(journal, Arc::clone(clock) as Arc<dyn Clock>, ClockMode::Wall).unwrap()
}

pub fn courier(
    service: &Arc<Service>,
    clock: &Arc<TestClock>,
    url: &str,
    allow_private: bool,
    secret: &Secret,
) -> Arc<Courier> {
    let clock = Arc::clone(clock) as Arc<dyn Clock>;
    Courier::new(Arc::clone(service), clock, routes(url, allow_private, secret, PATIENCE))
}

/// One that waits in haste.
pub fn hasty(
    service: &Arc<Service>,
    clock: &Arc<TestClock>,
    url: &str,
    secret: &Secret,
) -> Arc<Courier> {
    let clock = Arc::clone(clock) as Arc<dyn Clock>;
    Courier::new(Arc::clone(service), clock, routes(url, true, secret, HASTE))
}

pub fn siren(
    service: &Arc<Service>,
    clock: &Arc<TestClock>,
    url: &str,
    secret: &Secret,
) -> Arc<Siren> {
    let clock = Arc::clone(clock) as Arc<dyn Clock>;
    Siren::new(Arc::clone(service), clock, routes(url, true, secret, PATIENCE))
}

fn routes(url: &str, allow_private: bool, secret: &Secret, patience: Patience) -> Routes {
    let limit = NonZeroU32::new(10_000_000);
    let destination = Destination::new(url, allow_private, limit).unwrap();
    let carrier = Carrier::new(destination, Signed(vec![secret.clone()]), patience).unwrap();
    Routes::only(carrier)
}

/// Opens a squad for coach number `number`, with one swimmer in it; gives the code
/// to join by.
pub async fn squad(service: &Arc<Service>, number: u32) -> String {
    let squad = NewSquad::of_grown_ups(format!("Squad {number}"), coach(number));
    let code = service.add_squad(squad).await.unwrap().code;
    // Without the letter to the coach that somebody has joined.
    say_as(service, &coach(number), "STOP").await;
    say(service, number, &format!("join {code} heron")).await;
    say_as(service, &coach(number), "START").await;
    code
}

pub fn coach(number: u32) -> String {
    format!("+1555{number:04}00")
}

/// The squad's swimmer tells of bad pain, which the coach is told in an ordinary
/// letter; gives how many others are told.
pub async fn letter(service: &Arc<Service>, number: u32) -> usize {
    say(service, number, "200 test 3:12 shoulder hurts 7").await
}

/// The squad's swimmer feels dizzy: an alarm. Gives how many others are called.
pub async fn alarm(service: &Arc<Service>, number: u32) -> usize {
    say(service, number, "felt dizzy").await
}

async fn say(service: &Arc<Service>, number: u32, text: &str) -> usize {
    let replies = replies(service, &format!("+1555{number:04}01"), text).await;
    replies.iter().filter(|reply| reply.via == Via::Outbox).count()
}

/// What this address is answered.
pub async fn say_as(service: &Arc<Service>, from: &str, text: &str) -> String {
    let replies = replies(service, from, text).await;
    replies.into_iter().find(|reply| reply.via == Via::Answer).map_or_else(String::new, |r| r.text)
}

async fn replies(service: &Arc<Service>, from: &str, text: &str) -> Vec<Spoken> {
    let said = Incoming {
        channel: "messages".into(),
        id: None,
        from: from.to_owned(),
        room: None,
        sent_at: None,
        body: Body::Text(text.to_owned()),
    };
    service.receive(said).await.unwrap().replies
}
