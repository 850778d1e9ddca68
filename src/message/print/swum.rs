//! What was swum, and what puts it right, in words that are read back the same.

use super::parts::{Words, course, equipment, is_bare, rating, start, sure};
use crate::message::{Done, Fix, LaneResults, Length, SetResult, Sport, Test, TimedTest};
use crate::units::{Centis, Unit};

pub(super) fn swum(test: &Test) -> Words {
    let splits = test.splits.iter().map(|split| sure(*split));
    Words::default()
        .and(test.distance)
        .maybe(test.stroke)
        .and("test")
        .maybe(is_bare(&test.time).then_some("took"))
        .and(&test.time)
        .maybe(test.course.map(course))
        .maybe(test.on.as_ref())
        .maybe(test.start.map(start))
        .maybe(test.meet.then_some("meet"))
        .maybe((!test.splits.is_empty()).then_some("splits"))
        .each(splits)
}

pub(super) fn swum_for(timed: &TimedTest) -> Words {
    Words::default()
        .and(lasting(timed.duration))
        .maybe(timed.stroke)
        .and("test")
        .and(timed.distance)
        .maybe(timed.course.map(course))
        .maybe(timed.on.as_ref())
}

pub(super) fn held(result: &SetResult) -> Words {
    let times = result.times.iter().map(|time| match time {
        Some(time) => time.to_string(),
        None => "x".to_owned(),
    });
    let made = result.made.map(|made| match result.of {
        Some(of) => format!("made {made}/{of}"),
        None => format!("made {made}"),
    });
    Words::of(&format!("{}x{}", result.count, result.distance))
        .each(result.equipment.iter().map(|kit| equipment(*kit)))
        .maybe(result.stroke)
        .maybe(result.send_off.map(|send_off| format!("on {}", sure(send_off.time()))))
        .maybe(result.rest.map(|rest| format!("rest {}", sure(rest))))
        .maybe(result.target.map(|target| format!("hold {}", sure(target))))
        .maybe((!result.times.is_empty()).then_some("held"))
        .each(times)
        .maybe(result.average.as_ref().map(|average| format!("avg {average}")))
        .maybe(made)
        .maybe(result.rpe.map(|rpe| format!("rpe {}", rating(rpe.tenths()))))
        .maybe(result.heart_rate.map(|beats| format!("hr {beats}")))
        .maybe(result.strokes.map(|strokes| format!("strokes {strokes}")))
        .maybe(result.on.as_ref())
}

pub(super) fn lane_results(results: &LaneResults) -> Words {
    let times = results.times.iter();
    Words::of(&format!("lane {}", results.lane))
        .maybe(results.distance.map(|distance| format!("{distance} test")))
        .each(times.map(|time| time.as_ref().map_or_else(|| "x".to_owned(), ToString::to_string)))
}

pub(super) fn done(done: &Done) -> Words {
    let verb = done.sport.map_or("done", |sport| match sport {
        Sport::Other => "other sport",
        known => known.word(),
    });
    Words::of(verb)
        .maybe(done.lengths.map(|lengths| format!("{lengths} lengths")))
        .each(apart(done.distance, done.duration.map(lasting)))
        .maybe(done.rpe.map(|rpe| format!("rpe {}", rating(rpe.tenths()))))
        .maybe(done.on.as_ref())
        .maybe(done.shortened.then_some("cut short"))
}

/// Minutes where they are whole, else minutes and seconds.
fn lasting(time: Centis) -> String {
    match time.hundredths() {
        whole if whole % 6000 == 0 && whole / 6000 < 1000 => format!("{}min", whole / 6000),
        _ => sure(time),
    }
}

/// A distance and a time so that they stay two: `3m 21s` would be one time.
pub fn apart(distance: Option<Length>, time: Option<String>) -> Vec<String> {
    let far = distance.map(|far| far.to_string());
    let in_metres = distance.is_some_and(|far| far.unit == Some(Unit::Metre));
    let order = if in_metres { [time, far] } else { [far, time] };
    order.into_iter().flatten().collect()
}

pub(super) fn fix(fix: &Fix) -> Words {
    if fix.start.is_some() || fix.meet {
        return Words::default().maybe(fix.start.map(start)).maybe(fix.meet.then_some("meet"));
    }
    Words::of("fix")
        .maybe(fix.was.as_ref().map(|name| format!("@{name}")))
        .maybe(fix.on.as_ref())
        .each(apart(fix.distance, fix.time.as_ref().map(ToString::to_string)))
        .maybe(fix.instead.as_ref().map(|wrong| format!("instead of {wrong}")))
}
