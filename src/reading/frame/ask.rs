//! Questions in the sender's own words, and wishes for a session.

use super::Clause;
use super::candidate::Candidate;
use super::mood::{self, is_question};
use crate::message::{
    About, Ask, Day, Kind, Length, Name, NextWish, PlanWish, SquadFilter, WeekKind,
};
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Named};
use crate::reading::situation::{Phase, Role};
use crate::units::{Equipment, Level};

/// Reads a stretch as a question or a wish.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let question = is_question(c);
    let inside = !question && c.pieces.iter().any(mood::asks);
    let wish = wishes(c);
    if !question && !inside && !wish {
        return vec![];
    }
    let topic = topic(c, question || inside);
    let mut candidate = Candidate::new("ask", c.len());
    candidate.used[asked_from(c)..].fill(true);
    let cost = match (&topic, question, wish) {
        (Some(_), true, _) => 0.3,
        (Some(_), false, true) => 0.5,
        (Some(_), false, false) => 0.9,
        (None, true, _) => 1.0,
        (None, ..) => return vec![],
    };
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
        let rest = Clause { pieces: &c.pieces[at..], offset: c.offset + at, ..*c };
        let ails = |stretch: &Clause<'_, '_>| {
            stretch.pieces.iter().any(|piece| {
                let ill = |sense: &Sense| matches!(sense, Sense::Illness(_)).then_some(());
                piece.means(Concept::Pain) || piece.sense(ill).is_some()
            })
        };
        let told = Clause { pieces: &c.pieces[..at], ..*c };
        let begins = mood::opens_question(&rest) || comma && ails(&told) && !ails(&rest);
        let before = Clause { pieces: &c.pieces[from..at], offset: c.offset + from, ..*c };
        if begins && !is_question(&before) {
            from = at;
        }
    }
    from
}

fn of_one(kind: &Kind) -> bool {
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
        c.at(first).is_some_and(|piece| mood::asks(piece) || piece.means(Concept::Aux));
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

/// `give me`, `something for 30 min`, `I need a session`: a wish for a session.
fn wishes(c: &Clause<'_, '_>) -> bool {
    let session = c.has_any(&[Concept::Session, Concept::NextSession, Concept::Plan, Concept::Set]);
    let something = c.has(Concept::Something);
    let gives = c.has_any(&[Concept::Give, Concept::Want, Concept::Need, Concept::Can]);
    let changes = c.has_any(&[
        Concept::Easier,
        Concept::Harder,
        Concept::Shorter,
        Concept::NextSession,
        Concept::Targets,
        Concept::Trend,
        Concept::Log,
    ]);
    (session || something) && gives || changes && c.len() <= 10
}

/// What a stretch asks about.
fn topic(c: &Clause<'_, '_>, question: bool) -> Option<Kind> {
    let has = |concept: Concept| c.has(concept);
    let any = |concepts: &[Concept]| c.has_any(concepts);
    let coach = c.sit.role == Role::Coach;
    let first = mood::opening(c);
    let begins = |concept: Concept| c.at(first).is_some_and(|piece| piece.means(concept));
    if let Some(kind) = of_squad(c, coach) {
        return Some(kind);
    }
    if has(Concept::Mean) && question || has(Concept::Explain) {
        return Some(other(c));
    }
    if begins(Concept::Why) && c.len() <= 6 && (c.sit.set.is_some() || c.len() <= 2) {
        return Some(Kind::Why);
    }
    if begins(Concept::Why) {
        return Some(other(c));
    }
    if has(Concept::Easier) && !has(Concept::How) && c.len() <= 12 && !has(Concept::Trend) {
        return Some(Kind::Easier);
    }
    if has(Concept::Harder) && c.len() <= 12 {
        return Some(Kind::Harder);
    }
    if has(Concept::Shorter) && c.len() <= 12 && !any(&[Concept::Instead]) {
        return Some(Kind::Shorter);
    }
    if has(Concept::When) && has(Concept::Test) {
        return Some(about(c, About::NextTest));
    }
    if any(&[Concept::Lane]) && any(&[Concept::Which, Concept::What, Concept::Where, Concept::Who])
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_)))
            && question
            && has(Concept::Who)
    {
        let lane = lane_of(c);
        return Some(about(c, About::Lane { lane }));
    }
    if has(Concept::HowMany)
        && any(&[Concept::Swam, Concept::Session, Concept::Done])
        && !any(&[Concept::Want, Concept::Need])
        || has(Concept::HowMany)
            && c.pieces.iter().any(|piece| {
                piece.is(Sense::Unit(UnitWord::Length))
                    || piece.is(Sense::Unit(UnitWord::Metre))
                    || piece.is(Sense::Unit(UnitWord::Kilo))
            })
            && period(c).is_some()
    {
        let (since, until) = period(c).unwrap_or((None, None));
        return Some(about(c, About::Swum { since, until }));
    }
    if has(Concept::Best)
        && (question || c.has(Concept::My) || !c.people().is_empty())
        && !any(&[Concept::Trend, Concept::Test])
    {
        return Some(Kind::Best);
    }
    let distances = distances(c);
    if has(Concept::Targets) && has(Concept::From) && has(Concept::Test) && !question {
        return Some(Kind::OwnTargets { holds: vec![] });
    }
    if (has(Concept::Pace) || has(Concept::SendOffWord) || has(Concept::Targets) || paces(c))
        && (question || has(Concept::Targets))
    {
        return Some(Kind::Targets { distances });
    }
    if has(Concept::RestWord) && has(Concept::HowMany) && !distances.is_empty() {
        return Some(Kind::Targets { distances });
    }
    if has(Concept::Predict)
        && question
        && let [distance] = distances.as_slice()
    {
        return Some(Kind::Predict { distance: *distance });
    }
    if has(Concept::Trend) && (question || c.len() <= 5) {
        return Some(Kind::Trend);
    }
    if has(Concept::Log) && (question || c.len() <= 3) {
        return Some(Kind::Log);
    }
    if any(&[Concept::When, Concept::Where])
        && any(&[Concept::Session, Concept::Started, Concept::Squad, Concept::Open])
    {
        return Some(about(c, About::Evening { on: day(c) }));
    }
    if question
        && any(&[Concept::Shut, Concept::Open])
        && !has(Concept::Lane)
        && (any(&[Concept::Session, Concept::Squad]) || day(c).is_some())
        && c.at(first).is_some_and(|piece| piece.means(Concept::Aux) || piece.text == "se")
    {
        return Some(about(c, About::Evening { on: day(c) }));
    }
    next(c, question)
}

/// `what should I hold`, `how fast`, `what time for 100s`.
fn paces(c: &Clause<'_, '_>) -> bool {
    let how_fast =
        c.pieces.windows(2).any(|pair| pair[0].means(Concept::How) && pair[1].means(Concept::Fast));
    let hold = c.has(Concept::What)
        && c.pieces.iter().any(|piece| matches!(piece.text, "hold" | "aim" | "swim" | "go"))
        && !distances(c).is_empty()
        && c.has(Concept::Need)
            | c.pieces.iter().any(|piece| piece.text == "should" || piece.text == "hold");
    how_fast || hold
}

/// The distances that a question names.
fn distances(c: &Clause<'_, '_>) -> Vec<Length> {
    let mut distances = Vec::new();
    for piece in c.pieces {
        let length = match piece.item {
            Item::Far(far) => c.length(far),
            Item::Repeat(_, far) => c.length(far),
            Item::Plural(value) => Some(Length { amount: value, unit: None }),
            Item::Figure(Figure::Whole { value, .. })
                if matches!(
                    value,
                    25 | 50
                        | 75
                        | 100
                        | 150
                        | 200
                        | 300
                        | 400
                        | 500
                        | 750
                        | 800
                        | 1000
                        | 1500
                        | 1650
                        | 1900
                        | 3000
                        | 5000
                ) =>
            {
                Some(Length { amount: value, unit: None })
            }
            _ => None,
        };
        if let Some(length) = length
            && !distances.contains(&length)
        {
            distances.push(length);
        }
    }
    distances
}

fn day(c: &Clause<'_, '_>) -> Option<Day> {
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.coming(named),
        _ => None,
    })
}

fn lane_of(c: &Clause<'_, '_>) -> Option<u8> {
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Lanes(bits) => u8::try_from(bits.trailing_zeros()).ok(),
        _ => None,
    })
}

/// The days that `this month`, `in february`, `since january`, `last week` are.
fn period(c: &Clause<'_, '_>) -> Option<(Option<Day>, Option<Day>)> {
    let today = c.sit.today;
    let month = c.pieces.iter().position(|piece| piece.is(Sense::Unit(UnitWord::Month)));
    if let Some(at) = month {
        let last = at > 0 && c.pieces[at - 1].means(Concept::Last);
        let first = today.first_of_month();
        let before = first.checked_sub(jiff::Span::new().months(1)).ok()?;
        return Some(if last {
            (Some(Day::Full(before)), Some(Day::Full(first)))
        } else {
            (Some(Day::Full(first)), None)
        });
    }
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(Named::Month(month)) => {
            let month = i8::try_from(month).ok()?;
            let year = if month <= today.month() { today.year() } else { today.year() - 1 };
            let first = jiff::civil::Date::new(year, month, 1).ok()?;
            let next = first.checked_add(jiff::Span::new().months(1)).ok()?;
            Some((Some(Day::Full(first)), Some(Day::Full(next))))
        }
        Item::Day(Named::Week(weeks)) => {
            let monday = today
                .checked_sub(jiff::Span::new().days(today.weekday().to_monday_zero_offset()))
                .ok()?;
            let first = monday.checked_add(jiff::Span::new().weeks(weeks)).ok()?;
            let next = first.checked_add(jiff::Span::new().weeks(1)).ok()?;
            Some((Some(Day::Full(first)), Some(Day::Full(next))))
        }
        Item::Day(named) => Some((c.past(named), None)),
        _ => None,
    })
}

/// What to swim next, with what is wished of it.
fn next(c: &Clause<'_, '_>, question: bool) -> Option<Kind> {
    let minutes = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Span(time) if time.seconds() >= 600.0 => {
            u16::try_from((time.seconds() / 60.0) as u32).ok()
        }
        _ => None,
    });
    let distance = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Far(far) => c.length(far).filter(|length| length.amount >= 400),
        Item::Figure(Figure::Whole { value, places: 3.. })
            if (600..=6000).contains(&value) && value.is_multiple_of(100) =>
        {
            Some(Length { amount: value, unit: None })
        }
        _ => None,
    });
    let session = c.has_any(&[Concept::NextSession, Concept::Session, Concept::Plan, Concept::Set]);
    let something = c.has(Concept::Something);
    let what = c.has(Concept::What) || c.has(Concept::NextSession);
    let (with, without) = kit(c);
    if c.has(Concept::Plan) && !c.has(Concept::NextSession)
        || c.has(Concept::Week) && c.has_any(&[Concept::What, Concept::Plan])
    {
        let week = c.pieces.iter().find_map(|piece| {
            piece.sense(|sense| match sense {
                Sense::Level(Level::Easy) => Some(WeekKind::Easy),
                Sense::Level(Level::Hard) => Some(WeekKind::Hard),
                _ => None,
            })
        });
        let is_today =
            c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(Named::Day(Day::Today, _))));
        if !is_today {
            return Some(Kind::Plan(PlanWish { week, minutes, sessions: None, on: None }));
        }
    }
    let today =
        c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(Named::Day(Day::Today, _))));
    let wished = minutes.is_some() || distance.is_some() || !with.is_empty() || !without.is_empty();
    let on_tonight =
        today && what && c.sit.set.as_ref().is_some_and(|set| set.on == c.sit.today) && !wished;
    if on_tonight && matches!(c.sit.phase, Phase::Before | Phase::During) {
        return Some(Kind::Tonight);
    }
    if (session || something) && (wished || what || question && c.has_any(&[Concept::NextSession]))
        || wished && what && !question
        || what && today
        || minutes.is_some() && what
    {
        if c.sit.role == Role::Coach && c.people().is_empty() {
            let on = day(c).or(Some(Day::Today).filter(|_| c.sit.phase == Phase::Before));
            return Some(Kind::Plan(PlanWish { week: None, minutes, sessions: None, on }));
        }
        return Some(Kind::Next(NextWish { minutes, distance, with, without, open_water: false }));
    }
    None
}

/// Kit asked for, and kit left out.
fn kit(c: &Clause<'_, '_>) -> (Vec<Equipment>, Vec<Equipment>) {
    let (mut with, mut without) = (Vec::new(), Vec::new());
    let mut barred = false;
    for piece in c.pieces {
        if piece.means(Concept::Without) || piece.means(Concept::Not) || piece.text == "no" {
            barred = true;
        }
        if piece.means(Concept::With) && !piece.means(Concept::Without) {
            barred = false;
        }
        if let Some(kit) = piece.sense(|sense| match sense {
            Sense::Kit(kit) => Some(*kit),
            _ => None,
        }) {
            if barred { without.push(kit) } else { with.push(kit) }
        }
    }
    (with, without)
}

/// What a coach asks about the squad, the evening or someone in it.
fn of_squad(c: &Clause<'_, '_>, coach: bool) -> Option<Kind> {
    let has = |concept: Concept| c.has(concept);
    let any = |concepts: &[Concept]| c.has_any(concepts);
    let squad = |filter| Some(Kind::Squad { filter: Some(filter), on: None });
    if !coach {
        return None;
    }
    let who = has(Concept::Who)
        || c.pieces.iter().any(|piece| {
            matches!(piece.text, "anyone" | "anybody" | "alguien" | "list" | "lista" | "any")
        });
    if who && any(&[Concept::Owed]) {
        return squad(SquadFilter::Overdue);
    }
    if who
        && (any(&[Concept::HurtQ, Concept::Pain])
            || c.pieces.iter().any(|piece| {
                piece.sense(|sense| matches!(sense, Sense::Body(_)).then_some(())).is_some()
            }))
    {
        return squad(SquadFilter::Hurt);
    }
    if (who || has(Concept::Rank)) && any(&[Concept::Trend, Concept::Rank]) {
        let on = c.pieces.iter().find_map(|piece| match piece.item {
            Item::Day(named) => c.past(named),
            _ => None,
        });
        return Some(about(c, About::Results { on, gains: true }));
    }
    if who && any(&[Concept::Absent, Concept::Out, Concept::Missed]) && !has(Concept::Test) {
        return Some(about(c, About::Turnout { on: day(c), absent: true }));
    }
    if who
        && any(&[Concept::Come, Concept::Here, Concept::In])
        && !has(Concept::Lane)
        && !c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_)))
        || has(Concept::HowMany) && any(&[Concept::Come, Concept::Here])
        || has(Concept::AttendanceQ) && c.len() <= 6
    {
        return Some(about(c, About::Turnout { on: day(c), absent: false }));
    }
    if any(&[Concept::HowMany, Concept::What, Concept::When, Concept::Where])
        && any(&[Concept::Left, Concept::LeftMin, Concept::Ended, Concept::MoveOn])
        || has(Concept::Where) && c.len() <= 4
    {
        return Some(about(c, About::Standing { lane: lane_of(c) }));
    }
    let lists = c
        .pieces
        .iter()
        .any(|piece| matches!(piece.text, "list" | "lista" | "times" | "tiempos" | "results"));
    let past = c
        .pieces
        .iter()
        .any(|piece| matches!(piece.item, Item::Day(Named::Day(Day::Yesterday | Day::Last(_), _))));
    if lists
        && past
        && c.people().is_empty()
        && !c
            .pieces
            .iter()
            .any(|piece| matches!(piece.item, Item::Figure(figure) if figure.is_marked()))
        || any(&[Concept::Test, Concept::Held]) && has(Concept::Everyone)
        || has(Concept::What)
            && has(Concept::Set)
            && c.pieces.iter().any(|piece| {
                matches!(piece.item, Item::Day(Named::Day(Day::Yesterday | Day::Last(_), _)))
            })
    {
        let on = c.pieces.iter().find_map(|piece| match piece.item {
            Item::Day(named) => c.past(named),
            _ => None,
        });
        return Some(about(c, About::Results { on, gains: false }));
    }
    None
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

/// Keeps the import of lengths together with what asks for them.
#[allow(dead_code)]
fn far(c: &Clause<'_, '_>, far: Far) -> Option<Length> {
    c.length(far)
}
