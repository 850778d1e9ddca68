//! What somebody can't or may not do, as people put it: `heron no paddles`,
//! `no fly`, `paddles ok for all`. Only where the text says nothing else, so that
//! `next no fins` stays one session's wish.

use super::Token;
use super::kinds::is_name;

/// `~heron no paddles` as `~heron limit paddles`, `paddles yes` as
/// `allow paddles`; any other text as it is.
pub fn limits(tokens: Vec<Token>) -> Vec<Token> {
    rewritten(&tokens).unwrap_or(tokens)
}

fn rewritten(tokens: &[Token]) -> Option<Vec<Token>> {
    if tokens.first().is_some_and(|token| token.text == "next") {
        // `next, i have fins`: kit of that session alone.
        let end = tokens.iter().position(|token| token.text == ";").unwrap_or(tokens.len());
        let (wish, rest) = tokens.split_at_checked(end)?;
        let wish = wish.iter().filter(|token| token.text != "kit");
        return Some(wish.chain(rest).cloned().collect());
    }
    let named =
        tokens.first().filter(|first| is_name(&first.text) && !is_no(first) && tokens.len() > 1);
    // `cant do fly`, `no fins for me`: said of oneself all the same.
    let idle = |token: &&Token| !matches!(token.text.as_str(), "(do)" | "~me" | "me" | "~mi");
    let said = tokens.iter().skip(usize::from(named.is_some()));
    let said: Vec<Token> = said.filter(idle).cloned().collect();
    if said.first().is_some_and(|token| token.text == "kit") {
        // One list, whatever parts it.
        let listed = |token: &&Token| !matches!(token.text.as_str(), "," | ":");
        let of_kit = said.iter().filter(listed).skip(1).all(|token| is_limited(&token.text));
        return of_kit
            .then(|| named.into_iter().chain(said.iter().filter(listed)).cloned().collect());
    }
    let everyone = |token: &&Token| matches!(token.text.as_str(), "all" | "squad");
    let all = said.iter().find(everyone);
    let said: Vec<&Token> =
        said.iter().filter(|token| !everyone(token) && token.text != ",").collect();
    let (verb, what) = match said.as_slice() {
        [no, what @ ..] if is_no(no) => ("limit", what.to_vec()),
        [what @ .., ok] if matches!(ok.text.as_str(), "yes" | "again" | "better") => {
            ("allow", what.to_vec())
        }
        _ => return None,
    };
    let what: Vec<&Token> = what.into_iter().filter(|token| !is_no(token)).collect();
    if what.is_empty() || !what.iter().all(|token| is_limited(&token.text)) {
        return None;
    }
    let first = what.first()?;
    let verb = Token { text: verb.to_owned(), ..(*first).clone() };
    let mut out: Vec<Token> = named.into_iter().cloned().collect();
    out.push(verb);
    out.extend(all.map(|token| Token { text: "all".to_owned(), ..token.clone() }));
    out.extend(what.into_iter().cloned());
    Some(out)
}

fn is_no(token: &Token) -> bool {
    matches!(
        token.text.as_str(),
        "no" | "without" | "~cant" | "?can't" | "~cannot" | "~dont" | "?don't" | "~never"
    )
}

/// Backstroke is left out: `no back` may be of pain.
fn is_limited(text: &str) -> bool {
    matches!(
        text,
        "fins"
            | "paddles"
            | "buoy"
            | "board"
            | "snorkel"
            | "free"
            | "fly"
            | "breast"
            | "im"
            | "kick"
            | "breast-kick"
            | "dives"
            | "tumble-turns"
    )
}
