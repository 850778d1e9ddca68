//! Nothing of anybody's health, absence, age or care is said in a group chat,
//! and nobody is named there: over a sample of every outcome, in every
//! language. Danger is answered aloud, without a name.

use lapwing::desk::part;
use lapwing::language::Language;
use lapwing::message::Name;
use lapwing::reply::{OkReply, Outcome, Voice, voice};
use serde_json::{Value, json};

use super::parts::name;
use super::samples::outcomes;

const NAMES: &[&str] = &["heron", "teal", "wren", "dunnock"];

/// Words of what is nobody else's business; all of them are said in private.
const PRIVATE: &[&str] = &[
    "pain",
    "duele",
    "dolor",
    "hurt",
    "ill",
    "fever",
    "enferm",
    "fiebre",
    "stopped",
    "pausa",
    "clinician",
    "médico",
    "medico",
    "release",
    "better",
    "born",
    "age",
    "años",
    "contact",
    "absent",
    "away",
    "fuera",
    "helpline",
    "weight",
    "peso",
    "midwife",
    "coach knows",
    "readiness",
    "gentle",
    "return",
    "vuelta suave",
    "raise",
    "lowered",
    "sore",
];

/// What any text in a room may hold beside that: first aid, and general care
/// for everyone.
fn is_general(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Caution(_) | Outcome::Help(_) => true,
        Outcome::Question(question) => question.asks == lapwing::reply::Asks::AnyDanger,
        _ => false,
    }
}

fn lines_aloud(
    outcome: &Outcome,
    read: &[Value],
    me: Option<&Name>,
    names: bool,
) -> Vec<(bool, String)> {
    let aloud = part(outcome, read, me, names).aloud;
    let of = |one: &Outcome, voice: Voice| -> Vec<(bool, String)> {
        let general = is_general(one);
        voice.lines(one).into_iter().map(|line| (general, line.to_lowercase())).collect()
    };
    Language::ALL
        .iter()
        .flat_map(|language| aloud.iter().flat_map(move |one| of(one, voice(*language))))
        .collect()
}

fn words(line: &str) -> impl Iterator<Item = &str> {
    line.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty())
}

#[test]
fn nobody_is_named_and_nothing_private_is_said() {
    let heron = name("heron");
    let heard = [(Some(&heron), false), (None, false), (Some(&heron), true), (None, true)];
    for (me, names) in heard {
        for (of, outcome) in outcomes() {
            // Where the coach lets the room hear it, lanes have names.
            let laned = |one: &Outcome| {
                matches!(
                    one,
                    Outcome::Lanes(_) | Outcome::Evening(_) | Outcome::Ok(OkReply::LanesChanged(_))
                )
            };
            let named = names && outcome.parts().iter().any(laned);
            for (general, line) in lines_aloud(&outcome, &[], me, names) {
                // In help a name is an example.
                let is_help = matches!(outcome, Outcome::Help(_)) || of.starts_with("refused");
                let is_help = is_help || named;
                for named in NAMES.iter().filter(|_| !is_help) {
                    assert!(words(&line).all(|word| word != *named), "{of}: {line}");
                }
                if general {
                    continue;
                }
                for private in PRIVATE {
                    let said = match private.contains(' ') {
                        true => line.contains(private),
                        false => words(&line).any(|word| word == *private),
                    };
                    assert!(!said, "`{private}` in {of}: {line}");
                }
            }
        }
    }
}

/// Whatever else it is: an answer to a text that names another is not for the
/// room, danger apart.
#[test]
fn what_names_another_is_for_the_sender_alone() {
    let heron = name("heron");
    let read = [json!({ "kind": "test", "who": "teal" })];
    for (of, outcome) in outcomes() {
        for one in part(&outcome, &read, Some(&heron), false).aloud {
            assert!(is_general(&one), "{of}: {one:?}");
        }
    }
}

/// Nothing is lost: what is not said aloud is said to the sender alone, and
/// danger is said aloud.
#[test]
fn nothing_is_lost_on_the_way() {
    let heron = name("heron");
    for (of, outcome) in outcomes() {
        for names in [false, true] {
            let parted = part(&outcome, &[], Some(&heron), names);
            assert!(!parted.aloud.is_empty() || !parted.aside.is_empty(), "{of}");
            let Outcome::Caution(caution) = &outcome else { continue };
            if caution.kind.is_danger() {
                assert!(matches!(parted.aloud.as_slice(), [Outcome::Caution(_)]), "{of}");
            }
        }
    }
}
