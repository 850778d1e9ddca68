//! The words of bodies and dangers, loaded once: from the first word of a spelling
//! to its signs.

use std::sync::LazyLock;

use super::sign::{Sign, Signs};
use crate::language::Language;
use crate::message::Illness;
use crate::reading::lexicon::{Fixed, rows};

/// A language's words of health.
pub struct HealthWords {
    by_first: Fixed<&'static str, Vec<Spelling>>,
    /// What single words are signs of.
    single: Fixed<&'static str, Signs>,
    /// Words with one letter left out, and the words that they come from.
    slips: Fixed<String, Vec<&'static str>>,
}

/// A spelling of one word or several, and what it may mean.
#[derive(Debug, Clone)]
pub struct Spelling {
    /// The words behind the first.
    pub rest: Vec<&'static str>,
    /// What they are signs of.
    pub signs: Signs,
    /// The part of the body that they name, as a report keeps it.
    pub place: Option<&'static str>,
    /// The illness that they name.
    pub illness: Option<Option<Illness>>,
}

/// Shorter words have too many others a letter away.
const SHORTEST_SLIP: usize = 5;

/// Letters up to which a word may be a slip: no word of the lists is longer.
const LONGEST_SLIP: usize = 24;

impl HealthWords {
    /// The words of `language`.
    pub fn of(language: Language) -> &'static HealthWords {
        match language {
            Language::English => &ENGLISH,
            Language::Spanish => &SPANISH,
        }
    }

    /// The spellings that begin with `word`.
    pub fn beginning(&self, word: &str) -> &[Spelling] {
        self.by_first.get(word).map_or(&[], Vec::as_slice)
    }

    /// The word that a slip of the finger was meant to be, of a word that nobody knows: one letter more, less, changed or swapped with its neighbour, or
    /// letters drawn out (`dizzzy`).
    pub fn slip_of(&self, typed: &str) -> Option<&'static str> {
        if typed.len() < SHORTEST_SLIP - 1 || !typed.is_ascii() {
            return None;
        }
        let drawn = undrawn(typed);
        if drawn != typed
            && let Some((word, _)) = self.by_first.get_key_value(drawn.as_str())
        {
            return Some(word);
        }
        // A word without an end is nobody's slip, and would take long to look at.
        if typed.len() > LONGEST_SLIP {
            return None;
        }
        let near = |word: &&&'static str| strsim::osa_distance(word, typed) == 1;
        let of = |key: &str| self.slips.get(key).into_iter().flatten().find(near).copied();
        let shorter = (0..typed.len()).map(|at| format!("{}{}", &typed[..at], &typed[at + 1..]));
        of(typed).or_else(|| shorter.into_iter().find_map(|key| of(&key)))
    }

    fn load(lists: &[&'static str]) -> Self {
        let mut phrases: Fixed<&'static str, Spelling> = Fixed::default();
        for (class, value, words) in lists.iter().flat_map(|list| rows(list)) {
            let blank = Spelling { rest: vec![], signs: Signs::NONE, place: None, illness: None };
            let spelling = phrases.entry(words).or_insert(blank);
            match class {
                "sign" => {
                    let sign = Sign::ALL.iter().find(|(_, name)| *name == value);
                    debug_assert!(sign.is_some(), "no such sign: {value}");
                    spelling.signs =
                        sign.map_or(spelling.signs, |(one, _)| spelling.signs.with(*one));
                }
                "body" => spelling.place = Some(value),
                "illness" => {
                    spelling.signs = spelling.signs.with(Sign::Ill);
                    spelling.illness = Some(match value {
                        "cold" => Some(Illness::Cold),
                        "fever" => Some(Illness::Fever),
                        "stomach" => Some(Illness::Stomach),
                        _ => None,
                    });
                }
                "word" => {
                    let sign = match value {
                        "pain" => Some(Sign::Ache),
                        "better" => Some(Sign::Better),
                        "tired" => Some(Sign::Tired),
                        _ => None,
                    };
                    spelling.signs = sign.map_or(spelling.signs, |one| spelling.signs.with(one));
                }
                _ => {}
            }
            if spelling.place.is_some() {
                spelling.signs = spelling.signs.with(Sign::PlaceWord);
            }
        }
        phrases.retain(|_, one| !one.signs.is_empty() || one.place.is_some());
        let mut by_first: Fixed<&'static str, Vec<Spelling>> = Fixed::default();
        let mut single: Fixed<&'static str, Signs> = Fixed::default();
        let mut slips: Fixed<String, Vec<&'static str>> = Fixed::default();
        let mut sorted: Vec<_> = phrases.into_iter().collect();
        sorted.sort_by_key(|(words, _)| *words);
        for (words, mut spelling) in sorted {
            let mut words = words.split(' ');
            let Some(first) = words.next() else { continue };
            spelling.rest = words.collect();
            let grave = spelling.signs.meets(SLIPS) && spelling.rest.is_empty();
            if grave && first.len() >= SHORTEST_SLIP && first.is_ascii() {
                for key in
                    (0..first.len()).map(|at| format!("{}{}", &first[..at], &first[at + 1..]))
                {
                    slips.entry(key).or_default().push(first);
                }
                slips.entry(first.to_owned()).or_default().push(first);
            }
            if spelling.rest.is_empty() {
                let signs = single.entry(first).or_default();
                *signs = signs.and(spelling.signs);
            }
            by_first.entry(first).or_default().push(spelling);
        }
        HealthWords { by_first, single, slips }
    }
}

/// What a single word may be a sign of.
pub fn signs_of(word: &str, language: Language) -> Signs {
    HealthWords::of(language).single.get(word).copied().unwrap_or_default()
}

/// A word without letters drawn out: `dizzzy` is `dizzy`.
fn undrawn(word: &str) -> String {
    let mut out = String::with_capacity(word.len());
    for c in word.chars() {
        if !out.ends_with(&[c, c].iter().collect::<String>()) {
            out.push(c);
        }
    }
    out
}

/// Signs that are looked for behind slips of the finger: never a negation, and
/// nothing that calms.
const SLIPS: Signs = Signs::of(&[
    Sign::Chest,
    Sign::Breath,
    Sign::Breathless,
    Sign::Hurt,
    Sign::Dizzy,
    Sign::Faintish,
    Sign::Fainted,
    Sign::Collapse,
    Sign::Unresponsive,
    Sign::Seizure,
    Sign::Palpitation,
    Sign::Drown,
    Sign::Choke,
    Sign::Cough,
    Sign::Froth,
    Sign::Wheeze,
    Sign::Asthma,
    Sign::AllergicReaction,
    Sign::Swell,
    Sign::Numb,
    Sign::Bleed,
    Sign::Head,
    Sign::HitHead,
    Sign::Confused,
    Sign::Slur,
    Sign::Diabetic,
    Sign::Overdose,
    Sign::Pregnant,
    Sign::Ambulance,
    Sign::Emergency,
    Sign::EndLife,
    Sign::HurtSelf,
    Sign::Swallowed,
    Sign::Ill,
    Sign::Vomit,
]);

static ENGLISH: LazyLock<HealthWords> = LazyLock::new(|| {
    HealthWords::load(&[
        include_str!("../../../grammar/lexicon/health-english.txt"),
        include_str!("../../../grammar/lexicon/body-english.txt"),
        include_str!("../../../grammar/lexicon/harm-english.txt"),
    ])
});

static SPANISH: LazyLock<HealthWords> = LazyLock::new(|| {
    HealthWords::load(&[
        include_str!("../../../grammar/lexicon/health-spanish.txt"),
        include_str!("../../../grammar/lexicon/body-spanish.txt"),
        include_str!("../../../grammar/lexicon/harm-spanish.txt"),
    ])
});
