//! Words of danger and of harm, looked for before anything is parsed.
//!
//! Knows phrases and nothing of what is answered; every language is looked
//! through, whatever language the swimmer has chosen.

use std::sync::LazyLock;

use super::phrases::{Found, Phrases, Word, words};

/// How grave the words of a text are; the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Danger {
    /// Chest pain, fainting, a fit, breath that won't come: out now, and help.
    Emergency,
    /// A knock to the head: out, and no more swimming.
    HeadKnock,
    /// Dizziness: out, sit, not alone.
    Dizzy,
    /// A grave word inside a harmless phrase (`chest strap`): ask in one word,
    /// alarm nobody.
    Unclear,
}

/// Whom words of danger are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Whom {
    /// The sender says so.
    Sender,
    /// Nobody is named: the sender, as far as we know.
    Unsaid,
    /// Someone beside the sender (`my friend fainted`, `he isn't breathing`).
    Another,
}

/// What a phrase of the tables stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Alarm {
    /// See [`Danger::Emergency`].
    Emergency,
    /// The same, of someone who can't be the sender.
    EmergencyOfAnother,
    /// See [`Danger::HeadKnock`].
    HeadKnock,
    /// See [`Danger::Dizzy`].
    Dizzy,
    /// See [`Danger::Unclear`].
    Harmless,
    /// Words of harm or fear.
    Welfare,
    /// Grave words for what others look after; hides them.
    Quiet,
}

/// The gravest danger that the words of `text` name.
///
/// ```
/// use lapwing::message::{Danger, danger};
/// assert_eq!(danger("200 test 3:12 felt dizy"), Some(Danger::Dizzy));
/// assert_eq!(danger("chest strap slipped"), Some(Danger::Unclear));
/// assert_eq!(danger("dying lol"), None);
/// ```
pub fn danger(text: &str) -> Option<Danger> {
    ALARMS.all_in(&words(text)).iter().filter_map(|found| danger_of(found.what)).min()
}

/// Whom the words of danger in `text` are about; `is_name` knows other people's
/// names. Where one of several phrases is about the sender, she counts: she is
/// the one who can be told.
///
/// ```
/// use lapwing::message::{Whom, danger_to};
/// let to = |text| danger_to(text, |word| word == "teal");
/// assert_eq!(to("my friend fainted"), Whom::Another);
/// assert_eq!(to("I saw teal faint"), Whom::Another);
/// assert_eq!(to("teal helped me, i fainted"), Whom::Sender);
/// assert_eq!(to("fainted"), Whom::Unsaid);
/// ```
pub fn danger_to(text: &str, is_name: impl Fn(&str) -> bool) -> Whom {
    let words = words(text);
    let mut persons = PERSONS.all_in(&words);
    let named = (0..).zip(&words).filter(|(_, word)| is_name(&word.text));
    persons.extend(named.map(|(at, _)| Found { what: Whom::Another, at, length: 1 }));
    persons.sort_by_key(|person| person.at);
    ALARMS
        .all_in(&words)
        .iter()
        .filter(|found| danger_of(found.what).is_some_and(|danger| danger != Danger::Unclear))
        .map(|found| match found.what {
            Alarm::EmergencyOfAnother => Whom::Another,
            _ => nearest_person(found, &persons, &words),
        })
        .min()
        .unwrap_or(Whom::Unsaid)
}

/// True where the words of `text` speak of harm or fear.
pub fn welfare(text: &str) -> bool {
    ALARMS.all_in(&words(text)).iter().any(|found| found.what == Alarm::Welfare)
}

/// The phrase at the start of `ahead`, folded words, and how many it takes.
pub(super) fn alarm_at(ahead: &[&str]) -> Option<(Alarm, usize)> {
    ALARMS.at_start(ahead).filter(|(alarm, _)| *alarm != Alarm::Quiet)
}

fn danger_of(alarm: Alarm) -> Option<Danger> {
    match alarm {
        Alarm::Emergency | Alarm::EmergencyOfAnother => Some(Danger::Emergency),
        Alarm::HeadKnock => Some(Danger::HeadKnock),
        Alarm::Dizzy => Some(Danger::Dizzy),
        Alarm::Harmless => Some(Danger::Unclear),
        Alarm::Welfare | Alarm::Quiet => None,
    }
}

/// The last person spoken of in the phrase's own clause, up to its end.
fn nearest_person(found: &Found<Alarm>, persons: &[Found<Whom>], words: &[Word]) -> Whom {
    let end = found.at + found.length;
    let clause = words[end - 1].clause;
    persons
        .iter()
        .rfind(|person| person.at < end && words[person.at].clause == clause)
        .map_or(Whom::Unsaid, |person| person.what)
}

static ALARMS: LazyLock<Phrases<Alarm>> = LazyLock::new(|| {
    Phrases::load(TABLES, |heading| match heading {
        "emergency" => Some(Alarm::Emergency),
        "emergency of another" => Some(Alarm::EmergencyOfAnother),
        "dizzy" => Some(Alarm::Dizzy),
        "head" => Some(Alarm::HeadKnock),
        "harmless" => Some(Alarm::Harmless),
        "welfare" => Some(Alarm::Welfare),
        "quiet" => Some(Alarm::Quiet),
        _ => None,
    })
});

static PERSONS: LazyLock<Phrases<Whom>> = LazyLock::new(|| {
    Phrases::load(TABLES, |heading| match heading {
        "sender" => Some(Whom::Sender),
        "another" => Some(Whom::Another),
        _ => None,
    })
});

const TABLES: &[&str] = &[
    include_str!("../../grammar/safety/english.txt"),
    include_str!("../../grammar/safety/spanish.txt"),
];
