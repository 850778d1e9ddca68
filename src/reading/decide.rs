//! From the best reading to what is done: take it, ask, keep what is certain and
//! name the rest.

use crate::message::{Choice, Day, Doubt, Kind, Message, Reading, Statement};
use crate::reading::frame::Clause;
use crate::reading::rank::{Part, Ranked};

/// Risk up to which what is left can't change what was read.
const HARMLESS: f32 = 0.75;

/// What is left beside a stored statement is asked about up to here; beyond it the
/// reading is not believed.
const DOUBTFUL: f32 = 4.5;

/// What is to be done with a text.
#[derive(Debug, Clone, PartialEq)]
pub enum Decision {
    /// It says this, and what was left of it.
    Take {
        /// What it says.
        says: Vec<Statement>,
        /// Figures and the like that nothing was made of, as typed.
        rest: Option<String>,
    },
    /// Ask first.
    Ask {
        /// What.
        about: Doubt,
        /// Each answer and what it says, beside what is kept all the same.
        options: Vec<(String, Vec<Statement>)>,
        /// What is certain whatever the answer is.
        says: Vec<Statement>,
    },
    /// It says nothing that we know.
    Nothing,
}

/// Decides. Beside a danger nothing is asked: what is certain by itself is taken.
pub fn decide(ranked: &Ranked, whole: &Clause<'_, '_>) -> Decision {
    let read: Vec<&Part> = ranked.parts.iter().filter(|part| part.frame.is_some()).collect();
    if read.is_empty() {
        return Decision::Nothing;
    }
    if whole.danger {
        let sure = |part: &&&Part| part.asks.is_none() && part.left.risk <= HARMLESS;
        let says: Vec<Statement> =
            read.iter().filter(sure).flat_map(|part| part.says.clone()).collect();
        return match says.is_empty() {
            true => Decision::Nothing,
            false => Decision::Take { says, rest: None },
        };
    }
    let says: Vec<Statement> =
        read.iter().filter(|part| part.asks.is_none()).flat_map(|part| part.says.clone()).collect();
    let says = once_a_day(told_once(says), whole);
    if let Some(question) = read.iter().find_map(|part| part.asks.clone()) {
        let others = |options: Vec<(String, Vec<Statement>)>| options;
        return Decision::Ask { about: question.about, options: others(question.options), says };
    }
    let stores = says.iter().any(|one| stores(&one.kind));
    let risk = ranked.left.risk;
    // Pain and illness lower what follows, whatever stood beside them.
    let ails = |one: &Statement| matches!(one.kind, Kind::Pain(_) | Kind::Ill { .. });
    let only_ails = says.iter().all(ails) && risk <= DOUBTFUL;
    if !stores || risk <= HARMLESS || only_ails {
        return Decision::Take { says, rest: None };
    }
    if risk <= DOUBTFUL {
        let options = vec![("yes".to_owned(), says.clone())];
        return Decision::Ask { about: Doubt::Meant { says }, options, says: vec![] };
    }
    Decision::Nothing
}

/// `the 8 all done. 48 48 49 …`: that a set was made says nothing beside its times.
fn told_once(says: Vec<Statement>) -> Vec<Statement> {
    let timed = |one: &Statement, other: &Statement| match (&one.kind, &other.kind) {
        (Kind::SetResult(made), Kind::SetResult(set)) => {
            one.who == other.who
                && made.distance == set.distance
                && made.times.is_empty()
                && made.average.is_none()
                && made.made == made.of
                && !set.times.is_empty()
        }
        _ => false,
    };
    let says = joined(says);
    let is_said = |one: &Statement| says.iter().any(|other| timed(one, other));
    says.iter().filter(|one| !is_said(one)).cloned().collect()
}

/// `closed on easter monday, so no session on 6 april`: what is said twice of one day.
fn once_a_day(says: Vec<Statement>, whole: &Clause<'_, '_>) -> Vec<Statement> {
    let dated = |one: &Statement| {
        let mut one = one.clone();
        match &mut one.kind {
            Kind::Attend { on, .. } => {
                *on = Some(Day::Full(on.map_or(Some(whole.sit.today), |on| whole.date_of(on))?));
            }
            Kind::Shut { days, on } => {
                let day = on.or(days.first().copied().map(Day::On))?;
                *on = Some(Day::Full(whole.date_of(day)?));
                days.clear();
            }
            _ => return None,
        }
        Some(one)
    };
    let days: Vec<Option<Statement>> = says.iter().map(dated).collect();
    let first = |at: usize| days[at].is_none() || !days[..at].contains(&days[at]);
    says.into_iter().enumerate().filter(|(at, _)| first(*at)).map(|(_, one)| one).collect()
}

/// `saturday 60 lengths, 1500, in 38 min`: one swim, told in parts.
fn joined(says: Vec<Statement>) -> Vec<Statement> {
    let mut joined: Vec<Statement> = Vec::with_capacity(says.len());
    for one in says {
        if let (Some(last), Kind::Done(more)) = (joined.last_mut(), &one.kind)
            && last.who == one.who
            && let Kind::Done(told) = &mut last.kind
            && told.sport == more.sport
            && (told.distance.is_some() && told.distance == more.distance
                // `gym this morning, weights, 45 min`
                || told.sport.is_some() && told.distance.is_none() && more.distance.is_none())
            && (told.duration.is_none() || more.duration.is_none())
            && (told.on.is_none() || more.on.is_none() || told.on == more.on)
        {
            told.duration = told.duration.or(more.duration);
            told.on = told.on.or(more.on);
            told.rpe = told.rpe.or(more.rpe);
        } else {
            joined.push(one);
        }
    }
    joined
}

/// True if a statement changes what is kept.
pub const fn stores(kind: &Kind) -> bool {
    !crate::message::only_answers(kind)
}

impl Decision {
    /// The same in the form that the desk takes.
    pub fn into_reading(self) -> Option<Reading> {
        match self {
            Decision::Take { says, .. } => {
                (!says.is_empty()).then_some(Reading::Understood(Message { statements: says }))
            }
            Decision::Ask { about, options, says } => {
                let choice = |(word, more): (String, Vec<Statement>)| {
                    let statements = says.iter().cloned().chain(more).collect();
                    Choice { word, message: Message { statements } }
                };
                Some(Reading::Unsure {
                    options: options.into_iter().map(choice).collect(),
                    asks: about,
                })
            }
            Decision::Nothing => None,
        }
    }
}
