//! A plain text cut into words, figures and signs.
//!
//! Free text (`tell heron: …`, a remark in quotes), the code and name of `join`
//! and the address of `invite` are taken whole here, before anything could read words in them.

use super::characters::folded;
use super::figures::{self, After};
use super::words::Words;

/// A piece of a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lexeme {
    /// What it is.
    pub kind: LexemeKind,
    /// Where it begins in the plain text, in characters.
    pub from: usize,
    /// Where it ends.
    pub to: usize,
}

/// The kinds of piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LexemeKind {
    /// Letters, perhaps with digits, in lower case.
    Word(String),
    /// A token in the grammar's shape already.
    Token(String),
    /// A comma, the end of a line or of a sentence.
    Comma,
    /// A semicolon: the end of a statement.
    Semicolon,
    /// `:` that belongs to no time.
    Colon,
    /// `(`
    Open,
    /// `)`
    Close,
}

/// Cuts a plain text.
pub fn cut(text: &[char], words: &Words) -> Vec<Lexeme> {
    let mut cutter = Cutter {
        text,
        words,
        at: 0,
        found: Vec::new(),
        in_results: Results::None,
        after_repeat: false,
        repeat_seen: false,
    };
    while cutter.at < text.len() {
        cutter.step();
    }
    cutter.found
}

/// Where a text stands with its list of results.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Results {
    None,
    /// In a list, with no comma yet.
    Listed,
    /// Behind a comma: the list goes on, or another set begins.
    Parted,
}

struct Cutter<'a> {
    text: &'a [char],
    words: &'a Words,
    at: usize,
    found: Vec<Lexeme>,
    /// Whether results are being listed, so that ` x ` is a missed one.
    in_results: Results,
    /// True behind a repeat, up to the next comma, and again behind the name of
    /// the next one who swam it.
    after_repeat: bool,
    /// True once a repeat was told.
    repeat_seen: bool,
}

impl Cutter<'_> {
    fn peek(&self, ahead: usize) -> Option<char> {
        self.text.get(self.at + ahead).copied()
    }

    fn digit_ahead(&self, ahead: usize) -> bool {
        self.peek(ahead).is_some_and(|c| c.is_ascii_digit())
    }

    fn push(&mut self, kind: LexemeKind, from: usize) {
        if matches!(kind, LexemeKind::Comma | LexemeKind::Semicolon) {
            self.after_repeat = false;
            self.in_results = match self.in_results {
                Results::Listed => Results::Parted,
                other => other,
            };
        }
        self.found.push(Lexeme { kind, from, to: self.at });
    }

    fn push_at(&mut self, kind: LexemeKind, length: usize) {
        let from = self.at;
        self.at += length;
        self.push(kind, from);
    }

    fn step(&mut self) {
        let Some(c) = self.peek(0) else { return };
        match c {
            '0'..='9' => self.figure(),
            ':' | ';' if self.is_smiley() => self.at += 2,
            '\n' | ',' => self.push_at(LexemeKind::Comma, 1),
            ';' => self.push_at(LexemeKind::Semicolon, 1),
            ':' if self.digit_ahead(1) => self.seconds(),
            ':' => self.push_at(LexemeKind::Colon, 1),
            '+' if self.digit_ahead(1) => self.push_at(LexemeKind::Token("rest".to_owned()), 1),
            '+' => self.push_at(LexemeKind::Comma, 1),
            '@' => self.at_sign(),
            '(' => self.push_at(LexemeKind::Open, 1),
            ')' => self.push_at(LexemeKind::Close, 1),
            '[' => self.remark(1, &[']']),
            '"' => self.remark(1, &['"']),
            '#' => self.remark(1, &['\n']),
            '/' if self.peek(1) == Some('/') => self.remark(2, &['\n']),
            '?' if self.text.len() == 1 => self.push_at(LexemeKind::Word("?".to_owned()), 1),
            '.' | '!' | '?' if self.peek(1).is_none_or(|next| !next.is_alphanumeric()) => {
                self.push_at(LexemeKind::Comma, 1);
            }
            '&' | '*' => self.push_at(LexemeKind::Word(c.to_string()), 1),
            c if c.is_alphabetic() => self.word(),
            _ => self.at += 1,
        }
    }

    fn is_smiley(&self) -> bool {
        matches!(self.peek(1), Some(')' | '(' | '|' | 'D' | 'P'))
            && self.peek(2).is_none_or(|c| !c.is_alphanumeric())
    }

    fn figure(&mut self) {
        let from = self.at;
        let after = match self.found.last().map(|last| &last.kind) {
            Some(LexemeKind::Comma) if self.found.last().is_some_and(|l| l.to == from) => {
                After::Comma
            }
            _ if self.in_results == Results::Listed => After::Listed,
            _ if self.in_results == Results::Parted => After::Result,
            Some(LexemeKind::Token(_) | LexemeKind::Word(_)) if self.after_repeat => After::Result,
            _ => After::Other,
        };
        let figure = figures::read(self.text, from, after, self.words);
        self.at = figure.end;
        for token in figure.tokens {
            self.repeat_seen |= token.contains('x');
            self.after_repeat |= token.contains('x');
            self.push(LexemeKind::Token(token), from);
        }
    }

    /// `:55`
    fn seconds(&mut self) {
        let from = self.at;
        self.at += 1;
        let digits: String =
            self.text[self.at..].iter().take_while(|c| c.is_ascii_digit()).collect();
        self.at += digits.len();
        let rest: String = self.text[self.at..].iter().take_while(|c| c.is_alphabetic()).collect();
        if self.words.unit(&rest) == Some("s") {
            self.at += rest.chars().count();
        }
        self.push(LexemeKind::Token(format!("{digits}s")), from);
    }

    /// `@1:45` is a send-off, `@heron` a person.
    fn at_sign(&mut self) {
        let from = self.at;
        self.at += 1;
        let handle = self.handle();
        if handle.is_empty() {
            self.push(LexemeKind::Word("@".to_owned()), from);
        } else if handle != "lapwing" {
            self.push(LexemeKind::Token(format!("@{handle}")), from);
        }
    }

    /// Takes the handle that begins here, in lower case; none may be there.
    fn handle(&mut self) -> String {
        let begins = self.peek(0).is_some_and(char::is_alphabetic);
        let good = |c: &&char| c.is_alphanumeric() || matches!(c, '-' | '_');
        let handle: String = match begins {
            true => self.text[self.at..].iter().take_while(good).collect(),
            false => String::new(),
        };
        self.at += handle.chars().count();
        handle.to_lowercase()
    }

    /// A remark up to one of `ends`; a quote that never ends is read over.
    fn remark(&mut self, opening: usize, ends: &[char]) {
        let from = self.at;
        let body = &self.text[(from + opening).min(self.text.len())..];
        let end = body.iter().position(|c| ends.contains(c));
        match end.or((ends == ['\n']).then_some(body.len())) {
            Some(length) => {
                let remark = free_text(&body[..length]);
                self.at =
                    (from + opening + length + usize::from(ends != ['\n'])).min(self.text.len());
                if let Some(remark) = remark {
                    self.push(LexemeKind::Token(remark), from);
                }
            }
            None => self.at += opening,
        }
    }

    fn word(&mut self) {
        let from = self.at;
        let letters: String = self.text[from..].iter().take_while(|c| c.is_alphabetic()).collect();
        let after = from + letters.chars().count();
        let next = |ahead: usize| self.text.get(after + ahead).copied();
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        let key = folded(&letters);
        let splits = self.words.longest_at(&[&key]).is_some() || matches!(key.as_str(), "t" | "l");
        if key == "l" && digit(next(0)) {
            self.at = after;
            self.in_results = Results::Listed;
            self.push(LexemeKind::Token("lane".to_owned()), from);
        } else if splits && (digit(next(0)) || (next(0) == Some('-') && digit(next(1)))) {
            self.at = after + usize::from(next(0) == Some('-'));
            self.push(LexemeKind::Word(letters.to_lowercase()), from);
        } else {
            let good = |at: usize| {
                let inner = matches!(self.text.get(at), Some('-' | '_' | '\'' | '/'));
                let letter = |c: Option<&char>| c.is_some_and(|c| c.is_alphabetic());
                match self.text.get(at) {
                    Some(c) if c.is_alphanumeric() => true,
                    Some('\'' | '/') => letter(self.text.get(at + 1)),
                    Some(_) if inner => self.text.get(at + 1).is_some_and(|c| c.is_alphanumeric()),
                    _ => false,
                }
            };
            let end = (after..self.text.len()).find(|&at| !good(at)).unwrap_or(self.text.len());
            self.at = end;
            let whole: String = self.text[from..end].iter().collect();
            self.words_of(&whole.to_lowercase(), from);
        }
    }

    /// Pushes a word, or its parts where only the parts are known (`warm-up`).
    fn words_of(&mut self, whole: &str, from: usize) {
        let key = folded(whole);
        let canonical = self.words.longest_at(&[&key]).map(|(canonical, _)| canonical);
        let starts = self.at_statement_start();
        match canonical {
            Some("held" | "lane") => self.in_results = Results::Listed,
            Some("tell" | "note" | "focus") if starts => {
                let verb = canonical.unwrap_or_default().to_owned();
                return self.free(&verb, from);
            }
            Some("focus") if self.after_name() => {
                self.focus_on();
                return self.free("focus", from);
            }
            Some("join") if starts => return self.join(from),
            Some("claim") if starts => return self.claim(whole, from),
            Some("invite") if starts => return self.invite(whole, from),
            Some("help") if starts || self.after_name() => return self.help(from),
            _ => {}
        }
        let parts: Vec<&str> = whole.split(['-', '/']).filter(|part| !part.is_empty()).collect();
        if canonical.is_none() && parts.len() > 1 {
            let keys: Vec<String> = parts.iter().map(|part| folded(part)).collect();
            let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
            let phrase = self.words.longest_at(&keys).is_some_and(|(_, taken)| taken == keys.len());
            if phrase || keys.iter().all(|key| self.words.longest_at(&[key]).is_some()) {
                for part in parts {
                    self.push(LexemeKind::Word(part.to_owned()), from);
                }
                return;
            }
        }
        self.after_repeat |= canonical.is_none() && self.repeat_seen;
        self.push(LexemeKind::Word(whole.to_owned()), from);
    }

    /// True at the beginning, after a comma, and after one name there.
    fn at_statement_start(&self) -> bool {
        match self.found.last().map(|last| &last.kind) {
            None | Some(LexemeKind::Comma | LexemeKind::Semicolon) => true,
            Some(_) => false,
        }
    }

    /// True behind `@name` or a word that may be a name, at the beginning.
    fn after_name(&self) -> bool {
        let is_name = |kind: &LexemeKind| match kind {
            LexemeKind::Token(token) => token.starts_with('@'),
            LexemeKind::Word(word) => self.words.longest_at(&[&folded(word)]).is_none(),
            _ => false,
        };
        match self.found.as_slice() {
            [name] => is_name(&name.kind),
            [.., before, name] => {
                matches!(before.kind, LexemeKind::Comma | LexemeKind::Semicolon)
                    && is_name(&name.kind)
            }
            [] => false,
        }
    }

    /// `help test`: one topic, in the grammar's word where it has one of its own.
    fn help(&mut self, from: usize) {
        self.push(LexemeKind::Token("help".to_owned()), from);
        let start = self.at;
        let rest = &self.text[start..];
        let length = rest.iter().position(|c| matches!(c, ',' | ';' | '\n' | '.' | '!' | '?'));
        let length = length.unwrap_or(rest.len());
        let about: String = rest[..length].iter().collect();
        self.at = start + length;
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

    fn skip_spaces(&mut self) {
        while self.peek(0) == Some(' ') {
            self.at += 1;
        }
    }

    /// `tell heron: …`, `note …`: all that follows is text.
    fn free(&mut self, verb: &str, from: usize) {
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
        if let Some(text) = free_text(&self.text[text_from.min(self.text.len())..]) {
            self.push(LexemeKind::Token(text), text_from);
        }
    }

    /// `heron focus on high elbow`: the small word is no part of the words.
    fn focus_on(&mut self) {
        let rest: String = self.text[self.at..].iter().take(4).collect();
        self.at += if rest == " on " { 3 } else { 0 };
    }

    /// `claim CODE`, where it is one.
    fn claim(&mut self, whole: &str, from: usize) {
        let start = self.at + self.text[self.at..].iter().take_while(|c| **c == ' ').count();
        let code: String = self.text[start..]
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
    fn invite(&mut self, whole: &str, from: usize) {
        let start = self.at + self.text[self.at..].iter().take_while(|c| **c == ' ').count();
        let rest = &self.text[start..];
        let is_number = rest.first().is_some_and(|c| c.is_ascii_digit() || matches!(c, '+' | '('));
        let in_number =
            |c: &&char| c.is_ascii_digit() || matches!(c, '+' | '-' | ' ' | '(' | ')' | '.');
        let length = match is_number {
            true => rest.iter().take_while(in_number).count(),
            false => rest.iter().take_while(|c| !c.is_whitespace()).count(),
        };
        let typed: String = rest[..length].iter().collect();
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
        let word: String = self.text[self.at..].iter().take_while(|c| c.is_alphabetic()).collect();
        if matches!(folded(&word).as_str(), "coach" | "entrenador" | "entrenadora") {
            self.push_at(LexemeKind::Token("co-coach".to_owned()), word.chars().count());
        }
    }

    /// `join CODE NAME`
    fn join(&mut self, from: usize) {
        self.push(LexemeKind::Token("join".to_owned()), from);
        for is_name in [false, true] {
            self.skip_spaces();
            let start = self.at;
            let chunk: String = self.text[start..]
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

/// Free text as a token: spaces single, inner quotes made single ones.
pub fn free_text(text: &[char]) -> Option<String> {
    let text: String = text.iter().map(|&c| if c == '"' { '\'' } else { c }).collect();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let text = text.trim_start_matches([':', ' ']);
    (!text.is_empty()).then(|| format!("\"{text}\""))
}
