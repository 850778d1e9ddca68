//! The form that every explanation has.

use std::fmt;

/// Why a number is what it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Explanation {
    /// The number explained, for people: `critical speed per 100`.
    pub number: &'static str,
    /// The formula in plain signs.
    pub formula: &'static str,
    /// The same with the swimmer's own numbers.
    pub with: String,
    /// Where the formula comes from.
    pub source: Source,
    /// How sure the result is.
    pub sureness: Sureness,
}

/// Where a formula comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Source {
    /// Plain arithmetic, which needs none.
    Arithmetic,
    /// A publication.
    Published(&'static str),
    /// A table of data, by its own account of itself.
    Table(String),
    /// Usual in the trade, with nothing published behind it.
    CommonPractice,
    /// Our choice, and what it leans on.
    Ours(&'static str),
}

/// How sure a number is.
#[derive(Debug, Clone, PartialEq)]
pub enum Sureness {
    /// It follows exactly from what was told.
    Exact,
    /// It lies in a band.
    Band {
        /// The lower edge, as shown.
        low: String,
        /// The upper edge, as shown.
        high: String,
        /// What the band means.
        meaning: &'static str,
    },
    /// It is a rule of thumb.
    RuleOfThumb,
    /// It describes; nothing may be concluded from it.
    DescribesOnly,
}

impl fmt::Display for Source {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Source::Arithmetic => out.write_str("arithmetic"),
            Source::Published(text) => out.write_str(text),
            Source::Table(text) => out.write_str(text),
            Source::CommonPractice => out.write_str("common practice, no source"),
            Source::Ours(text) => write!(out, "ours: {text}"),
        }
    }
}

impl fmt::Display for Sureness {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Sureness::Exact => out.write_str("exact"),
            Sureness::Band { low, high, meaning } => write!(out, "{low} to {high}, {meaning}"),
            Sureness::RuleOfThumb => out.write_str("a rule of thumb"),
            Sureness::DescribesOnly => out.write_str("describes, predicts nothing"),
        }
    }
}

impl fmt::Display for Explanation {
    /// One fact a line, for logs and snapshots; replies word it themselves.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Explanation { number, formula, with, source, sureness } = self;
        write!(out, "{number}\n  {formula}\n  {with}\n  source: {source}\n  sure: {sureness}")
    }
}
