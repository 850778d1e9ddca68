//! Texts that nobody would send, of words that people do send: each is answered,
//! whatever it holds, and nothing in the way to its answer breaks.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use super::score::rows;
use super::squad::{Context, Squads, say};

/// Which of `count` texts of a seed broke, and which had no answer.
pub fn broken(files: &[PathBuf], seed: u64, count: usize) -> Vec<String> {
    let rows = rows(files);
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let mut squads = Squads::default();
    let mut broken = Vec::new();
    for _ in 0..count {
        let mut words: Vec<&str> = Vec::new();
        for _ in 0..chance.random_range(2..4) {
            let (_, _, text, _) = &rows[chance.random_range(0..rows.len())];
            let all: Vec<&str> = text.split_whitespace().collect();
            let from = chance.random_range(0..all.len());
            let to = chance.random_range(from..all.len()) + 1;
            words.extend(&all[from..to]);
        }
        if chance.random_bool(0.3) {
            let (one, other) =
                (chance.random_range(0..words.len()), chance.random_range(0..words.len()));
            words.swap(one, other);
        }
        let text = words.join(" ");
        let (file, context, ..) = &rows[chance.random_range(0..rows.len())];
        let at = Context::of(context, file.contains("spanish"));
        let mut squad = squads.of(&at);
        let answered = catch_unwind(AssertUnwindSafe(|| {
            let decision = say(&mut squad, at.sender(), &text, at.at());
            !decision.said.is_empty()
        }));
        match answered {
            Ok(true) => {}
            Ok(false) => broken.push(format!("{context}: no answer to: {text}")),
            Err(_) => broken.push(format!("{context}: broken by: {text}")),
        }
    }
    broken
}
