//! A season of one virtual swimmer: planned week by week, with what they report
//! heard, or with nothing heard.

use jiff::ToSpan;
use jiff::civil::Date;

use super::record::Record;
use super::report::{Dated, Report};
use super::swimmer::Swimmer;
use super::watch::Broken;
use crate::coaching::{Rulebook, SessionWish, WeekWish, next_session_by, week_by};
use crate::units::Distance;

/// Whether what they report changes what comes next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Plan {
    /// Tests, sets, pain, illness and absence are heard.
    Adaptive,
    /// The same rules, but nothing after the first test is heard: what a sheet
    /// of paper written at the start would say.
    Fixed,
}

/// What became of a season.
#[derive(Debug, Clone, PartialEq)]
pub struct Season {
    /// Speed gained by the end, rested, in percent.
    pub gain_percent: f64,
    /// Share of the planned sessions that were swum.
    pub adherence: f64,
    /// Days with pain.
    pub sore_days: u32,
    /// Days with illness.
    pub ill_days: u32,
    /// Rules found broken in the plans.
    pub broken: Broken,
    /// Every text, dated.
    pub texts: Vec<Dated>,
}

/// Simulates `weeks` weeks from `from` on, by the numbers in force.
pub fn season(book: &Rulebook, mut swimmer: Swimmer, from: Date, weeks: u16, plan: Plan) -> Season {
    let mut record = Record::of(&swimmer, from);
    let mut texts = Vec::new();
    let mut broken = Broken::default();
    let (mut planned, mut swum, mut sore_days, mut ill_days) = (0u32, 0u32, 0, 0);
    let say = |texts: &mut Vec<Dated>, on: Date, report: &Report| {
        texts.push(Dated { on, report: report.clone() });
    };

    // The day before the first week: the first test.
    let unit = swimmer.course.unit();
    if let Some(report) = Distance::new(200, unit).ok().and_then(|d| swimmer.test(d)) {
        record.heard(from, None, &report);
        say(&mut texts, from, &report);
    }
    for number in 0..weeks {
        let starts = from.saturating_add((1 + 7 * i64::from(number)).days());
        let Ok(week) = week_by(book, record.on(starts), &WeekWish::default()) else { continue };
        broken.look_at(record.on(starts), &week);
        let planned_sore = record.something_open();
        record.planned(&week);
        for ahead in 0..7 {
            let day = starts.saturating_add(ahead.days());
            let today = week.sessions.iter().find(|session| session.on == day);
            if let Some(session) = today {
                planned += 1;
                if plan == Plan::Fixed {
                    record.taken_as_swum(session);
                }
                // What came up, or went, since the plan was made is asked about.
                let changed = planned_sore || record.something_open();
                let instead = match plan == Plan::Adaptive && changed {
                    true => next_session_by(book, record.on(day), &SessionWish::default()).ok(),
                    false => None,
                };
                let session = instead.as_ref().unwrap_or(session);
                if session.on == day && swimmer.comes() {
                    swum += 1;
                    for report in swimmer.swim(session).reports {
                        match plan {
                            Plan::Adaptive => record.heard(day, Some(session), &report),
                            Plan::Fixed => record.ignored(day, &report),
                        }
                        say(&mut texts, day, &report);
                    }
                } else {
                    say(&mut texts, day, &Report::Missed);
                }
            }
            sore_days += u32::from(swimmer.is_sore());
            ill_days += u32::from(swimmer.is_ill());
            for report in swimmer.end_day(day) {
                if plan == Plan::Adaptive {
                    record.heard(day, None, &report);
                }
                say(&mut texts, day, &report);
            }
        }
    }
    Season {
        gain_percent: swimmer.gain_percent(),
        adherence: f64::from(swum) / f64::from(planned.max(1)),
        sore_days,
        ill_days,
        broken,
        texts,
    }
}
