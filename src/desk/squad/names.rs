//! Which names may be taken: no word that we read as a command, and none that
//! only letters which look alike tell from another's.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use unicode_normalization::UnicodeNormalization;

use super::office_words::is_office_word;
use crate::desk::decision::refusing::{Stopped, turned_down};
use crate::desk::decision::view::View;
use crate::message::{self, Name};
use crate::reading::health::alarms;
use crate::reply::OfficeRefusal;

/// Why a name may not be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unfit {
    /// It is a word of command.
    CommandWord,
    /// It looks like another's.
    LooksAlike,
}

/// Why a name may not be taken, where it may not.
pub fn unfit(view: &View<'_>, name: &Name) -> Option<Unfit> {
    if is_command(name.as_str()) {
        return Some(Unfit::CommandWord);
    }
    let alike = view.others_here(name).any(|other| looks_like(name, other));
    alike.then_some(Unfit::LooksAlike)
}

/// Refuses a name that is a word of command or looks like another's.
pub fn fit(view: &View<'_>, name: &Name) -> Result<(), Stopped> {
    let Some(unfit) = unfit(view, name) else { return Ok(()) };
    let (name, instead) = (name.clone(), instead_of(view, name));
    Err(match unfit {
        Unfit::CommandWord => {
            turned_down("command_word", OfficeRefusal::CommandWord { name, instead })
        }
        Unfit::LooksAlike => {
            turned_down("looks_alike", OfficeRefusal::LooksAlike { name, instead })
        }
    })
}

/// True for a word that a text may begin with, or be, in either language, and
/// then means no person.
pub fn is_command(word: &str) -> bool {
    COMMANDS.contains(word)
        || is_office_word(word)
        || message::is_opt_out(word)
        || message::is_opt_in(word)
        || message::is_yes(word)
        || message::is_help(word)
        || message::is_worried(word)
        || alarms(word, &|_| false).is_any()
}

impl View<'_> {
    /// Every other name in the squad, also of those who left.
    fn others_here<'a>(&'a self, name: &'a Name) -> impl Iterator<Item = &'a Name> {
        let called = self.squad.members.values().filter_map(|member| member.called.as_ref());
        let swim = self.squad.swimmers.keys().chain(self.squad.former.keys());
        swim.chain(called).filter(move |other| *other != name)
    }
}

/// Another name, near to the one wished for.
fn instead_of(view: &View<'_>, name: &Name) -> Name {
    let free = |other: &Name| {
        !view.squad.is_taken(other)
            && !is_command(other.as_str())
            && !view.others_here(other).any(|one| looks_like(other, one))
    };
    // A digit at the end that no letter looks like.
    let longer = (2..).filter(|digit| !"10".contains(&digit.to_string())).take(200);
    let short: String = name.as_str().chars().take(16).collect();
    longer
        .filter_map(|digit| Name::new(&format!("{short}{digit}")).ok())
        .find(free)
        .unwrap_or_else(|| name.clone())
}

/// True where the two are the same to the eye.
fn looks_like(one: &Name, other: &Name) -> bool {
    skeleton(one.as_str()) == skeleton(other.as_str())
}

/// A name with all that looks alike made the same. The pairs are those of
/// Unicode Technical Standard 39 (confusables) within Latin, Greek and Cyrillic
/// small letters, as far as a handle may hold them; from memory.
fn skeleton(name: &str) -> String {
    let bare: String = name
        .nfkd()
        .filter(|c| !('\u{300}'..='\u{36f}').contains(c))
        .flat_map(char::to_lowercase)
        .map(|c| match c {
            '0' | '\u{3bf}' | '\u{43e}' => 'o',
            '1' | 'i' | '|' | '\u{3b9}' | '\u{456}' | '\u{131}' | '\u{4cf}' => 'l',
            '5' | '\u{455}' => 's',
            '\u{430}' | '\u{3b1}' => 'a',
            '\u{435}' => 'e',
            '\u{440}' | '\u{3c1}' => 'p',
            '\u{441}' => 'c',
            '\u{443}' | '\u{3b3}' => 'y',
            '\u{445}' | '\u{3c7}' => 'x',
            '\u{3bd}' => 'v',
            '\u{43a}' | '\u{3ba}' => 'k',
            '\u{442}' | '\u{3c4}' => 't',
            '\u{458}' => 'j',
            '\u{4bb}' => 'h',
            '\u{501}' => 'd',
            '\u{51b}' => 'q',
            '\u{51d}' => 'w',
            '-' => '_',
            other => other,
        })
        .collect();
    bare.replace("rn", "m").replace("vv", "w").replace("cl", "d")
}

/// The words that the grammar reads, of both languages: those that stand alone on
/// either side of the tables. Words that say nothing are no command.
static COMMANDS: LazyLock<BTreeSet<&'static str>> = LazyLock::new(|| {
    const TABLES: [&str; 2] = [
        include_str!("../../../grammar/words/english.txt"),
        include_str!("../../../grammar/words/spanish.txt"),
    ];
    let mut words = BTreeSet::new();
    for table in TABLES {
        for line in table.lines().filter(|line| !line.starts_with('#')) {
            let Some((canonical, spellings)) = line.split_once('=') else { continue };
            if canonical.trim() == "(nothing)" {
                continue;
            }
            let all = spellings.split(',').chain([canonical]).map(str::trim);
            words.extend(all.filter(|word| Name::new(word).is_ok()));
        }
    }
    words
});

#[cfg(test)]
mod tests {
    use super::*;

    fn name(word: &str) -> Name {
        Name::new(word).unwrap()
    }

    #[test]
    fn commands_of_both_languages_are_known_and_birds_are_none() {
        for word in
            ["here", "squad", "next", "stop", "plan", "undo", "ayuda", "equipo", "baja", "staff"]
        {
            assert!(is_command(word), "{word}");
        }
        for bird in ["heron", "teal", "wren", "knot", "ruff", "swift", "martin", "robin", "pipit"] {
            assert!(!is_command(bird), "{bird}");
        }
    }

    #[test]
    fn only_what_looks_alike_is_alike() {
        for (one, other) in [
            ("heron", "her0n"),
            ("teal", "tea1"),
            ("teal", "teai"),
            ("tern", "tem"),
            ("wren", "vvren"),
            ("heron", "h\u{435}ron"),
            ("heron", "h\u{e9}ron"),
            ("a-b", "a_b"),
            ("dunlin", "clunlin"),
        ] {
            assert!(looks_like(&name(one), &name(other)), "{one} {other}");
        }
        for (one, other) in
            [("heron", "herons"), ("teal", "seal"), ("wren", "wrens"), ("ann", "anne")]
        {
            assert!(!looks_like(&name(one), &name(other)), "{one} {other}");
        }
    }
}
