//! What was read that all the words together speak against: `pain in the neck at work means i
//! might be ten mins late`, `calf cramped so sat out the rest`.
//!
//! A frame looks at the words that it was written for, and finds them in texts that tell
//! something else too. What the whole text is likely to tell is known apart from that
//! ([`Telling`]); where it leaves hardly any room for a kind, that is
//! asked about and not kept.

use super::decide::{Decision, ails, stores};
use super::frame::Clause;
use super::gist::{Gist, gists};
use super::likely::{Class, Telling};
use super::otherwise::is_another;
use super::related_kinds::{is_of_coming, kin};
use crate::message::{Doubt, Kind, Statement};

/// How likely a text must be to tell of a kind that was read in it. Of what was read at lower
/// odds, in texts that nothing was learnt from, four of five were wrong.
const LEAST: f32 = 0.01;

/// The same of pain and illness, whose words stand in many idioms: three of five.
const LEAST_OF_AILING: f32 = 0.05;

/// How likely the words must make pain or illness by itself for it to be believed all the
/// same: `my neck hurts, might be ten mins late`.
const BELIEVED: f32 = 0.5;

/// How likely what a text says otherwise must be to be offered beside it.
const OTHER: f32 = 0.3;

/// The same decision, and what was read against all odds asked about.
pub fn with_unlikely(decision: Decision, whole: &Clause<'_, '_>) -> Decision {
    let Decision::Take { says, rest } = decision else { return decision };
    // Whoever is ill doesn't come: who tells of one need not tell of the other by more words.
    let explains = |one: &Statement| Class::of(&one.kind).is_some_and(is_of_coming);
    let explained = says.iter().any(explains);
    let (doubted, sure): (Vec<_>, Vec<_>) = says.iter().cloned().partition(|one| {
        is_unlikely(one, whole) && !(explained && matches!(one.kind, Kind::Ill { .. }))
    });
    if whole.danger || doubted.is_empty() {
        return Decision::Take { says, rest };
    }
    let without = |one: &Gist| one.odds >= OTHER && !one.says.iter().any(|it| doubted.contains(it));
    let keeps = |says: &[Statement]| says.iter().any(|one| stores(&one.kind));
    let other = match sure.is_empty() {
        true => gists(whole).into_iter().find(without).map(|one| one.says),
        false => Some(sure.clone()),
    };
    match other {
        Some(other) if keeps(&other) && is_another(&other, &says) => which(other, says),
        _ if sure.is_empty() => Decision::ask_whether(doubted),
        _ => Decision::ask_whether_beside(doubted, sure),
    }
}

/// Asks which of two is meant. What ails somebody by both is kept at once; what does by one
/// waits, and lowers what follows until somebody answers.
fn which(mut first: Vec<Statement>, mut second: Vec<Statement>) -> Decision {
    let both: Vec<_> =
        first.iter().filter(|one| ails(one) && second.contains(one)).cloned().collect();
    first.retain(|one| !both.contains(one));
    second.retain(|one| !both.contains(one));
    if first.is_empty() {
        return Decision::ask_whether_beside(second, both);
    }
    let options = [("1", &first), ("2", &second), ("yes", &first)];
    let options = options.map(|(word, says)| (word.to_owned(), says.clone())).into();
    Decision::Ask { about: Doubt::Either { first, second }, options, says: both }
}

/// True of what would be kept, and that the words of the text leave hardly any room for.
fn is_unlikely(one: &Statement, whole: &Clause<'_, '_>) -> bool {
    let tellings = whole.likely.tellings(whole);
    // Danger is never weighed. That something is over is said in few words, a short night by
    // its hours, and what is put right by what it is about: `the left one` behind a pain.
    let weighed = stores(&one.kind)
        && !matches!(
            one.kind,
            Kind::Faint | Kind::Welfare | Kind::Better | Kind::Tired | Kind::Restate { .. }
        );
    let Some(class) = Class::of(&one.kind).filter(|_| weighed) else { return false };
    let kin = kin(class);
    let tells = |told: Class| told == class || kin.contains(&told);
    let odds: f32 = tellings
        .iter()
        .filter(|(told, _)| {
            // Whoever asks whether they may swim with something has it.
            ails(one) && told.contains(&Telling::MaySwim)
                || told.iter().filter_map(|one| one.class()).any(tells)
        })
        .map(|(_, odds)| odds)
        .sum();
    if ails(one) && whole.likely.of(class) >= BELIEVED {
        return false;
    }
    let least = if ails(one) { LEAST_OF_AILING } else { LEAST };
    !tellings.is_empty() && odds < least
}

#[cfg(test)]
mod tests {
    use crate::message::{Doubt, Kind, Statement};
    use crate::reading::decide::Decision;
    use crate::reading::read;
    use crate::reading::situation::Situation;

    fn decided(text: &str) -> Decision {
        read(text, &Situation::default())
    }

    fn hurts(says: &[Statement]) -> bool {
        says.iter().any(|one| matches!(one.kind, Kind::Pain(_)))
    }

    /// A text of our own, in none of the files that the weights are trained on.
    #[test]
    fn a_pain_that_the_whole_text_speaks_against_is_one_of_two() {
        let decision = decided("the trains are a pain in the neck again, might be ten mins late");
        let Decision::Ask { about: Doubt::Either { first, second }, says, .. } = &decision else {
            panic!("{decision:?}");
        };
        assert!(!hurts(first) && hurts(second) && says.is_empty(), "{decision:?}");
        let comes = |says: &[Statement]| {
            says.iter().any(|one| matches!(one.kind, Kind::Attend { coming: true, .. }))
        };
        assert!(comes(first) && comes(second), "{decision:?}");
    }

    #[test]
    fn a_pain_that_is_told_is_kept_at_once() {
        for text in ["my neck hurts, might be ten mins late", "neck is sore"] {
            let kept = decided(text).certain();
            assert!(hurts(&kept), "{text}: {kept:?}");
        }
    }
}
