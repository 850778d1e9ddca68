//! The words of texts about offices: the whole text must be one of these, so
//! they are read before any name could be taken for one.

use super::codes::LETTERS;
use crate::message::{self, Name, Safeguard};

/// A text about offices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Said {
    /// `second contact +15550130`; none for `off`.
    SecondContact(Option<String>),
    /// `alerts on`, `alerts off`, `alerts off teal`
    Alerts {
        /// On.
        wanted: bool,
        /// Whose, if not the sender's.
        who: Option<Name>,
    },
    /// `staff`
    Staff,
    /// `new code`
    NewCode,
    /// `confirm AB3K9Q`
    Confirm(String),
    /// `remove +15550111`
    Remove(String),
    /// `release heron on my word`
    Overrule(Name),
}

/// Words that begin such a text, or are one: no name may be one of them.
const WORDS: [&str; 16] = [
    "staff",
    "cargos",
    "alerts",
    "avisos",
    "confirm",
    "confirmar",
    "second",
    "segundo",
    "renew",
    "renovar",
    "code",
    "codigo",
    "worried",
    "preocupado",
    "preocupada",
    "remove",
];

/// What those texts begin with.
const BEGIN: &str = "aclnqrs";

/// True for a word of these texts.
pub fn is_office_word(word: &str) -> bool {
    WORDS.contains(&word)
}

/// What the text says of offices; `None` for all other texts.
pub fn said(text: &str) -> Option<Said> {
    let plain = text.trim().trim_end_matches(['.', '!', '?']);
    // Every text comes by here: none of these begins with another letter.
    if !plain.starts_with(|first: char| BEGIN.contains(first.to_ascii_lowercase())) {
        return None;
    }
    let folded = plain.to_lowercase().replace('\u{f3}', "o").replace('\u{ed}', "i");
    let words: Vec<&str> = folded.split_whitespace().collect();
    // Addresses are case-sensitive: taken from the text as it came.
    let typed: Vec<&str> = plain.split_whitespace().collect();
    match words.as_slice() {
        ["second", "contact", "off" | "none"] | ["segundo", "contacto", "no" | "ninguno"] => {
            Some(Said::SecondContact(None))
        }
        ["second", "contact", ..] | ["segundo", "contacto", ..] => {
            address(typed.get(2..)?).map(|address| Said::SecondContact(Some(address)))
        }
        ["alerts", "on"] | ["avisos", "si"] => Some(Said::Alerts { wanted: true, who: None }),
        ["alerts", "off"] | ["avisos", "no"] => Some(Said::Alerts { wanted: false, who: None }),
        ["alerts", "off", who] | ["avisos", "no", who] => {
            Some(Said::Alerts { wanted: false, who: Some(Name::new(who).ok()?) })
        }
        ["staff"] | ["list", "staff"] | ["cargos"] => Some(Said::Staff),
        ["new", "code"] | ["renew", "code"] | ["new", "join", "code"] => Some(Said::NewCode),
        ["codigo", "nuevo"] | ["nuevo", "codigo"] | ["renovar", "codigo"] => Some(Said::NewCode),
        ["confirm" | "confirmar", code] => {
            let letters = code.chars().all(|c| c.is_ascii_alphanumeric());
            (letters && code.len() == LETTERS).then(|| Said::Confirm(code.to_uppercase()))
        }
        ["remove" | "quitar", ..] => address(typed.get(1..)?).map(Said::Remove),
        ["release", who, "on", "my", "word"] => Name::new(who).ok().map(Said::Overrule),
        _ => None,
    }
}

/// An address, in the forms in which one is typed for a welfare officer.
fn address(words: &[&str]) -> Option<String> {
    let typed = words.join(" ");
    if typed.starts_with("chat:") && words.len() == 1 {
        return Some(typed);
    }
    match message::safeguard(&format!("deputy {typed}"))? {
        Safeguard::Officer { address } => Some(address),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_texts_are_read_and_others_are_not() {
        let contact = |to: &str| Some(Said::SecondContact(Some(to.to_owned())));
        assert_eq!(said("Second contact +1 555 0130."), contact("+15550130"));
        assert_eq!(said("second contact @Ann:example.org"), contact("@Ann:example.org"));
        assert_eq!(said("segundo contacto no"), Some(Said::SecondContact(None)));
        assert_eq!(said("STAFF"), Some(Said::Staff));
        assert_eq!(said("c\u{f3}digo nuevo"), Some(Said::NewCode));
        assert_eq!(said("confirm ab3k9q"), Some(Said::Confirm("AB3K9Q".into())));
        assert_eq!(said("remove +15550111"), Some(Said::Remove("+15550111".into())));
        assert_eq!(said("remove chat:club:u1"), Some(Said::Remove("chat:club:u1".into())));
        let heron = Name::new("heron").unwrap();
        assert_eq!(said("Release heron on my word"), Some(Said::Overrule(heron)));
        for other in ["remove heron", "staff meeting at 6", "confirm", "alerts", "release heron"] {
            assert_eq!(said(other), None, "{other}");
        }
    }
}
