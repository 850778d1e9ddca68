//! The rows of the tables, by the outside contract's field names; the same rows
//! are lines of the JSON.

use std::collections::BTreeSet;

use jiff::Timestamp;
use jiff::civil::Date;
use serde::Serialize;

use crate::history::{Presence, Swimmer};
use crate::units::{Centis, Start};

/// The columns of [`SetRow`].
pub const SETS: &[&str] = &[
    "swimmer",
    "on",
    "count",
    "distance",
    "unit",
    "stroke",
    "target_s",
    "send_off_s",
    "rest_s",
    "held",
    "times_s",
];
/// The columns of [`SessionRow`].
pub const SESSIONS: &[&str] =
    &["swimmer", "on", "in_water", "distance", "unit", "duration_s", "rpe", "presumed"];
/// The columns of [`AttendanceRow`].
pub const ATTENDANCE: &[&str] = &["swimmer", "on", "said", "late_min", "seen"];

/// A swimmer: the columns are those that can be brought back.
#[derive(Debug, Serialize)]
pub struct MemberRow<'a> {
    swimmer: &'a str,
    joined_on: Date,
    guest: bool,
}

/// A swimmer's own row.
pub fn member(swimmer: &Swimmer) -> MemberRow<'_> {
    MemberRow {
        swimmer: swimmer.name.as_str(),
        joined_on: swimmer.joined_on,
        guest: swimmer.guest.is_some(),
    }
}

/// A timed test: the columns are those that can be brought back.
#[derive(Debug, Serialize)]
pub struct TestRow<'a> {
    swimmer: &'a str,
    on: Date,
    distance: u32,
    unit: &'static str,
    course: &'static str,
    stroke: &'static str,
    time_s: f64,
    start: Option<Start>,
    meet: bool,
    /// Separated by spaces.
    splits_s: String,
}

/// A repeat set with its times.
#[derive(Debug, Serialize)]
pub struct SetRow<'a> {
    swimmer: &'a str,
    on: Date,
    count: u16,
    distance: u32,
    unit: &'static str,
    stroke: &'static str,
    target_s: Option<f64>,
    send_off_s: Option<u32>,
    rest_s: Option<f64>,
    held: u16,
    /// Separated by spaces, `x` for a missed one.
    times_s: String,
}

/// A session, or training out of the water.
#[derive(Debug, Serialize)]
pub struct SessionRow<'a> {
    swimmer: &'a str,
    on: Date,
    in_water: bool,
    distance: Option<u32>,
    unit: Option<&'static str>,
    duration_s: Option<u32>,
    rpe: Option<f64>,
    /// Not reported: they were seen and the set was known.
    presumed: bool,
}

/// A night somebody spoke of, or was looked for on.
#[derive(Debug, Serialize)]
pub struct AttendanceRow<'a> {
    swimmer: &'a str,
    on: Date,
    said: Option<&'static str>,
    late_min: Option<u16>,
    seen: Option<&'static str>,
}

/// Their tests, oldest first.
pub fn tests(swimmer: &Swimmer, now: Timestamp) -> impl Iterator<Item = TestRow<'_>> {
    swimmer.tests.as_of(now).map(|kept| {
        let (test, trial) = (&kept.what, &kept.what.trial);
        TestRow {
            swimmer: swimmer.name.as_str(),
            on: trial.on,
            distance: trial.distance.amount(),
            unit: trial.distance.unit().name(),
            course: trial.course.name(),
            stroke: trial.stroke.name(),
            time_s: trial.time.seconds(),
            start: test.start,
            meet: trial.meet,
            splits_s: joined(test.splits.iter().map(|time| Some(*time))),
        }
    })
}

/// Their sets, oldest first.
pub fn sets(swimmer: &Swimmer, now: Timestamp) -> impl Iterator<Item = SetRow<'_>> {
    swimmer.sets.as_of(now).map(|kept| {
        let (swum, set) = (&kept.what, &kept.what.set);
        SetRow {
            swimmer: swimmer.name.as_str(),
            on: swum.on,
            count: set.count,
            distance: set.distance.amount(),
            unit: set.distance.unit().name(),
            stroke: set.stroke.name(),
            target_s: set.target.map(Centis::seconds),
            send_off_s: set.send_off.map(|on| on.seconds()),
            rest_s: set.rest.map(Centis::seconds),
            held: swum.held,
            times_s: joined(swum.times.iter().copied()),
        }
    })
}

/// Their sessions by day, in the water and out of it.
pub fn sessions(swimmer: &Swimmer, now: Timestamp) -> Vec<SessionRow<'_>> {
    let name = swimmer.name.as_str();
    let seconds = |minutes: Option<u16>| minutes.map(|minutes| u32::from(minutes) * 60);
    let swum = swimmer.swims.as_of(now).map(|kept| &kept.what).map(|swum| SessionRow {
        swimmer: name,
        on: swum.on,
        in_water: true,
        distance: swum.distance.map(|distance| distance.amount()),
        unit: swum.distance.map(|distance| distance.unit().name()),
        duration_s: seconds(swum.minutes),
        rpe: swum.rpe.map(|rpe| rpe.value()),
        presumed: swum.presumed,
    });
    let other = swimmer.other.as_of(now).map(|kept| &kept.what).map(|other| SessionRow {
        swimmer: name,
        on: other.on,
        in_water: false,
        distance: None,
        unit: None,
        duration_s: seconds(other.minutes),
        rpe: other.rpe.map(|rpe| rpe.value()),
        presumed: false,
    });
    let mut all: Vec<SessionRow<'_>> = swum.chain(other).collect();
    all.sort_by_key(|row| row.on);
    all
}

/// A row for each night on which they said or were anything; why is not in it.
pub fn attendance(swimmer: &Swimmer, now: Timestamp) -> Vec<AttendanceRow<'_>> {
    let said = swimmer.attendance.as_of(now).map(|kept| kept.on);
    let seen = swimmer.presence.as_of(now).map(|kept| kept.on);
    let nights: BTreeSet<Date> = said.chain(seen).collect();
    let row = |on: Date| {
        let said = swimmer.says_of(on, now);
        AttendanceRow {
            swimmer: swimmer.name.as_str(),
            on,
            said: said.map(|said| if said.coming { "in" } else { "out" }),
            late_min: said.and_then(|said| said.late_min),
            seen: swimmer.seen_on(on, now).map(|seen| match seen {
                Presence::Here => "here",
                Presence::Absent => "absent",
            }),
        }
    };
    nights.into_iter().map(row).collect()
}

/// `48 48.5 x 49.25`
fn joined(times: impl Iterator<Item = Option<Centis>>) -> String {
    let word =
        |time: Option<Centis>| time.map_or("x".to_owned(), |time| time.seconds().to_string());
    times.map(word).collect::<Vec<_>>().join(" ")
}
