//! What single words on the command line must look like, and how to mend one that
//! doesn't.

use crate::history::SquadId;
use crate::http::fields::{self, NotAField};
use crate::message::{self, Name};
use crate::units::Course;

/// Why a word is no address that texts come from.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotAnAddress {
    /// It is none at all.
    #[error(transparent)]
    Field(#[from] NotAField),
    /// A number as it is written on paper.
    #[error("write the number as texts bring it, `{0}`: a plus and digits, nothing between them")]
    Spaced(String),
    /// A number that can only be dialled within its country.
    #[error(
        "that is a national number, which no text comes from: put a plus and the country's code \
         in place of the leading 0, as in +44 for 0 in Britain"
    )]
    National,
    /// A number with the prefix that is dialled abroad.
    #[error("write a plus in place of the leading 00: `{0}`")]
    Prefixed(String),
    /// It was encoded for a URL.
    #[error("here a plus is typed as it is: `{0}`")]
    Encoded(String),
}

/// An address that texts come from. Anything that can be seen is one, but for a
/// telephone number that no text would bear.
pub fn address(word: &str) -> Result<String, NotAnAddress> {
    if let Some(rest) = word.strip_prefix("%2B").or_else(|| word.strip_prefix("%2b")) {
        return Err(NotAnAddress::Encoded(format!("+{rest}")));
    }
    let between = |letter: char| letter.is_whitespace() || matches!(letter, '-' | '.' | '(' | ')');
    let squeezed: String = word.chars().filter(|letter| !between(*letter)).collect();
    let digits = squeezed.strip_prefix('+').unwrap_or(&squeezed);
    if message::is_dialled(&squeezed) {
        return Err(match squeezed.strip_prefix("00") {
            Some(rest) => NotAnAddress::Prefixed(format!("+{rest}")),
            None => NotAnAddress::National,
        });
    }
    if message::is_number(digits) && squeezed != word {
        return Err(NotAnAddress::Spaced(squeezed));
    }
    Ok(fields::address(word)?.to_owned())
}

/// A squad by its id or its name.
pub fn squad(word: &str) -> Result<SquadId, std::convert::Infallible> {
    Ok(SquadId(word.to_owned()))
}

/// A swimmer's name.
pub fn name(word: &str) -> Result<Name, String> {
    Name::new(word).map_err(|unfit| unfit.to_string())
}

/// A message's id.
pub fn message_id(word: &str) -> Result<String, NotAField> {
    fields::message_id(word).map(str::to_owned)
}

/// A group chat's id.
pub fn room(word: &str) -> Result<String, NotAField> {
    fields::room_id(word).map(str::to_owned)
}

/// The pool that a squad is at home in.
pub fn pool(word: &str) -> Result<Course, String> {
    match word.parse() {
        Ok(Course::OpenWater) => Err("a squad's home is a pool: 25m, 50m or 25yd".to_owned()),
        Ok(course) => Ok(course),
        Err(_) => Err("give 25m, 50m or 25yd".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::{NotAnAddress, address};

    #[test]
    fn a_number_is_taken_as_texts_bring_it() {
        for good in ["+15550100", "wren", "c", "@ann:example.org", "15550100", "0800", "+1-x"] {
            assert_eq!(address(good).as_deref(), Ok(good));
        }
        let mended = |word: &str| address(word).unwrap_err().to_string();
        assert_eq!(address("020 7946 0000"), Err(NotAnAddress::National));
        assert_eq!(address("02079460000"), Err(NotAnAddress::National));
        assert!(mended("00442079460000").contains("`+442079460000`"));
        assert!(mended("+1 555-0100").contains("`+15550100`"));
        assert!(mended("%2B15550100").contains("`+15550100`"));
        assert!(mended("a b").contains("visible"));
    }
}
