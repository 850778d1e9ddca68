//! Questions in the sender's own words, and wishes for a session.

mod evening;
mod for_deck;
mod general;
mod named;
mod session;
mod topic;
mod words;

use super::Clause;
use super::candidate::Candidate;
use super::mood::{self, is_question};
use crate::message::{About, Ask, Kind, Name};
use crate::reading::lexicon::{Concept, Hint, Sense};
use crate::reading::likely::Class;
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Role;
use for_deck::to_coach;
pub use general::{best_over, question_in, speaks_of_health};
use named::has_word;
use session::wishes;
use topic::topic;
pub use words::of_words;

/// Reads a stretch as a question or a wish.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if let Some(told) = to_coach(c) {
        return vec![told];
    }
    if let Some(beside) = beside_each_other(c) {
        return vec![beside];
    }
    let question = is_question(c) || favour(c);
    let inside = !question && c.pieces.iter().any(mood::asks);
    let wish = wishes(c);
    if !question && !inside && !wish {
        return vec![];
    }
    let by_words = of_words(c).filter(|_| question);
    let known = topic(c, question || inside)
        .filter(|kind| by_words.as_ref().is_none_or(|other| !is_unlikely(c, kind, other)));
    let mut candidate = Candidate::new("ask", c.len());
    candidate.used[asked_from(c)..].fill(true);
    let cost = match (&known, question, wish) {
        (Some(_), true, _) => 0.3,
        (Some(_), false, true) => 0.5,
        (Some(_), false, false) => 0.9,
        (None, true, _) => 1.0,
        (None, ..) => return vec![],
    };
    // What it asks about by its words is no surer than that it asks.
    let topic = known.or(by_words);
    let who = match c.people().as_slice() {
        [one] if Some(*one) != c.sit.me => c.name(*one),
        _ => None,
    };
    // `can you make lane two …` asks for something to be done.
    let cost = if mood::is_request(c) && topic.is_none() { 2.6 } else { cost };
    let kind = topic.unwrap_or_else(|| other(c));
    // Results told in the same breath are no part of the question.
    let told = told_beside(c);
    vec![candidate.says_of(who.filter(|_| of_one(&kind)), kind).at_cost(cost + told)]
}

/// True where the words leave no doubt of another topic: `what we doing tonight` asks for no
/// trend.
fn is_unlikely(c: &Clause<'_, '_>, kind: &Kind, other: &Kind) -> bool {
    const UNLIKELY: f32 = 0.1;
    let odds = |kind: &Kind| Class::of(kind).map_or(1.0, |class| c.likely.of(class));
    odds(kind) < UNLIKELY && odds(other) > 1.0 - 3.0 * UNLIKELY
}

/// A coach's wish for a list says so within its first pieces: `give me the list of …`.
const LIST_BY: usize = 4;

/// `can you remind me at 5`, a coach's `list of the times`: asked for without a word that
/// asks.
fn favour(c: &Clause<'_, '_>) -> bool {
    match c.sit.role {
        Role::Coach => {
            let first = c.part(0, c.len().min(LIST_BY));
            has_word(&first, &["list", "lista"])
        }
        Role::Swimmer => has_word(c, Hint::Reminder.words()),
    }
}

/// `teal vs finch last night`: two beside each other.
fn beside_each_other(c: &Clause<'_, '_>) -> Option<Candidate> {
    const LONGEST: usize = 9;
    let person = |piece: Option<&Piece<'_>>| {
        piece.is_some_and(|piece| matches!(piece.item, Item::Person(_)))
    };
    let is_figure = |piece: &Piece<'_>| match piece.item {
        Item::Figure(figure) => figure.is_marked(),
        Item::Lanes(_) | Item::Repeat(..) | Item::Each(_) => true,
        _ => false,
    };
    let against = (1..c.len()).any(|at| {
        Hint::Against.is(c.pieces[at].text) && person(c.at(at - 1)) && person(c.at(at + 1))
    });
    if !against || c.len() > LONGEST || c.pieces.iter().any(is_figure) {
        return None;
    }
    let names = c.people().iter().filter_map(|one| c.name(*one)).collect();
    let mut candidate = Candidate::new("ask", c.len());
    candidate.used.fill(true);
    Some(candidate.says(Kind::Compare { names }).at_cost(0.3))
}

/// A person's name alone.
pub fn lone_person(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let [one] = c.people()[..] else { return vec![] };
    if c.pieces.iter().filter(|piece| !matches!(piece.item, Item::Mark(_) | Item::Picture)).count()
        != 1
    {
        return vec![];
    }
    let mut candidate = Candidate::new("person", c.len());
    candidate.used.fill(true);
    let name: Option<Name> = c.name(one);
    vec![candidate.says_of(name, Kind::Swimmer).at_cost(0.5)]
}

/// Where the question itself begins: what stands in a sentence before it is told.
fn asked_from(c: &Clause<'_, '_>) -> usize {
    let mut from = 0;
    for at in 1..c.len() {
        let sentence = matches!(
            c.pieces[at - 1].item,
            Item::Mark('.' | '!' | ';') | Item::Line | Item::Picture
        );
        let comma = c.pieces[at - 1].item == Item::Mark(',');
        if !sentence && !comma {
            continue;
        }
        let rest = c.part(at, c.len());
        let ails = |stretch: &Clause<'_, '_>| {
            stretch.pieces.iter().any(|piece| {
                let ill = |sense: &Sense| matches!(sense, Sense::Illness(_)).then_some(());
                piece.means(Concept::Pain) || piece.sense(ill).is_some()
            })
        };
        let told = c.part(0, at);
        let begins = mood::opens_question(&rest) || comma && ails(&told) && !ails(&rest);
        let before = c.part(from, at);
        if begins && !is_question(&before) {
            from = at;
        }
    }
    from
}

/// True of a question that may be about somebody named.
pub fn of_one(kind: &Kind) -> bool {
    matches!(
        kind,
        Kind::Targets { .. }
            | Kind::OwnTargets { .. }
            | Kind::Predict { .. }
            | Kind::Trend
            | Kind::Best
            | Kind::Log
            | Kind::Swimmer
            | Kind::Next(_)
            | Kind::Ask(_)
            | Kind::Why
    )
}

fn other(c: &Clause<'_, '_>) -> Kind {
    about(c, About::Other)
}

fn about(c: &Clause<'_, '_>, about: About) -> Kind {
    Kind::Ask(Ask { about, text: c.typed(0, c.len()).to_owned() })
}

/// A cost for times that were swum, told within the same stretch.
fn told_beside(c: &Clause<'_, '_>) -> f32 {
    let first = mood::opening(c);
    let asks_first =
        c.at(first).is_some_and(|piece| mood::asks(piece) || piece.means(Concept::Aux))
            || mood::opens_question(c);
    if asks_first {
        return 0.0;
    }
    let times = c.pieces.iter().filter(|piece| match piece.item {
        Item::Figure(figure) => figure.is_marked() || matches!(figure, Figure::Parted { .. }),
        Item::Each(_) | Item::Repeat(..) => true,
        _ => false,
    });
    times.count() as f32 * 0.9
}
