//! What a coach's words to one swimmer work on, so that the drills do too.
//!
//! Knows words; not the swimmer, nor which drills they may swim.

use super::drills::Fault;

/// How words begin that name a fault or its cure, in English and in Spanish;
/// the first row with such a word decides (ours).
const BEGINNINGS: &[(Fault, &[&str])] = &[
    (Fault::Breathing, &["breath", "exhal", "inhal", "bubble", "respir", "burbuj", "sopl"]),
    (Fault::Turns, &["turn", "tumble", "wall", "push-off", "pushoff", "viraj", "volte", "pared"]),
    (
        Fault::Catch,
        &[
            "catch",
            "elbow",
            "fingertip",
            "press",
            "scull",
            "grip",
            "codo",
            "agarr",
            "dedo",
            "remada",
        ],
    ),
    (Fault::Kick, &["kick", "ankle", "feet", "toe", "patad", "tobill", "pies"]),
    (
        Fault::Rotation,
        &["rotat", "roll", "hip", "shoulder", "rota", "gira", "giro", "cadera", "hombro"],
    ),
    (Fault::Timing, &["timing", "rhythm", "tempo", "together", "sight", "ritmo", "coordin"]),
    (
        Fault::Length,
        &["long", "glid", "reach", "stretch", "count", "hurr", "larg", "desliz", "estir", "alarg"],
    ),
    (
        Fault::Balance,
        &[
            "balanc", "head", "eyes", "leg", "sink", "flat", "snak", "equilib", "cabeza", "mirad",
            "pierna", "hund",
        ],
    ),
];

/// What `focus` works on; `None` where its words tell nothing of it.
///
/// ```
/// # use lapwing::coaching::{Fault, worked_on};
/// assert_eq!(worked_on("exhale before turning your head"), Some(Fault::Breathing));
/// assert_eq!(worked_on("Codo alto"), Some(Fault::Catch));
/// assert_eq!(worked_on("smile"), None);
/// ```
pub fn worked_on(focus: &str) -> Option<Fault> {
    let lower = focus.to_lowercase();
    let words: Vec<&str> =
        lower.split(|c: char| !c.is_alphanumeric() && c != '-').filter(|w| !w.is_empty()).collect();
    let named = |beginnings: &&[&str]| {
        words.iter().any(|word| beginnings.iter().any(|beginning| word.starts_with(beginning)))
    };
    BEGINNINGS.iter().find(|(_, beginnings)| named(beginnings)).map(|(fault, _)| *fault)
}
