//! The table of base times: which time is worth 1000 points in which event.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use jiff::civil::Date;
use serde::Deserialize;
use toml::Spanned;

use crate::swim::Category;
use crate::units::{Centis, Course, Distance, Stroke};

/// A race for one category in one kind of pool.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Event {
    /// Women's or men's.
    pub category: Category,
    /// The pool.
    pub course: Course,
    /// The stroke.
    pub stroke: Stroke,
    /// How far, in the course's unit.
    pub amount: u32,
}

/// Base times with the year and the source they are good for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BaseTimes {
    /// The year of the table.
    pub year: i16,
    /// The day whose records it holds.
    pub as_of: Date,
    /// Where the times come from, to be shown with the points.
    pub source: String,
    times: BTreeMap<Event, Centis>,
}

/// A table that can't be used: where and why.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("base times, line {line}: {reason}")]
pub struct BadTable {
    /// The line, counted from 1.
    pub line: usize,
    /// What is wrong there.
    pub reason: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    year: Spanned<i16>,
    as_of: Spanned<String>,
    source: Spanned<String>,
    base: Vec<Spanned<Row>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    category: Category,
    course: Course,
    distance: u32,
    stroke: Stroke,
    time: Spanned<String>,
}

static SHIPPED: LazyLock<BaseTimes> = LazyLock::new(|| {
    #[expect(clippy::expect_used, reason = "a constant of the build, read by a test")]
    BaseTimes::read(include_str!("base_times.toml")).expect("the shipped table is well formed")
});

impl BaseTimes {
    /// The table that comes with the program.
    pub fn shipped() -> &'static BaseTimes {
        &SHIPPED
    }

    /// Reads a table from TOML: `year`, `as_of` (a date in quotes), `source`
    /// and one `[[base]]` row an event, or an array of inline rows.
    ///
    /// # Errors
    /// [`BadTable`] with the line for what is no TOML, lacks or has too many
    /// fields, names no event or time, times an event at 0.3 m/s or slower or
    /// 2.7 m/s or faster, or gives one event twice.
    pub fn read(text: &str) -> Result<BaseTimes, BadTable> {
        let bad = |at: usize, reason: String| BadTable { line: line_of(text, at), reason };
        let file: File = toml::from_str(text).map_err(|error| {
            bad(error.span().map_or(0, |span| span.start), error.message().to_owned())
        })?;
        let as_of: Date = file.as_of.get_ref().parse().map_err(|_| {
            bad(file.as_of.span().start, format!("`{}` is no date", file.as_of.get_ref()))
        })?;
        if file.source.get_ref().trim().is_empty() {
            return Err(bad(file.source.span().start, "the source is empty".to_owned()));
        }
        if !(1990..=2100).contains(file.year.get_ref()) {
            let reason = format!("{} is no year between 1990 and 2100", file.year.get_ref());
            return Err(bad(file.year.span().start, reason));
        }
        let mut times = BTreeMap::new();
        for row in &file.base {
            let (event, time) = read_row(row.get_ref())
                .map_err(|(at, reason)| bad(at.unwrap_or(row.span().start), reason))?;
            if times.insert(event, time).is_some() {
                let reason = format!(
                    "{}{} {} is given twice",
                    event.amount,
                    event.course.unit(),
                    event.stroke
                );
                return Err(bad(row.span().start, reason));
            }
        }
        Ok(BaseTimes {
            year: file.year.into_inner(),
            as_of,
            source: file.source.into_inner(),
            times,
        })
    }

    /// The base time of an event; `None` where the table has none.
    pub fn base(&self, event: Event) -> Option<Centis> {
        self.times.get(&event).copied()
    }

    /// Points for `time` in `event`; `None` where the table has no base.
    pub fn points(&self, event: Event, time: Centis) -> Option<u32> {
        self.base(event).map(|base| super::points(base, time))
    }

    /// How many events it has.
    pub fn events(&self) -> usize {
        self.times.len()
    }
}

/// The event and time of one row, or what is wrong and, if known, at which byte.
fn read_row(row: &Row) -> Result<(Event, Centis), (Option<usize>, String)> {
    let distance = Distance::new(row.distance, row.course.unit())
        .map_err(|error| (None, error.to_string()))?;
    if row.course.length().is_none() || !distance.fits(row.course) {
        return Err((None, format!("{distance} is no race in a {} pool", row.course)));
    }
    if !matches!(
        row.stroke,
        Stroke::Free | Stroke::Back | Stroke::Breast | Stroke::Fly | Stroke::Im
    ) {
        return Err((None, format!("`{}` is no stroke that is raced", row.stroke)));
    }
    let at = Some(row.time.span().start);
    let time: Centis = row.time.get_ref().parse().map_err(|error| (at, format!("{error}")))?;
    let speed = distance.metres().get() / time.seconds();
    if !(0.3..2.7).contains(&speed) {
        return Err((at, format!("{distance} in {time} can't be a record")));
    }
    let Row { category, course, distance: amount, stroke, .. } = *row;
    Ok((Event { category, course, stroke, amount }, time))
}

fn line_of(text: &str, at: usize) -> usize {
    text.bytes().take(at).filter(|&byte| byte == b'\n').count() + 1
}
