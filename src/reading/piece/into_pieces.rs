//! The text as a row of pieces: at each place the longest that fits.

use nom::Parser;
use nom::combinator::map;

use super::figure::{self, Figure};
use super::item::{Item, Piece};
use super::sensed_token::{Cell, Words};
use super::shape::shape;
use crate::language::Language;
use crate::reading::health::signs_of;
use crate::reading::lex::Form;
use crate::reading::lexicon::{Concepts, Lexicon, Sense};

/// Takes a text's cells as pieces. `knows` tells the places of ordinary words from those of
/// unknown ones.
pub fn pieces<'t>(
    cells: &'t [Cell<'t>],
    language: Language,
    knows: impl Fn(usize) -> bool,
) -> Vec<Piece<'t>> {
    let lexicon = Lexicon::of(language);
    let mut pieces = Vec::with_capacity(cells.len());
    let mut at = 0;
    // The next cell that speaks of a danger: no shape reaches over it.
    let silent = |from: usize| {
        let next = cells.iter().skip(from).position(|cell| cell.spoken_for);
        next.map_or(cells.len(), |next| from + next)
    };
    let mut end = silent(0);
    while let Some(cell) = cells.get(at) {
        if cell.spoken_for {
            pieces.push(spoken_for(cell, at, language));
            at += 1;
            continue;
        }
        if end < at {
            end = silent(at);
        }
        let ahead = cells.get(at..end).unwrap_or_default();
        let input = Words(ahead);
        let shaped = shape(input);
        // `48/48/49`: a row of times has no shares or ranges at its end.
        let shaped = match shaped {
            Ok((_, Item::Range(..) | Item::OfAll(..) | Item::Rpe(_) | Item::Day(_)))
                if in_row(&pieces) && matches!(cell.token.form, Form::Digits { .. }) =>
            {
                map(figure::figure, Item::Figure).parse(input)
            }
            other => other,
        };
        let shaped = match in_commas(&pieces, ahead) {
            Some(item) => Ok((1, item)),
            None => shaped.map(|(rest, item)| (ahead.len() - rest.0.len(), item)),
        };
        let longest = cell.senses.first().map_or(0, |found| found.words);
        let piece = |item, length: usize, senses: Vec<Sense>| Piece {
            item,
            at: (at, at + length),
            concepts: concepts(&senses),
            senses,
            text: cell.token.text,
            possessive: cells.get(at + length - 1).is_some_and(|last| last.token.possessive),
            alone: lexicon.alone(cell.token.text),
            signs: signs_of(cell.token.text, language),
        };
        let senses = |length: usize| -> Vec<Sense> {
            cell.senses
                .iter()
                .filter(|found| found.words == length)
                .map(|found| found.sense)
                .collect()
        };
        let piece = match shaped {
            Ok((length, item)) if length >= longest => piece(item, length, senses(length)),
            _ if longest > 0 => piece(Item::Word, longest, senses(longest)),
            _ => {
                let item = match cell.token.form {
                    Form::Mark(mark) => Item::Mark(mark),
                    Form::Line => Item::Line,
                    Form::Picture => Item::Picture,
                    Form::Digits { value, places } => Item::Figure(Figure::Whole { value, places }),
                    Form::Word if knows(at) => Item::Chatter,
                    Form::Word => Item::Unknown,
                };
                piece(item, 1, Vec::new())
            }
        };
        at = piece.at.1;
        pieces.push(piece);
    }
    pieces
}

fn concepts(senses: &[Sense]) -> Concepts {
    senses.iter().fold(Concepts::default(), |all, sense| match sense {
        Sense::Word(concept) => all.with(*concept),
        _ => all,
    })
}

/// A word that speaks of a danger: nothing is to be made of it here.
fn spoken_for<'t>(cell: &Cell<'t>, at: usize, language: Language) -> Piece<'t> {
    Piece {
        item: Item::Picture,
        at: (at, at + 1),
        senses: Vec::new(),
        text: cell.token.text,
        possessive: false,
        alone: Lexicon::of(language).alone(cell.token.text),
        signs: signs_of(cell.token.text, language),
        concepts: Concepts::default(),
    }
}

/// `47,47,48,46`: a figure of two digits in a row parted by commas alone is no decimal.
fn in_commas<'t>(pieces: &[Piece<'t>], cells: &'t [Cell<'t>]) -> Option<Item<'t>> {
    let two = |cell: &Cell<'_>| match cell.token.form {
        Form::Digits { value, places: places @ 2 } => Some(Figure::Whole { value, places }),
        _ => None,
    };
    let first = cells.first()?;
    let figure = two(first)?;
    let next = |at: usize| {
        cells.get(at).is_some_and(|comma| comma.token.glued && comma.token.is_mark(','))
            && cells.get(at + 1).is_some_and(|cell| cell.token.glued && two(cell).is_some())
    };
    let behind = match pieces {
        [.., Piece { item: Item::Figure(Figure::Whole { places: 2, .. }), .. }, comma] => {
            comma.item == Item::Mark(',') && first.token.glued
        }
        _ => false,
    };
    let ends = cells.get(1).is_none_or(|next| !next.token.is_mark('.') && !next.token.is_mark(':'));
    (behind && ends || next(1) && next(3)).then_some(Item::Figure(figure))
}

/// True behind a figure and a stroke or dash.
fn in_row(pieces: &[Piece<'_>]) -> bool {
    let [.., before, mark] = pieces else { return false };
    matches!(before.item, Item::Figure(_)) && matches!(mark.item, Item::Mark('/' | '-'))
}
