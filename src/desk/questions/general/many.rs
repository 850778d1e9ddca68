//! The swimmers of a squad beside each other: who is first, who gained, what the mean is.

use jiff::civil::Date;

use super::told;
use super::whom::{self, names};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::Stopped;
use crate::desk::decision::view::View;
use crate::desk::known::trials::trials;
use crate::desk::questions::about::known;
use crate::desk::questions::swimmer::other;
use crate::history::Right;
use crate::message::{Name, Of, Pick, Question};
use crate::reply::{Answer, Known, MeanOf, Outcome, RankLine, Unknown};
use crate::swim::Trial;
use crate::units::Centis;

/// So many are named as the nearest to a time (ours).
const CLOSEST: usize = 3;

/// `who was quickest`, `who went backwards`, `who is under 3:10`
pub fn ranked(
    desk: &mut Desk<'_>,
    asked: &Question,
    pick: Pick,
) -> Result<Option<Outcome>, Stopped> {
    desk.demand(Right::SeeSquad)?;
    let named: Vec<Name> = match &asked.of {
        Of::Sender => desk.squad.swimmers.keys().cloned().collect(),
        _ => names(desk, asked)?,
    };
    let gains = matches!(pick, Pick::Better | Pick::Worse);
    let on = match whom::past(desk, asked.on) {
        Some(day) => Some(day),
        // Who gained is asked of the last tests; who is quickest of all that is known.
        None if gains => last_tested(desk, &named),
        None => None,
    };
    let each = of_each(desk, &named, on, asked);
    let Some(distance) = usual(&each) else {
        return Ok(Some(known(Known::Not(Unknown::Results { on }))));
    };
    let wanted = asked.length.map_or(distance, |length| length.amount);
    let alike: Vec<_> =
        each.into_iter().filter(|(_, last, _)| last.distance.amount() == wanted).collect();
    let below = match pick {
        Pick::Under | Pick::Closest => {
            let mean = mean(alike.iter().map(|(_, last, _)| last.time));
            let Some(below) = mean.and_then(|mean| nearest(asked, mean)) else { return Ok(None) };
            Some(below)
        }
        _ => None,
    };
    let of = match gains {
        true => alike.iter().filter(|(_, _, before)| before.is_some()).count(),
        false => alike.len(),
    };
    let mut lines: Vec<RankLine> = alike
        .into_iter()
        .map(|(who, last, before)| RankLine { who, time: last.time, before })
        .filter(|line| match pick {
            Pick::Better => line.before.is_some_and(|before| line.time < before),
            Pick::Worse => line.before.is_some_and(|before| line.time > before),
            Pick::Under => below.is_some_and(|below| line.time < below),
            Pick::Closest => below.is_some_and(|below| line.time >= below),
            Pick::Quickest | Pick::Slowest => true,
        })
        .collect();
    let change = |line: &RankLine| {
        let before = line.before.map_or(0.0, Centis::seconds);
        line.time.seconds() - before
    };
    match pick {
        Pick::Quickest | Pick::Under | Pick::Closest => lines.sort_by_key(|line| line.time),
        Pick::Slowest => lines.sort_by_key(|line| std::cmp::Reverse(line.time)),
        Pick::Better => lines.sort_by(|one, next| change(one).total_cmp(&change(next))),
        Pick::Worse => lines.sort_by(|one, next| change(next).total_cmp(&change(one))),
    }
    if pick == Pick::Closest {
        lines.truncate(CLOSEST);
    }
    if !gains {
        lines.iter_mut().for_each(|line| line.before = None);
    }
    Ok(Some(told(Answer::Ranked { pick, distance: wanted, on, below, lines, of })))
}

/// The reading of the time asked about that lies nearest to what they swim.
fn nearest(asked: &Question, mean: Centis) -> Option<Centis> {
    let away = |time: &Centis| (time.seconds() / mean.seconds()).ln().abs();
    let near = asked.times.iter().flatten().filter(|time| away(time) < std::f64::consts::LN_2);
    near.min_by(|one, other| away(one).total_cmp(&away(other))).copied()
}

/// The last day on which one of them was tested.
fn last_tested(view: &View<'_>, names: &[Name]) -> Option<Date> {
    let swimmers = names.iter().filter_map(|name| view.swimmer(name));
    let tests = swimmers.filter_map(|one| trials(one, view).last());
    tests.map(|trial| trial.on).max()
}

/// Of each the test of a day, else the last, with the time of the one like it before.
fn of_each(
    view: &View<'_>,
    names: &[Name],
    on: Option<Date>,
    asked: &Question,
) -> Vec<(Name, Trial, Option<Centis>)> {
    let one = |name: &Name| {
        let all: Vec<Trial> = trials(view.swimmer(name)?, view).collect();
        let fits = |trial: &&Trial| {
            on.is_none_or(|on| trial.on == on)
                && asked.length.is_none_or(|length| length.amount == trial.distance.amount())
                && asked.stroke.is_none_or(|stroke| stroke == trial.stroke)
        };
        let last = all.iter().rev().find(fits)?;
        let before = all.iter().rev().find(|one| one.on < last.on && one.is_like(last));
        Some((name.clone(), *last, before.map(|one| one.time)))
    };
    names.iter().filter_map(one).collect()
}

/// The distance that most of them swam.
fn usual(each: &[(Name, Trial, Option<Centis>)]) -> Option<u32> {
    let count = |distance: u32| each.iter().filter(move |one| one.1.distance.amount() == distance);
    let all = each.iter().map(|one| one.1.distance.amount());
    all.max_by_key(|distance| (count(*distance).count(), *distance))
}

/// The distance that most of the squad were last tested over.
pub fn usual_test(view: &View<'_>) -> Option<u32> {
    let tests = view.squad.swimmers.values().filter_map(|one| trials(one, view).last());
    let each: Vec<u32> = tests.map(|trial| trial.distance.amount()).collect();
    let count = |distance: u32| each.iter().filter(|one| **one == distance).count();
    each.iter().copied().max_by_key(|distance| (count(*distance), *distance))
}

/// `squad average for the 200`, `averages for lane 1`, `what was my average`
pub fn average(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let named = names(desk, asked)?;
    let of = match (&asked.of, named.as_slice()) {
        (Of::Lanes(lanes), _) => match lanes.as_slice() {
            [lane] => MeanOf::Lane(*lane),
            _ => return Ok(None),
        },
        (Of::All, _) => MeanOf::All,
        (_, [one]) => MeanOf::One(other(desk, one.clone())),
        _ => return Ok(None),
    };
    let on = whom::past(desk, asked.on);
    if let (MeanOf::One(_), [who]) = (&of, named.as_slice()) {
        let none = || known(Known::Not(Unknown::Results { on }));
        return Ok(Some(of_sets(desk, who, on, asked, of).unwrap_or_else(none)));
    }
    let Some(on) = on.or_else(|| last_tested(desk, &named)) else { return Ok(None) };
    let each = of_each(desk, &named, Some(on), asked);
    let Some(distance) = usual(&each) else {
        let unknown = Unknown::Results { on: Some(on) };
        return Ok(Some(known(Known::Not(unknown))));
    };
    let alike = each.iter().filter(|one| one.1.distance.amount() == distance);
    let times: Vec<Centis> = alike.map(|one| one.1.time).collect();
    let Some(mean) = mean(times.iter().copied()) else { return Ok(None) };
    Ok(Some(told(Answer::Mean { of, count: times.len(), distance, mean, on })))
}

/// The mean of the repeats of somebody's set: of that day, else the last.
fn of_sets(
    view: &View<'_>,
    who: &Name,
    on: Option<Date>,
    asked: &Question,
    of: MeanOf,
) -> Option<Outcome> {
    let swimmer = view.swimmer(who)?;
    let mut sets = swimmer.sets.as_of(view.now());
    let set = sets.rfind(|kept| {
        on.is_none_or(|on| kept.on == on)
            && asked.length.is_none_or(|one| one.amount == kept.what.set.distance.amount())
    })?;
    let times: Vec<Centis> = set.what.times.iter().copied().flatten().collect();
    let (mean, distance) = (mean(times.iter().copied())?, set.what.set.distance.amount());
    Some(told(Answer::Mean { of, count: times.len(), distance, mean, on: set.on }))
}

/// The mean, to the tenth.
fn mean(times: impl Iterator<Item = Centis>) -> Option<Centis> {
    let (sum, count) = times.fold((0.0, 0u32), |(sum, n), time| (sum + time.seconds(), n + 1));
    Centis::from_seconds(sum / f64::from(count.max(1))).ok().map(Centis::to_tenth)
}
