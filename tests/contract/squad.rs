//! The squad's session, as a program that relies on the contract would see it.

use lapwing::units::Course;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use serde_json::Value;

use crate::promises::{Critical, keeps_session, keeps_test};
use crate::{Talk, spoken};

const NAMES: [&str; 6] = ["heron", "teal", "wren", "siskin", "dunnock", "robin"];

/// `plan` for a day by the coach is a session like any other, in the versions
/// of its lanes: each keeps what is promised of sessions, all have the same
/// parts, and all are out of the water within two minutes.
#[tokio::test(flavor = "multi_thread")]
async fn a_session_by_lanes() {
    for seed in 0..24 {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let course = [Course::Short25m, Course::Long50m, Course::Short25yd][seed as usize % 3];
        let mut talk = Talk::begin(course).await;
        let mut paces: Vec<(String, Critical)> = Vec::new();
        for name in &NAMES[..dice.random_range(1..=6)] {
            talk.from = format!("phone-{name}");
            talk.say(&format!("join {} {name}", talk.code)).await;
            let time = f64::from(dice.random_range(1250..3300)) / 10.0;
            let test = talk.say(&format!("200 test {}", spoken(time))).await;
            assert_eq!(test["kind"], "test", "seed {seed} {name}: {test}");
            paces.push(((*name).to_owned(), keeps_test(&test, time, course, name)));
        }
        talk.from = "coach".into();
        for text in ["plan tonight", "plan thu 45min", "plan tue easy", "plan tue 75min"] {
            let minutes = if text.contains("45") {
                45
            } else if text.contains("75") {
                75
            } else {
                60
            };
            let whose = format!("seed {seed} {text}");
            let plan = talk.say(text).await;
            let lanes = plan["lanes"].as_array().unwrap_or_else(|| panic!("{whose}: {plan}"));
            let of_lane = |lane: &Value| {
                let swimmers = lane["swimmers"].as_array().unwrap();
                let all = paces.iter().filter(|(name, _)| swimmers.contains(&name.as_str().into()));
                let slowest = all.filter_map(|(_, critical)| critical.per_100_s);
                Critical { per_100_s: slowest.max_by(f64::total_cmp) }
            };
            for lane in lanes {
                keeps_session(lane, course, minutes - 5, &of_lane(lane), &whose);
                assert_eq!(parts(lane), parts(&plan), "{whose}");
            }
            let middle = &lanes[lanes.len() / 2];
            assert_eq!(plan["blocks"], middle["blocks"], "{whose}");
            keeps_session(&plan, course, minutes - 5, &of_lane(middle), &whose);
            let ends = lanes.iter().map(|lane| lane["duration_s"].as_u64().unwrap());
            let (first, last) = (ends.clone().min().unwrap(), ends.max().unwrap());
            assert!(last - first <= 120, "{whose}: {first} {last}");
            let drawn: usize = lanes.iter().map(|l| l["swimmers"].as_array().unwrap().len()).sum();
            assert_eq!(drawn, paces.len(), "{whose}: everyone swims in one lane");
        }
    }
}

fn parts(session: &Value) -> Vec<&str> {
    session["blocks"].as_array().unwrap().iter().map(|b| b["part"].as_str().unwrap()).collect()
}
