//! What the cheapest division of a text says nothing of, and its words or whole stretches of
//! it do.

use super::frame::{Candidate, Clause};
use super::likely::Class;
use super::rank::{Part, Ranked, candidates, is_long, part_of};
use super::related_kinds::{ails, counts, related};
use super::unexplained::{Unexplained, unexplained};
use crate::message::{Kind, Statement};

/// How likely the words must make what a reading says nothing of.
const SURE: f32 = 0.8;

/// What a figure risks at least where nothing explains it.
const FIGURE: f32 = 1.4;

/// Adds what a text's words leave no doubt of and its reading says nothing of: `4 hrs
/// sleep, still coming`, `cramps are bad, gonna skip tonight`. One frame may explain all the
/// words, and another too.
pub fn completed(whole: &Clause<'_, '_>, borders: &[usize], ranked: &mut Ranked) {
    let asks = ranked.parts.iter().any(|part| part.asks.is_some());
    let read = ranked.parts.iter().any(|part| part.frame.is_some());
    if is_long(whole, borders) || asks || !read {
        return;
    }
    for (class, odds) in whole.likely.ranked() {
        if odds < SURE {
            return;
        }
        let said = ranked.parts.iter().flat_map(|part| &part.says);
        let Some(kin) = related(class) else { continue };
        if said.filter_map(|one| Class::of(&one.kind)).any(|one| kin.contains(&one)) {
            continue;
        }
        let explained = ranked.used(whole.len(), |_, _| true);
        let figures = ranked.used(whole.len(), |part, at| {
            unexplained(&whole.pieces[at]).risk > FIGURE && part.says.iter().any(counts)
        });
        let stretches = borders
            .iter()
            .enumerate()
            .flat_map(|(place, from)| borders.iter().skip(place + 1).map(move |to| (*from, *to)));
        let parts = stretches.flat_map(|at| {
            let stretch = whole.part(at.0, at.1);
            let fits = |one: &Candidate| {
                let of_it = |one: &Statement| Class::of(&one.kind) == Some(class);
                one.asks.is_none()
                    && one.cost <= BESIDE
                    && !one.says.is_empty()
                    && one.says.iter().all(of_it)
            };
            let part = |one: Candidate| part_of(&stretch, Some(one), at);
            // No figure stands for two swims, or for a swim and an hour.
            let free = |part: &Part| {
                let mut used = (at.0..at.1).zip(&part.used);
                ails(class) || !used.any(|(at, used)| *used && figures[at])
            };
            let fit = candidates(&stretch).into_iter().filter(fits).map(part).filter(free);
            fit.collect::<Vec<_>>()
        });
        let best = parts.min_by(|one, other| one.cost.total_cmp(&other.cost));
        ranked.parts.extend(best.map(|mut part| {
            part.left = Unexplained::default();
            for (at, used) in (part.at.0..part.at.1).zip(&part.used) {
                if !used && !explained[at] {
                    part.left += unexplained(&whole.pieces[at]);
                }
            }
            part
        }));
    }
}

/// What a stretch may cost that is read beside the best reading, as that explains nothing
/// of it.
const BESIDE: f32 = 1.1;

/// Adds what stands by itself in a text and no part explains a word of: `completed the
/// set. left shoulder a little sore`. A reading that passes over a few harmless words is
/// cheap, and yet they may say something.
pub fn overlooked(whole: &Clause<'_, '_>, borders: &[usize], ranked: &mut Ranked) {
    let told = ranked.parts.iter().any(|part| part.says.iter().any(|one| one.kind.is_swum()));
    if is_long(whole, borders) || told || ranked.parts.iter().any(|part| part.asks.is_some()) {
        return;
    }
    let explained = ranked.used(whole.len(), |_, _| true);
    let count = borders.len() - 1;
    let border = |place: usize| borders.get(place).copied().unwrap_or(whole.len());
    let free = |from: usize, to: usize| !explained[border(from)..border(to)].contains(&true);
    let mut from = 0;
    while from < count {
        let longest = (from + 1..=count).take_while(|to| free(from, *to)).last();
        let Some(longest) = longest.filter(|to| to - from < count) else {
            from += 1;
            continue;
        };
        let found = (from + 1..=longest).rev().find_map(|to| {
            let at = (border(from), border(to));
            let stretch = whole.part(at.0, at.1);
            let one = |candidate: Candidate| part_of(&stretch, Some(candidate), at);
            let parts = candidates(&stretch)
                .into_iter()
                .filter(|one| one.asks.is_none() && is_likely(&one.says, whole))
                .filter(|one| one.cost <= BESIDE)
                .map(one)
                .filter(|part| part.left.risk == 0.0 && part.left.cost < BESIDE);
            parts.min_by(|one, other| one.cost.total_cmp(&other.cost)).map(|part| (to, part))
        });
        match found {
            Some((to, part)) => {
                ranked.parts.push(part);
                from = to;
            }
            None => from += 1,
        }
    }
    ranked.parts.sort_by_key(|part| part.at);
}

/// How likely the words must make what is told of a swim, and who comes, to be kept beside
/// something else.
const SWUM: f32 = 0.12;
const COMING: f32 = 0.5;

/// True of what is told of a swim or of who comes, where the words of the text speak for it.
fn is_likely(says: &[Statement], whole: &Clause<'_, '_>) -> bool {
    let odds = |class: Class| whole.likely.of(class);
    let swum = odds(Class::Done).max(odds(Class::SetResult)).max(odds(Class::Test));
    let one = |one: &Statement| match &one.kind {
        Kind::Done(done) => done.sport.is_none() && swum > SWUM,
        Kind::SetResult(_) => swum > SWUM,
        Kind::Attend { .. } => odds(Class::Attend) > COMING,
        _ => false,
    };
    !says.is_empty() && says.iter().all(one)
}
