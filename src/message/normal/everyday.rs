//! What people say at the poolside in another order than the grammar's: `heron
//! and teal lane 1`, `wren no show`, `2 on 1:20`.
//!
//! Knows words and their order within one statement, and nothing of who swims.

use super::kinds::{is_break, is_day, is_digits, is_figure, is_name, is_weekday, minutes};
use super::{BODY, Token};

/// Puts everyday orders into the grammar's, statement by statement.
pub fn everyday(tokens: Vec<Token>) -> Vec<Token> {
    let tokens = names_joined(tokens);
    let alone = !tokens.iter().any(|token| is_break(&token.text));
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    // Lone names, each with the comma behind it, that what follows may be said of too.
    let mut waiting: Vec<Token> = Vec::new();
    for statement in tokens.split_inclusive(|token| is_break(&token.text)) {
        let (mut said, sign) = match statement.split_last() {
            Some((sign, said)) if is_break(&sign.text) => (said.to_vec(), Some(sign.clone())),
            _ => (statement.to_vec(), None),
        };
        settle_move(&mut said);
        if matches!(said.as_slice(), [name] if is_name(&name.text))
            && sign.as_ref().is_some_and(|sign| sign.text == ",")
        {
            waiting.extend(said);
            waiting.extend(sign);
            continue;
        }
        let said = reordered(said, alone);
        out.extend(said_of_all(std::mem::take(&mut waiting), said));
        out.extend(sign);
    }
    out.extend(waiting);
    out
}

/// `snipe n plover`: between names a lone letter is "and".
fn names_joined(mut tokens: Vec<Token>) -> Vec<Token> {
    for at in 1..tokens.len().saturating_sub(1) {
        if let Some([before, joint, next]) = tokens.get_mut(at - 1..=at + 1)
            && (is_name(&before.text) && is_name(&next.text))
            && (joint.text == "no" && joint.to - joint.from == 1)
        {
            joint.text = ",".to_owned();
        }
    }
    tokens
}

/// One statement in the grammar's order; `alone` if there is no other.
fn reordered(mut said: Vec<Token>, alone: bool) -> Vec<Token> {
    drop_idle(&mut said);
    let texts: Vec<&str> = said.iter().map(|token| token.text.as_str()).collect();
    let names = texts.iter().take_while(|text| is_name(text)).count();
    let days = texts.iter().take_while(|text| is_day(text)).count();
    match texts.as_slice() {
        // `lane 2 do 6`
        ["lane", _, "(do)", count, ..] if is_digits(count) => reword(&mut said, 2, "make"),
        // `2 on 1.20`, and nothing more
        [lane, "on", send_off]
            if alone && lane.len() == 1 && is_digits(lane) && is_figure(send_off) =>
        {
            put(&mut said, 0, "lane", 0);
        }
        // `everyone on 2:30`, `all make 6`
        ["squad" | "all", "on" | "make", ..] => {
            reword(&mut said, 0, "lane");
            put(&mut said, 1, "all", 0);
        }
        // `last 5`, `we've got 8 minutes`
        ["last", left] if alone && minutes(left).is_some() => remaining(&mut said),
        ["(got)", left] if left.ends_with("min") => remaining(&mut said),
        ["left", left] if left.ends_with("min") => remaining(&mut said),
        // `yep coming tomorrow`, `no, can't make it` without its comma
        ["yes" | "no", "in" | "(in)" | "out" | "late", ..] => drop(said.remove(0)),
        // `in but 15 late`
        ["in" | "(in)", "but", "late", ..] => drop(said.drain(..2)),
        // `running 10 mins late`
        ["run", "late", _, ..] => drop(said.remove(0)),
        // `wren absent`, `heron no show`, `kite just arrived`
        [.., "absent" | "here"] if names > 0 && names + 1 == texts.len() => {
            said.rotate_right(1);
        }
        // `wren was here last night`
        [.., "absent" | "here", day] if names > 0 && names + 2 == texts.len() && is_day(day) => {
            let verb = said.remove(names);
            said.insert(0, verb);
        }
        // `tonight starts 2015`: that night alone; a weekday would be every week.
        [day, "~starts", at] if is_once(day) && is_figure(at) => {
            said.remove(1);
            put(&mut said, 0, "slot", 0);
        }
        // `rest heron`, `hold teal`: easy till I say.
        ["rest" | "target" | "hold", name] if alone && is_name(name) => {
            reword(&mut said, 0, "hold");
            put(&mut said, 2, "easy", 1);
        }
        // `heron was 3:21 not 3:12`
        [_, right, "~not", wrong] if names == 1 && is_figure(right) && is_figure(wrong) => {
            reword(&mut said, 2, "instead");
            put(&mut said, 0, "fix", 0);
        }
        // `shoulder fine now`
        [part, "better"] if BODY.contains(part) => drop(said.remove(0)),
        // `lane 3 200s 340 345 350`
        ["lane", _, far, results @ ..]
            if each_far(far).is_some()
                && !results.is_empty()
                && results
                    .iter()
                    .all(|one| *one == "x" || is_figure(one) && !one.ends_with('s')) =>
        {
            let far = each_far(far).unwrap_or_default();
            reword(&mut said, 2, &far);
            put(&mut said, 3, "test", 3);
        }
        // `wren late`: coming, nobody knows when.
        [_, "late"] if names == 1 => reword(&mut said, 1, "in"),
        // `heron left early` is no report of what they swam.
        [_, "short"] if names == 1 => reword(&mut said, 1, "?short"),
        // `thursday is off`, `thu cancelled`
        [.., "(off)" | "shut"] if days > 0 && days + 1 == texts.len() => {
            said.rotate_right(1);
            reword(&mut said, 0, "shut");
        }
        // `thu is on again`
        [.., "reopen"] if days > 0 && days + 1 == texts.len() => said.rotate_right(1),
        // `lane 3 gone`, `no lane 4 tonight`
        ["lane", lane, "(gone)" | "shut"]
        | ["no", "lane", lane]
        | ["no", "lane", lane, "today"]
            if is_digits(lane) =>
        {
            said.truncate(1);
            reword(&mut said, 0, "lane-gone");
        }
        ["lane-gone", "today"] => said.truncate(1),
        // `heron vs teal`
        [_, "compare", other] if names == 1 && is_name(other) => said.swap(0, 1),
        _ => {}
    }
    said.retain(|token| !matches!(token.text.as_str(), "(do)" | "(got)"));
    for token in &mut said {
        match token.text.as_str() {
            "(off)" => token.text = "on".to_owned(),
            "(gone)" => token.text = "?gone".to_owned(),
            _ => {}
        }
    }
    said
}

/// `move heron to lane 2` says no more than `heron lane 2`; without a lane it is
/// no statement of ours.
fn settle_move(said: &mut Vec<Token>) {
    let to_lane = said.iter().any(|token| token.text == "lane");
    match said.first() {
        Some(first) if first.text == "(move)" && to_lane => {
            said.remove(0);
        }
        _ => {}
    }
    let moves = said.iter_mut().filter(|token| token.text == "(move)");
    moves.for_each(|token| token.text = "?move".to_owned());
}

/// Small words that say nothing between a name and its lane.
fn drop_idle(said: &mut Vec<Token>) {
    for at in (1..said.len()).rev() {
        let is_idle = matches!(said.get(at - 1..), Some([name, idle, next, ..])
            if idle.text == "(in)" && next.text == "lane" && is_name(&name.text));
        if is_idle {
            said.remove(at);
        }
    }
}

/// `200s` before results is a test of 200; under 100 it may be a time.
fn each_far(text: &str) -> Option<String> {
    let far = text.strip_suffix('s')?;
    let swum = far.parse::<u32>().is_ok_and(|far| far >= 100 && far.is_multiple_of(25));
    swum.then(|| far.to_owned())
}

/// True for a day that comes but once.
fn is_once(text: &str) -> bool {
    is_day(text) && !is_weekday(text)
}

/// `[any word, 8min]` as minutes left.
fn remaining(said: &mut [Token]) {
    if let [verb, left] = said {
        verb.text = "left".to_owned();
        left.text = minutes(&left.text).unwrap_or_default().to_owned();
    }
}

/// What is said of the last of several names said of each of them:
/// `heron, teal lane 1`.
fn said_of_all(waiting: Vec<Token>, said: Vec<Token>) -> Vec<Token> {
    let lists = matches!(said.as_slice(), [verb, name, ..]
        if matches!(verb.text.as_str(), "here" | "absent") && is_name(&name.text));
    let shared = match said.as_slice() {
        [name, verb, ..] if is_name(&name.text) => {
            matches!(verb.text.as_str(), "lane" | "in" | "(in)" | "out" | "late")
        }
        _ => false,
    };
    if waiting.is_empty() || !(lists || shared) {
        return waiting.into_iter().chain(said).collect();
    }
    let names = waiting.iter().filter(|token| is_name(&token.text));
    if lists {
        let (verb, own) = said.split_at(1);
        return verb.iter().chain(names).chain(own).cloned().collect();
    }
    let mut all: Vec<Token> = Vec::new();
    for name in names {
        all.push(name.clone());
        all.extend(said.iter().skip(1).cloned());
        all.push(word(",", name));
    }
    all.extend(said);
    all
}

/// Another word in the place of one.
fn reword(said: &mut [Token], at: usize, text: &str) {
    if let Some(token) = said.get_mut(at) {
        token.text = text.to_owned();
    }
}

/// A word that nobody typed, put at a place; it stands where the one at `beside` does.
fn put(said: &mut Vec<Token>, at: usize, text: &str, beside: usize) {
    if let Some(beside) = said.get(beside) {
        said.insert(at, word(text, beside));
    }
}

/// A word that nobody typed, where `beside` stands.
fn word(text: &str, beside: &Token) -> Token {
    Token { text: text.to_owned(), to: beside.from, ..beside.clone() }
}
