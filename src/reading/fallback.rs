//! What is done with a text that no reading explains well enough, but whose words
//! leave little doubt of its kind.

use super::decide::{Decision, stores};
use super::frame::{Clause, mood, of_one, of_words};
use super::gist::{Gist, chat_odds, gists, lone_time, surely};
use super::lexicon::Concept;
use super::likely::Class;
use super::otherwise::is_another;
use super::piece::{Item, Piece};
use super::rank::candidates;
use super::situation::Role;
use crate::message::{About, Ask, Doubt, Kind, NextWish, PlanWish, Statement, Wants};

/// How likely a kind must be to be asked about.
const ASKED: f32 = 0.35;

/// How likely a gist must be.
const GIST: f32 = 0.15;

/// The same of one that no figure, day or person stands for.
const ALONE: f32 = 0.4;

/// The same of one that stands in for a question that nobody can answer.
const BESIDE_ASKING: f32 = 0.3;

/// How likely a question must be that is passed on to people, and its fewest pieces.
const OPEN: f32 = 0.4;
const WORDS: usize = 4;

/// How likely small talk must be for nothing to be missing from a text.
const CHAT: f32 = 0.3;

/// How likely a second one must be to be offered beside the first.
const OTHER: f32 = 0.04;

/// How likely something told must be beside a question.
const TOLD: f32 = 0.6;

/// How likely one must be to be answered: an answer changes nothing.
const ANSWERED: f32 = 0.3;

/// How likely a question must be, of a text without a figure that says anything else.
const QUESTION: f32 = 0.12;

/// What the words make likely, asked about where it would be kept.
pub fn by_words(whole: &Clause<'_, '_>) -> Option<Decision> {
    let ranked = whole.likely.ranked();
    let (first, odds) = *ranked.first()?;
    // What worries gets the line that says where help is, and no shrug.
    if is_question(first) && whole.unwell {
        return None;
    }
    if let Some(kind) = answered(first, whole)
        && odds >= least(first, whole)
        && !names_nobody(whole)
    {
        let who = match whole.people().as_slice() {
            [one] if Some(*one) != whole.sit.me && of_one(&kind) => whole.name(*one),
            _ => None,
        };
        let says = vec![Statement { who, kind }];
        return Some(Decision::Take { says, rest: None });
    }
    if odds < ASKED {
        return None;
    }
    let of_class = candidates(whole).into_iter().filter(|one| {
        one.asks.is_none()
            && !one.says.is_empty()
            && one.says.iter().all(|one| Class::of(&one.kind) == Some(first))
    });
    let best = of_class.min_by(|one, other| one.cost.total_cmp(&other.cost))?;
    Some(match best.says.iter().any(|one| stores(&one.kind)) {
        true => Decision::ask_whether(best.says),
        false => Decision::Take { says: best.says, rest: None },
    })
}

/// What a text may say that nothing reads, asked about; `question` where it was taken for
/// one that nobody can answer: `my daughter timed my 50, 41 secs, not bad at 68 is it`.
pub fn guess(whole: &Clause<'_, '_>, question: bool) -> Option<Decision> {
    if whole.danger {
        return None;
    }
    let least = if question { BESIDE_ASKING } else { GIST };
    let open = |one: &Statement| matches!(&one.kind, Kind::Ask(Ask { about: About::Other, .. }));
    let mut likely = gists(whole);
    let chat = chat_odds(whole);
    // A question that nobody can answer is one that words ask, and not for a second time.
    let asks = !question && whole.len() >= WORDS;
    let fits = |one: &Gist| asks && one.odds >= OPEN || !one.says.iter().any(open);
    likely.retain(|one| one.odds >= OTHER.max(chat) && fits(one));
    let ails = |one: &Gist| one.says.iter().any(|one| one.kind.ails());
    let least = |one: &Gist| match one.stands {
        _ if question && ails(one) => TOLD,
        true => least,
        false => least.max(ALONE),
    };
    let lone = lone_time(whole).filter(|_| !question);
    let first = likely.first().filter(|one| one.odds >= least(one));
    // A time that is like one best and no other says more than what no figure stands for.
    if let Some(says) = lone.filter(|_| first.is_none_or(|one| !one.stands)) {
        return Some(match first.filter(|one| is_another(&says, &one.says)) {
            Some(one) => Decision::ask_which(says, one.says.clone()),
            None => Decision::ask_whether(says),
        });
    }
    let Some(first) = first else {
        let (first, odds) = *whole.likely.ranked().first()?;
        if question || odds < TOLD || chat >= CHAT {
            return None;
        }
        let about = Doubt::Missing { wants: missing(first, whole)? };
        return Some(Decision::Ask { about, options: vec![], says: vec![] });
    };
    let keeps = |says: &[Statement]| says.iter().any(|one| stores(&one.kind));
    match keeps(&first.says) {
        true => {
            let mut others = likely.iter().skip(1).filter(|one| keeps(&one.says));
            Some(match others.find(|one| is_another(&first.says, &one.says)) {
                Some(second) => Decision::ask_which(first.says.clone(), second.says.clone()),
                None => Decision::ask_whether(first.says.clone()),
            })
        }
        false if names_nobody(whole) => None,
        false => Some(Decision::Take { says: first.says.clone(), rest: None }),
    }
}

/// What a text surely tells by its words and figures, whatever else is made of it.
pub fn tells(whole: &Clause<'_, '_>) -> Vec<Statement> {
    const SURE: f32 = 0.5;
    surely(whole, SURE, |_| true).unwrap_or_default()
}

/// What a text that nothing reads is all the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Aside {
    /// A question about how somebody is.
    OfHealth,
    /// Small talk: it tells nothing to keep and asks nothing.
    Chat,
}

/// What it is, if it is one of these.
pub fn aside(whole: &Clause<'_, '_>) -> Option<Aside> {
    match () {
        () if asks_of_health(whole) => Some(Aside::OfHealth),
        () if is_chat(whole) => Some(Aside::Chat),
        () => None,
    }
}

/// True where the words make it likely that nothing is told or asked, and no figure, day or
/// person, nor a word of health, speaks against it.
fn is_chat(whole: &Clause<'_, '_>) -> bool {
    const LIKELY: f32 = 0.5;
    // Whoever thanks, and says little else.
    const THANKS: f32 = 0.3;
    let least = if whole.has(Concept::Thanks) { THANKS } else { LIKELY };
    let (first, odds) = whole.likely.ranked().first().copied().unwrap_or((Class::Ask, 0.0));
    first == Class::Nothing
        && odds >= least
        && !whole.danger
        && !whole.unwell
        && whole.pieces.iter().all(|piece| is_wordy(piece) && !piece.is_of_health())
}

/// True where the words ask something of what may be wrong with somebody.
fn asks_of_health(whole: &Clause<'_, '_>) -> bool {
    const ASKS: f32 = 0.6;
    let odds: f32 =
        Class::ALL.iter().filter(|one| is_question(**one)).map(|one| whole.likely.of(*one)).sum();
    // `how do i breathe on the left side` asks how to swim.
    let of_swimming = whole.at(mood::opening(whole)).is_some_and(|piece| piece.means(Concept::How));
    whole.unwell && !whole.danger && !of_swimming && odds >= ASKS && mood::is_question(whole)
}

/// A piece that is neither figure nor day nor person.
fn is_wordy(piece: &Piece<'_>) -> bool {
    matches!(
        piece.item,
        Item::Word | Item::Chatter | Item::Unknown | Item::Mark(_) | Item::Line | Item::Picture
    )
}

/// What a text left out whose words leave little doubt of its kind: `no wait 46 not 56`.
fn missing(class: Class, whole: &Clause<'_, '_>) -> Option<Wants> {
    let coach = whole.sit.role == Role::Coach;
    let is_far = |piece: &Piece<'_>| matches!(piece.item, Item::Far(_) | Item::Plural(_));
    let far = whole.pieces.iter().any(is_far);
    Some(match class {
        Class::Test if far => Wants::Time,
        Class::Test => Wants::Distance,
        Class::SetResult if whole.sit.set.is_some() => Wants::Times,
        Class::SetResult => Wants::Which,
        Class::Done => Wants::HowFar,
        Class::Fix | Class::Undo => Wants::Which,
        Class::Attend if coach => Wants::Who,
        Class::Attend => Wants::Coming,
        Class::Move if whole.people().is_empty() => Wants::Who,
        Class::Move => Wants::Lane,
        Class::Change if coach => Wants::Change,
        Class::Set if coach => Wants::Set,
        Class::Timetable if coach => Wants::Day,
        Class::Race => Wants::Race,
        _ => return None,
    })
}

/// `teal next` of somebody whom nobody knows is not answered with one's own.
fn names_nobody(whole: &Clause<'_, '_>) -> bool {
    let nobody = |piece: &Piece<'_>| matches!(piece.item, Item::Unknown | Item::Chatter);
    whole.len() == 2 && whole.pieces.first().is_some_and(nobody)
}

/// True of what is only asked, and of nobody's swims.
const fn is_question(class: Class) -> bool {
    matches!(class, Class::Ask | Class::Evening | Class::Why)
}

/// How likely a kind must be here to be answered.
fn least(class: Class, whole: &Clause<'_, '_>) -> f32 {
    let figures = !whole.pieces.iter().all(is_wordy);
    match class {
        Class::Ask if !figures => QUESTION,
        Class::Ask => ASKED,
        _ => ANSWERED,
    }
}

/// A kind that only answers and needs no figure.
fn answered(class: Class, whole: &Clause<'_, '_>) -> Option<Kind> {
    Some(match class {
        Class::Ask => of_words(whole).unwrap_or_else(|| {
            let text = whole.typed(0, whole.len()).to_owned();
            Kind::Ask(Ask { about: About::Other, text })
        }),
        // `only 2 lanes tonight` from a swimmer is for the coach to say.
        Class::Lanes if whole.sit.role != Role::Coach && !mood::is_question(whole) => return None,
        Class::Evening | Class::Why | Class::Squad | Class::Predict | Class::Lanes => {
            of_words(whole)?
        }
        Class::Trend => Kind::Trend,
        Class::Best => Kind::Best,
        Class::Log => Kind::Log,
        Class::Next => Kind::Next(NextWish::default()),
        Class::Plan => Kind::Plan(PlanWish::default()),
        Class::Targets => Kind::Targets { distances: vec![] },
        _ => return None,
    })
}
