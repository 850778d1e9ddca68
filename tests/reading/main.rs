//! How well texts are read that people would send: each labelled text meets the
//! squad in the state that its context describes, and what was understood is held
//! against its label.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod label;
mod score;
mod squad;
mod train;

use std::path::PathBuf;

/// `LAPWING_TEXTS="a.tsv b.tsv" cargo test --test reading files -- --ignored --nocapture`:
/// the figures of any files, with every text and its verdict in `LAPWING_LIST`.
#[test]
#[ignore = "for figures of other files"]
fn files() {
    let files = std::env::var("LAPWING_TEXTS").expect("LAPWING_TEXTS names the files");
    let files: Vec<PathBuf> = files.split_whitespace().map(PathBuf::from).collect();
    let scored = score::files(&files);
    if let Ok(list) = std::env::var("LAPWING_LIST") {
        std::fs::write(list, score::listed(&scored)).unwrap();
    }
    print!("{}", score::table(&scored));
}
