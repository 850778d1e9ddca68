//! Small words whose meaning hangs on what stands beside them: `in`, `at`, `on`, `no`, `all`.

use super::Token;
use super::kinds::{
    is_break, is_course, is_day, is_digits, is_distance, is_equipment, is_figure, is_level,
    is_name, is_repeat,
};

/// `in`, `at`, `on`, `left`, `last`, `no`, `next`, by what follows.
pub(super) fn settle_small_words(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut made_of = false;
    let mut invites = false;
    let mut seen_repeat = false;
    for (at, token) in tokens.iter().enumerate() {
        let mut token = token.clone();
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
                if let Some(day) = out.pop() {
                    out.push(Token { text: "slot".to_owned(), ..day.clone() });
                    out.push(day);
                }
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

/// True if a statement has but a day so far.
fn is_lone_day(out: &[Token]) -> bool {
    match out {
        [day] => is_day(&day.text),
        [.., before, day] => is_break(&before.text) && is_day(&day.text),
        [] => false,
    }
}
