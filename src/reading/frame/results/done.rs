//! Sessions swum and other training: metres, lengths, minutes, effort.

use crate::message::{Day, Done, Doubt, Kind, Length, Name, Sport, TimedTest, Wants};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::reading::situation::Phase;
use crate::units::{Centis, Rpe};

/// What a stretch tells of one session.
#[derive(Debug, Default)]
struct Told {
    length: Option<Length>,
    total: bool,
    duration: Option<Centis>,
    rpe: Option<u8>,
    day: Option<Day>,
    sport: Option<Sport>,
    activity: Option<String>,
}

/// Reads a stretch as a session of the sender, or of the one it names.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.people().len() > 1 || c.speaks_ahead() || has_no_longer(c) {
        return vec![];
    }
    // `200 test`, `200 im next`: of something else, of which more is to be said.
    let others = [Concept::Test, Concept::Next, Concept::Plan, Concept::Targets];
    let sport = |piece: &Piece<'_>| {
        piece.sense(|sense| matches!(sense, Sense::Sport(..)).then_some(())).is_some()
    };
    if c.has_any(&others)
        && !c.has_any(&[Concept::Done, Concept::Swam, Concept::Total])
        && !c
            .pieces
            .iter()
            .any(|piece| matches!(piece.item, Item::Span(_) | Item::Rpe(_)) || sport(piece))
    {
        return vec![];
    }
    let who = c.other().and_then(|one| c.name(one));
    // A coach who does not swim here tells of others only.
    if who.is_none() && c.sit.me.is_none() {
        return vec![];
    }
    // `hurt my knee skiing but the 400 was 6:50`: the sport stands in another clause than
    // the figures.
    let figure = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(_) | Item::Far(_));
    let parted = c.pieces.iter().rposition(sport).is_some_and(|at| {
        let parts = |piece: &Piece<'_>| {
            piece.means(Concept::But) || matches!(piece.item, Item::Mark('.' | ';' | '!'))
        };
        let next = c.pieces[at..].iter().position(figure);
        !c.pieces[..at].iter().any(figure)
            && next.is_some_and(|next| c.pieces[at..at + next].iter().any(parts))
    });
    if parted {
        return vec![];
    }
    let mut candidate = Candidate::new("done", c.len());
    let mut told = Told::default();
    for (at, piece) in c.pieces.iter().enumerate() {
        let sport = piece.sense(|sense| match sense {
            Sense::Sport(sport, name) => Some((*sport, *name)),
            _ => None,
        });
        if let Some((sport, name)) =
            sport.filter(|(sport, _)| told.sport.is_none_or(|told| told == *sport))
        {
            told.sport = Some(sport);
            told.activity = (sport == Sport::Other).then(|| name.to_owned());
            candidate.used[at] = true;
            continue;
        }
        let beside = |place: Option<usize>, concept: Concept| {
            place.and_then(|place| c.at(place)).is_some_and(|piece| piece.means(concept))
        };
        match piece.item {
            Item::Far(far) => {
                let total = beside(Some(at + 1), Concept::Total)
                    || beside(at.checked_sub(1), Concept::Total);
                // `the last 200 was backstroke` is a part of it.
                let part = beside(at.checked_sub(1), Concept::Last)
                    || beside(at.checked_sub(1), Concept::First);
                if told.length.is_some()
                    && told.length.map(|length| length.amount)
                        == c.length(far).map(|length| length.amount)
                {
                    candidate.used[at] = true;
                } else if told.length.is_none() && !part || total {
                    told.length = c.length(far);
                    told.total |= total;
                    candidate.used[at] = true;
                } else if !matches!(far, Far::Lengths(_)) {
                    candidate.used[at] = part;
                }
            }
            // `did 16x25 sprint, didnt time any`
            Item::Repeat(count, far)
                if told.length.is_none() && c.has_any(&[Concept::Swam, Concept::Done]) =>
            {
                told.length = c.length(far).and_then(|each| {
                    Some(Length { amount: each.amount.checked_mul(count)?, ..each })
                });
                candidate.used[at] = true;
            }
            Item::Figure(figure) => {
                let total = beside(Some(at + 1), Concept::Total)
                    || beside(at.checked_sub(1), Concept::Total)
                    || at > 0 && matches!(c.pieces[at - 1].item, Item::Mark('='));
                if let Some(length) = bare(figure, total)
                    && (told.length.is_none() || total)
                {
                    told.length = Some(length);
                    told.total |= total;
                    candidate.used[at] = true;
                } else if told.sport.is_some() && told.duration.is_none() && figure.is_marked() {
                    told.duration = figure.times().first().copied();
                    candidate.used[at] = true;
                } else if told.sport.is_some()
                    && told.duration.is_none()
                    && told.length.is_some()
                    && matches!(figure, Figure::Parted { .. })
                {
                    // `5k run sat 26.12`
                    told.duration = figure
                        .times()
                        .into_iter()
                        .find(|time| (600.0..=30_000.0).contains(&time.seconds()));
                    candidate.used[at] = told.duration.is_some();
                } else if told.length.is_some_and(|length| length.amount >= 400)
                    && told.duration.is_none()
                    && figure.is_marked()
                {
                    told.duration = figure.times().first().copied();
                    candidate.used[at] = true;
                }
            }
            Item::Span(time) if told.duration.is_none() && time.seconds() >= 240.0 => {
                told.duration = Some(time);
                candidate.used[at] = true;
            }
            Item::Rpe(tenths) => {
                told.rpe = Some(tenths);
                candidate.used[at] = true;
            }
            Item::Day(named) if told.day.is_none() => {
                told.day = c.past(named);
                candidate.used[at] = true;
            }
            Item::Person(_) => candidate.used[at] = true,
            Item::Word => {
                let plain = [
                    Concept::Done,
                    Concept::Swam,
                    Concept::Session,
                    Concept::Total,
                    Concept::Only,
                    Concept::All,
                    Concept::About,
                    Concept::Set,
                ]
                .iter()
                .any(|concept| piece.means(*concept))
                    || piece
                        .sense(|sense| {
                            matches!(
                                sense,
                                Sense::Level(_)
                                    | Sense::Stroke(_)
                                    | Sense::Course(_)
                                    | Sense::Kit(_)
                                    | Sense::Part(_)
                            )
                            .then_some(())
                        })
                        .is_some();
                candidate.used[at] = plain;
            }
            _ => {}
        }
    }
    if told.sport.is_none()
        && c.has(Concept::Test)
        && told
            .duration
            .is_some_and(|time| time.hundredths().is_multiple_of(6000) && time.seconds() >= 300.0)
        && told.length.is_some()
    {
        return timed(c, candidate, &told, who);
    }
    told.duration = told.duration.map(|time| in_hours(time, &told));
    settle(c, candidate, told, who).into_iter().collect()
}

/// `ran 8 mi, 1:06` is of hours and minutes: nobody runs or rides faster than this by
/// their own strength (cyclists on the flat reach some 20 m/s; from memory).
fn in_hours(time: Centis, told: &Told) -> Centis {
    const FASTEST_M_PER_S: f64 = 25.0;
    let metres = told.length.map_or(0.0, |length| f64::from(length.amount));
    let possible = told.sport.is_none() || metres <= FASTEST_M_PER_S * time.seconds();
    match possible {
        true => time,
        false => Centis::new(time.hundredths().saturating_mul(60)).unwrap_or(time),
    }
}

/// `30min test 1850`
fn timed(
    c: &Clause<'_, '_>,
    mut candidate: Candidate,
    told: &Told,
    who: Option<Name>,
) -> Vec<Candidate> {
    let (Some(distance), Some(duration)) = (told.length, told.duration) else { return vec![] };
    candidate.used.mark(c.pieces, |piece| piece.means(Concept::Test));
    let test = TimedTest { duration, distance, stroke: c.stroke(), course: None, on: told.day };
    vec![candidate.says_of(who, Kind::TimedTest(test)).at_cost(0.3)]
}

/// A number that is a distance by its size: three digits and more, whole lengths.
fn bare(figure: Figure, total: bool) -> Option<Length> {
    match figure {
        Figure::Whole { value, .. }
            if (200..=20_000).contains(&value)
                && value.is_multiple_of(if value < 1000 { 25 } else { 10 }) =>
        {
            Some(Length { amount: value, unit: None })
        }
        // `2.4 total` is thousands of metres.
        Figure::Parted { whole, parts, places, .. } if total && (1..=20).contains(&whole) => {
            let amount = whole * 1000 + if places == 1 { parts * 100 } else { parts * 10 };
            Some(Length { amount, unit: None })
        }
        _ => None,
    }
}

/// Metres a second that nobody falls below over a whole session. Ours.
const SLOWEST: f64 = 0.1;

fn settle(
    c: &Clause<'_, '_>,
    candidate: Candidate,
    told: Told,
    who: Option<Name>,
) -> Option<Candidate> {
    // `25m, about 40 mins`: the pool, and no way swum in it.
    let crawls = match (told.length, told.duration) {
        (Some(length), Some(duration)) if told.sport.is_none() => {
            f64::from(length.amount) < SLOWEST * duration.seconds()
        }
        _ => false,
    };
    if crawls {
        return None;
    }
    let evoked = c.has_any(&[Concept::Done, Concept::Swam, Concept::Session, Concept::Total]);
    let from_lengths = c.pieces.iter().any(|piece| matches!(piece.item, Item::Far(_)));
    let on = told.day.or_else(|| c.day_joined()).or_else(|| {
        let night = c.sit.swum_on();
        (night != c.sit.today).then_some(Day::Full(night))
    });
    let done = Done {
        distance: told.length,
        lengths: None,
        duration: told.duration,
        rpe: told.rpe.and_then(|tenths| Rpe::from_tenths(tenths).ok()),
        on,
        sport: told.sport,
        activity: told.activity.clone(),
        shortened: c.has(Concept::Short) && told.length.is_none(),
    };
    let says = |cost: f32, candidate: Candidate| {
        Some(candidate.says_of(who.clone(), Kind::Done(done.clone())).at_cost(cost))
    };
    if told.sport.is_some() {
        // `futbol 90 min, y nade 1200`: two things.
        let swam = c.has(Concept::Swam) && told.length.is_some();
        return says(if swam { 2.5 } else { 0.3 }, candidate);
    }
    let days = c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(_)));
    // `couldn't finish the 400`
    let denied = if c.has_any(&[Concept::Cant, Concept::Didnt, Concept::Not]) { 1.2 } else { 0.0 };
    let says = |cost: f32, candidate: Candidate| says(cost + denied, candidate);
    match (told.length, told.duration, told.rpe) {
        (Some(length), Some(time), _) => {
            // Faster than a race is no session.
            let speed = f64::from(length.amount) / time.seconds();
            (speed < 1.9).then(|| says(0.6, candidate)).flatten()
        }
        (Some(length), None, _)
            if evoked
                || told.total
                || from_lengths && length.amount >= 400
                || length.amount >= 600 =>
        {
            says(0.7, candidate)
        }
        // `200 1:40`: a time that it does not explain makes it something else.
        (Some(_), None, _) if times_left(c, &candidate) => None,
        // `a pool of 33 m`: nothing swum.
        (Some(length), None, _) if length.amount < 100 => None,
        (Some(_), None, _) => says(1.4, candidate),
        (None, Some(_), _) if days && !evoked && c.people().is_empty() && c.len() <= 8 => {
            says(1.2, candidate)
        }
        (None, Some(_), _) if evoked || c.pieces.iter().any(|piece| piece.course().is_some()) => {
            says(0.8, candidate)
        }
        (None, None, Some(_)) => says(0.6, candidate),
        (None, None, None) => whole_session(c, candidate, done, who),
        _ => None,
    }
}

/// True if a time stands in the stretch that was made nothing of.
fn times_left(c: &Clause<'_, '_>, candidate: &Candidate) -> bool {
    c.pieces.iter().zip(candidate.used.iter()).any(|(piece, used)| {
        !used && matches!(piece.item, Item::Figure(figure) if figure.is_marked())
    })
}

/// `did the lot`, `full session as written`, `all done`.
fn whole_session(
    c: &Clause<'_, '_>,
    candidate: Candidate,
    done: Done,
    who: Option<Name>,
) -> Option<Candidate> {
    let whole = c.has(Concept::All) && c.has_any(&[Concept::Done, Concept::Swam, Concept::Made])
        || c.pieces.iter().any(|piece| {
            piece.means(Concept::All) && piece.text == "the" && piece.at.1 - piece.at.0 > 1
        });
    let session = c.has(Concept::Session) && c.has_any(&[Concept::Done, Concept::Swam]);
    let alone = c
        .pieces
        .iter()
        .filter(|piece| !matches!(piece.item, Item::Mark(_) | Item::Picture | Item::Line))
        .count();
    if whole || session || c.has(Concept::Done) && alone == 1 {
        return Some(candidate.says_of(who, Kind::Done(done)).at_cost(0.8));
    }
    let swam = c.has(Concept::Swam) && alone <= 3;
    swam.then(|| candidate.asking(Doubt::Missing { wants: Wants::HowFar }, vec![]).at_cost(1.2))
}

/// `missed tue`, `didn't swim today`.
pub fn missed(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let Some(at) = c.find(Concept::MissedSwim) else { return vec![] };
    if !c.people().is_empty() {
        return vec![];
    }
    let mut candidate = Candidate::new("missed", c.len());
    candidate.used[at] = true;
    let mut on = None;
    for (at, piece) in c.pieces.iter().enumerate() {
        // `on lates this week so no swim tonight`: a week is no day that was missed.
        if let Item::Day(named) = piece.item {
            let week = c.monday_of(named).is_some();
            on = on.or(c.past(named).filter(|_| !week));
            candidate.used[at] = true;
        }
    }
    vec![candidate.says(Kind::Missed { on }).at_cost(0.6)]
}

/// `only got 40 mins tonight`, before the evening: what there is time for.
pub fn has_no_longer(c: &Clause<'_, '_>) -> bool {
    let span = |piece: &Piece<'_>| matches!(piece.item, Item::Span(_));
    let got = |piece: &Piece<'_>| matches!(piece.text, "got" | "have");
    matches!(c.sit.phase, Phase::Before | Phase::None)
        && (c.has(Concept::Max) || c.has(Concept::Only) && c.pieces.iter().any(got))
        && c.pieces.iter().any(span)
        && !c.has_any(&[Concept::Done, Concept::Swam])
}
