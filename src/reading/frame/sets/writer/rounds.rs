//! Rounds of several swims: where they open, and where they close.

use super::Writer;
use super::written::WrittenPart;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item};
use crate::units::Centis;

impl Writer<'_, '_, '_> {
    /// `3x(`, `3 rounds of`, `2 rds:`, `3 times (`.
    pub(super) fn opens(&mut self, at: usize) -> Option<usize> {
        let count = match self.piece(at)?.item {
            Item::Figure(Figure::Whole { value, .. }) if (1..=30).contains(&value) => value,
            _ => return None,
        };
        let is_bracket = |place: usize| {
            matches!(self.piece(place).map(|piece| piece.item), Some(Item::Mark('(' | '[' | '{')))
        };
        let crossed = self.piece(at + 1).is_some_and(|piece| {
            piece.text == "x" || piece.item == Item::Mark('*') || piece.means(Concept::Times)
        });
        if crossed && is_bracket(at + 2) {
            self.groups.push((count, Vec::new(), true));
            return Some(self.uses(at, at + 3));
        }
        if is_bracket(at + 1)
            && self.piece(at + 2).is_some_and(|next| {
                matches!(next.item, Item::Repeat(..) | Item::Figure(_) | Item::Far(_))
            })
            && count <= 10
            && self.brackets_swims(at + 2)
        {
            self.groups.push((count, Vec::new(), true));
            return Some(self.uses(at, at + 2));
        }
        if self.means(at + 1, Concept::Round) {
            let next = self.c.pieces.after(at + 2, |piece| {
                matches!(piece.item, Item::Mark(':' | '-' | ',')) || piece.means(Concept::Of)
            });
            let bracket = is_bracket(next);
            self.groups.push((count, Vec::new(), bracket));
            return Some(self.uses(at, if bracket { next + 1 } else { next }));
        }
        None
    }

    /// True if what stands in a bracket is swims, and no breakdown of one.
    fn brackets_swims(&self, from: usize) -> bool {
        let end = self.bracket_end(from);
        (from..end)
            .filter(|place| {
                matches!(
                    self.c.pieces[*place].item,
                    Item::Repeat(..) | Item::Far(_) | Item::Figure(_)
                )
            })
            .count()
            > 1
    }

    pub(super) fn bracket_end(&self, from: usize) -> usize {
        (from..self.c.len())
            .find(|place| matches!(self.c.pieces[*place].item, Item::Mark(')' | ']' | '}')))
            .unwrap_or(self.c.len())
    }

    pub(super) fn closes(&mut self, at: usize) -> Option<usize> {
        if !matches!(self.piece(at)?.item, Item::Mark(')' | ']' | '}'))
            || !self.groups.iter().any(|(_, _, bracket)| *bracket)
        {
            return None;
        }
        while let Some((_, _, bracket)) = self.groups.last() {
            let bracket = *bracket;
            self.close_group(None);
            if bracket {
                break;
            }
        }
        let mut end = at + 1;
        if let Some((rest, next)) = self.rest_at(end) {
            if let Some(WrittenPart::Rounds(_, _, between)) = self.inside().last_mut() {
                *between = Some(rest);
            }
            end = next;
        }
        Some(self.uses(at, end))
    }

    /// A sentence's end closes rounds that no bracket opened.
    pub(super) fn ends_open_group(&mut self) {
        while self.groups.last().is_some_and(|(_, inside, bracket)| !bracket && !inside.is_empty())
        {
            self.close_group(None);
        }
    }

    pub(super) fn close_group(&mut self, rest: Option<Centis>) {
        let Some((times, inside, _)) = self.groups.pop() else { return };
        if inside.is_empty() {
            return;
        }
        // An end that stands behind rounds belongs to none of them.
        self.inside().push(WrittenPart::Rounds(times, inside, rest));
    }
}
