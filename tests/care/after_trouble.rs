//! After any pain, illness or stop, no later session before the release is
//! longer or harder than the one before it, whatever is texted meanwhile.

use jiff::ToSpan;
use lapwing::message::Name;
use rand::{Rng, RngExt, SeedableRng};
use serde_json::Value;

use crate::squad::Talk;

/// What swimmers text in between; none of it is a release.
const TEXTS: &[&str] = &[
    "next",
    "next",
    "next",
    "harder",
    "easier",
    "shorter",
    "again",
    "next 30min",
    "next 90min",
    "next 3000",
    "plan",
    "plan hard week",
    "plan 5x week 90min",
    "200 test 3:05",
    "400 test 6:40",
    "undo",
    "yes",
    "no",
    "more",
    "why",
    "done 1500 45min rpe 5",
    "done 2000 60min rpe 9",
    "8x50 on 1:15 held 48 48 48 48 48 48 48 48",
    "4x100 on 2:00 held 1:36 1:36 1:36 1:36",
    "cleared",
    "ok to swim?",
    "missed tue",
    "60min a session",
    "knee hurts 3",
    "headache",
];

const TROUBLES: &[&str] = &[
    "shoulder hurts 4",
    "shoulder hurts 8",
    "ill",
    "fever",
    "sick stomach",
    "chest pain",
    "dizzy",
    "back pain 2",
];

#[test]
fn sessions_never_grow_while_something_is_open() {
    run(2_000);
}

#[test]
#[ignore = "minutes long; the same with more histories"]
fn sessions_never_grow_in_ten_thousand_histories() {
    run(10_000);
}

fn run(histories: u64) {
    let mut sessions = 0;
    for seed in 0..histories {
        sessions += history(seed);
    }
    println!("{histories} histories, {sessions} sessions given while something was open");
    assert!(sessions > histories, "too few sessions to tell anything");
}

/// How much of a session: its distance, and the distance of each level and
/// above.
#[derive(Debug, Clone)]
struct Size {
    distance: f64,
    hardest: u8,
    is_hard: f64,
}

impl Size {
    fn of(session: &Value) -> Size {
        let distance = session["distance"].as_f64().unwrap();
        let share = |level: u8| session["level_share"][level.to_string()].as_f64().unwrap();
        let hardest = (1..=5).rev().find(|level| share(*level) > 0.0).unwrap_or(1);
        Size { distance, hardest, is_hard: distance * (3..=5).map(share).sum::<f64>() }
    }

    fn is_more_than(&self, other: &Size) -> bool {
        self.distance > other.distance + 0.5
            || self.is_hard > other.is_hard + 0.5
            || (self.hardest > other.hardest && self.hardest > 2)
    }
}

/// One swimmer's history; counts the sessions that were compared.
fn history(seed: u64) -> u64 {
    let mut random = rand_chacha::ChaCha8Rng::seed_from_u64(seed);
    let mut talk = Talk::of_grown_ups();
    let mut log: Vec<String> = Vec::new();
    let say = |talk: &mut Talk, log: &mut Vec<String>, text: &str| {
        log.push(format!("{} {text}", talk.now));
        talk.hears("heron", text)
    };
    let pick = |random: &mut rand_chacha::ChaCha8Rng, of: &[&'static str]| {
        of[random.random_range(0..of.len())]
    };
    for _ in 0..random.random_range(0..6) {
        let text = pick(&mut random, TEXTS);
        say(&mut talk, &mut log, text);
        pass(&mut talk, &mut random);
    }
    let mut before: Option<Size> = None;
    let last = say(&mut talk, &mut log, "next");
    if last.result["kind"] == "session" {
        before = Some(Size::of(&last.result));
    }
    let trouble = pick(&mut random, TROUBLES);
    say(&mut talk, &mut log, trouble);
    let mut compared = 0;
    for _ in 0..random.random_range(2..10) {
        let text = pick(&mut random, TEXTS);
        let heard = say(&mut talk, &mut log, text);
        if !is_open(&talk) {
            // A report taken back: it was a mistake, or a stop would stay.
            assert!(!is_a_stop(trouble), "{}", log.join("\n"));
            break;
        }
        if heard.result["kind"] == "session" {
            let now = Size::of(&heard.result);
            if let Some(before) = &before {
                compared += 1;
                assert!(
                    !now.is_more_than(before),
                    "seed {seed}: {now:?} after {before:?}\n{}",
                    log.join("\n")
                );
            }
            before = Some(now);
        }
        pass(&mut talk, &mut random);
    }
    compared
}

fn is_open(talk: &Talk) -> bool {
    let heron = talk.squad.swimmers.get(&Name::new("heron").unwrap()).unwrap();
    heron.open_troubles(talk.now).next().is_some()
}

fn is_a_stop(trouble: &str) -> bool {
    matches!(trouble, "chest pain" | "dizzy")
}

fn pass(talk: &mut Talk, random: &mut impl Rng) {
    let hours = random.random_range(0..60);
    talk.now = talk.now.checked_add(hours.hours()).unwrap();
}
