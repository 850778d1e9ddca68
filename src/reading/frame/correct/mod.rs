//! What was said last, put right: by the field that is named, or taken back.

mod changed;
mod clue;
mod named;
mod place;
mod repeats;
mod taken_back;
mod timed;
mod ways;

use super::Clause;
use super::candidate::Candidate;
use crate::message::{Kind, Statement};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::Role;
use changed::changed_kind;
use clue::{figures, kit, lasted, mark, yards};
use named::{of_coach, of_day, of_record};
use taken_back::{all_data, of_another, struck, takes_back, undone};

/// Reads a stretch as a correction of what the sender said last.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if let Some(all) = all_data(c) {
        return vec![all];
    }
    if c.sit.role == Role::Coach
        && let Some(fixed) = of_record(c).or_else(|| of_coach(c)).or_else(|| struck(c))
    {
        return vec![fixed];
    }
    if super::mood::is_question(c) {
        return vec![];
    }
    if let Some(undone) = undone(c) {
        return vec![undone];
    }
    // Why it is taken back puts nothing right: `that was with fins. scrap it`.
    if takes_back(&c.whole()) {
        return vec![];
    }
    if let Some(fixed) = of_record(c).or_else(|| of_day(c)).or_else(|| of_another(c)) {
        return vec![fixed];
    }
    if let Some(anew) = ways::of_away(c) {
        return vec![anew];
    }
    let before = &c.sit.before;
    let loose = loosely(c);
    let evoked = c.has_any(&[Concept::Sorry, Concept::Instead, Concept::Not])
        || starts_with_star(c)
        || refers(c)
        || kit(c).is_some()
        || yards(c)
        || lasted(c)
        || c.has(Concept::Splits)
        || of_set(c) && place::names_repeats(c)
        || ways::names_a_field(c);
    if before.is_empty() || !evoked && c.len() > 6 {
        return loose.into_iter().collect();
    }
    let cost = if evoked { 0.2 } else { 1.2 };
    let mut read = Vec::from_iter(loose);
    for (changed, said) in before.iter().enumerate().rev() {
        let mut candidate = Candidate::new("correct", c.len());
        mark(c, &mut candidate);
        let Some(kind) = changed_kind(c, &said.kind, &mut candidate) else { continue };
        excuse(c, &mut candidate);
        let mut says = before.clone();
        if let Some(one) = says.get_mut(changed) {
            one.kind = kind;
        }
        read.push(candidate.says(Kind::Restate { says, changed }).at_cost(cost));
        break;
    }
    read
}

/// `corrijo prom 48.8, el último fue 52`, `it was seven, my daughter counted`: a whole text
/// that a figure of the last statement could be put right by, whatever else it says. It is
/// asked about.
fn loosely(c: &Clause<'_, '_>) -> Option<Candidate> {
    const LONGEST: usize = 14;
    let [said] = c.sit.before.as_slice() else { return None };
    let whole = c.len() == c.all.len() && c.len() <= LONGEST;
    let others = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Repeat(..) | Item::Far(_) | Item::Person(_) | Item::Lanes(_))
            || [Concept::Pain, Concept::Test].iter().any(|one| piece.means(*one))
    });
    if !whole || others || !figures(c).iter().any(|(_, figure)| figure.whole() != Some(0)) {
        return None;
    }
    let mut candidate = Candidate::new("correct", c.len());
    let kind = changed_kind(c, &said.kind, &mut candidate)?;
    candidate.used.mark(c.pieces, |piece| {
        !matches!(piece.item, Item::Figure(_) | Item::Each(_))
            || piece.text.chars().all(char::is_alphabetic)
    });
    let says = vec![Statement { who: said.who.clone(), kind }];
    let restated = Statement { who: None, kind: Kind::Restate { says, changed: 0 } };
    Some(candidate.asking_whether(vec![restated]).at_cost(1.4))
}

/// True behind the times of a set.
fn of_set(c: &Clause<'_, '_>) -> bool {
    let timed = |said: &Statement| match &said.kind {
        Kind::SetResult(set) => !set.times.is_empty(),
        _ => false,
    };
    c.sit.before.iter().any(timed)
}

fn starts_with_star(c: &Clause<'_, '_>) -> bool {
    let star = |piece: &Piece<'_>| piece.item == Item::Mark('*');
    c.pieces.first().is_some_and(star) || c.pieces.last().is_some_and(star)
}

/// `that was …`, `it was …`, `last one was …`: about what was just said.
fn refers(c: &Clause<'_, '_>) -> bool {
    let first = super::mood::opening(c);
    c.at(first).is_some_and(|piece| piece.means(Concept::Refers))
        || c.has(Concept::Last) && c.len() <= 8
}

/// `7.15 sorry typing w one hand`: beside the word that puts a figure right, why it was
/// wrong says nothing more.
fn excuse(c: &Clause<'_, '_>, candidate: &mut Candidate) {
    let by_figure = figures(c).iter().any(|(figure, _)| {
        let near = figure.saturating_sub(3)..(figure + 4).min(c.len());
        c.pieces[near].iter().any(|piece| piece.means(Concept::Sorry))
    });
    if by_figure && c.len() <= 12 {
        candidate.used.mark(c.pieces, |piece| matches!(piece.item, Item::Chatter | Item::Unknown));
    }
}
