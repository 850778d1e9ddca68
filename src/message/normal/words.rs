//! The word tables: one file a language, shared by the normaliser, by help and
//! by the search for what a misspelt word may have meant.

use std::sync::LazyLock;

use super::characters::folded;
use crate::language::Language;
use crate::reading::lexicon::Fixed;

/// The words of one language.
pub struct Words {
    /// Spelling, its words parted by one space, to what the grammar reads.
    spellings: Fixed<&'static str, &'static str>,
    /// What may follow a number, to the unit's name.
    units: Fixed<&'static str, &'static str>,
    /// The first word of each spelling, to the most words that one of them has.
    firsts: Fixed<&'static str, usize>,
}

/// The text of a language's table, as kept in `grammar/words/`.
pub const fn table(language: Language) -> &'static str {
    match language {
        Language::English => include_str!("../../../grammar/words/english.txt"),
        Language::Spanish => include_str!("../../../grammar/words/spanish.txt"),
    }
}

/// The rows of a table: what the grammar reads, and each of its spellings.
pub fn rows(table: &'static str) -> impl Iterator<Item = (&'static str, &'static str)> {
    table
        .lines()
        .filter(|line| !line.starts_with('#') && !line.starts_with('['))
        .filter_map(|line| line.split_once(" = "))
        .flat_map(|(canonical, all)| {
            all.split(", ").map(move |spelling| (canonical.trim(), spelling.trim()))
        })
}

impl Words {
    /// The words of `language`.
    pub fn of(language: Language) -> &'static Words {
        static ENGLISH: LazyLock<Words> = LazyLock::new(|| Words::load(Language::English));
        static SPANISH: LazyLock<Words> = LazyLock::new(|| Words::load(Language::Spanish));
        match language {
            Language::English => &ENGLISH,
            Language::Spanish => &SPANISH,
        }
    }

    fn load(language: Language) -> Words {
        let mut words = Words {
            spellings: Fixed::default(),
            units: Fixed::default(),
            firsts: Fixed::default(),
        };
        for (canonical, spelling) in rows(table(language)) {
            if let Some(unit) = canonical.strip_prefix("unit ") {
                words.units.insert(spelling, unit);
            } else {
                let first = spelling.split(' ').next().unwrap_or(spelling);
                let most = words.firsts.entry(first).or_default();
                *most = spelling.split(' ').count().max(*most);
                words.spellings.insert(spelling, canonical);
            }
        }
        words
    }

    /// What the longest spelling at the start of `ahead` stands for, and how
    /// many words it takes. The words are folded already.
    pub fn longest_at(&self, ahead: &[&str]) -> Option<(&'static str, usize)> {
        // A key may be two words: `I'll` is `i will`.
        let alone = *ahead.first()?;
        let first = alone.split(' ').next().unwrap_or_default();
        let most = self.firsts.get(first).copied().unwrap_or(1);
        (1..=most.min(ahead.len())).rev().find_map(|count| {
            let found = match count {
                1 => self.spellings.get(alone),
                _ => self.spellings.get(ahead.get(..count)?.join(" ").as_str()),
            };
            found.map(|&canonical| (canonical, count))
        })
    }

    /// The unit that a word after a number names.
    pub fn unit(&self, word: &str) -> Option<&'static str> {
        self.units.get(folded(word).as_str()).copied()
    }

    /// Spellings one slip of the finger away from `word`, the nearest in the
    /// alphabet first: one letter wrong, missing, too many, or two swapped. The
    /// first letter must be right or be one of the two swapped.
    pub fn one_slip_from(&self, word: &str) -> Vec<&'static str> {
        if word.chars().count() < 3 {
            return Vec::new();
        }
        let first = |text: &str| text.chars().next();
        let mut near: Vec<&'static str> = self
            .spellings
            .keys()
            .copied()
            .filter(|spelling| spelling.chars().count() >= 3 && !spelling.contains(' '))
            .filter(|spelling| {
                first(spelling) == first(word) || word.chars().nth(1) == first(spelling)
            })
            .filter(|spelling| spelling.len().abs_diff(word.len()) <= 1)
            .filter(|spelling| strsim::osa_distance(spelling, word) == 1)
            .collect();
        // The right letters in the wrong order go before a wrong letter.
        let letters = |word: &str| {
            let mut letters: Vec<char> = word.chars().collect();
            letters.sort_unstable();
            letters
        };
        let typed = letters(word);
        near.sort_unstable_by_key(|spelling| (letters(spelling) != typed, *spelling));
        near
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashMap;

    use super::*;

    #[test]
    fn the_longest_spelling_is_found_behind_a_key_of_two_words() {
        let words = Words::of(Language::English);
        assert_eq!(words.longest_at(&["i will", "miss", "it"]), Some(("out", 3)));
        assert_eq!(words.longest_at(&["i", "will", "miss"]), Some(("out", 3)));
    }

    #[test]
    fn each_spelling_stands_once_and_folded() {
        for language in Language::ALL {
            let mut seen = HashMap::new();
            for (canonical, spelling) in rows(table(language)) {
                assert_eq!(folded(spelling), spelling, "{language}: {spelling} is not folded");
                let unit = canonical.starts_with("unit ");
                let before = seen.insert((unit, spelling), canonical);
                assert_eq!(before, None, "{language}: `{spelling}` stands twice ({canonical})");
            }
        }
    }
}
