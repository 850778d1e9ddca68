//! How like a text is to texts about danger, and to those that want care, by its words
//! alone.
//!
//! Two small linear models: words, pairs of words and four letters of longer words,
//! figures and names masked. They only decide what is asked about, or has a line on where
//! help is beside its answer: a text that no rule takes for a danger or a worry, and one
//! whose grave word is most often said of other things. They alarm nobody, and silence
//! nothing. Their weights stand in `grammar/lexicon`, learnt from
//! `grammar/safety/learnt-from.tsv` and from the labels of `grammar/texts` by
//! `cargo test --lib health::models -- --ignored`, the same bits each time.

use std::collections::HashSet;
use std::sync::LazyLock;

use foldhash::fast::RandomState;

use super::signs_in_text::Marked;
use crate::reading::lex::{Form, Token};
use crate::reading::lexicon::Fixed;

/// From this score on a text is asked about.
const ASKED: f64 = 1.0;

/// Below this score words of danger that people also use for other things (`choked`,
/// `drowning`) are asked about rather than believed.
const DOUBTED: f64 = -1.0;

/// From this score on a text wants care, whatever else it says.
const CARED: f64 = 0.0;

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

/// True where the words are like those of texts that want care.
pub fn wants_care(marked: &Marked<'_, '_>) -> bool {
    score_by(&CARE, marked).is_some_and(|score| score >= CARED)
}

fn score_of(marked: &Marked<'_, '_>) -> Option<f64> {
    score_by(&DANGER, marked)
}

fn score_by(weights: &Weights, marked: &Marked<'_, '_>) -> Option<f64> {
    let words = marked.tokens.iter().filter(|token| token.form == Form::Word).count();
    (words >= FEWEST_WORDS)
        .then(|| score(&features(marked.tokens, &marked.named).each_once(), weights))
}

/// Features as they come, one behind the other in one piece of memory.
#[derive(Default)]
struct Features {
    letters: String,
    ends: Vec<usize>,
}

impl Features {
    /// One more, made of these.
    fn push(&mut self, parts: &[&str]) {
        parts.iter().for_each(|part| self.letters.push_str(part));
        self.ends.push(self.letters.len());
    }

    /// Each of them once.
    fn each_once(&self) -> HashSet<&str, RandomState> {
        let mut once = HashSet::with_capacity_and_hasher(self.ends.len(), RandomState::default());
        let mut from = 0;
        for end in &self.ends {
            once.extend(self.letters.get(from..*end));
            from = *end;
        }
        once
    }
}

/// The features of a text.
fn features(tokens: &[Token<'_>], named: &[bool]) -> Features {
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
    let mut features = Features::default();
    for [word, next] in words.array_windows::<2>() {
        features.push(&[word, " ", next]);
    }
    for word in &words {
        features.push(&[word]);
        if word.len() > 4 && word.is_ascii() {
            (0..word.len() - 3).for_each(|at| features.push(&["~", &word[at..at + 4]]));
        }
    }
    features
}

fn score(features: &HashSet<&str, RandomState>, weights: &Weights) -> f64 {
    let sum: i32 = features.iter().filter_map(|one| weights.get(one)).sum();
    let bias = weights.get(BIAS).copied().unwrap_or_default();
    let length = f64::from(u32::try_from(features.len()).unwrap_or(u32::MAX));
    (f64::from(bias) + f64::from(sum) / length.sqrt()) / HUNDREDTHS
}

/// The feature that every text has.
const BIAS: &str = "*";

type Weights = Fixed<&'static str, i32>;

static DANGER: LazyLock<Weights> =
    LazyLock::new(|| read(include_str!("../../../grammar/lexicon/danger-weights.txt")));

static CARE: LazyLock<Weights> =
    LazyLock::new(|| read(include_str!("../../../grammar/lexicon/care-weights.txt")));

fn read(table: &'static str) -> Weights {
    table
        .lines()
        .filter_map(|line| line.split_once('\t'))
        .filter_map(|(feature, weight)| Some((feature, weight.parse().ok()?)))
        .collect()
}

#[cfg(test)]
mod tests {
    use std::collections::{BTreeMap, BTreeSet, HashMap};
    use std::fmt::Write;

    use super::*;
    use crate::reading::lex::lex;

    const DANGERS: &str = include_str!("../../../grammar/safety/learnt-from.tsv");
    const NAMES: [&str; 12] = [
        "heron", "teal", "wren", "robin", "dunnock", "finch", "kite", "lark", "swift", "plover",
        "rook", "puffin",
    ];
    const PASSES: i32 = 12;
    const STEP: f64 = 0.3;
    const SHRINK: f64 = 1.0 - 1e-4;
    /// Lighter weights are left out.
    const LIGHTEST: i32 = 12;

    /// What a model learns from: each text, and whether it is one of those it looks for.
    struct Lesson {
        texts: Vec<(bool, String)>,
        /// One of them counts so much more than another.
        counts: f64,
        table: &'static str,
        from: &'static str,
    }

    fn of_danger() -> Lesson {
        let texts = DANGERS.lines().filter_map(|line| line.split_once('\t'));
        Lesson {
            texts: texts.map(|(label, text)| (label == "+", text.to_owned())).collect(),
            counts: 6.0,
            table: "grammar/lexicon/danger-weights.txt",
            from: "danger, in hundredths; made by\n\
                   # src/reading/health/models.rs from grammar/safety/learnt-from.tsv.",
        }
    }

    /// The labels of people's texts: those that want care first of all, beside those that
    /// don't at all.
    fn of_care(leaves_out: &str) -> Lesson {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/grammar/texts");
        let mut files: Vec<_> =
            std::fs::read_dir(folder).unwrap().map(|one| one.unwrap()).collect();
        files.sort_by_key(std::fs::DirEntry::file_name);
        files.retain(|one| {
            let name = one.file_name().into_string().unwrap();
            name.ends_with(".tsv") && (leaves_out.is_empty() || !name.starts_with(leaves_out))
        });
        let texts =
            files.iter().flat_map(|one| labelled(&std::fs::read_to_string(one.path()).unwrap()));
        Lesson {
            texts: texts.collect(),
            counts: 3.0,
            table: "grammar/lexicon/care-weights.txt",
            from: "care, in hundredths; made by\n\
                   # src/reading/health/models.rs from the labels of grammar/texts.",
        }
    }

    fn labelled(file: &str) -> Vec<(bool, String)> {
        let cares = |label: &str| {
            ["DANGER", "CAUTION", "CARE"].iter().any(|word| label.trim().starts_with(word))
        };
        let rows = file.lines().filter(|line| !line.starts_with('#')).filter_map(|line| {
            let mut columns = line.split('\t').skip(1);
            let (text, label) = (columns.next()?, columns.next()?);
            let first = label.split("||").next().is_some_and(cares);
            let any = label.split("||").any(cares);
            (first == any).then(|| (first, text.to_owned()))
        });
        rows.collect()
    }

    /// A text's features, in order.
    fn features_of(text: &str) -> Vec<String> {
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
        let features = features(&tokens, &named);
        let mut all: Vec<String> = features.each_once().into_iter().map(str::to_owned).collect();
        all.sort_unstable();
        all
    }

    /// Logistic regression by stochastic gradient, the texts taken in a fixed
    /// scattered order.
    fn learn(lesson: &Lesson) -> BTreeMap<String, f64> {
        let texts: Vec<(bool, Vec<String>)> =
            lesson.texts.iter().map(|(one, text)| (*one, features_of(text))).collect();
        let names: BTreeSet<&String> = texts.iter().flat_map(|(_, features)| features).collect();
        let numbers: HashMap<&String, usize> =
            names.iter().enumerate().map(|(number, name)| (*name, number)).collect();
        let texts: Vec<(bool, Vec<usize>)> = texts
            .iter()
            .map(|(one, features)| (*one, features.iter().map(|name| numbers[name]).collect()))
            .collect();
        let mut weights = vec![0.0; names.len()];
        let mut bias = 0.0;
        let count = texts.len();
        for pass in 0..PASSES {
            let step = STEP / (1.0 + f64::from(pass) * 0.3);
            for place in 0..count {
                // A stride with no common divisor visits each once.
                let (is_one, features) = &texts[(place * 7919 + pass as usize) % count];
                let length = f64::from(u32::try_from(features.len()).unwrap()).sqrt();
                let sum: f64 = features.iter().map(|one| weights[*one]).sum();
                let likely = 1.0 / (1.0 + libm::exp(-(bias + sum / length)));
                let (want, weight) = if *is_one { (1.0, lesson.counts) } else { (0.0, 1.0) };
                let change = (want - likely) * weight * step;
                bias += change * 0.1;
                for feature in features {
                    weights[*feature] = weights[*feature] * SHRINK + change / length;
                }
            }
        }
        let named = names.into_iter().cloned().zip(weights);
        named.chain([(BIAS.to_owned(), bias)]).collect()
    }

    fn printed(lesson: &Lesson) -> String {
        let mut out =
            format!("# How much each feature of a text's words speaks for {}\n", lesson.from);
        for (feature, weight) in learn(lesson) {
            let weight = (weight * HUNDREDTHS).round() as i32;
            if weight.abs() >= LIGHTEST || feature == BIAS {
                let _ = writeln!(out, "{feature}\t{weight}");
            }
        }
        out
    }

    fn path(lesson: &Lesson) -> String {
        format!("{}/{}", env!("CARGO_MANIFEST_DIR"), lesson.table)
    }

    #[test]
    #[ignore = "writes the weights anew"]
    fn learns() {
        for lesson in [of_danger(), of_care("")] {
            std::fs::write(path(&lesson), printed(&lesson)).unwrap();
        }
    }

    #[test]
    #[ignore = "tells what a model makes of texts that it has not seen"]
    fn tells_of_unseen_texts() {
        let out = std::env::var("LAPWING_LEFT_OUT").unwrap();
        let table: &'static str = printed(&of_care(&out)).leak();
        let weights = read(table);
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/grammar/texts");
        for file in std::fs::read_dir(folder).unwrap().map(|one| one.unwrap()) {
            if !file.file_name().into_string().unwrap().starts_with(&out) {
                continue;
            }
            for (cares, text) in labelled(&std::fs::read_to_string(file.path()).unwrap()) {
                let features = features_of(&text);
                let features = features.iter().map(String::as_str).collect();
                println!("{cares}\t{:.2}\t{text}", score(&features, &weights));
            }
        }
    }

    #[test]
    fn the_weights_are_those_learnt_from_the_texts() {
        for lesson in [of_danger(), of_care("")] {
            let kept = std::fs::read_to_string(path(&lesson)).unwrap();
            assert!(printed(&lesson) == kept, "cargo test --lib health::models -- --ignored");
        }
    }
}
