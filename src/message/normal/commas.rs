//! Brackets, colons and commas: which of them part statements, and which are read over.

use super::Token;
use super::kinds::{is_break, is_day, is_digits, is_distance, is_equipment, is_name, is_repeat};

/// `3 rounds (…)` to `3x( … )`; other brackets are read over.
pub(super) fn settle_brackets(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut open: Vec<bool> = Vec::new();
    let tells = |token: &Token| matches!(token.text.as_str(), "held" | "avg" | "made");
    let has_results = tokens.iter().any(tells);
    for mut token in tokens {
        match token.text.as_str() {
            // `2 rounds of 4x50 held …`: eight times.
            text if has_results && is_repeat(text) => {
                let rounds = match out.as_slice() {
                    [.., count, rounds] if rounds.text == "?rounds" => count.text.parse().ok(),
                    _ => None,
                };
                let product = rounds.and_then(|rounds: u32| {
                    let (count, far) = text.split_once('x')?;
                    Some(format!("{}x{far}", count.parse::<u32>().ok()?.checked_mul(rounds)?))
                });
                if let Some(product) = product {
                    token.text = product;
                    out.pop();
                    out.pop();
                }
            }
            "(" if out.last().is_some_and(|last| last.text == "?rounds") => {
                out.pop();
                match out.last_mut().filter(|last| is_digits(&last.text)) {
                    Some(count) => {
                        count.text.push_str("x(");
                        open.push(true);
                    }
                    None => open.push(false),
                }
                continue;
            }
            "(" => {
                open.push(false);
                continue;
            }
            ")" => {
                if open.pop() != Some(false) {
                    out.push(token);
                }
                continue;
            }
            text if text.ends_with("x(") => open.push(true),
            _ => {}
        }
        out.push(token);
    }
    out
}

/// A colon stays only where a list of names begins.
pub(super) fn settle_colons(tokens: Vec<Token>) -> Vec<Token> {
    let next_is_name = |at: usize| tokens.get(at + 1).is_some_and(|next| is_name(&next.text));
    let after_list_word = |at: usize| {
        let before = at.checked_sub(1).and_then(|before| tokens.get(before));
        before.is_some_and(|before| {
            matches!(
                before.text.as_str(),
                "here" | "absent" | "compare" | "apart" | "together" | "fix"
            )
        })
    };
    let keeps = |(at, token): &(usize, &Token)| {
        token.text != ":" || (next_is_name(*at) && !after_list_word(*at))
    };
    let kept = tokens.iter().enumerate().filter(keeps);
    let mut kept: Vec<Token> = kept.map(|(_, token)| token.clone()).collect();
    if kept.iter().any(|token| token.text == ":") {
        // In a list of names a semicolon parts no more than a comma.
        kept.iter_mut().filter(|t| t.text == ";").for_each(|t| t.text = ",".to_owned());
    }
    kept
}

/// In a list after its keyword a comma says nothing: `here heron, teal`.
pub(super) fn drop_list_commas(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut list: Option<fn(&str) -> bool> = None;
    for (at, token) in tokens.iter().enumerate() {
        let next = tokens.get(at + 1).map_or(",", |next| next.text.as_str());
        let after_next = tokens.get(at + 2).map_or(",", |next| next.text.as_str());
        list = match token.text.as_str() {
            "here" | "absent" | "compare" | "apart" | "together" => Some(is_name),
            "targets" => Some(is_distance),
            "swap" => Some(|text| is_day(text) || is_name(text)),
            "days" | "shut" => Some(is_day),
            "slot" => Some(is_day),
            "without" => Some(is_equipment),
            "," => list,
            text if list.is_some_and(|belongs| belongs(text)) => list,
            "but" | "all" => list,
            _ => None,
        };
        let last_belongs = out.last().zip(list).is_some_and(|(last, belongs)| {
            belongs(&last.text) || matches!(last.text.as_str(), "here" | "absent")
        });
        let between_kit =
            is_equipment(next) && out.last().is_some_and(|last| is_equipment(&last.text));
        if token.text == "," && between_kit {
            continue;
        }
        let drops = token.text == ","
            && last_belongs
            && list.is_some_and(|belongs| {
                // `slot tue and thu 8-9pm`: its days are followed by hours.
                let hours = is_day(next) && out.iter().any(|token| token.text == "slot");
                belongs(next) && (is_break(after_next) || belongs(after_next) || hours)
            });
        if !drops {
            if token.text == "," {
                list = None;
            }
            out.push(token.clone());
        }
    }
    out
}

/// One comma where several stood, none at the ends or beside brackets; a
/// semicolon goes before a comma.
pub(super) fn tidy_commas(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    for token in tokens {
        let idle = |last: &Token| {
            is_break(&last.text) || last.text.ends_with("x(") || last.text.ends_with(':')
        };
        // A part's name behind its swims ends them: `4x25 swim down, 200 easy`.
        let trails = matches!(out.as_slice(), [.., before, part]
            if part.text.ends_with(':') && !is_break(&before.text) && part.text != ":");
        if is_break(&token.text) && !trails && out.last().is_none_or(idle) {
            if let Some(last) = out.last_mut().filter(|last| last.text == ",") {
                last.text = token.text;
            }
            continue;
        }
        if token.text == ")" || token.text == ":" {
            while out.last().is_some_and(|last| is_break(&last.text)) {
                out.pop();
            }
        }
        out.push(token);
    }
    while out.last().is_some_and(|last| is_break(&last.text)) {
        out.pop();
    }
    out
}
