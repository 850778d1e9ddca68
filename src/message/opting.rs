//! The words that stop, restart and explain a service: the whole text must be
//! one of them, so that "had to stop at 6" unsubscribes nobody.
//!
//! Looked at before the grammar, for strangers too.

use super::normal::plain;

/// Source: 47 CFR 64.1200(a)(10) (stop, quit, end, revoke, opt out, cancel,
/// unsubscribe) and the keyword lists that carriers publish.
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
const HELP: [&str; 5] = ["help", "info", "aide", "ayuda", "?"];

/// True if the whole text asks for no more messages.
///
/// ```
/// use lapwing::message::is_opt_out;
/// assert!(is_opt_out(" Stop please! "));
/// assert!(!is_opt_out("had to stop at 6"));
/// ```
pub fn is_opt_out(text: &str) -> bool {
    OUT.contains(&bare(text).as_str())
}

/// True if the whole text asks for messages again.
pub fn is_opt_in(text: &str) -> bool {
    IN.contains(&bare(text).as_str())
}

/// True if the whole text asks what this is.
pub fn is_help(text: &str) -> bool {
    HELP.contains(&bare(text).as_str())
}

/// Lower case, single spaces, no punctuation behind, no `please`; nothing for a
/// text too long to be one of the words.
fn bare(text: &str) -> String {
    const LONGEST: usize = 60;
    let text = text.trim();
    if text.len() > LONGEST {
        return String::new();
    }
    let text = plain(text).text.to_lowercase();
    let words: Vec<&str> = text
        .trim_matches(['"', '\''])
        .split_whitespace()
        .map(|word| word.trim_end_matches(|c: char| c.is_ascii_punctuation() && c != '?'))
        .filter(|word| !word.is_empty())
        .collect();
    let text = words.join(" ");
    let polite = |text: &str| -> Option<usize> {
        [" please", " pls", " por favor"]
            .iter()
            .find_map(|end| text.strip_suffix(end))
            .map(str::len)
    };
    let text = text.strip_prefix("please ").unwrap_or(&text);
    text[..polite(text).unwrap_or(text.len())].to_owned()
}
