//! Words of pain and illness in a text that the grammar cannot read.
//!
//! Better a caution too many than a hurt swimmer sent to a hard session: a
//! body part beside a word of pain, or a word of illness, is taken as said,
//! whatever stands round it. Numbers are never guessed: a level is taken only
//! where exactly one number from 0 to 10 stands in the text.

use super::normal::{Ailing, another, folded, is_as_well, is_i_will, plain};
use super::{Illness, Kind, Pain};

/// Body parts, English and Spanish, and the place that each is.
const PLACES: &[(&str, &str)] = &[
    ("shoulder", "shoulder"),
    ("shoulders", "shoulder"),
    ("hombro", "shoulder"),
    ("hombros", "shoulder"),
    ("elbow", "elbow"),
    ("codo", "elbow"),
    ("wrist", "wrist"),
    ("muneca", "wrist"),
    ("neck", "neck"),
    ("cuello", "neck"),
    ("back", "back"),
    ("espalda", "back"),
    ("lumbar", "back"),
    ("hip", "hip"),
    ("cadera", "hip"),
    ("groin", "groin"),
    ("ingle", "groin"),
    ("knee", "knee"),
    ("knees", "knee"),
    ("rodilla", "knee"),
    ("rodillas", "knee"),
    ("ankle", "ankle"),
    ("tobillo", "ankle"),
    ("calf", "calf"),
    ("gemelo", "calf"),
    ("foot", "foot"),
    ("pie", "foot"),
    ("ear", "ear"),
    ("ears", "ear"),
    ("oido", "ear"),
    ("oreja", "ear"),
    ("rib", "rib"),
    ("ribs", "rib"),
    ("hamstring", "hamstring"),
];

/// Words that make a body part a pain.
const PAINS: &[&str] = &[
    "hurt",
    "hurts",
    "hurting",
    "hurtin",
    "sore",
    "pain",
    "pains",
    "painful",
    "ache",
    "aches",
    "aching",
    "achy",
    "pulled",
    "strained",
    "twisted",
    "tweaked",
    "gone",
    "infection",
    "infected",
    "killing",
    "throbbing",
    "duele",
    "duelen",
    "dolor",
    "dolorido",
    "dolorida",
    "molesta",
    "molestia",
    "molestias",
    "lesionado",
    "lesionada",
    "lesion",
    "infeccion",
];

/// Words of illness, and its kind.
const ILLNESSES: &[(&str, Option<Illness>)] = &[
    ("fever", Some(Illness::Fever)),
    ("feverish", Some(Illness::Fever)),
    ("flu", Some(Illness::Fever)),
    ("covid", Some(Illness::Fever)),
    ("temperature", Some(Illness::Fever)),
    ("fiebre", Some(Illness::Fever)),
    ("gripe", Some(Illness::Fever)),
    ("vomiting", Some(Illness::Stomach)),
    ("vomited", Some(Illness::Stomach)),
    ("vomit", Some(Illness::Stomach)),
    ("puked", Some(Illness::Stomach)),
    ("puking", Some(Illness::Stomach)),
    ("diarrhoea", Some(Illness::Stomach)),
    ("diarrhea", Some(Illness::Stomach)),
    ("diarrea", Some(Illness::Stomach)),
    ("vomite", Some(Illness::Stomach)),
    ("vomitando", Some(Illness::Stomach)),
    ("vomitado", Some(Illness::Stomach)),
    ("ill", None),
    ("sick", None),
    ("unwell", None),
    ("poorly", None),
    ("enfermo", None),
    ("enferma", None),
    ("malo", None),
    ("resfriado", Some(Illness::Cold)),
    ("resfriada", Some(Illness::Cold)),
];

/// Pairs of words that are illness only together.
const ILL_PAIRS: &[(&str, &str, Option<Illness>)] = &[
    ("throwing", "up", Some(Illness::Stomach)),
    ("threw", "up", Some(Illness::Stomach)),
    ("not", "well", None),
    ("feeling", "rough", None),
    ("encuentro", "mal", None),
];

/// Words that turn the sense round: over, or not.
const OVER: &[&str] = &["no", "not", "better", "ok", "fine", "gone", "ya", "mejor", "bien"];

/// Of those, the ones that deny but what follows.
const NOT: &[&str] = &["no", "not"];

/// What a text says of pain or illness, as far as single words tell; another's
/// illness is not the sender's, unless she says that she is ill too.
pub fn health(text: &str) -> Option<Kind> {
    said_of_her(&apart(words(text)).0)
}

/// The illness of another that a text tells of.
pub fn health_of_another(text: &str) -> Option<(Ailing, Kind)> {
    let (_, theirs) = apart(words(text));
    theirs.into_iter().find_map(|(whose, words)| Some((whose, said_of_her(&words)?)))
}

/// The words, and a comma where a clause ends.
fn words(text: &str) -> Vec<String> {
    let plain = plain(text).text;
    let mut all = Vec::new();
    for clause in plain.split([',', '.', ';', ':', '!', '?', '\n', '(', ')']) {
        let words = clause.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        all.extend(words.map(folded));
        all.push(",".to_owned());
    }
    all
}

/// The words without I'll and without others' illness, and those of the latter.
fn apart(words: Vec<String>) -> (Vec<String>, Vec<(Ailing, Vec<String>)>) {
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let illness = |ahead: &[&str]| {
        let pair = |(one, other, _): &(&str, &str, _)| ahead.starts_with(&[*one, *other]);
        let single = || ILLNESSES.iter().any(|(word, _)| ahead.first() == Some(word));
        ILL_PAIRS.iter().any(pair).then_some(2).or_else(|| single().then_some(1))
    };
    let as_well = is_as_well(&words);
    let (mut hers, mut theirs) = (Vec::new(), Vec::new());
    let mut at = 0;
    while at < words.len() {
        let ahead = &words[at..];
        if let Some((whose, length)) = another(ahead, illness).filter(|_| !as_well) {
            let told = ahead[..length].iter().map(|word| (*word).to_owned());
            theirs.push((whose, told.collect()));
            at += length;
            continue;
        }
        let before = at.checked_sub(1).map(|before| words[before]);
        let will = words[at] == "ill" && is_i_will(before, words.get(at + 1).copied());
        if !will {
            hers.push(words[at].to_owned());
        }
        at += 1;
    }
    (hers, theirs)
}

fn said_of_her(words: &[String]) -> Option<Kind> {
    let has = |word: &str| words.iter().any(|one| one == word);
    for (one, other, what) in ILL_PAIRS {
        let together =
            |pair: &[String]| pair[0] == *one && pair[1..].contains(&(*other).to_owned());
        if words.windows(3).any(together) || words.windows(2).any(together) {
            return Some(Kind::Ill { what: *what });
        }
    }
    if let Some((word, what)) = ILLNESSES.iter().find(|(word, _)| has(word)) {
        let over =
            OVER.iter().any(|over| !NOT.contains(over) && has(over)) || is_denied(words, word);
        return (!over).then_some(Kind::Ill { what: *what });
    }
    let (_, place) = PLACES.iter().find(|(word, _)| has(word))?;
    let level = sole_level(words);
    let hurts = PAINS.iter().any(|word| has(word)) || level.is_some();
    let over = OVER.iter().any(|word| *word != "gone" && has(word));
    (hurts && !over).then(|| Kind::Pain(Pain { place: (*place).to_owned(), level }))
}

/// True if a word of denial stands before each `word`, within its clause:
/// `im not ill`, and not `ill, not coming`.
fn is_denied(words: &[String], word: &str) -> bool {
    let denied = |at: usize| {
        let clause = words[..at].iter().rev().take_while(|before| *before != ",");
        clause.take(NEAR).any(|before| NOT.contains(&before.as_str()))
    };
    let places = words.iter().enumerate().filter(|(_, one)| *one == word);
    places.map(|(at, _)| at).all(denied)
}

/// How many words before an illness may deny it.
const NEAR: usize = 3;

/// The one number from 0 to 10, where exactly one number stands; a 10 behind
/// it is the scale (`8/10`).
fn sole_level(words: &[String]) -> Option<u8> {
    let numbers: Vec<u32> = words.iter().filter_map(|word| word.parse().ok()).collect();
    match numbers.as_slice() {
        [level] | [level, 10] if *level <= 10 => u8::try_from(*level).ok(),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pain_and_illness_among_other_words() {
        for (text, place, level) in [
            ("shoulder is a 7 now", "shoulder", Some(7)),
            ("my shoulder hurts a lot 8/10", "shoulder", Some(8)),
            ("knee hurts when kicking breaststroke", "knee", None),
            ("pulled my groin", "groin", None),
            ("lower back gone", "back", None),
            ("me duele el hombro", "shoulder", None),
        ] {
            let pain = Kind::Pain(Pain { place: place.to_owned(), level });
            assert_eq!(health(text), Some(pain), "{text}");
        }
        for text in [
            "throwing up since last night",
            "fever 38.5",
            "not feeling well",
            "me encuentro mal",
            "the kids are ill and so am i",
            "me and my son are ill",
            "my son is ill, ive a fever",
            "went to see my mum, ill now",
            "ill miss tonight",
            "ill not be there",
            "feeling ill be late 10",
        ] {
            assert!(matches!(health(text), Some(Kind::Ill { .. })), "{text}");
        }
        for text in [
            "200 back test 3:40",
            "el hombro ya no me duele",
            "8x50 back",
            "back next week",
            "shoulder ok now",
            "kids are ill",
            "shes ill",
            "both my kids have the flu so we stay home",
            "i'll be there",
            "ill be there",
            "im not ill",
        ] {
            assert_eq!(health(text), None, "{text}");
        }
    }
}
