//! The squad's evenings: shut, moved, extra, in another pool; test nights and meets.

use jiff::ToSpan;
use jiff::civil::{Date, Time, Weekday};

use super::test_night::test_night;
use crate::message::{Day, Kind, Slot};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::lane_count;
use crate::reading::frame::mood;
use crate::reading::lexicon::{Concept, Hint, Sense};
use crate::reading::piece::{Far, Item, Named, Piece};
use crate::reading::situation::Role;
use crate::units::Course;

/// Reads a stretch as a change of the timetable.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role != Role::Coach || !c.people().is_empty() {
        return vec![];
    }
    let days = days(c);
    if mood::is_question(c) {
        // `can we do a 200 test tonight for everyone`
        let asked_for = mood::is_request(c) && c.has(Concept::Test);
        let read = test_night(c, &days).filter(|_| asked_for);
        return read.map(|read| read.at_cost(0.1)).into_iter().collect();
    }
    let mut read = Vec::new();
    read.extend(test_night(c, &days));
    if let Some(moved) = moved(c, &days) {
        return vec![moved];
    }
    read.extend(shut(c, &days));
    read.extend(slot(c, &days));
    read.extend(meet(c, &days));
    read
}

/// A day with its place, and whether it is every week's.
pub type Placed = (usize, Named, Day);

fn days(c: &Clause<'_, '_>) -> Vec<Placed> {
    let mut days = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        if let Item::Day(named) = piece.item
            && let Some(day) = c.coming(named)
        {
            days.push((at, named, day));
        }
    }
    // `mon 16th` is one day.
    let doubled = |place: usize| -> bool {
        let [(at, _, day), (next, _, other), ..] = days.get(place..).unwrap_or_default() else {
            return false;
        };
        let Day::On(weekday) = day else { return false };
        *next == at + 1 && date(c, *other).is_some_and(|date| date.weekday() == *weekday)
    };
    let all = days.iter().enumerate().filter(|(place, _)| !doubled(*place));
    all.map(|(_, day)| *day).collect()
}

/// Takes days, hours and little words of a timetable as explained.
pub fn mark(c: &Clause<'_, '_>, candidate: &mut Candidate) {
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |=
            matches!(piece.item, Item::Day(_) | Item::TimeOfDay(..) | Item::Span(_))
                || piece.means(Concept::Squad)
                || piece.means(Concept::Session)
                || piece.means(Concept::Not)
                || piece.means(Concept::Instead)
                || piece.means(Concept::Shut)
                || piece.means(Concept::Water)
                || piece.means(Concept::Only)
                || piece.means(Concept::Until)
                || piece.means(Concept::From)
                || piece.means(Concept::Started)
                || piece.means(Concept::Sorry)
                || piece.means(Concept::Swam)
                || piece.means(Concept::Skip)
                || piece.means(Concept::Extra)
                || piece.means(Concept::Gained)
                || piece.means(Concept::No);
    }
}

/// `pool shut monday`, `no squad wed 11th`, `tonight is off`, `closed from 20 july
/// until 2 august`.
fn shut(c: &Clause<'_, '_>, days: &[Placed]) -> Option<Candidate> {
    // `hoy cerraron un carril`: a lane is no pool.
    let of_lane =
        |at: usize| c.pieces[at + 1..].iter().take(2).any(|piece| piece.means(Concept::Lane));
    let shuts = c.pieces.iter().enumerate().any(|(at, piece)| {
        piece.means(Concept::Shut)
            && (piece.at.1 - piece.at.0 > 1 || piece.text != "off")
            && !of_lane(at)
    });
    let no_pool = c.pieces.array_windows::<2>().any(|pair| {
        matches!(pair[0].text, "no" | "sin")
            && (pair[1].means(Concept::Squad)
                || pair[1].means(Concept::Session)
                || pair[1].means(Concept::Water)
                || pair[1].means(Concept::Swam))
    });
    // `closed monday, so wednesday is our only session`, `back 13th`: when they do swim.
    let open = |at: usize| {
        let behind = c.pieces[at + 1..].iter().take(4);
        at > 0 && c.pieces[at - 1].means(Concept::Back)
            || c.at(at + 1).is_some_and(|next| next.means(Concept::Stay))
            || behind.take_while(|piece| !piece.is_apart()).any(|piece| piece.means(Concept::Only))
    };
    let days: Vec<Placed> = days.iter().copied().filter(|(at, ..)| !open(*at)).collect();
    let days = days.as_slice();
    // `hoy cierran diez minutos antes` is an evening that ends early.
    let early = c.has_any(&[Concept::Early, Concept::Before])
        && c.pieces.iter().any(|piece| matches!(piece.item, Item::Span(_)));
    if !shuts && !no_pool || days.is_empty() || early {
        return None;
    }
    let mut candidate = Candidate::new("shut", c.len());
    mark(c, &mut candidate);
    candidate.used.fill(true);
    let until = days.iter().position(|(at, ..)| {
        *at > 0
            && (c.pieces[at - 1].means(Concept::Until)
                || c.pieces[at - 1].means(Concept::To)
                || c.pieces[at - 1].item == Item::Mark('-'))
    });
    if let (Some(until), [first, ..]) = (until, days)
        && until > 0
        && let (Some(from), Some(to)) = (date(c, first.2), date(c, days.get(until)?.2))
    {
        let nights = (0..60i64)
            .map(|more| from.saturating_add(more.days()))
            .take_while(|day| *day <= to)
            .filter(|day| c.sit.nights.contains(&day.weekday()));
        let nights: Vec<Date> = nights.collect();
        for night in nights {
            candidate = candidate.says(Kind::Shut { days: vec![], on: Some(Day::Full(night)) });
        }
        return (!candidate.says.is_empty()).then(|| candidate.at_cost(0.4));
    }
    for (_, named, day) in days {
        let kind = match (named, day) {
            (Named::Week(_), _) => continue,
            (_, Day::On(weekday)) => Kind::Shut { days: vec![*weekday], on: None },
            (_, day) => Kind::Shut { days: vec![], on: Some(*day) },
        };
        candidate = candidate.says(kind);
    }
    (!candidate.says.is_empty()).then(|| candidate.at_cost(0.4))
}

/// `wed 25 is moved to thurs 26, same time`: shut on the one, and on the other what is usual.
fn moved(c: &Clause<'_, '_>, days: &[Placed]) -> Option<Candidate> {
    let [(first, .., from), (second, .., to)] = days else { return None };
    let joined = c.pieces.part(*first, *second).iter().any(|piece| piece.means(Concept::To));
    if !c.has(Concept::Move) || !joined || c.has_any(&[Concept::Test, Concept::Lane]) {
        return None;
    }
    let mut candidate = Candidate::new("moved", c.len());
    let (starts, minutes) = window(c, &mut candidate);
    candidate.used.fill(true);
    let (from, to) = (date(c, *from)?, date(c, *to)?);
    let slot = Slot {
        starts: starts.or(c.sit.starts),
        minutes,
        on: Some(Day::Full(to)),
        ..Slot::default()
    };
    let shut = Kind::Shut { days: vec![], on: Some(Day::Full(from)) };
    Some(candidate.says(shut).says(Kind::Slot(slot)).at_cost(0.3))
}

/// The date of a day to come; of a night of the squad's today's is one.
pub fn date(c: &Clause<'_, '_>, day: Day) -> Option<Date> {
    match day {
        // Of the squad's nights today's is one.
        Day::On(weekday) if weekday == c.sit.today.weekday() => Some(c.sit.today),
        other => c.date_of(other),
    }
}

/// `tonight starts 7.15`, `half seven to half eight monday`, `extra session sat 14th
/// 8-9am`, `mondays are in the 50m pool from april`.
fn slot(c: &Clause<'_, '_>, days: &[Placed]) -> Option<Candidate> {
    let mut candidate = Candidate::new("slot", c.len());
    mark(c, &mut candidate);
    let (starts, minutes) = window(c, &mut candidate);
    let course = c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let is_pool = |piece: &Piece<'_>| piece.means(Concept::Water) || Hint::Pool.is(piece.text);
        let pool = c.pieces.iter().any(is_pool);
        let course = match piece.item {
            Item::Far(Far::Of(50, _)) if pool => Some(Course::Long50m),
            Item::Far(Far::Of(25, _)) if pool => Some(Course::Short25m),
            _ => piece.sense(|sense| match sense {
                Sense::Course(
                    course @ (Course::Long50m | Course::Short25m | Course::Short25yd),
                ) => Some(*course),
                _ => None,
            }),
        };
        course.inspect(|_| candidate.used[at] = true)
    });
    let lanes = lane_count(c);
    if let Some((at, _)) = lanes {
        candidate.used[at..at + 2].fill(true);
    }
    if starts.is_none() && course.is_none() || days.is_empty() && starts.is_none() {
        return None;
    }
    let evoked = c.has_any(&[
        Concept::Started,
        Concept::Session,
        Concept::Squad,
        Concept::Shut,
        Concept::Water,
        Concept::Open,
        Concept::Move,
        Concept::Swam,
        Concept::Extra,
        Concept::Add,
    ]) || course.is_some()
        || minutes.is_some();
    if !evoked
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(..) | Item::Each(_)))
    {
        return None;
    }
    let weekly: Vec<Weekday> = days
        .iter()
        .filter(|(at, named, _)| {
            // `from next week monday it will be 7.30`
            let from = *at > 0 && c.pieces[at - 1].means(Concept::From);
            matches!(named, Named::Day(Day::On(_), _)) && (c.pieces[*at].is_every_week() || from)
        })
        .filter_map(|(_, named, _)| match named {
            Named::Day(Day::On(weekday), _) => Some(*weekday),
            _ => None,
        })
        .collect();
    let once = days.iter().map(|(_, _, day)| *day).find(|_| weekly.is_empty());
    let on = match once {
        Some(day) => Some(date(c, day).map_or(day, Day::Full)),
        None if weekly.is_empty() => Some(Day::Today),
        None => None,
    };
    let slot =
        Slot { days: weekly, starts, minutes, lanes: lanes.map(|(_, count)| count), on, course };
    Some(candidate.says(Kind::Slot(slot)).at_cost(0.5))
}

/// How far from the usual hour an evening may start where no morning and no minutes are said
/// (ours).
const FAR: i32 = 150;

/// `4 left`, `swam 3:33`: an hour far from the usual one, or no minute of a timetable, is
/// something else.
fn is_usual(c: &Clause<'_, '_>, starts: Time, said: &str) -> bool {
    const EACH: i8 = 5;
    let minutes = |time: Time| i32::from(time.hour()) * 60 + i32::from(time.minute());
    let usual = c.sit.starts.is_none_or(|usual| (minutes(starts) - minutes(usual)).abs() <= FAR);
    // `1:10` is a send-off rather than an hour; `13:10` and `0800` are hours.
    let plain = said.chars().filter(char::is_ascii_digit).count() < 4;
    starts.minute() % EACH == 0 && (usual || !plain || said.ends_with("am") || said.ends_with("pm"))
}

/// When it starts, and for how long: the first two times of day.
fn window(c: &Clause<'_, '_>, candidate: &mut Candidate) -> (Option<Time>, Option<u16>) {
    let usual = c.sit.starts.map_or(19, |starts| starts.hour());
    let mut times: Vec<Time> = Vec::new();
    // `8 till 9am`: both of them.
    let morning = c.pieces.iter().any(|piece| matches!(piece.text, "am" | "morning" | "manana"))
        || (0..c.len()).any(|at| {
            let typed = c.typed(at, at + 1);
            match c.pieces[at].item {
                Item::TimeOfDay(..) => {
                    ["am", "manana", "mañana"].iter().any(|end| typed.ends_with(end))
                }
                // `saturday morning`
                Item::Day(_) => typed.ends_with("morning"),
                // `0800-0900`
                Item::Figure(_) | Item::Range(..) => typed.starts_with('0'),
                _ => false,
            }
        });
    for (at, piece) in c.pieces.iter().enumerate() {
        let denied = at > 0
            && (c.pieces[at - 1].means(Concept::Not) || c.pieces[at - 1].means(Concept::Instead));
        let of = match piece.item {
            Item::TimeOfDay(hour, minute) => Some((hour, minute)),
            Item::Figure(figure) => figure.day_time(),
            Item::Range(from, to) => {
                if let (Some(from), Some(to)) = (from.day_time(), to.day_time()) {
                    times.extend(time(from, usual, morning));
                    times.extend(time(to, usual, morning));
                    candidate.used[at] = true;
                }
                None
            }
            _ => None,
        };
        let near = at > 0
            && (c.pieces[at - 1].means(Concept::At)
                || c.pieces[at - 1].means(Concept::From)
                || c.pieces[at - 1].means(Concept::To)
                || c.pieces[at - 1].means(Concept::Until)
                || c.pieces[at - 1].means(Concept::Started)
                || matches!(c.pieces[at - 1].item, Item::Mark('-') | Item::Day(_))
                || c.pieces[at - 1].means(Concept::Session)
                || matches!(c.pieces[at - 1].text, "to" | "now" | "is"));
        let explicit = matches!(piece.item, Item::TimeOfDay(..))
            || matches!(piece.item, Item::Figure(figure) if figure.whole().is_none());
        if let Some(of) = of.filter(|_| near || explicit) {
            candidate.used[at] = true;
            let said = c.typed(at, at + 1);
            let starts = time(of, usual, morning);
            times.extend(starts.filter(|starts| {
                !denied && (morning || !times.is_empty() || is_usual(c, *starts, said))
            }));
        }
    }
    let minutes = match times.as_slice() {
        [from, to, ..] => {
            let minutes = (i32::from(to.hour()) - i32::from(from.hour())) * 60
                + i32::from(to.minute())
                - i32::from(from.minute());
            u16::try_from(minutes).ok().filter(|minutes| (20..=240).contains(minutes))
        }
        _ => None,
    };
    (times.first().copied(), minutes)
}

fn time((hour, minute): (u8, u8), usual: i8, morning: bool) -> Option<Time> {
    let hour = i8::try_from(hour).ok()?;
    let hour = if hour < 12 && usual >= 12 && !morning { hour + 12 } else { hour };
    Time::new(hour, i8::try_from(minute).ok()?, 0, 0).ok()
}

/// `county meet on 18 april`.
fn meet(c: &Clause<'_, '_>, days: &[Placed]) -> Option<Candidate> {
    let (_, _, day) = days.first()?;
    if !c.has(Concept::Meet)
        || c.pieces
            .iter()
            .any(|piece| matches!(piece.item, Item::Figure(figure) if figure.is_marked()))
    {
        return None;
    }
    let mut candidate = Candidate::new("meet", c.len());
    candidate.used.fill(true);
    let course = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Far(Far::Of(50, _)) => Some(Course::Long50m),
        Item::Far(Far::Of(25, _)) => Some(Course::Short25m),
        _ => None,
    });
    Some(candidate.says(Kind::Meet { on: *day, course }).at_cost(0.7))
}
