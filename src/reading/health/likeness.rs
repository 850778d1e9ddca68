//! How like a text is to texts about danger, by its words alone.
//!
//! A small linear model: words, pairs of words and four letters of longer words,
//! figures and names masked. It only decides what is asked about: a text that no rule
//! takes for a danger, and one whose grave word is most often said of other things.
//! It alarms nobody, and silences nothing. Its weights stand in
//! `grammar/lexicon/danger-weights.txt`, learnt from `grammar/safety/learnt-from.tsv`
//! by `cargo test --lib likeness -- --ignored`, the same bits each time.

use std::collections::HashSet;
use std::sync::LazyLock;

use super::marks::Marked;
use crate::reading::lex::{Form, Token};
use crate::reading::lexicon::Fixed;

/// From this score on a text is asked about.
const ASKED: f64 = 1.0;

/// Below this score words of danger that people also use for other things (`choked`,
/// `drowning`) are asked about rather than believed.
const DOUBTED: f64 = -1.0;

/// Shorter texts say too little.
const FEWEST_WORDS: usize = 4;

/// Weights are kept in hundredths.
const HUNDREDTHS: f64 = 100.0;

/// True where the words are like those of texts about danger.
pub fn is_like_danger(marked: &Marked<'_, '_>) -> bool {
    score_of(marked).is_some_and(|score| score >= ASKED)
}

/// True where the words are quite unlike those of texts about danger.
pub fn is_unlike_danger(marked: &Marked<'_, '_>) -> bool {
    score_of(marked).is_some_and(|score| score < DOUBTED)
}

fn score_of(marked: &Marked<'_, '_>) -> Option<f64> {
    let words = marked.tokens.iter().filter(|token| token.form == Form::Word).count();
    (words >= FEWEST_WORDS).then(|| score(&features(marked.tokens, &marked.named), &WEIGHTS))
}

/// The features of a text, each once.
fn features(tokens: &[Token<'_>], named: &[bool]) -> HashSet<String> {
    let mut words = vec!["^"];
    for (token, named) in tokens.iter().zip(named) {
        match token.form {
            Form::Word if *named => words.push("@"),
            Form::Word => words.push(token.text),
            Form::Digits { .. } => words.push("#"),
            _ => {}
        }
    }
    words.push("$");
    let pairs = words.array_windows::<2>().map(|pair| pair.join(" "));
    let mut features: HashSet<String> = pairs.collect();
    for word in &words {
        features.insert((*word).to_owned());
        if word.len() > 4 && word.is_ascii() {
            features.extend((0..word.len() - 3).map(|at| format!("~{}", &word[at..at + 4])));
        }
    }
    features
}

fn score(features: &HashSet<String>, weights: &Fixed<&str, i32>) -> f64 {
    let sum: i32 = features.iter().filter_map(|one| weights.get(one.as_str())).sum();
    let bias = weights.get(BIAS).copied().unwrap_or_default();
    let length = f64::from(u32::try_from(features.len()).unwrap_or(u32::MAX));
    (f64::from(bias) + f64::from(sum) / length.sqrt()) / HUNDREDTHS
}

/// The feature that every text has.
const BIAS: &str = "*";

static WEIGHTS: LazyLock<Fixed<&'static str, i32>> = LazyLock::new(|| {
    include_str!("../../../grammar/lexicon/danger-weights.txt")
        .lines()
        .filter_map(|line| line.split_once('\t'))
        .filter_map(|(feature, weight)| Some((feature, weight.parse().ok()?)))
        .collect()
});

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;
    use std::fmt::Write;

    use super::*;
    use crate::reading::lex::lex;

    const TEXTS: &str = include_str!("../../../grammar/safety/learnt-from.tsv");
    const NAMES: [&str; 12] = [
        "heron", "teal", "wren", "robin", "dunnock", "finch", "kite", "lark", "swift", "plover",
        "rook", "puffin",
    ];
    const PASSES: i32 = 12;
    const STEP: f64 = 0.3;
    const SHRINK: f64 = 1.0 - 1e-4;
    /// A text about danger counts so much more than another.
    const DANGER: f64 = 6.0;
    /// Lighter weights are left out.
    const LIGHTEST: i32 = 12;

    /// Logistic regression by stochastic gradient, the texts taken in a fixed
    /// scattered order.
    fn learn() -> BTreeMap<String, f64> {
        let mut texts: Vec<(bool, Vec<String>)> = Vec::new();
        for line in TEXTS.lines() {
            let Some((label, text)) = line.split_once('\t') else { continue };
            let lexed = lex(text);
            let tokens = lexed.tokens();
            let bare = |word: &str| word.strip_suffix('s').map(str::to_owned);
            let named: Vec<bool> = tokens
                .iter()
                .map(|token| {
                    NAMES.contains(&token.text)
                        || bare(token.text).is_some_and(|word| NAMES.contains(&word.as_str()))
                })
                .collect();
            let mut all: Vec<String> = features(&tokens, &named).into_iter().collect();
            all.sort_unstable();
            texts.push((label == "+", all));
        }
        let mut weights: BTreeMap<String, f64> = BTreeMap::new();
        let mut bias = 0.0;
        let count = texts.len();
        for pass in 0..PASSES {
            let step = STEP / (1.0 + f64::from(pass) * 0.3);
            for place in 0..count {
                // A stride with no common divisor visits each once.
                let (is_danger, features) = &texts[(place * 7919 + pass as usize) % count];
                let length = f64::from(u32::try_from(features.len()).unwrap()).sqrt();
                let sum: f64 = features.iter().filter_map(|one| weights.get(one)).sum();
                let likely = 1.0 / (1.0 + libm::exp(-(bias + sum / length)));
                let (want, weight) = if *is_danger { (1.0, DANGER) } else { (0.0, 1.0) };
                let change = (want - likely) * weight * step;
                bias += change * 0.1;
                for feature in features {
                    let one = weights.entry(feature.clone()).or_default();
                    *one = *one * SHRINK + change / length;
                }
            }
        }
        weights.insert(BIAS.to_owned(), bias);
        weights
    }

    fn printed(weights: &BTreeMap<String, f64>) -> String {
        let mut out = String::from(
            "# How much each feature of a text's words speaks for danger, in hundredths; made by\n\
             # src/reading/health/likeness.rs from grammar/safety/learnt-from.tsv.\n",
        );
        for (feature, weight) in weights {
            let weight = (weight * HUNDREDTHS).round() as i32;
            if weight.abs() >= LIGHTEST || feature == BIAS {
                let _ = writeln!(out, "{feature}\t{weight}");
            }
        }
        out
    }

    #[test]
    #[ignore = "writes the weights anew"]
    fn learns() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/grammar/lexicon/danger-weights.txt");
        std::fs::write(path, printed(&learn())).unwrap();
    }

    #[test]
    fn the_weights_are_those_learnt_from_the_texts() {
        let kept = include_str!("../../../grammar/lexicon/danger-weights.txt");
        assert_eq!(printed(&learn()), kept, "cargo test --lib likeness -- --ignored");
    }
}
