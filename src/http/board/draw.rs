//! Drawings, as SVG: lines, bands, dots and bars in the page's own colours. What
//! they show stands in figures beside them.

use maud::{Markup, html};

/// The size of a drawing, in its own units, and the room at its edges that a dot
/// needs.
const WIDE: f64 = 600.0;
const HIGH: f64 = 160.0;
const EDGE: f64 = 10.0;

/// From what is measured to where it is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Scale {
    from: f64,
    to: f64,
    long: f64,
    flipped: bool,
}

impl Scale {
    /// Across, from the least to the greatest of `all`.
    pub fn across(all: impl Iterator<Item = f64>) -> Scale {
        Scale::of(all, WIDE, false)
    }

    /// Downwards: the least, which is the fastest, on top.
    pub fn fastest_on_top(all: impl Iterator<Item = f64>) -> Scale {
        Scale::of(all, HIGH, false)
    }

    /// Upwards from nought.
    pub fn upwards(all: impl Iterator<Item = f64>) -> Scale {
        Scale::of(all.chain([0.0]), HIGH, true)
    }

    fn of(all: impl Iterator<Item = f64>, long: f64, flipped: bool) -> Scale {
        let none = (f64::INFINITY, f64::NEG_INFINITY);
        let (from, to) = all.fold(none, |(least, most), one| (least.min(one), most.max(one)));
        let known = from.is_finite() && to > from;
        let (from, to) = if known { (from, to) } else { (from.min(0.0), from.max(1.0)) };
        Scale { from, to, long, flipped }
    }

    /// Where it is drawn.
    pub fn at(self, one: f64) -> f64 {
        let share = (one - self.from) / (self.to - self.from);
        let share = if self.flipped { 1.0 - share } else { share };
        EDGE + share * (self.long - 2.0 * EDGE)
    }
}

/// The frame of a drawing; `what` is said to whoever can't see it.
pub fn drawing(what: &str, inside: &Markup) -> Markup {
    html! {
        svg.drawing viewBox=(format!("0 0 {WIDE} {HIGH}")) role="img" aria-label=(what) { (inside) }
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
    html! { line.level x1="0" x2=(WIDE) y1=(figure(at)) y2=(figure(at)) {} }
}

/// A dot; hollow for what was not so good.
pub fn dot((x, y): (f64, f64), hollow: bool) -> Markup {
    html! { circle.dot.hollow[hollow] cx=(figure(x)) cy=(figure(y)) r="7" {} }
}

/// A bar from the foot up to `top`, one of so many.
pub fn bar(number: usize, of: usize, top: f64) -> Markup {
    let each = (WIDE - 2.0 * EDGE) / of.max(1) as f64;
    let from = EDGE + each * number as f64;
    html! {
        rect.bar x=(figure(from + each * 0.15)) width=(figure(each * 0.7)) y=(figure(top))
            height=(figure((HIGH - EDGE - top).max(0.0))) {}
    }
}

/// A mark across one of so many.
pub fn mark(number: usize, of: usize, at: f64) -> Markup {
    let each = (WIDE - 2.0 * EDGE) / of.max(1) as f64;
    let from = EDGE + each * number as f64;
    html! { line.mark-at x1=(figure(from)) x2=(figure(from + each)) y1=(figure(at)) y2=(figure(at)) {} }
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
        assert_eq!([90.0, 93.0, 96.0].map(|time| down.at(time)), [10.0, 80.0, 150.0]);
        let up = Scale::upwards([0.0, 2000.0].into_iter());
        assert_eq!([0.0, 1000.0, 2000.0].map(|far| up.at(far)), [150.0, 80.0, 10.0]);
        // One point, and none, are drawn somewhere.
        assert!(Scale::across(std::iter::once(5.0)).at(5.0).is_finite());
        assert!(Scale::across(std::iter::empty()).at(0.0).is_finite());
    }
}
