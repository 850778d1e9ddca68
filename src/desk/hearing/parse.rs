//! What a text says by our own notation, with the squad's names known; and of danger.

use super::shared_phone::first_word;
use crate::desk::decision::view::View;
use crate::history::Right;
use crate::message::{self, Message, Name, Reading, Statement};
use crate::reading::health::Alarms;
use crate::reading::{self, Decision};

/// Shorter names than this have too many others a letter away.
const SHORTEST_LIKE: usize = 4;

impl View<'_> {
    /// Reads a text; one that begins with a swimmer's name is read with the name
    /// marked as one, where it can't be read without.
    pub fn parse(&self, text: &str) -> Reading {
        let names = |name: &Name| self.is_name(name);
        let reading = self.typed(text, |typed| typed.reading(self.language(), names));
        if matches!(reading, Reading::Understood(_)) {
            return reading;
        }
        let (first, rest) = first_word(text);
        let first = first.trim_end_matches([':', ',']);
        let known = Name::new(first).is_ok_and(|name| self.squad.swimmers.contains_key(&name));
        if !known {
            return reading;
        }
        let rest = rest.trim_start();
        match message::parse_knowing(&format!("@{first} {rest}"), self.language(), names) {
            marked @ Reading::Understood(_) => marked,
            _ => reading,
        }
    }

    /// True for a text in our own notation, whoever's names stand in it.
    pub fn is_notation(&self, text: &str) -> bool {
        let is_name = |name: &Name| self.is_name(name);
        self.typed(text, |typed| typed.is_notation(self.language(), is_name))
    }

    /// True for a word to be taken for a name: a swimmer's, `she` of a guardian,
    /// or to a coach one a letter away, so that they are asked who is meant.
    pub fn is_name(&self, name: &Name) -> bool {
        let like = |known: &Name| {
            known.as_str().chars().count() >= SHORTEST_LIKE
                && strsim::osa_distance(known.as_str(), name.as_str()) == 1
        };
        self.squad.swimmers.contains_key(name)
            || (self.ward().is_some() && message::is_pronoun(name.as_str()))
            || (self.may(Right::SpeakForOthers) && self.squad.swimmers.keys().any(like))
    }

    /// What a text says for certain.
    pub fn statements_of(&self, text: &str) -> Vec<Statement> {
        if text.len() > message::LONGEST_TEXT {
            return vec![];
        }
        match self.parse(text) {
            Reading::Understood(Message { statements }) if self.is_notation(text) => statements,
            strict => match self.reading_of(text) {
                Decision::Take { says, .. } | Decision::Ask { says, .. } if !says.is_empty() => {
                    says
                }
                _ => match strict {
                    Reading::Understood(Message { statements }) => statements,
                    Reading::NotUnderstood { understood, .. } => understood,
                    Reading::Unsure { .. } => vec![],
                },
            },
        }
    }

    /// What a text says in the situation that it comes in.
    pub fn reading_of(&self, text: &str) -> Decision {
        let sit = self.situation();
        self.typed(text, |typed| reading::read_typed(typed, &sit))
    }

    /// What may ail somebody by words that would be asked about, whatever the answer to the
    /// rest is.
    pub fn what_may_ail(&self, text: &str) -> Vec<Statement> {
        let read = match self.reading_of(text) {
            Decision::Nothing => {
                let sit = self.situation();
                self.typed(text, |typed| reading::guess(typed, &sit, false))
            }
            read => read,
        };
        let Decision::Ask { options, .. } = read else { return vec![] };
        let answers = options.iter().map(|(_, says)| says.as_slice());
        Statement::ailing_in_all(answers).into_iter().cloned().collect()
    }

    /// What a text of which nothing else was read tells by its words, to be asked about.
    pub fn what_may_be_told(&self, text: &str) -> Vec<Statement> {
        let sit = self.situation();
        self.typed(text, |typed| reading::tells(typed, &sit))
    }

    /// What a text says of danger, harm and care.
    pub fn alarms(&self, text: &str) -> Alarms {
        let is_other = |word: &str| {
            Name::new(word).is_ok_and(|name| {
                self.swimmer(&name).is_some() && !self.all_of_me().contains(&name)
            })
        };
        self.typed(text, |typed| typed.alarms(&is_other))
    }
}
