//! Tokens: words without case and accents, runs of digits, single marks.
//!
//! A run of letters and a run of digits are two tokens even where nothing stands
//! between them (`8x50` is `8`, `x`, `50`); whether a space did is kept. A handle
//! behind `@` stays whole (`@h2if` says no `if`). A hyphen inside a word parts it
//! like a space.

use std::cell::OnceCell;

use crate::message::plain;

/// What a token is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Letters, folded.
    Word,
    /// ASCII digits: their value (at most nine of them) and how many there are.
    Digits {
        /// The number.
        value: u32,
        /// How many digits were typed.
        places: u8,
    },
    /// One mark of punctuation.
    Mark(char),
    /// A new line.
    Line,
    /// Pictures and whatever else says nothing.
    Picture,
}

/// One token and where it was typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token<'t> {
    /// Letters and digits without case, accents and apostrophes.
    pub text: &'t str,
    /// What it is made of.
    pub form: Form,
    /// Nothing stood between it and the token before.
    pub glued: bool,
    /// It ended in an apostrophe and s (`swift's`).
    pub possessive: bool,
    /// It was typed with an apostrophe (`i'll`, which `ill` is not).
    pub apostrophe: bool,
    /// Its first letter was a capital.
    pub capital: bool,
    /// Where it begins and ends in the plain text, in bytes.
    pub span: (usize, usize),
}

impl Token<'_> {
    /// True for this mark.
    pub fn is_mark(&self, mark: char) -> bool {
        self.form == Form::Mark(mark)
    }

    /// The number that its digits say.
    pub fn value(&self) -> Option<u32> {
        match self.form {
            Form::Digits { value, .. } => Some(value),
            _ => None,
        }
    }
}

/// A text made plain, with its tokens' letters beside it.
#[derive(Debug, Clone, Default)]
pub struct Lexed {
    /// The text in plain characters, as typed otherwise.
    pub plain: String,
    /// The folded letters of all tokens, one after the other.
    letters: String,
    raw: Vec<Raw>,
    /// The first number in digits that we do not count with.
    pub foreign_number: Option<String>,
    /// What whoever looked words up first found of each token.
    notes: OnceCell<Vec<[bool; 2]>>,
}

#[derive(Debug, Clone, Copy)]
struct Raw {
    letters: (usize, usize),
    form: Form,
    glued: bool,
    possessive: bool,
    apostrophe: bool,
    capital: bool,
    span: (usize, usize),
}

impl Lexed {
    /// The tokens, in order.
    pub fn tokens(&self) -> Vec<Token<'_>> {
        let token = |raw: &Raw| Token {
            text: &self.letters[raw.letters.0..raw.letters.1],
            form: raw.form,
            glued: raw.glued,
            possessive: raw.possessive,
            apostrophe: raw.apostrophe,
            capital: raw.capital,
            span: raw.span,
        };
        self.raw.iter().map(token).collect()
    }

    /// What `note` finds of each token, kept for the next who asks.
    pub fn noted(&self, note: impl FnOnce(&[Token<'_>]) -> Vec<[bool; 2]>) -> &[[bool; 2]] {
        self.notes.get_or_init(|| note(&self.tokens()))
    }

    /// What was typed from byte `from` to byte `to`.
    pub fn typed(&self, (from, to): (usize, usize)) -> &str {
        self.plain.get(from..to).unwrap_or_default().trim()
    }
}

/// Takes a text apart. Linear in its length.
pub fn lex(text: &str) -> Lexed {
    let plain = plain(text);
    let mut lexed = Lexed {
        letters: String::with_capacity(plain.text.len()),
        raw: Vec::with_capacity(plain.text.len() / 3 + 1),
        foreign_number: plain.foreign_number,
        plain: String::new(),
        notes: OnceCell::new(),
    };
    let characters: Vec<(usize, char)> = plain.text.char_indices().collect();
    let at = |place: usize| characters.get(place).map(|(_, c)| *c);
    let byte = |place: usize| characters.get(place).map_or(plain.text.len(), |(byte, _)| *byte);
    let mut place = 0;
    let mut glued = false;
    while let Some(c) = at(place) {
        let from = place;
        let start = lexed.letters.len();
        let mut raw = Raw {
            letters: (start, start),
            form: Form::Picture,
            glued,
            possessive: false,
            apostrophe: false,
            capital: false,
            span: (0, 0),
        };
        if c == '\n' {
            raw.form = Form::Line;
            place += 1;
        } else if c.is_whitespace() {
            place += 1;
            glued = false;
            continue;
        } else if c.is_ascii_digit() {
            let mut value = 0u32;
            while let Some(digit) = at(place).and_then(|c| c.to_digit(10)) {
                value = value.saturating_mul(10).saturating_add(digit);
                lexed.letters.push(char::from_digit(digit, 10).unwrap_or('0'));
                place += 1;
            }
            let places = u8::try_from(place - from).unwrap_or(u8::MAX);
            raw.form = Form::Digits { value, places };
        } else if is_letter(c) {
            raw.form = Form::Word;
            raw.capital = c.is_uppercase();
            let listed = glued && lexed.raw.last().is_some_and(|last| last.form == Form::Mark('/'));
            // One letter, and nothing more of a word.
            let alone = |place: usize| {
                let more = |place: usize| at(place).is_some_and(|c| c.is_alphanumeric());
                at(place).is_some_and(is_letter) && !more(place + 1) && at(place + 1) != Some('/')
            };
            let handle = glued && lexed.raw.last().is_some_and(|last| last.form == Form::Mark('@'));
            while let Some(c) = at(place) {
                let inside = || at(place + 1).is_some_and(is_letter);
                if is_letter(c) || handle && c.is_ascii_digit() {
                    push_folded(&mut lexed.letters, c);
                } else if c == '/' && !listed && place == from + 1 && alone(place + 1) {
                    // `s/o`, `w/u`: one word in two letters.
                    lexed.letters.push('/');
                } else if c == '\'' && inside() {
                    let is_s = at(place + 1).is_some_and(|c| c.eq_ignore_ascii_case(&'s'));
                    raw.possessive = is_s && !at(place + 2).is_some_and(is_letter);
                    raw.apostrophe = true;
                } else {
                    break;
                }
                place += 1;
            }
        } else if c == '-'
            && glued
            && lexed.raw.last().is_some_and(|last| last.form == Form::Word)
            && at(place + 1).is_some_and(is_letter)
        {
            place += 1;
            glued = false;
            continue;
        } else if is_mark(c) {
            raw.form = Form::Mark(c);
            lexed.letters.push(c);
            place += 1;
        } else {
            while at(place)
                .is_some_and(|c| !c.is_whitespace() && !c.is_alphanumeric() && !is_mark(c))
            {
                place += 1;
            }
            place = place.max(from + 1);
        }
        raw.letters.1 = lexed.letters.len();
        raw.span = (byte(from), byte(place));
        glued = raw.form != Form::Line;
        lexed.raw.push(raw);
    }
    lexed.plain = plain.text;
    lexed
}

fn is_letter(c: char) -> bool {
    c.is_alphabetic() || ('\u{300}'..='\u{36F}').contains(&c) || c == '_'
}

fn is_mark(c: char) -> bool {
    c.is_ascii_punctuation()
        || matches!(c, '\u{A1}' | '\u{BF}' | '\u{2026}' | '\u{B0}' | '\u{20AC}' | '\u{A3}')
}

/// One letter without case and accent.
fn push_folded(letters: &mut String, c: char) {
    if c.is_ascii() {
        letters.push(c.to_ascii_lowercase());
        return;
    }
    let mut buffer = [0; 4];
    letters.push_str(&crate::message::folded(c.encode_utf8(&mut buffer)));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(text: &str) -> Vec<String> {
        lex(text).tokens().iter().map(|token| token.text.to_owned()).collect()
    }

    #[test]
    fn letters_and_digits_are_parted() {
        assert_eq!(texts("8x50 on 1:05"), ["8", "x", "50", "on", "1", ":", "05"]);
        assert_eq!(texts("Swift's warm-up"), ["swifts", "warm", "up"]);
        assert_eq!(texts("mañana 3'12\""), ["manana", "3", "'", "12", "\""]);
        assert_eq!(texts("3-5-7"), ["3", "-", "5", "-", "7"]);
        assert_eq!(texts("l4 s/o 1:20"), ["l", "4", "s/o", "1", ":", "20"]);
        assert_eq!(texts("48/49 m/w/f"), ["48", "/", "49", "m", "/", "w", "/", "f"]);
        assert_eq!(texts("@h2if dizzy"), ["@", "h2if", "dizzy"]);
        assert_eq!(texts("8x50 @1:05"), ["8", "x", "50", "@", "1", ":", "05"]);
    }

    #[test]
    fn places_are_kept() {
        let lexed = lex("¿Cuánto? ok");
        let tokens = lexed.tokens();
        assert_eq!(lexed.typed(tokens[1].span), "Cuánto");
    }
}
