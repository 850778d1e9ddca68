//! How a swim is swum: stroke, kit, level and effort, the part it belongs to, words beside it.

use super::Writer;
use super::written::{WrittenPart, is_swum};
use crate::message::Effort;
use crate::reading::frame::clause::stroke_of;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item};
use crate::session::Part;
use crate::units::{Equipment, Level, Stroke};

impl Writer<'_, '_, '_> {
    /// What stands in a bracket behind a swim: words on how to swim it.
    pub(super) fn aside(&mut self, at: usize) -> usize {
        let end = self.bracket_end(at + 1);
        let comment = self.c.typed(at + 1, end).to_owned();
        match self.last() {
            Some(last) => {
                last.comment.push(comment);
                self.uses(at, (end + 1).min(self.c.len()))
            }
            None => 1,
        }
    }

    /// Stroke, kit, level, effort, part.
    pub(super) fn quality(&mut self, at: usize) -> Option<usize> {
        let piece = self.piece(at)?;
        if let Some(part) = piece.sense(|sense| match sense {
            Sense::Part(part) => Some(*part),
            _ => None,
        }) {
            return Some(self.part(at, part));
        }
        let is_quality = piece
            .sense(|sense| {
                matches!(
                    sense,
                    Sense::Stroke(_) | Sense::Kit(_) | Sense::Level(_) | Sense::Effort(_)
                )
                .then_some(())
            })
            .is_some()
            || piece.means(Concept::Fast)
            || matches!(piece.text, "k" | "p" | "s" | "swim" | "loose" | "loosen");
        if !is_quality {
            return None;
        }
        // `odds drill evens build` says each of half of them.
        if at > 0
            && self
                .piece(at - 1)
                .is_some_and(|before| before.means(Concept::Odd) || before.means(Concept::Even))
        {
            let comment = self.c.typed(at - 1, at + 1).to_owned();
            if let Some(last) = self.last() {
                last.comment.push(comment);
            }
            return Some(self.uses(at - 1, at + 1) - 1);
        }
        if self.last().is_none() || self.stands_ahead(at) {
            self.ahead.push(at);
        } else {
            self.apply_quality(at);
        }
        Some(self.uses(at, at + 1))
    }

    /// `descend 1-4 then 5-8 same again`: which of the repeats the effort is spread over, a
    /// remark on their line.
    pub(super) fn spread(&mut self, at: usize) -> Option<usize> {
        let small = |place: usize| match self.piece(place).map(|piece| piece.item) {
            Some(Item::Figure(Figure::Whole { value: value @ 1..=40, .. })) => Some(value),
            _ => None,
        };
        let (first, last) = (small(at)?, small(at + 2)?);
        let dashed = self.piece(at + 1).is_some_and(|dash| dash.item == Item::Mark('-'));
        let count = self.parts.last().and_then(|part| match part {
            WrittenPart::One(swim) if !swim.effort.is_empty() => Some(swim.count),
            _ => None,
        })?;
        if !dashed || first >= last || last > count {
            return None;
        }
        let same = self.means(at + 3, Concept::Same) || self.means(at + 3, Concept::Again);
        let end = if same { at + 4 } else { at + 3 };
        let comment = self.c.typed(at, end).to_owned();
        self.last()?.comment.push(comment);
        Some(self.uses(at, end))
    }

    /// True where a quality begins a sentence and its swim follows.
    fn stands_ahead(&self, at: usize) -> bool {
        let begins = at == 0
            || self.piece(at - 1).is_some_and(|piece| {
                matches!(piece.item, Item::Mark('.' | ';' | '|')) || piece.item == Item::Line
            });
        let follows = self.piece(at + 1).is_some_and(|piece| {
            matches!(piece.item, Item::Repeat(..) | Item::Far(_))
                || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if is_swum(value))
        });
        begins && follows
    }

    pub(super) fn apply_quality(&mut self, at: usize) {
        let Some(piece) = self.piece(at) else { return };
        let text = piece.text;
        let stroke = stroke_of(piece);
        let kit: Option<Equipment> = piece.kit();
        let level: Option<Level> = piece.level();
        let effort = piece.sense(|sense| match sense {
            Sense::Effort("descend") => Some(Effort::Descend(None)),
            Sense::Effort("ascend") => Some(Effort::Ascend(None)),
            Sense::Effort("build") => Some(Effort::Build),
            Sense::Effort("negative") => Some(Effort::NegativeSplit),
            Sense::Effort("even") => Some(Effort::Even),
            Sense::Effort("best-average") => Some(Effort::BestAverage),
            Sense::Effort("im-order") => Some(Effort::ImOrder),
            _ => None,
        });
        let Some(last) = self.last() else { return };
        if let Some(effort) = effort {
            last.effort.push(effort);
            return;
        }
        if let Some(kit) = kit {
            last.kit.push(kit);
            return;
        }
        let stroke = stroke.or(match text {
            "k" => Some(Stroke::Kick),
            "p" => Some(Stroke::Pull),
            _ => None,
        });
        if let Some(stroke) = stroke {
            last.stroke = last.stroke.or(Some(stroke));
            return;
        }
        last.level = last.level.or(level);
    }

    /// A part's name: of the swim behind it, or of the one before.
    fn part(&mut self, at: usize, part: Part) -> usize {
        let next = self.c.pieces.after(at + 1, |piece| {
            matches!(piece.item, Item::Mark(':' | '-' | '='))
                || piece.means(Concept::Of)
                || piece.means(Concept::Set)
                || piece.means(Concept::Article)
                || piece.text == "is"
        });
        let follows = self.piece(next).is_some_and(|piece| matches!(piece.item, Item::Repeat(..) | Item::Far(_)) || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if is_swum(value) || self.means(next + 1, Concept::Round)));
        // `200 warm up`, `300 m warming up`, `100 easy to finish`
        let before = self.last().is_some_and(|last| last.part.is_none() && last.at + 4 > at)
            && at > 0
            && !self.piece(at - 1).is_some_and(|piece| {
                matches!(piece.item, Item::Mark('.' | ',' | ';' | '|' | '-' | '/'))
                    || piece.item == Item::Line
                    || piece.means(Concept::And)
            });
        if before && !(follows && matches!(part, Part::Main)) {
            if let Some(last) = self.last() {
                last.part = Some(part);
            }
            return self.uses(at, at + 1);
        }
        if follows {
            self.ends_open_group();
            self.waiting = Some(part);
            return self.uses(at, next);
        }
        if matches!(part, Part::Main | Part::Test) {
            self.waiting = Some(part);
        } else if let Some(last) = self.last() {
            last.part = last.part.or(Some(part));
        } else {
            self.waiting = Some(part);
        }
        self.uses(at, at + 1)
    }
}
