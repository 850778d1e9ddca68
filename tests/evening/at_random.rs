//! Random evenings: up to forty swimmers in one to eight lanes, and every text by
//! which a coach or a swimmer changes one, in any order. After every text all that is
//! told of the evening is asked for at the same instant, and must agree.
//!
//! Who swims is counted beside by the test itself, from the words said; what was swum
//! is counted from the clock and the session told before. Rest is held against the
//! levels' own table (`swim::levels`), a swim-down against an easy pace worked out
//! here from the test times.

use std::collections::{BTreeMap, BTreeSet};
use std::panic::{AssertUnwindSafe, catch_unwind};

use jiff::{Timestamp, ToSpan};
use lapwing::history::{Event, Stamped};
use lapwing::message::Name;
use rand::seq::{IndexedRandom, IteratorRandom};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use crate::squad::{Heard, Talk};
use crate::told::Told;

const BIRDS: [&str; 40] = [
    "heron",
    "teal",
    "wren",
    "robin",
    "siskin",
    "dunlin",
    "plover",
    "snipe",
    "dunnock",
    "swift",
    "finch",
    "kite",
    "lark",
    "rook",
    "puffin",
    "curlew",
    "grebe",
    "coot",
    "knot",
    "ruff",
    "dipper",
    "linnet",
    "merlin",
    "osprey",
    "petrel",
    "pipit",
    "redstart",
    "sandpiper",
    "shrike",
    "skylark",
    "starling",
    "stonechat",
    "swallow",
    "tern",
    "thrush",
    "twite",
    "wagtail",
    "waxwing",
    "whimbrel",
    "wigeon",
];

/// As many evenings as fit into CI.
#[test]
fn all_that_is_told_of_an_evening_agrees() {
    let tally = evenings(0..24);
    // It has to be about something.
    assert!(tally.steps > 200 && tally.changes > 120 && tally.swum > 500, "{tally:?}");
}

/// Ten thousand of them, a hundred at a time, each hundred with what it looked at:
///
/// `cargo test --release --test evening -- --ignored ten_thousand --nocapture`
///
/// Others, or one alone, with `EVENINGS=40..120` before it. An evening that fails is
/// told at once and the others go on; all that failed are told again at the end.
#[test]
#[ignore = "an hour or two in a release build"]
fn ten_thousand_evenings() {
    let asked = std::env::var("EVENINGS").unwrap_or("0..10000".into());
    let (first, last) = asked.split_once("..").unwrap();
    let (first, last): (u64, u64) = (first.parse().unwrap(), last.parse().unwrap());
    let mut failed = Vec::new();
    for from in (first..last).step_by(100) {
        let chunk = from..last.min(from + 100);
        let mut tally = Tally::default();
        for seed in chunk.clone() {
            let night = AssertUnwindSafe(|| Night::of(seed).swum(&mut tally));
            if catch_unwind(night).is_err() {
                failed.push(seed);
            }
        }
        println!("{chunk:?}: {tally:?}, {} failed so far", failed.len());
    }
    assert!(failed.is_empty(), "evenings {failed:?}");
}

/// What was looked at.
#[derive(Debug, Default)]
pub struct Tally {
    /// Texts that changed an evening, or might have.
    pub steps: usize,
    /// Those of them after which something was told otherwise.
    pub changes: usize,
    /// Repeats that were swum, and stayed as they were.
    pub swum: usize,
    /// Swimmers' own answers held against the lanes.
    pub own: usize,
    /// Sets whose lanes ended more than two minutes apart, and said so.
    pub apart: usize,
}

fn evenings(seeds: std::ops::Range<u64>) -> Tally {
    let mut tally = Tally::default();
    for seed in seeds {
        Night::of(seed).swum(&mut tally);
    }
    tally
}

/// An evening on the way.
pub struct Night {
    pub seed: u64,
    pub dice: ChaCha8Rng,
    pub talk: Talk,
    /// Seconds of each one's 400; none for who has no test.
    pub tested: BTreeMap<&'static str, Option<u32>>,
    /// By the words said: who swims no more.
    pub gone: BTreeSet<&'static str>,
    /// Who was said to be here since.
    pub here: BTreeSet<&'static str>,
    /// The register is taken.
    pub register: bool,
    /// Ill, and not said to come since: marked here or not, they don't swim.
    pub ill: BTreeSet<&'static str>,
    /// Whoever said so at all: a swimmer's word is not the coach's to undo.
    pub ever_ill: BTreeSet<&'static str>,
    /// Send-offs are as we wrote them: the coach has said none.
    pub ours: bool,
    /// The coach has said some at any time, which an undo may bring back.
    pub worded: bool,
    /// All that was texted so far.
    pub said: Vec<String>,
}

impl Night {
    fn of(seed: u64) -> Night {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let mut talk = Talk::opened(true, false);
        let count = dice.random_range(3..=40);
        let mut tested = BTreeMap::new();
        for (at, bird) in BIRDS.iter().take(count).enumerate() {
            let address = format!("+15552{at:03}");
            let event = Event::Joined { address: address.clone(), name: Name::new(bird).unwrap() };
            let cause = talk.squad.next_cause;
            talk.squad.apply(&Stamped { cause, at: talk.now, by: address, event });
            talk.squad.next_cause += 1;
            let seconds = dice.random_bool(0.93).then(|| dice.random_range(290..=620u32));
            tested.insert(*bird, seconds);
        }
        let times: Vec<String> = tested
            .iter()
            .filter_map(|(bird, seconds)| {
                let seconds = (*seconds)?;
                Some(format!("{bird} {}:{:02}", seconds / 60, seconds % 60))
            })
            .collect();
        for some in times.chunks(12) {
            talk.hears("coach", &format!("400s {}", some.join(" ")));
        }
        let lanes = dice.random_range(1..=8);
        talk.hears("coach", &format!("slot tue 2000-2100 {lanes} lanes"));
        talk.now = "2026-03-03T19:30:00Z".parse().unwrap();
        let mut night = Night {
            seed,
            dice,
            talk,
            tested,
            gone: BTreeSet::new(),
            here: BTreeSet::new(),
            register: true,
            ill: BTreeSet::new(),
            ever_ill: BTreeSet::new(),
            ours: true,
            worded: false,
            said: Vec::new(),
        };
        night.put_set();
        night.coach(&format!("lanes {lanes}"));
        night.talk.now = "2026-03-03T19:55:00Z".parse().unwrap();
        night.coach("all here");
        night
    }

    fn coach(&mut self, text: &str) -> Heard {
        self.said.push(text.to_owned());
        self.talk.hears("coach", text)
    }

    /// Puts a set in force, of the program's or the coach's own; too late in the
    /// evening the program has none.
    fn put_set(&mut self) {
        let planned = self.dice.random_bool(0.6);
        let written = [
            "set tonight 400 easy, 10x100 threshold, 4x50 kick easy, 200 swim down",
            "set tonight 300 easy, 8x50 drill, 12x50 hard on 1:20, 200 easy",
            "set tonight 200 easy, 3x(4x100 threshold on 2:15, 50 easy), 100 swim down",
        ];
        let texts = match planned {
            true => ["plan tonight", "plan tonight hard", "plan tonight easy"],
            false => written,
        };
        let text = *texts.choose(&mut self.dice).unwrap();
        if self.coach(text).result["kind"] == "session" {
            self.ours = planned;
        }
        self.worded |= !planned;
    }

    fn swum(&mut self, tally: &mut Tally) {
        let mut before = self.told();
        self.agrees(&before, tally);
        let ends: Timestamp = "2026-03-03T20:55:00Z".parse().unwrap();
        for _ in 0..14 {
            let minutes: i64 = self.dice.random_range(0..=6);
            self.talk.now = self.talk.now.checked_add(minutes.minutes()).unwrap();
            if self.talk.now >= ends {
                break;
            }
            let keeps = self.step();
            let after = self.told();
            tally.steps += 1;
            tally.changes += usize::from(after.lanes != before.lanes);
            self.agrees(&after, tally);
            if keeps {
                self.stays_swum(&before, &after, tally);
            }
            before = after;
        }
    }

    /// One more text; true where what was swum stays: no other set was put.
    fn step(&mut self) -> bool {
        let one = *self.tested.keys().choose(&mut self.dice).unwrap();
        let other = *self.tested.keys().choose(&mut self.dice).unwrap();
        let lane = self.dice.random_range(1..=8u8);
        let on = self.dice.random_range(16..=30u32) * 5;
        let (out, back): (&[&'static str], &[&'static str]) = (&[one], &[one]);
        let text = match self.dice.random_range(0..22) {
            0 => "lost a lane".to_owned(),
            1 => format!("lanes {lane}"),
            2 => return self.says(format!("{one} out"), out, &[]),
            3 => {
                self.ill.remove(one);
                return self.says(format!("{one} in"), &[], back);
            }
            4 if self.ill.contains(one) => {
                if !std::mem::replace(&mut self.register, true) {
                    self.here.clear();
                }
                return self.says(format!("here {one}"), &[], &[]);
            }
            4 => {
                // The first who is seen begins the register again: others are not yet.
                if !std::mem::replace(&mut self.register, true) {
                    self.here.clear();
                }
                return self.says(format!("here {one}"), &[], back);
            }
            5 => return self.says(format!("absent {one}"), out, &[]),
            6 => {
                let address = self.address(one);
                self.gone.insert(one);
                self.here.remove(one);
                self.ill.insert(one);
                self.ever_ill.insert(one);
                self.said.push(format!("{one}: ill"));
                self.talk.hears(&address, "ill");
                return true;
            }
            // Late ones are waited for, but not for ever.
            7 => {
                self.ill.remove(one);
                self.gone.remove(one);
                return self.says(format!("{one} late 10"), &[], &[]);
            }
            8 => format!("{one} up to {lane}"),
            9 => format!("{one} and {other} lane {lane}"),
            10 => format!("apart {one} {other}"),
            11 => format!("together {one} {other}"),
            12 => format!("{one} lane {lane}"),
            13 => format!("L{lane} on {}:{:02}", on / 60, on % 60),
            14 => format!("L{lane} make it {}", self.dice.random_range(2..=9)),
            15 => format!("{} left", self.dice.random_range(5..=40)),
            16 => "skip last round".to_owned(),
            17 => "extra minute".to_owned(),
            18 => "leave 10 apart".to_owned(),
            19 => {
                self.put_set();
                return false;
            }
            20 => {
                self.coach("undo");
                // Whatever it was, the words counted here no longer tell who swims.
                self.register = false;
                self.here.clear();
                self.gone.clear();
                self.ill = self.ever_ill.clone();
                self.ours &= !self.worded;
                // The evening is about a set: one that was taken back is put again.
                if !self.asks("coach", "tonight").result["lanes"].is_array() {
                    self.coach("set tonight 400 easy, 10x100 threshold, 4x50 easy, 200 swim down");
                    (self.ours, self.worded) = (false, true);
                }
                return false;
            }
            _ => "move on".to_owned(),
        };
        self.worded |= text.contains(" on ");
        self.ours &= !text.contains(" on ");
        self.coach(&text);
        true
    }

    fn says(&mut self, text: String, gone: &[&'static str], here: &[&'static str]) -> bool {
        self.coach(&text);
        for one in gone {
            self.here.remove(one);
            self.gone.insert(one);
        }
        for one in here {
            self.gone.remove(one);
            self.here.insert(one);
        }
        true
    }

    pub fn address(&self, bird: &str) -> String {
        format!("+15552{:03}", BIRDS.iter().position(|one| *one == bird).unwrap())
    }

    /// A text at this instant that changes nothing.
    pub fn asks(&self, who: &str, text: &str) -> Heard {
        let mut talk = self.talk.clone();
        talk.now = talk.now.checked_sub(1.minute()).unwrap();
        talk.hears(who, text)
    }

    /// The evening as the coach's `tonight` tells it.
    fn told(&self) -> Told {
        let heard = self.asks("coach", "tonight");
        assert!(heard.result["lanes"].is_array(), "{}\n{}", self.context(), heard.text);
        let gap_s = self.asks("coach", "lanes").result["lanes"][0]["gap_s"].as_u64();
        Told::of(&heard, gap_s.unwrap_or(5), self.talk.now)
    }

    pub fn context(&self) -> String {
        format!("seed {}, {} swimmers: {:#?}", self.seed, self.tested.len(), self.said)
    }
}
