//! What frames words of danger: denied, long over, another's, played, supposed.

use super::rule::any;
use super::sign::{Sign, Signs};
use super::signs_in_text::Marked;
use crate::message::Whom;

/// What stands round some words that takes their weight away, or gives it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Context {
    /// Denied: `no chest pain`, `never fainted`.
    pub denied: bool,
    /// Long over: `years ago`, `when I was little`.
    pub over: bool,
    /// Seen or read: a film, the news.
    pub seen: bool,
    /// Played or taught: a course, a dummy.
    pub played: bool,
    /// Supposed: `if`, `in case`.
    pub supposed: bool,
    /// Of someone of the sender's family who isn't here: `dad had a stroke`.
    pub told: bool,
    /// The sender stands in the clause before it: `my chest`.
    pub own: bool,
    /// It is said to be now.
    pub now: bool,
}

/// How many words before the first a denial reaches.
const DENIES: usize = 5;

impl Context {
    /// That of the tokens at these places.
    pub fn of(marked: &Marked<'_, '_>, at: &[(usize, usize)]) -> Self {
        let from = at.iter().map(|(from, _)| *from).min().unwrap_or_default();
        let to = at.iter().map(|(_, to)| *to).max().unwrap_or_default();
        let (clause, _) = marked.clause_of(from);
        let (start, _) = marked.sentence_of(from);
        let (_, end) = marked.sentence_of(to.saturating_sub(1));
        let ago = distance(marked, start, end, (from, to), any!(LongAgo));
        let now = distance(marked, start, end, (from, to), any!(Now));
        let own = marked.any(clause, from + 1, any!(Me));
        Context {
            denied: is_denied(marked, clause, from),
            over: ago.is_some_and(|ago| now.is_none_or(|now| ago <= now))
                || is_of_a_year(marked, start, end),
            seen: marked.any(start, end, any!(Media)),
            played: marked.any(start, end, any!(Training)),
            supposed: marked.any(clause.max(from.saturating_sub(9)), from, any!(If)),
            told: is_told(marked, clause, to),
            own,
            // `mum had a stroke last night`: what was somebody else's is over since then.
            now: now.is_some() && (!is_told(marked, clause, to) || is_now(marked, start, end)),
        }
    }
}

/// How far the nearest mark of `signs` in a sentence stands from some tokens.
fn distance(
    marked: &Marked<'_, '_>,
    start: usize,
    end: usize,
    (from, to): (usize, usize),
    signs: Signs,
) -> Option<usize> {
    if !marked.all.meets(signs) {
        return None;
    }
    let far = |at: usize| if at >= to { at - to } else { from.saturating_sub(at) };
    marked
        .between(start, end)
        .filter(|mark| mark.signs.meets(signs))
        .map(|mark| far(mark.from))
        .min()
}

/// True where a sentence says that it is now, and not only that it was last night.
fn is_now(marked: &Marked<'_, '_>, start: usize, end: usize) -> bool {
    let mut now = marked.between(start, end).filter(|mark| mark.signs.has(Sign::Now));
    now.any(|mark| {
        marked.tokens_in(mark.from, mark.from + 1).iter().all(|first| first.text != "last")
    })
}

/// `in 1961`, `back in 2004`.
fn is_of_a_year(marked: &Marked<'_, '_>, start: usize, end: usize) -> bool {
    marked.tokens_in(start, end).array_windows().any(|[word, year]| {
        matches!(word.text, "in" | "since" | "en" | "of" | "del")
            && year.value().is_some_and(|value| (1900..2026).contains(&value))
    })
}

/// A negation that stands before the words in their clause, with no joining word
/// between them.
fn is_denied(marked: &Marked<'_, '_>, clause: usize, from: usize) -> bool {
    if !marked.all.has(Sign::Not) {
        return false;
    }
    for at in (clause.max(from.saturating_sub(DENIES))..from).rev() {
        let signs = marked
            .between(at, at + 1)
            .fold(Signs::NONE, |all, mark| if mark.to <= from { all.and(mark.signs) } else { all });
        if signs.has(Sign::Not) {
            return true;
        }
        if signs.has(Sign::And) {
            return false;
        }
    }
    false
}

/// `dad had a stroke`: told of someone who isn't here.
fn is_told(marked: &Marked<'_, '_>, clause: usize, to: usize) -> bool {
    marked
        .between(clause, to)
        .any(|kin| kin.signs.has(Sign::Kin) && marked.any(kin.to, to, any!(Had)) && kin.to <= to)
}

/// `with teal`: who else was there.
fn is_beside(marked: &Marked<'_, '_>, at: usize) -> bool {
    marked
        .before(at)
        .is_some_and(|before| matches!(before.text, "with" | "con" | "into" | "against" | "contra"))
}

/// Whom some words are about: the last person spoken of in their clause before
/// their end; else in the clause before.
pub fn whom(marked: &Marked<'_, '_>, (from, to): (usize, usize)) -> Whom {
    let (clause, clause_end) = marked.clause_of(from);
    let person = |from: usize, to: usize| {
        marked
            .between(from, to)
            .rfind(|mark| mark.signs.meets(any!(Me Other)) && mark.to <= to)
            .map(|mark| match mark.signs.has(Sign::Other) {
                true => Whom::Another,
                false => Whom::Sender,
            })
    };
    let (start, _) = marked.sentence_of(from);
    // `clashed heads with teal`: who else was there is not who is meant.
    let another_behind = || {
        let mut behind = marked.between(to, clause_end);
        behind
            .any(|mark| mark.signs.has(Sign::Other) && !is_beside(marked, mark.from))
            .then_some(Whom::Another)
    };
    person(clause, to)
        .or_else(another_behind)
        .or_else(|| person(start, clause))
        .or_else(|| person(0, start))
        .unwrap_or(Whom::Unsaid)
}
