//! Who was there, who comes, and how often.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday};

use super::told;
use super::whom::{self, names, one};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::Stopped;
use crate::desk::decision::view::View;
use crate::desk::known::trials::trials;
use crate::desk::questions::swimmer::{self, other};
use crate::history::{Presence, Right, Swimmer};
use crate::message::{Kind, Of, Question, Statement};
use crate::reply::{Answer, Coming, Outcome};

/// Days that are counted one by one (ours).
const LONGEST_DAYS: i32 = 92;

/// `how many were there last night`, `how many are coming`
pub fn count(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    desk.demand(Right::SeeSquad)?;
    if asked.within.is_some() {
        return Ok(whom::days(desk, asked).map(|(from, to)| turnouts(desk, from, to)));
    }
    let evening = desk.evening();
    let on = match asked.on.and_then(|typed| desk.night_meant(Some(typed))) {
        // Of a day to come, or of today.
        Some(on) => on,
        None => whom::past(desk, asked.on).unwrap_or_else(|| desk.night_shown()),
    };
    let (here, absent) = (seen(desk, on), desk.squad.absent_on(on, desk.now()).count());
    if on < evening || on == evening && here > 0 {
        return Ok(Some(told(Answer::Were { on, here, absent })));
    }
    let turnout = desk.squad.turnout(on, desk.now());
    let (coming, unsaid) = (turnout.coming.len(), turnout.unsaid.len());
    let out = turnout.out.len();
    Ok(Some(told(Answer::Coming { on, coming, unsaid, out })))
}

/// The nights of some weeks on which somebody was there, and how many.
fn turnouts(view: &View<'_>, from: Date, to: Date) -> Outcome {
    let days = (to - from).get_days().clamp(0, LONGEST_DAYS);
    let days = (0..=days).filter_map(|day| from.checked_add(i64::from(day).days()).ok());
    let nights = days.map(|on| (on, seen(view, on))).filter(|(_, here)| *here > 0).collect();
    told(Answer::Turnouts { from, to, nights })
}

/// How many were marked as being there on a day, or swam by the clock or by their word.
fn seen(view: &View<'_>, on: Date) -> usize {
    view.squad.swimmers.values().filter(|one| was_there(view, one, on)).count()
}

fn was_there(view: &View<'_>, one: &Swimmer, on: Date) -> bool {
    match one.seen_on(on, view.now()) {
        Some(presence) => presence == Presence::Here,
        None => view.days_swum(one, on, on) > 0,
    }
}

/// `did teal come monday`, `is heron down for tonight`
pub fn came(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    if asked.within.is_some() {
        return swum(desk, asked);
    }
    let Some((who, swimmer)) = one(desk, asked)? else { return Ok(None) };
    let ahead = asked.on.and_then(|typed| desk.night_meant(Some(typed)));
    let on = match (ahead, asked.on) {
        (Some(on), _) => on,
        (None, Some(_)) => match whom::past(desk, asked.on) {
            Some(on) => on,
            None => return Ok(None),
        },
        (None, None) => desk.night_shown(),
    };
    let there = was_there(desk, swimmer, on);
    let said = swimmer.says_of(on, desk.now());
    let what = match (swimmer.seen_on(on, desk.now()), said) {
        _ if there => Coming::There,
        (Some(Presence::Absent), _) => Coming::NotThere,
        _ if on < desk.evening() => Coming::Unmarked,
        (_, Some(said)) if said.perhaps => Coming::Perhaps,
        (_, Some(said)) if said.coming => Coming::In,
        (_, Some(_)) => Coming::Out,
        // Whatever keeps somebody away is nobody else's matter: only that they don't come.
        _ if !desk.squad.is_expected(swimmer, on, desk.now()) => Coming::Out,
        _ => Coming::Unsaid,
    };
    Ok(Some(told(Answer::Came { who: other(desk, who), on, what })))
}

/// `when was plover last in`
pub fn last_there(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let Some((who, swimmer)) = one(desk, asked)? else { return Ok(None) };
    let now = desk.now();
    let here = |on: Date| swimmer.seen_on(on, now) == Some(Presence::Here);
    let seen = swimmer.presence.as_of(now).rfind(|kept| here(kept.on)).map(|kept| kept.on);
    let swum = swimmer.swims.as_of(now).next_back().map(|kept| kept.on);
    let set = swimmer.sets.as_of(now).next_back().map(|kept| kept.on);
    let test = trials(swimmer, desk).last().map(|trial| trial.on);
    let on = seen.max(swum).max(set).max(test).filter(|on| *on <= desk.today);
    let on = on.map(|on| (on, desk.days_since(on)));
    Ok(Some(told(Answer::LastThere { who: other(desk, who), on })))
}

/// `has dunnock been at all this month`, `how far has the squad swum this week`
pub fn swum(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let (since, until) = asked.within.unwrap_or((None, None));
    if !matches!(asked.of, Of::All) {
        let Some((who, _)) = one(desk, asked)? else { return Ok(None) };
        let of = Statement { who: Some(who), kind: Kind::Log };
        return swimmer::swum(desk, &of, since, until);
    }
    let names = names(desk, asked)?;
    let monday = i64::from(desk.today.weekday().since(Weekday::Monday));
    let this_week = desk.today.saturating_sub(monday.days());
    let (from, to) = whom::days(desk, asked).unwrap_or((this_week, desk.today));
    let mut answer = (0, 0, 0);
    for swimmer in names.iter().filter_map(|name| desk.swimmer(name)) {
        let swims = desk.swum_since(swimmer, from).into_iter().filter(|one| one.on <= to);
        let metres: f64 = swims.filter_map(|one| one.distance).map(|far| far.metres().get()).sum();
        let days = desk.days_swum(swimmer, from, to);
        answer.0 += metres.round() as u32;
        answer.1 += days;
        answer.2 += usize::from(days > 0);
    }
    let (metres, sessions, swimmers) = answer;
    Ok(Some(told(Answer::SquadSwum { from, to, metres, sessions, swimmers })))
}
