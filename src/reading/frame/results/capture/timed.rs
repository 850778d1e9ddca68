//! The figures of a stretch that may be times.

use super::entry::{Entry, is_heading};
use super::heading::{Heading, dotted};
use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Clock, Figure, Item, Used};
use crate::units::Centis;

/// A figure of an entry that may be a time.
#[derive(Debug, Clone, Copy)]
pub struct Timed {
    /// Its first piece, in the entry's stretch.
    pub at: usize,
    /// How many pieces it takes.
    pub width: usize,
    /// The figure, as typed.
    pub figure: Figure,
}

impl Timed {
    /// A figure of one piece.
    pub fn new(at: usize, figure: Figure) -> Self {
        Self { at, width: 1, figure }
    }

    /// Marks its pieces as used, in the whole text of the entry.
    pub fn mark(&self, used: &mut Used, entry: &Entry) {
        let from = entry.from + self.at;
        used[from..from + self.width].fill(true);
    }
}

/// The figures of a stretch that may be times.
pub fn times(c: &Clause<'_, '_>, heading: &Heading) -> Vec<Timed> {
    let mut times = Vec::new();
    let mut at = 0;
    while at < c.len() {
        if let Some(figure) = dotted(c, at) {
            times.push(Timed::new(at, figure));
        }
        if let Item::Span(time) = c.pieces[at].item
            && (60.0..=1800.0).contains(&time.seconds())
        {
            let figure = Figure::Clock(Clock { time, tenths: false, day_time: None });
            times.push(Timed::new(at, figure));
        }
        if let Item::Figure(figure) = c.pieces[at].item {
            let heads = figure.whole() == heading.length.map(|length| length.amount)
                && figure.whole().is_some_and(is_heading);
            // `4:22, died on the last 50`
            let part = at > 0
                && [Concept::Last, Concept::First].iter().any(|one| c.pieces[at - 1].means(*one))
                && figure.whole().is_some_and(is_heading);
            if part {
                at += 1;
                continue;
            }
            if let Some(joined) = c.minutes_apart(at) {
                // `3 11 and a half`
                let half = c.at(at + 2).is_some_and(|next| next.means(Concept::And))
                    && (at + 3..c.len().min(at + 5))
                        .any(|next| c.pieces[next].means(Concept::Half));
                let halved = half.then(|| half_more(joined)).flatten();
                let width = if half { 5.min(c.len() - at) } else { 2 };
                times.push(Timed { at, width, figure: halved.unwrap_or(joined) });
                at += 2;
                continue;
            }
            if !heads {
                times.push(Timed::new(at, figure));
            }
        }
        at += 1;
    }
    times
}

/// Half a second more.
fn half_more(figure: Figure) -> Option<Figure> {
    let time = figure.times().first().copied()?;
    let time = Centis::new(time.hundredths() + 50).ok()?;
    Some(Figure::Clock(Clock { time, tenths: true, day_time: None }))
}
