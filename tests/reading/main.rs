//! How well texts are read that people would send: each labelled text meets the
//! squad in the state that its context describes, and what was understood is held
//! against its label.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod aligned;
mod asked;
mod choose;
mod label;
#[path = "../care/opened.rs"]
#[expect(dead_code, reason = "shared with the tests of care, which use the rest")]
mod opened;
mod pieced;
mod score;
mod squad;
mod train;

use std::path::PathBuf;

/// What the texts came to when they were last counted, less half a per cent.
const GOOD_AT_LEAST: f64 = 0.85;
const WRONG_AT_MOST: f64 = 0.05;

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
    let scored = score::files(&labelled());
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

/// Words of several texts in one, and some out of place.
#[test]
fn whatever_is_pieced_together_is_answered() {
    let broken = pieced::broken(&labelled(), 1, 1_500);
    assert!(broken.is_empty(), "{broken:#?}");
}

/// The same of many more: `SEED=7 cargo test --test reading pieced -- --ignored`.
#[test]
#[ignore = "takes minutes"]
fn much_that_is_pieced_together_is_answered() {
    let seed = std::env::var("SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(2);
    let broken = pieced::broken(&labelled(), seed, 30_000);
    assert!(broken.is_empty(), "{broken:#?}");
}

/// A pace that went twice at the same place once took the reader with it.
#[test]
fn a_fade_that_is_told_twice_is_answered() {
    let at = squad::Context::of("F", false);
    for text in [
        "died on the first 2, first 48 50",
        "died on first 2, first missed, 48 50",
        "fell apart on the first 3 then first was 48 49 50 51",
    ] {
        let mut squad = squad::Squads::default().of(&at);
        let decision = squad::say(&mut squad, at.sender(), text, at.at());
        assert!(!decision.said.is_empty(), "{text}");
    }
}

/// The files of all labelled texts.
fn labelled() -> Vec<PathBuf> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("grammar/texts");
    let entries = std::fs::read_dir(folder).unwrap();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    files.retain(|file| file.extension().is_some_and(|extension| extension == "tsv"));
    files.sort();
    files
}
