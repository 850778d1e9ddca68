//! Illness of someone who is not the sender: a child's, from their guardian.

use super::rule::any;
use super::sign::Sign;
use super::signs_in_text::Marked;
use super::words::HealthWords;
use crate::language::Language;
use crate::message::{Ailing, Illness, is_pronoun};
use crate::reading::lex::Lexed;
use crate::reading::lexicon::ordinary;

/// How many words may stand between whose it is and the illness.
const NEAR: usize = 6;

/// The illness of another that a text tells of, and whose; nothing where the
/// sender says that they are ill too, or denies it.
pub fn illness_of_another(lexed: &Lexed, language: Language) -> Option<(Ailing, Option<Illness>)> {
    let tokens = lexed.tokens();
    let words = HealthWords::of(language);
    let marked = Marked::new(&tokens, ordinary(lexed), words, true, &|_| false);
    let as_well = tokens.iter().any(|token| {
        matches!(token.text, "too" | "also" | "myself" | "us" | "both" | "tambien" | "yo")
    });
    if as_well {
        return None;
    }
    marked.marks.iter().find_map(|mark| {
        let what = mark.illness?;
        let (clause, _) = marked.clause_of(mark.from);
        let from = clause.max(mark.from.saturating_sub(NEAR));
        let denied = marked.any(from, mark.from, any!(Not));
        let own = marked.any(from, mark.from, any!(Me))
            && !marked
                .tokens_in(from, mark.from)
                .iter()
                .any(|token| matches!(token.text, "my" | "mi" | "mis"));
        if denied || own {
            return None;
        }
        let before = marked.tokens_in(from, mark.from).iter().enumerate().rev();
        let whose = before.map(|(at, token)| (from + at, token)).find_map(|(at, token)| {
            let signs = marked
                .between(at, at + 1)
                .filter(|one| one.to <= mark.from)
                .fold(super::sign::Signs::NONE, |all, one| all.and(one.signs));
            match token.text {
                _ if signs.has(Sign::Child) => Some(Ailing::Child),
                _ if signs.has(Sign::Kin) => Some(Ailing::Kin),
                word if is_pronoun(word) => Some(Ailing::Pronoun),
                _ => None,
            }
        })?;
        Some((whose, what))
    })
}
