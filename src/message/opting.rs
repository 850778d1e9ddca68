//! The words that stop, restart and explain a service: the whole text must be
//! one of them, so that "had to stop at 6" unsubscribes nobody.
//!
//! Looked at before the grammar, for strangers too.

use super::normal::{folded, plain};
use super::{Day, Kind, Reading, parse};
use crate::language::Language;

/// Source: 47 CFR 64.1200(a)(10) (stop, quit, end, revoke, opt out, cancel,
/// unsubscribe) and the keyword lists that carriers and messaging services
/// publish; the Spanish ones are common practice, no source.
const OUT: [&str; 16] = [
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
    "td",
    "baja",
    "parar",
];
const IN: [&str; 4] = ["start", "unstop", "alta", "empezar"];
/// These opt in where no question is open that they could answer.
const YES: [&str; 2] = ["yes", "si"];
/// The safe word: somebody worries, and need not say about what. Ours.
const WORRIED: [&str; 6] =
    ["worried", "im worried", "i am worried", "preocupado", "preocupada", "me preocupa"];
const HELP: [&str; 5] = ["help", "info", "aide", "ayuda", "?"];

/// Words of a length of time, and days in it.
const SPANS: [(&str, u16); 16] = [
    ("d", 1),
    ("day", 1),
    ("days", 1),
    ("dia", 1),
    ("dias", 1),
    ("w", 7),
    ("wk", 7),
    ("wks", 7),
    ("week", 7),
    ("weeks", 7),
    ("semana", 7),
    ("semanas", 7),
    ("month", 30),
    ("months", 30),
    ("mes", 30),
    ("meses", 30),
];
const NUMBERS: [(&str, u16); 12] = [
    ("a", 1),
    ("an", 1),
    ("one", 1),
    ("two", 2),
    ("three", 3),
    ("four", 4),
    ("six", 6),
    ("un", 1),
    ("una", 1),
    ("dos", 2),
    ("tres", 3),
    ("cuatro", 4),
];

/// The longest pause, in days: whoever stops for longer is away.
const LONGEST_PAUSE: u16 = 366;

/// How long someone stops for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pause {
    /// So many days from today.
    Days(u16),
    /// Until this day.
    Until(Day),
}

/// True if the whole text asks for no more messages.
///
/// ```
/// use lapwing::message::is_opt_out;
/// assert!(is_opt_out(" Stop please! "));
/// assert!(!is_opt_out("had to stop at 6"));
/// ```
pub fn is_opt_out(text: &str) -> bool {
    is_one_of(text, &OUT)
}

/// True if the whole text asks for messages again.
pub fn is_opt_in(text: &str) -> bool {
    is_one_of(text, &IN)
}

/// True if the whole text is a yes, which asks for messages again where nothing
/// else was asked.
pub fn is_yes(text: &str) -> bool {
    is_one_of(text, &YES)
}

/// The pause that a text asks for which begins with a word of stopping:
/// `stop for 2 weeks`, `stop until 20/11`.
///
/// ```
/// use lapwing::language::Language;
/// use lapwing::message::{Pause, pause};
/// assert_eq!(pause("STOP for 2 wks!", Language::English), Some(Pause::Days(14)));
/// assert_eq!(pause("stop the set", Language::English), None);
/// ```
pub fn pause(text: &str, language: Language) -> Option<Pause> {
    if !may_begin(text, &OUT) {
        return None;
    }
    let text = bare(text);
    let rest = OUT.iter().find_map(|word| text.strip_prefix(word)?.strip_prefix(' '))?;
    for word in ["until ", "till ", "til ", "hasta "] {
        if let Some(day) = rest.strip_prefix(word) {
            return until(day, language);
        }
    }
    let rest = ["for ", "por ", "durante "].iter().find_map(|word| rest.strip_prefix(word));
    let (number, span) = rest?.split_once(' ')?;
    let count = NUMBERS.iter().find(|(word, _)| *word == number).map(|(_, count)| *count);
    let count = count.or_else(|| number.parse().ok())?;
    let days = SPANS.iter().find(|(word, _)| *word == span).map(|(_, days)| *days)?;
    let days = count.checked_mul(days)?;
    (1..=LONGEST_PAUSE).contains(&days).then_some(Pause::Days(days))
}

fn until(day: &str, language: Language) -> Option<Pause> {
    match parse::parse(&format!("away until {day}"), language) {
        Reading::Understood(message) => match message.statements.as_slice() {
            [one] => match one.kind {
                Kind::Away { until, .. } => Some(Pause::Until(until)),
                _ => None,
            },
            _ => None,
        },
        _ => None,
    }
}

/// True if the whole text is the safe word, by which the welfare officer alone is
/// told that somebody wrote.
///
/// ```
/// use lapwing::message::is_worried;
/// assert!(is_worried("Worried."));
/// assert!(!is_worried("worried about my turns"));
/// ```
pub fn is_worried(text: &str) -> bool {
    is_one_of(text, &WORRIED)
}

/// True if the whole text asks what this is.
pub fn is_help(text: &str) -> bool {
    is_one_of(text, &HELP)
}

/// True if the whole text is one of these words, none of which has a figure in it.
fn is_one_of(text: &str, words: &[&str]) -> bool {
    !text.bytes().any(|byte| byte.is_ascii_digit()) && words.contains(&bare(text).as_str())
}

/// False where the first letter says that, made [`bare`], a text begins with none of these
/// words.
fn may_begin(text: &str, words: &[&str]) -> bool {
    let first = text.chars().find(|c| !c.is_whitespace() && !is_quote(*c));
    // `please` is left out; and what is no ASCII may become anything.
    first.is_none_or(|first| {
        let first = first.to_ascii_lowercase();
        !first.is_ascii_alphanumeric()
            || first == 'p'
            || words.iter().any(|word| word.starts_with(first))
    })
}

/// Without case, accents and apostrophes, with single spaces, no punctuation round a word, no
/// `please`; nothing for a text too long to be one of the words.
fn bare(text: &str) -> String {
    const LONGEST: usize = 60;
    let text = text.trim();
    if text.len() > LONGEST {
        return String::new();
    }
    let typed = folded(&plain(text).text);
    let mut text = String::with_capacity(typed.len());
    for word in typed.split_whitespace() {
        let word = word.trim_start_matches(is_quote).trim_end_matches(is_behind);
        if !text.is_empty() && !word.is_empty() {
            text.push(' ');
        }
        text.push_str(word);
    }
    let polite = |text: &str| -> Option<usize> {
        [" please", " pls", " por favor"]
            .iter()
            .find_map(|end| text.strip_suffix(end))
            .map(str::len)
    };
    let text = text.strip_prefix("please ").unwrap_or(&text);
    text[..polite(text).unwrap_or(text.len())].to_owned()
}

fn is_quote(c: char) -> bool {
    matches!(c, '"' | '\'' | '(' | '[' | '<' | '*' | '\u{ab}' | '\u{bf}' | '\u{a1}' | '\u{2039}')
}

/// What may stand behind a word: all punctuation but what a text is by itself.
fn is_behind(c: char) -> bool {
    (c.is_ascii_punctuation() && c != '?') || matches!(c, '\u{bb}' | '\u{203a}' | '\u{2026}')
}
