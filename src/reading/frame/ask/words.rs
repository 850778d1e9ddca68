//! What a question asks about by its words alone, where none of the ways to ask it was
//! written down: the likeliest topic, with the day, distance or lane that the text names.

use super::about;
use super::named::{day_meant, distances, has_word, is_past, lane_of, past_day, period};
use super::session::next;
use crate::message::{About, Day, Kind, NextWish, PlanWish, SquadFilter};
use crate::reading::frame::Clause;
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::likely::Class;
use crate::reading::piece::{Item, Named, Piece};
use crate::reading::situation::Role;

/// How likely a topic must be.
const LIKELY: f32 = 0.3;

/// Topics that a question may have.
const TOPICS: [Class; 11] = [
    Class::Evening,
    Class::Why,
    Class::Log,
    Class::Best,
    Class::Trend,
    Class::Targets,
    Class::Predict,
    Class::Next,
    Class::Plan,
    Class::Lanes,
    Class::Squad,
];

/// The likeliest topic of a whole text, if its words leave little doubt.
pub fn of_words(c: &Clause<'_, '_>) -> Option<Kind> {
    if c.len() != c.all.len() || c.unwell || c.danger || c.pieces.iter().any(Piece::is_of_health) {
        return None;
    }
    let odds = |class: &Class| c.likely.of(*class);
    let class = TOPICS.into_iter().max_by(|one, other| odds(one).total_cmp(&odds(other)))?;
    if odds(&class) < LIKELY {
        return None;
    }
    let coach = c.sit.role == Role::Coach;
    // Of somebody else a swimmer is told nothing.
    if !coach && !matches!(class, Class::Evening | Class::Lanes) && !c.people().is_empty() {
        return None;
    }
    Some(match class {
        Class::Squad if coach => of_squad(c)?,
        // How far or how long the set is says more than when it is.
        Class::Evening if c.has(Concept::Total) => return None,
        Class::Evening => evening(c),
        _ if c.people().len() > 1 => return None,
        Class::Why => Kind::Why,
        Class::Log => log(c),
        Class::Best => Kind::Best,
        Class::Trend => Kind::Trend,
        Class::Targets => Kind::Targets { distances: distances(c) },
        Class::Predict => match distances(c).as_slice() {
            [distance] => Kind::Predict { distance: *distance },
            _ => return None,
        },
        Class::Next | Class::Plan if let Some(wish) = next(c, true) => wish,
        Class::Next if !coach => Kind::Next(NextWish::default()),
        Class::Plan if !coach => Kind::Plan(PlanWish::default()),
        Class::Lanes if coach => Kind::Lanes { count: None },
        // `lanes` alone is the coach's word.
        Class::Lanes if c.len() > 1 => about(c, About::Lane { lane: lane_of(c) }),
        _ => return None,
    })
}

/// Those whom a coach asks about, or one of them, or two beside each other.
fn of_squad(c: &Clause<'_, '_>) -> Option<Kind> {
    let people = c.people();
    if people.len() > 1 {
        let names = people.iter().filter_map(|one| c.name(*one)).collect();
        return Some(Kind::Compare { names });
    }
    if !people.is_empty() {
        return Some(Kind::Swimmer);
    }
    let not = [Concept::Not, Concept::Didnt];
    // `who is missing`: from the evening.
    if c.has_any(&[Concept::Absent, Concept::Missed, Concept::Out]) {
        return Some(about(c, About::Turnout { on: day_meant(c), absent: true }));
    }
    let filter = match () {
        () if c.has(Concept::Test) && c.has_any(&not) || c.has(Concept::Owed) => {
            SquadFilter::Overdue
        }
        () if c.has_any(&[Concept::HurtQ, Concept::Pain]) => SquadFilter::Hurt,
        () if c.has_any(&[Concept::Race, Concept::Meet]) => SquadFilter::Races,
        () if c.has_any(&[Concept::Trend, Concept::Rank]) => SquadFilter::Improving,
        () if c.has_any(&not) && distances(c).is_empty() => SquadFilter::Silent,
        () => return None,
    };
    Some(Kind::Squad { filter: Some(filter), on: None })
}

/// When it is and whether it is on, who comes, or what is swum.
fn evening(c: &Clause<'_, '_>) -> Kind {
    let on = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.coming(named),
        _ => None,
    });
    let today = on.is_none_or(|on| on == Day::Today);
    if c.has(Concept::Who) || !c.people().is_empty() {
        let absent = c.has_any(&[Concept::Absent, Concept::Out, Concept::Missed]);
        return about(c, About::Turnout { on, absent });
    }
    let set = c.has_any(&[Concept::Set, Concept::Session]) || has_word(c, Hint::Swims.words());
    let what = c.has(Concept::What) && !c.has(Concept::When);
    match set && what && today {
        true => Kind::Tonight,
        false => about(c, About::Evening { on }),
    }
}

/// What was swum: that evening's set, or since a day.
fn log(c: &Clause<'_, '_>) -> Kind {
    let on = past_day(c).filter(|_| is_past(c) || !names_period(c));
    if let Some(on) = on.filter(|_| c.has(Concept::We)) {
        return about(c, About::SetOf { on: Some(on) });
    }
    if c.has(Concept::HowMany)
        && let Some((since, until)) = period(c)
    {
        return about(c, About::Swum { since, until });
    }
    Kind::Log
}

fn names_period(c: &Clause<'_, '_>) -> bool {
    c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(Named::Month(_) | Named::Week(_))))
}
