//! The grammar as written and the parser as it runs are the same language.
//!
//! Outside check: `abnf-oracle`, a recogniser with full backtracking that reads
//! the same RFC 5234 files and knows nothing of nom.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use abnf_oracle::{CheckedGrammar, Generator, Grammar, Recognizer};
use lapwing::message::parses;
use rand::seq::IndexedRandom;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

const SEED: u64 = 20_260_302;
const SENTENCES: usize = 10_000;

pub fn source() -> String {
    ["message", "set"]
        .map(|name| fs::read_to_string(format!("grammar/{name}.abnf")).unwrap())
        .join("\n")
}

pub fn checked(source: &str) -> CheckedGrammar {
    let grammar = Grammar::parse(source).unwrap_or_else(|e| panic!("{}", e.render(source)));
    grammar.check().unwrap_or_else(|errors| panic!("{}", errors.render(source)))
}

/// Rule name to its text, spaces made single.
pub fn rules() -> BTreeMap<String, String> {
    let mut rules = BTreeMap::new();
    for line in source().lines().filter(|line| !line.starts_with(';') && !line.is_empty()) {
        assert!(!line.starts_with(' '), "a rule stands on one line: {line}");
        let (name, body) = line.split_once('=').unwrap();
        let text = format!("{} = {}", name.trim(), body.trim());
        let again = rules.insert(name.trim().to_owned(), text);
        assert_eq!(again, None, "{name} is defined twice");
    }
    rules
}

/// Function name to the first line of its docs, over the whole grammar room.
fn functions() -> BTreeMap<String, String> {
    let mut functions = BTreeMap::new();
    for entry in fs::read_dir("src/message/grammar").unwrap() {
        let text = fs::read_to_string(entry.unwrap().path()).unwrap();
        let mut docs: Option<&str> = None;
        for line in text.lines() {
            if let Some(doc) = line.strip_prefix("/// ") {
                docs = docs.or(Some(doc));
            } else if let Some(rest) = line.strip_prefix("pub fn ").or(line.strip_prefix("fn ")) {
                let name = rest.split(['(', '<']).next().unwrap();
                functions.insert(name.to_owned(), docs.take().unwrap_or_default().to_owned());
            } else if !line.starts_with('#') {
                docs = None;
            }
        }
    }
    functions
}

#[test]
fn each_rule_has_its_function_and_each_function_its_rule() {
    let rules: BTreeSet<String> = rules().keys().map(|name| name.replace('-', "_")).collect();
    let functions: BTreeSet<String> = functions().into_keys().collect();
    assert_eq!(rules, functions);
}

#[test]
fn each_function_quotes_its_rule() {
    let rules = rules();
    for (function, doc) in functions() {
        assert_eq!(doc, format!("`{}`", rules[&function.replace('_', "-")]), "{function}");
    }
}

#[test]
fn every_sentence_of_the_grammar_parses() {
    let grammar = checked(&source());
    let mut covering = Generator::new(&grammar, SEED).with_options(options(true, grammar_depth()));
    let all = covering.uncovered("message").unwrap();
    let mut count = 0;
    while covering.uncovered("message").unwrap() > 0 {
        accept(&covering.generate("message").unwrap());
        count += 1;
    }
    for sentence in sentences(&grammar, SEED, SENTENCES) {
        accept(&sentence);
    }
    println!("seed {SEED}: {count} sentences cover all {all} branches, {SENTENCES} more at random");
}

#[test]
fn mutants_get_the_same_verdict_from_parser_and_recogniser() {
    let grammar = checked(&source());
    let mut chance = ChaCha8Rng::seed_from_u64(SEED);
    let (mut accepted, mut differing) = (0, Vec::new());
    for sentence in sentences(&grammar, SEED + 1, SENTENCES) {
        let mutant = mutated(&sentence, &mut chance);
        let expected = Recognizer::new(&grammar, &mutant).accepts("message").unwrap();
        accepted += usize::from(expected);
        if parses(&mutant) != expected {
            differing.push((mutant, expected));
        }
    }
    println!("seed {SEED}: of {SENTENCES} mutants {accepted} belong to the grammar");
    assert!(
        differing.is_empty(),
        "{} differ: {:#?}",
        differing.len(),
        &differing[..differing.len().min(10)]
    );
    assert!((SENTENCES / 20..SENTENCES * 19 / 20).contains(&accepted), "{accepted} tell nothing");
}

/// A rule that the grammar has and the parser lost, or the other way round, is
/// found by the two tests above: shown on a grammar with one branch more and on
/// one with one branch less.
#[test]
fn a_broken_rule_is_found() {
    let source = source();
    let more = source.replace("\"push\" / \"dive\"", "\"push\" / \"flip\" / \"dive\"");
    assert_ne!(more, source);
    let grammar = checked(&more);
    let found = sentences(&grammar, SEED, SENTENCES).iter().any(|sentence| !parses(sentence));
    assert!(found, "a branch that the parser lacks went unseen");
    let less = source.replace("%x30-35 DIGIT", "%x30-34 DIGIT");
    assert_ne!(less, source);
    let (whole, grammar) = (checked(&source), checked(&less));
    let found = sentences(&whole, SEED, SENTENCES).iter().any(|sentence| {
        parses(sentence) != Recognizer::new(&grammar, sentence).accepts("message").unwrap()
    });
    assert!(found, "a branch that the grammar lacks went unseen");
}

fn options(coverage: bool, max_depth: usize) -> abnf_oracle::GenOptions {
    abnf_oracle::GenOptions { coverage, max_depth, ..Default::default() }
}

/// Deep enough for rounds in rounds.
const fn grammar_depth() -> usize {
    40
}

fn sentences(grammar: &CheckedGrammar, seed: u64, count: usize) -> Vec<String> {
    let mut generator = Generator::new(grammar, seed).with_options(options(false, grammar_depth()));
    (0..count).map(|_| generator.generate("message").unwrap()).collect()
}

#[track_caller]
fn accept(sentence: &str) {
    assert!(parses(sentence), "seed {SEED}: not parsed: {sentence:?}");
}

/// One to three small changes: of a digit, of a character, or of a whole token.
fn mutated(sentence: &str, chance: &mut ChaCha8Rng) -> String {
    const TOKENS: [&str; 24] = [
        ",", ":", "test", "200", "3:12", "~heron", "@teal", "8x50", "3x(", ")", "held", "x", "on",
        "rest", "\"hm\"", "no", "plan", "next", "6/8", "tue", "splits", "here", "1-4", "50m",
    ];
    const CHARACTERS: [char; 14] =
        ['0', '6', '9', ':', '.', '/', ' ', 'x', 's', 'm', '~', '"', '(', 'é'];
    let mut text = sentence.to_owned();
    for _ in 0..chance.random_range(1..=3) {
        let digits: Vec<usize> =
            text.match_indices(|c: char| c.is_ascii_digit()).map(|(at, _)| at).collect();
        if let Some(&at) = digits.choose(chance).filter(|_| text.len().is_multiple_of(3)) {
            // The digits at the limits of what the grammar counts with.
            let digit = ["0", "1", "5", "6", "9", "00"].choose(chance).unwrap();
            text.replace_range(at..=at, digit);
        } else if chance.random_bool(0.5) {
            let mut tokens: Vec<&str> = text.split(' ').collect();
            let at = chance.random_range(0..tokens.len());
            match chance.random_range(0..4) {
                0 => tokens.insert(at, TOKENS.choose(chance).unwrap()),
                1 => tokens[at] = TOKENS.choose(chance).unwrap(),
                2 => tokens.swap(at, chance.random_range(0..1.max(at))),
                _ => drop(tokens.remove(at)),
            }
            text = tokens.join(" ");
        } else {
            let mut characters: Vec<char> = text.chars().collect();
            let at = chance.random_range(0..characters.len().max(1));
            let new = *CHARACTERS.choose(chance).unwrap();
            match chance.random_range(0..3) {
                0 => characters.insert(at.min(characters.len()), new),
                1 if !characters.is_empty() => characters[at] = new,
                _ if !characters.is_empty() => drop(characters.remove(at)),
                _ => {}
            }
            text = characters.into_iter().collect();
        }
    }
    text
}
