//! Drawings, as SVG: lines, bands, dots and bars in the page's own colours, with the
//! ends of what is measured written at their edges. What they show stands in figures
//! beside them.

use maud::{Markup, html};

/// The size of a drawing, in its own units: about those of a telephone.
const WIDE: f64 = 400.0;
const HIGH: f64 = 150.0;
/// The room at its edges: for what is written to the left and below, and for a dot.
const LEFT: f64 = 64.0;
const BELOW: f64 = 26.0;
const EDGE: f64 = 12.0;
/// Where bars stand.
const FOOT: f64 = HIGH - BELOW + EDGE;

/// From what is measured to where it is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Scale {
    /// The ends of what is measured.
    measured: (f64, f64),
    /// Where they are drawn.
    drawn: (f64, f64),
}

impl Scale {
    /// Across, from the least to the greatest of `all`.
    pub fn across(all: impl Iterator<Item = f64>) -> Scale {
        Scale::of(all, (LEFT, WIDE - EDGE))
    }

    /// Downwards: the least, which is the fastest, on top.
    pub fn fastest_on_top(all: impl Iterator<Item = f64>) -> Scale {
        Scale::of(all, (EDGE, HIGH - BELOW))
    }

    /// Upwards from nought.
    pub fn upwards(all: impl Iterator<Item = f64>) -> Scale {
        Scale::of(all.chain([0.0]), (FOOT, EDGE))
    }

    fn of(all: impl Iterator<Item = f64>, drawn: (f64, f64)) -> Scale {
        let none = (f64::INFINITY, f64::NEG_INFINITY);
        let (from, to) = all.fold(none, |(least, most), one| (least.min(one), most.max(one)));
        let known = from.is_finite() && to > from;
        let measured = if known { (from, to) } else { (from.min(0.0), from.max(1.0)) };
        Scale { measured, drawn }
    }

    /// Where it is drawn.
    pub fn at(self, one: f64) -> f64 {
        let (from, to) = self.measured;
        let share = (one - from) / (to - from);
        self.drawn.0 + share * (self.drawn.1 - self.drawn.0)
    }

    /// The ends of what is measured, where there is anything: the least, the greatest.
    pub fn ends(self) -> (f64, f64) {
        self.measured
    }
}

/// The frame of a drawing; `what` is said to whoever can't see it.
pub fn drawing(what: &str, inside: &Markup) -> Markup {
    html! {
        svg.drawing viewBox=(format!("0 0 {WIDE} {HIGH}")) role="img" aria-label=(what) {
            line.foot x1=(LEFT - EDGE) x2=(WIDE) y1=(FOOT) y2=(FOOT) {}
            (inside)
        }
    }
}

/// A line through points.
pub fn line(points: &[(f64, f64)]) -> Markup {
    html! { polyline.line points=(joined(points.iter().copied())) {} }
}

/// The room between two lines.
pub fn band(upper: &[(f64, f64)], lower: &[(f64, f64)]) -> Markup {
    html! { polygon.band points=(joined(upper.iter().copied().chain(lower.iter().rev().copied()))) {} }
}

/// A level right across.
pub fn level(at: f64) -> Markup {
    html! { line.level x1=(LEFT - EDGE) x2=(WIDE) y1=(figure(at)) y2=(figure(at)) {} }
}

/// A dot; hollow for what was not so good.
pub fn dot((x, y): (f64, f64), hollow: bool) -> Markup {
    html! { circle.dot.hollow[hollow] cx=(figure(x)) cy=(figure(y)) r="6" {} }
}

/// A sign over a dot.
pub fn over((x, y): (f64, f64), sign: &str) -> Markup {
    html! { text.sign x=(figure(x)) y=(figure((y - EDGE).max(EDGE))) text-anchor="middle" { (sign) } }
}

/// What is written at the left edge, at that height.
pub fn at_left(y: f64, text: &str) -> Markup {
    html! { text x=(LEFT - EDGE - 4.0) y=(figure(y + 5.0)) text-anchor="end" { (text) } }
}

/// What is written below: at the beginning and at the end.
pub fn below(from: &str, to: &str) -> Markup {
    html! {
        text x=(LEFT) y=(HIGH - 2.0) { (from) }
        text x=(WIDE - 2.0) y=(HIGH - 2.0) text-anchor="end" { (to) }
    }
}

/// A bar from the foot up to `top`, one of so many.
pub fn bar(number: usize, of: usize, top: f64) -> Markup {
    let (from, each) = column(number, of);
    html! {
        rect.bar x=(figure(from + each * 0.15)) width=(figure(each * 0.7)) y=(figure(top))
            height=(figure((FOOT - top).max(0.0))) {}
    }
}

/// A mark across one of so many.
pub fn mark(number: usize, of: usize, at: f64) -> Markup {
    let (from, each) = column(number, of);
    html! { line.mark-at x1=(figure(from)) x2=(figure(from + each)) y1=(figure(at)) y2=(figure(at)) {} }
}

/// Signs on one of so many, at the foot.
pub fn signs(number: usize, of: usize, signs: &str) -> Markup {
    let (from, each) = column(number, of);
    html! {
        @if !signs.is_empty() {
            rect.under x=(figure(from)) width=(figure(each)) y=(figure(FOOT - 22.0)) height="21" {}
            text.sign x=(figure(from + each / 2.0)) y=(figure(FOOT - 6.0)) text-anchor="middle" { (signs) }
        }
    }
}

/// Where one of so many columns begins, and how wide it is.
fn column(number: usize, of: usize) -> (f64, f64) {
    let each = (WIDE - EDGE - LEFT) / of.max(1) as f64;
    (LEFT + each * number as f64, each)
}

fn joined(points: impl Iterator<Item = (f64, f64)>) -> String {
    points.map(|(x, y)| format!("{},{}", figure(x), figure(y))).collect::<Vec<_>>().join(" ")
}

fn figure(one: f64) -> String {
    format!("{one:.1}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fastest_is_on_top_and_the_most_is_high() {
        let times = || [96.0, 90.0, 93.0].into_iter();
        let down = Scale::fastest_on_top(times());
        assert_eq!([90.0, 93.0, 96.0].map(|time| down.at(time)), [12.0, 68.0, 124.0]);
        let up = Scale::upwards([0.0, 2000.0].into_iter());
        assert_eq!([0.0, 1000.0, 2000.0].map(|far| up.at(far)), [136.0, 74.0, 12.0]);
        // One point, and none, are drawn somewhere.
        assert!(Scale::across(std::iter::once(5.0)).at(5.0).is_finite());
        assert!(Scale::across(std::iter::empty()).at(0.0).is_finite());
    }
}
