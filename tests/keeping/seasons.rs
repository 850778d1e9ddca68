//! Random seasons of a swimmer who asks, swims, reports, hurts, rests and is away.
//!
//! The long run: `cargo test --release --test keeping -- --ignored`; a part of it with
//! `FROM=1200 TO=1300` before it, seasons 1000 to 1999 being all.

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use serde_json::Value;

use crate::careful::{Careful, FEVER_BACK_DAYS, ILL_BACK_DAYS, PAIN_BACK_DAYS};
use crate::promises::Said;
use crate::talk::{Heard, Talk, is_hard, is_test, main_lines, sessions};

/// One season of six to ten weeks.
struct Season {
    talk: Talk,
    said: Said,
    dice: ChaCha8Rng,
    whose: String,
    /// 200 in so many seconds.
    pace_200: f64,
    hurt: bool,
    ill: bool,
    careful: Careful,
}

impl Season {
    fn of(seed: u64) -> Season {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let pace_200 = dice.random_range(140.0..280.0);
        let talk = Talk::of_heron();
        let said = Said::default();
        Season {
            talk,
            said,
            dice,
            whose: format!("season {seed}"),
            pace_200,
            hurt: false,
            ill: false,
            careful: Careful::default(),
        }
    }

    fn says(&mut self, text: &str) -> Heard {
        let heard = self.talk.says(text);
        // Seen where the season fails.
        println!("{} {text}\n  {}", self.talk.today(), heard.text.replace('\n', "\n  "));
        let whose = format!("{} {} after {text}", self.whose, self.talk.today());
        self.careful.hears(&heard, self.talk.today(), &whose);
        self.said.hears(&heard, &whose);
        let told = sessions(&heard.result);
        if !told.is_empty() {
            self.said.tells(told, &heard.result["kind"]);
        }
        heard
    }

    fn asks(&mut self) {
        let before = self.talk.clone();
        let heard = self.talk.says("next");
        let whose = format!("{} {}", self.whose, self.talk.today());
        self.said.asks(&heard, &whose);
        self.talk = before;
        let first = self.says("next");
        let again = self.says("next");
        assert_eq!(first.result, again.result, "{whose}: asked twice");
    }

    /// Swims what was told for today, and tells of it in one of many ways.
    fn swims(&mut self) {
        let today = self.talk.today().to_string();
        let told = self.said.first_told().filter(|told| told["on"] == today.as_str()).cloned();
        match told {
            Some(session) if self.dice.random_bool(0.1) => self.cuts_short(&session),
            Some(session) if is_test(&session) => {
                let seconds = self.pace_200 * self.dice.random_range(0.97..1.03);
                self.says(&format!("200 test {}", spoken(seconds)));
            }
            Some(session) if self.dice.random_bool(0.5) => match paced(&session) {
                Some(line) => {
                    let text = self.result_of(&line);
                    self.says(&text);
                }
                None => {
                    self.said.swum(&today);
                    self.says("done");
                }
            },
            told => {
                let rpe = self.dice.random_range(2..9);
                // Much less than was told is not what was told.
                match told.and_then(|told| told["distance"].as_u64()) {
                    Some(meant) if meant * 3 > 1500 * 4 => self.said.easy_is_over(),
                    _ => self.said.swum(&today),
                }
                self.says(&format!("done 1500 45min rpe {rpe}"));
            }
        }
        self.said.easy_is_over();
        self.said.over(&today);
        self.careful.swum(self.talk.today());
    }

    /// Gets out after less than half, worn out: what is asked for next is less than
    /// what was told, and easy.
    fn cuts_short(&mut self, told: &Value) {
        let whole = told["distance"].as_u64().unwrap();
        let swum = (whole * 45 / 100 / 25 * 25).max(25);
        self.said.easy_is_over();
        self.says(&format!("done {swum}m 30min rpe 9"));
        self.said.over(&self.talk.today().to_string());
        let ask = ["next", "plan"][self.dice.random_range(0..2)];
        let heard = self.says(ask);
        let next = match ask {
            "next" => &heard.result,
            _ => &heard.result["weeks"][0]["sessions"][0],
        };
        let whose = format!("{} {}: {swum} of {whole}", self.whose, self.talk.today());
        // Three lengths are the least that is a session.
        let least = next["distance"].as_u64() <= Some(75);
        let less = next["distance"].as_u64() < Some(whole) || least;
        assert!(less && !is_hard(next), "{whose}, then {next:#}");
    }

    /// A set of their own choice, told whatever keeps them out or at easy.
    fn swims_all_the_same(&mut self) {
        let fifty = self.pace_200 / 4.0 * self.dice.random_range(0.97..1.06);
        let count = self.dice.random_range(4..9);
        let times: Vec<String> =
            (0..count).map(|_| spoken(fifty * self.dice.random_range(0.98..1.03))).collect();
        let on = spoken((fifty * 1.6 / 5.0).ceil() * 5.0);
        self.says(&format!("{count}x50 on {on} held {}", times.join(" ")));
        self.said.easy_is_over();
        self.said.over(&self.talk.today().to_string());
        self.careful.swum(self.talk.today());
    }

    fn result_of(&mut self, line: &Value) -> String {
        let target = line["target_s"].as_f64().unwrap();
        let count = line["count"].as_u64().unwrap();
        let form = self.dice.random_range(-0.01..0.05);
        let times: Vec<String> = (0..count)
            .map(|at| {
                let tired = 1.0 + form * at as f64 / count as f64;
                spoken(target * tired * self.dice.random_range(0.99..1.01))
            })
            .collect();
        let on = spoken(line["send_off_s"].as_f64().unwrap());
        format!("{count}x{} on {on} held {}", line["distance"], times.join(" "))
    }

    fn a_day(&mut self) {
        let yesterday = self.talk.today().yesterday().unwrap().to_string();
        self.said.over(&yesterday);
        if self.dice.random_bool(0.35) {
            self.asks();
        }
        if self.dice.random_bool(0.1) {
            self.says("plan");
        }
        if !self.hurt && !self.ill && self.dice.random_bool(0.5) {
            self.swims();
        } else if self.dice.random_bool(0.05) {
            self.swims_all_the_same();
        }
        match self.dice.random_range(0..100) {
            0 if !self.hurt => {
                let level = self.dice.random_range(1..8);
                self.said.shaken();
                self.says(&format!("shoulder hurts {level}"));
                self.hurt = true;
                self.careful.open((level >= 3).then_some(PAIN_BACK_DAYS));
            }
            1 if !self.ill => {
                let (illness, days) = [("ill", ILL_BACK_DAYS), ("fever", FEVER_BACK_DAYS)]
                    [self.dice.random_range(0..2)];
                self.said.shaken();
                self.says(illness);
                self.ill = true;
                self.careful.open(Some(days));
            }
            2..=20 if self.hurt || self.ill => {
                self.careful.better(self.talk.today());
                self.said.shaken();
                self.says("better");
                (self.hurt, self.ill) = (false, false);
            }
            21 => {
                let seconds = self.pace_200 * self.dice.random_range(0.96..1.02);
                self.careful.swum(self.talk.today());
                self.says(&format!("200 test {}", spoken(seconds)));
                self.said.easy_is_over();
            }
            22 => {
                let seconds = self.pace_200 * 2.14 * self.dice.random_range(0.97..1.03);
                self.careful.swum(self.talk.today());
                self.says(&format!("400 test {}", spoken(seconds)));
                self.said.easy_is_over();
            }
            23 => {
                let minutes = [30, 45, 60, 75][self.dice.random_range(0..4)];
                self.says(&format!("minutes {minutes}"));
            }
            24 => self.talk.days_later(self.dice.random_range(5..25)),
            25 => {
                self.says("missed");
            }
            26 => {
                self.says("slept 4 hrs, shattered");
            }
            _ => {}
        }
        self.talk.days_later(1);
    }
}

/// The hard line of the main set that carries a time to hold.
fn paced(session: &Value) -> Option<Value> {
    let mut lines = main_lines(session);
    lines
        .find(|(rounds, line)| {
            *rounds == 1 && line["target_s"].is_f64() && line["level"].as_u64() >= Some(3)
        })
        .map(|(_, line)| line.clone())
}

fn spoken(seconds: f64) -> String {
    let tenths = (seconds * 10.0).round() as u64;
    let (minutes, rest) = (tenths / 600, tenths % 600);
    match minutes {
        0 => format!("{}.{}", rest / 10, rest % 10),
        _ => format!("{minutes}:{:02}.{}", rest / 10, rest % 10),
    }
}

/// Promises kept and taken back in one season.
fn season(seed: u64) -> (usize, usize) {
    let mut season = Season::of(seed);
    for _ in 0..5 {
        season.says("done 1400 45min rpe 4");
        season.talk.days_later(2);
    }
    let first = format!("200 test {}", spoken(season.pace_200));
    season.says(&first);
    season.said.easy_is_over();
    season.careful.swum(season.talk.today());
    let today = season.talk.today().to_string();
    season.said.over(&today);
    for _ in 0..season.dice.random_range(42..70) {
        season.a_day();
    }
    (season.said.kept, season.said.withdrawn)
}

/// Every season of a range runs, whatever became of those before it.
fn seasons(seeds: std::ops::Range<u64>) {
    let all = seeds.map(|seed| std::panic::catch_unwind(|| season(seed)).map_err(|_| seed));
    let (held, failed): (Vec<_>, Vec<_>) = all.partition(Result::is_ok);
    let failed: Vec<u64> = failed.into_iter().filter_map(Result::err).collect();
    let held = held.into_iter().filter_map(Result::ok);
    let (kept, withdrawn) =
        held.fold((0, 0), |(kept, withdrawn), (more, back)| (kept + more, withdrawn + back));
    println!("{kept} promises kept, {withdrawn} taken back in words");
    assert!(failed.is_empty(), "seasons {failed:?} failed");
    assert!(kept > withdrawn);
}

#[test]
fn promises_are_kept_or_taken_back() {
    seasons(0..12);
}

#[test]
#[ignore = "the long run, for a release build: a thousand seasons"]
fn a_thousand_seasons() {
    let from: u64 = std::env::var("FROM").map_or(1000, |from| from.parse().unwrap());
    let to: u64 = std::env::var("TO").map_or(2000, |to| to.parse().unwrap());
    seasons(from..to);
}
