//! What a text that is asked about may say otherwise, so that one question settles both.

use super::decide::{Decision, ails, stores};
use super::frame::{Candidate, Clause};
use super::gist::{Gist, gists};
use super::likely::Class;
use super::rank::{Ranked, candidates};
use crate::message::{Doubt, Kind, Statement};

/// Letters that two readings may have to be asked about in one text message.
const LONGEST: usize = 90;

/// How likely what a text tells must be to be asked about in place of what a frame misses.
const INSTEAD: f32 = 0.3;

/// What is asked in place of a frame's question, beside the rest that `waits`: where that can
/// be answered by no word, what the words make likely; where it is whether one reading is
/// meant, which of two.
pub fn instead(
    about: &Doubt,
    options: &[(String, Vec<Statement>)],
    waits: &[Statement],
    whole: &Clause<'_, '_>,
) -> Option<Decision> {
    let with_rest = |says: Vec<Statement>| [waits.to_vec(), says].concat();
    let fits = |one: &Gist| one.says.iter().any(|one| stores(&one.kind));
    match (about, options) {
        (_, []) => {
            let likely = gists(whole).into_iter().filter(|one| one.odds >= INSTEAD);
            // What ails somebody is read by frames, and waits for no answer.
            let without_ails = likely.map(|mut one| {
                one.says.retain(|one| !ails(one));
                one
            });
            let first = without_ails.into_iter().find(fits)?;
            Some(Decision::ask_whether(with_rest(first.says)))
        }
        (Doubt::Meant { .. }, [(_, says)]) => {
            let second = otherwise(says, None, whole)?;
            Some(Decision::ask_which(says.clone(), with_rest(second)))
        }
        _ => None,
    }
}

/// How likely the words must make what a text may say otherwise.
const OTHERWISE: f32 = 0.25;

/// The same of all that a text tells.
const GIST: f32 = 0.05;

/// True of a second reading that can be asked about beside the first in one text message, and
/// says something else: not only less of the same, or the same in more words.
pub fn is_another(says: &[Statement], other: &[Statement]) -> bool {
    let written = |says: &[Statement]| -> Vec<String> {
        says.iter().map(|one| bare(one).to_string()).collect()
    };
    let (says, other) = (written(says), written(other));
    let short = says.iter().chain(&other).map(String::len).sum::<usize>() <= LONGEST;
    let known = |one: &String| says.iter().any(|said| said.starts_with(one.as_str()));
    short && !other.iter().all(known)
}

/// A statement without what the set in force says anyway.
fn bare(one: &Statement) -> Statement {
    let mut one = one.clone();
    if let Kind::SetResult(set) = &mut one.kind {
        (set.target, set.send_off, set.stroke) = (None, None, None);
        // All of them is as many as there were.
        if set.made == Some(set.count) {
            set.of = None;
        }
    }
    one
}

/// What a text may say otherwise, that one question settles both: what its words and figures
/// come to in whatever order, else the next best of what the frames make of all of it.
pub fn otherwise(
    says: &[Statement],
    ranked: Option<&Ranked>,
    whole: &Clause<'_, '_>,
) -> Option<Vec<Statement>> {
    let another = |other: &Vec<Statement>| {
        let ill = |says: &[Statement]| {
            let ill: Vec<_> = says.iter().filter(|one| ails(one)).cloned().collect();
            ill
        };
        // What ails somebody is no matter of choice.
        let open = |one: &Statement| matches!(one.kind, Kind::Ask(_) | Kind::Tonight);
        let fits = !other.iter().any(open) && ill(other) == ill(says);
        fits && is_another(says, other)
    };
    let likely = |one: &Candidate| {
        let odds = |one: &Statement| Class::of(&one.kind).map(|class| whole.likely.of(class));
        one.asks.is_none()
            && one.says.iter().any(|one| stores(&one.kind))
            && one.says.iter().all(|one| odds(one).is_some_and(|odds| odds >= OTHERWISE))
            && !ranked.is_some_and(|it| it.parts.iter().any(|part| part.says == one.says))
    };
    let gists = gists(whole).into_iter().filter(|one| one.odds >= GIST).map(|one| one.says);
    gists.into_iter().find(another).or_else(|| {
        let others = candidates(whole).into_iter().filter(likely);
        let best = others.min_by(|one, other| one.cost.total_cmp(&other.cost))?;
        Some(best.says).filter(another)
    })
}
