//! `GET /board/{token}/swimmer/{name}`: how it is going for one swimmer.

use axum::extract::rejection::PathRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::Response;
use maud::{Markup, html};

use super::draw::{Scale, band, bar, dot, drawing, level, line, mark};
use super::layout::{self, Again};
use super::serve::{answer, refused, shut};
use super::take;
use crate::coaching::SetSwum;
use crate::desk::board::{One, TestSeen, WeekSeen};
use crate::http::Problem;
use crate::http::router::Door;
use crate::message::Name;
use crate::reply::{Label, Voice, repeat_shorthand, shown as clocked, voice};
use crate::swim::critical_speed::PaceBand;
use crate::swim::load::Load;
use crate::units::{Centis, Pace};

/// Shows one swimmer's page to whoever has the squad's.
#[utoipa::path(get, path = "/board/{token}/swimmer/{name}", tag = "operations",
    params(("token" = String, Path, description = "What the text `board` was answered with"),
        ("name" = String, Path, description = "The swimmer's handle")),
    responses(
        (status = 200, description = "The page", body = String, content_type = "text/html"),
        (status = 404, description = "There is no such swimmer, or the page is shut",
            body = String, content_type = "text/html"),
        (status = 503, description = "It can't be shown now", body = String,
            content_type = "text/html"),
    ))]
pub async fn swimmer(
    State(door): State<Door>,
    path: Result<Path<(String, String)>, PathRejection>,
) -> Response {
    let Ok(Path((token, name))) = path else { return shut() };
    let Ok(name) = Name::new(&name) else { return shut() };
    let seen = door.reception.board_of_one(token.clone(), Some(name)).await;
    shown(seen, &token, Whose::AnyOfTheSquad)
}

/// Shows a swimmer their own page.
#[utoipa::path(get, path = "/me/{token}", tag = "operations",
    params(("token" = String, Path, description = "What the text `trend` was answered with")),
    responses(
        (status = 200, description = "The page", body = String, content_type = "text/html"),
        (status = 404, description = "It is shut, or never was", body = String,
            content_type = "text/html"),
        (status = 503, description = "It can't be shown now", body = String,
            content_type = "text/html"),
    ))]
pub async fn own(State(door): State<Door>, path: Result<Path<String>, PathRejection>) -> Response {
    let Ok(Path(token)) = path else { return shut() };
    let seen = door.reception.board_of_one(token.clone(), None).await;
    shown(seen, &token, Whose::Own)
}

/// Who looks at the page.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Whose {
    /// Whoever has the squad's page.
    AnyOfTheSquad,
    /// The swimmer.
    Own,
}

fn shown(seen: Result<Option<One>, Problem>, token: &str, whose: Whose) -> Response {
    match seen {
        Ok(Some(one)) => answer(StatusCode::OK, page(&one, token, whose)),
        Ok(None) => shut(),
        Err(problem) => refused(&problem),
    }
}

fn page(one: &One, token: &str, whose: Whose) -> Markup {
    let voice = voice(one.language);
    let name = one.who.name.as_str();
    let body = html! {
        div id="page" {
            header {
                h1 { (name) }
                p.day { (one.squad) ", " (voice.day(one.today)) }
                @if whose == Whose::AnyOfTheSquad { p.live { a.back href=(format!("../../{token}")) { (voice.label(Label::Back)) } } }
            }
            main {
                section.tests aria-labelledby="tests" {
                    h2 id="tests" { (voice.label(Label::Tests)) }
                    (tests(voice, &one.tests))
                }
                section.weeks aria-labelledby="weeks" {
                    h2 id="weeks" { (voice.label(Label::ByWeek)) }
                    (weeks(voice, one))
                }
                @for set in &one.sets { (repeats(voice, set)) }
                @if whose == Whose::Own {
                    section.take aria-labelledby="take" {
                        h2 id="take" { (voice.label(Label::Take)) }
                        (take::links(token))
                    }
                }
            }
        }
    };
    let title = format!("{name}: {}", one.squad);
    layout::whole(one.language, &title, Again::Never, &body)
}

/// Critical pace with its band after each test, and each test in figures.
fn tests(voice: &dyn Voice, tests: &[TestSeen]) -> Markup {
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
                    td { (voice.verdict(seen.trend)) }
                    td { @if let Some(band) = &seen.critical { (banded(band)) } }
                } } }
            }
        }
    }
}

fn paces(voice: &dyn Voice, tests: &[TestSeen]) -> Markup {
    let known: Vec<(f64, &PaceBand)> = tests
        .iter()
        .filter_map(|seen| {
            let day = seen.trial.on.duration_since(jiff::civil::Date::ZERO).as_hours() as f64;
            Some((day, seen.critical.as_ref()?))
        })
        .collect();
    let across = Scale::across(known.iter().map(|(day, _)| *day));
    let all = known.iter().flat_map(|(_, band)| [band.low, band.pace, band.high]);
    let down = Scale::fastest_on_top(all.map(Pace::per_100_s));
    let through = |pace: fn(&PaceBand) -> Pace| -> Vec<(f64, f64)> {
        let point =
            |(day, band): &(f64, &PaceBand)| (across.at(*day), down.at(pace(band).per_100_s()));
        known.iter().map(point).collect()
    };
    let middle = through(|band| band.pace);
    let inside = html! {
        (band(&through(|band| band.low), &through(|band| band.high)))
        (line(&middle))
        @for point in &middle { (dot(*point, false)) }
    };
    drawing(voice.label(Label::CriticalPace), &inside)
}

/// `1:49 (1:43-1:57)`
fn banded(band: &PaceBand) -> String {
    let short = |pace: Pace| {
        Centis::from_seconds(pace.per_100_s())
            .map(|time| time.to_second().short())
            .unwrap_or_default()
    };
    format!("{} ({}-{})", short(band.pace), short(band.low), short(band.high))
}

/// A week's metres against its plan, its load, and what went wrong in it.
fn weeks(voice: &dyn Voice, one: &One) -> Markup {
    let weeks = &one.weeks;
    let all = weeks.iter().flat_map(|week| [week.amount, week.planned.unwrap_or_default()]);
    let up = Scale::upwards(all.map(f64::from));
    let inside = html! {
        @for (at, week) in weeks.iter().enumerate() {
            (bar(at, weeks.len(), up.at(f64::from(week.amount))))
            @if let Some(planned) = week.planned { (mark(at, weeks.len(), up.at(f64::from(planned)))) }
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
                td { b { (week.amount) } " " (one.unit.name()) }
                td { @if let Some(planned) = week.planned { (planned) } }
                td { @if week.load > Load::REST { (format!("{:.0}", week.load.units())) } }
                td { (marks(voice, week)) }
            } } }
        }
    }
}

fn marks(voice: &dyn Voice, week: &WeekSeen) -> String {
    let all = [(week.pain, Label::Pain), (week.ill, Label::Ill), (week.away, Label::Away)];
    let told = all.into_iter().filter(|(is, _)| *is).map(|(_, label)| voice.label(label));
    told.collect::<Vec<_>>().join(", ")
}

/// A set's repeats against the time to hold, so that a fade is seen.
fn repeats(voice: &dyn Voice, swum: &SetSwum) -> Markup {
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
    let inside = html! {
        (level(down.at(target.seconds())))
        (line(&points.iter().map(|(point, _)| *point).collect::<Vec<_>>()))
        @for (point, slower) in &points { (dot(*point, *slower)) }
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

fn columns(voice: &dyn Voice, labels: &[Label]) -> Markup {
    html! { @for label in labels { th scope="col" { (voice.label(*label)) } } }
}
