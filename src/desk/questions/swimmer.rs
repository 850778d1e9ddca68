//! What one swimmer has ahead, and has swum.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday};

use super::about::{is_of_one, known};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve::{self, Toward};
use crate::desk::decision::view::View;
use crate::desk::evening::test_night;
use crate::desk::squad::overview;
use crate::history::Swimmer;
use crate::message::{Day, Name, Statement};
use crate::reply::{Known, Outcome, RefusedWhy, SwumReply, TestDue, Unknown};
use crate::swim::next_test as worth;

/// How far back a profile's sessions and sets are whole: a week less than it keeps.
const WEEKS: i64 = 16;

/// `when is my next test`; from who runs the evening the test night that is called.
pub fn next_test(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    if !is_of_one(desk, statement) {
        return match desk.squad.test_night_called(desk.now()) {
            Some(_) => test_night::test_night(desk, None, None),
            None => Ok(known(Known::Not(Unknown::TestNight))),
        };
    }
    let (who, swimmer) = asked_about(desk, statement)?;
    let due = test_due(desk, swimmer);
    Ok(known(Known::NextTest { who: other(desk, who), due }))
}

fn test_due(view: &View<'_>, swimmer: &Swimmer) -> TestDue {
    let now = view.now();
    let facts = view.facts(&swimmer.name);
    // On the way back from something no test is set either.
    if facts.as_ref().is_some_and(|facts| !facts.open.is_empty()) {
        return TestDue::Waits;
    }
    let called = view.squad.test_night_called(now).filter(|called| called.on >= view.today);
    if let Some(called) = called.filter(|_| test_night::owed(view).0.contains(&swimmer.name)) {
        return TestDue::Called { on: called.on, distance: called.what };
    }
    let Some(last) = swimmer.tests.as_of(now).next_back().map(|kept| kept.what.trial) else {
        return TestDue::First;
    };
    let tests = facts.map(|facts| facts.tests).unwrap_or_default();
    let best = worth::next_test(&tests, view.today, last.stroke, last.course);
    let on = overview::overdue_from(last.on);
    TestDue::From { on, now: on <= view.today, distance: best.map(|next| next.distance), last }
}

/// `how many sessions this month`: days, metres, tests and sets from one day up to the
/// one before another; this week's where none were said; none of days to come.
pub fn swum(
    desk: &mut Desk<'_>,
    statement: &Statement,
    since: Option<Day>,
    until: Option<Day>,
) -> Result<Option<Outcome>, Stopped> {
    let (who, swimmer) = asked_about(desk, statement)?;
    let now = desk.now();
    let day = |typed: Option<Day>| -> Result<Option<Date>, Stopped> {
        let unit = desk.squad.course.unit();
        let settle = |typed| resolve::day(typed, desk.today, unit, Toward::Past);
        typed
            .map(|typed| settle(typed).ok_or_else(|| refused("day", RefusedWhy::Nothing)))
            .transpose()
    };
    let monday = i64::from(desk.today.weekday().since(Weekday::Monday));
    let asked = day(since)?.unwrap_or_else(|| desk.today.saturating_sub(monday.days()));
    if asked > desk.today {
        return Ok(None);
    }
    let to =
        day(until)?.map_or(desk.today, |behind| behind.saturating_sub(1.day())).min(desk.today);
    let whole = desk.today.saturating_sub(WEEKS.weeks());
    let cut = asked < whole && swimmer.joined_on < whole;
    let from = if cut { whole } else { asked }.min(to);
    let within = |on: Date| on >= from && on <= to;
    let swims = desk.swum_since(swimmer, from).into_iter().filter(|swum| within(swum.on));
    let metres: f64 = swims.filter_map(|swum| swum.distance).map(|far| far.metres().get()).sum();
    let reply = SwumReply {
        from,
        to,
        cut,
        sessions: desk.days_swum(swimmer, from, to),
        metres: metres.round() as u32,
        sets: swimmer.sets.since(from, now).filter(|kept| within(kept.on)).count(),
        tests: swimmer.tests.since(from, now).filter(|kept| within(kept.on)).count(),
        who: other(desk, who),
    };
    Ok(Some(known(Known::Swum(reply))))
}

/// The swimmer a question is about, if the sender may ask about them.
pub fn asked_about<'d>(
    view: &'d View<'_>,
    statement: &Statement,
) -> Result<(Name, &'d Swimmer), Stopped> {
    let who = view.subject(statement)?;
    let swimmer = view.swimmer(&who);
    let swimmer = swimmer.ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))?;
    Ok((who, swimmer))
}

/// Their name, where they are not the sender themselves.
pub fn other(view: &View<'_>, who: Name) -> Option<Name> {
    let own = view.swims()
        && view.me() == Some(&who)
        && !view.member().is_some_and(|member| member.is_shared());
    (!own).then_some(who)
}
