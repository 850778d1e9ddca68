//! A list of names with no colon before it: `200 test heron 3:12 teal 2:58`,
//! `200s heron 312 teal 258`. The grammar reads such a list behind a colon.

use super::kinds::{is_break, is_digits, is_figure, is_name, is_repeat, is_weekday};
use super::{Normal, Token};

/// The text with a colon before its first name; `None` where it is no such
/// list. Whether anybody bears the names is not known here.
pub fn listed(tokens: &[Token]) -> Option<Normal> {
    let first = tokens.iter().position(|token| is_name(&token.text))?;
    let (shared, entries) = tokens.split_at(first);
    let entries = &swum(entries);
    if shared.is_empty() || !shared.iter().all(|token| tells_what(&token.text)) {
        return None;
    }
    let result_follows = |at: usize| entries.get(at + 1).is_some_and(|next| is_result(&next.text));
    let lists = entries.iter().enumerate().all(|(at, token)| match is_name(&token.text) {
        true => result_follows(at),
        false => token.text == "," || is_result(&token.text) || tells_what(&token.text),
    });
    if !lists {
        return None;
    }
    let mut all = each_of(shared);
    let at = entries.first()?;
    let sign = |text: &str| Token { text: text.to_owned(), to: at.from, ..at.clone() };
    if all.last().is_some_and(|last| is_break(&last.text) || last.text == ":") {
        all.pop();
    }
    all.push(sign(":"));
    all.extend_from_slice(entries);
    Some(Normal::of(all))
}

/// The entries without those who did not swim: `rail x`.
fn swum(entries: &[Token]) -> Vec<Token> {
    let mut kept: Vec<Token> = Vec::with_capacity(entries.len());
    for (at, token) in entries.iter().enumerate() {
        let next = entries.get(at + 1);
        let ends = next.is_none_or(|next| is_break(&next.text) || is_name(&next.text));
        match kept.last() {
            Some(last) if token.text == "x" && ends && is_name(&last.text) => {
                kept.pop();
                while kept.last().is_some_and(|last| is_break(&last.text)) {
                    kept.pop();
                }
            }
            None if is_break(&token.text) => {}
            _ => kept.push(token.clone()),
        }
    }
    kept
}

/// `200s` before names is a test of 200; all else stays as it is.
fn each_of(shared: &[Token]) -> Vec<Token> {
    let far = |text: &str| {
        text.strip_suffix('s')
            .and_then(|far| far.parse::<u32>().ok())
            .filter(|far| *far > 0 && far.is_multiple_of(25))
    };
    match shared {
        [only] | [only, _] if far(&only.text).is_some() => {
            let far = far(&only.text).unwrap_or_default().to_string();
            let token = |text: &str| Token { text: text.to_owned(), ..only.clone() };
            let mut all = vec![token(&far), token("test")];
            all.extend(shared.iter().skip(1).cloned());
            all
        }
        _ => shared.to_vec(),
    }
}

/// What may stand before the names and hold for all.
fn tells_what(text: &str) -> bool {
    const WORDS: [&str; 27] = [
        "test",
        "done",
        "meet",
        "push",
        "dive",
        "water",
        "free",
        "back",
        "breast",
        "fly",
        "im",
        "kick",
        "pull",
        "drill",
        "choice",
        "on",
        "rest",
        "target",
        "fins",
        "paddles",
        "buoy",
        "board",
        "snorkel",
        "today",
        "yesterday",
        ":",
        ",",
    ];
    let measured = |unit: &str| text.strip_suffix(unit).is_some_and(is_digits);
    WORDS.contains(&text)
        || is_figure(text)
        || is_repeat(text)
        || ["m", "yd", "min"].into_iter().any(measured)
        || text.starts_with("pool-")
        || text.starts_with("last-")
        || is_weekday(text)
}

fn is_result(text: &str) -> bool {
    is_figure(text) || matches!(text, "x" | "took" | "held" | "avg" | "made" | "splits" | "rpe")
}
