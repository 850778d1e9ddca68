//! Several swimmers who text from one telephone: who is meant.
//!
//! What is said with a name is theirs; what is said without one is asked about.
//! Danger is never asked about first.

use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::history::Right;
use crate::message::{self, Choice, Kind, Message, Name, Statement};
use crate::reply::{Asks, Outcome, QuestionReply};

/// The first word of a text, and what follows it.
pub fn first_word(text: &str) -> (&str, &str) {
    let text = text.trim_start();
    text.split_at(text.find(char::is_whitespace).unwrap_or(text.len()))
}

impl View<'_> {
    /// True if it is not clear which of several swimmers speaks.
    pub fn is_unclear_who(&self) -> bool {
        self.speaker.is_none() && self.member().is_some_and(|member| member.is_shared())
    }

    /// The text without the name of one of them at its start.
    pub fn without_own_name<'t>(&self, text: &'t str) -> &'t str {
        let (first, rest) = first_word(text);
        let name = Name::new(first.trim_end_matches([':', ','])).ok();
        let shared = self.member().is_some_and(|member| member.is_shared());
        match name.filter(|name| shared && self.is_mine(name)) {
            Some(_) => rest.trim_start(),
            None => text,
        }
    }

    /// Where no answer to a question would settle it: asks for the text again,
    /// with the name.
    pub fn say_who(&self) -> Outcome {
        Outcome::Question(QuestionReply {
            asks: Asks::SayWho { names: self.all_of_me() },
            options: vec![],
            until: self.question_until(),
        })
    }
}

impl Desk<'_> {
    /// Takes note of the one of them whom a text names, where it names one.
    pub fn hear_name(&mut self, text: &str) {
        if !self.is_unclear_who() {
            return;
        }
        let mut named: Vec<Name> =
            message::names_in(text).filter(|name| self.is_mine(name)).collect();
        named.dedup();
        if let [one] = named.as_slice() {
            self.view.speaker = Some(one.clone());
        }
    }

    /// The message, with the name of whoever speaks put into the statements about them.
    pub fn spoken(&mut self, message: &Message) -> Message {
        let mut message = message.clone();
        if self.is_unclear_who() {
            let mut named: Vec<&Name> =
                message.statements.iter().filter_map(|one| one.who.as_ref()).collect();
            named.dedup();
            if let [one] = named.as_slice()
                && self.is_mine(one)
            {
                self.view.speaker = Some((*one).clone());
            }
        }
        if self.member().is_some_and(|member| member.is_shared())
            && let Some(speaker) = self.speaker.clone()
        {
            name_all(&mut message, &speaker);
        }
        message
    }

    /// The question who is meant, where one of the statements depends on it.
    pub fn which_person(&mut self, statements: &[&Statement]) -> Option<Outcome> {
        let of_squad = |kind: &Kind| matches!(kind, Kind::Set(_)) && self.may(Right::RunEvening);
        let open = |one: &&Statement| {
            one.who.is_none() && one.kind.nature().is_personal && !of_squad(&one.kind)
        };
        if !self.is_unclear_who() || !statements.iter().any(open) {
            return None;
        }
        let said = Message { statements: statements.iter().map(|one| (*one).clone()).collect() };
        let choices = self.all_of_me().into_iter().map(|name| {
            let mut message = said.clone();
            name_all(&mut message, &name);
            Choice { word: name.to_string(), message }
        });
        let choices: Vec<Choice> = choices.collect();
        let reply = QuestionReply {
            asks: Asks::WhichPerson,
            options: choices.iter().map(|choice| choice.word.clone()).collect(),
            until: self.question_until(),
        };
        self.ask(&reply, choices);
        Some(Outcome::Question(reply))
    }
}

fn name_all(message: &mut Message, name: &Name) {
    for statement in &mut message.statements {
        if statement.who.is_none() && statement.kind.nature().is_personal {
            statement.who = Some(name.clone());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::first_word;

    #[test]
    fn a_blank_before_the_first_word_is_passed_over() {
        assert_eq!(first_word(" \u{e9}\u{e9} 48 49"), ("\u{e9}\u{e9}", " 48 49"));
        assert_eq!(first_word("heron"), ("heron", ""));
        assert_eq!(first_word(""), ("", ""));
    }
}
