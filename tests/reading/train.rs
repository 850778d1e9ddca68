//! Trains the weights of the words from labelled texts.
//!
//! `LAPWING_TEXTS="a.tsv b.tsv" cargo test --test reading train::train -- --ignored` writes
//! `grammar/weights/`: the same bits each time. `LAPWING_WITHOUT=a.tsv` leaves a
//! file out, for measuring on writers that the weights have not seen.

use std::collections::{BTreeMap, HashMap};
use std::fmt::Write;
use std::path::PathBuf;

use lapwing::language::Language;
use lapwing::reading::likely::{self, Class, Row, Stands, Telling, may_be};

use super::aligned::{aligned, is_dated, telling};
use super::choose::{self, Example as Choice, PART};
use super::label::{Label, Reading};
use super::score;
use super::squad::{Context, Squads, in_its_pieces};

/// Passes over all texts.
const PASSES: usize = 24;
/// The first step.
const STEP: f64 = 0.6;
/// How strongly weights are held small.
const DECAY: f64 = 2e-4;
/// Features seen in fewer texts tell nothing.
const LEAST: usize = 3;
/// The same for the weights of doubt: what makes a reading doubtful is noisier.
const LEAST_OF_DOUBT: usize = 6;
const STEP_OF_DOUBT: f64 = 0.1;
const DECAY_OF_DOUBT: f64 = 2e-3;

struct Example {
    features: Vec<usize>,
    /// True where it says this, none where a label leaves it open.
    says: Vec<Option<bool>>,
}

/// The files to learn from, which `LAPWING_TEXTS` names.
fn files() -> Vec<PathBuf> {
    let files = std::env::var("LAPWING_TEXTS").unwrap();
    files.split_whitespace().map(PathBuf::from).collect()
}

/// A language as its tables are called.
const fn name(language: Language) -> &'static str {
    match language {
        Language::English => "english",
        Language::Spanish => "spanish",
    }
}

/// The classes that a label asks for, and those that it allows.
fn classes(label: &Label) -> Option<(Vec<Class>, Vec<Class>)> {
    let of = |reading: &Vec<serde_json::Map<String, serde_json::Value>>| -> Vec<Class> {
        let kinds = reading.iter().filter_map(|one| one["kind"].as_str());
        kinds.filter_map(|kind| Class::named(kind.trim_start_matches('+'))).collect()
    };
    let mut readings = label.readings.iter().map(of);
    let first = match readings.next() {
        Some(first) => first,
        None if label.nothing => vec![Class::Nothing],
        None => return None,
    };
    Some((first, readings.flatten().collect()))
}

#[test]
#[ignore = "writes the weights anew"]
fn train() {
    let without = std::env::var("LAPWING_WITHOUT").unwrap_or_default();
    let mut files = files();
    files.retain(|file| without.is_empty() || !file.to_string_lossy().ends_with(&without));
    for language in Language::ALL {
        let name = name(language);
        let table = table(language, &files);
        std::fs::write(format!("grammar/weights/{name}.txt"), table).unwrap();
    }
}

/// `LAPWING_TEXTS="a.tsv b.tsv" cargo test --test reading train::doubt -- --ignored` writes
/// `grammar/weights/doubt.txt`, by the weights of words as they are. What is asked about
/// tells nothing of what it would have been: the program must be built with a table that
/// holds `bias`, a tab and `-900` alone, by which nothing is doubted.
#[test]
#[ignore = "writes the weights anew"]
fn doubt() {
    const NONE: &str = "bias\t-900\n";
    assert_eq!(include_str!("../../grammar/weights/doubt.txt"), NONE, "built with doubts");
    let files = files();
    let mut squads = Squads::default();
    let judged = score::files(&files);
    let texts: Vec<(Vec<String>, Vec<Option<bool>>)> = judged
        .iter()
        .filter_map(|one| {
            let at = Context::of(&one.context, one.file.contains("spanish"));
            let features = super::squad::doubts(&squads.of(&at), &at, &one.text)?;
            Some((features, vec![Some(!score::GOOD.contains(&one.verdict))]))
        })
        .collect();
    let (known, bias, weights) = trained(&texts, LEAST_OF_DOUBT, STEP_OF_DOUBT, DECAY_OF_DOUBT);
    let mut out = String::from(
        "# Weights of what makes a reading doubtful, in tenths, written by the trainer in\n\
         # tests/reading/train.rs from the labelled texts; not to be edited by hand.\n",
    );
    writeln!(out, "bias\t{}", (bias[0] / PART).round()).unwrap();
    for (feature, weight) in known.iter().zip(&weights) {
        let weight = (weight[0] / PART).round();
        if weight != 0.0 {
            writeln!(out, "{feature}\t{weight}").unwrap();
        }
    }
    std::fs::write("grammar/weights/doubt.txt", out).unwrap();
}

/// Fewer texts that tell the same things teach nothing of it.
const FEW: usize = 5;

/// `LAPWING_TEXTS="a.tsv b.tsv" cargo test --test reading train::tellings -- --ignored` writes
/// `grammar/weights/tellings-*.txt`.
#[test]
#[ignore = "writes the weights anew"]
fn tellings() {
    let files = files();
    for language in Language::ALL {
        let spanish = language == Language::Spanish;
        let mut squads = Squads::default();
        let rows = score::rows(&files);
        let rows = rows.iter().filter(|row| row.0.contains("spanish") == spanish);
        let told: Vec<(Vec<String>, Vec<String>)> = rows
            .filter_map(|(_, context, text, label)| {
                let at = Context::of(context, spanish);
                let told = told(&Label::of(label));
                (!told.is_empty()).then(|| {
                    let squad = squads.of(&at);
                    (in_its_pieces(&squad, &at, text, likely::telling_features), told)
                })
            })
            .collect();
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for one in told.iter().flat_map(|(_, told)| told) {
            *counts.entry(one).or_default() += 1;
        }
        counts.retain(|_, count| *count >= FEW);
        let choices: Vec<String> = counts.into_keys().map(str::to_owned).collect();
        let examples: Vec<Choice> = told
            .into_iter()
            .filter_map(|(features, told)| {
                let right = told.iter().filter_map(|one| choices.iter().position(|it| it == one));
                let right: Vec<usize> = right.collect();
                (!right.is_empty()).then_some(Choice { features, right })
            })
            .collect();
        let name = name(language);
        let table =
            choose::table("Weights of words for all that a text tells", &choices, &examples);
        std::fs::write(format!("grammar/weights/tellings-{name}.txt"), table).unwrap();
    }
}

/// `LAPWING_TEXTS="a.tsv b.tsv" cargo test --test reading train::stands -- --ignored` writes
/// `grammar/weights/stands-*.txt`.
#[test]
#[ignore = "writes the weights anew"]
fn stands() {
    let files = files();
    let choices: Vec<String> = Stands::ALL.iter().map(|one| one.name().to_owned()).collect();
    for language in Language::ALL {
        let spanish = language == Language::Spanish;
        let mut squads = Squads::default();
        let mut examples: Vec<Choice> = Vec::new();
        for (file, context, text, label) in score::rows(&files) {
            if file.contains("spanish") != spanish {
                continue;
            }
            let at = Context::of(&context, spanish);
            let label = Label::of(&label);
            let beside = label.care.iter().flat_map(|care| &care.beside);
            let readings: Vec<&Reading> = label.readings.iter().chain(beside).collect();
            in_its_pieces(&squads.of(&at), &at, &text, |c| {
                let pieces = may_be(c);
                let mut fit = readings.iter().filter_map(|it| Some((it, aligned(&pieces, it)?)));
                let Some((reading, (tells, right))) = fit.next() else { return };
                let open = |at: usize| {
                    right[at] == Stands::Aside && !pieces[at].days.is_empty() && !is_dated(reading)
                };
                let row = Row::new(c, &tells);
                let mut before = Vec::new();
                for at in row.carriers().iter().copied() {
                    let features = row.features(at, &before);
                    let choice = Stands::ALL.iter().position(|one| *one == right[at]).unwrap();
                    if !open(at) {
                        examples.push(Choice { features, right: vec![choice] });
                    }
                    before.push(right[at]);
                }
            });
        }
        let name = name(language);
        println!("{name}: {} pieces", examples.len());
        let table = choose::table(
            "Weights for what figures, days and people stand for",
            &choices,
            &examples,
        );
        std::fs::write(format!("grammar/weights/stands-{name}.txt"), table).unwrap();
    }
}

/// How many figures, days and people of `LAPWING_TEXTS` are taken for what their labels have
/// them stand for, by what those tell: of texts that the weights have not seen.
#[test]
#[ignore = "for figures of other files"]
fn stood() {
    let files = files();
    let mut squads = Squads::default();
    let mut all: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for (file, context, text, label) in score::rows(&files) {
        let at = Context::of(&context, file.contains("spanish"));
        in_its_pieces(&squads.of(&at), &at, &text, |c| {
            let pieces = may_be(c);
            let label = Label::of(&label);
            let Some((tells, right)) = label.readings.iter().find_map(|it| aligned(&pieces, it))
            else {
                return;
            };
            for (at, found) in likely::stands(c, &tells).iter().enumerate() {
                if !likely::carries(&c.pieces[at]) {
                    continue;
                }
                let known = all.entry(right[at].name()).or_default();
                known.0 += 1;
                known.1 += usize::from(*found == right[at]);
            }
        });
    }
    for (name, (count, right)) in &all {
        println!("{name}: {right} of {count}");
    }
    let (count, right) = all.values().fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
    println!("all: {right} of {count}");
}

/// What each reading of a label tells, in the order of the kinds, each once.
fn told(label: &Label) -> Vec<String> {
    let reading = |reading: &Reading| -> Option<String> {
        let mut tellings: Vec<Telling> = reading.iter().map(telling).collect::<Option<_>>()?;
        tellings.sort_unstable();
        tellings.dedup();
        let names: Vec<&str> = tellings.into_iter().map(Telling::name).collect();
        (!names.is_empty()).then(|| names.join("+"))
    };
    let mut told: Vec<String> = label.readings.iter().filter_map(reading).collect();
    if label.nothing {
        told.push(Telling::Nothing.name().to_owned());
    }
    told.sort_unstable();
    told.dedup();
    told
}

fn table(language: Language, files: &[PathBuf]) -> String {
    let mut squads = Squads::default();
    let mut texts: Vec<(Vec<String>, Vec<Option<bool>>)> = Vec::new();
    for (file, context, text, label) in score::rows(files) {
        let spanish = file.contains("spanish");
        if spanish != (language == Language::Spanish) {
            continue;
        }
        let Some((says, may)) = classes(&Label::of(&label)) else { continue };
        let at = Context::of(&context, spanish);
        let squad = squads.of(&at);
        let features = in_its_pieces(&squad, &at, &text, likely::features);
        let one = |class: &Class| match (says.contains(class), may.contains(class)) {
            (true, _) => Some(true),
            (false, true) => None,
            _ => Some(false),
        };
        texts.push((features, Class::ALL.iter().map(one).collect()));
    }
    let (known, bias, weights) = trained(&texts, LEAST, STEP, DECAY);
    print(&known, &bias, &weights)
}

/// The features that tell something, the bias of each class, and their weights for it.
fn trained(
    texts: &[(Vec<String>, Vec<Option<bool>>)],
    least: usize,
    step: f64,
    decay: f64,
) -> (Vec<&str>, Vec<f64>, Vec<Vec<f64>>) {
    let known = choose::known(texts.iter().flat_map(|(features, _)| features), least);
    let places: HashMap<&str, usize> =
        known.iter().enumerate().map(|(at, feature)| (*feature, at)).collect();
    let examples: Vec<(Example, usize)> = texts
        .iter()
        .map(|(features, says)| {
            let known = features.iter().filter_map(|one| places.get(one.as_str()).copied());
            (Example { features: known.collect(), says: says.clone() }, features.len())
        })
        .collect();
    let (bias, weights) = fit(&examples, known.len(), step, decay);
    (known, bias, weights)
}

/// One logistic regression for each class, by steps that shrink with what was seen
/// (Duchi, Hazan, Singer, 2011).
fn fit(
    examples: &[(Example, usize)],
    features: usize,
    step: f64,
    decay: f64,
) -> (Vec<f64>, Vec<Vec<f64>>) {
    let classes = examples.first().map_or(0, |(example, _)| example.says.len());
    let mut weights = vec![vec![0.0f64; classes]; features];
    let mut squares = vec![vec![1e-2f64; classes]; features];
    let mut bias = vec![-3.0f64; classes];
    for _ in 0..PASSES {
        for (example, length) in examples {
            let share = 1.0 / (*length as f64).sqrt();
            for class in 0..classes {
                let Some(says) = example.says[class] else { continue };
                let sum: f64 = example.features.iter().map(|at| weights[*at][class]).sum();
                let odds = 1.0 / (1.0 + (-(sum * share + bias[class])).exp());
                let error = odds - f64::from(u8::from(says));
                bias[class] -= 0.02 * error;
                for at in &example.features {
                    let slope = error * share + decay * weights[*at][class];
                    squares[*at][class] += slope * slope;
                    weights[*at][class] -= step * slope / squares[*at][class].sqrt();
                }
            }
        }
    }
    (bias, weights)
}

fn print(known: &[&str], bias: &[f64], weights: &[Vec<f64>]) -> String {
    let mut out = String::from(
        "# Weights of words for kinds of statement, in tenths, written by the trainer in\n\
         # tests/reading/train.rs from the labelled texts; not to be edited by hand.\n",
    );
    let row = |row: &[f64]| -> String {
        let cells = Class::ALL.iter().zip(row).filter_map(|(class, weight)| {
            let weight = (weight / PART).round().clamp(-127.0, 127.0) as i8;
            (weight.abs() >= 6).then(|| format!("{}:{weight}", class.name()))
        });
        cells.collect::<Vec<_>>().join(" ")
    };
    let all: Vec<String> = Class::ALL
        .iter()
        .zip(bias)
        .map(|(class, weight)| format!("{}:{}", class.name(), (weight / PART).round()))
        .collect();
    writeln!(out, "bias\t{}", all.join(" ")).unwrap();
    for (feature, weights) in known.iter().zip(weights) {
        let row = row(weights);
        if !row.is_empty() {
            writeln!(out, "{feature}\t{row}").unwrap();
        }
    }
    out
}

/// How many texts of `LAPWING_TEXTS` the words take for what their labels tell, at the first
/// go and among three: of texts that the weights have not seen.
#[test]
#[ignore = "for figures of other files"]
fn known() {
    let mut squads = Squads::default();
    let (mut all, mut first, mut three) = (0, 0, 0);
    for (file, context, text, label) in score::rows(&files()) {
        let at = Context::of(&context, file.contains("spanish"));
        let right = told(&Label::of(&label));
        if right.is_empty() {
            continue;
        }
        in_its_pieces(&squads.of(&at), &at, &text, |c| {
            let is_right = |one: &(Vec<Telling>, f32)| {
                let names: Vec<&str> = one.0.iter().map(|it| it.name()).collect();
                right.contains(&names.join("+"))
            };
            let tellings = c.likely.tellings(c);
            all += 1;
            first += usize::from(tellings.iter().take(1).any(is_right));
            three += usize::from(tellings.iter().take(3).any(is_right));
        });
    }
    println!("{first} at the first go, {three} among three, of {all}");
}
