//! How well texts are read that people would send: each labelled text meets the
//! squad in the state that its context describes, and what was understood is held
//! against its label.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod label;
mod score;
mod squad;
mod train;

use std::path::PathBuf;

/// What the texts came to when they were last counted, less half a per cent.
const GOOD_AT_LEAST: f64 = 0.763;
const WRONG_AT_MOST: f64 = 0.079;

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

/// All texts that there are, so that what is read once stays read. A regression
/// check: many of them have been learnt from. The figures that say how well strangers
/// are understood stand in `grammar/texts/README.md`.
#[test]
fn what_people_send_is_read_as_well_as_before() {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("grammar/texts");
    let entries = std::fs::read_dir(folder).unwrap();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    files.retain(|file| file.extension().is_some_and(|extension| extension == "tsv"));
    files.sort();
    let scored = score::files(&files);
    let share = |verdicts: &[&str]| {
        let count = scored.iter().filter(|one| verdicts.contains(&one.verdict)).count();
        count as f64 / scored.len() as f64
    };
    let (good, wrong) = (share(&score::GOOD), share(&["WRONG"]));
    println!("{} texts: {:.1} % well, {:.1} % wrong", scored.len(), good * 100.0, wrong * 100.0);
    assert!(scored.len() > 4_000, "only {} texts", scored.len());
    assert!(good >= GOOD_AT_LEAST, "{:.1} % read, asked or left alone well", good * 100.0);
    assert!(wrong <= WRONG_AT_MOST, "{:.1} % read wrong", wrong * 100.0);
}
