//! How strong a pain is: the figure that says so.

use super::body::{body, is_ache};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Piece};

/// `4 now`: the only figure of a short text behind a pain.
pub fn lone_level(c: &Clause<'_, '_>) -> Option<(usize, u8)> {
    const LONGEST: usize = 12;
    let figures: Vec<(usize, u32)> = c
        .pieces
        .iter()
        .enumerate()
        .filter(|(at, _)| !is_of_something_else(c, *at))
        .filter_map(|(at, piece)| match piece.item {
            Item::Figure(figure) => Some((at, figure.whole().unwrap_or(u32::MAX))),
            Item::Far(_) | Item::Repeat(..) | Item::Each(_) => Some((at, u32::MAX)),
            _ => None,
        })
        .collect();
    match figures[..] {
        [(at, level @ 0..=10)] if c.len() <= LONGEST => Some((at, u8::try_from(level).ok()?)),
        _ => None,
    }
}

/// `the left one`, `2 weeks`: a figure that is another word, or counts something.
pub fn is_of_something_else(c: &Clause<'_, '_>, at: usize) -> bool {
    let one = c.at(at).is_some_and(|piece| piece.is_spelled() && piece.means(Concept::It));
    let unit = |piece: &Piece<'_>| piece.sense(|it| matches!(it, Sense::Unit(_)).then_some(()));
    one || c.at(at + 1).is_some_and(|next| unit(next).is_some())
}

/// How strong: `4`, `7/10`, `its like a 6`. The figure stands by its pain, and counts no
/// repeats; of several the last is that of now.
pub fn level(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<u8> {
    let (at, level) = last_rating(c, 0)?;
    candidate.used[at] = true;
    Some(level)
}

/// The last figure from a place on that says how strong something is, and where.
/// Where a text says what it was before, what it is now counts: `a 6, it was a 4 on monday`.
pub fn last_rating(c: &Clause<'_, '_>, from: usize) -> Option<(usize, u8)> {
    let was = |at: usize| {
        let before = &c.pieces[at.saturating_sub(2)..at];
        before.iter().any(|piece| matches!(piece.text, "was" | "era" | "were"))
    };
    let mut ratings = (from..c.len()).rev().filter_map(|at| Some((at, rating(c, at)?)));
    ratings.clone().find(|(at, _)| !was(*at)).or_else(|| ratings.next())
}

/// True where nothing follows in the text, or only a doubt: `, 3 maybe`.
fn closes(c: &Clause<'_, '_>, at: usize) -> bool {
    let mut behind = c.all.iter().skip(c.offset + at + 1);
    behind.all(|piece| piece.means(Concept::Maybe) || matches!(piece.item, Item::Mark(_)))
}

/// True where a part of the text ends with this piece.
fn ends_part(c: &Clause<'_, '_>, at: usize) -> bool {
    closes(c, at) || c.all.get(c.offset + at + 1).is_some_and(Piece::is_apart)
}

/// The figure at a place, where it says how strong something is.
fn rating(c: &Clause<'_, '_>, at: usize) -> Option<u8> {
    if !matches!(c.pieces[at].item, Item::Rpe(_) | Item::OfAll(..) | Item::Figure(_)) {
        return None;
    }
    let before = at.checked_sub(1).map(|before| &c.pieces[before]);
    let by_pain = before.is_some_and(|before| {
        is_ache(c, at - 1)
            || body(before).is_some()
            || [Concept::Maybe, Concept::About].iter().any(|one| before.means(*one))
            || matches!(
                before.text,
                "a" | "level" | "is" | "was" | "its" | "say" | "un" | "nivel" | "now" | "maybe"
            )
            // `… but you did ask so 2`
            || before.means(Concept::Because) && closes(c, at)
            // `a dull ache down the side, 4`, `shoulder's sore. 6. i'll live`, `says 4`
            || (before.is_apart() || before.item == Item::Chatter) && ends_part(c, at)
    });
    let about = c.at(at + 1).is_some_and(|next| next.text == "ish");
    // `from a 5`, `from 5`: what it was.
    let was = (at.saturating_sub(2)..at).any(|before| {
        c.pieces[before].means(Concept::From) && (before + 1 == at || c.pieces[at - 1].text == "a")
    });
    if was {
        return None;
    }
    match c.pieces[at].item {
        Item::Rpe(tenths) => Some(tenths / 10),
        Item::OfAll(some, 10) if some <= 10 => u8::try_from(some).ok(),
        Item::Figure(Figure::Whole { value: value @ 0..=10, places: 1.. }) if by_pain || about => {
            u8::try_from(value).ok()
        }
        // `about a five`, `bout a six`
        Item::Figure(Figure::Whole { value: value @ 2..=10, places: 0 })
            if at > 0 && c.pieces[at - 1].text == "a" && closes(c, at) =>
        {
            u8::try_from(value).ok()
        }
        _ => None,
    }
}

/// `shoulder was a 3`, `knee fine, 0`: a part of the body with a figure for its pain.
pub fn rated(c: &Clause<'_, '_>, place: usize, candidate: &mut Candidate) -> Option<u8> {
    let swum = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Repeat(..) | Item::Far(_) | Item::Each(_) | Item::Plural(_))
    });
    let none = (place + 1..c.len()).rev().find(|at| {
        matches!(c.pieces[*at].item, Item::Figure(Figure::Whole { value: 0, places: 1 }))
            && c.pieces[at - 1].item == Item::Mark(',')
    });
    if let Some(at) = none {
        candidate.used[at] = true;
        return Some(0);
    }
    let (at, level) = last_rating(c, place + 1).filter(|_| !swum)?;
    candidate.used[at] = true;
    Some(level)
}

#[cfg(test)]
mod tests {
    use super::is_of_something_else;
    use crate::reading::in_its_pieces;
    use crate::reading::piece::Item;
    use crate::reading::situation::Situation;

    /// Read as a level, `the left one` made of any pain one of ten.
    #[test]
    fn a_one_that_is_a_word_and_a_count_of_weeks_are_no_levels() {
        let sit = Situation::default();
        let says = |text: &str| {
            in_its_pieces(text, &sit, |c| {
                let figure = |at: &usize| matches!(c.pieces[*at].item, Item::Figure(_));
                (0..c.len()).find(figure).map(|at| !is_of_something_else(c, at))
            })
        };
        assert_ne!(says("the left one"), Some(true));
        assert_ne!(says("is 2 weeks about right"), Some(true));
        assert_eq!(says("more like a 2"), Some(true));
        assert_eq!(says("1 now"), Some(true));
    }
}
