//! The outside contract, as a program that relies on it would see it: random
//! swimmers text for weeks, and every answer is held against what is promised.
#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod promises;
mod squad;

use std::sync::Arc;

use jiff::{Timestamp, ToSpan};
use lapwing::clock::{Clock, ClockMode};
use lapwing::journal::SledJournal;
use lapwing::service::{Body, Incoming, NewSquad, Service};
use lapwing::units::Course;
use promises::{Critical, keeps_plan, keeps_session, keeps_test, keeps_weeks};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use serde_json::Value;

struct Fixed;

impl Clock for Fixed {
    fn now(&self) -> Timestamp {
        "2026-03-02T12:00:00Z".parse().unwrap()
    }
}

struct Talk {
    service: Arc<Service>,
    at: Timestamp,
    from: String,
    code: String,
    _folder: tempfile::TempDir,
}

impl Talk {
    async fn begin(course: Course) -> Talk {
        let folder = tempfile::tempdir().unwrap();
        let journal = SledJournal::open(folder.path().join("journal")).unwrap();
        let service =
            Service::open(Arc::new(journal), Arc::new(Fixed), ClockMode::Message).unwrap();
        let squad = NewSquad { course, ..NewSquad::of_grown_ups("Dusk", "coach") };
        let code = service.add_squad(squad).await.unwrap().code;
        Talk { service, at: Fixed.now(), from: "nobody".into(), code, _folder: folder }
    }

    async fn say(&self, text: &str) -> Value {
        let incoming = Incoming {
            channel: "chat".into(),
            id: None,
            from: self.from.clone(),
            room: None,
            sent_at: Some(self.at),
            body: Body::Text(text.to_owned()),
        };
        self.service.receive(incoming).await.unwrap().result
    }

    fn later(&mut self, days: i64) {
        self.at = self.at.checked_add((days * 24).hours()).unwrap();
    }
}

/// Two or three decimals of a 200 as one would text it.
fn spoken(seconds: f64) -> String {
    format!("{}:{:04.1}", (seconds / 60.0) as u32, seconds % 60.0)
}

#[tokio::test(flavor = "multi_thread")]
async fn twelve_weeks_of_random_swimmers() {
    for seed in 0..24 {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let course = [Course::Short25m, Course::Long50m, Course::Short25yd][seed as usize % 3];
        let mut talk = Talk::begin(course).await;
        talk.from = format!("swimmer{seed}");
        let join = format!("join {} heron", talk.code);
        assert_eq!(talk.say(&join).await["kind"], "ok");
        let mut time: f64 = dice.random_range(115.0..420.0);
        let mut weeks: Vec<Value> = Vec::new();
        let mut critical = Critical::none();
        for week in 0..12 {
            let whose = format!("seed {seed} week {week} 200 in {}", spoken(time));
            if week % 4 == 0 {
                let test = talk.say(&format!("200 test {}", spoken(time))).await;
                assert_eq!(test["kind"], "test", "{whose}: {test}");
                critical = keeps_test(&test, time, course, &whose);
                keeps_session(&test["next"], course, 60, &critical, &whose);
                time *= dice.random_range(0.985..1.005);
            }
            let minutes = dice.random_range(30..=90);
            let next = talk.say(&format!("next {minutes}min")).await;
            keeps_session(&next, course, minutes, &critical, &whose);
            let wish =
                ["plan", "plan", "plan easy week", "plan hard week"][dice.random_range(0..4)];
            let plan = talk.say(wish).await;
            let starts = talk.at.to_string()[..10].to_owned();
            keeps_plan(&plan, course, &starts, &critical, &whose);
            weeks.push(plan["weeks"][0].clone());
            keeps_weeks(&weeks, &whose);
            talk.later(7);
        }
    }
}

/// Pain or illness lowers the next session, never raises it.
#[tokio::test(flavor = "multi_thread")]
async fn pain_and_illness_lower() {
    for seed in 0..24 {
        let mut dice = ChaCha8Rng::seed_from_u64(1000 + seed);
        let mut talk = Talk::begin(Course::Short25m).await;
        talk.from = "swimmer".into();
        talk.say(&format!("join {} heron", talk.code)).await;
        let time = dice.random_range(125.0..330.0);
        let test = talk.say(&format!("200 test {}", spoken(time))).await;
        keeps_test(&test, time, Course::Short25m, "before pain");
        let before = talk.say("next").await;
        let trouble =
            ["shoulder hurts 5", "knee hurts 7", "ill", "back hurts 3", "fever"][seed as usize % 5];
        assert_eq!(talk.say(trouble).await["kind"], "caution", "{trouble}");
        let mut last = before.clone();
        for _ in 0..3 {
            let after = talk.say("next").await;
            let whose = format!("seed {seed} {trouble}");
            assert_eq!(after["kind"], "session", "{whose}: {after}");
            assert!(promises::hardness(&after) <= promises::hardness(&last), "{whose}");
            let (was, is) = (&last, &after);
            for field in ["distance", "duration_s"] {
                assert!(
                    is[field].as_u64() <= was[field].as_u64(),
                    "{whose} {field}: {was} then {is}"
                );
            }
            talk.say("harder").await;
            last = after;
            talk.later(1);
        }
        assert!(promises::hardness(&last) < 3, "{trouble}: nothing hard");
    }
}
