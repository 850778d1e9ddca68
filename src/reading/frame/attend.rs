//! Who comes, who does not, late, early, away, back: of oneself, or a coach's word
//! of others; and the register of an evening under way.

use jiff::civil::Time;

use super::Clause;
use super::candidate::Candidate;
use crate::message::{Day, Doubt, Kind, Name, Statement, Wants};
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Figure, Item, Named};
use crate::reading::situation::{Phase, Role};

/// What a stretch says of coming.
#[derive(Debug, Clone, Default)]
struct Told {
    coming: Option<bool>,
    late: bool,
    late_min: Option<u16>,
    leaves: bool,
    leaves_at: Option<Time>,
    away: bool,
    back: bool,
    maybe: bool,
    until: Option<Day>,
    days: Vec<Day>,
    /// `back wed`, behind the days one is out.
    returns: Option<Day>,
}

/// Reads a stretch as who comes.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let people = c.people();
    let coach = c.sit.role == Role::Coach;
    if !people.is_empty() && !coach
        || coach && people.is_empty() && !c.has(Concept::Everyone) && !c.has(Concept::Lane)
    {
        return vec![];
    }
    if super::mood::is_question(c) {
        return vec![];
    }
    let mut candidate = Candidate::new("attend", c.len());
    let Some(told) = told(c, &mut candidate) else { return vec![] };
    if coach
        && (c.sit.phase == Phase::During || c.has(Concept::Everyone))
        && told.days.is_empty()
        && !told.late
        && !told.leaves
        && !told.away
        && !told.back
        || coach && is_past(c, &told)
    {
        return register(c, candidate, &told);
    }
    let names: Vec<Option<Name>> = match people.as_slice() {
        [] => vec![None],
        several => several.iter().map(|one| c.name(*one)).collect(),
    };
    let mut says = Vec::new();
    for who in names {
        for kind in kinds(c, &told) {
            says.push(Statement { who: who.clone(), kind });
        }
    }
    if says.is_empty() {
        return vec![];
    }
    candidate.says = says;
    let cost = if told.maybe { 0.7 } else { 0.4 };
    vec![candidate.at_cost(cost)]
}

fn is_past(c: &Clause<'_, '_>, told: &Told) -> bool {
    c.sit.phase != Phase::During
        && told.days.iter().any(|day| matches!(day, Day::Yesterday | Day::Last(_)))
}

/// The statements that what was told comes to.
fn kinds(c: &Clause<'_, '_>, told: &Told) -> Vec<Kind> {
    let day_or_tonight = || -> Vec<Option<Day>> {
        if told.days.is_empty() {
            vec![None]
        } else {
            told.days.iter().copied().map(Some).collect()
        }
    };
    if let Some(until) = told.until {
        return vec![Kind::Away { until }];
    }
    if told.back && told.coming.is_none() {
        return vec![Kind::Back { on: told.days.first().copied() }];
    }
    if told.leaves {
        let on = told.days.first().copied();
        let leaves = Kind::Leaves { at: told.leaves_at, on };
        return match told.coming {
            Some(true) => vec![Kind::Attend { coming: true, late_min: None, on }, leaves],
            _ => vec![leaves],
        };
    }
    if told.maybe && told.coming != Some(false) && told.late_min.is_none() {
        return vec![Kind::Maybe { on: told.days.first().copied() }];
    }
    if told.late {
        let late_min = told.late_min.or(Some(0).filter(|_| false));
        return vec![Kind::Attend { coming: true, late_min, on: told.days.first().copied() }];
    }
    match told.coming {
        Some(coming) => day_or_tonight()
            .into_iter()
            .map(|on| Kind::Attend { coming, late_min: None, on })
            .chain(told.returns.map(|day| Kind::Attend {
                coming: true,
                late_min: None,
                on: Some(day),
            }))
            .collect(),
        None if told.away => {
            let _ = c;
            vec![]
        }
        None => vec![],
    }
}

/// The register of an evening.
fn register(c: &Clause<'_, '_>, mut candidate: Candidate, told: &Told) -> Vec<Candidate> {
    let names: Vec<Name> = c.people().iter().filter_map(|one| c.name(*one)).collect();
    let on = told.days.first().copied().filter(|day| *day != Day::Today);
    let all = c.has(Concept::Everyone);
    let except = c.has(Concept::Except);
    let kind = match (all, told.coming) {
        (true, Some(true)) if names.is_empty() => Kind::Here { names, all_but: true, on },
        (true, _) if except => Kind::Absent { names, on },
        (true, Some(true)) => Kind::Here { names, all_but: true, on },
        (_, Some(true)) => Kind::Here { names, all_but: false, on },
        (_, Some(false)) => Kind::Absent { names, on },
        _ => return vec![],
    };
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= matches!(piece.item, Item::Person(_))
            || piece.means(Concept::Except)
            || piece.means(Concept::Everyone);
    }
    vec![candidate.says(kind).at_cost(0.4)]
}

/// Gathers what is said.
fn told(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Told> {
    let mut told = Told::default();
    let register = c.sit.role == Role::Coach
        && (c.sit.phase == Phase::During
            || c.pieces
                .iter()
                .any(|piece| matches!(piece.item, Item::Day(Named::Day(Day::Yesterday, _)))));
    let mut strength = 0;
    if let Some(coming) = day_alone(c) {
        told.coming = Some(coming);
        strength = 2;
        for (at, piece) in c.pieces.iter().enumerate() {
            candidate.used[at] |= piece.means(Concept::Yes) || piece.means(Concept::Not);
        }
    }
    for (at, piece) in c.pieces.iter().enumerate() {
        let means = |concept: Concept| piece.means(concept);
        let negated = at > 0 && negates(c, at);
        match piece.item {
            Item::Day(named) => {
                let returns = told.coming == Some(false)
                    && !told.days.is_empty()
                    && (at.saturating_sub(2)..at).any(|place| c.pieces[place].means(Concept::Back));
                if let Some(day) = c.coming(named) {
                    match returns {
                        true => told.returns = Some(day),
                        false => told.days.extend(days(c, at, named, day)),
                    }
                    candidate.used[at] = true;
                }
                continue;
            }
            Item::Person(_) => {
                candidate.used[at] = true;
                continue;
            }
            _ => {}
        }
        if means(Concept::Late) {
            told.late = true;
            told.coming = Some(true);
            told.late_min = minutes_late(c, at, candidate);
            candidate.used[at] = true;
            strength = strength.max(3);
            continue;
        }
        if means(Concept::LeaveEarly)
            && (piece.at.1 - piece.at.0 > 1 || piece.text.starts_with("leav"))
            && let Some((time, place)) = clock_behind(c, at)
        {
            told.leaves = true;
            told.leaves_at = Some(time);
            candidate.used[at] = true;
            candidate.used[place] = true;
            strength = strength.max(3);
            continue;
        }
        if means(Concept::LeaveEarly) && c.has(Concept::Early) {
            told.leaves = true;
            candidate.used[at] = true;
            strength = strength.max(2);
            continue;
        }
        if means(Concept::Maybe) {
            told.maybe = true;
            candidate.used[at] = true;
            continue;
        }
        if means(Concept::Away) && !means(Concept::Back) {
            told.away = true;
            candidate.used[at] = true;
            strength = strength.max(2);
            continue;
        }
        if means(Concept::Until) && matches!(c.at(at + 1).map(|next| next.item), Some(Item::Day(_)))
        {
            candidate.used[at] = true;
            continue;
        }
        let is_out = means(Concept::Out)
            || means(Concept::OutIfDay)
            || register && means(Concept::Absent)
            || negated
                && (means(Concept::Come)
                    || register && means(Concept::Here)
                    || means(Concept::ComeIfDay));
        if is_out {
            let weak = means(Concept::OutIfDay);
            let backed = !told.days.is_empty()
                || c.pieces
                    .iter()
                    .any(|other| matches!(other.item, Item::Day(_) | Item::Person(_)))
                || c.len() <= 3;
            if !weak || backed {
                told.coming = Some(false);
                candidate.used[at] = true;
                if at > 0 && negated {
                    candidate.used[at - 1] = true;
                }
                strength = strength.max(if weak { 2 } else { 3 });
                continue;
            }
        }
        let is_in =
            (means(Concept::Come) || means(Concept::ComeIfDay) || register && means(Concept::Here))
                && !means(Concept::Out);
        if is_in && told.coming != Some(false) && !negated {
            let weak = means(Concept::ComeIfDay);
            let backed = c.pieces.iter().any(|other| matches!(other.item, Item::Day(_)))
                || c.len() <= 2
                || register && !c.people().is_empty();
            if !weak || backed {
                told.coming = Some(true);
                candidate.used[at] = true;
                strength = strength.max(if weak { 1 } else { 2 });
                continue;
            }
        }
        if means(Concept::Back) && c.sit.role != Role::Coach
            || means(Concept::Back)
                && !c.people().is_empty()
                && matches!(c.at(at + 1).map(|next| next.item), Some(Item::Day(_)))
        {
            let day_follows =
                c.pieces.iter().skip(at).take(4).any(|piece| matches!(piece.item, Item::Day(_)));
            if day_follows || piece.at.1 - piece.at.0 > 1 {
                told.back = true;
                candidate.used[at] = true;
                strength = strength.max(1);
                continue;
            }
        }
        candidate.used[at] |= means(Concept::Undo)
            || means(Concept::Sorry)
            || means(Concept::Will)
            || means(Concept::Session)
            || means(Concept::Cant)
            || means(Concept::Not)
            || means(Concept::Wont)
            || means(Concept::Only);
    }
    until(c, &mut told, candidate);
    arrival(c, &mut told, candidate, &mut strength);
    let names_absent = register && told.coming.is_none() && says_no_names(c);
    if names_absent {
        told.coming = Some(false);
        strength = 2;
        for (at, piece) in c.pieces.iter().enumerate() {
            candidate.used[at] |=
                piece.text == "no" || piece.means(Concept::No) || piece.means(Concept::Not);
        }
    }
    (strength > 0 || told.until.is_some()).then_some(told)
}

/// `el miercoles si`, `lunes no`: a day and its yes or no, and nothing else.
fn day_alone(c: &Clause<'_, '_>) -> Option<bool> {
    let mut says = None;
    let mut day = false;
    for piece in c.pieces {
        match piece.item {
            Item::Day(_) => day = true,
            Item::Mark(_) | Item::Picture | Item::Line => {}
            _ if day && says.is_none() && piece.means(Concept::Yes) => says = Some(true),
            _ if day && says.is_none() && piece.means(Concept::Not) => says = Some(false),
            _ if piece.means(Concept::And)
                || piece.means(Concept::But)
                || piece.means(Concept::Then)
                || piece.means(Concept::Idiom) => {}
            _ => return None,
        }
    }
    says
}

/// `no plover no puffin`
fn says_no_names(c: &Clause<'_, '_>) -> bool {
    let first = super::mood::opening(c);
    c.at(first).is_some_and(|piece| matches!(piece.text, "no" | "sin" | "falta" | "faltan"))
        && matches!(c.at(first + 1).map(|piece| piece.item), Some(Item::Person(_)))
}

/// A word of denial close before a place.
fn negates(c: &Clause<'_, '_>, at: usize) -> bool {
    (at.saturating_sub(3)..at).any(|before| {
        c.at(before).is_some_and(|piece| {
            [Concept::Not, Concept::Cant, Concept::Didnt, Concept::Wont]
                .iter()
                .any(|one| piece.means(*one))
                && piece.text != "nope"
        })
    })
}

/// `15 late`, `late 10`, `10 mins late`.
fn minutes_late(c: &Clause<'_, '_>, at: usize, candidate: &mut Candidate) -> Option<u16> {
    let near = (at.saturating_sub(4)..at).rev().chain(at + 1..(at + 5).min(c.len()));
    for place in near {
        let minutes = match c.pieces[place].item {
            Item::Span(time) if time.seconds() <= 5400.0 => Some((time.seconds() / 60.0) as u16),
            Item::Figure(Figure::Whole { value, .. }) if (2..=90).contains(&value) => {
                u16::try_from(value).ok()
            }
            _ => None,
        };
        if let Some(minutes) = minutes {
            candidate.used[place] = true;
            if let Some(next) = c.at(place + 1)
                && next.is(Sense::Unit(UnitWord::Minute))
            {
                candidate.used[place + 1] = true;
            }
            return Some(minutes);
        }
    }
    None
}

/// The time of day behind a place.
fn clock_behind(c: &Clause<'_, '_>, at: usize) -> Option<(Time, usize)> {
    (at + 1..(at + 6).min(c.len())).find_map(|place| Some((clock_at(c, place)?, place)))
}

/// A piece as a time of day about the evening's.
fn clock_at(c: &Clause<'_, '_>, at: usize) -> Option<Time> {
    let (hour, minute) = match c.at(at)?.item {
        Item::TimeOfDay(hour, minute) => (hour, minute),
        Item::Figure(figure) => figure.day_time()?,
        _ => return None,
    };
    let starts = c.sit.starts.map_or(19, |starts| starts.hour());
    let hour = i8::try_from(hour).ok()?;
    // `7.20` is in the evening where the squad swims in the evening.
    let hour = if hour < 12 && starts >= 12 { hour + 12 } else { hour };
    Time::new(hour, i8::try_from(minute).ok()?, 0, 0).ok()
}

/// `be there 1920ish`, `running late, 7.20`: minutes behind the start.
fn arrival(c: &Clause<'_, '_>, told: &mut Told, candidate: &mut Candidate, strength: &mut u8) {
    if told.leaves || told.coming == Some(false) || told.late_min.is_some_and(|late| late > 1) {
        return;
    }
    let Some(starts) = c.sit.starts else { return };
    let arrives = told.late && told.late_min.is_none_or(|minutes| minutes < 2)
        || told.coming == Some(true)
        || c.has(Concept::Arrive);
    if !arrives {
        return;
    }
    for at in 0..c.len() {
        let Some(time) = clock_at(c, at) else { continue };
        // A bare `7` is the hour it begins.
        let behind = i32::from(time.hour()) * 60 + i32::from(time.minute())
            - i32::from(starts.hour()) * 60
            - i32::from(starts.minute());
        if (1..=90).contains(&behind) {
            told.late = true;
            told.coming = Some(true);
            told.late_min = u16::try_from(behind).ok();
            candidate.used[at] = true;
            *strength = (*strength).max(2);
            return;
        }
        if behind == 0 {
            candidate.used[at] = true;
        }
    }
}

/// The days that a word stands for: `the next 2 weds` is two.
fn days(c: &Clause<'_, '_>, at: usize, named: Named, day: Day) -> Vec<Day> {
    let count = (at.saturating_sub(2)..at).find_map(|place| match c.pieces[place].item {
        Item::Figure(Figure::Whole { value: value @ 2..=8, .. })
            if place > 0 && c.pieces[place - 1].means(Concept::Next) =>
        {
            Some(value)
        }
        _ => None,
    });
    if let (Some(count), Named::Day(Day::On(weekday), _)) = (count, named) {
        let first = (1..=7i32).find_map(|days| {
            let date = c.sit.today.checked_add(jiff::Span::new().days(days)).ok()?;
            (date.weekday() == weekday).then_some(date)
        });
        if let Some(first) = first {
            return (0..count)
                .filter_map(|weeks| first.checked_add(jiff::Span::new().weeks(weeks)).ok())
                .map(Day::Full)
                .collect();
        }
    }
    match named {
        // All nights of that week.
        Named::Week(weeks) => {
            let monday = c
                .sit
                .today
                .checked_sub(jiff::Span::new().days(c.sit.today.weekday().to_monday_zero_offset()))
                .ok();
            let Some(monday) =
                monday.and_then(|monday| monday.checked_add(jiff::Span::new().weeks(weeks)).ok())
            else {
                return vec![];
            };
            (0..7)
                .filter_map(|days| monday.checked_add(jiff::Span::new().days(days)).ok())
                .filter(|date| c.sit.nights.contains(&date.weekday()) && *date >= c.sit.today)
                .map(Day::Full)
                .collect()
        }
        _ => vec![day],
    }
}

/// `away til the 16th`, `off to bali 14th to the 21st`, `away all next week`.
fn until(c: &Clause<'_, '_>, told: &mut Told, candidate: &mut Candidate) {
    let mut last: Option<(usize, Day)> = None;
    for (at, piece) in c.pieces.iter().enumerate() {
        let Item::Day(named) = piece.item else { continue };
        let before = (at.saturating_sub(3)..at).any(|place| {
            let piece = &c.pieces[place];
            piece.means(Concept::Until)
                // `del 9 al 20`
                || c.pieces[at].text == "al" && matches!(piece.item, Item::Day(_))
                || piece.means(Concept::To)
                    && c.pieces[..place].iter().any(|piece| matches!(piece.item, Item::Day(_)))
                || piece.item == Item::Mark('-')
                    && c.pieces[..place].iter().any(|piece| matches!(piece.item, Item::Day(_)))
        });
        if before && let Some(day) = c.coming(named) {
            last = Some((at, day));
        }
    }
    let out = told.away || told.coming == Some(false) || told.maybe && told.away;
    if let Some((at, day)) = last.filter(|_| out || told.coming.is_none()) {
        told.until = Some(day);
        candidate.used[at] = true;
        for place in 0..at {
            candidate.used[place] |= c.pieces[place].means(Concept::Until)
                || c.pieces[place].means(Concept::To)
                || matches!(c.pieces[place].item, Item::Day(_));
        }
        return;
    }
    if !out {
        return;
    }
    // `away for 3 weeks`, `for the fortnight from saturday`
    let from = told.days.first().copied();
    for (at, piece) in c.pieces.iter().enumerate() {
        let count = match piece.item {
            Item::Figure(Figure::Whole { value, .. }) => i32::try_from(value).ok(),
            _ if matches!(piece.text, "a" | "the") => Some(1),
            _ => None,
        };
        let unit = |place: usize| {
            c.at(place)?.sense(|sense| match sense {
                Sense::Unit(UnitWord::Week) => Some(7),
                Sense::Unit(UnitWord::Fortnight) => Some(14),
                Sense::Unit(UnitWord::Day) => Some(1),
                Sense::Unit(UnitWord::Month) => Some(30),
                _ => None,
            })
        };
        if let (Some(count), Some(each)) = (count, unit(at + 1)) {
            let begins = match from {
                Some(Day::Full(date)) => date,
                Some(Day::On(weekday)) => c
                    .sit
                    .today
                    .tomorrow()
                    .ok()
                    .and_then(|day| {
                        (0..7).find_map(|days| {
                            let date = day.checked_add(jiff::Span::new().days(days)).ok()?;
                            (date.weekday() == weekday).then_some(date)
                        })
                    })
                    .unwrap_or(c.sit.today),
                _ => c.sit.today,
            };
            if let Ok(until) = begins.checked_add(jiff::Span::new().days(count * each)) {
                told.until = Some(Day::Full(until));
                candidate.used[at..at + 2].fill(true);
                return;
            }
        }
    }
    if told.away {
        let week = c.pieces.iter().find_map(|piece| match piece.item {
            Item::Day(Named::Week(weeks)) => Some(weeks),
            _ => None,
        });
        let monday = -i32::from(c.sit.today.weekday().to_monday_zero_offset());
        if let Some(weeks) = week
            && let Ok(until) =
                c.sit.today.checked_add(jiff::Span::new().days(monday + 7 * (weeks + 1)))
        {
            told.until = Some(Day::Full(until));
        } else if told.coming.is_none() && !told.days.is_empty() {
            told.coming = Some(false);
        }
    }
}

/// `not sure yet`, with nothing to say of when: asks.
pub fn unsure(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role == Role::Coach || !c.has(Concept::Late) || c.len() > 6 {
        return vec![];
    }
    let late = c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_) | Item::Span(_)));
    if late {
        return vec![];
    }
    let mut candidate = Candidate::new("late", c.len());
    candidate.used.fill(true);
    vec![candidate.asking(Doubt::Missing { wants: Wants::HowLate }, vec![]).at_cost(0.9)]
}
