//! Tokens with their senses, as what nom reads.

use nom::{IResult, Input, Needed};

use crate::reading::lex::{Form, Token};
use crate::reading::lexicon::{Concept, Found, Sense, UnitWord};

/// A token, what it may mean, and whose name it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell<'t> {
    /// As typed.
    pub token: Token<'t>,
    /// Its senses and those of the words that begin with it, the longest first.
    pub senses: &'t [Found],
    /// The number of the person of the roster whose name it is.
    pub person: Option<usize>,
    /// It speaks of a danger, which is read by itself.
    pub spoken_for: bool,
}

impl Cell<'_> {
    /// True if the token alone has this sense.
    pub fn is(&self, sense: Sense) -> bool {
        self.senses.iter().any(|found| found.words == 1 && found.sense == sense)
    }

    /// True if the token alone means this.
    pub fn means(&self, concept: Concept) -> bool {
        self.is(Sense::Word(concept))
    }
}

/// The tokens still to be read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Words<'t>(pub &'t [Cell<'t>]);

/// What a piece's function gives.
pub type Read<'t, O> = IResult<Words<'t>, O>;

impl<'t> Input for Words<'t> {
    type Item = &'t Cell<'t>;
    type Iter = std::slice::Iter<'t, Cell<'t>>;
    type IterIndices = std::iter::Enumerate<Self::Iter>;

    fn input_len(&self) -> usize {
        self.0.len()
    }

    fn take(&self, index: usize) -> Self {
        self.take_split(index).1
    }

    fn take_from(&self, index: usize) -> Self {
        self.take_split(index).0
    }

    fn take_split(&self, index: usize) -> (Self, Self) {
        let (prefix, suffix) = self.0.split_at_checked(index).unwrap_or((self.0, &[]));
        (Words(suffix), Words(prefix))
    }

    fn position<P: Fn(Self::Item) -> bool>(&self, predicate: P) -> Option<usize> {
        self.0.iter().position(predicate)
    }

    fn iter_elements(&self) -> Self::Iter {
        self.0.iter()
    }

    fn iter_indices(&self) -> Self::IterIndices {
        self.0.iter().enumerate()
    }

    fn slice_index(&self, count: usize) -> Result<usize, Needed> {
        match self.0.len() >= count {
            true => Ok(count),
            false => Err(Needed::Unknown),
        }
    }
}

/// A failure that lets the next alternative try.
pub fn no<'t, O>(input: Words<'t>) -> Read<'t, O> {
    Err(nom::Err::Error(nom::error::Error::new(input, nom::error::ErrorKind::Verify)))
}

/// One token for which `f` gives something.
pub fn one<'t, O>(f: impl Fn(&'t Cell<'t>) -> Option<O>) -> impl FnMut(Words<'t>) -> Read<'t, O> {
    move |input: Words<'t>| match input.0.split_first() {
        Some((cell, rest)) => match f(cell) {
            Some(found) => Ok((Words(rest), found)),
            None => no(input),
        },
        None => no(input),
    }
}

/// A mark, whether a space stands before it or not.
pub fn mark<'t>(mark: char) -> impl FnMut(Words<'t>) -> Read<'t, ()> {
    one(move |cell| cell.token.is_mark(mark).then_some(()))
}

/// A mark with nothing before it.
pub fn glued_mark<'t>(mark: char) -> impl FnMut(Words<'t>) -> Read<'t, ()> {
    one(move |cell| (cell.token.glued && cell.token.is_mark(mark)).then_some(()))
}

/// A run of digits: its value and how many there are.
pub fn digits<'t>(least: u8, most: u8) -> impl FnMut(Words<'t>) -> Read<'t, (u32, u8)> {
    one(move |cell| match cell.token.form {
        Form::Digits { value, places } if (least..=most).contains(&places) => Some((value, places)),
        _ => None,
    })
}

/// The same, with nothing before it.
pub fn glued_digits<'t>(least: u8, most: u8) -> impl FnMut(Words<'t>) -> Read<'t, (u32, u8)> {
    one(move |cell| match cell.token.form {
        Form::Digits { value, places } if cell.token.glued && (least..=most).contains(&places) => {
            Some((value, places))
        }
        _ => None,
    })
}

/// A word spelt so.
pub fn word<'t>(spelling: &'static str) -> impl FnMut(Words<'t>) -> Read<'t, ()> {
    one(move |cell| (cell.token.text == spelling).then_some(()))
}

/// A word of several, with nothing before it.
pub fn glued_word<'t>(spellings: &'static [&'static str]) -> impl FnMut(Words<'t>) -> Read<'t, ()> {
    one(move |cell| (cell.token.glued && spellings.contains(&cell.token.text)).then_some(()))
}

/// Words of which `f` knows a sense, the longest first.
pub fn sense<'t, O>(f: impl Fn(Sense) -> Option<O>) -> impl FnMut(Words<'t>) -> Read<'t, O> {
    move |input: Words<'t>| {
        let Some(cell) = input.0.first() else { return no(input) };
        for found in cell.senses {
            if let Some(value) = f(found.sense) {
                return Ok((input.take_from(found.words), value));
            }
        }
        no(input)
    }
}

/// Words that mean this.
pub fn concept<'t>(concept: Concept) -> impl FnMut(Words<'t>) -> Read<'t, ()> {
    sense(move |sense| (sense == Sense::Word(concept)).then_some(()))
}

/// Words that count this.
pub fn unit<'t>(unit: UnitWord) -> impl FnMut(Words<'t>) -> Read<'t, ()> {
    sense(move |sense| (sense == Sense::Unit(unit)).then_some(()))
}
