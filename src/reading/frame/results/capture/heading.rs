//! What is said once and holds for several: the distance, how many, the stroke, the day.

use super::entry::{Entry, is_heading};
use crate::message::{Day, Length};
use crate::reading::frame::Clause;
use crate::reading::frame::clause::stroke_of;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Far, Figure, Item, Named, Piece, Used};
use crate::reading::situation::Phase;
use crate::units::Stroke;

/// What holds for all of them.
#[derive(Debug, Clone, Copy, Default)]
pub struct Heading {
    /// How far.
    pub length: Option<Length>,
    /// How many repeats of it.
    pub count: Option<u32>,
    /// Times are those of repeats, and not of a test.
    pub repeats: bool,
    /// The stroke.
    pub stroke: Option<Stroke>,
    /// The day that it was swum on.
    pub day: Option<Day>,
}

/// What stands before the first name.
pub fn heading(c: &Clause<'_, '_>, begins: usize, used: &mut Used) -> Heading {
    let mut heading = Heading::default();
    let first = c
        .pieces
        .iter()
        .position(|piece| matches!(piece.item, Item::Person(_) | Item::Lanes(_)))
        .unwrap_or(0);
    let end = first.min(begins.max(first));
    for (at, used) in used.iter_mut().enumerate().take(end) {
        *used |= take_heading(c, at, &mut heading);
    }
    for (at, piece) in c.pieces.iter().enumerate() {
        if let Item::Day(named) = piece.item
            && dotted(c, at).is_none()
        {
            heading.day = heading.day.or(c.past(named));
        }
    }
    for (at, piece) in c.pieces.iter().enumerate() {
        let plain = matches!(piece.item, Item::Day(_))
            || [
                Concept::Test,
                Concept::Set,
                Concept::Lane,
                Concept::Held,
                Concept::Then,
                Concept::And,
                Concept::Splits,
            ]
            .iter()
            .any(|concept| piece.means(*concept));
        used[at] |= plain;
    }
    // `heron 3:12, teal 2:58 for the 200`, `kite 47s heron 48s for the 50s`
    if heading.length.is_none() {
        for (at, piece) in c.pieces.iter().enumerate().skip(end) {
            let named = match piece.item {
                Item::Plural(value) => Some((value, true)),
                Item::Far(Far::Of(value, _)) => Some((value, false)),
                Item::Figure(Figure::Whole { value, .. })
                    if is_heading(value)
                        && at > 0
                        && (c.pieces[at - 1].means(Concept::Article)
                            || c.pieces[at - 1].means(Concept::For)) =>
                {
                    Some((value, false))
                }
                _ => None,
            };
            if let Some((value, plural)) = named.filter(|(value, plural)| {
                !plural
                    || is_heading(*value) && *value != 50
                    || c.at(at.wrapping_sub(1))
                        .is_some_and(|p| p.means(Concept::Article) || p.means(Concept::Of))
            }) {
                heading.length = Some(Length { amount: value, unit: None });
                heading.repeats = plural
                    && c.sit.tested != Some(value)
                    && c.sit.set.as_ref().is_some_and(|set| {
                        set.lines.iter().any(|line| line.distance == value && line.count > 1)
                    });
                used[at] = true;
                break;
            }
        }
    }
    heading
}

/// Takes a piece of the heading; true if it is one.
fn take_heading(c: &Clause<'_, '_>, at: usize, heading: &mut Heading) -> bool {
    let piece = &c.pieces[at];
    if let Some(stroke) = stroke_of(piece) {
        heading.stroke = Some(stroke);
        return true;
    }
    let line = |distance: u32| {
        c.sit.set.as_ref().is_some_and(|set| {
            set.lines.iter().any(|line| line.distance == distance && line.count > 1)
        })
    };
    match piece.item {
        // `the two hundreds`, said of a test over 200.
        Item::Repeat(count, Far::Of(each, None))
            if Some(count * each) == c.sit.tested && c.sit.phase != Phase::During =>
        {
            heading.length = Some(Length { amount: count * each, unit: None });
            heading.repeats = false;
        }
        Item::Repeat(count, far) => {
            heading.length = c.length(far);
            heading.count = Some(count);
            heading.repeats = true;
        }
        Item::Plural(value) => {
            heading.length = Some(Length { amount: value, unit: None });
            heading.repeats = line(value) && c.sit.tested != Some(value);
        }
        Item::Far(far) => heading.length = c.length(far),
        Item::Figure(Figure::Whole { value, .. })
            if is_heading(value) || matches!(value, 75 | 150 | 300) =>
        {
            heading.length = Some(Length { amount: value, unit: None });
            // `first 50 robin 58`: one of the set's.
            let which = at > 0
                && [Concept::First, Concept::Last, Concept::Next]
                    .iter()
                    .any(|one| c.pieces[at - 1].means(*one));
            heading.repeats = which && line(value) && c.sit.tested != Some(value);
        }
        _ => return false,
    }
    true
}

/// A heading at the end of an entry, behind its times, holds for the names that follow:
/// `100fr teal 1:21 100bk kite 1:41`. A bare figure there is a time, unless a stroke or
/// the end of a sentence says otherwise.
pub fn next_heading(c: &Clause<'_, '_>, entry: &Entry) -> Option<(usize, Heading)> {
    let mut next = Heading::default();
    let mut from = entry.to;
    while from > entry.from + 1 {
        let mark = matches!(c.pieces[from - 1].item, Item::Mark(_) | Item::Line);
        if !mark && !take_heading(c, from - 1, &mut next) {
            break;
        }
        from -= 1;
    }
    let run = &c.pieces[from..entry.to];
    let ends = |piece: &Piece<'_>| matches!(piece.item, Item::Mark('.' | ';' | '/') | Item::Line);
    let parted = next.stroke.is_some() || run.first().is_some_and(ends);
    let timed = c.pieces[entry.from..from].iter().any(|piece| match piece.item {
        Item::Figure(figure) => !figure.whole().is_some_and(is_heading),
        Item::Each(_) => true,
        _ => false,
    });
    (next.length.is_some() && parted && timed).then_some((from, next))
}

/// `3.10` that could be the third of October: behind a name a time.
pub fn dotted(c: &Clause<'_, '_>, at: usize) -> Option<Figure> {
    let typed = c.typed(at, at + 1);
    let (whole, parts) = typed.trim_end_matches('.').split_once('.')?;
    let (whole, parts, places) = (whole.parse().ok()?, parts.parse().ok()?, parts.len());
    let dated = matches!(c.pieces[at].item, Item::Day(Named::Day(Day::DayMonth(..), _)));
    (dated && places == 2).then_some(Figure::Parted { whole, parts, places: 2, comma: false })
}
