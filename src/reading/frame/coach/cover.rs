//! Who takes an evening in the coach's place: nothing to plan by, and something that the squad
//! should hear.

use crate::message::{Kind, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::mood;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::Role;

/// `tern is taking it tonight`, `magpie will cover both`: asks whether to tell all of them.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let figures = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Figure(_) | Item::Far(_) | Item::Repeat(..) | Item::Each(_))
    };
    if c.sit.role != Role::Coach || mood::is_question(c) || c.pieces.iter().any(figures) {
        return vec![];
    }
    let Some(verb) = (0..c.len()).find(|at| covers(c, *at)) else { return vec![] };
    let helps = [Concept::Is, Concept::Will, Concept::Can, Concept::Aux, Concept::AuxBe];
    let before = (0..verb)
        .rev()
        .find(|at| !helps.iter().any(|one| c.pieces[*at].means(*one)))
        .is_some_and(|at| is_somebody(&c.pieces[at]));
    // `hoy da la clase mi hermano`
    let behind = c.sit.language == crate::language::Language::Spanish
        && c.pieces[verb + 1..].iter().take(2).any(is_somebody);
    let Some(text) = (before || behind).then(|| c.typed(0, c.len()).to_owned()) else {
        return vec![];
    };
    let mut candidate = Candidate::new("cover", c.len());
    candidate.used.fill(true);
    let says = vec![Statement { who: None, kind: Kind::Tell { text } }];
    vec![candidate.asking_whether(says).at_cost(0.5)]
}

/// `cover`, `taking it`, `takes the session`
fn covers(c: &Clause<'_, '_>, at: usize) -> bool {
    let takes = matches!(c.pieces[at].text, "taking" | "takes" | "take");
    let what = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Day(_))
            || [Concept::It, Concept::Session, Concept::Squad].iter().any(|one| piece.means(*one))
    };
    let article = |piece: &&Piece<'_>| piece.means(Concept::Article) || piece.means(Concept::My);
    let object = c.pieces[at + 1..].iter().find(|piece| !article(piece));
    let easy = c.pieces[at + 1..].iter().take(2).any(|piece| piece.level().is_some());
    c.pieces[at].means(Concept::Cover) || takes && object.is_some_and(what) && !easy
}

/// A name, known or not.
fn is_somebody(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Person(_) | Item::Marked(_) | Item::Chatter | Item::Unknown)
}
