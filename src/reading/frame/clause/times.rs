//! The times that a stretch names, and whether somebody may swim them.

use super::Clause;
use crate::message::TypedTime;
use crate::reading::piece::{Figure, Item};
use crate::reading::situation::Known;
use crate::units::{Centis, Course, Stroke};

impl Clause<'_, '_> {
    /// `1 42`: minutes, and behind them seconds in two digits.
    pub fn minutes_apart(&self, at: usize) -> Option<Figure> {
        match (self.at(at)?.item, self.at(at + 1)?.item) {
            (
                Item::Figure(Figure::Whole { value: minutes @ 1..=9, places: 0..=1 }),
                Item::Figure(Figure::Whole { value: seconds @ 0..=59, places: 2 }),
            ) => Some(Figure::Whole { value: minutes * 100 + seconds, places: 3 }),
            _ => None,
        }
    }

    /// The time that a figure is over a distance, by the swimmer's record if there
    /// is one, else by what anybody swims.
    pub fn time(
        &self,
        figure: Figure,
        distance: u32,
        stroke: Stroke,
        of: Option<&Known>,
    ) -> Option<Centis> {
        let expected = of.and_then(|known| known.expected(distance, stroke));
        let times = figure.times();
        let fits = |time: &Centis| fits(*time, distance, self.sit.course, stroke, expected);
        times.iter().copied().find(fits)
    }
}

/// True for a time that somebody may swim over a distance: within what the record
/// lets expect, or else between 0.3 and 2.4 m/s; kick and drill down to 0.15 m/s.
pub fn fits(
    time: Centis,
    distance: u32,
    course: Course,
    stroke: Stroke,
    expected: Option<f64>,
) -> bool {
    if let Some(expected) = expected {
        let share = time.seconds() / expected;
        let slowest = if matches!(stroke, Stroke::Kick | Stroke::Drill) { 2.2 } else { 1.75 };
        return (0.62..=slowest).contains(&share);
    }
    let metres = f64::from(distance) * course.unit().in_metres();
    let speed = metres / time.seconds();
    let slowest = if matches!(stroke, Stroke::Kick | Stroke::Drill) { 0.15 } else { 0.3 };
    (slowest..=if distance <= 50 { 2.7 } else { 2.4 }).contains(&speed)
}

/// A time settled, with whether tenths were given.
pub fn typed(time: Centis, tenths: bool) -> TypedTime {
    TypedTime { readings: vec![time], tenths: tenths || !time.is_whole_seconds() }
}
