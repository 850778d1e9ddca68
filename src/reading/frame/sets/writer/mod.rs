//! From pieces to the lines of a set, from left to right.

mod ladder;
mod quality;
mod rounds;
mod swim;
mod timing;
mod whole;
mod written;

use super::item::Swim;
use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece, Used};
use crate::session::Part;
pub use written::{Written, WrittenPart, is_swum, lines};

struct Writer<'c, 'a, 't> {
    c: &'c Clause<'a, 't>,
    /// Open groups: rounds, what is inside, and whether a bracket closes it.
    groups: Vec<(u32, Vec<WrittenPart>, bool)>,
    parts: Vec<WrittenPart>,
    written: Written,
    /// A part's name that waits for its swim.
    waiting: Option<Part>,
    /// Qualities that stand before their swim.
    ahead: Vec<usize>,
}

/// Reads the pieces as a set.
pub fn write(c: &Clause<'_, '_>) -> Written {
    let mut writer = Writer {
        c,
        groups: Vec::new(),
        parts: Vec::new(),
        written: Written { used: Used::none(c.len()), ..Written::default() },
        waiting: None,
        ahead: Vec::new(),
    };
    let mut at = 0;
    while at < c.len() {
        at += writer.step(at).max(1);
    }
    while !writer.groups.is_empty() {
        writer.close_group(None);
    }
    let mut written = writer.written;
    written.parts = writer.parts;
    written
}

impl<'a, 't> Writer<'_, 'a, 't> {
    fn piece(&self, at: usize) -> Option<&'a Piece<'t>> {
        self.c.at(at)
    }

    fn means(&self, at: usize, concept: Concept) -> bool {
        self.piece(at).is_some_and(|piece| piece.means(concept))
    }

    fn uses(&mut self, from: usize, to: usize) -> usize {
        self.written.used[from..to.min(self.c.len())].fill(true);
        to - from
    }

    fn inside(&mut self) -> &mut Vec<WrittenPart> {
        match self.groups.last_mut() {
            Some((_, inside, _)) => inside,
            None => &mut self.parts,
        }
    }

    fn last(&mut self) -> Option<&mut Swim> {
        fn deepest(parts: &mut [WrittenPart]) -> Option<&mut Swim> {
            match parts.last_mut()? {
                WrittenPart::One(swim) => Some(swim),
                WrittenPart::Rounds(_, inside, _) => deepest(inside),
            }
        }
        match self.groups.last_mut() {
            Some((_, inside, _)) if !inside.is_empty() => deepest(inside),
            Some(_) => None,
            None => deepest(&mut self.parts),
        }
    }

    fn step(&mut self, at: usize) -> usize {
        let Some(piece) = self.piece(at) else { return 1 };
        if let Some(length) = self.opens(at).or_else(|| self.closes(at)) {
            return length;
        }
        if let Some(length) = self.total_at(at).or_else(|| self.both_ends(at)) {
            return length;
        }
        if let Some(length) = self.spread(at).or_else(|| self.shares(at)) {
            return length;
        }
        if let Some(length) = self.ladder(at).or_else(|| self.swim(at)) {
            return length;
        }
        if let Some(length) = self.timing(at) {
            return length;
        }
        if let Some(length) = self.quality(at) {
            return length;
        }
        match piece.item {
            Item::Mark('(' | '[') => self.aside(at),
            Item::Mark('.' | ';' | '|') | Item::Line => {
                self.ends_open_group();
                self.uses(at, at + 1)
            }
            Item::Mark(_) | Item::Picture => self.uses(at, at + 1),
            Item::Day(_) | Item::Lanes(_) => self.uses(at, at + 1),
            _ if [
                Concept::And,
                Concept::Then,
                Concept::Set,
                Concept::Of,
                Concept::With,
                Concept::For,
                Concept::Session,
                Concept::Please,
                Concept::In,
                Concept::To,
                Concept::Want,
                Concept::Can,
                Concept::We,
                Concept::Me,
                Concept::Will,
                Concept::Squad,
                Concept::Everyone,
                Concept::They,
                Concept::Make,
                Concept::Held,
            ]
            .iter()
            .any(|one| piece.means(*one)) =>
            {
                self.uses(at, at + 1)
            }
            _ => 1,
        }
    }
}
