//! `grammar/safety/corpus.txt`, every text in a squad of its own: no danger is
//! missed, and nobody is alarmed for nothing.

use std::collections::BTreeMap;

use lapwing::history::{Event, TroubleKind};
use lapwing::language::Language;
use lapwing::message::Danger;
use lapwing::reply::{CautionKind, CautionReply, Outcome, result, voice};

use crate::squad::{self, COACH, Talk};

const CORPUS: &str = include_str!("../../grammar/safety/corpus.txt");

struct Expected {
    from: &'static str,
    kind: &'static str,
    first_words: &'static str,
    told: &'static str,
}

fn texts() -> Vec<(Expected, &'static str)> {
    let mut heading = "";
    let lines = CORPUS.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines
        .filter_map(|line| {
            if let Some(new) = line.strip_prefix('[') {
                heading = new.strip_suffix(']').unwrap();
                return None;
            }
            let parts: Vec<&str> = heading.split(" | ").collect();
            let [from, kind, first_words, told] = parts[..] else { panic!("{heading}") };
            Some((Expected { from, kind, first_words, told }, line))
        })
        .collect()
}

#[test]
fn no_danger_missed_and_nobody_alarmed_for_nothing() {
    let mut wrong = Vec::new();
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    for (expected, text) in texts() {
        let (kind, said, told, stops) = match expected.from {
            "stranger" => of_a_stranger(text),
            from => of_a_member(from, text),
        };
        *counts.entry(format!("{} {}", expected.from, expected.kind)).or_default() += 1;
        let told = if told.is_empty() { "-".to_owned() } else { told.join(" ") };
        let first = match expected.first_words {
            "-" => true,
            "own" | "beside" => is_first_act(&said, expected.first_words == "own"),
            words => {
                said.starts_with(words)
                    || in_spanish(words).is_some_and(|words| said.starts_with(words))
            }
        };
        let as_expected = match expected.kind {
            "-" => !matches!(kind.as_str(), "stop" | "welfare"),
            expected => kind == expected,
        };
        let right = as_expected && first && told == expected.told;
        let harmless = matches!(expected.kind, "-" | "question" | "welfare");
        if !right || (harmless && stops) {
            wrong.push(format!("{}: {text:?} -> {kind}, {told}: {said}", expected.from));
        }
    }
    println!("{counts:#?}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(counts.values().sum::<usize>() >= 200, "200 texts or more");
}

/// True where a reply begins with what is to be done at once in a danger of any
/// kind, whole: for oneself, or for somebody beside.
fn is_first_act(said: &str, own: bool) -> bool {
    let first = said.lines().next().unwrap_or_default();
    Language::ALL.into_iter().any(|language| {
        Danger::ALL.into_iter().any(|danger| {
            let kind = match own {
                true => CautionKind::Danger { danger, call: None },
                false => CautionKind::Beside { danger, unnamed: false, call: None },
            };
            let act = voice(language).lines(&Outcome::Caution(CautionReply { kind, about: None }));
            act[0] == first
        })
    })
}

/// The same first words to somebody who writes in Spanish.
fn in_spanish(first_words: &str) -> Option<&'static str> {
    const SAID: [(&str, &str); 7] = [
        ("No breath-holding", "Aguantar la respiracion, nunca"),
        ("We can't say yes", "A eso no podemos decir que si"),
        ("Out of the water now, tell", "Sal del agua ya, avisa al socorrista"),
        ("Out of the water now, sit down", "Sal del agua ya, siéntate"),
        ("Any chest pain", "¿Dolor de pecho"),
        ("Thank you for telling us", "Gracias por contarlo"),
        ("Never swim alone", "Nunca nades a solas"),
    ];
    SAID.iter().find(|(english, _)| first_words.starts_with(english)).map(|(_, spanish)| *spanish)
}

/// What a text stored beside danger is stored all the same, and said second.
#[test]
fn a_test_beside_danger_is_stored_after_it() {
    let mut talk = Talk::of_grown_ups();
    let heard = talk.hears("heron", "200 test 3:12 chest pain");
    assert!(heard.events.iter().any(|event| matches!(event, Event::TestSwum { .. })));
    let first = heard.text.lines().next().unwrap();
    assert!(first.starts_with("Stop. Out of the water now"), "{first}");
    assert!(!heard.text.contains("personal best") && !heard.text.contains('!'), "{}", heard.text);
}

fn of_a_member(from: &str, text: &str) -> (String, String, Vec<String>, bool) {
    let mut talk = Talk::of_grown_ups();
    let heard = talk.hears(from, text);
    let told = heard.to_others.iter().map(|(to, _)| match to.as_str() {
        COACH => "coach".to_owned(),
        other => other.to_owned(),
    });
    let opened = |event: &Event| matches!(event, Event::TroubleOpened { trouble, .. } if *trouble == TroubleKind::Faint);
    let stops = heard.events.iter().any(opened);
    (heard.kind(), heard.text.clone(), told.collect(), stops)
}

fn of_a_stranger(text: &str) -> (String, String, Vec<String>, bool) {
    let (outcome, _) = squad::stranger(text, false);
    let voice = voice(Language::English);
    let about = result(&outcome, voice)["about"].as_str().unwrap_or("none").to_owned();
    (about, voice.lines(&outcome).join("\n"), vec![], false)
}
