//! What a word's neighbours change: orders that people mix (`20s rest`), words
//! with two meanings (`in`, `left`, `no`), and commas inside lists.
//!
//! Each pass goes over the tokens once, so the whole stays linear.

use super::Token;
use super::ailing::parted;
use super::everyday::everyday;
use super::limits::limits;
use super::own_targets::own_targets;

/// Puts the tokens into the grammar's order.
pub fn settle(tokens: Vec<Token>) -> Vec<Token> {
    let passes: [fn(Vec<Token>) -> Vec<Token>; 12] = [
        limits,
        own_targets,
        join_dates,
        swap_orders,
        parted,
        everyday,
        settle_small_words,
        settle_statements,
        settle_brackets,
        settle_colons,
        drop_list_commas,
        tidy_commas,
    ];
    passes.into_iter().fold(tokens, |tokens, pass| pass(tokens))
}

/// True for what parts statements.
pub(super) fn is_break(text: &str) -> bool {
    matches!(text, "," | ";")
}

pub(super) fn is_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

fn is_weekday(text: &str) -> bool {
    matches!(text, "mon" | "tue" | "wed" | "thu" | "fri" | "sat" | "sun")
}

fn is_month(text: &str) -> bool {
    matches!(
        text,
        "jan"
            | "feb"
            | "mar"
            | "apr"
            | "may"
            | "jun"
            | "jul"
            | "aug"
            | "sep"
            | "oct"
            | "nov"
            | "dec"
    )
}

pub(super) fn is_day(text: &str) -> bool {
    is_weekday(text)
        || matches!(text, "today" | "yesterday" | "tomorrow")
        || text.starts_with("last-")
        || (text.len() > 3
            && text.is_char_boundary(text.len() - 3)
            && is_digits(&text[..text.len() - 3])
            && is_month(&text[text.len() - 3..]))
        || text.split('/').count() > 1 && text.split('/').all(is_digits)
        || text.len() == 10 && text.split('-').count() == 3 && text.split('-').all(is_digits)
}

fn is_equipment(text: &str) -> bool {
    matches!(text, "fins" | "paddles" | "buoy" | "board" | "snorkel")
}

fn is_course(text: &str) -> bool {
    matches!(text, "25m" | "50m" | "25yd" | "pool-25m" | "pool-50m" | "pool-25yd")
}

/// True if a statement has but a day so far.
fn is_lone_day(out: &[Token]) -> bool {
    match out {
        [day] => is_day(&day.text),
        [.., before, day] => is_break(&before.text) && is_day(&day.text),
        [] => false,
    }
}

pub(super) fn is_name(text: &str) -> bool {
    text.starts_with(['@', '~'])
}

pub(super) fn is_figure(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_digit())
        && (is_digits(text)
            || text.contains([':', '.'])
            || text.strip_suffix('s').is_some_and(is_digits))
}

fn is_body(text: &str) -> bool {
    super::BODY.contains(&text) || text == "back"
}

pub(super) fn is_distance(text: &str) -> bool {
    let digits = text.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    is_digits(digits) && matches!(&text[digits.len()..], "" | "m" | "yd" | "s")
}

pub(super) fn is_repeat(text: &str) -> bool {
    text.split_once('x').is_some_and(|(count, far)| {
        is_digits(count) && far.starts_with(|c: char| c.is_ascii_digit())
    })
}

/// Minutes without their unit: `12` of `12` and of `12min`.
pub(super) fn minutes(text: &str) -> Option<&str> {
    let digits = text.strip_suffix("min").unwrap_or(text);
    is_digits(digits).then_some(digits)
}

/// `20 dec`, `dec 20`, `last tue`, `t 30`, `level 3`, `25m pool`
fn join_dates(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut rest = tokens.into_iter().peekable();
    while let Some(token) = rest.next() {
        let next = rest.peek().map(|next| next.text.clone()).unwrap_or_default();
        let small = |text: &str| is_digits(text) && text.len() <= 2;
        let joined = if small(&token.text) && is_month(&next) {
            Some(vec![format!("{}{next}", token.text)])
        } else if is_month(&token.text) && small(&next) {
            Some(vec![format!("{next}{}", token.text)])
        } else if token.text == "1" && next == "mile" {
            Some(vec!["mile".to_owned()])
        } else if token.text == "last" && is_weekday(&next) {
            Some(vec![format!("last-{next}")])
        } else if token.text == "~t" && is_digits(&next) {
            Some(vec![format!("{next}min"), "test".to_owned()])
        } else if token.text == "(level)" {
            level(&next).map(|name| vec![name.to_owned()])
        } else if matches!(token.text.as_str(), "25m" | "50m" | "25yd") && next == "pool" {
            Some(vec![format!("pool-{}", token.text)])
        } else {
            None
        };
        match joined {
            Some(texts) => {
                let to = rest.next().map_or(token.to, |next| next.to);
                out.extend(texts.into_iter().map(|text| Token { text, to, ..token.clone() }));
            }
            None => out.push(token),
        }
    }
    out
}

fn is_level(text: &str) -> bool {
    matches!(text, "easy" | "steady" | "threshold" | "hard" | "sprint")
}

fn level(number: &str) -> Option<&'static str> {
    match number {
        "1" => Some("easy"),
        "2" => Some("steady"),
        "3" => Some("threshold"),
        "4" => Some("hard"),
        "5" => Some("sprint"),
        _ => None,
    }
}

/// `20s rest` to `rest 20s`, `1-4 descend` to `descend 1-4`, `10 late` to
/// `late 10`.
fn swap_orders(mut tokens: Vec<Token>) -> Vec<Token> {
    for at in 1..tokens.len() {
        let follows = |at: usize| tokens.get(at + 1).map_or("", |next| next.text.as_str());
        let before = tokens[at - 1].text.as_str();
        let has_own = is_figure(follows(at)) || minutes(follows(at)).is_some();
        let taken = at >= 2
            && matches!(
                tokens[at - 2].text.as_str(),
                "rest" | "on" | "(off)" | "target" | "hr" | "strokes" | "rpe" | "avg"
            );
        let swap = match tokens[at].text.as_str() {
            "rest" => is_figure(before) && !has_own && !taken,
            "descend" | "ascend" => before.starts_with("1-") && !follows(at).starts_with("1-"),
            "lanes" => is_digits(before) && !has_own,
            "late" => minutes(before).is_some() && !has_own,
            "left" => minutes(before).is_some() && !has_own,
            "(side)" => {
                minutes(before).is_some()
                    && !is_body(follows(at))
                    && !has_own
                    && tokens[at].is_typed_left
            }
            "strokes" | "hr" => is_digits(before) && !has_own && !taken,
            "lengths" => is_digits(before) && !is_digits(follows(at)),
            // `ritmo de 200`
            text if before == "pace" => {
                is_distance(text)
                    && at >= 2
                    && matches!(tokens[at - 2].text.as_str(), "target" | "on" | "(at)")
            }
            _ => false,
        };
        if swap {
            if matches!(tokens[at].text.as_str(), "late" | "left" | "(side)") {
                if let Some(number) = minutes(before).map(str::to_owned) {
                    tokens[at - 1].text = number;
                }
                if tokens[at].text == "(side)" {
                    tokens[at].text = "left".to_owned();
                }
            }
            tokens.swap(at - 1, at);
        }
    }
    tokens
}

/// `in`, `at`, `on`, `left`, `last`, `no`, `next`, by what follows.
fn settle_small_words(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut made_of = false;
    let mut invites = false;
    let mut seen_repeat = false;
    for at in 0..tokens.len() {
        let mut token = tokens[at].clone();
        seen_repeat |= is_repeat(&token.text);
        let next = tokens.get(at + 1).map_or(",", |next| next.text.as_str());
        let after_next = tokens.get(at + 2).map_or(",", |next| next.text.as_str());
        let starts = out.last().is_none_or(|last: &Token| is_break(&last.text));
        let after_name = match out.as_slice() {
            [name] => is_name(&name.text),
            [.., before, name] => is_break(&before.text) && is_name(&name.text),
            [] => false,
        };
        match token.text.as_str() {
            "(in)"
                if (starts || after_name) && (is_break(next) || is_day(next) || next == "late") =>
            {
                token.text = "in".to_owned();
            }
            "(in)" if out.last().is_some_and(|last| last.text == "language") => {
                token.text = "en".to_owned();
            }
            "on" | "(at)" if is_distance(next) && after_next == "pace" => {
                token.text = "target".to_owned();
            }
            "on" if is_level(next) => continue,
            "pace" if out.last().is_some_and(|last| is_level(&last.text)) => continue,
            // `thu at 50m`: a night in another pool.
            "(at)" if is_course(next) && is_lone_day(&out) => {
                let at = out.len() - 1;
                out.insert(at, Token { text: "slot".to_owned(), ..out[at].clone() });
                continue;
            }
            "(at)" if is_figure(next) => token.text = "on".to_owned(),
            // `6x50 1:15 all 46`
            "all" if is_figure(next) && seen_repeat => token.text = "avg".to_owned(),
            text if is_figure(text)
                && matches!(next, "avg" | "held" | "made" | "all")
                && out.last().is_some_and(|last| is_repeat(&last.text)) =>
            {
                let on = Token { text: "on".to_owned(), to: token.from, ..token.clone() };
                out.push(on);
            }
            "(plus)" => {
                let alone = tokens.len() == 1;
                token.text = if alone { "more" } else { "," }.to_owned();
            }
            "on" if is_day(next) && !is_digits(next) => continue,
            "(of)" if is_digits(next) && out.last().is_some_and(|last| is_digits(&last.text)) => {
                made_of = true;
                continue;
            }
            text if made_of && is_digits(text) => {
                made_of = false;
                if let Some(made) = out.last_mut() {
                    made.text = format!("{}/{text}", made.text);
                    made.to = token.to;
                }
                continue;
            }
            "(in)" | "(at)" | "(side)" | "(of)" | "(set)" => continue,
            "target" if starts && (is_name(next) || matches!(next, "easy" | "normal" | "hard")) => {
                token.text = "hold".to_owned();
            }
            "times" if is_figure(next) && seen_repeat => {
                token.text = "held".to_owned();
            }
            "no" if is_equipment(next) => token.text = "without".to_owned(),
            "next" if is_weekday(next) => continue,
            // Not a result's or a cry's first word: `add 200 test 3:12`.
            "add" if starts && (is_distance(next) || matches!(next, "test" | "done")) => continue,
            "add" | "remove" if !starts => token.text.insert(0, '~'),
            "claim" | "invite" if !starts => token.text.insert(0, '~'),
            "leave" if !(starts || after_name) || !is_break(next) => token.text.insert(0, '~'),
            "hand-over" if !starts || !is_name(next) => token.text = "hand".to_owned(),
            "co-coach" | "assistant" | "guardian" | "officer" if !invites => {
                token.text.insert(0, '~');
            }
            "invite" => invites = true,
            "(level)" | "last" | "rounds" => token.text = format!("?{}", token.text),
            text => {
                if let Some((score, "10")) = text.split_once('/') {
                    let rated = out.last().is_some_and(|last| last.text == "rpe");
                    if rated {
                        token.text = score.to_owned();
                    }
                }
            }
        }
        let comma_after_no = token.text == ","
            && out.last().is_some_and(|last| last.text == "no")
            && is_figure(next)
            && is_break(after_next);
        if !comma_after_no {
            out.push(token);
        }
    }
    out
}

/// Words whose meaning hangs on the statement they stand in.
fn settle_statements(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    for statement in tokens.split_inclusive(|token| is_break(&token.text)) {
        let verb = statement.iter().map(|token| token.text.as_str()).find(|text| !is_name(text));
        let has_figure =
            statement.iter().any(|token| is_figure(&token.text) || is_repeat(&token.text));
        let mut planned = false;
        let words = statement.iter().filter(|token| !is_break(&token.text)).count();
        let named = statement.iter().filter(|token| is_name(&token.text) || token.text == ":");
        let said = words.saturating_sub(named.count()) > 1;
        for (at, token) in statement.iter().enumerate() {
            let mut token = token.clone();
            let ends = at + 1 == words;
            match (verb, token.text.as_str()) {
                (Some("plan"), "plan") if planned => continue,
                (Some("plan"), "plan") => planned = true,
                (Some("plan"), "x" | "days") => token.text = "times".to_owned(),
                // `days mon wed 45min`
                (Some("days"), text) if text.ends_with("min") && minutes(text).is_some() => {
                    let sign = |text: &str| Token {
                        text: text.to_owned(),
                        to: token.from,
                        ..token.clone()
                    };
                    out.extend([sign(","), sign("minutes")]);
                }
                // A board is kit, unless it is all that is asked for.
                (Some("board"), "board") if ends && !said => token.text = "squad-board".to_owned(),
                (Some("squad"), "pain") => token.text = "hurt".to_owned(),
                (Some(verb), "best") if verb != "best" && has_figure => continue,
                // `can't make it, sorry`
                (Some(verb), "fix") if verb != "fix" && ends => continue,
                _ => {}
            }
            out.push(token);
        }
    }
    out
}

/// `3 rounds (…)` to `3x( … )`; other brackets are read over.
fn settle_brackets(tokens: Vec<Token>) -> Vec<Token> {
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
fn settle_colons(tokens: Vec<Token>) -> Vec<Token> {
    let next_is_name = |at: usize| tokens.get(at + 1).is_some_and(|next| is_name(&next.text));
    let after_list_word = |at: usize| {
        at > 0
            && matches!(
                tokens[at - 1].text.as_str(),
                "here" | "absent" | "compare" | "apart" | "together" | "fix"
            )
    };
    let keeps = |at: usize| tokens[at].text != ":" || (next_is_name(at) && !after_list_word(at));
    let mut kept: Vec<Token> =
        (0..tokens.len()).filter(|&at| keeps(at)).map(|at| tokens[at].clone()).collect();
    if kept.iter().any(|token| token.text == ":") {
        // In a list of names a semicolon parts no more than a comma.
        kept.iter_mut().filter(|t| t.text == ";").for_each(|t| t.text = ",".to_owned());
    }
    kept
}

/// In a list after its keyword a comma says nothing: `here heron, teal`.
fn drop_list_commas(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut list: Option<fn(&str) -> bool> = None;
    for at in 0..tokens.len() {
        let token = &tokens[at];
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
fn tidy_commas(tokens: Vec<Token>) -> Vec<Token> {
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
