//! Which repeats a stretch of tokens names.

use super::row::Row;
use super::token::{Role, Token, Which};

/// The repeats that something is told of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Subset {
    Next(u32),
    First(u32),
    Last(u32),
    Places(Vec<u32>),
    Until(u32),
    Others(Option<u32>),
    All,
}

impl Row<'_> {
    /// How many repeats a subset has, as far as that is said.
    pub fn many(&self, subset: &Subset) -> usize {
        match subset {
            Subset::Next(count) | Subset::First(count) | Subset::Last(count) => *count as usize,
            Subset::Others(count) => count.map_or(1, |count| count as usize),
            Subset::Places(places) => places.len(),
            Subset::Until(place) => (*place as usize).saturating_sub(self.cursor),
            Subset::All => self.slots.len(),
        }
    }

    /// The subset that begins at a place, and where its words end.
    pub fn subset(&self, at: usize) -> Option<(Subset, usize)> {
        let count = |at: usize| match self.roles.get(at)? {
            Role::Count(count) => Some(*count),
            _ => None,
        };
        match self.tokens.get(at)? {
            Token::Word(which @ (Which::First | Which::Last | Which::Others)) => {
                let counted = count(at + 1);
                let subset = match which {
                    Which::First => Subset::First(counted.unwrap_or(1)),
                    Which::Last => Subset::Last(counted.unwrap_or(1)),
                    _ => Subset::Others(counted),
                };
                Some((subset, at + 1 + usize::from(counted.is_some())))
            }
            Token::Word(Which::All) => {
                let whole = count(at + 1).filter(|count| *count as usize == self.slots.len());
                Some((Subset::All, at + 1 + usize::from(whole.is_some())))
            }
            Token::Word(Which::Until) => {
                Some((Subset::Until(self.place(at + 1).or_else(|| count(at + 1))?), at + 2))
            }
            Token::Word(_) | Token::Break(_) => None,
            Token::Span(from, to) => Some((Subset::Places((*from..=*to).collect()), at + 1)),
            Token::Number(_) => match count(at) {
                // `los 4 primeros`, `the 2 last`
                Some(count) => Some(match self.tokens.get(at + 1) {
                    Some(Token::Word(Which::First)) => (Subset::First(count), at + 2),
                    Some(Token::Word(Which::Last)) => (Subset::Last(count), at + 2),
                    _ => (Subset::Next(count), at + 1),
                }),
                None => self.places(at),
            },
        }
    }

    fn place(&self, at: usize) -> Option<u32> {
        match self.roles.get(at)? {
            Role::Place(place) => Some(*place),
            _ => None,
        }
    }

    /// `el 6 y el 7`, `1 to 4`.
    fn places(&self, at: usize) -> Option<(Subset, usize)> {
        let first = self.place(at)?;
        if matches!(self.tokens.get(at + 1), Some(Token::Word(Which::To | Which::Until)))
            && let Some(last) = self.place(at + 2).filter(|last| *last > first)
        {
            return Some((Subset::Places((first..=last).collect()), at + 3));
        }
        let mut places = vec![first];
        let mut end = at + 1;
        loop {
            let (next, _) = self.apart(end);
            let Some(place) = self.place(next) else { break };
            places.push(place);
            end = next + 1;
        }
        Some((Subset::Places(places), end))
    }
}
