//! One text, taken apart once for all who read it.
//!
//! Knows nothing of who sent it, and so serves the reader of dangers, the grammar and
//! whoever asks whether it is our own notation.

use std::cell::OnceCell;

use super::Name;
use super::normal::{Normal, Words, normalise, plain};
use super::parse::{is_notation_in, read_normal, without_grammar};
use crate::language::Language;
use crate::message::Reading;
use crate::reading::health::{Alarms, alarms_in, names_anybody};
use crate::reading::lex::{Lexed, lex};

/// A text as typed, and what was made of it so far.
#[derive(Debug)]
pub struct Typed<'t> {
    text: &'t str,
    lexed: OnceCell<Lexed>,
    /// What it says of danger, harm and care where nobody is named.
    alarms: OnceCell<Alarms>,
    form: OnceCell<(Language, Form)>,
}

/// A text in the grammar's form.
#[derive(Debug)]
pub(super) struct Form {
    /// Its plain characters.
    pub characters: Vec<char>,
    /// The first number in digits that we do not count with.
    pub foreign_number: Option<String>,
    /// Its tokens.
    pub normal: Normal,
}

impl Form {
    /// `text` in the words of `language`; what it says of danger, where that is known.
    pub fn of(text: &str, language: Language, heard: Option<(&Lexed, &Alarms)>) -> Form {
        let plain = plain(text);
        let characters: Vec<char> = plain.text.chars().collect();
        let normal = normalise(&characters, Words::of(language), heard);
        Form { characters, foreign_number: plain.foreign_number, normal }
    }
}

impl<'t> Typed<'t> {
    /// Nothing made of it yet.
    pub fn new(text: &'t str) -> Self {
        Typed { text, lexed: OnceCell::new(), alarms: OnceCell::new(), form: OnceCell::new() }
    }

    /// What was typed.
    pub fn text(&self) -> &'t str {
        self.text
    }

    /// Its tokens.
    pub fn lexed(&self) -> &Lexed {
        self.lexed.get_or_init(|| lex(self.text))
    }

    /// What it says of danger, harm and care; `is_name` knows other people's names.
    pub fn alarms(&self, is_name: &dyn Fn(&str) -> bool) -> Alarms {
        match names_anybody(self.lexed(), is_name) {
            true => alarms_in(self.lexed(), is_name),
            false => self.alarms_of_nobody().clone(),
        }
    }

    fn alarms_of_nobody(&self) -> &Alarms {
        self.alarms.get_or_init(|| alarms_in(self.lexed(), &|_| false))
    }

    /// Reads it as [`parse_knowing`](super::parse_knowing) does.
    pub fn reading(&self, language: Language, knows: impl Fn(&Name) -> bool) -> Reading {
        without_grammar(self.text, language)
            .unwrap_or_else(|| self.with_form(language, |form| read_normal(form, language, knows)))
    }

    /// True for a text in the program's own notation: no word of it is read over.
    pub fn is_notation(&self, language: Language, knows: impl Fn(&Name) -> bool) -> bool {
        self.with_form(language, |form| is_notation_in(&form.normal, knows))
    }

    fn with_form<O>(&self, language: Language, f: impl FnOnce(&Form) -> O) -> O {
        let form = || Form::of(self.text, language, self.heard());
        let (kept_in, kept) = self.form.get_or_init(|| (language, form()));
        if *kept_in == language { f(kept) } else { f(&form()) }
    }

    /// What the grammar's form needs to know of dangers: the same as it would hear in the
    /// plain characters, as ASCII is plain already.
    fn heard(&self) -> Option<(&Lexed, &Alarms)> {
        self.text.is_ascii().then(|| (self.lexed(), self.alarms_of_nobody()))
    }
}
