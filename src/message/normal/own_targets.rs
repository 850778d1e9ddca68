//! A coach's own targets, as people put them: `heron target 50 46`, `targets from
//! test`. Only where the text says nothing else.

use super::Token;
use super::kinds::{is_distance, is_figure, is_name};

/// `~heron target 50 46` as `~heron own-target 50 46`, `targets from test` as
/// `own-target no`; any other text as it is.
pub fn own_targets(tokens: Vec<Token>) -> Vec<Token> {
    rewritten(&tokens).unwrap_or(tokens)
}

fn rewritten(tokens: &[Token]) -> Option<Vec<Token>> {
    // `heron target 50 46` or `target heron 50 46`.
    let (at, verb) = tokens.iter().take(2).enumerate().find(|(_, token)| is_verb(token))?;
    let named = match at {
        1 => tokens.first(),
        _ => tokens.get(1).filter(|token| is_name(&token.text) && !fills(token)),
    };
    if at == 1 && !named.is_some_and(|token| is_name(&token.text)) {
        return None;
    }
    let behind = at + 1 + usize::from(at == 0 && named.is_some());
    let said: Vec<&Token> = tokens
        .get(behind..)?
        .iter()
        .filter(|token| !matches!(token.text.as_str(), "," | ":"))
        .collect();
    let holds: Vec<Token> = match said.as_slice() {
        [words @ .., last] if is_back_to_test(words, last) => {
            vec![Token { text: "no".to_owned(), ..(*last).clone() }]
        }
        said => paired(said, verb.text == "targets")?,
    };
    let verb = Token { text: "own-target".to_owned(), ..verb.clone() };
    Some(named.into_iter().cloned().chain([verb]).chain(holds).collect())
}

fn is_verb(token: &Token) -> bool {
    matches!(token.text.as_str(), "target" | "targets")
}

/// `from test`, `as tested`, `test`, `off`.
fn is_back_to_test(words: &[&Token], last: &Token) -> bool {
    words.iter().all(|word| fills(word))
        && match last.text.as_str() {
            "test" => true,
            "(off)" | "no" => words.is_empty(),
            _ => false,
        }
}

fn fills(token: &Token) -> bool {
    matches!(token.text.as_str(), "~from" | "~as" | "~by" | "~the")
}

/// `50 46 100 1:34`: each distance with its time. After `targets` a figure that
/// is whole lengths is no time: `targets 50 100` asks for two.
fn paired(said: &[&Token], asks: bool) -> Option<Vec<Token>> {
    let said: Vec<&Token> = said.iter().copied().filter(|token| !is_between(token)).collect();
    let is_pair = |pair: &[&Token]| match pair {
        [far, time] => each(&far.text).is_some_and(|far| is_time(&time.text, far, asks)),
        _ => false,
    };
    if said.is_empty() || !said.chunks(2).all(is_pair) {
        return None;
    }
    let one = |token: &&Token| {
        let text = each(&token.text).unwrap_or(&token.text);
        Token { text: text.to_owned(), ..(*token).clone() }
    };
    Some(said.iter().map(one).collect())
}

/// A figure with a colon or a point; a bare number where it is fewer seconds than
/// the distance has metres, which nobody asks targets for in that order.
fn is_time(text: &str, far: &str, asks: bool) -> bool {
    let whole = |text: &str| text.parse::<u32>().ok();
    let far = whole(far.trim_end_matches(|c: char| c.is_ascii_alphabetic()));
    is_figure(text)
        && !text.ends_with('s')
        && match whole(text) {
            None => true,
            Some(seconds) if asks => !seconds.is_multiple_of(25),
            Some(seconds) => !seconds.is_multiple_of(25) || far >= Some(seconds),
        }
}

/// What may stand between a distance and its time: `50s in 46`, `for 50s: 46`.
fn is_between(token: &Token) -> bool {
    matches!(token.text.as_str(), "(in)" | "(at)" | "on" | "~for" | "hold" | "target")
}

/// `50`, `50s`, `50m` as the grammar writes them.
fn each(text: &str) -> Option<&str> {
    let bare = text.strip_suffix('s').unwrap_or(text);
    is_distance(bare).then_some(bare)
}
