//! Why a set is changed, which changes nothing of how: `, we always run over`, `que cierran
//! antes`.

use crate::message::Day;
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Piece};

/// Marks what stands behind the change, from a place on, as why it is made: behind a mark or
/// a word that gives reasons, and without a figure, a lane or a person that it could be about.
pub fn reasons(c: &Clause<'_, '_>, candidate: &mut Candidate, from: usize) {
    let opens = |piece: &Piece<'_>| {
        piece.is_apart()
            || [Concept::Because, Concept::That, Concept::They, Concept::We, Concept::It]
                .iter()
                .any(|one| piece.means(*one))
            || matches!(piece.text, "were" | "as" | "since")
    };
    let tail = c.pieces.part(from.min(c.len()), c.len());
    let Some(begins) = tail.iter().position(opens) else { return };
    let about = |piece: &Piece<'_>| match piece.item {
        Item::Figure(Figure::Whole { value, .. }) => value > 12,
        Item::Figure(_)
        | Item::Far(_)
        | Item::Repeat(..)
        | Item::Plural(_)
        | Item::Each(_)
        | Item::Range(..)
        | Item::OfAll(..)
        | Item::Lanes(_)
        | Item::Person(_)
        | Item::Marked(_)
        | Item::Mark('?') => true,
        _ => piece.is_of_health() || piece.means(Concept::Undo),
    };
    if !tail[begins..].iter().any(about) {
        candidate.used[from + begins..].fill(true);
    }
}

/// True where a day other than today stands before a place: what is told is of that.
pub fn of_another_day(c: &Clause<'_, '_>, before: usize) -> bool {
    c.pieces[..before.min(c.len())].iter().any(|piece| match piece.item {
        Item::Day(named) => c.coming(named).is_some_and(|day| {
            day != Day::Today && c.date_of(day).is_none_or(|date| date != c.sit.today)
        }),
        _ => false,
    })
}
