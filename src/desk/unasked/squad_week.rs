//! The squad's week, for whoever runs it.

use std::collections::BTreeSet;

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};

use super::hours::due_day;
use super::whom::Whom;
use crate::desk::decision::view::View;
use crate::desk::known::trials::trials;
use crate::desk::plans::approval;
use crate::desk::squad::overview;
use crate::history::{Squad, Swimmer};
use crate::message::Name;
use crate::reply::{DigestReply, Flag, SquadRow, Trend};
use crate::swim::Trial;

/// For how many days after its own it may still be said (ours).
const LATE_DAYS: u8 = 1;

/// The days it tells of, and looks ahead.
const DAYS: i64 = 7;

/// Those who will be told later today.
pub fn claims(squad: &Squad, now: Timestamp) -> Vec<String> {
    let local = now.to_zoned_datetime(squad.zone());
    let later = squad.members.iter().filter(|(_, member)| {
        let (day, at) = member.digest.when();
        member.hears_digest() && local.date().weekday() == day && local.time() < at
    });
    later.map(|(address, _)| address.clone()).collect()
}

/// Those for whom it is due at `now`.
pub fn whom(squad: &Squad, now: Timestamp) -> Vec<Whom> {
    let local = now.to_zoned_datetime(squad.zone()).datetime();
    let mut whom = Vec::new();
    for (address, member) in squad.members.iter().filter(|(_, member)| member.hears_digest()) {
        let (day, at) = member.digest.when();
        let fell = due_day(local, at, LATE_DAYS, |date| date.weekday() == day);
        whom.extend(fell.map(|on| Whom { to: address.clone(), who: None, on }));
    }
    whom
}

/// The seven days up to today, as known now.
pub fn digest(view: &View<'_>) -> DigestReply {
    let now = view.now();
    let (from, to) = (view.today.saturating_sub((DAYS - 1).days()), view.today);
    let all: Vec<(&Swimmer, SquadRow)> =
        view.squad.swimmers.values().map(|one| (one.as_ref(), overview::row(view, one))).collect();
    let mut came: Vec<(Name, usize)> = all
        .iter()
        .map(|(swimmer, _)| (swimmer.name.clone(), view.days_swum(swimmer, from, to)))
        .filter(|(_, days)| *days > 0)
        .collect();
    came.sort_by(|(one, days), (other, more)| more.cmp(days).then_with(|| one.cmp(other)));
    let mut tests = Vec::new();
    for (swimmer, _) in &all {
        let trials: Vec<Trial> = trials(swimmer, view).collect();
        let of_week = overview::tests_between(&trials, from, to).into_iter();
        tests.extend(of_week.map(|(trial, trend)| (swimmer.name.clone(), trial, trend)));
    }
    let tested: BTreeSet<&Name> = tests.iter().map(|(who, ..)| who).collect();
    let named = |picks: &dyn Fn(&Swimmer, &SquadRow) -> bool| -> Vec<Name> {
        let picked = all.iter().filter(|(swimmer, row)| picks(swimmer, row));
        picked.map(|(swimmer, _)| swimmer.name.clone()).collect()
    };
    let going = |trend: Trend| {
        named(&|swimmer, row| {
            row.trend == trend
                && !tested.contains(&swimmer.name)
                && !row.flags.contains(&Flag::Overdue)
        })
    };
    // Nobody is told to test who had better not, or is not there.
    let away = |swimmer: &Swimmer| swimmer.is_away(view.today, now);
    let spared = |swimmer: &Swimmer| away(swimmer) || view.is_careful(swimmer);
    let flagged = |flag: Flag| named(&|swimmer, row| row.flags.contains(&flag) && !spared(swimmer));
    let open = all.iter().map(|(swimmer, _)| (swimmer.name.clone(), overview::open(view, swimmer)));
    DigestReply {
        squad: view.squad.name.clone(),
        from,
        to,
        open: open.filter(|(_, troubles)| !troubles.is_empty()).collect(),
        waiting: approval::waiting(view),
        improving: going(Trend::Up),
        fading: going(Trend::Down),
        silent: named(&|_, row| row.flags.contains(&Flag::Silent)),
        overdue: flagged(Flag::Overdue),
        due_next: named(&|swimmer, row| {
            let last = row.last_test.map_or(swimmer.joined_on, |test| test.on);
            let due = overview::overdue_from(last);
            due > view.today && due <= view.today.saturating_add(DAYS.days()) && !spared(swimmer)
        }),
        nights: nights_ahead(view),
        came,
        tests,
    }
}

/// True where something happened in the week: somebody swam, was tested,
/// something opened, or a plan waits.
pub fn has_news(digest: &DigestReply) -> bool {
    let new = |trouble: &crate::coaching::Trouble| trouble.since() >= digest.from;
    !digest.came.is_empty()
        || !digest.waiting.is_empty()
        || !digest.tests.is_empty()
        || digest.open.iter().any(|(_, troubles)| troubles.iter().any(new))
}

fn nights_ahead(view: &View<'_>) -> Vec<(Date, Option<crate::units::Distance>)> {
    let now = view.now();
    let called = view.squad.test_night_called(now);
    let days = (1..=DAYS).map(|ahead| view.today.saturating_add(ahead.days()));
    days.filter_map(|day| view.squad.night(day, now))
        .map(|night| {
            let test = called.filter(|called| called.on == night.on).map(|called| called.what);
            (night.on, test)
        })
        .collect()
}
