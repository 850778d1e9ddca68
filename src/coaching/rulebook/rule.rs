//! What one rule is made of.

use crate::language::Language;

/// A rule of coaching: when it applies, what it does, by which number, on
/// whose word.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rule {
    /// Its name in plans, in `why` and in a coach's file.
    pub id: &'static str,
    /// When it applies.
    pub when: &'static str,
    /// What it does then.
    pub then: &'static str,
    /// Its number, where it has one.
    pub number: Option<Number>,
    /// Author and year, or that it is common practice without a source.
    pub source: &'static str,
    /// Why, in one sentence to a swimmer.
    pub reason: Words,
}

/// A number that a coach may change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Number {
    /// What stands if nobody changes it.
    pub value: f64,
    /// What it counts: `min`, `percent`, `days`.
    pub unit: &'static str,
    /// The least a coach may set.
    pub least: f64,
    /// The most a coach may set.
    pub most: f64,
}

/// One sentence in each language.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Words {
    /// English.
    pub en: &'static str,
    /// Spanish.
    pub es: &'static str,
}

impl Words {
    /// The sentence in `language`.
    pub const fn in_language(self, language: Language) -> &'static str {
        match language {
            Language::English => self.en,
            Language::Spanish => self.es,
        }
    }
}
