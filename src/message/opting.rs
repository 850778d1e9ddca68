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

/// Lower case, single spaces, no punctuation at the ends, no `please`.
fn bare(text: &str) -> String {
    // A whole-text match needs no more than this; it keeps long texts cheap.
    let start: String = text.chars().take(100).collect();
    let text = plain(&start).text.to_lowercase();
    let edge = |c: char| c.is_whitespace() || (c.is_ascii_punctuation() && c != '?');
    let text = text.trim_matches(edge).trim_end_matches(|c| c != '?' && edge(c));
    let words: Vec<&str> = text
        .split_whitespace()
        .map(|word| word.trim_matches(|c| c == '.' || c == '!' || c == ','))
        .filter(|word| !word.is_empty() && !matches!(*word, "please" | "pls" | "por" | "favor"))
        .collect();
    words.join(" ")
}
