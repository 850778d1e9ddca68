//! The repeats that a stretch names, as `8x50`, `3 rounds of 4x50` or `the 100s`.

use crate::message::Length;
use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Piece};
use crate::units::Stroke;

/// Where the repeats that a text tells of are named.
#[derive(Debug, Clone, Copy)]
pub struct Named {
    /// How many, where that is said.
    pub count: Option<u32>,
    /// How far each.
    pub length: Length,
    /// The piece that names them.
    pub at: usize,
    /// Their stroke, where that is said.
    pub stroke: Option<Stroke>,
}

/// The repeats that a stretch names, as `8x50`, `3 rounds of 4x50` or `the 100s`.
pub fn named_sets(c: &Clause<'_, '_>) -> Vec<Named> {
    let rounds = c.pieces.array_windows::<2>().find_map(|pair| match (&pair[0].item, &pair[1]) {
        (Item::Figure(Figure::Whole { value, .. }), word) if word.means(Concept::Round) => {
            Some(*value)
        }
        _ => None,
    });
    let mut sets = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        match piece.item {
            Item::Repeat(count, far) => {
                let count = count * rounds.filter(|rounds| count * rounds <= 100).unwrap_or(1);
                let stroke = None;
                sets.extend(c.length(far).map(|length| Named {
                    count: Some(count),
                    length,
                    at,
                    stroke,
                }));
            }
            Item::Plural(value) => {
                let line = c.sit.set.as_ref().and_then(|set| set.main());
                // `50s` of a set of 50s names nothing new.
                let is_line = line.is_some_and(|line| line.distance == value);
                if !is_line && sets.is_empty() {
                    let length = Length { amount: value, unit: None };
                    sets.push(Named { count: None, length, at, stroke: None });
                }
            }
            _ => {}
        }
    }
    sets.sort_by_key(|set| set.count.is_none());
    if sets.is_empty() {
        sets.extend(broken(c));
    }
    sets
}

pub fn is_broken(piece: &Piece<'_>) -> bool {
    matches!(piece.text, "broken" | "roto" | "partido" | "partidos")
}

/// `broken 500 1:28 1:29 1:31 1:31 1:27 with 10 s rest`: as many parts as times.
fn broken(c: &Clause<'_, '_>) -> Option<Named> {
    let at = c.pieces.array_windows::<2>().position(|pair| {
        is_broken(&pair[0]) && matches!(pair[1].item, Item::Figure(_) | Item::Far(_))
    })? + 1;
    let whole = match c.pieces[at].item {
        Item::Figure(figure) => figure.whole()?,
        Item::Far(far) => c.length(far)?.amount,
        _ => return None,
    };
    let times = c.pieces[at + 1..].iter().filter(|piece| matches!(piece.item, Item::Figure(_)));
    let count = u32::try_from(times.count()).ok().filter(|count| *count > 1)?;
    let fits = whole.is_multiple_of(count) && (whole / count).is_multiple_of(c.sit.pool_length());
    let length = Length { amount: whole / count, unit: None };
    fits.then_some(Named { count: Some(count), length, at, stroke: None })
}
