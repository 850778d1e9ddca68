//! The languages Lapwing reads and writes.
//!
//! Only names them: the words to read live beside the grammar, the words to
//! say beside the replies, one table a language in each.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A language a swimmer may choose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
pub enum Language {
    /// English, the first and the default.
    #[default]
    #[serde(rename = "en")]
    English,
    /// Spanish.
    #[serde(rename = "es")]
    Spanish,
}

impl Language {
    /// Every language.
    pub const ALL: [Language; 2] = [Language::English, Language::Spanish];

    /// Its two-letter code (ISO 639-1).
    pub const fn code(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::Spanish => "es",
        }
    }
}

impl fmt::Display for Language {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.code())
    }
}
