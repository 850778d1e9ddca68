//! Words of opting out, in and for help, in every dress, from members, from
//! strangers and from those who have opted out already.
//!
//! The words: 47 CFR 64.1200(a)(10) and the keyword lists that carriers and
//! messaging services publish; the Spanish ones are common practice, no source.

use lapwing::history::Event;
use lapwing::language::Language;
use lapwing::reply::{OkReply, Outcome, voice};

use super::squad::{COACH, Talk};

const OUT: [&str; 17] = [
    "stop",
    "stopall",
    "stop all",
    "end",
    "cancel",
    "unsubscribe",
    "quit",
    "revoke",
    "optout",
    "opt-out",
    "opt out",
    "remove",
    "arret",
    "arrêt",
    "td",
    "baja",
    "parar",
];
const IN: [&str; 4] = ["start", "unstop", "alta", "empezar"];
const HELP: [&str; 4] = ["help", "info", "aide", "ayuda"];

/// Texts that hold such a word and are none.
const NONE: [&str; 14] = [
    "had to stop at 6",
    "stop the set",
    "stop?",
    "don't stop",
    "quit after 5",
    "end of set",
    "cancel tuesday",
    "remove heron",
    "stop start",
    "start the set",
    "6x100 on 2:00, had to stop at 4",
    "the end",
    "stopped",
    "stop watch",
];

/// Each way of writing a word.
fn dressed(word: &str) -> Vec<String> {
    let title = || {
        let mut letters = word.chars();
        let first = letters.next().unwrap().to_uppercase();
        first.collect::<String>() + letters.as_str()
    };
    let odd = |(at, c): (usize, char)| if at % 2 == 0 { c } else { c.to_ascii_uppercase() };
    let wide = word.chars().map(|c| match c {
        'a'..='z' => char::from_u32(c as u32 - 'a' as u32 + 'ａ' as u32).unwrap(),
        c => c,
    });
    let cased = [
        word.to_owned(),
        word.to_uppercase(),
        title(),
        word.char_indices().map(odd).collect(),
        wide.collect(),
    ];
    let marked = |word: &String| {
        [
            word.clone(),
            format!("{word}."),
            format!("{word}!!!"),
            format!("{word} ..."),
            format!("{word}\u{2026}"),
            format!("  {word}\t\r\n"),
            format!("\u{201c}{word}\u{201d}"),
            format!("'{word}'"),
            format!("({word})"),
            format!("\u{ab}{word}\u{bb}"),
            format!("{word},"),
            format!("{word}\u{200b}"),
            format!("\u{feff}{word}"),
            format!("{word} please"),
            format!("Please {word}!"),
            word.replace(' ', "   "),
        ]
    };
    cased.iter().flat_map(marked).collect()
}

fn stranger(text: &str, opted_out: bool) -> (Outcome, String, Option<Event>) {
    let (outcome, event) = super::squad::stranger(text, opted_out);
    let said = voice(Language::English).lines(&outcome).join("\n");
    (outcome, said, event)
}

fn opts_out(events: &[Event]) -> bool {
    events.iter().any(|event| matches!(event, Event::OptedOut { .. }))
}

fn opts_in(events: &[Event]) -> bool {
    events.iter().any(|event| matches!(event, Event::OptedIn { .. }))
}

/// Heron, who has opted out; after that they are heard still.
fn gone() -> Talk {
    let mut talk = Talk::of_grown_ups();
    talk.hears("heron", "stop");
    talk
}

#[test]
fn every_word_opts_out_once_whoever_says_it_and_however() {
    let squad = Talk::of_grown_ups();
    for text in OUT.iter().flat_map(|word| dressed(word)) {
        for who in ["heron", "coach"] {
            let mut talk = squad.clone();
            let first = talk.hears(who, &text);
            assert!(opts_out(&first.events), "{who}: {text:?}");
            assert!(first.text.starts_with("Lapwing") && first.text.contains("START"), "{text:?}");
            assert!(first.to_others.is_empty());
            let second = talk.hears(who, &text);
            assert_eq!((second.text.as_str(), second.events.len()), ("", 0), "{who}: {text:?}");
        }
        let (_, said, event) = stranger(&text, false);
        assert!(opts_out(event.as_slice()) && said.contains("START"), "{text:?}");
        let (outcome, said, event) = stranger(&text, true);
        assert_eq!((outcome, said.as_str(), event), (Outcome::Ok(OkReply::Silent), "", None));
    }
}

/// In the language of the word.
fn is_on_again(said: &str) -> bool {
    said.contains("on again") || said.contains("vuelves a recibir mensajes")
}

fn asks_yes_or_no(said: &str) -> bool {
    said.contains("YES or NO") || said.contains("SI o NO")
}

#[test]
fn every_word_opts_in_again() {
    let (squad, gone) = (Talk::of_grown_ups(), gone());
    for text in IN.iter().chain(&["yes", "sí", "si"]).flat_map(|word| dressed(word)) {
        let mut talk = gone.clone();
        let heard = talk.hears("heron", &text);
        assert!(opts_in(&heard.events) && is_on_again(&heard.text), "{text:?}");
        let (_, said, event) = stranger(&text, true);
        assert!(opts_in(event.as_slice()) && is_on_again(&said), "{text:?}");
        assert!(!opts_in(&squad.clone().hears("heron", &text).events), "{text:?}");
        assert_eq!(stranger(&text, false).2, None, "{text:?}");
    }
}

/// A yes to a question is an answer to it.
#[test]
fn yes_opts_in_only_where_nothing_else_was_asked() {
    let mut talk = Talk::of_grown_ups();
    assert_eq!(talk.hears("heron", "stop for 2 weeks").result["kind"], "question");
    let heard = talk.hears("heron", "yes");
    assert!(opts_out(&heard.events) && !opts_in(&heard.events));
    assert!(opts_in(&talk.hears("heron", "yes").events));
}

#[test]
fn help_is_for_everybody() {
    let (squad, gone) = (Talk::of_grown_ups(), gone());
    for text in HELP.iter().flat_map(|word| dressed(word)).chain(["?".to_owned()]) {
        let said = squad.clone().hears("heron", &text).text;
        let how = ["STOP for no texts", "STOP para no recibir mensajes"];
        assert!(how.iter().any(|how| said.contains(how)), "{text:?}: {said}");
        let said = gone.clone().hears("heron", &text).text;
        assert!(said.starts_with("Lapwing, ") && said.contains("START"), "{text:?}: {said}");
        let (_, said, event) = stranger(&text, false);
        assert!(said.starts_with("Lapwing, ") && said.contains("STOP"), "{text:?}: {said}");
        assert_eq!(event, None);
        let (_, said, event) = stranger(&text, true);
        assert!(said.starts_with("Lapwing, ") && said.contains("START"), "{text:?}: {said}");
        assert_eq!(event, None);
    }
}

#[test]
fn a_word_within_a_longer_text_opts_nobody_out_or_in() {
    for text in NONE {
        let mut talk = Talk::of_grown_ups();
        let heard = talk.hears("heron", text);
        assert!(!opts_out(&heard.events) && !heard.text.is_empty(), "{text}: {}", heard.text);
        assert!(!opts_in(&gone().hears("heron", text).events), "{text}");
        for out in [false, true] {
            assert_eq!(stranger(text, out).2, None, "{text}");
        }
    }
    // Where it reads like the word, it is asked about, once.
    let mut talk = Talk::of_grown_ups();
    assert_eq!(talk.hears("heron", "stop the set").result["kind"], "question");
    assert!(!opts_out(&talk.hears("heron", "no").events));
    assert!(!opts_out(&talk.hears("heron", "200 test 3:12").events));
}

#[test]
fn stopping_for_a_while_is_a_pause_and_a_question() {
    for (text, until) in [
        ("STOP for 2 weeks", "2026-03-16"),
        ("stop for two wks.", "2026-03-16"),
        ("Stop for a month", "2026-04-01"),
        ("quit for 10 days please", "2026-03-12"),
        ("stop until 20/3", "2026-03-20"),
        ("cancel till 2026-05-01", "2026-05-01"),
        ("parar por 2 semanas", "2026-03-16"),
    ] {
        let mut talk = Talk::of_grown_ups();
        let heard = talk.hears("heron", text);
        let away = heard.events.iter().find_map(|event| match event {
            Event::WentAway { until, .. } => Some(until.to_string()),
            _ => None,
        });
        assert_eq!(away.as_deref(), Some(until), "{text}: {}", heard.text);
        assert!(!opts_out(&heard.events) && asks_yes_or_no(&heard.text), "{text}");
        assert!(opts_out(&talk.hears("heron", "YES").events));
    }
    // A coach who doesn't swim is only asked.
    let heard = Talk::of_grown_ups().hears("coach", "stop for 2 weeks");
    assert_eq!(
        (heard.result["kind"].as_str(), heard.text.contains("Away")),
        (Some("question"), false)
    );
}

/// Whoever has opted out hears nothing but help, the way back, and what to do
/// in danger; what they report is still stored, and their coach still told.
#[test]
fn silence_is_kept_save_for_danger() {
    let mut talk = gone();
    for text in ["200 test 3:12", "plan", "next", "hello", "qwerty", "undo", "why", "", "no"] {
        assert_eq!(talk.hears("heron", text).text, "", "{text}");
    }
    let heard = talk.hears("heron", "felt dizzy, chest pain");
    assert!(!heard.text.is_empty() && heard.to_others[0].0 == COACH);
    for text in ["200 test 3:12", "plan", "hello", "qwerty", "no", "squad", ""] {
        assert_eq!(stranger(text, true).1, "", "{text}");
    }
    assert!(!stranger("chest pain", true).1.is_empty());
}

/// A coach who has opted out is not told, and the swimmer learns that.
#[test]
fn an_alarm_that_reaches_no_coach_says_so() {
    let mut talk = Talk::of_grown_ups();
    talk.hears("coach", "stop");
    let heard = talk.hears("heron", "felt dizzy");
    assert_eq!(heard.to_others, []);
    assert!(heard.text.contains("takes no texts: tell"), "{}", heard.text);
    talk.hears("coach", "start");
    let heard = talk.hears("teal", "felt dizzy");
    assert_eq!(heard.to_others.len(), 1);
    assert!(!heard.text.contains("takes no texts"), "{}", heard.text);
}
