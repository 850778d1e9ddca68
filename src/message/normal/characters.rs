//! Characters made plain: one Unicode form, plain quotes and dashes, no
//! invisible marks.

use unicode_normalization::UnicodeNormalization;

/// A text made plain, and any number in it that we do not count with.
pub struct Plain {
    /// The text in NFKC, still in its own case.
    pub text: String,
    /// The first number written in other digits than ASCII or full-width ones.
    pub foreign_number: Option<String>,
}

/// Makes a text's characters plain.
///
/// Full-width digits become ASCII ones; every other digit that Unicode knows is
/// reported before compatibility forms could turn it into one of ours.
pub fn plain(text: &str) -> Plain {
    // Most texts: ASCII is its own plain form, but for these.
    if text.is_ascii() {
        let is_plain = |byte: u8| !byte.is_ascii_control() && byte != b'`';
        let text = match text.bytes().all(is_plain) {
            true => text.to_owned(),
            false => text.chars().map(simple_ascii).collect(),
        };
        return Plain { text, foreign_number: None };
    }
    let foreign_number = foreign_number(text);
    let text = text.chars().filter(|c| !is_invisible(*c)).nfkc().map(simple).collect();
    Plain { text, foreign_number }
}

/// The letters of a word without case and accents, for looking it up.
pub fn folded(word: &str) -> String {
    if word.is_ascii() {
        let mut letters = word.to_ascii_lowercase();
        if letters.contains('\'') {
            letters.retain(|c| c != '\'');
        }
        return letters;
    }
    word.nfd()
        .filter(|c| !('\u{300}'..='\u{36F}').contains(c) && *c != '\'')
        .flat_map(char::to_lowercase)
        .collect()
}

fn foreign_number(text: &str) -> Option<String> {
    let is_ours = |c: char| c.is_ascii_digit() || ('\u{FF10}'..='\u{FF19}').contains(&c);
    let is_foreign = |c: char| (c.is_numeric() && !is_ours(c)) || c == '\u{20E3}';
    let splits_digits =
        |&[before, c, after]: &[char; 3]| is_invisible(c) && is_ours(before) && is_ours(after);
    let characters: Vec<char> = text.chars().collect();
    let hidden = characters.array_windows().position(splits_digits);
    let shown = characters.iter().position(|&c| is_foreign(c));
    let at = match (hidden, shown) {
        (Some(hidden), Some(shown)) => hidden.min(shown),
        (one, other) => one.or(other)?,
    };
    let is_edge = |c: &char| c.is_whitespace();
    let (before, after) = characters.split_at_checked(at)?;
    let from = before.iter().rposition(is_edge).map_or(0, |space| space + 1);
    let to = after.iter().position(is_edge).map_or(characters.len(), |n| at + n);
    Some(characters.get(from..to)?.iter().take(20).collect())
}

/// Marks that print nothing: joiners, direction marks, soft hyphens, selectors.
fn is_invisible(c: char) -> bool {
    matches!(c,
        '\u{AD}' | '\u{61C}' | '\u{180E}' | '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}'
        | '\u{2060}'..='\u{206F}' | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}' | '\u{E0000}'..='\u{E0FFF}')
}

/// [`simple`] of a character of ASCII.
fn simple_ascii(c: char) -> char {
    match c {
        '`' => '\'',
        '\n' | '\r' => '\n',
        c if c.is_ascii_control() => ' ',
        c => c,
    }
}

fn simple(c: char) -> char {
    match c {
        '\u{2018}' | '\u{2019}' | '\u{201A}' | '\u{201B}' | '\u{2032}' | '\u{B4}' | '`' => '\'',
        '\u{201C}'..='\u{201F}' | '\u{2033}' | '\u{AB}' | '\u{BB}' => '"',
        '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{2043}' => '-',
        '\u{D7}' | '\u{2715}' | '\u{2716}' | '\u{2A09}' => 'x',
        '\u{2044}' | '\u{2215}' => '/',
        '\u{2236}' => ':',
        '\n' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}' => '\n',
        c if c.is_whitespace() || c.is_control() => ' ',
        c => c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_short_way_for_ascii_is_the_long_one() {
        for c in (0..128u8).map(char::from) {
            assert_eq!(simple_ascii(c), simple(c), "{c:?}");
            assert!(
                !is_invisible(c) && c.to_string().nfkc().eq([c]) && c.to_string().nfd().eq([c])
            );
            assert!(c.to_lowercase().eq([c.to_ascii_lowercase()]));
        }
        let all: String = (0..128u8).map(char::from).collect();
        assert_eq!(foreign_number(&all), None);
    }
}
