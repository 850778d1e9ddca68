//! What is said unasked: once, at its time, and to those who want it.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::{Arc, Mutex};

use jiff::{Timestamp, ToSpan};
use lapwing::clock::{Clock, ClockMode};
use lapwing::history::SquadId;
use lapwing::journal::SledJournal;
use lapwing::service::{Body, Incoming, NewSquad, Service};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

struct Hand(Arc<Mutex<Timestamp>>);

impl Clock for Hand {
    fn now(&self) -> Timestamp {
        *self.0.lock().unwrap()
    }
}

pub struct Club {
    pub service: Arc<Service>,
    pub hand: Arc<Mutex<Timestamp>>,
    pub squad: SquadId,
    /// What opens it.
    pub code: String,
    mode: ClockMode,
    folder: tempfile::TempDir,
}

fn open(folder: &Path, hand: &Arc<Mutex<Timestamp>>, mode: ClockMode) -> Arc<Service> {
    let journal = SledJournal::open(folder.join("journal")).unwrap();
    Service::open(Arc::new(journal), Arc::new(Hand(Arc::clone(hand))), mode).unwrap()
}

impl Club {
    /// Heron, and nights on Tuesdays and Thursdays at 20:00.
    pub async fn begin(mode: ClockMode) -> Club {
        let folder = tempfile::tempdir().unwrap();
        let hand = Arc::new(Mutex::new("2026-03-02T12:00:00Z".parse().unwrap()));
        let service = open(folder.path(), &hand, mode);
        let squad = NewSquad::of_grown_ups("Dusk", "coach");
        let added = service.add_squad(squad).await.unwrap();
        let code = added.code.clone();
        let club = Club { service, hand, squad: SquadId(added.id), code, mode, folder };
        club.say("coach", "slot tue thu 2000-2100 4 lanes").await;
        club.say("heron", &format!("join {} heron", added.code)).await;
        club
    }

    pub async fn say(&self, from: &str, text: &str) {
        let incoming = Incoming {
            channel: "chat".into(),
            id: None,
            from: from.into(),
            room: None,
            sent_at: Some(self.now()),
            body: Body::Text(text.into()),
        };
        self.service.receive(incoming).await.unwrap();
    }

    pub fn now(&self) -> Timestamp {
        *self.hand.lock().unwrap()
    }

    fn set(&self, instant: &str) {
        *self.hand.lock().unwrap() = instant.parse().unwrap();
    }

    async fn look(&self) {
        self.service.say_due(std::slice::from_ref(&self.squad), self.now()).await.unwrap();
    }

    /// The same data folder, opened anew.
    pub async fn restart(&mut self) {
        self.service.close().await;
        self.service = open(self.folder.path(), &self.hand, self.mode);
    }

    /// Every letter not delivered, by number: to whom, and the words.
    pub fn letters(&self) -> BTreeMap<String, (String, String)> {
        let waiting = self.service.undelivered().unwrap();
        let letter = |number| {
            let letter = self.service.letter(number).unwrap();
            (letter.id, (letter.spoken.to, letter.spoken.text))
        };
        waiting.into_iter().map(|one| letter(one.number)).collect()
    }

    /// How many texts wait, but for those of who has joined.
    fn said(&self) -> usize {
        self.letters().values().filter(|(_, text)| !text.contains("has joined")).count()
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn eight_weeks_with_restarts_say_each_count_once() {
    for seed in 0..3 {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let mut club = Club::begin(ClockMode::Wall).await;
        club.say("coach", "digest off").await;
        let start = club.now();
        for day in 1..=56i64 {
            let noon = start.checked_add((day * 24).hours()).unwrap();
            *club.hand.lock().unwrap() = noon;
            // Tuesdays only: on Thursdays nobody says a word.
            if day % 7 == 1 {
                club.say("heron", "in").await;
            }
            let mut looks: Vec<i64> =
                (0..dice.random_range(0..4)).map(|_| dice.random_range(0..719)).collect();
            // Half past five, so that there is one look in time.
            looks.push(330);
            looks.sort_unstable();
            for minutes in looks {
                *club.hand.lock().unwrap() = noon.checked_add(minutes.minutes()).unwrap();
                club.look().await;
                if dice.random_bool(0.1) {
                    club.restart().await;
                }
            }
        }
        assert_eq!(club.said(), 8, "seed {seed}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn nothing_before_its_time_nor_in_the_quiet_hours() {
    let club = Club::begin(ClockMode::Wall).await;
    club.set("2026-03-03T12:00:00Z");
    club.say("heron", "in").await;
    for (instant, said) in [
        ("2026-03-03T16:59:59Z", 0),
        ("2026-03-03T20:00:00Z", 0),
        ("2026-03-03T23:00:00Z", 0),
        ("2026-03-03T17:00:00Z", 1),
        ("2026-03-03T19:59:00Z", 1),
    ] {
        club.set(instant);
        club.look().await;
        assert_eq!(club.said(), said, "{instant}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn nothing_to_a_coach_who_opted_out_nor_on_a_shut_night() {
    let club = Club::begin(ClockMode::Wall).await;
    club.set("2026-03-03T12:00:00Z");
    club.say("heron", "in").await;
    club.say("heron", "in thu").await;
    club.say("coach", "pool shut thu").await;
    club.set("2026-03-05T17:30:00Z");
    club.look().await;
    assert_eq!(club.said(), 0, "shut");
    club.set("2026-03-03T16:00:00Z");
    club.say("coach", "stop").await;
    club.set("2026-03-03T17:30:00Z");
    club.look().await;
    assert_eq!(club.said(), 0, "opted out");
}

#[tokio::test(flavor = "multi_thread")]
async fn an_assistant_is_not_told_unasked() {
    let club = Club::begin(ClockMode::Wall).await;
    club.set("2026-03-03T12:00:00Z");
    club.say("coach", "invite kite assistant kestrel").await;
    club.say("kite", "yes").await;
    club.say("heron", "in").await;
    let before = club.said();
    club.set("2026-03-03T17:30:00Z");
    club.look().await;
    assert_eq!(club.said() - before, 1);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_coach_of_two_squads_hears_from_one_of_them_a_day() {
    let club = Club::begin(ClockMode::Wall).await;
    let squad =
        NewSquad { timezone: "Pacific/Auckland".into(), ..NewSquad::of_grown_ups("Dawn", "coach") };
    let dawn = club.service.add_squad(squad).await.unwrap();
    club.say("coach", "Dawn slot tue wed thu 2000-2100 4 lanes").await;
    club.say("teal", &format!("join {} teal", dawn.code)).await;
    club.say("heron", "in tue").await;
    club.say("teal", "in tue").await;
    club.say("teal", "in wed").await;
    let squads = [club.squad.clone(), SquadId(dawn.id)];
    for (instant, said) in [
        // Tuesday evening in Auckland.
        ("2026-03-03T04:30:00Z", 1),
        // Still Tuesday in Auckland; by UTC the day that it was said on.
        ("2026-03-03T10:30:00Z", 1),
        ("2026-03-03T17:30:00Z", 1),
        // Wednesday evening in Auckland.
        ("2026-03-04T04:30:00Z", 2),
    ] {
        club.set(instant);
        club.service.say_due(&squads, club.now()).await.unwrap();
        assert_eq!(club.said(), said, "{instant}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn where_messages_bring_the_clock_it_goes_with_the_next_of_them() {
    let club = Club::begin(ClockMode::Message).await;
    club.set("2026-03-03T12:00:00Z");
    club.say("heron", "in").await;
    assert_eq!(club.said(), 0);
    club.set("2026-03-03T17:10:00Z");
    club.say("heron", "10 late").await;
    assert_eq!(club.said(), 1);
    club.say("heron", "out").await;
    assert_eq!(club.said(), 1);
}

/// Sunday evening: the squad's week to its coach, their own to a swimmer who asked
/// for it, nothing to one who is ill or did not ask; on the next look nothing more.
#[tokio::test(flavor = "multi_thread")]
async fn the_week_is_told_once_on_its_evening() {
    let mut club = Club::begin(ClockMode::Wall).await;
    for who in ["teal", "wren", "siskin"] {
        club.say(who, &format!("join {} {who}", club.code)).await;
    }
    club.say("heron", "weekly on").await;
    club.say("wren", "weekly on").await;
    club.set("2026-03-05T21:00:00Z");
    for who in ["heron", "teal", "wren"] {
        club.say(who, "done 1500 50min rpe 5").await;
    }
    club.say("wren", "ill").await;
    let before = club.letters();
    club.set("2026-03-08T17:59:00Z");
    club.look().await;
    assert_eq!(club.letters(), before);
    for instant in ["2026-03-08T18:00:00Z", "2026-03-08T18:01:00Z", "2026-03-09T08:30:00Z"] {
        club.set(instant);
        club.look().await;
        club.restart().await;
    }
    let mut said: Vec<(String, String)> = club
        .letters()
        .into_iter()
        .filter(|(id, _)| !before.contains_key(id))
        .map(|(_, letter)| letter)
        .collect();
    said.sort();
    let to: Vec<&str> = said.iter().map(|(to, _)| to.as_str()).collect();
    assert_eq!(to, ["coach", "heron"]);
    assert!(said[0].1.starts_with("Dusk, 2 to 8 Mar: 3 swam.\nwren: ill since 5 Mar."), "{said:?}");
    assert!(said[1].1.starts_with("Your week, 2 to 8 Mar: swam on 1 day, 1500m."), "{said:?}");
    assert!(!said[1].1.contains("wren") && !said[1].1.contains("teal"));
    // A week in which nothing happened is not told.
    club.set("2026-03-15T18:05:00Z");
    club.look().await;
    assert_eq!(club.letters().len(), before.len() + 2);
}
