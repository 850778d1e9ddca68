//! The coach's evening: who is there, what to pass on, when and where.

use jiff::civil::{Time, Weekday};

use super::commands::minute_count;
use super::figures::{length, send_off, typed_time, within};
use super::reports::course;
use super::trials::once;
use super::{Outcome, Trouble, days};
use crate::message::syntax::{Extent, Figure, Item, Verb};
use crate::message::{Cut, Day, Kind, LaneResults, Name, Slot, SquadFilter, Statement};
use crate::units::SendOff;

/// The statement that one of the coach's verbs and its parts make.
pub fn command(who: Option<Name>, verb: Verb, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let mut about = who;
    let kind = match verb {
        Verb::Squad => squad(parts)?,
        Verb::Lanes => lanes(parts)?,
        Verb::TestNight => test_night(parts)?,
        Verb::Here => {
            let all_but = parts.contains(&Item::Everyone);
            let mut names = names(parts);
            // `wren here`: they are.
            names.extend(about.take_if(|_| names.is_empty() && !all_but));
            Kind::Here { names, all_but, on: day(parts)? }
        }
        Verb::Absent => Kind::Absent { names: names(parts), on: day(parts)? },
        Verb::Tell | Verb::Note | Verb::Focus => {
            let text = text(parts).ok_or(Trouble::Senseless)?;
            whom(&mut about, parts)?;
            match verb {
                Verb::Tell => Kind::Tell { text },
                Verb::Note => Kind::Note { text },
                _ => Kind::Focus { text },
            }
        }
        Verb::In => Kind::Attend { coming: true, late_min: None, on: day(parts)? },
        Verb::Out => Kind::Attend { coming: false, late_min: None, on: day(parts)? },
        Verb::Late => {
            let minutes = parts.iter().find_map(|part| match part {
                Item::Minutes(minutes) => Some(*minutes),
                _ => None,
            });
            let late_min = Some(minute_count(minutes.ok_or(Trouble::Senseless)?)?);
            Kind::Attend { coming: true, late_min, on: day(parts)? }
        }
        Verb::Slot => Kind::Slot(slot(parts)?),
        Verb::Shut => {
            let (days, on) = dates(parts)?;
            Kind::Shut { days, on }
        }
        Verb::Reopen => {
            let (days, on) = dates(parts)?;
            Kind::Reopen { days, on }
        }
        Verb::Apart | Verb::Together => {
            Kind::Apart { names: names(parts), apart: verb == Verb::Apart }
        }
        Verb::LaneResults if about.is_none() => Kind::LaneResults(lane_results(parts)?),
        // `heron lane 2` says where they swim, `L2 on 1:15` how that lane does.
        Verb::Cut => match (&about, parts) {
            (Some(_), [Item::Lane(lane)]) => Kind::Pin { lane: Some(within(*lane, 1..=9)?) },
            (Some(_), [Item::AnyLane]) => Kind::Pin { lane: None },
            _ => Kind::Cut(cut(parts)?),
        },
        Verb::Hold => {
            whom(&mut about, parts)?;
            let week = parts.iter().find_map(|part| match part {
                Item::Week(week) => Some(*week),
                _ => None,
            });
            Kind::Hold { week: week.ok_or(Trouble::Senseless)? }
        }
        Verb::Release => {
            whom(&mut about, parts)?;
            Kind::Release
        }
        _ => return Err(Trouble::Senseless),
    };
    Ok(vec![Statement { who: about, kind }])
}

/// `squad overdue`; with a day it asks who is expected.
fn squad(parts: &[Item]) -> Outcome<Kind> {
    let filter = parts.iter().find_map(|part| match part {
        Item::Filter(filter) => Some(*filter),
        _ => None,
    });
    match (filter, day(parts)?) {
        (filter, None) => Ok(Kind::Squad { filter, on: None }),
        (None | Some(SquadFilter::Expected), on) => {
            Ok(Kind::Squad { filter: Some(SquadFilter::Expected), on })
        }
        _ => Err(Trouble::Senseless),
    }
}

fn names(parts: &[Item]) -> Vec<Name> {
    let name = |part: &Item| match part {
        Item::Name(name) => Some(name.clone()),
        _ => None,
    };
    parts.iter().filter_map(name).collect()
}

/// The person a verb names, unless another stood before the verb.
fn whom(about: &mut Option<Name>, parts: &[Item]) -> Outcome<()> {
    match names(parts).into_iter().next() {
        Some(name) => once(about, name),
        None => Ok(()),
    }
}

fn text(parts: &[Item]) -> Option<String> {
    parts.iter().find_map(|part| match part {
        Item::Text(text) => Some(text.trim_matches('"').to_owned()),
        _ => None,
    })
}

fn day(parts: &[Item]) -> Outcome<Option<Day>> {
    let typed = parts.iter().find_map(|part| match part {
        Item::Day(day) => Some(*day),
        _ => None,
    });
    typed.map(days::day).transpose()
}

/// `lanes 4` drafts lanes; with a day it says how many there are.
fn lanes(parts: &[Item]) -> Outcome<Kind> {
    let [Item::Lanes(count), on @ ..] = parts else { return Err(Trouble::Senseless) };
    let count = count.map(|count| within(count, 1..=20)).transpose()?;
    if on.is_empty() {
        return Ok(Kind::Lanes { count });
    }
    let mut slot = Slot { lanes: count, ..Slot::default() };
    add_day(&mut slot, on)?;
    Ok(Kind::Slot(slot))
}

/// `test night 400 thu`; alone it asks after the one that is called.
fn test_night(parts: &[Item]) -> Outcome<Kind> {
    let (mut distance, mut on) = (None, None);
    for part in parts {
        match part {
            Item::Length(extent) => once(&mut distance, length(*extent)?)?,
            Item::Day(typed) => once(&mut on, days::day(*typed)?)?,
            _ => return Err(Trouble::Senseless),
        }
    }
    if distance.is_none() && on.is_some() {
        return Err(Trouble::Senseless);
    }
    Ok(Kind::TestNight { distance, on })
}

fn add_day(slot: &mut Slot, parts: &[Item]) -> Outcome<()> {
    for part in parts {
        if let Item::Day(typed) = part {
            match days::weekday(days::day(*typed)?) {
                Ok(weekday) => {
                    if !slot.days.contains(&weekday) {
                        slot.days.push(weekday);
                    }
                }
                Err(day) => once(&mut slot.on, day)?,
            }
        }
    }
    slot.days.sort_by_key(|day| day.to_monday_one_offset());
    Ok(())
}

/// `slot tue 2000-2100 4 lanes`
fn slot(parts: &[Item]) -> Outcome<Slot> {
    let mut slot = Slot::default();
    add_day(&mut slot, parts)?;
    for part in parts {
        match part {
            Item::Day(_) => {}
            Item::ClockRange(from, to) => {
                let (starts, ends) = (time(*from)?, time(*to)?);
                let minutes = minute_of_day(ends) - minute_of_day(starts);
                once(&mut slot.starts, starts)?;
                once(&mut slot.minutes, within(u32::try_from(minutes).unwrap_or(0), 10..=240)?)?;
            }
            at if let Some(at) = time_of_day(at)? => once(&mut slot.starts, at)?,
            Item::Length(extent) => {
                once(&mut slot.course, course(*extent).ok_or(Trouble::Senseless)?)?;
            }
            Item::Minutes(count) => once(&mut slot.minutes, within(*count, 10..=240)?)?,
            Item::Course(course) => once(&mut slot.course, *course)?,
            Item::Lanes(Some(count)) => once(&mut slot.lanes, within(*count, 1..=20)?)?,
            _ => return Err(Trouble::Senseless),
        }
    }
    let timed = parts.is_empty() || !slot.days.is_empty() || slot.on.is_some();
    if timed { Ok(slot) } else { Err(Trouble::Senseless) }
}

/// The time of day that an item is, if it may be one.
pub fn time_of_day(item: &Item) -> Outcome<Option<Time>> {
    let at = match item {
        Item::Clock(at) => *at,
        Item::Figure(Figure::Clock { minutes, seconds, hundredths: None }) => (*minutes, *seconds),
        Item::Length(Extent { amount: digits @ 600..=2359, unit: None }) => {
            (digits / 100, digits % 100)
        }
        _ => return Ok(None),
    };
    time(at).map(Some)
}

fn time((hour, minute): (u32, u32)) -> Outcome<Time> {
    Time::new(within(hour, 0..=23)?, within(minute, 0..=59)?, 0, 0).map_err(|_| Trouble::Senseless)
}

fn minute_of_day(time: Time) -> i32 {
    i32::from(time.hour()) * 60 + i32::from(time.minute())
}

fn dates(parts: &[Item]) -> Outcome<(Vec<Weekday>, Option<Day>)> {
    let mut slot = Slot::default();
    add_day(&mut slot, parts)?;
    Ok((slot.days, slot.on))
}

/// `L2 200 test 3:12 3:20 x`, `L2 48 49 51`
fn lane_results(parts: &[Item]) -> Outcome<LaneResults> {
    let (lane, far, figures) = match parts {
        [Item::Lane(lane), Item::Held(figures)] => (*lane, None, figures),
        [Item::Lane(lane), Item::Length(far), Item::Held(figures)] => (*lane, Some(*far), figures),
        _ => return Err(Trouble::Senseless),
    };
    let times = figures.iter().map(|figure| figure.map(typed_time).transpose());
    Ok(LaneResults {
        lane: within(lane, 1..=9)?,
        distance: far.map(length).transpose()?,
        times: times.collect::<Outcome<_>>()?,
    })
}

fn cut(parts: &[Item]) -> Outcome<Cut> {
    let mut cut = Cut::default();
    for part in parts {
        match part {
            Item::Left(minutes) => once(&mut cut.minutes_left, minute_count(*minutes)?)?,
            Item::Ends(hour, minute) => once(&mut cut.ends, time((*hour, *minute))?)?,
            Item::Lane(lane) => once(&mut cut.lane, within(*lane, 1..=9)?)?,
            Item::Make(count) => once(&mut cut.count, within(*count, 1..=100)?)?,
            Item::SendOff(figure) => {
                once(&mut cut.send_off, new_send_off(*figure)?)?;
            }
            Item::Skip => cut.skip_round = true,
            Item::AllLanes if cut.lane.is_none() => {}
            _ => return Err(Trouble::Senseless),
        }
    }
    let only_lane = cut == Cut { lane: cut.lane, ..Cut::default() };
    if only_lane { Err(Trouble::Senseless) } else { Ok(cut) }
}

/// `220` for a lane is 2:20, as on the pool clock; the reply says it again.
fn new_send_off(figure: Figure) -> Outcome<SendOff> {
    let figure = match figure {
        Figure::Number { value, digits: 3 } if value % 100 < 60 => {
            let (minutes, seconds) = (value / 100, value % 100);
            Figure::Clock { minutes, seconds, hundredths: None }
        }
        other => other,
    };
    send_off(figure).map_err(|_| Trouble::Senseless)
}
