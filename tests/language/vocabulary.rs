//! The word tables and the grammar speak of the same words: what a table makes
//! of a spelling the grammar reads, and each word that the grammar reads has a
//! spelling in every language.

use std::collections::BTreeSet;

use lapwing::language::Language;
use lapwing::units::{Equipment, Level, Stroke};

use crate::grammar::rules;

/// Tokens of the tables that the normaliser settles by their neighbours before
/// the grammar sees them, and `last`, `rounds` and the months, which it joins
/// to a number or a weekday.
const SETTLED: [&str; 15] = [
    "(nothing)",
    "(set)",
    "(side)",
    "(in)",
    "(at)",
    "(of)",
    "(plus)",
    "(level)",
    "(do)",
    "(off)",
    "(move)",
    "(got)",
    "(gone)",
    "last",
    "rounds",
];

/// Strings of the grammar that are no words: signs, units, joints of figures.
const NO_WORDS: [&str; 19] = [
    "s",
    "h",
    "min",
    "last-",
    "1-",
    "x(",
    "pool-25m",
    "pool-50m",
    "pool-25yd",
    ",",
    ";",
    ":",
    "@",
    "~",
    "-",
    "_",
    "/",
    ".",
    ")",
];

/// Words that other tables bring: the alarms of `grammar/safety`, and `hurt`,
/// which is `pain` behind `squad`.
const BROUGHT: [&str; 3] = ["faint", "welfare", "hurt"];

fn table(language: Language) -> String {
    let name = match language {
        Language::English => "english",
        Language::Spanish => "spanish",
    };
    std::fs::read_to_string(format!("grammar/words/{name}.txt")).unwrap()
}

/// What stands on the left of a table, token by token.
fn canonical(language: Language) -> BTreeSet<String> {
    table(language)
        .lines()
        .filter(|line| !line.starts_with(['#', '[']))
        .filter_map(|line| line.split_once(" = "))
        .filter(|(left, _)| !left.starts_with("unit "))
        .flat_map(|(left, _)| left.split(' ').map(str::to_owned).collect::<Vec<_>>())
        .collect()
}

/// Each quoted string of the grammar.
fn literals() -> BTreeSet<String> {
    rules()
        .values()
        .flat_map(|rule| rule.split('"').skip(1).step_by(2).map(str::to_owned).collect::<Vec<_>>())
        .collect()
}

#[test]
fn tables_and_grammar_share_their_words() {
    let literals = literals();
    for language in Language::ALL {
        let words = canonical(language);
        let unread: Vec<&String> = words
            .iter()
            .filter(|word| !SETTLED.contains(&word.as_str()) && !literals.contains(*word))
            .collect();
        assert!(unread.is_empty(), "{language}: the grammar doesn't read {unread:?}");
        let unspelt: Vec<&String> = literals
            .iter()
            .filter(|word| !NO_WORDS.contains(&word.as_str()) && !BROUGHT.contains(&word.as_str()))
            .filter(|word| !words.contains(*word))
            .collect();
        assert!(unspelt.is_empty(), "{language}: nothing spells {unspelt:?}");
    }
}

#[test]
fn the_grammar_names_what_the_units_name() {
    let rules = rules();
    let listed = |rule: &str| -> Vec<String> {
        rules[rule].split('"').skip(1).step_by(2).map(str::to_owned).collect()
    };
    let names = |all: Vec<&str>| all.into_iter().map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(listed("stroke"), names(Stroke::ALL.iter().map(|one| one.name()).collect()));
    assert_eq!(listed("level"), names(Level::ALL.iter().map(|one| one.name()).collect()));
    let kit = Equipment::ALL.iter().map(|one| one.name().trim_start_matches("pull_")).collect();
    assert_eq!(listed("equipment"), names(kit));
}
