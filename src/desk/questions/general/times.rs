//! What somebody swam by the clock: when, how it compares, how far it is off a time.

use super::told;
use super::whom::{self, days, one};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::Stopped;
use crate::desk::decision::view::View;
use crate::desk::known::trials::{bests_of, trials};
use crate::desk::questions::about::known;
use crate::desk::questions::results;
use crate::desk::questions::swimmer::other;
use crate::desk::squad::overview;
use crate::desk::swims::targets;
use crate::history::{Right, Swimmer};
use crate::message::{Day, Kind, Name, Of, Question, Statement};
use crate::reply::{Answer, Known, Outcome, ResultLine, Swam};
use crate::swim::Trial;
use crate::units::Centis;

/// By how much a time that is aimed at may differ from the best (ours).
const NEAR: std::ops::RangeInclusive<f64> = 0.7..=1.3;

/// Pieces that a gain is told for.
const PIECE: u32 = 50;

/// `what did robin do the time before`, `what was my 200 last week`
pub fn swum(
    desk: &mut Desk<'_>,
    statement: &Statement,
    asked: &Question,
) -> Result<Option<Outcome>, Stopped> {
    // What was swum of a set is told with its night.
    if asked.repeats.is_some() {
        return Ok(None);
    }
    let exact = asked.before || asked.length.is_some() || asked.within.is_some();
    let Some((who, swimmer)) = one(desk, asked)? else {
        // A night's results of everybody; those of a few by name have a way of their own.
        if let Of::Lanes(_) = asked.of {
            let named = whom::names(desk, asked)?;
            return results::of_these(desk, &named, asked.on).map(Some);
        }
        let all = matches!(asked.of, Of::All) && !exact;
        return match all {
            true => results::results(desk, &nobody(statement), asked.on).map(Some),
            false => Ok(None),
        };
    };
    if !exact && asked.times.is_empty() {
        let of = Statement { who: Some(who), kind: statement.kind.clone() };
        return results::results(desk, &of, asked.on).map(Some);
    }
    let all = alike(desk, swimmer, asked);
    let span = days(desk, asked);
    let within = |trial: &&Trial| span.is_none_or(|(from, to)| (from..=to).contains(&trial.on));
    let found = match asked.before {
        true => all.iter().rev().nth(1),
        false => all.iter().rev().find(within),
    };
    let who = other(desk, who);
    Ok(Some(match found {
        Some(trial) => one_result(who, &all, trial),
        None => never(desk, asked, who),
    }))
}

fn nobody(statement: &Statement) -> Statement {
    Statement { who: None, kind: statement.kind.clone() }
}

fn one_result(who: Option<Name>, all: &[Trial], trial: &Trial) -> Outcome {
    let before = all.iter().rev().find(|one| one.on < trial.on && one.is_like(trial));
    let what = Swam::Test(*trial, before.map(|one| one.time));
    let results = Known::Results { on: trial.on, lines: vec![ResultLine { who, what }] };
    known(results)
}

/// Nothing like it is on record.
fn never(view: &View<'_>, asked: &Question, who: Option<Name>) -> Outcome {
    let span = days(view, asked);
    told(Answer::Never {
        who,
        distance: asked.length.map(|length| length.amount),
        stroke: asked.stroke,
        from: span.map(|(from, _)| from),
        to: span.map(|(_, to)| to),
    })
}

/// `whats my best 400`: all the bests, where one is over that distance.
pub fn best(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let Some((who, swimmer)) = one(desk, asked)? else { return Ok(None) };
    match alike(desk, swimmer, asked).is_empty() {
        true => Ok(Some(never(desk, asked, other(desk, who)))),
        false => overview::swimmer(desk, &Statement { who: Some(who), kind: Kind::Best }).map(Some),
    }
}

/// The tests of somebody that a question is about: of its distance and stroke, else of
/// all that are like the last.
fn alike(view: &View<'_>, swimmer: &Swimmer, asked: &Question) -> Vec<Trial> {
    let all: Vec<Trial> = trials(swimmer, view).collect();
    let of = |trial: &Trial| {
        asked.length.is_none_or(|length| length.amount == trial.distance.amount())
            && asked.stroke.is_none_or(|stroke| stroke == trial.stroke)
    };
    let fits: Vec<Trial> = all.into_iter().filter(of).collect();
    match (asked.length, asked.before, fits.last().copied()) {
        (None, true, Some(last)) => fits.into_iter().filter(|one| one.is_like(&last)).collect(),
        _ => fits,
    }
}

/// `was that quicker than last week`, `is that any good`: the last one beside the one before.
pub fn versus(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let Some((who, swimmer)) = one(desk, asked)? else { return Ok(None) };
    let all: Vec<Trial> = trials(swimmer, desk).collect();
    let own = other(desk, who);
    // What is asked about was swum now, or on the day that is named.
    let day = whom::past(desk, asked.on.filter(|on| *on == Day::Today)).unwrap_or(desk.evening());
    let Some(last) = all.last().filter(|last| last.on == day) else {
        let mut of_today = asked.clone();
        (of_today.on, of_today.within, of_today.length) = (Some(Day::Today), None, None);
        return Ok(Some(never(desk, &of_today, own)));
    };
    let compared = |one: &&Trial| match asked.stroke.filter(|stroke| *stroke != last.stroke) {
        Some(stroke) => one.stroke == stroke && one.distance == last.distance,
        None => one.on < last.on && one.is_like(last),
    };
    let earlier: Vec<&Trial> = all.iter().filter(compared).collect();
    let best = earlier.iter().min_by_key(|one| one.time);
    Ok(Some(told(Answer::Versus {
        who: own,
        last: *last,
        before: earlier.last().map(|one| **one),
        best: best.map(|one| **one),
    })))
}

/// `how far off 3:05 am i`, `how far off wren am i`
pub fn gap(
    desk: &mut Desk<'_>,
    statement: &Statement,
    asked: &Question,
) -> Result<Option<Outcome>, Stopped> {
    if let (Of::Named(names), []) = (&asked.of, asked.times.as_slice()) {
        let me = desk.me().filter(|_| desk.swims()).cloned();
        let both: Vec<Name> = me.into_iter().chain(names.iter().cloned()).collect();
        return match both.len() {
            2.. => overview::compare(desk, &both).map(Some),
            _ => Ok(None),
        };
    }
    let Some((who, swimmer)) = one(desk, asked)? else { return Ok(None) };
    let Some((best, to)) = aimed(desk, swimmer, asked) else {
        // Without a test there is nothing to be off from.
        let none = trials(swimmer, desk).next().is_none();
        if let (false, Some(length)) = (none, asked.length) {
            // Over a distance never swum, what the others let expect.
            return targets::predict(desk, &whom::of(statement, asked), length).map(Some);
        }
        let who = other(desk, who);
        return Ok(none.then(|| never(desk, asked, who)));
    };
    let pieces = best.distance.amount() / PIECE;
    let by = best.time.less(to).filter(|_| pieces > 1);
    let each = by.and_then(|by| Centis::from_seconds(by.seconds() / f64::from(pieces)).ok());
    let each = each.map(|each| (PIECE, each.to_tenth()));
    Ok(Some(told(Answer::Gap { who: other(desk, who), best, to, each })))
}

/// The best that a time is aimed at from, and that time: of all that the figures may be
/// the nearest.
pub fn aimed(view: &View<'_>, swimmer: &Swimmer, asked: &Question) -> Option<(Trial, Centis)> {
    let bests = bests_of(trials(swimmer, view));
    let of = |best: &&Trial| {
        let piece = asked.length.is_none_or(|length| length.amount == best.distance.amount());
        piece && asked.stroke.is_none_or(|stroke| stroke == best.stroke)
    };
    let nearest = |bests: Vec<&Trial>| {
        let pairs = bests
            .into_iter()
            .flat_map(|best| asked.times.iter().flatten().map(move |to| (*best, *to)));
        let ratio = |(best, to): &(Trial, Centis)| to.seconds() / best.time.seconds();
        let near: Vec<_> = pairs.filter(|pair| NEAR.contains(&ratio(pair))).collect();
        // `from 3:12 to 3:00`: what is swum already is not aimed at.
        let ahead = near.iter().any(|pair| ratio(pair) < 1.0);
        let near = near.into_iter().filter(|pair| !ahead || ratio(pair) < 1.0);
        near.min_by(|one, other| ratio(one).ln().abs().total_cmp(&ratio(other).ln().abs()))
    };
    nearest(bests.iter().filter(of).collect())
}

/// `how long since my last 400`, `when did we last do any backstroke`
pub fn last_swum(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    if let Some((who, swimmer)) = one(desk, asked)? {
        let last = alike(desk, swimmer, asked).last().copied();
        let who = other(desk, who);
        return Ok(Some(match last {
            Some(trial) => {
                let days = desk.days_since(trial.on);
                told(Answer::LastSwum { who, on: trial.on, days, trial: Some(trial) })
            }
            None => never(desk, asked, who),
        }));
    }
    desk.demand(Right::SeeSquad)?;
    let tests = desk.squad.swimmers.values().flat_map(|one| alike(desk, one, asked));
    let tested = tests.map(|trial| trial.on).max();
    let on = match asked.stroke {
        Some(stroke) => {
            let evenings = desk.squad.sets_before(desk.today, desk.now());
            let swum = |evening: &&&crate::history::EveningKept| {
                let blocks = evening.sessions().flat_map(|session| session.blocks.iter());
                blocks.flat_map(|block| &block.repeats).any(|line| line.stroke == stroke)
            };
            evenings.iter().filter(swum).map(|evening| evening.on).max().max(tested)
        }
        None => tested,
    };
    Ok(Some(match on {
        Some(on) => {
            let days = desk.days_since(on);
            told(Answer::LastSwum { who: None, on, days, trial: None })
        }
        None => never(desk, asked, None),
    }))
}

/// `has puffin got a goal`
pub fn goal(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let Some((who, swimmer)) = one(desk, asked)? else { return Ok(None) };
    let race = desk.next_race(swimmer);
    Ok(Some(told(Answer::Goal { who: other(desk, who), race })))
}

/// `did you get that`, `did i send you plovers time`
pub fn stored(desk: &mut Desk<'_>, asked: &Question) -> Result<Outcome, Stopped> {
    let named = if matches!(asked.of, Of::Named(_)) { one(desk, asked)? } else { None };
    if let Some((who, swimmer)) = named {
        let last = trials(swimmer, desk).last();
        let who = other(desk, who);
        return Ok(match last {
            Some(trial) => one_result(who, &trials(swimmer, desk).collect::<Vec<_>>(), &trial),
            None => never(desk, asked, who),
        });
    }
    Ok(told(Answer::Stored { says: desk.said_before() }))
}
