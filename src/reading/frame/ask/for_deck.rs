//! A swimmer's words for those on deck.

use crate::message::{Kind, Name};
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::{Clause, mood};
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::Role;

/// `tell coach the pool is freezing`, `dile al entrenador que …`: a swimmer's words for
/// those on deck.
pub fn to_coach(c: &Clause<'_, '_>) -> Option<Candidate> {
    let first = mood::opening(c);
    let tells =
        |at: &usize| c.pieces[*at].means(Concept::Tell) && !c.pieces[*at].means(Concept::Me);
    let at =
        (first..(first + 3).min(c.len())).find(tells).filter(|_| c.sit.role == Role::Swimmer)?;
    let little = |piece: &&Piece<'_>| {
        piece.means(Concept::Article)
            || piece.means(Concept::My)
            || matches!(piece.text, "to" | "the" | "my" | "for" | "a" | "al" | "el" | "la" | "mi")
    };
    let skips = |piece: &&Piece<'_>| {
        matches!(piece.item, Item::Mark(_)) || matches!(piece.text, "that" | "que" | "q")
    };
    let whom = at + 1 + c.pieces[at + 1..].iter().take_while(little).count();
    c.at(whom).filter(|piece| Hint::Coach.is(piece.text))?;
    let from = whom + 1 + c.pieces[whom + 1..].iter().take_while(skips).count();
    let text = c.typed(from, c.len()).to_owned();
    let says_something = text.chars().filter(|c| c.is_alphanumeric()).count() > 1;
    let coach = Name::new("coach").ok().filter(|_| says_something)?;
    let mut candidate = Candidate::new("ask", c.len());
    candidate.used.fill(true);
    Some(candidate.says_of(Some(coach), Kind::Tell { text }).at_cost(-0.5))
}
