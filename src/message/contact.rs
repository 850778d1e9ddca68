//! Short texts about oneself that are read without the grammar: whom to call,
//! and an answer that is neither yes nor no.

use super::normal::{folded, plain};

/// What the text begins with, longest first.
const BEFORE: [&str; 6] =
    ["emergency contact", "ice contact", "contacto de emergencia", "contact", "contacto", "ice"];

/// Digits that make a telephone number (ITU-T E.164 has at most 15).
const DIGITS: std::ops::RangeInclusive<usize> = 5..=15;

/// Answers that are neither yes nor no.
const UNCLEAR: [&str; 17] = [
    "maybe",
    "perhaps",
    "not sure",
    "unsure",
    "dont know",
    "i dont know",
    "sometimes",
    "a bit",
    "a little",
    "i think so",
    "i think not",
    "prefer not to say",
    "skip",
    "no se",
    "quizas",
    "a veces",
    "depende",
];

/// The number in `contact +1 555 0123`; `None` for all other texts.
///
/// ```
/// use lapwing::message::contact;
/// assert_eq!(contact("Contact +1 555-0123"), Some("+1 555-0123".to_owned()));
/// assert_eq!(contact("contact my mum"), None);
/// assert_eq!(contact("ice bath 10"), None);
/// ```
pub fn contact(text: &str) -> Option<String> {
    let plain = plain(text).text;
    let plain = plain.trim();
    let number = BEFORE.iter().find_map(|word| {
        let rest = plain.get(word.len()..).filter(|_| {
            plain.get(..word.len()).is_some_and(|start| start.eq_ignore_ascii_case(word))
        })?;
        rest.starts_with([' ', ':']).then(|| rest.trim_start_matches([' ', ':']))
    })?;
    let is_number = |c: char| c.is_ascii_digit() || matches!(c, '+' | '-' | ' ' | '(' | ')' | '.');
    let digits = number.chars().filter(char::is_ascii_digit).count();
    (number.chars().all(is_number) && DIGITS.contains(&digits)).then(|| number.trim().to_owned())
}

/// True for an answer that is neither yes nor no.
pub fn is_unclear(text: &str) -> bool {
    let plain = plain(text).text;
    let word = folded(plain.trim_matches(|c: char| !c.is_alphabetic()));
    UNCLEAR.contains(&word.as_str())
}
