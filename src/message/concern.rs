//! What is answered with care, though nobody is in danger: breath-holding,
//! dives, swims alone, questions that only a clinician answers.
//!
//! Knows phrases and nothing of what is answered.

use std::sync::LazyLock;

use super::phrases::{Phrases, words_and_figures};

/// What a text is to be answered with care for; the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Concern {
    /// Holding the breath, by any name: refused.
    BreathHold,
    /// Something between her and a clinician that makes her swim easy.
    Easing,
    /// Weight, food, the body: for a clinician or someone she trusts.
    Gentle,
    /// Whether she may swim: nobody here says yes.
    MaySwim,
    /// A clinician has cleared her, she says.
    Cleared,
    /// Dives.
    Dive,
    /// Swimming with nobody there.
    Alone,
    /// The sea, a lake, a river.
    OpenWater,
}

/// What of a text is to be answered with care, the gravest first, each once.
///
/// ```
/// use lapwing::message::{Concern, concerns};
/// assert_eq!(concerns("8x25 no breath"), [Concern::BreathHold]);
/// assert_eq!(concerns("breathe every 3"), []);
/// ```
pub fn concerns(text: &str) -> Vec<Concern> {
    let found = CONCERNS.all_in(&words_and_figures(text));
    let mut concerns: Vec<Concern> = found.into_iter().filter_map(|found| found.what).collect();
    concerns.sort_unstable();
    concerns.dedup();
    concerns
}

/// `None` hides what is allowed.
static CONCERNS: LazyLock<Phrases<Option<Concern>>> = LazyLock::new(|| {
    Phrases::load(&[include_str!("../../grammar/safety/concerns.txt")], |heading| match heading {
        "breath hold" => Some(Some(Concern::BreathHold)),
        "easing" => Some(Some(Concern::Easing)),
        "gentle" => Some(Some(Concern::Gentle)),
        "may i swim" => Some(Some(Concern::MaySwim)),
        "cleared" => Some(Some(Concern::Cleared)),
        "dive" => Some(Some(Concern::Dive)),
        "alone" => Some(Some(Concern::Alone)),
        "open water" => Some(Some(Concern::OpenWater)),
        "allowed" => Some(None),
        _ => None,
    })
});
