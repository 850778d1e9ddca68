//! How it is going for one swimmer: drawings, each with its figures in a table.

use jiff::civil::Date;
use maud::{Markup, html};

use super::draw::{Scale, at_left, band, bar, below, dot, drawing, level, line, mark, over, signs};
use super::last_tests::sign;
use crate::coaching::{self, SetSwum};
use crate::desk::board::{DaySeen, One, TestSeen, WeekSeen};
use crate::reply::{CautionKind, Label, Trend, Voice, repeat_shorthand, shown as clocked};
use crate::swim::critical_speed::PaceBand;
use crate::swim::load::Load;
use crate::units::{Centis, Pace};

/// The session that comes next, as it was told, with the usual word where it is hard.
pub fn next(voice: Voice, one: &One) -> Markup {
    let Some(session) = &one.next else {
        return html! { p.calm { (voice.label(Label::NoNext)) } };
    };
    let caution = coaching::is_hard(session).then(|| voice.caution_with(CautionKind::Effort));
    html! {
        p.big {
            (voice.day(session.on)) ": " (session.amount()) " " (session.unit.name())
            ", " (voice.title(session.purpose))
        }
        @for line in caution.iter().flatten() { p.soft { (line) } }
        ul.blocks { @for block in &session.blocks { li { (voice.block_line(block)) } } }
    }
}

/// Critical pace with its band after each test, and each test in figures.
pub fn tests(voice: Voice, tests: &[TestSeen]) -> Markup {
    html! {
        @if tests.is_empty() { p.calm { (voice.label(Label::NoTest)) } }
        @if tests.iter().any(|seen| seen.critical.is_some()) {
            p.soft { (voice.label(Label::CriticalPace)) }
            (paces(voice, tests))
        }
        @if !tests.is_empty() {
            table {
                thead { tr {
                    (columns(voice, &[Label::Day, Label::Test, Label::Verdict, Label::Pace]))
                } }
                tbody { @for seen in tests.iter().rev() { tr {
                    th scope="row" { (voice.short_day(seen.trial.on)) }
                    td { b { (voice.trial(&seen.trial)) } }
                    td { span aria-hidden="true" { (sign(seen.trend)) } " " (voice.verdict(seen.trend)) }
                    td { @if let Some(band) = &seen.critical { (banded(band)) } }
                } } }
            }
        }
    }
}

fn paces(voice: Voice, tests: &[TestSeen]) -> Markup {
    let known: Vec<(&TestSeen, &PaceBand)> =
        tests.iter().filter_map(|seen| Some((seen, seen.critical.as_ref()?))).collect();
    let day = |on: Date| on.duration_since(Date::ZERO).as_hours() as f64;
    let across = Scale::across(known.iter().map(|(seen, _)| day(seen.trial.on)));
    let all = known.iter().flat_map(|(_, band)| [band.low, band.pace, band.high]);
    let down = Scale::fastest_on_top(all.map(Pace::per_100_s));
    let through = |pace: fn(&PaceBand) -> Pace| -> Vec<(f64, f64)> {
        let point = |(seen, band): &(&TestSeen, &PaceBand)| {
            (across.at(day(seen.trial.on)), down.at(pace(band).per_100_s()))
        };
        known.iter().map(point).collect()
    };
    let middle = through(|band| band.pace);
    let real = |trend: Trend| matches!(trend, Trend::Up | Trend::Down);
    let (first, last) = (known.first(), known.last());
    let inside = html! {
        (band(&through(|band| band.low), &through(|band| band.high)))
        (line(&middle))
        @for (point, (seen, _)) in middle.iter().zip(&known) {
            (dot(*point, false))
            @if real(seen.trend) { (over(*point, sign(seen.trend))) }
        }
        (ends_at_left(down))
        @if let (Some((first, _)), Some((last, _))) = (first, last) {
            (below(&voice.short_day(first.trial.on), &voice.short_day(last.trial.on)))
        }
    };
    drawing(voice.label(Label::CriticalPace), &inside)
}

/// The fastest and the slowest time that is drawn.
fn ends_at_left(down: Scale) -> Markup {
    let (fastest, slowest) = down.ends();
    html! {
        (at_left(down.at(fastest), &short(fastest)))
        (at_left(down.at(slowest), &short(slowest)))
    }
}

/// `1:49`
fn short(seconds: f64) -> String {
    Centis::from_seconds(seconds).map(|time| time.to_second().short()).unwrap_or_default()
}

/// `1:49 (1:43-1:57)`
fn banded(band: &PaceBand) -> Markup {
    let short = |pace: Pace| short(pace.per_100_s());
    html! {
        (short(band.pace)) " "
        span.marked { "(" (short(band.low)) "-" (short(band.high)) ")" }
    }
}

/// A week's metres against its plan, its load, and what went wrong in it.
pub fn weeks(voice: Voice, one: &One) -> Markup {
    let weeks = &one.weeks;
    let all = weeks.iter().flat_map(|week| [week.amount, week.planned.unwrap_or_default()]);
    let up = Scale::upwards(all.map(f64::from));
    let (_, most) = up.ends();
    let days = weeks.first().zip(weeks.last());
    let inside = html! {
        @for (at, week) in weeks.iter().enumerate() {
            (bar(at, weeks.len(), up.at(f64::from(week.amount))))
            @if let Some(planned) = week.planned { (mark(at, weeks.len(), up.at(f64::from(planned)))) }
            (signs(at, weeks.len(), &marks(week).map(|(sign, _)| sign).collect::<String>()))
        }
        (at_left(up.at(most), &format!("{most:.0}")))
        @if let Some((first, last)) = days {
            (below(&voice.short_day(first.from), &voice.short_day(last.from)))
        }
    };
    html! {
        (drawing(voice.label(Label::ByWeek), &inside))
        table {
            thead { tr {
                (columns(voice, &[Label::WeekFrom, Label::Swum, Label::Planned, Label::Load, Label::Marks]))
            } }
            tbody { @for week in weeks.iter().rev() { tr {
                th scope="row" { (voice.short_day(week.from)) }
                td { b { (week.amount) } "\u{a0}" (one.unit.name()) }
                td { @if let Some(planned) = week.planned { (planned) } }
                td { @if week.load > Load::REST { (format!("{:.0}", week.load.units())) } }
                td { @for (sign, label) in marks(week) { span.marked { (sign) " " (voice.label(label)) } " " } }
            } } }
        }
    }
}

/// What went wrong in a week: its sign in the drawing and its word in the table.
fn marks(week: &WeekSeen) -> impl Iterator<Item = (&'static str, Label)> {
    let all = [
        (week.pain, ("!", Label::Pain)),
        (week.ill, ("+", Label::Ill)),
        (week.away, ("-", Label::Away)),
    ];
    all.into_iter().filter(|(is, _)| *is).map(|(_, mark)| mark)
}

/// What was offered and what was done, by day.
pub fn days(voice: Voice, one: &One) -> Markup {
    let offered = |day: &DaySeen| {
        let (purpose, far) = day.offered?;
        Some(format!("{far}\u{a0}{}, {}", one.unit.name(), voice.title(purpose)))
    };
    html! {
        @if one.days.is_empty() { p.calm { (voice.label(Label::NoDays)) } }
        @if !one.days.is_empty() {
            table {
                thead { tr { (columns(voice, &[Label::Day, Label::Offered, Label::Swum])) } }
                tbody { @for day in &one.days { tr {
                    th scope="row" { (voice.short_day(day.on)) }
                    td { (offered(day).unwrap_or_default()) }
                    td {
                        @if let Some(done) = day.done {
                            b { (done) } "\u{a0}" (one.unit.name())
                            @if day.presumed { " " span.soft { (voice.label(Label::Presumed)) } }
                        }
                    }
                } } }
            }
        }
    }
}

/// A set's repeats against the time to hold, so that a fade is seen.
pub fn repeats(voice: Voice, swum: &SetSwum) -> Markup {
    let Some(target) = swum.set.target else { return html! {} };
    let id = format!("set-{}-{}", swum.on, swum.set.distance.amount());
    let times = || swum.times.iter().flatten().map(|time| time.seconds());
    let down = Scale::fastest_on_top(times().chain([target.seconds()]));
    let across = Scale::across([0.0, swum.times.len().saturating_sub(1).max(1) as f64].into_iter());
    let points = swum.times.iter().enumerate().filter_map(|(at, time)| {
        Some(((across.at(at as f64), down.at((*time)?.seconds())), (*time)? > target))
    });
    let points: Vec<((f64, f64), bool)> = points.collect();
    let what = format!("{}, {}", repeat_shorthand(&swum.set, voice), voice.short_day(swum.on));
    let slowest = times().fold(target.seconds(), f64::max);
    let inside = html! {
        (level(down.at(target.seconds())))
        (at_left(down.at(target.seconds()), &clocked(target)))
        @if slowest > target.seconds() + 0.5 { (at_left(down.at(slowest), &short(slowest))) }
        (line(&points.iter().map(|(point, _)| *point).collect::<Vec<_>>()))
        @for (point, slower) in &points { (dot(*point, *slower)) }
        (below("1", &swum.times.len().to_string()))
    };
    html! {
        section.repeats aria-labelledby=(id) {
            h2 id=(id) { (what) }
            p.soft { (voice.held_of(usize::from(swum.held), swum.times.len())) }
            (drawing(&what, &inside))
            table {
                thead { tr { (columns(voice, &[Label::Number, Label::Time, Label::Beside])) } }
                tbody { @for (at, time) in swum.times.iter().enumerate() { tr {
                    th scope="row" { (at + 1) }
                    td { b { @match time { Some(time) => (clocked(*time)), None => "x" } } }
                    td { @if let Some(time) = time { (format!("{:+.1}", time.seconds() - target.seconds())) } }
                } } }
            }
        }
    }
}

fn columns(voice: Voice, labels: &[Label]) -> Markup {
    html! { @for label in labels { th scope="col" { (voice.label(*label)) } } }
}
