//! Which language a text is written in.

use super::{Lexicon, Ordinary};
use crate::language::Language;
use crate::reading::lex::{Form, Token};

/// What a word of the lists of meanings speaks for its language, beside one that is
/// only known (ours).
const MEANING: u32 = 2;

/// The language that the words of a text speak for, by its tokens and which of them are
/// ordinary words; the usual one where they speak for none or for both. Names say nothing.
pub fn which_language(
    tokens: &[Token<'_>],
    ordinary: &[Ordinary],
    usual: Language,
    is_name: impl Fn(&str) -> bool,
) -> Language {
    let mut spoken = [0u32; 2];
    for (at, (token, ordinary)) in tokens.iter().zip(ordinary).enumerate() {
        if token.form != Form::Word
            || token.text.len() < 2
            || is_name(token.text)
            || is_in_a_code(tokens, at)
        {
            continue;
        }
        let [english, spanish] = knows(token.text, *ordinary);
        // A word of both languages speaks for neither.
        spoken[0] += english.saturating_sub(spanish);
        spoken[1] += spanish.saturating_sub(english);
    }
    let [english, spanish] = spoken;
    match usual {
        Language::English if spanish > english && spanish >= MEANING => Language::Spanish,
        // Among Spanish words stand English ones of the trade.
        Language::Spanish if english > spanish + MEANING => Language::English,
        usual => usual,
    }
}

/// True for letters that stand against digits: they are of a code or a unit, and what
/// they spell is chance (`mes` in `7MES4K2Q`).
fn is_in_a_code(tokens: &[Token<'_>], at: usize) -> bool {
    let digits = |token: &Token<'_>| matches!(token.form, Form::Digits { .. });
    let pair = at.checked_sub(1).and_then(|before| tokens.get(before..=at));
    let before = matches!(pair, Some([before, here]) if here.glued && digits(before));
    before || tokens.get(at + 1).is_some_and(|next| next.glued && digits(next))
}

/// How well each language knows a word.
fn knows(word: &str, ordinary: Ordinary) -> [u32; 2] {
    let [english, spanish] = Language::ALL.map(|language| Lexicon::of(language).has_word(word));
    let known = |means: bool, listed: bool| if means { MEANING } else { u32::from(listed) };
    [known(english, ordinary[0]), known(spanish, ordinary[1])]
}

#[cfg(test)]
mod tests {
    use super::which_language;
    use crate::language::Language::{English, Spanish};
    use crate::reading::lex::lex;
    use crate::reading::lexicon::ordinary;

    #[test]
    fn the_words_tell() {
        let of = |text: &str, usual| {
            let lexed = lex(text);
            which_language(&lexed.tokens(), ordinary(&lexed), usual, |word| word == "kite")
        };
        for usual in [English, Spanish] {
            assert_eq!(of("falta kite", usual), Spanish);
            assert_eq!(of("200 suave, 6x100 crol, 4x50 patada", usual), Spanish);
            assert_eq!(of("cant make it tonight, running late", usual), English);
            assert_eq!(of("kite 3:12", usual), usual);
            for code in ["7MES4K2Q", "EL7QUE3K", "K4Y2SEMANA"] {
                assert_eq!(of(&format!("claim {code}-1"), usual), usual, "{code}");
            }
        }
        assert_eq!(of("8 50s done, estuvo easy la neta", Spanish), Spanish);
        assert_eq!(of("8x50 pull 48 48", English), English);
    }
}
