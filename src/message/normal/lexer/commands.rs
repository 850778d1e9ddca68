//! Requests that take the rest of a text, or a part of it, as it was typed: words for
//! others, codes, addresses, topics.

use super::{Cutter, LexemeKind, folded, free_text};

impl Cutter<'_> {
    /// `help test`: one topic, in the grammar's word where it has one of its own.
    pub(super) fn help(&mut self, from: usize) {
        self.push(LexemeKind::Token("help".to_owned()), from);
        let start = self.at;
        let rest = self.rest_from(start);
        let ends = |c: &&char| matches!(c, ',' | ';' | '\n' | '.' | '!' | '?');
        let about: String = rest.iter().take_while(|c| !ends(c)).collect();
        self.at = start + about.chars().count();
        let words: Vec<&str> =
            about.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
        let topic = self.long_topic(&words).or_else(|| words.iter().find_map(|w| self.topic(w)));
        if let Some(topic) = topic {
            self.push(LexemeKind::Token(topic), start);
        }
    }

    /// A topic of several words that the grammar writes as one: `test night`.
    fn long_topic(&self, words: &[&str]) -> Option<String> {
        let keys: Vec<String> = words.iter().map(|word| folded(word)).collect();
        let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
        let (canonical, _) = self.words.longest_at(&keys).filter(|(_, taken)| *taken > 1)?;
        matches!(canonical, "test-night" | "hand-over").then(|| canonical.to_owned())
    }

    fn topic(&self, word: &str) -> Option<String> {
        let typed = folded(word);
        let canonical = |word: &str| self.words.longest_at(&[word]).map(|(canonical, _)| canonical);
        let topic = match canonical(&typed) {
            Some("(nothing)") => return None,
            Some("(set)") => "set".to_owned(),
            // A word that the grammar means by another spelling than its own
            // would be another topic when asked again.
            Some(own) if canonical(own) == Some(own) => own.to_owned(),
            Some(own) if own.starts_with('(') => return None,
            _ => typed,
        };
        let letters = topic.bytes().all(|b| b.is_ascii_alphabetic()) && topic.len() <= 20;
        (letters && !topic.is_empty() && !matches!(topic.as_str(), "last" | "rounds"))
            .then_some(topic)
    }

    /// `tell heron: …`, `note …`: all that follows is text.
    pub(super) fn free(&mut self, verb: &str, from: usize) {
        self.push(LexemeKind::Token(verb.to_owned()), from);
        self.skip_spaces();
        let name_from = self.at;
        let mut handle = self.handle();
        if matches!(handle.as_str(), "a" | "to") {
            self.skip_spaces();
            handle.clear();
        }
        let at_sign = handle.is_empty() && self.peek(0) == Some('@');
        self.at += usize::from(at_sign);
        if handle.is_empty() {
            handle = self.handle();
        }
        let colon = self.peek(0) == Some(':');
        let named = !handle.is_empty() && (at_sign || colon || verb == "tell");
        if named {
            let all = !at_sign
                && verb == "tell"
                && self
                    .words
                    .longest_at(&[&folded(&handle)])
                    .is_some_and(|f| matches!(f.0, "all" | "squad"));
            let token = if all { "all".to_owned() } else { format!("@{handle}") };
            self.push(LexemeKind::Token(token), name_from);
            self.at += usize::from(colon);
        } else {
            self.at = name_from + usize::from(handle.is_empty() && colon);
        }
        let text_from = self.at;
        self.at = self.text.len();
        if let Some(text) = free_text(self.rest_from(text_from)) {
            self.push(LexemeKind::Token(text), text_from);
        }
    }

    /// `heron focus on high elbow`: the small word is no part of the words.
    pub(super) fn focus_on(&mut self) {
        let rest: String = self.rest_from(self.at).iter().take(4).collect();
        self.at += if rest == " on " { 3 } else { 0 };
    }

    /// `claim CODE`, where it is one.
    pub(super) fn claim(&mut self, whole: &str, from: usize) {
        let start = self.at + self.rest_from(self.at).iter().take_while(|c| **c == ' ').count();
        let code: String = self
            .rest_from(start)
            .iter()
            .take_while(|c| c.is_ascii_alphanumeric() || **c == '-')
            .collect();
        if !(6..=12).contains(&code.len()) {
            return self.push(LexemeKind::Word(whole.to_owned()), from);
        }
        self.push(LexemeKind::Token("claim".to_owned()), from);
        self.at = start + code.len();
        self.push(LexemeKind::Token(code.to_uppercase()), start);
    }

    /// `invite +1 555 0123 assistant kestrel`: the address is taken whole, a
    /// telephone number without its spaces; the rest is words.
    pub(super) fn invite(&mut self, whole: &str, from: usize) {
        let start = self.at + self.rest_from(self.at).iter().take_while(|c| **c == ' ').count();
        let rest = self.rest_from(start);
        let is_number = rest.first().is_some_and(|c| c.is_ascii_digit() || matches!(c, '+' | '('));
        let in_number =
            |c: &&char| c.is_ascii_digit() || matches!(c, '+' | '-' | ' ' | '(' | ')' | '.');
        let length = match is_number {
            true => rest.iter().take_while(in_number).count(),
            false => rest.iter().take_while(|c| !c.is_whitespace()).count(),
        };
        let typed: String = rest.iter().take(length).collect();
        // What ends the statement is not the address's.
        let typed = typed.trim_end_matches([',', '.', ';', ' ']);
        let length = typed.chars().count();
        let address: String = match is_number {
            true => typed.chars().filter(|c| c.is_ascii_digit() || *c == '+').collect(),
            false => typed.to_owned(),
        };
        let digits = address.chars().filter(char::is_ascii_digit).count();
        let token = free_text(&address.chars().collect::<Vec<_>>());
        let (true, Some(token)) = (digits >= 5 || address.contains([':', '@']), token) else {
            return self.push(LexemeKind::Word(whole.to_owned()), from);
        };
        self.push(LexemeKind::Token("invite".to_owned()), from);
        self.at = start + length;
        self.push(LexemeKind::Token(token), start);
        // Elsewhere `coach` is only how one is spoken to.
        self.skip_spaces();
        let word: String =
            self.rest_from(self.at).iter().take_while(|c| c.is_alphabetic()).collect();
        if matches!(folded(&word).as_str(), "coach" | "entrenador" | "entrenadora") {
            self.push_at(LexemeKind::Token("co-coach".to_owned()), word.chars().count());
        }
    }

    /// `join CODE NAME`
    pub(super) fn join(&mut self, from: usize) {
        self.push(LexemeKind::Token("join".to_owned()), from);
        for is_name in [false, true] {
            self.skip_spaces();
            let start = self.at;
            let chunk: String = self
                .rest_from(start)
                .iter()
                .take_while(|c| !c.is_whitespace() && !matches!(c, ',' | ';'))
                .collect();
            self.at += chunk.chars().count();
            let edge = |c: char| !c.is_alphanumeric() && !matches!(c, '-' | '_');
            let chunk = chunk.trim_matches(edge);
            if !chunk.is_empty() {
                let token = if is_name {
                    format!("@{}", chunk.to_lowercase())
                } else {
                    chunk.to_uppercase()
                };
                self.push(LexemeKind::Token(token), start);
            }
        }
    }
}
