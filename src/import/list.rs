//! The lists that may be brought, and what their columns say: by the names under which
//! we give them along.

use std::fmt::Display;
use std::str::FromStr;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::Read;
use super::table::{Cells, Columns, read};
use crate::message::Name;
use crate::units::{Centis, Course, Distance, Start, Stroke, Unit};

/// A list that may be brought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum List {
    /// Timed tests of swimmers of the squad.
    Tests,
    /// Swimmers.
    Members,
}

/// There is no list of that name.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no list `{0}`; there are tests and members")]
pub struct NoSuchList(pub String);

impl FromStr for List {
    type Err = NoSuchList;

    fn from_str(name: &str) -> Result<List, NoSuchList> {
        match name {
            "tests" => Ok(List::Tests),
            "members" => Ok(List::Members),
            _ => Err(NoSuchList(name.to_owned())),
        }
    }
}

/// The columns of tests; those from `start` on may be left out.
pub const TESTS: &[&str] = &[
    "swimmer", "on", "distance", "unit", "course", "stroke", "time_s", "start", "meet", "splits_s",
];
/// The columns of members; those behind `swimmer` are read past: whoever is brought
/// joins the day they are, as a guest.
pub const MEMBERS: &[&str] = &["swimmer", "joined_on", "guest"];

/// A timed test as a line says it.
#[derive(Debug, Clone, PartialEq)]
pub struct TestBrought {
    /// Whose.
    pub swimmer: Name,
    /// The day.
    pub on: Date,
    /// How far.
    pub distance: Distance,
    /// Where.
    pub course: Course,
    /// Which stroke.
    pub stroke: Stroke,
    /// The time.
    pub time: Centis,
    /// How it began, where that is said.
    pub start: Option<Start>,
    /// At a meet.
    pub meet: bool,
    /// Its splits, where there are any.
    pub splits: Vec<Centis>,
}

/// A swimmer as a line says it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MemberBrought {
    /// Their handle.
    pub swimmer: Name,
}

/// Reads tests.
pub fn read_tests(text: &str) -> Read<TestBrought> {
    // Up to the time a table says nothing without them.
    read(text, &Columns { all: TESTS, needed: 7 }, test)
}

/// Reads members.
pub fn read_members(text: &str) -> Read<MemberBrought> {
    let columns = Columns { all: MEMBERS, needed: 1 };
    read(text, &columns, |cells| Some(MemberBrought { swimmer: cells.needs("swimmer", name)? }))
}

fn test(cells: &mut Cells<'_>) -> Option<TestBrought> {
    // Each is read before any is asked for, so that all that is wrong is told.
    let swimmer = cells.needs("swimmer", name);
    let on = cells.needs("on", |cell| {
        cell.parse::<Date>().map_err(|_| format!("`{cell}` is no day such as 2026-03-03"))
    });
    let amount = cells.needs("distance", |cell| {
        cell.parse::<u32>().map_err(|_| format!("`{cell}` is no whole number"))
    });
    let unit = cells.needs("unit", |cell| match cell {
        "m" => Ok(Unit::Metre),
        "yd" => Ok(Unit::Yard),
        _ => Err(format!("`{cell}` is neither m nor yd")),
    });
    let course = cells.needs("course", parsed::<Course>);
    let stroke = cells.needs("stroke", parsed::<Stroke>);
    let time = cells.needs("time_s", clocked);
    let start = cells.may("start", |cell| match cell {
        "push" => Ok(Start::Push),
        "dive" => Ok(Start::Dive),
        "water" => Ok(Start::Water),
        _ => Err(format!("`{cell}` is none of push, dive and water")),
    });
    let meet = cells.may("meet", |cell| match cell.to_lowercase().as_str() {
        "true" => Ok(true),
        "false" => Ok(false),
        _ => Err(format!("`{cell}` is neither true nor false")),
    });
    let splits = cells.may("splits_s", |cell| {
        cell.split_whitespace().map(clocked).collect::<Result<Vec<_>, _>>()
    });
    let distance = amount.zip(unit).zip(course).and_then(|((amount, unit), course)| {
        cells.needs("distance", |_| fits(amount, unit, course))
    });
    Some(TestBrought {
        swimmer: swimmer?,
        on: on?,
        distance: distance?,
        course: course?,
        stroke: stroke?,
        time: time?,
        start: start?,
        meet: meet?.unwrap_or_default(),
        splits: splits?.unwrap_or_default(),
    })
}

/// So far, in whole lengths of that pool and in its unit.
fn fits(amount: u32, unit: Unit, course: Course) -> Result<Distance, String> {
    if unit != course.unit() {
        return Err(format!("a pool of {course} is counted in {}", course.unit().name()));
    }
    let distance = Distance::new(amount, unit).map_err(|none| none.to_string())?;
    match distance.fits(course) {
        true => Ok(distance),
        false => Err(format!("{amount} is no number of whole lengths of {course}")),
    }
}

fn name(cell: &str) -> Result<Name, String> {
    Name::new(cell).map_err(|_| {
        format!("`{cell}` is no name: 2 to 20 letters, digits, - or _, a letter first")
    })
}

/// Seconds, or as a clock shows them; with a decimal comma too.
fn clocked(cell: &str) -> Result<Centis, String> {
    cell.replace(',', ".")
        .parse()
        .map_err(|_| format!("`{cell}` is no time such as 192.5 or 3:12.5"))
}

fn parsed<T: FromStr<Err: Display>>(cell: &str) -> Result<T, String> {
    cell.parse().map_err(|none: T::Err| none.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::Line;

    const HEADER: &str = "swimmer,on,distance,unit,course,stroke,time_s";

    fn faults(rows: &str) -> Vec<String> {
        read_tests(&format!("{HEADER}\n{rows}")).faults.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn a_line_is_read_in_any_order_and_as_spreadsheets_write_it() {
        let row = |text: &str| -> Vec<Line<TestBrought>> {
            let read = read_tests(text);
            assert!(read.faults.is_empty(), "{:?}", read.faults);
            read.rows
        };
        let plain = row(&format!("{HEADER}\r\nheron,2026-03-03,200,m,25m,free,192.5\r\n"));
        assert_eq!((plain[0].number, plain[0].says.time.hundredths()), (2, 19_250));
        let other = row("\u{feff}time_s;swimmer;stroke;course;unit;distance;on\n\
            3:12,5;heron;free;25m;m;200;2026-03-03\n;;;;;;\n");
        assert_eq!(plain[0].says, other[0].says);
        assert_eq!(other.len(), 1);
    }

    #[test]
    fn every_fault_is_told_with_its_place() {
        assert_eq!(
            faults(
                "heron,2026-03-03,200,m,25m,free,192.5\n\
                 2heron,3 March,210,m,25m,crawl,fast\n\
                 teal,2026-03-03,200,yd,25m,free,190\n\
                 wren,2026-03-03\n\
                 \"si,2026-03-03,200,m,25m,free,190\n"
            ),
            [
                "line 3, swimmer: `2heron` is no name: 2 to 20 letters, digits, - or _, a letter \
                 first",
                "line 3, on: `3 March` is no day such as 2026-03-03",
                "line 3, stroke: `crawl` is not a stroke",
                "line 3, time_s: `fast` is no time such as 192.5 or 3:12.5",
                "line 3, distance: 210 is no number of whole lengths of 25m",
                "line 4, distance: a pool of 25m is counted in m",
                "line 5: it has 2 cells, and there are 7 columns",
                "line 6: it has 1 cells, and there are 7 columns",
            ]
        );
        let columns = read_tests("swimmer,when,swimmer\n").faults;
        assert_eq!(columns.len(), 8, "{columns:?}");
        assert_eq!(
            columns[0].to_string().split(';').next(),
            Some("line 1, when: there is no such column")
        );
    }
}
