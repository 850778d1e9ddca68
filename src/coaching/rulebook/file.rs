//! A coach's own numbers, read from a TOML file.

use std::collections::BTreeMap;
use std::fmt;

use toml::{Spanned, Value};

use super::book::{Rulebook, rules};
use super::rule::Rule;

/// What is wrong with a coach's file, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct BookError {
    /// The line, counted from 1.
    pub line: usize,
    /// What is wrong there.
    pub reason: BookFault,
}

/// What can be wrong with a line.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BookFault {
    /// It is no TOML.
    #[error("not TOML: {0}")]
    Syntax(String),
    /// No rule has that name.
    #[error("no rule `{name}`{}", .nearest.map(|id| format!("; did you mean `{id}`?")).unwrap_or_default())]
    UnknownRule {
        /// The name given.
        name: String,
        /// The nearest name there is, if one is near.
        nearest: Option<&'static str>,
    },
    /// The rule has no number to change.
    #[error("rule `{0}` has no number to change")]
    NoNumber(&'static str),
    /// The value is no number.
    #[error("rule `{rule}` wants a number of {unit}")]
    NotANumber {
        /// The rule.
        rule: &'static str,
        /// What it counts.
        unit: &'static str,
    },
    /// The number is outside what is safe.
    #[error("rule `{rule}` may be {least} to {most} {unit}, not {given}")]
    OutOfRange {
        /// The rule.
        rule: &'static str,
        /// The number given.
        given: f64,
        /// The least allowed.
        least: f64,
        /// The most allowed.
        most: f64,
        /// What it counts.
        unit: &'static str,
    },
}

impl fmt::Display for BookError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "line {}: {}", self.line, self.reason)
    }
}

impl std::error::Error for BookError {}

impl Rulebook {
    /// The standard rules with the numbers of a coach's file in their place.
    ///
    /// Shape: one `rule-id = number` a line.
    ///
    /// ```
    /// use lapwing::coaching::{RuleId, Rulebook};
    /// let book = Rulebook::from_toml("# gentle\nramp-week = 5\n").unwrap();
    /// assert_eq!(book.number(RuleId::RampWeek), 5.0);
    /// let wrong = Rulebook::from_toml("ramp-week = 5\nramp-weak = 5\n").unwrap_err();
    /// assert_eq!(wrong[0].to_string(), "line 2: no rule `ramp-weak`; did you mean `ramp-week`?");
    /// ```
    ///
    /// # Errors
    /// Every line that is wrong, in order; nothing of such a file is used.
    pub fn from_toml(text: &str) -> Result<Rulebook, Vec<BookError>> {
        let line_of = |at: usize| text.bytes().take(at).filter(|byte| *byte == b'\n').count() + 1;
        let table: BTreeMap<Spanned<String>, Spanned<Value>> =
            toml::from_str(text).map_err(|error: toml::de::Error| {
                let line = line_of(error.span().map_or(0, |span| span.start));
                vec![BookError { line, reason: BookFault::Syntax(error.message().to_owned()) }]
            })?;
        let mut book = Rulebook::default();
        let mut errors = Vec::new();
        for (name, value) in &table {
            match checked(name.get_ref(), value.get_ref()) {
                Ok((index, number)) => book.set(index, number),
                Err(reason) => errors.push(BookError { line: line_of(name.span().start), reason }),
            }
        }
        errors.sort_by_key(|error| error.line);
        if errors.is_empty() { Ok(book) } else { Err(errors) }
    }
}

/// The row and the number of one line.
fn checked(name: &str, value: &Value) -> Result<(usize, f64), BookFault> {
    let found = rules().iter().enumerate().find(|(_, rule)| rule.id == name);
    let Some((index, rule)) = found else {
        return Err(BookFault::UnknownRule { name: name.to_owned(), nearest: nearest(name) });
    };
    let number = rule.number.ok_or(BookFault::NoNumber(rule.id))?;
    let given = match value {
        Value::Integer(whole) => *whole as f64,
        Value::Float(given) if given.is_finite() => *given,
        _ => return Err(BookFault::NotANumber { rule: rule.id, unit: number.unit }),
    };
    if !(number.least..=number.most).contains(&given) {
        return Err(BookFault::OutOfRange {
            rule: rule.id,
            given,
            least: number.least,
            most: number.most,
            unit: number.unit,
        });
    }
    Ok((index, given))
}

/// The rule's name that is at most two letters away.
fn nearest(name: &str) -> Option<&'static str> {
    rules()
        .iter()
        .map(|rule: &Rule| (strsim::damerau_levenshtein(rule.id, name), rule.id))
        .min()
        .filter(|(letters, _)| *letters <= 2)
        .map(|(_, id)| id)
}
