//! Which pieces a wish or a limit explains, and which tell of a result.

use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::Item;

pub fn uses(c: &Clause<'_, '_>, candidate: &mut Candidate, concepts: &[Concept]) {
    candidate.used.mark(c.pieces, |piece| concepts.iter().any(|one| piece.means(*one)));
}

pub fn results(c: &Clause<'_, '_>) -> bool {
    c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(..) | Item::Each(_) | Item::Far(_)) || matches!(piece.item, Item::Figure(figure) if figure.is_marked() || figure.whole().is_some_and(|value| value > 24)))
}
