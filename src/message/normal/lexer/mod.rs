//! The lexer of our own notation: a plain text cut into words, figures and signs. (Whatever
//! else people write has `reading::lex`.)
//!
//! Free text (`tell heron: …`, a remark in quotes), the code and name of `join`
//! and the address of `invite` are taken whole here, before anything could read words in them.

mod commands;

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

impl<'a> Cutter<'a> {
    /// What is still to be read from a place on; nothing past the end.
    fn rest_from(&self, at: usize) -> &'a [char] {
        self.text.get(at..).unwrap_or_default()
    }

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
            self.rest_from(self.at).iter().take_while(|c| c.is_ascii_digit()).collect();
        self.at += digits.len();
        let rest: String =
            self.rest_from(self.at).iter().take_while(|c| c.is_alphabetic()).collect();
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
            true => self.rest_from(self.at).iter().take_while(good).collect(),
            false => String::new(),
        };
        self.at += handle.chars().count();
        handle.to_lowercase()
    }

    /// A remark up to one of `ends`; a quote that never ends is read over.
    fn remark(&mut self, opening: usize, ends: &[char]) {
        let from = self.at;
        let body = self.rest_from(from + opening);
        let end = body.iter().position(|c| ends.contains(c));
        match end.or((ends == ['\n']).then_some(body.len())) {
            Some(length) => {
                let remark = body.get(..length).and_then(free_text);
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
        let letters: String =
            self.rest_from(from).iter().take_while(|c| c.is_alphabetic()).collect();
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
            let whole: String = self.rest_from(from).iter().take(end - from).collect();
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

    fn skip_spaces(&mut self) {
        while self.peek(0) == Some(' ') {
            self.at += 1;
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
