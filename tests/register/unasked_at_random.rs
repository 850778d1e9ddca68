//! What is said unasked, over random clocks: two squads in two zones, people in
//! both, instants back and forth, a new start between any two looks.

use std::collections::BTreeSet;

use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use lapwing::clock::ClockMode;
use lapwing::history::SquadId;
use lapwing::service::NewSquad;
use rand::seq::IndexedRandom;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use super::unasked::Club;

/// Said unasked: to whom, when, in which squad's zone, what.
struct Heard {
    to: String,
    at: Timestamp,
    zone: TimeZone,
    text: String,
}

/// What people text on the way, so that something falls due.
const TEXTS: [(&str, &str); 14] = [
    ("heron", "Dusk in tue"),
    ("heron", "Dusk in thu"),
    ("heron", "Dusk done 1500 45min rpe 5"),
    ("heron", "Dawn done 1200 40min"),
    ("teal", "in tue"),
    ("teal", "ill"),
    ("teal", "done 900 30min"),
    ("teal", "better"),
    ("coach", "Dusk digest on"),
    ("coach", "Dawn digest mon 09:30"),
    ("coach", "Dusk digest sun 18:00"),
    ("wren", "done 1000 40min"),
    ("wren", "in tue"),
    ("heron", "Dawn in wed"),
];

#[tokio::test(flavor = "multi_thread")]
async fn one_text_a_day_none_at_night_none_twice() {
    let (mut looks, mut texts) = (0, 0);
    for seed in 0..12 {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let mut club = Club::begin(ClockMode::Wall).await;
        let start = club.now();
        let dawn = NewSquad {
            timezone: "Pacific/Auckland".into(),
            ..NewSquad::of_grown_ups("Dawn", "coach")
        };
        let dawn = club.service.add_squad(dawn).await.unwrap();
        for (from, text) in [
            ("coach", "Dawn slot mon wed 0900-1000 2 lanes".to_owned()),
            ("teal", format!("join {} teal", club.code)),
            ("wren", format!("join {} wren", club.code)),
            ("heron", format!("join {} heron", dawn.code)),
            ("heron", "Dusk weekly on".to_owned()),
            ("heron", "Dawn weekly on".to_owned()),
            ("teal", "weekly on".to_owned()),
            ("wren", "weekly on".to_owned()),
            ("wren", "stop".to_owned()),
        ] {
            club.say(from, &text).await;
        }
        let squads = [
            (club.squad.clone(), TimeZone::UTC),
            (SquadId(dawn.id), TimeZone::get("Pacific/Auckland").unwrap()),
        ];
        let mut heard: Vec<Heard> = Vec::new();
        for _ in 0..90 {
            // Anywhere in three weeks: the clock goes back as well.
            let minutes = dice.random_range(0..21 * 24 * 60i64);
            *club.hand.lock().unwrap() = start.checked_add(minutes.minutes()).unwrap();
            if dice.random_bool(0.5) {
                let (from, text) = TEXTS.choose(&mut dice).unwrap();
                club.say(from, text).await;
            }
            for (squad, zone) in &squads {
                let before = club.letters();
                club.service.say_due(std::slice::from_ref(squad), club.now()).await.unwrap();
                looks += 1;
                let new = club.letters().into_iter().filter(|(id, _)| !before.contains_key(id));
                heard.extend(new.map(|(_, (to, text))| Heard {
                    to,
                    at: club.now(),
                    zone: zone.clone(),
                    text,
                }));
            }
            if dice.random_bool(0.1) {
                club.restart().await;
            }
        }
        texts += heard.len();
        keeps_the_rules(&heard);
    }
    println!("{looks} looks, {texts} texts");
    assert!(texts > 60, "{texts}");
}

fn keeps_the_rules(heard: &[Heard]) {
    let mut said = BTreeSet::new();
    for (at, one) in heard.iter().enumerate() {
        let local = one.at.to_zoned_datetime(one.zone.clone());
        assert!((8..20).contains(&local.hour()), "{} at {local}", one.text);
        assert_ne!(one.to, "wren", "she wants no texts: {}", one.text);
        // Nobody is asked for anything.
        assert!(!one.text.contains('?'), "{}", one.text);
        assert!(said.insert((&one.to, &one.text)), "twice to {}: {}", one.to, one.text);
        // By the clock of either squad.
        for other in heard[at + 1..].iter().filter(|other| other.to == one.to) {
            let date = |text: &Heard| text.at.to_zoned_datetime(one.zone.clone()).date();
            assert_ne!(date(one), date(other), "one day:\n{}\n{}", one.text, other.text);
        }
    }
}
