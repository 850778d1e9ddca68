//! From what the grammar read to statements: what a figure can mean, which
//! number is the distance, whether counts and sums agree.
//!
//! Knows nothing of who swims or when; what it cannot settle becomes a doubt
//! with its possible answers, never a guess.

mod approval;
mod commands;
mod days;
mod deeds;
mod evening;
mod feelings;
mod figures;
mod limits;
mod meets;
mod people;
mod regular;
mod reports;
mod results;
mod sets;
mod trials;

pub use figures::SHORTEST_SWIM_S;
pub use results::count_in_doubt;

use super::syntax::{Capture, Figure, Item, Said, Sentence};
use super::{Doubt, Kind, Name, Statement};

/// What a statement comes to.
pub type Outcome<T> = Result<T, Trouble>;

/// The words that settle a doubt, each with what is then said.
pub type Answers = Vec<(String, Vec<Statement>)>;

/// Why a statement doesn't stand as it is.
#[derive(Debug, Clone, PartialEq)]
pub enum Trouble {
    /// It stands once a word is said: each with what it then says.
    Doubt(Doubt, Answers),
    /// Well formed, and nothing that anyone could mean.
    Senseless,
}

/// What one statement says.
pub fn sentence(sentence: Sentence) -> Outcome<Vec<Statement>> {
    let who = sentence.who;
    match sentence.said {
        None => Ok(vec![Statement { who, kind: Kind::Swimmer }]),
        Some(Said::Report(items)) => reports::report(who.as_ref(), items),
        Some(Said::Command(verb, parts)) => commands::command(who, verb, parts),
        // `heron me` names two.
        Some(Said::Whole(Kind::Swimmer)) if who.is_some() => Err(Trouble::Senseless),
        Some(Said::Whole(kind)) => Ok(vec![Statement { who, kind }]),
    }
}

/// What a list of names says: the shared part with each one's own. A distance
/// with the times of several is a test: nobody tells sessions so.
pub fn capture(capture: &Capture) -> Outcome<Vec<Statement>> {
    let of_several = capture.entries.len() > 1;
    let timed = capture.shared.iter().any(|item| matches!(item, Item::Minutes(_)));
    let clocked = of_several && !timed && capture.shared.iter().any(reports::is_far_or_figure);
    of_each(capture.entries.iter().map(|(name, own)| {
        let own = own.iter().map(|item| if clocked { on_the_clock(item) } else { item.clone() });
        let mut items: Vec<Item> = capture.shared.iter().cloned().chain(own).collect();
        if of_several && !items.contains(&Item::Test) && trials::lacks_only_the_word(&items) {
            items.push(Item::Test);
        }
        (Some(name.clone()), reports::report(Some(name), items))
    }))
}

/// What is told of several, each by name. Where others stand, a wrong count is
/// left as it was typed, for the one it is told of to be asked about; else it is
/// asked about at once.
pub fn of_each(
    told: impl IntoIterator<Item = (Option<Name>, Outcome<Vec<Statement>>)>,
) -> Outcome<Vec<Statement>> {
    let told: Vec<_> = told.into_iter().collect();
    let mut names: Vec<_> = told.iter().map(|(who, _)| who.as_ref()).collect();
    names.sort_unstable();
    names.dedup();
    let several = names.len() > 1 && !names.contains(&None);
    let alone = several && told.iter().any(|(_, outcome)| outcome.is_ok());
    together(told.into_iter().map(|(_, outcome)| match outcome {
        Err(Trouble::Doubt(doubt, options)) if alone => {
            results::as_typed(&doubt, &options).ok_or(Trouble::Doubt(doubt, options))
        }
        outcome => outcome,
    }))
}

/// `312` in a list of several is read off one pool clock: 3:12.
fn on_the_clock(item: &Item) -> Item {
    match item {
        Item::Figure(Figure::Number { value, digits: 3 | 4 }) if value % 100 < 60 => {
            let (minutes, seconds) = (value / 100, value % 100);
            Item::Figure(Figure::Clock { minutes, seconds, hundredths: None })
        }
        other => other.clone(),
    }
}

/// What several statements come to together. One doubt among them is asked
/// with the others in each answer; two that the same words settle are settled
/// by one word; of other doubts only typing it again settles all.
pub fn together(
    outcomes: impl IntoIterator<Item = Outcome<Vec<Statement>>>,
) -> Outcome<Vec<Statement>> {
    let mut all: Vec<Statement> = Vec::new();
    let mut doubt: Option<(Doubt, Answers)> = None;
    for outcome in outcomes {
        match (outcome, &mut doubt) {
            (Ok(more), None) => all.extend(more),
            (Ok(more), Some((_, options))) => {
                options.iter_mut().for_each(|(_, option)| option.extend(more.iter().cloned()));
            }
            (Err(Trouble::Doubt(asks, options)), None) => {
                let whole = |(word, option): (String, Vec<Statement>)| {
                    (word, all.iter().cloned().chain(option).collect())
                };
                doubt = Some((asks, options.into_iter().map(whole).collect()));
            }
            (Err(Trouble::Doubt(asks, more)), Some((first, options))) => {
                let alike = asks == *first
                    && more.len() == options.len()
                    && options.iter().zip(&more).all(|(one, other)| one.0 == other.0);
                if alike {
                    options.iter_mut().zip(more).for_each(|(one, other)| one.1.extend(other.1));
                } else {
                    options.clear();
                }
            }
            (Err(Trouble::Senseless), _) => return Err(Trouble::Senseless),
        }
    }
    match doubt {
        None => {
            feelings::one_illness(&mut all);
            Ok(all)
        }
        Some((asks, options)) => Err(Trouble::Doubt(asks, options)),
    }
}

/// The same said of someone, or of the sender.
fn about(who: Option<&Name>, kind: Kind) -> Statement {
    Statement { who: who.cloned(), kind }
}
