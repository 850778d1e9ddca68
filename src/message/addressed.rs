//! Whether a text in a group chat is for us.
//!
//! Knows names and marks, and nothing of what the text asks.

use crate::reading::health::alarms;

/// Marks that chats put before a name, or round it.
const MARKS: [char; 8] = ['@', '*', '_', '<', '>', '#', '!', '`'];

/// What a text in a group chat is to us.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Addressed {
    /// Said to us: what it says, without our name.
    ToUs(String),
    /// Said to others, but it is about danger or harm and may not pass in
    /// silence.
    Overheard,
    /// Not for us.
    ToOthers,
}

/// Reads who a text is for: us if it begins with the name that we are called by
/// or holds it as a mention (`@lapwing`), in any case.
///
/// ```
/// use lapwing::message::{Addressed, addressed};
/// let ours = |text: &str| Addressed::ToUs(text.to_owned());
/// assert_eq!(addressed("@lapwing: 200 test 3:12", "lapwing"), ours("200 test 3:12"));
/// assert_eq!(addressed("next please @**Lapwing**", "lapwing"), ours("next please"));
/// assert_eq!(addressed("lapwings are birds", "lapwing"), Addressed::ToOthers);
/// assert_eq!(addressed("dunnock fainted", "lapwing"), Addressed::Overheard);
/// ```
pub fn addressed(text: &str, name: &str) -> Addressed {
    match without_name(text, name) {
        Some(rest) => Addressed::ToUs(rest),
        None if is_alarming(text) => Addressed::Overheard,
        None => Addressed::ToOthers,
    }
}

/// True for a text that may be no more than an answer: a yes, a no, a name.
pub fn is_bare_answer(text: &str) -> bool {
    const WORDS: usize = 3;
    (1..=WORDS).contains(&text.split_whitespace().count())
}

/// The text without our name, if it begins with it or holds it as a mention.
pub fn without_name(text: &str, name: &str) -> Option<String> {
    let bare = text.trim_start().trim_start_matches(MARKS);
    if let Some(rest) = after(bare, name) {
        return Some(rest.trim_start_matches([':', ',', '-', '.']).trim().to_owned());
    }
    let mention = text.match_indices('@').find_map(|(at, _)| {
        let rest = after(text[at..].trim_start_matches(MARKS), name)?;
        Some((at, rest))
    });
    let (at, rest) = mention?;
    let before = text[..at].trim_end();
    Some(format!("{before} {}", rest.trim_start()).trim().to_owned())
}

/// What follows a word at the beginning of a text, if the word ends there.
fn after<'a>(text: &'a str, word: &str) -> Option<&'a str> {
    if word.is_empty() {
        return None;
    }
    let head = text.get(..word.len())?;
    let rest = &text[word.len()..];
    let ends = !rest.starts_with(|c: char| c.is_alphanumeric() || c == '_' || c == '-');
    (head.eq_ignore_ascii_case(word) && ends).then(|| rest.trim_start_matches(MARKS))
}

/// A grave word in a harmless phrase alarms nobody who was not asked.
fn is_alarming(text: &str) -> bool {
    let alarms = alarms(text, &|_| false);
    alarms.harm.is_some() || alarms.danger.is_some_and(|danger| danger.sure)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn our_name_is_read_as_people_write_it() {
        for (text, said) in [
            ("lapwing", ""),
            ("Lapwing 200 test 3:12", "200 test 3:12"),
            ("LAPWING, next", "next"),
            ("@Lapwing next", "next"),
            ("@**Lapwing** next", "next"),
            ("<@lapwing> next", "next"),
            ("  lapwing:next", "next"),
            ("hey @lapwing next", "hey next"),
        ] {
            assert_eq!(without_name(text, "lapwing").as_deref(), Some(said), "{text}");
        }
        for text in ["", "the lapwing flies", "lapwings", "lapwing_2 next", "mail@lapwing.org", "é"]
        {
            let read = without_name(text, "lapwing");
            assert!(read.is_none() || text.contains('@'), "{text}: {read:?}");
        }
        assert_eq!(without_name("Bahnbot next", "Bahnbot").as_deref(), Some("next"));
        assert_eq!(without_name("next", ""), None);
    }

    #[test]
    fn danger_and_harm_are_heard_whoever_is_spoken_to() {
        for text in
            ["heron has chest pain", "feeling dizzy, back in a minute", "scared of my coach"]
        {
            assert_eq!(addressed(text, "lapwing"), Addressed::Overheard, "{text}");
        }
        for text in ["chest strap slipped", "see you tonight", "ill, not coming"] {
            assert_eq!(addressed(text, "lapwing"), Addressed::ToOthers, "{text}");
        }
    }
}
