//! What was said taken back: the last text, somebody's result, all that is kept of one.

use super::clue::{figures, is_denied};
use crate::message::Kind;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::{Clause, mood};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Role;
use crate::units::Stroke;

/// `delete all my data`: asked about before it is done.
pub fn all_data(c: &Clause<'_, '_>) -> Option<Candidate> {
    const LONGEST: usize = 14;
    let strikes = c.has_any(&[Concept::Undo, Concept::Strike]);
    if !strikes || !c.has(Concept::Data) || c.len() > LONGEST || !figures(c).is_empty() {
        return None;
    }
    let mut candidate = Candidate::new("forget", c.len());
    candidate.used.fill(true);
    Some(candidate.says(Kind::Forget).at_cost(0.3))
}

/// A coach's `delete rook's, false start so doesn't count`: the latest of one who is named.
pub fn struck(c: &Clause<'_, '_>) -> Option<Candidate> {
    const LONGEST: usize = 12;
    let [one] = c.people()[..] else { return None };
    let begins = mood::opening(c);
    let is_strike = |piece: &Piece<'_>| piece.means(Concept::Strike) || piece.means(Concept::Undo);
    // `kite's was with fins so it doesn't count`
    let void = (0..c.len()).any(|at| is_strike(&c.pieces[at]) && is_void(c, at));
    let strikes = c.at(begins).is_some_and(is_strike) || void;
    let known = c.sit.people.get(one)?;
    let whose = c.pieces.iter().any(|piece| {
        let plural = piece.text.strip_suffix('s') == Some(known.name.as_str());
        piece.item == Item::Person(one) && (piece.possessive || plural)
    });
    let theirs = whose || c.has_any(&[Concept::Refers, Concept::Test]);
    // `she stopped at 150` is no time of theirs.
    let timed = figures(c).iter().any(|(_, figure)| {
        c.time(*figure, c.sit.tested.unwrap_or(200), Stroke::Free, Some(known)).is_some()
    });
    if !strikes || !theirs || c.len() > LONGEST || timed || mood::is_question(c) {
        return None;
    }
    let mut candidate = Candidate::new("undo", c.len());
    candidate.used.fill(true);
    Some(candidate.says_of(c.name(one), Kind::Undo).at_cost(0.4))
}

/// `sorry that was teal's time`, `that wasn't mine, it was teal's`, of a swimmer who speaks
/// for no other: not theirs.
pub fn of_another(c: &Clause<'_, '_>) -> Option<Candidate> {
    const LONGEST: usize = 14;
    let [other] = c.people()[..] else { return None };
    let owned = c.pieces.iter().enumerate().any(|(at, piece)| {
        let of = at > 0 && c.at(at - 1).is_some_and(|before| before.means(Concept::Of));
        piece.item == Item::Person(other) && (piece.possessive || of)
    });
    let swum = c.sit.before.iter().any(|said| said.kind.is_swum());
    let not_mine = c.has_any(&[Concept::Not, Concept::Didnt]) && c.has(Concept::My);
    let put_right =
        (c.has(Concept::Sorry) || not_mine) && figures(c).is_empty() && c.len() <= LONGEST;
    let mine = c.sit.role == Role::Swimmer && Some(other) != c.sit.me;
    if !(mine && owned && swum && put_right) {
        return None;
    }
    let mut candidate = Candidate::new("undo", c.len());
    candidate.used.fill(true);
    Some(candidate.says(Kind::Undo).at_cost(0.3))
}

/// `doesn't count`, `no cuenta`, whose subject stands before it.
fn is_void(c: &Clause<'_, '_>, at: usize) -> bool {
    let typed = c.typed(at, at + 1).to_lowercase();
    typed.ends_with("count") || typed.contains("cuenta") || typed.contains("vale")
}

/// True of a text that takes back what was said last, and says nothing in its place: why
/// may stand beside it.
pub fn takes_back(c: &Clause<'_, '_>) -> bool {
    const LONGEST: usize = 20;
    let swum = c.sit.before.iter().any(|said| said.kind.is_swum());
    let kept = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Figure(figure) if is_value(figure))
            || matches!(
                piece.item,
                Item::Each(_) | Item::Repeat(..) | Item::Day(_) | Item::Far(_) | Item::Plural(_)
            )
    });
    let only = c.sit.role == Role::Swimmer || c.people().is_empty();
    // `ignore robin` is of robin.
    let theirs = taking_back(c).is_none_or(|at| is_of_somebody(c, at));
    swum && only && !kept && c.len() <= LONGEST && !theirs
}

/// The word that takes back; `that was with paddles so dont count it` does, behind a swim.
fn taking_back(c: &Clause<'_, '_>) -> Option<usize> {
    let void = |at: &usize| c.pieces[*at].means(Concept::Strike) && is_void(c, *at);
    c.find(Concept::Undo).or_else(|| (0..c.len()).find(void))
}

/// True where the word that takes back is of somebody who is named behind it.
fn is_of_somebody(c: &Clause<'_, '_>, at: usize) -> bool {
    c.at(at + 1).is_some_and(|next| matches!(next.item, Item::Person(_)))
}

/// A figure that may be a time, and no number of something.
fn is_value(figure: Figure) -> bool {
    figure.is_marked() || figure.whole().is_none_or(|value| value >= 25)
}

/// True where the figures are those that were told, and nothing else: `scrap the 3:14`.
fn names_what_was_told(c: &Clause<'_, '_>) -> bool {
    let told = |figure: Figure| {
        c.sit.before.iter().any(|said| match &said.kind {
            Kind::Test(test) => {
                figure.times().iter().any(|time| test.time.readings.contains(time))
                    || figure.whole() == Some(test.distance.amount)
            }
            _ => false,
        })
    };
    let figures = figures(c);
    let timed = figures.iter().any(|(_, figure)| figure.whole().is_none());
    // `scratch that it was 50 free` says something else.
    timed && figures.iter().all(|(at, figure)| told(*figure) || is_denied(c, *at))
}

/// `ignore that`, `delete that, they were my mates times`.
pub fn undone(c: &Clause<'_, '_>) -> Option<Candidate> {
    let reason = takes_back(c);
    let at = c.find(Concept::Undo).or_else(|| taking_back(c).filter(|_| reason))?;
    // `déjalo como está`: nothing is taken back.
    if c.at(at + 1).is_some_and(|next| matches!(next.text, "como" | "asi")) {
        return None;
    }
    let next = c.all.get(c.offset + at + 1);
    if next.is_some_and(|next| matches!(next.item, Item::Person(_))) {
        return None;
    }
    let figures = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Figure(figure) if is_value(figure))
            || matches!(piece.item, Item::Each(_))
    });
    let known = names_what_was_told(c);
    let open = figures && !c.sit.before.is_empty() && !known;
    if open || !c.people().is_empty() && !reason && !known {
        return None;
    }
    let mut candidate = Candidate::new("undo", c.len());
    candidate.used[at] = true;
    if reason || known {
        // Why says nothing to be kept; what ails somebody is.
        candidate.used.mark(c.pieces, |piece| !piece.is_of_health());
    }
    Some(candidate.says(Kind::Undo).at_cost(0.3))
}
