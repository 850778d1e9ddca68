//! A whole text as a set.

use super::by_lane::by_lane;
use super::change::adds;
use super::item::Swim;
use super::writer::{WrittenPart, lines, write};
use crate::message::{Day, Kind, Length, TypedSet};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::mood::{is_question, opening};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Named};
use crate::reading::situation::{Line, Phase, Role};
use crate::session::Part;
use crate::units::{Level, Stroke};

/// Reads a stretch as a set that somebody is to swim.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let coach = c.sit.role == Role::Coach;
    let figures = c
        .pieces
        .iter()
        .filter(|piece| {
            matches!(
                piece.item,
                Item::Repeat(..) | Item::Far(_) | Item::Figure(_) | Item::Range(..)
            )
        })
        .count();
    let captured = c.pieces.array_windows::<2>().any(|pair| {
        matches!(pair[0].item, Item::Person(_))
            && matches!(pair[1].item, Item::Figure(_) | Item::Each(_))
    });
    let asks = is_question(c) && if coach { asks_about(c) } else { !c.has(Concept::Can) };
    if figures == 0 || captured || asks || !c.people().is_empty() && !coach {
        return vec![];
    }
    // A swimmer's own words of what was swum are no set to swim.
    let told = !coach
        && !c.has(Concept::Set)
        && c.has_any(&[
            Concept::Done,
            Concept::Swam,
            Concept::Total,
            Concept::Held,
            Concept::Average,
            Concept::Test,
            Concept::Made,
            Concept::Missed,
            Concept::Didnt,
        ]);
    if told {
        return vec![];
    }
    let by_lane = Some(by_lane(c)).filter(|_| coach).flatten();
    let written = match &by_lane {
        Some(by) => by.written(c),
        None => write(c),
    };
    let swims = written.swims();
    if swims.is_empty() {
        return vec![];
    }
    if coach && is_part_of_known(c, &swims) {
        return vec![];
    }
    let repeats = swims.iter().any(|swim| swim.count > 1);
    let timed = swims.iter().any(|swim| swim.send_off.is_some() || swim.rest.is_some());
    let named = swims.iter().any(|swim| swim.part.is_some()) || c.has(Concept::Set);
    let qualities = swims
        .iter()
        .filter(|swim| !swim.is_bare() || swim.count > 1 || swim.part.is_some())
        .count();
    // One swim without a word of how is a result or a wish.
    let enough = swims.len() > 1 && (repeats || named || timed) && qualities * 2 >= swims.len()
        || repeats && (timed || named || by_lane.is_some())
        // `8x50 descend`
        || coach && repeats && swims.iter().any(|swim| !swim.effort.is_empty())
        || is_ladder(&swims);
    if !enough || written.total() < 100 {
        return vec![];
    }
    // Nor are repeats that leave before they can be swum, or none at all.
    let swum = |swim: &&Swim| {
        let expected = c.sit.own().and_then(|known| {
            known.expected(swim.length.amount, swim.stroke.unwrap_or(Stroke::Free))
        });
        let given = swim.send_off.map(|send_off| f64::from(send_off.seconds()));
        expected.zip(given).is_some_and(|(expected, given)| given < expected * 1.2)
    };
    if !coach && (!repeats || swims.iter().any(swum)) {
        return vec![];
    }
    let on = day(c);
    let mut candidate = Candidate::new("set", c.len());
    candidate.used.clone_from(&written.used);
    // In a set, the words beside the metres are remarks.
    for (at, piece) in c.pieces.iter().enumerate() {
        let remark = matches!(
            piece.item,
            Item::Chatter
                | Item::Unknown
                | Item::Word
                | Item::Ordinal(_)
                | Item::Person(_)
                | Item::Lanes(_)
                | Item::Picture
                | Item::Mark(_)
                | Item::Day(_)
                | Item::Range(..)
                | Item::OfAll(..)
                | Item::Plural(_)
                | Item::TimeOfDay(..)
        );
        candidate.used[at] |= remark;
    }
    let mut cost = if coach { 0.4 } else { 1.6 };
    if is_question(c)
        && !c.pieces.iter().any(|piece| matches!(piece.text, "can" | "could" | "how" | "does"))
    {
        cost += 1.6;
    }
    let total = written.total();
    if let Some(stated) = written.stated {
        cost += if stated == total { -0.3 } else { 0.3 };
    }
    let mut parts = written.parts;
    if written.keeps_ends {
        parts = with_ends(c, parts);
    }
    let Some(lines) = lines(parts) else { return vec![] };
    let lanes = by_lane.map(|by| by.lanes).unwrap_or_default();
    vec![candidate.says(Kind::Set(TypedSet { on, lines, lanes })).at_cost(cost)]
}

/// `swim down just 100`, `add 4x50 kick after the warm up`, `lane 4 6x50 on 1:30`: a part of
/// the set that is known already, and no set that stands in its place.
fn is_part_of_known(c: &Clause<'_, '_>, swims: &[&Swim]) -> bool {
    let Some(set) = &c.sit.set else { return false };
    let ends =
        |swim: &&Swim| swim.count == 1 && matches!(swim.part, Some(Part::WarmUp | Part::SwimDown));
    let one_lane =
        c.pieces.iter().filter(|piece| matches!(piece.item, Item::Lanes(_))).count() == 1;
    let of_main = |swim: &&Swim| set.main().is_some_and(|main| main.distance == swim.length.amount);
    let times = c.pieces.iter().filter(|piece| matches!(piece.item, Item::Figure(_))).count();
    let of_lanes = one_lane && times < 2 && swims.len() == 1 && swims.iter().all(of_main);
    // `warm up 300 instead of 200`
    let instead = c.has(Concept::Instead) && swims.iter().any(ends) && swims.len() == 2;
    swims.iter().all(ends) || of_lanes || instead || swims.len() == 1 && adds(c)
}

fn is_ladder(swims: &[&Swim]) -> bool {
    swims.len() >= 4
        && swims.iter().filter(|swim| swim.count == 1).count() >= 4
        && swims.iter().any(|swim| swim.rest.is_some() || swim.send_off.is_some())
}

/// The evening that a set is for.
fn day(c: &Clause<'_, '_>) -> Option<Day> {
    let named = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named @ Named::Day(..)) | Item::Day(named @ Named::OfMonth(_)) => c.coming(named),
        _ => None,
    });
    let day = named.filter(|day| *day != Day::Yesterday);
    match day {
        Some(Day::Today) if c.sit.phase == Phase::None => None,
        day => day,
    }
}

/// The parts between the warm-up and the swim-down of the set that is known.
pub fn with_ends(c: &Clause<'_, '_>, parts: Vec<WrittenPart>) -> Vec<WrittenPart> {
    let Some(set) = &c.sit.set else { return parts };
    let mut all: Vec<WrittenPart> = Vec::new();
    let (first, last) = (set.lines.first(), set.lines.last());
    let has = |part: Part| {
        parts.iter().any(|one| matches!(one, WrittenPart::One(swim) if swim.part == Some(part)))
    };
    let (before, after) = (has(Part::WarmUp), has(Part::SwimDown));
    all.extend(first.filter(|line| !line.main && !before).map(|line| known(line, Part::WarmUp)));
    all.extend(parts);
    all.extend(
        last.filter(|line| !line.main && !after && set.lines.len() > 1)
            .map(|line| known(line, Part::SwimDown)),
    );
    all
}

/// A line that is known, as it was written.
pub fn known(line: &Line, part: Part) -> WrittenPart {
    let mut swim = Swim::new(line.count, Length { amount: line.distance, unit: None }, 0);
    swim.part = Some(part);
    swim.stroke = (line.stroke != Stroke::Free).then_some(line.stroke);
    swim.send_off = line.send_off;
    if !matches!(part, Part::Main) {
        swim.level = Some(Level::Easy);
    }
    WrittenPart::One(swim)
}

/// `is 8x50 on 1:05 too soft for swift`: asked about, and put by nobody.
fn asks_about(c: &Clause<'_, '_>) -> bool {
    const ABOUT: [&str; 12] =
        ["is", "are", "was", "were", "does", "did", "will", "es", "son", "era", "sera", "esta"];
    c.at(opening(c)).is_some_and(|piece| ABOUT.contains(&piece.text))
}
