//! Pieces in a row, and which of them are used: both answer about any place, so that no place
//! that a frame works out can be one too many.

use std::ops::{Index, IndexMut, Range, RangeFrom, RangeInclusive, RangeTo};
use std::slice::{ArrayWindows, Iter, IterMut};

use super::Piece;

/// The pieces of a text or of a stretch of it. Where none stands, there is a new line; a range
/// that reaches past the end is empty.
#[derive(Debug, Clone, Copy)]
pub struct Pieces<'a, 't>(pub &'a [Piece<'t>]);

impl<'a, 't> Pieces<'a, 't> {
    /// The piece at a place.
    pub fn get(self, place: usize) -> Option<&'a Piece<'t>> {
        self.0.get(place)
    }

    /// How many.
    pub const fn len(self) -> usize {
        self.0.len()
    }

    /// True where there is none.
    pub const fn is_empty(self) -> bool {
        self.0.is_empty()
    }

    /// The first.
    pub fn first(self) -> Option<&'a Piece<'t>> {
        self.0.first()
    }

    /// The last.
    pub fn last(self) -> Option<&'a Piece<'t>> {
        self.0.last()
    }

    /// Each so many that stand behind one another.
    pub fn array_windows<const N: usize>(self) -> ArrayWindows<'a, Piece<'t>, N> {
        self.0.array_windows()
    }

    /// All of them, in order.
    pub fn iter(self) -> Iter<'a, Piece<'t>> {
        self.0.iter()
    }

    /// The first place from `place` on whose piece is not such a one.
    pub fn after(self, place: usize, is: impl Fn(&Piece<'t>) -> bool) -> usize {
        place + self.iter().skip(place).take_while(|piece| is(piece)).count()
    }

    /// Those from one place up to another.
    #[must_use]
    pub fn part(self, from: usize, to: usize) -> Self {
        Self(self.0.get(from..to).unwrap_or_default())
    }
}

impl<'a, 't> IntoIterator for Pieces<'a, 't> {
    type Item = &'a Piece<'t>;
    type IntoIter = Iter<'a, Piece<'t>>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<'t> Index<usize> for Pieces<'_, 't> {
    type Output = Piece<'t>;

    fn index(&self, place: usize) -> &Piece<'t> {
        self.0.get(place).unwrap_or(const { &Piece::NONE })
    }
}

/// Which pieces of a row are used. A mark past the end is none.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Used {
    marks: Vec<bool>,
    /// Takes what is written past the end.
    beyond: bool,
}

impl Used {
    /// None of so many.
    pub fn none(pieces: usize) -> Self {
        Self { marks: vec![false; pieces], beyond: false }
    }

    /// The marks, in order.
    pub fn iter(&self) -> Iter<'_, bool> {
        self.marks.iter()
    }

    /// The marks, in order, to be set.
    pub fn iter_mut(&mut self) -> IterMut<'_, bool> {
        self.marks.iter_mut()
    }

    /// Marks all, or none.
    pub fn fill(&mut self, used: bool) {
        self.marks.fill(used);
    }

    /// Marks every piece of which this is true.
    pub fn mark(&mut self, pieces: Pieces<'_, '_>, is: impl Fn(&Piece<'_>) -> bool) {
        for (mark, piece) in self.marks.iter_mut().zip(pieces) {
            *mark |= is(piece);
        }
    }
}

impl<'u> IntoIterator for &'u Used {
    type Item = &'u bool;
    type IntoIter = Iter<'u, bool>;

    fn into_iter(self) -> Self::IntoIter {
        self.marks.iter()
    }
}

impl Index<usize> for Used {
    type Output = bool;

    fn index(&self, place: usize) -> &bool {
        self.marks.get(place).unwrap_or(&false)
    }
}

impl IndexMut<usize> for Used {
    fn index_mut(&mut self, place: usize) -> &mut bool {
        self.marks.get_mut(place).unwrap_or(&mut self.beyond)
    }
}

/// Ranges of both.
macro_rules! ranges {
    ($($range:ty),*) => {$(
        impl<'t> Index<$range> for Pieces<'_, 't> {
            type Output = [Piece<'t>];

            fn index(&self, range: $range) -> &[Piece<'t>] {
                self.0.get(range).unwrap_or_default()
            }
        }

        impl Index<$range> for Used {
            type Output = [bool];

            fn index(&self, range: $range) -> &[bool] {
                self.marks.get(range).unwrap_or_default()
            }
        }

        impl IndexMut<$range> for Used {
            fn index_mut(&mut self, range: $range) -> &mut [bool] {
                self.marks.get_mut(range).unwrap_or_default()
            }
        }
    )*};
}

ranges!(Range<usize>, RangeFrom<usize>, RangeTo<usize>, RangeInclusive<usize>);

#[cfg(test)]
mod tests {
    use super::{Pieces, Used};
    use crate::reading::piece::Item;

    #[test]
    fn a_place_past_the_end_holds_nothing_and_marks_nothing() {
        let pieces = Pieces(&[]);
        assert_eq!(pieces[7].item, Item::Line);
        assert!(pieces[2..5].is_empty() && pieces[3..].is_empty());
        assert!(pieces.part(4, 2).is_empty() && pieces.after(3, |_| true) == 3);
        let mut used = Used::none(2);
        used[9] = true;
        used[1..8].fill(true);
        assert_eq!(used.marks, [false, false]);
        used[1..].fill(true);
        assert_eq!(used.marks, [false, true]);
    }
}
