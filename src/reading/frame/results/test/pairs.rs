//! Distances and their times, in whichever order they stand.

use super::splits::{apart, splits};
use crate::message::{Day, Length};
use crate::reading::frame::Clause;
use crate::reading::frame::clause::{fits, stroke_of};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Used, is_raced};
use crate::reading::situation::Known;
use crate::units::{Centis, Start, Stroke};

/// A distance and its time.
#[derive(Debug, Clone)]
pub struct Swim {
    /// How far.
    pub length: Length,
    /// The stroke, where it was said.
    pub stroke: Option<Stroke>,
    /// The time, and whether tenths were given.
    pub time: Option<(Centis, bool)>,
    /// The times of its parts.
    pub splits: Vec<Centis>,
    /// The day.
    pub day: Option<Day>,
    /// How it began.
    pub start: Option<Start>,
}

/// A distance that people test over, or that a bare number beside a time may be.
const fn is_tested(amount: u32) -> bool {
    is_raced(amount)
        || matches!(amount, 25 | 75 | 150 | 250 | 300 | 600 | 1200 | 1600 | 1609 | 2000 | 3800)
}

/// Pairs distances and times, in whichever order they stand.
pub fn swims(c: &Clause<'_, '_>, whose: Option<&Known>) -> Option<(Vec<Swim>, Used)> {
    let mut used = Used::none(c.len());
    let mut swims: Vec<Swim> = Vec::new();
    let mut loose: Option<(usize, usize, Figure)> = None;
    let mut stroke: Option<Stroke> = None;
    let mut at = 0;
    while at < c.len() {
        let piece = &c.pieces[at];
        if let Some(found) = stroke_of(piece).filter(|stroke| !matches!(stroke, Stroke::Drill)) {
            let open = swims.last_mut().filter(|swim| swim.stroke.is_none());
            match open {
                Some(swim) => swim.stroke = Some(found),
                None => stroke = Some(found),
            }
            used[at] = true;
            at += 1;
            continue;
        }
        if piece.means(Concept::Splits) && !swims.is_empty() {
            used[at] = true;
            let (splits, end) = splits(c, at + 1, &mut used);
            if let Some(swim) = swims.last_mut() {
                if swim.time.is_none() && splits.len() > 1 {
                    let sum = splits.iter().copied().reduce(|one, other| one + other);
                    swim.time = sum.map(|sum| (sum, !sum.is_whole_seconds()));
                }
                swim.splits = apart(&splits, swim.time.map(|(time, _)| time));
            }
            at = end;
            continue;
        }
        // `baje de 1:30 en el cien, 1:29.4`: what it was to be under, where the time
        // itself is told behind.
        let told_behind = |from: usize| {
            c.pieces[from..].iter().any(
                |next| matches!(next.item, Item::Figure(figure) if figure.is_marked() || matches!(figure, Figure::Parted { .. })),
            )
        };
        if piece.means(Concept::Under)
            && let Some(Item::Figure(figure)) = c.at(at + 1).map(|next| next.item)
            && figure.is_marked()
            && told_behind(at + 2)
        {
            used[at..at + 2].fill(true);
            at += 2;
            continue;
        }
        // `first 200 3.19` within a 400: a split.
        let fraction = match &piece.item {
            Item::Figure(figure) => figure.whole().filter(|value| is_tested(*value)),
            Item::Far(far) => c.length(*far).map(|length| length.amount),
            _ => None,
        };
        if let (Some(part), Some(swim)) = (fraction, swims.last_mut())
            && at > 0
            && c.pieces[at - 1].means(Concept::First)
            && part < swim.length.amount
            && let Some((Item::Figure(figure), total)) =
                c.at(at + 1).map(|next| next.item).zip(swim.time)
            && let Some(split) = c.time(figure, part, swim.stroke.unwrap_or(Stroke::Free), whose)
        {
            if part * 2 == swim.length.amount
                && let Some(other) = total.0.less(split)
            {
                swim.splits = vec![split, other];
            }
            used[at - 1..=at + 1].fill(true);
            at += 2;
            continue;
        }
        let typed_length = match &piece.item {
            Item::Far(far) => c.length(*far),
            _ => None,
        };
        let bare = match &piece.item {
            Item::Figure(figure) => figure.whole().filter(|value| is_tested(*value)),
            // The repeats of the set in force are no test.
            Item::Plural(value)
                if !swims.iter().any(|swim| swim.time.is_none())
                    && !c.sit.set.as_ref().is_some_and(|set| {
                        set.main().is_some_and(|main| main.distance == *value)
                    }) =>
            {
                Some(*value)
            }
            _ => None,
        };
        let waits = swims.last().is_some_and(|swim| swim.time.is_none());
        // A number that is a time of the distance before it.
        let said = stroke;
        let as_time = |figure: Figure, swim: &Swim| {
            c.time(figure, swim.length.amount, swim.stroke.or(said).unwrap_or(Stroke::Free), whose)
        };
        // `1500 and 2000` are two distances.
        let round = matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if value >= 400 && value.is_multiple_of(50));
        if let (Item::Figure(figure), true) = (piece.item, waits && !round) {
            let joined = joined_time(c, at);
            let swim = swims.last_mut()?;
            let found = joined
                .and_then(|(figure, length)| {
                    as_time(figure, swim).map(|time| (time, length, figure))
                })
                .or_else(|| as_time(figure, swim).map(|time| (time, 1, figure)));
            if let Some((time, length, figure)) = found {
                swim.time = Some((time, figure.has_tenths() || !time.is_whole_seconds()));
                used[at..at + length].fill(true);
                at += length;
                continue;
            }
        }
        if let (Item::Span(time), true) = (piece.item, waits)
            && c.has_any(&[Concept::Test])
        {
            let swim = swims.last_mut()?;
            if fits(
                time,
                swim.length.amount,
                c.sit.course,
                swim.stroke.unwrap_or(Stroke::Free),
                whose.and_then(|known| known.expected(swim.length.amount, Stroke::Free)),
            ) {
                swim.time = Some((time, false));
                used[at] = true;
                at += 1;
                continue;
            }
        }
        // `no wait 6.57`: the time put right within the text.
        if let (Item::Figure(figure), Some(swim)) = (piece.item, swims.last_mut())
            && at > 0
            && (c.pieces[at - 1].means(Concept::Sorry)
                || at > 1
                    && c.pieces[at - 2].means(Concept::Sorry)
                    && c.pieces[at - 1].senses.is_empty())
            && let Some(time) =
                c.time(figure, swim.length.amount, swim.stroke.unwrap_or(Stroke::Free), whose)
        {
            swim.time = Some((time, figure.has_tenths()));
            used[at] = true;
            used[at - 1] = true;
            at += 1;
            continue;
        }
        if let Some(length) = typed_length.or(bare.map(|amount| Length { amount, unit: None })) {
            let mut swim = Swim {
                length,
                stroke: stroke.take(),
                time: None,
                splits: vec![],
                day: None,
                start: None,
            };
            // `312 again for the 200`: the time came first.
            if let Some((before, taken, figure)) = loose
                && let Some(time) = as_time(figure, &swim)
            {
                let follows = c.at(at + 1).is_some_and(|next| matches!(next.item, Item::Figure(figure) if as_time(figure, &swim).is_some()));
                if !follows {
                    swim.time = Some((time, figure.has_tenths()));
                    used[before..before + taken].fill(true);
                    loose = None;
                }
            }
            let again =
                swims.iter().any(|other| other.length == swim.length && other.time.is_some())
                    && swim.time.is_none();
            // A distance said twice is said of the same swim.
            if !again {
                if waits {
                    // The one before had no time: it was no test.
                    swims.pop();
                }
                swims.push(swim);
            }
            used[at] = true;
            at += 1;
            continue;
        }
        if let Item::Figure(figure) = piece.item {
            let (figure, length) = joined_time(c, at).unwrap_or((figure, 1));
            loose = loose.or(Some((at, length, figure)));
            at += length;
            continue;
        }
        let plain = piece.means(Concept::Test)
            || piece.means(Concept::Best)
            || piece.means(Concept::Meet)
            || piece.means(Concept::Swam)
            || piece.means(Concept::Done)
            || piece.means(Concept::Same)
            || matches!(piece.item, Item::Day(_) | Item::Person(_))
            || piece
                .sense(|sense| matches!(sense, Sense::Start(_) | Sense::Course(_)).then_some(()))
                .is_some();
        used[at] |= plain;
        at += 1;
    }
    if let (Some(stroke), [only]) = (stroke, swims.as_mut_slice()) {
        only.stroke = only.stroke.or(Some(stroke));
    }
    swims.retain(|swim| swim.time.is_some());
    (!swims.is_empty()).then_some((swims, used))
}

/// `3 12`: minutes and seconds with a space.
fn joined_time(c: &Clause<'_, '_>, at: usize) -> Option<(Figure, usize)> {
    let (
        Item::Figure(Figure::Whole { value: minutes, places: one }),
        Item::Figure(Figure::Whole { value: seconds, places: two }),
    ) = (c.at(at)?.item, c.at(at + 1)?.item)
    else {
        return None;
    };
    let in_digits = one <= 2 && two == 2;
    let in_words = one == 0 && two == 0;
    let fit = (in_digits || in_words) && (1..60).contains(&minutes) && seconds < 60;
    fit.then_some((Figure::Whole { value: minutes * 100 + seconds, places: 3 }, 2))
}
