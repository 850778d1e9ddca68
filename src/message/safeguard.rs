//! Texts about who looks after whom, read without the grammar: they carry
//! addresses and free words that the grammar's names and numbers don't hold.
//!
//! Knows phrases and nothing of who may say them.

use super::Name;
use super::normal::{folded, plain};
use super::number::is_dialled;

/// A text about who looks after whom.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Safeguard {
    /// `welfare officer +15550109`, `deputy officer +15550110`
    Officer {
        /// Who texts from there hears of harm and fear.
        address: String,
    },
    /// `emergency number 999`
    Emergency {
        /// Its digits.
        number: String,
    },
    /// `helpline Childline 0800 1111`
    Helpline {
        /// As it is to be told.
        text: String,
    },
    /// `guardian +15550120`, `guardian heron +15550120`
    Guardian {
        /// Whose, if not the sender's.
        who: Option<Name>,
        /// Where the guardian texts from.
        address: String,
    },
    /// `who saw my health`, `who read heron`
    WhoRead {
        /// Whose, if not the sender's.
        who: Option<Name>,
    },
    /// `records`
    Records,
}

const OFFICER: [&str; 7] = [
    "welfare officer",
    "deputy welfare officer",
    "deputy officer",
    "oficial de bienestar",
    "responsable de bienestar",
    "suplente de bienestar",
    "deputy",
];
const EMERGENCY: [&str; 2] = ["emergency number", "numero de emergencias"];
const HELPLINE: [&str; 3] = ["helpline", "linea de ayuda", "telefono de ayuda"];
const GUARDIAN: [&str; 5] = ["guardian", "parent", "tutor", "tutora", "padre"];
const WHO_SAW_MINE: [&str; 6] = [
    "who saw my health",
    "who read my health",
    "who has seen my health",
    "quien vio mi salud",
    "quien ha visto mi salud",
    "quien leyo mi salud",
];
const WHO_READ: [&str; 4] = ["who read", "who saw", "quien leyo", "quien vio"];
const RECORDS: [&str; 3] = ["records", "registros", "partes"];

/// What the text says of who looks after whom; `None` for all other texts.
///
/// ```
/// use lapwing::message::{Safeguard, safeguard};
/// let officer = Safeguard::Officer { address: "+15550109".to_owned() };
/// assert_eq!(safeguard("Welfare officer: +1 555 0109"), Some(officer));
/// assert_eq!(safeguard("guardian of the lane rope"), None);
/// ```
pub fn safeguard(text: &str) -> Option<Safeguard> {
    let plain = plain(text).text;
    let plain = plain.trim().trim_end_matches(['.', '?', '!']);
    let whole = folded(plain.trim_start_matches('\u{bf}'));
    if WHO_SAW_MINE.contains(&whole.as_str()) {
        return Some(Safeguard::WhoRead { who: None });
    }
    if RECORDS.contains(&whole.as_str()) {
        return Some(Safeguard::Records);
    }
    if let Some(rest) = after(plain, &WHO_READ) {
        return Name::new(rest).ok().map(|who| Safeguard::WhoRead { who: Some(who) });
    }
    if let Some(rest) = after(plain, &OFFICER) {
        return address(rest).map(|address| Safeguard::Officer { address });
    }
    if let Some(rest) = after(plain, &EMERGENCY) {
        let number: String = rest.chars().filter(|c| !c.is_whitespace()).collect();
        let fits = (2..=6).contains(&number.len()) && number.bytes().all(|b| b.is_ascii_digit());
        return fits.then_some(Safeguard::Emergency { number });
    }
    if let Some(rest) = after(plain, &HELPLINE) {
        // A number to call must be in it.
        let digits = rest.chars().filter(char::is_ascii_digit).count();
        let text = rest.chars().take(LONGEST_HELPLINE).collect();
        return (digits >= 3).then_some(Safeguard::Helpline { text });
    }
    let rest = after(plain, &GUARDIAN)?;
    if let Some(address) = address(rest) {
        return Some(Safeguard::Guardian { who: None, address });
    }
    let (who, rest) = rest.split_once(char::is_whitespace)?;
    let who = Name::new(who.trim_end_matches(':')).ok()?;
    address(rest).map(|address| Safeguard::Guardian { who: Some(who), address })
}

/// A helpline is told in one part of an SMS, beside other words.
const LONGEST_HELPLINE: usize = 60;

/// True if the text speaks of the welfare officer.
pub fn names_officer(text: &str) -> bool {
    let whole = folded(&plain(text).text);
    OFFICER.iter().filter(|phrase| phrase.contains(' ')).any(|phrase| whole.contains(phrase))
}

/// What follows one of these phrases.
fn after<'a>(plain: &'a str, phrases: &[&str]) -> Option<&'a str> {
    let first = folded(plain.get(..plain.chars().next()?.len_utf8())?);
    phrases.iter().filter(|phrase| phrase.starts_with(&first)).find_map(|phrase| {
        // A folded letter may be longer as typed: count letters, not bytes.
        let (end, _) = plain.char_indices().nth(phrase.chars().count())?;
        let (start, rest) = plain.split_at(end);
        let rest = (folded(start) == *phrase && rest.starts_with([' ', ':']))
            .then(|| rest.trim_start_matches([' ', ':']))?;
        (!rest.is_empty()).then_some(rest)
    })
}

/// A telephone number without its spaces, or an address of a chat. One as it is dialled
/// is read too, so that it can be said what is wrong with it.
fn address(text: &str) -> Option<String> {
    let text = text.trim();
    let is_of_one = |c: char| c.is_ascii_digit() || matches!(c, ' ' | '-' | '(' | ')' | '.');
    let digits: String = text.chars().filter(char::is_ascii_digit).collect();
    if text.chars().all(is_of_one) && is_dialled(&digits) {
        return Some(digits);
    }
    if let Some(number) = text.strip_prefix('+') {
        let digits: String = number.chars().filter(char::is_ascii_digit).collect();
        // ITU-T E.164 has at most 15.
        let fits = (5..=15).contains(&digits.len());
        return (number.chars().all(is_of_one) && fits).then(|| format!("+{digits}"));
    }
    let is_chat = text.starts_with('@') && text.contains(':') && !text.contains(' ');
    (is_chat && text.len() <= 128).then(|| text.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name(word: &str) -> Option<Name> {
        Some(Name::new(word).unwrap())
    }

    #[test]
    fn both_languages_and_what_is_none_of_it() {
        let guardian = |who, address: &str| Safeguard::Guardian { who, address: address.into() };
        for (text, read) in [
            ("guardian +1 (555) 0120", guardian(None, "+15550120")),
            ("Guardian heron +15550120", guardian(name("heron"), "+15550120")),
            ("tutora heron: @ibis:example.org", guardian(name("heron"), "@ibis:example.org")),
            ("deputy officer +15550110", Safeguard::Officer { address: "+15550110".into() }),
            ("Línea de ayuda: 116 111", Safeguard::Helpline { text: "116 111".into() }),
            ("emergency number 112", Safeguard::Emergency { number: "112".into() }),
            ("who saw my health?", Safeguard::WhoRead { who: None }),
            ("¿Quién vio mi salud?", Safeguard::WhoRead { who: None }),
            ("who read heron", Safeguard::WhoRead { who: name("heron") }),
            ("records", Safeguard::Records),
        ] {
            assert_eq!(safeguard(text), Some(read), "{text}");
        }
        for text in [
            "guardian",
            "guardian heron",
            "helpline please",
            "who read the clock board",
            "records 200",
            "parent 12",
            "200 test 3:12",
            "deputy",
            "welfare officer soon",
        ] {
            assert_eq!(safeguard(text), None, "{text}");
        }
    }
}
