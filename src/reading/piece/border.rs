//! Where one statement of a text may end and the next begin.

use super::{Item, Pieces};
use crate::reading::lexicon::Concept;

/// Borders at which a text may be parted: behind sentences, commas and joining
/// words.
pub fn borders(pieces: Pieces<'_, '_>) -> Vec<usize> {
    let mut borders = vec![0];
    for (at, piece) in pieces.iter().enumerate() {
        let behind = matches!(
            piece.item,
            Item::Mark('.' | ',' | ';' | '!' | '?' | '(' | ')' | '\u{2026}')
                | Item::Line
                | Item::Picture
        );
        let joins = [Concept::And, Concept::But, Concept::Then];
        let before = joins.iter().any(|concept| piece.means(*concept))
            || matches!(piece.item, Item::Mark('+' | '&' | '-' | '/'))
            // `ill so im out`
            || piece.means(Concept::Because) && piece.means(Concept::Opener);
        if before && at > 0 {
            borders.push(at);
        }
        if behind {
            borders.push(at + 1);
        }
    }
    borders.push(pieces.len());
    borders.dedup();
    borders
}
