//! What a text says of danger, harm and care, read before anything else.

use super::concerns::CONCERNS;
use super::context::{Context, whom};
use super::dangers::{DANGERS, WORRIES, WORRYING};
use super::harms::{HARMS, Harm};
use super::models::{is_like_danger, is_unlike_danger, wants_care};
use super::rule::{Found, Rule, any, firsts, meet};
use super::sign::{Sign, Signs};
use super::signs_in_text::{Mark, Marked, is_person};
use super::words::HealthWords;
use crate::language::Language;
use crate::message::{Concern, Danger, Whom, is_help};
use crate::reading::lex::{Form, Lexed, Token, lex};
use crate::reading::lexicon::{Ordinary, ordinary};

/// What a text says of danger, harm, and what is answered with care.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Alarms {
    /// The danger, if there is one.
    pub danger: Option<Alarm>,
    /// The tokens that are words of harm or fear, where there are such words.
    pub harm: Option<Vec<(usize, usize)>>,
    /// The harm is what someone beside the sender does or may do to themselves.
    pub harm_of_another: bool,
    /// What is to be answered with care, the gravest first.
    pub concerns: Vec<Concern>,
    /// A grave word in a phrase that is known as harmless (`chest strap`).
    pub gear: bool,
    /// A word of health that worries, though it is no danger by itself.
    pub unwell: bool,
    /// Its words are like those of texts that want care, and no rule says why.
    pub care: bool,
}

impl Alarms {
    /// True for a danger, for certain or not, and for words of harm.
    pub const fn is_any(&self) -> bool {
        self.danger.is_some() || self.harm.is_some()
    }
}

/// A danger that a text names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Alarm {
    /// The gravest of its kinds.
    pub danger: Danger,
    /// For certain; else it is asked about in one word.
    pub sure: bool,
    /// Whom it is about.
    pub whom: Whom,
    /// The tokens that say so, from each to the one behind the last.
    pub at: Vec<(usize, usize)>,
}

/// Reads a text's words of danger, in every language; `is_name` knows other
/// people's names. Linear in the length of the text.
///
/// ```
/// use lapwing::message::Danger;
/// use lapwing::reading::health::alarms;
/// let danger = |text| alarms(text, &|_| false).danger;
/// let found = danger("bit of a tight band round my chest").unwrap();
/// assert_eq!((found.danger, found.sure), (Danger::Heart, true));
/// assert_eq!(danger("never fainted"), None);
/// ```
pub fn alarms(text: &str, is_name: &dyn Fn(&str) -> bool) -> Alarms {
    alarms_in(&lex(text), is_name)
}

/// The same of a text already taken apart.
pub fn alarms_in(lexed: &Lexed, is_name: &dyn Fn(&str) -> bool) -> Alarms {
    let tokens = lexed.tokens();
    let mut all = Alarms::default();
    // The word that every gateway knows asks what this is.
    if is_help(&lexed.plain) {
        return all;
    }
    let ordinary = ordinary(lexed);
    for (language, slips) in languages(&tokens, ordinary) {
        let marked = Marked::new(&tokens, ordinary, HealthWords::of(language), slips, is_name);
        let danger = gravest(&marked);
        all.danger = match (all.danger.take(), danger) {
            (Some(one), Some(other)) => {
                Some(if (!other.sure, other.danger) < (!one.sure, one.danger) {
                    other
                } else {
                    one
                })
            }
            (one, other) => one.or(other),
        };
        let harms: Vec<Found<Harm>> = met(HARMS, HARMFUL, &marked, &weigh_harm).collect();
        let to_another = |found: &Found<Harm>| {
            found.says == Harm::ToOneself && whom(&marked, found.span()) == Whom::Another
        };
        all.harm_of_another |= !harms.is_empty() && harms.iter().all(to_another);
        let mut harm: Vec<(usize, usize)> = harms.iter().map(Found::span).collect();
        // The safe word, and nothing else.
        let safe = |mark: &&Mark| {
            mark.signs.has(Sign::Worried) && tokens.len() <= mark.to - mark.from + SAFE_WORD
        };
        harm.extend(marked.marks.iter().find(safe).map(|mark| (mark.from, mark.to)));
        if !harm.is_empty() {
            all.harm.get_or_insert_default().extend(harm);
        }
        all.gear |= marked.gear;
        all.unwell |= is_unwell(&marked);
        for found in met(CONCERNS, CONCERNING, &marked, &weigh_concern) {
            if !all.concerns.contains(&found.says) {
                all.concerns.push(found.says);
            }
        }
        // Where a rule says why, nobody asks the words.
        let unsaid = !all.is_any() && all.concerns.is_empty();
        all.care = unsaid && (all.care || wants_care(&marked));
    }
    all.concerns.sort_unstable();
    // `8x25 no breath` is a set, and not of someone who has none.
    let of_breath = |one: &Alarm| !one.sure && one.danger == Danger::Breath;
    if all.concerns.contains(&Concern::BreathHold) && all.danger.as_ref().is_some_and(of_breath) {
        all.danger = None;
    }
    all
}

/// True if a token is one of the people whom `is_name` knows; what a text says where
/// none is, it says to everybody.
pub fn names_anybody(lexed: &Lexed, is_name: &dyn Fn(&str) -> bool) -> bool {
    lexed.tokens().iter().any(|token| is_person(token, is_name))
}

/// Signs without which no rule of danger is met, of harm, of concern.
const DANGEROUS: Signs = firsts(DANGERS);
const HARMFUL: Signs = firsts(HARMS);
const CONCERNING: Signs = firsts(CONCERNS);

/// What rules find that all begin with one of the signs in `first`.
fn met<'m, T: Copy>(
    rules: &'static [Rule<T>],
    first: Signs,
    marked: &'m Marked<'_, '_>,
    weigh: &'m dyn Fn(&Found<T>, &Context) -> Option<bool>,
) -> impl Iterator<Item = Found<T>> + 'm {
    let rules = if marked.all.meets(first) { rules } else { &[] };
    rules.iter().filter_map(move |rule| meet(rule, marked, weigh))
}

/// Tokens beside the safe word in a text that says no more.
const SAFE_WORD: usize = 1;

/// From so many words that only one language has, a text is also in it.
const FOREIGN: usize = 2;

/// A language that has so many more words of its own than the other is the one.
const AHEAD: usize = 2;

/// The languages that a text may be in, whatever its sender chose: the one that alone
/// has more of its words, or both, as people mix them; and whether slips are looked for in it.
fn languages(tokens: &[Token<'_>], ordinary: &[Ordinary]) -> Vec<(Language, bool)> {
    let (mut english, mut spanish) = (0, 0);
    // A letter is a word of every language.
    let is_word = |token: &Token<'_>| token.form == Form::Word && token.text.chars().count() > 1;
    for (_, known) in tokens.iter().zip(ordinary).filter(|(token, _)| is_word(token)) {
        match known {
            [true, false] => english += 1,
            [false, true] => spanish += 1,
            _ => {}
        }
    }
    match () {
        () if english >= spanish + AHEAD && spanish < FOREIGN => vec![(Language::English, true)],
        () if spanish >= english + AHEAD && english < FOREIGN => vec![(Language::Spanish, true)],
        () => {
            vec![(Language::English, english >= spanish), (Language::Spanish, spanish >= english)]
        }
    }
}

/// The gravest danger of a text, those for certain first.
fn gravest(marked: &Marked<'_, '_>) -> Option<Alarm> {
    let alone = marked.tokens.len() <= 2;
    let mut found: Vec<Found<Danger>> = met(DANGERS, DANGEROUS, marked, &weigh).collect();
    // A grave word and nothing else.
    if found.is_empty() && alone {
        let whole = vec![(0, marked.tokens.len())];
        let lone = |says, sure| Found { says, sure, at: whole.clone() };
        found.extend(marked.all.has(Sign::Chest).then(|| lone(Danger::Heart, true)));
        found.extend(marked.all.has(Sign::Asthma).then(|| lone(Danger::Asthma, false)));
    }
    if found.is_empty() {
        found.extend(worry(marked).or_else(|| like_danger(marked)));
    }
    let best = found.iter().min_by_key(|one| (!one.sure, one.says))?;
    let about = match best.says {
        Danger::Unconscious => Whom::Another,
        _ if best.at.is_empty() => Whom::Unsaid,
        _ => match whom(marked, best.span()) {
            Whom::Unsaid if cannot_text(marked, best) => Whom::Another,
            said => said,
        },
    };
    let danger = best.says;
    let figurative = matches!(
        danger,
        Danger::Choking
            | Danger::Water
            | Danger::Bleeding
            | Danger::Seizure
            | Danger::Faint
            | Danger::Fumes
            | Danger::Poison
            | Danger::Cold
            | Danger::Heat
            | Danger::Unspecific
    );
    // `my watch had a heart attack`
    let named = |(from, to): &(usize, usize)| marked.any(*from, *to, any!(HeartAttack));
    let figurative = figurative || danger == Danger::Heart && best.at.iter().all(named);
    let sure = best.sure && !(figurative && !is_all(marked, best) && is_unlike_danger(marked));
    let at = found.into_iter().flat_map(|one| one.at).collect();
    Some(Alarm { danger, sure, whom: about, at })
}

/// True where words that name nobody can't be of the sender, who would not be
/// texting: `drowning`, `seizure in lane 2`.
fn cannot_text(marked: &Marked<'_, '_>, found: &Found<Danger>) -> bool {
    let (from, to) = found.span();
    let (start, end) = marked.clause_of(from);
    let drowns = found.says == Danger::Water && marked.any(from, to, any!(Drown));
    let is_part = |token: &Token<'_>| PARTS_OF_A_POOL.contains(&token.text);
    let in_the_pool = marked.tokens_in(start, end).iter().any(is_part);
    drowns && to - from == 1 && is_all(marked, found)
        || matches!(found.says, Danger::Seizure | Danger::Water) && in_the_pool
}

/// Where in a pool somebody is said to be.
const PARTS_OF_A_POOL: [&str; 7] =
    ["lane", "end", "poolside", "deck", "calle", "carril", "bordillo"];

/// True where a danger's words are all that stands in their clause: no figure of speech.
fn is_all(marked: &Marked<'_, '_>, found: &Found<Danger>) -> bool {
    let (from, to) = found.span();
    let (start, end) = marked.clause_of(from);
    let mut beside = marked.tokens_in(start, from).iter().chain(marked.tokens_in(to, end));
    beside.all(|token| token.form != Form::Word)
}

/// A sign that worries so much is a word of health.
const UNWELL: u8 = 5;

/// True where a word of health stands that nothing round it takes back.
fn is_unwell(marked: &Marked<'_, '_>) -> bool {
    let worries = |mark: &Mark| {
        mark.signs.meets(Signs::of(&[Sign::Pills, Sign::Overdose]))
            || WORRIES.iter().any(|(sign, weight)| *weight >= UNWELL && mark.signs.has(*sign))
    };
    marked.marks.iter().filter(|mark| worries(mark)).any(|mark| {
        let context = Context::of(marked, &[(mark.from, mark.to)]);
        !(context.denied || context.over || context.seen || context.played || context.told)
    })
}

/// Signs that no rule takes together, and that worry together: asked about.
fn worry(marked: &Marked<'_, '_>) -> Option<Found<Danger>> {
    let mut at = 0;
    while at < marked.tokens.len() {
        let (from, to) = marked.sentence_of(at);
        at = to.max(at + 1);
        // `breathe to one side` is swimming.
        if marked.any(from, to, Signs::of(&[Sign::Technique])) {
            continue;
        }
        let mut seen = Signs::NONE;
        let mut worries = 0;
        let mut places = Vec::new();
        for mark in marked.between(from, to) {
            // One mark counts once, by the gravest of its signs that is new.
            let of = WORRIES
                .iter()
                .filter(|(sign, _)| mark.signs.has(*sign) && !seen.has(*sign))
                .max_by_key(|(_, weight)| *weight);
            let Some((sign, weight)) = of else { continue };
            if places.iter().any(|(from, to)| mark.overlaps(*from, *to)) {
                continue;
            }
            let context = Context::of(marked, &[(mark.from, mark.to)]);
            if context.denied || context.over || context.seen || context.played || context.told {
                continue;
            }
            seen = seen.with(*sign);
            worries += weight;
            places.push((mark.from, mark.to));
        }
        if worries >= WORRYING {
            return Some(Found { says: Danger::Unspecific, sure: false, at: places });
        }
    }
    None
}

/// A text whose words are like those of texts about danger, and that no rule knows.
fn like_danger(marked: &Marked<'_, '_>) -> Option<Found<Danger>> {
    is_like_danger(marked).then_some(Found { says: Danger::Unspecific, sure: false, at: vec![] })
}

/// What the words round a danger leave of it: nothing, a question, or all.
fn weigh(found: &Found<Danger>, context: &Context) -> Option<bool> {
    let helpless = matches!(found.says, Danger::Unconscious | Danger::Choking);
    if context.denied || context.over && !helpless {
        return None;
    }
    if context.seen {
        return context.own.then_some(context.now);
    }
    if context.played {
        return context.own.then_some(false);
    }
    if context.told && !context.now {
        return None;
    }
    Some(!context.supposed || helpless)
}

fn weigh_harm(_: &Found<Harm>, context: &Context) -> Option<bool> {
    (!context.seen && !context.played).then_some(true)
}

fn weigh_concern(_: &Found<Concern>, context: &Context) -> Option<bool> {
    (!context.denied && !context.seen).then_some(true)
}

/// Which rules a text meets, in words, for showing how it was read.
pub fn explain(text: &str, is_name: &dyn Fn(&str) -> bool) -> Vec<String> {
    let lexed = lex(text);
    let tokens = lexed.tokens();
    let mut lines = Vec::new();
    let ordinary = ordinary(&lexed);
    for (language, slips) in languages(&tokens, ordinary) {
        let marked = Marked::new(&tokens, ordinary, HealthWords::of(language), slips, is_name);
        for mark in &marked.marks {
            let words: Vec<&str> =
                marked.tokens_in(mark.from, mark.to).iter().map(|one| one.text).collect();
            lines.push(format!("{:?} {:?}", words.join(" "), mark.signs));
        }
        for rule in DANGERS {
            if let Some(found) = meet(rule, &marked, &weigh) {
                lines.push(format!(
                    "{language:?} {found:?} of {:?}",
                    rule.slots.iter().map(|one| one.any).collect::<Vec<_>>()
                ));
            }
        }
        for rule in HARMS {
            if let Some(found) = meet(rule, &marked, &weigh_harm) {
                lines.push(format!(
                    "{language:?} harm {:?} of {:?}",
                    found.at,
                    rule.slots.iter().map(|one| one.any).collect::<Vec<_>>()
                ));
            }
        }
    }
    lines
}
