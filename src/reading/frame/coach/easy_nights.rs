//! Evenings that are to be easy, or hard: `make monday an easy one`, `easy week next week`.

use jiff::civil::Date;

use crate::message::{Day, Kind, PlanWish, Statement, WeekKind};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::mood;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::Role;
use crate::units::Level;

/// Pieces beyond which a text tells a story rather than a wish.
const LONGEST: usize = 18;

/// Reads a stretch of a coach's as how hard the evenings of a day or a week are to be. Of
/// several, or where a set is in force, it asks first: a new one stands in its place.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    // `an easy one`
    let of_some = |piece: &Piece<'_>| {
        !piece.means(Concept::One)
            && matches!(
                piece.item,
                Item::Figure(_)
                    | Item::Far(_)
                    | Item::Repeat(..)
                    | Item::Each(_)
                    | Item::Plural(_)
                    | Item::Lanes(_)
                    | Item::Person(_)
            )
    };
    let denied = [Concept::Not, Concept::Didnt, Concept::Cant];
    let asks = mood::is_question(c) && !mood::is_request(c);
    let unfit = c.len() > LONGEST || asks || c.pieces.iter().any(of_some);
    if c.sit.role != Role::Coach || unfit || c.has_any(&denied) {
        return vec![];
    }
    let Some(week) = c.pieces.iter().find_map(how_hard) else { return vec![] };
    let nights: Vec<Day> = c.pieces.iter().flat_map(|piece| nights(c, piece)).collect();
    if nights.is_empty() {
        return vec![];
    }
    let says: Vec<Statement> = nights
        .iter()
        .map(|on| PlanWish { week: Some(week), minutes: None, sessions: None, on: Some(*on) })
        .map(|wish| Statement { who: None, kind: Kind::Plan(wish) })
        .collect();
    let mut candidate = Candidate::new("easy nights", c.len());
    candidate.used.fill(true);
    let set = c.sit.set.as_ref().map(|set| set.on);
    let in_force = |on: &Day| set.is_some() && c.date_of(*on) == set;
    // A step easier of the set that is in force is another frame's.
    if nights.iter().all(|on| c.date_of(*on) == Some(c.sit.today)) && nights.iter().any(in_force) {
        return vec![];
    }
    if nights.len() > 1 || nights.iter().any(in_force) {
        return vec![candidate.asking_whether(says).at_cost(0.7)];
    }
    candidate.says = says;
    vec![candidate.at_cost(0.6)]
}

/// How hard a piece says that it is to be.
fn how_hard(piece: &Piece<'_>) -> Option<WeekKind> {
    match piece.level() {
        Some(Level::Easy) => Some(WeekKind::Easy),
        Some(Level::Hard) => Some(WeekKind::Hard),
        _ if piece.means(Concept::Easier) => Some(WeekKind::Easy),
        _ if piece.means(Concept::Harder) => Some(WeekKind::Hard),
        _ => None,
    }
}

/// The evenings of the squad's to come that a piece names: those of a week, or one.
fn nights(c: &Clause<'_, '_>, piece: &Piece<'_>) -> Vec<Day> {
    let of_week = c.nights_of(piece);
    let Item::Day(named) = piece.item else { return of_week };
    let date = c.coming(named).and_then(|day| c.date_of(day));
    let is_night = |date: &Date| *date >= c.sit.today && c.sit.nights.contains(&date.weekday());
    match of_week.is_empty() {
        true => date.filter(is_night).map(Day::Full).into_iter().collect(),
        false => of_week,
    }
}
