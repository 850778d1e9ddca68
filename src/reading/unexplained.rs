//! What a reading leaves unexplained, and what that costs.

use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Item, Piece};

/// What the words that a reading does not explain come to.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Unexplained {
    /// All of them.
    pub cost: f32,
    /// Those of them that could change what is read: a negation, a doubt, another
    /// person or day, a figure.
    pub risk: f32,
}

impl std::ops::AddAssign for Unexplained {
    fn add_assign(&mut self, other: Self) {
        self.cost += other.cost;
        self.risk += other.risk;
    }
}

/// What one piece costs where no frame explains it.
pub fn unexplained(piece: &Piece<'_>) -> Unexplained {
    let free = |cost: f32| Unexplained { cost, risk: 0.0 };
    let risky = |cost: f32| Unexplained { cost, risk: cost };
    match piece.item {
        Item::Mark('?') => risky(1.2),
        Item::Mark(_) | Item::Line | Item::Picture => free(0.0),
        Item::Chatter => free(0.08),
        Item::Unknown => free(0.25),
        Item::Figure(figure) => match figure.whole() {
            // `one`, `two`, `a` in words carry little.
            Some(value) if value <= 12 && piece.text.chars().all(char::is_alphabetic) => free(0.5),
            _ => risky(2.5),
        },
        Item::Far(_) | Item::Repeat(..) | Item::Each(_) | Item::Range(..) | Item::OfAll(..) => {
            risky(2.5)
        }
        Item::Plural(_) | Item::Rpe(_) | Item::Pulse(_) => risky(1.5),
        Item::Span(_) | Item::TimeOfDay(..) => risky(1.5),
        Item::Ordinal(_) => free(0.6),
        Item::Day(_) => risky(1.2),
        Item::Person(_) | Item::Marked(_) => risky(1.6),
        Item::Lanes(_) => risky(2.0),
        Item::Word => word(piece),
    }
}

fn word(piece: &Piece<'_>) -> Unexplained {
    let weigh = |sense: &Sense| match sense {
        Sense::Word(concept) => concept_weight(*concept),
        Sense::Stroke(_) | Sense::Kit(_) | Sense::Course(_) => (0.8, true),
        Sense::Illness(_) => (2.6, true),
        Sense::Body(_) => (0.6, false),
        Sense::Sport(..) => (0.9, true),
        Sense::Start(_) | Sense::Effort(_) | Sense::Part(_) | Sense::Level(_) => (0.5, false),
        Sense::Number(_) | Sense::Plural(_) | Sense::Ordinal(_) => (0.6, false),
        Sense::Month(_) | Sense::Day(_) | Sense::Feast(_) => (0.8, true),
        Sense::Unit(_) => (0.2, false),
        Sense::SoundsLike(_) => (0.05, false),
    };
    // `q es css`: `que es` asks more often than it joins.
    if piece.means(Concept::Mean) && piece.means(Concept::That) {
        return Unexplained { cost: 0.5, risk: 0.0 };
    }
    // The most harmless of its senses: words do many services.
    let (cost, risks) = piece
        .senses
        .iter()
        .map(weigh)
        .min_by(|one, other| one.0.total_cmp(&other.0))
        .unwrap_or((0.2, false));
    Unexplained { cost, risk: if risks { cost } else { 0.0 } }
}

/// The cost of a meaning left over, and whether it could change the rest.
const fn concept_weight(concept: Concept) -> (f32, bool) {
    match concept {
        Concept::And
        | Concept::Idiom
        | Concept::Because
        | Concept::Subject
        | Concept::Opener
        | Concept::It
        | Concept::Article
        | Concept::Then
        | Concept::In
        | Concept::For
        | Concept::Of
        | Concept::By
        | Concept::With
        | Concept::About
        | Concept::At
        | Concept::To
        | Concept::Me
        | Concept::My
        | Concept::Coach
        | Concept::Thanks
        | Concept::Greeting
        | Concept::Please
        | Concept::That
        | Concept::Feeling
        | Concept::This
        | Concept::Refers
        | Concept::Stay
        | Concept::We => (0.02, false),
        Concept::But
        | Concept::You
        | Concept::Only
        | Concept::Good
        | Concept::New
        | Concept::One
        | Concept::Total
        | Concept::Swam
        | Concept::Done
        | Concept::Held
        | Concept::Set
        | Concept::Fast
        | Concept::Slow
        | Concept::Reps => (0.1, false),
        Concept::Not
        | Concept::Cant
        | Concept::Didnt
        | Concept::Wont
        | Concept::If
        | Concept::Maybe
        | Concept::Except => (1.6, true),
        Concept::What
        | Concept::How
        | Concept::When
        | Concept::Where
        | Concept::Which
        | Concept::Who
        | Concept::Why
        | Concept::HowMany => (1.4, true),
        Concept::Want | Concept::Goal | Concept::Can | Concept::Is | Concept::Need => (0.8, true),
        Concept::Sorry | Concept::Undo | Concept::Instead => (1.4, true),
        Concept::Plan | Concept::Next | Concept::Test => (0.6, true),
        Concept::Out
        | Concept::Late
        | Concept::LeaveEarly
        | Concept::Away
        | Concept::MissedSwim
        | Concept::Better
        | Concept::Tell => (1.5, false),
        Concept::PerhapsOut | Concept::Absent => (1.2, false),
        Concept::She | Concept::He | Concept::They | Concept::Everyone => (0.5, false),
        Concept::Pain => (1.0, true),
        Concept::Tired => (0.6, false),
        _ => (0.35, false),
    }
}
