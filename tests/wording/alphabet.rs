//! Every reply stays in the SMS alphabet, and what must be read at once fits one
//! part.

use lapwing::language::Language;
use lapwing::message::Danger;
use lapwing::reply::{Alphabet, CautionKind, CautionReply, Outcome, alphabet, segments, voice};

use super::said;
use super::samples::outcomes;

/// Source of the alphabet: 3GPP TS 23.038, 6.2.1.
#[test]
fn no_language_leaves_the_sms_alphabet() {
    for said in said::all() {
        for line in &said.lines {
            assert_eq!(alphabet(line), Alphabet::Gsm7, "{}, {}: {line}", said.of, said.language);
        }
    }
}

/// What to do comes first and whole; an acknowledgement is one part.
#[test]
fn cautions_begin_with_one_part_and_acknowledgements_are_one() {
    let said = said::all();
    for (of, outcome) in outcomes() {
        for said in said.iter().filter(|said| said.of == of) {
            let text = match outcome {
                Outcome::Caution(_) => said.lines[0].clone(),
                Outcome::Ok(_) if said.lines.len() == 1 => said.lines[0].clone(),
                _ => continue,
            };
            // All settings at once are more than anyone changes in one text.
            let most = if text.contains("1981") { 2 } else { 1 };
            assert!(segments(&text).len() <= most, "{}: {text}", said.language);
        }
    }
}

/// A first act is in the first of several parts whole, where the number to call is
/// known; where it isn't, in one part. Source of 153: 3GPP TS 23.040, 9.2.3.24.1
/// (seven of 160 septets go to the heading of each part).
#[test]
fn first_acts_are_in_the_first_part() {
    const FIRST_OF_SEVERAL: usize = 153;
    let about = |kind: CautionKind| CautionReply { kind, about: None };
    let named = Some("999".to_owned());
    for language in Language::ALL {
        for danger in Danger::ALL {
            for call in [named.clone(), None] {
                let most = if call.is_some() { FIRST_OF_SEVERAL } else { 160 };
                for kind in [
                    CautionKind::Danger { danger, call: call.clone() },
                    CautionKind::Beside { danger, unnamed: true, call: call.clone() },
                ] {
                    let lines = voice(language).lines(&Outcome::Caution(about(kind)));
                    let first = &lines[0];
                    assert!(first.chars().count() <= most, "{language}, {danger:?}: {first}");
                    assert!(call.is_none() || first.contains("999"), "no number: {first}");
                }
            }
        }
    }
}

/// As much is told in each language, and no sentence of one is left in another.
#[test]
fn languages_tell_the_same_in_other_words() {
    for told in said::all().chunks(Language::ALL.len()) {
        let (one, others) = told.split_first().unwrap();
        for other in others {
            assert_eq!(one.lines.len(), other.lines.len(), "{}", one.of);
            for (line, counterpart) in one.lines.iter().zip(&other.lines) {
                let sentence = line.split(' ').count() > 4;
                assert!(!sentence || line != counterpart, "{}: {line}", one.of);
            }
        }
    }
}
