//! A set or a session in trade notation: its lines, rounds and repeats.

use super::figures::{length, plain_time, send_off, within};
use super::trials::once;
use super::{Outcome, Trouble, days};
use crate::message::syntax::{Extent, Figure, Item, Piece, RoundsItem, TypedDay};
use crate::message::{Rounds, SetItem, SetLine, SetPiece, TypedSet};
use crate::session::Part;
use crate::units::Stroke;

/// True if the items describe something to swim and none tells what came of it.
pub fn is_set(items: &[Item]) -> bool {
    let (_, items) = day_first(items);
    let swims =
        items.iter().any(|item| matches!(item, Item::Repeat(_) | Item::Rounds(_) | Item::Part(_)));
    swims && items.iter().all(belongs) && !lists_results(items)
}

/// The set, and the night it is for where a day stands first.
pub fn typed(items: &[Item]) -> Outcome<TypedSet> {
    let (on, items) = day_first(items);
    let on = on.map(days::day).transpose()?;
    Ok(TypedSet { on, lines: lines(items)?, lanes: Vec::new() })
}

/// The day before all else, and what follows it.
fn day_first(items: &[Item]) -> (Option<TypedDay>, &[Item]) {
    match items {
        [Item::Day(day), Item::Comma, rest @ ..] | [Item::Day(day), rest @ ..] => {
            (Some(*day), rest)
        }
        _ => (None, items),
    }
}

/// True for a plain swim or several: `400 pull`, `200 easy, 100 kick`.
pub fn is_swims(items: &[Item]) -> bool {
    let far = items.iter().any(|item| matches!(item, Item::Length(_) | Item::Figure(_)));
    let how = items.iter().any(|item| belongs(item) && !is_far(item) && *item != Item::Comma);
    far && how && items.iter().all(belongs)
}

/// As [`is_swims`], with a comma or a level or stroke before each next swim, so
/// that no bare number could be a time: `200 easy, 100 kick`.
pub fn lists_swims(items: &[Item]) -> bool {
    let mut swims = items.split(|item| *item == Item::Comma);
    is_swims(items) && swims.all(|swim| swim.iter().filter(|item| is_far(item)).count() <= 1)
}

fn is_far(item: &Item) -> bool {
    matches!(
        item,
        Item::Repeat(_) | Item::Rounds(_) | Item::Length(_) | Item::Figure(Figure::Number { .. })
    )
}

fn belongs(item: &Item) -> bool {
    match item {
        Item::Figure(Figure::Number { value, .. }) => value.is_multiple_of(25),
        Item::Repeat(_) | Item::Rounds(_) | Item::Length(_) | Item::Comma | Item::Part(_) => true,
        item => is_manner(item),
    }
}

fn is_manner(item: &Item) -> bool {
    matches!(
        item,
        Item::Stroke(_)
            | Item::Equipment(_)
            | Item::Level(_)
            | Item::Effort(_)
            | Item::SendOff(_)
            | Item::Rest(_)
            | Item::Target(_)
            | Item::TestPace(_)
            | Item::Remark(_)
    )
}

/// Bare numbers behind a repeat, as many as its count, are its times.
fn lists_results(items: &[Item]) -> bool {
    let mut items = items.iter();
    let repeat = items.find_map(|item| match item {
        Item::Repeat(repeat) => Some(repeat),
        _ => None,
    });
    let Some(repeat) = repeat else { return false };
    let behind = items.skip_while(|item| is_manner(item));
    let run = behind.take_while(|item| matches!(item, Item::Figure(_) | Item::Miss)).count();
    run > 1 && u32::try_from(run).is_ok_and(|run| run == repeat.count)
}

/// The lines of the set; a part's name begins a new one, or stands behind its
/// swims: `4x25 swim down`.
fn lines(items: &[Item]) -> Outcome<Vec<SetLine>> {
    let mut lines = vec![SetLine { part: None, pieces: Vec::new() }];
    let mut waiting: Vec<&Item> = Vec::new();
    // How many pieces the line had at the last comma.
    let mut before = 0;
    let mut is_closed = false;
    for (at, item) in items.iter().enumerate() {
        if is_closed && !matches!(item, Item::Comma | Item::Part(_)) {
            // What follows a part that was named behind its swims.
            lines.push(SetLine { part: Some(Part::Main), pieces: Vec::new() });
            (before, is_closed) = (0, false);
        }
        let Some(line) = lines.last_mut() else { return Err(Trouble::Senseless) };
        match item {
            Item::Comma => before = line.pieces.len(),
            Item::Part(part)
                if line.pieces.len() > before
                    && matches!(items.get(at + 1), None | Some(Item::Comma)) =>
            {
                let own = line.pieces.split_off(before);
                if line.pieces.is_empty() {
                    lines.pop();
                }
                lines.push(SetLine { part: Some(*part), pieces: own });
                is_closed = true;
            }
            Item::Part(part) => {
                (before, is_closed) = (0, false);
                if line.part.is_none() && line.pieces.is_empty() {
                    line.part = Some(*part);
                } else {
                    lines.push(SetLine { part: Some(*part), pieces: Vec::new() });
                }
            }
            Item::Rounds(one) => {
                if !waiting.is_empty() {
                    return Err(Trouble::Senseless);
                }
                line.pieces.push(SetPiece::Rounds(rounds(one)?));
            }
            far if is_far(far) => {
                let mut swim = swim(far)?;
                for manner in waiting.drain(..) {
                    apply(&mut swim, manner)?;
                }
                line.pieces.push(SetPiece::Item(swim));
            }
            manner if is_manner(manner) => match line.pieces.last_mut() {
                Some(SetPiece::Item(swim)) if !leads(items, at) => apply(swim, manner)?,
                _ => waiting.push(manner),
            },
            _ => return Err(Trouble::Senseless),
        }
    }
    let whole = lines.iter().all(|line| !line.pieces.is_empty());
    if waiting.is_empty() && whole { Ok(lines) } else { Err(Trouble::Senseless) }
}

/// True if the manner at `at` follows a comma and a swim follows it before the
/// next: `200 easy, fins 4x50`.
fn leads(items: &[Item], at: usize) -> bool {
    let starts = items
        .iter()
        .take(at)
        .rfind(|item| !is_manner(item))
        .is_none_or(|item| matches!(item, Item::Comma | Item::Part(_)));
    let next = items.iter().skip(at).find(|item| !is_manner(item));
    starts && next.is_some_and(is_far)
}

fn rounds(item: &RoundsItem) -> Outcome<Rounds> {
    let mut pieces = Vec::with_capacity(item.pieces.len());
    for piece in &item.pieces {
        pieces.push(match piece {
            Piece::Rounds(inner) => SetPiece::Rounds(rounds(inner)?),
            Piece::Swim(items) => {
                let (far, manners) = items.split_first().ok_or(Trouble::Senseless)?;
                let mut swim = swim(far)?;
                for manner in manners {
                    apply(&mut swim, manner)?;
                }
                SetPiece::Item(swim)
            }
        });
    }
    let rest =
        item.rest.map(|rest| plain_time(rest).map_err(|_| Trouble::Senseless)).transpose()?;
    Ok(Rounds { times: within(item.times, 1..=50)?, pieces, rest })
}

fn swim(far: &Item) -> Outcome<SetItem> {
    let (count, extent) = match far {
        Item::Repeat(repeat) => (repeat.count, repeat.extent),
        Item::Length(extent) => (1, *extent),
        Item::Figure(Figure::Number { value, .. }) => (1, Extent { amount: *value, unit: None }),
        _ => return Err(Trouble::Senseless),
    };
    Ok(SetItem {
        count: within(count, 1..=100)?,
        distance: length(extent)?,
        stroke: None,
        send_off: None,
        rest: None,
        target: None,
        pace_of: None,
        level: None,
        equipment: Vec::new(),
        effort: Vec::new(),
        comment: None,
    })
}

fn apply(swim: &mut SetItem, manner: &Item) -> Outcome<()> {
    match manner {
        Item::Stroke(stroke) => return swim_as(swim, *stroke),
        Item::Equipment(kit) if !swim.equipment.contains(kit) => swim.equipment.push(*kit),
        Item::Equipment(_) => {}
        Item::Level(level) => once(&mut swim.level, *level)?,
        Item::Effort(effort) => {
            // Said twice, say with and without a range, is said once.
            let alike = |said: &crate::message::Effort| {
                std::mem::discriminant(said) == std::mem::discriminant(effort)
            };
            if !swim.effort.iter().any(alike) {
                swim.effort.push(*effort);
            }
        }
        Item::SendOff(figure) => {
            once(&mut swim.send_off, send_off(*figure).map_err(|_| Trouble::Senseless)?)?;
        }
        Item::Rest(figure) => {
            once(&mut swim.rest, plain_time(*figure).map_err(|_| Trouble::Senseless)?)?;
        }
        Item::Target(figure) => {
            once(&mut swim.target, plain_time(*figure).map_err(|_| Trouble::Senseless)?)?;
        }
        Item::TestPace(extent) => once(&mut swim.pace_of, length(*extent)?)?,
        Item::Remark(text) => {
            let remark = text.trim_matches('"');
            swim.comment = Some(match swim.comment.take() {
                Some(before) => format!("{before}; {remark}"),
                None => remark.to_owned(),
            });
        }
        _ => return Err(Trouble::Senseless),
    }
    Ok(())
}

/// `fly kick` is kick, `pull free` is pull: the way of swimming goes before the
/// stroke, which is kept as a remark.
fn swim_as(swim: &mut SetItem, stroke: Stroke) -> Outcome<()> {
    let is_way = |stroke: Stroke| matches!(stroke, Stroke::Kick | Stroke::Pull | Stroke::Drill);
    let (way, named) = match swim.stroke {
        None => {
            swim.stroke = Some(stroke);
            return Ok(());
        }
        Some(before) if before == stroke => return Ok(()),
        Some(before) if is_way(before) && !is_way(stroke) => (before, stroke),
        Some(before) if !is_way(before) && is_way(stroke) => (stroke, before),
        Some(_) => return Err(Trouble::Senseless),
    };
    swim.stroke = Some(way);
    swim.comment = Some(match swim.comment.take() {
        Some(before) => format!("{before}; {named}"),
        None => named.to_string(),
    });
    Ok(())
}
