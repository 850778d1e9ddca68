//! What is asked about the evening: by who runs it, and by who swims in it.

use super::about;
use super::named::{day, day_meant, has_word, is_past, lane_of, past_day};
use crate::message::{About, Day, Kind, SquadFilter};
use crate::reading::frame::{Clause, mood};
use crate::reading::lexicon::{Concept, Hint, Sense};
use crate::reading::piece::{Item, Named};
use crate::reading::situation::{Phase, Role};

/// What a coach asks about the squad, the evening or someone in it.
pub fn of_squad(c: &Clause<'_, '_>, coach: bool) -> Option<Kind> {
    let has = |concept: Concept| c.has(concept);
    let any = |concepts: &[Concept]| c.has_any(concepts);
    let squad = |filter| Some(Kind::Squad { filter: Some(filter), on: None });
    if !coach {
        return None;
    }
    let who = has(Concept::Who) || c.pieces.iter().any(|piece| Hint::Somebody.is(piece.text));
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
    // `how is everyone doing`
    if has(Concept::Everyone) && has(Concept::Trend) && c.people().is_empty() && c.len() <= 5 {
        return Some(Kind::Squad { filter: None, on: None });
    }
    if (who || has(Concept::Rank)) && any(&[Concept::Trend, Concept::Rank]) && c.people().is_empty()
    {
        return Some(about(c, About::Results { on: past_day(c), gains: true }));
    }
    if who && any(&[Concept::Absent, Concept::Out, Concept::Missed]) && !has(Concept::Test) {
        return Some(about(c, About::Turnout { on: day_meant(c), absent: true }));
    }
    if who
        && any(&[Concept::Come, Concept::Here, Concept::In])
        && !has(Concept::Lane)
        && !c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_)))
        || has(Concept::HowMany) && any(&[Concept::Come, Concept::Here])
        || has(Concept::AttendanceQ) && c.len() <= 6
    {
        return Some(about(c, About::Turnout { on: day_meant(c), absent: false }));
    }
    if any(&[Concept::HowMany, Concept::What, Concept::When, Concept::Where])
        && any(&[Concept::Left, Concept::LeftMin, Concept::Ended, Concept::MoveOn])
        || has(Concept::Where) && c.len() <= 4
    {
        return Some(about(c, About::Standing { lane: lane_of(c) }));
    }
    let lists = has_word(c, Hint::List.words());
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
        || any(&[Concept::Test, Concept::Held]) && has(Concept::Everyone) && mood::is_question(c)
    {
        return Some(about(c, About::Results { on: past_day(c), gains: false }));
    }
    None
}

/// `what was the set on monday`, `what did we do last wednesday`.
pub fn set_of(c: &Clause<'_, '_>) -> Option<Kind> {
    let set = c.has(Concept::Set) || c.has(Concept::We) && has_word(c, &["do", "did", "hicimos"]);
    let on = past_day(c).filter(|_| c.has(Concept::What) && set && is_past(c))?;
    Some(about(c, About::SetOf { on: Some(on) }))
}

/// What a swimmer asks about their own evening and their own times.
pub fn of_swimmer(c: &Clause<'_, '_>, question: bool) -> Option<Kind> {
    if c.sit.role != Role::Swimmer || !question {
        return None;
    }
    let any = |concepts: &[Concept]| c.has_any(concepts);
    let words = |wanted: &[&str]| has_word(c, wanted);
    let is_on =
        c.sit.phase == Phase::During && c.sit.set.as_ref().is_some_and(|set| set.on == c.sit.today);
    let ends = any(&[Concept::When]) && words(Hint::Ends.words());
    if is_on
        && (ends
            || any(&[Concept::HowMany, Concept::What]) && any(&[Concept::Left, Concept::LeftMin]))
    {
        return Some(about(c, About::Standing { lane: None }));
    }
    if ends && c.len() <= 10 {
        return Some(about(c, About::Evening { on: day(c) }));
    }
    let own = any(&[Concept::My, Concept::Me]) || words(&["my", "i", "mi", "me"]);
    let timed = words(Hint::Result.words()) || any(&[Concept::How]) && words(Hint::Did.words());
    let past = past_day(c).filter(|_| is_past(c));
    (own && timed && past.is_some()).then(|| about(c, About::Results { on: past, gains: false }))
}
