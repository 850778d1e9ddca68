//! What a word's neighbours change: the passes in their order, orders that people mix
//! (`20s rest`), and words whose meaning hangs on their statement.
//!
//! Each pass goes over the tokens once, so the whole stays linear.

use super::Token;
use super::ailing::parted;
use super::commas::{drop_list_commas, settle_brackets, settle_colons, tidy_commas};
use super::everyday::everyday;
use super::kinds::{
    is_body, is_break, is_digits, is_distance, is_figure, is_month, is_name, is_repeat, is_weekday,
    level, minutes,
};
use super::limits::limits;
use super::own_targets::own_targets;
use super::small_words::settle_small_words;

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

/// `20s rest` to `rest 20s`, `1-4 descend` to `descend 1-4`, `10 late` to
/// `late 10`.
fn swap_orders(mut tokens: Vec<Token>) -> Vec<Token> {
    for at in 1..tokens.len() {
        let text_at = |at: Option<usize>| {
            at.and_then(|at| tokens.get(at)).map_or("", |token| token.text.as_str())
        };
        let Some((first, [second, ..])) = tokens.get(at - 1..).and_then(<[Token]>::split_first)
        else {
            break;
        };
        let (before, follows) = (first.text.as_str(), text_at(Some(at + 1)));
        let before_that = text_at(at.checked_sub(2));
        let has_own = is_figure(follows) || minutes(follows).is_some();
        let taken = matches!(
            before_that,
            "rest" | "on" | "(off)" | "target" | "hr" | "strokes" | "rpe" | "avg"
        );
        let swap = match second.text.as_str() {
            "rest" => is_figure(before) && !has_own && !taken,
            "descend" | "ascend" => before.starts_with("1-") && !follows.starts_with("1-"),
            "lanes" => is_digits(before) && !has_own,
            "late" => minutes(before).is_some() && !has_own,
            "left" => minutes(before).is_some() && !has_own,
            "(side)" => {
                minutes(before).is_some() && !is_body(follows) && !has_own && second.is_typed_left
            }
            "strokes" | "hr" => is_digits(before) && !has_own && !taken,
            "lengths" => is_digits(before) && !is_digits(follows),
            // `ritmo de 200`
            text if before == "pace" => {
                is_distance(text) && matches!(before_that, "target" | "on" | "(at)")
            }
            _ => false,
        };
        if swap && let Some([first, second]) = tokens.get_mut(at - 1..=at) {
            if matches!(second.text.as_str(), "late" | "left" | "(side)") {
                if let Some(number) = minutes(&first.text).map(str::to_owned) {
                    first.text = number;
                }
                if second.text == "(side)" {
                    second.text = "left".to_owned();
                }
            }
            std::mem::swap(first, second);
        }
    }
    tokens
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
