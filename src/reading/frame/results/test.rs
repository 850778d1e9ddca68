//! Swims of a set distance against the clock: `200 test 3:12`, `312 again for the
//! 200`, `css test done. 400 6:48 200 3:11`.

use crate::message::{Day, Doubt, Kind, Length, Name, Statement, Test};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::{fits, stroke_of, typed};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Known;
use crate::units::{Centis, Course, Start, Stroke};

/// A distance and its time.
#[derive(Debug, Clone)]
struct Swim {
    length: Length,
    stroke: Option<Stroke>,
    time: Option<(Centis, bool)>,
    splits: Vec<Centis>,
    day: Option<Day>,
    start: Option<Start>,
}

/// Reads a stretch as tests of the sender, or of the one it names.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.people().len() > 1
        || c.speaks_ahead()
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(..)))
    {
        return vec![];
    }
    let sport = c.pieces.iter().any(|piece| {
        piece.sense(|sense| matches!(sense, Sense::Sport(..)).then_some(())).is_some()
    });
    // `lengths of 25 or 33 at that gala`
    let is_figure = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(_) | Item::Far(_));
    let choice = c
        .pieces
        .windows(3)
        .any(|three| is_figure(&three[0]) && three[1].means(Concept::Or) && is_figure(&three[2]));
    // `los 50 en 46 promedio`: of repeats.
    let averaged = c.has(Concept::Average) && c.pieces.iter().any(Piece::is_counted_plural);
    if sport || choice || averaged {
        return vec![];
    }
    let who = c.other().and_then(|one| c.name(one));
    // A coach who does not swim here tells of others only.
    if who.is_none() && c.sit.me.is_none() {
        return vec![];
    }
    let whose = c.subject();
    let Some((swims, used)) = swims(c, whose) else {
        return bare(c, whose, who).into_iter().collect();
    };
    let evoked = c.has_any(&[Concept::Test, Concept::Best, Concept::Meet])
        || c.pieces.iter().any(|piece| {
            piece.sense(|sense| matches!(sense, Sense::Start(_)).then_some(())).is_some()
        });
    let course = c.pieces.iter().find_map(|piece| {
        piece.sense(|sense| match sense {
            Sense::Course(course) => Some(*course),
            _ => None,
        })
    });
    if course == Some(Course::OpenWater) && !evoked {
        return vec![];
    }
    let meet = c.has(Concept::Meet);
    let day = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.past(named),
        _ => None,
    });
    let start = c.pieces.iter().find_map(|piece| {
        piece.sense(|sense| match sense {
            Sense::Start(start) => Some(*start),
            _ => None,
        })
    });
    let mut candidate = Candidate::new("test", c.len());
    candidate.used = used;
    let mut doubtful = false;
    let mut tests = Vec::new();
    for swim in swims {
        let stroke = swim.stroke.unwrap_or(Stroke::Free);
        let Some((time, tenths)) = swim.time else { return vec![] };
        let share = whose
            .and_then(|known| known.expected(swim.length.amount, stroke))
            .map(|expected| time.seconds() / expected);
        let near = match share {
            Some(share) => (0.8..=if stroke == Stroke::Free { 1.22 } else { 1.5 }).contains(&share),
            None => false,
        };
        doubtful |= !near && !evoked;
        let on = swim.day.or(day).or_else(|| {
            let night = c.sit.swum_on();
            (night != c.sit.today).then_some(Day::Full(night))
        });
        tests.push(Test {
            distance: swim.length,
            time: typed(time, tenths),
            stroke: swim.stroke,
            course,
            on,
            splits: swim.splits,
            start: swim.start.or(start),
            meet,
        });
    }
    let says: Vec<Statement> = tests
        .iter()
        .map(|test| Statement { who: who.clone(), kind: Kind::Test(test.clone()) })
        .collect();
    if doubtful {
        let done = tests.iter().map(|test| sessions(test, who.clone())).collect();
        let options = vec![("test".to_owned(), says), ("done".to_owned(), done)];
        return vec![candidate.asking(Doubt::TestOrSession, options).at_cost(1.0)];
    }
    candidate.says = says;
    vec![candidate.at_cost(if evoked { 0.1 } else { 0.3 })]
}

/// `3:11` of someone whose best over 200 is 3:12: asked about, where it can be a time
/// over no other distance of theirs.
fn bare(c: &Clause<'_, '_>, whose: Option<&Known>, who: Option<Name>) -> Option<Candidate> {
    const LIKE: std::ops::RangeInclusive<f64> = 0.92..=1.09;
    let known = whose?;
    if who.is_some() || c.len() > SHORT {
        return None;
    }
    let timed = |piece: &Piece<'_>| match piece.item {
        Item::Figure(figure) if figure.is_marked() => figure.times().first().copied(),
        Item::Figure(figure @ Figure::Parted { places: 2, .. }) => figure.times().first().copied(),
        _ => None,
    };
    let mut times = (0..c.len()).filter_map(|at| Some((at, timed(&c.pieces[at])?)));
    let (at, time) = times.next()?;
    // `3:15, thought I'd cracked 3:10`: what was hoped for comes behind.
    let others = c.pieces.iter().enumerate().any(|(place, piece)| {
        place != at
            && timed(piece).is_none()
            && !matches!(
                piece.item,
                Item::Word
                    | Item::Chatter
                    | Item::Unknown
                    | Item::Mark(_)
                    | Item::Picture
                    | Item::Day(_)
            )
    });
    let speaks = [Concept::Until, Concept::By, Concept::Late, Concept::SetTime, Concept::Want];
    if others || times.count() > 1 || c.has_any(&speaks) {
        return None;
    }
    let mut fits = known.bests.iter().filter(|(distance, stroke, best)| {
        *stroke == Stroke::Free
            && *distance >= 100
            && LIKE.contains(&(time.seconds() / best.seconds()))
    });
    let (distance, ..) = fits.next()?;
    if fits.any(|(other, ..)| other != distance) {
        return None;
    }
    let test = Test {
        distance: Length { amount: *distance, unit: None },
        time: typed(time, false),
        stroke: None,
        course: None,
        on: None,
        splits: vec![],
        start: None,
        meet: false,
    };
    let says = vec![Statement { who, kind: Kind::Test(test) }];
    let mut candidate = Candidate::new("test", c.len());
    candidate.used[at] = true;
    Some(candidate.asking_whether(says).at_cost(0.8))
}

/// Pieces up to which a text may be little more than a time.
const SHORT: usize = 14;

/// The same, swum but not against the clock.
fn sessions(test: &Test, who: Option<Name>) -> Statement {
    let done = crate::message::Done {
        distance: Some(test.distance),
        lengths: None,
        duration: test.time.readings.first().copied(),
        rpe: None,
        on: test.on,
        sport: None,
        activity: None,
        shortened: false,
    };
    Statement { who, kind: Kind::Done(done) }
}

/// A distance that people test over, or that a bare number beside a time may be.
const fn is_raced(amount: u32) -> bool {
    matches!(
        amount,
        25 | 50
            | 75
            | 100
            | 150
            | 200
            | 250
            | 300
            | 400
            | 500
            | 600
            | 750
            | 800
            | 1000
            | 1200
            | 1500
            | 1600
            | 1609
            | 1650
            | 1900
            | 2000
            | 3000
            | 3800
            | 5000
    )
}

/// Pairs distances and times, in whichever order they stand.
fn swims(c: &Clause<'_, '_>, whose: Option<&Known>) -> Option<(Vec<Swim>, Vec<bool>)> {
    let mut used = vec![false; c.len()];
    let mut swims: Vec<Swim> = Vec::new();
    let mut loose: Option<(usize, usize, Figure)> = None;
    let mut stroke: Option<Stroke> = None;
    let mut at = 0;
    while at < c.len() {
        let piece = &c.pieces[at];
        if let Some(found) = stroke_of(piece).filter(|stroke| !matches!(stroke, Stroke::Drill)) {
            let open = swims.last_mut().filter(|swim| swim.stroke.is_none());
            match open {
                Some(swim) => swim.stroke = Some(found),
                None => stroke = Some(found),
            }
            used[at] = true;
            at += 1;
            continue;
        }
        if piece.means(Concept::Splits) && !swims.is_empty() {
            used[at] = true;
            let (splits, end) = splits(c, at + 1, &mut used);
            if let Some(swim) = swims.last_mut() {
                if swim.time.is_none() && splits.len() > 1 {
                    let sum = splits.iter().copied().reduce(|one, other| one + other);
                    swim.time = sum.map(|sum| (sum, !sum.is_whole_seconds()));
                }
                swim.splits = apart(&splits, swim.time.map(|(time, _)| time));
            }
            at = end;
            continue;
        }
        // `baje de 1:30 en el cien, 1:29.4`: what it was to be under, where the time
        // itself is told behind.
        let told_behind = |from: usize| {
            c.pieces[from..].iter().any(
                |next| matches!(next.item, Item::Figure(figure) if figure.is_marked() || matches!(figure, Figure::Parted { .. })),
            )
        };
        if piece.means(Concept::Under)
            && let Some(Item::Figure(figure)) = c.at(at + 1).map(|next| next.item)
            && figure.is_marked()
            && told_behind(at + 2)
        {
            used[at..at + 2].fill(true);
            at += 2;
            continue;
        }
        // `first 200 3.19` within a 400: a split.
        let fraction = match &piece.item {
            Item::Figure(figure) => figure.whole().filter(|value| is_raced(*value)),
            Item::Far(far) => c.length(*far).map(|length| length.amount),
            _ => None,
        };
        if let (Some(part), Some(swim)) = (fraction, swims.last_mut())
            && at > 0
            && c.pieces[at - 1].means(Concept::First)
            && part < swim.length.amount
            && let Some((Item::Figure(figure), total)) =
                c.at(at + 1).map(|next| next.item).zip(swim.time)
            && let Some(split) = c.time(figure, part, swim.stroke.unwrap_or(Stroke::Free), whose)
        {
            if part * 2 == swim.length.amount
                && let Some(other) = total.0.less(split)
            {
                swim.splits = vec![split, other];
            }
            used[at - 1..=at + 1].fill(true);
            at += 2;
            continue;
        }
        let typed_length = match &piece.item {
            Item::Far(far) => c.length(*far),
            _ => None,
        };
        let bare = match &piece.item {
            Item::Figure(figure) => figure.whole().filter(|value| is_raced(*value)),
            // The repeats of the set in force are no test.
            Item::Plural(value)
                if !swims.iter().any(|swim| swim.time.is_none())
                    && !c.sit.set.as_ref().is_some_and(|set| {
                        set.main().is_some_and(|main| main.distance == *value)
                    }) =>
            {
                Some(*value)
            }
            _ => None,
        };
        let waits = swims.last().is_some_and(|swim| swim.time.is_none());
        // A number that is a time of the distance before it.
        let said = stroke;
        let as_time = |figure: Figure, swim: &Swim| {
            c.time(figure, swim.length.amount, swim.stroke.or(said).unwrap_or(Stroke::Free), whose)
        };
        // `1500 and 2000` are two distances.
        let round = matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if value >= 400 && value.is_multiple_of(50));
        if let (Item::Figure(figure), true) = (piece.item, waits && !round) {
            let joined = joined_time(c, at);
            let swim = swims.last_mut()?;
            let found = joined
                .and_then(|(figure, length)| {
                    as_time(figure, swim).map(|time| (time, length, figure))
                })
                .or_else(|| as_time(figure, swim).map(|time| (time, 1, figure)));
            if let Some((time, length, figure)) = found {
                swim.time = Some((time, figure.has_tenths() || !time.is_whole_seconds()));
                used[at..at + length].fill(true);
                at += length;
                continue;
            }
        }
        if let (Item::Span(time), true) = (piece.item, waits)
            && c.has_any(&[Concept::Test])
        {
            let swim = swims.last_mut()?;
            if fits(
                time,
                swim.length.amount,
                c.sit.course,
                swim.stroke.unwrap_or(Stroke::Free),
                whose.and_then(|known| known.expected(swim.length.amount, Stroke::Free)),
            ) {
                swim.time = Some((time, false));
                used[at] = true;
                at += 1;
                continue;
            }
        }
        // `no wait 6.57`: the time put right within the text.
        if let (Item::Figure(figure), Some(swim)) = (piece.item, swims.last_mut())
            && at > 0
            && (c.pieces[at - 1].means(Concept::Sorry)
                || at > 1
                    && c.pieces[at - 2].means(Concept::Sorry)
                    && c.pieces[at - 1].senses.is_empty())
            && let Some(time) =
                c.time(figure, swim.length.amount, swim.stroke.unwrap_or(Stroke::Free), whose)
        {
            swim.time = Some((time, figure.has_tenths()));
            used[at] = true;
            used[at - 1] = true;
            at += 1;
            continue;
        }
        if let Some(length) = typed_length.or(bare.map(|amount| Length { amount, unit: None })) {
            let mut swim = Swim {
                length,
                stroke: stroke.take(),
                time: None,
                splits: vec![],
                day: None,
                start: None,
            };
            // `312 again for the 200`: the time came first.
            if let Some((before, taken, figure)) = loose
                && let Some(time) = as_time(figure, &swim)
            {
                let follows = c.at(at + 1).is_some_and(|next| matches!(next.item, Item::Figure(figure) if as_time(figure, &swim).is_some()));
                if !follows {
                    swim.time = Some((time, figure.has_tenths()));
                    used[before..before + taken].fill(true);
                    loose = None;
                }
            }
            let again =
                swims.iter().any(|other| other.length == swim.length && other.time.is_some())
                    && swim.time.is_none();
            // A distance said twice is said of the same swim.
            if !again {
                if waits {
                    // The one before had no time: it was no test.
                    swims.pop();
                }
                swims.push(swim);
            }
            used[at] = true;
            at += 1;
            continue;
        }
        if let Item::Figure(figure) = piece.item {
            let (figure, length) = joined_time(c, at).unwrap_or((figure, 1));
            loose = loose.or(Some((at, length, figure)));
            at += length;
            continue;
        }
        let plain = piece.means(Concept::Test)
            || piece.means(Concept::Best)
            || piece.means(Concept::Meet)
            || piece.means(Concept::Swam)
            || piece.means(Concept::Done)
            || piece.means(Concept::Same)
            || matches!(piece.item, Item::Day(_) | Item::Person(_))
            || piece
                .sense(|sense| matches!(sense, Sense::Start(_) | Sense::Course(_)).then_some(()))
                .is_some();
        used[at] |= plain;
        at += 1;
    }
    if let (Some(stroke), [only]) = (stroke, swims.as_mut_slice()) {
        only.stroke = only.stroke.or(Some(stroke));
    }
    swims.retain(|swim| swim.time.is_some());
    (!swims.is_empty()).then_some((swims, used))
}

/// `3 12`: minutes and seconds with a space.
fn joined_time(c: &Clause<'_, '_>, at: usize) -> Option<(Figure, usize)> {
    let (
        Item::Figure(Figure::Whole { value: minutes, places: one }),
        Item::Figure(Figure::Whole { value: seconds, places: two }),
    ) = (c.at(at)?.item, c.at(at + 1)?.item)
    else {
        return None;
    };
    let in_digits = one <= 2 && two == 2;
    let in_words = one == 0 && two == 0;
    let fit = (in_digits || in_words) && (1..60).contains(&minutes) && seconds < 60;
    fit.then_some((Figure::Whole { value: minutes * 100 + seconds, places: 3 }, 2))
}

/// The figures behind `splits`.
fn splits(c: &Clause<'_, '_>, from: usize, used: &mut [bool]) -> (Vec<Centis>, usize) {
    let mut splits = Vec::new();
    let mut at = from;
    while let Some(piece) = c.at(at) {
        match piece.item {
            Item::Figure(figure) => match figure.times().first() {
                Some(time) => {
                    splits.push(*time);
                    used[at] = true;
                }
                None => break,
            },
            Item::Mark(',' | '/' | '-' | ':' | '&') => {}
            _ if piece.means(Concept::And)
                || piece.means(Concept::Held)
                || matches!(piece.text, "of" | "de" | "en") => {}
            _ => break,
        }
        at += 1;
    }
    (splits, at)
}

/// Splits each on its own, where they were given as they ran.
fn apart(splits: &[Centis], time: Option<Centis>) -> Vec<Centis> {
    let rising = splits.windows(2).all(|pair| pair[0] < pair[1]);
    let runs = rising && splits.len() > 1 && time.is_some_and(|time| splits.last() == Some(&time));
    if !runs {
        return splits.to_vec();
    }
    let mut before: Option<Centis> = None;
    let one = |at: &Centis| {
        let own = before.map_or(Some(*at), |before| at.less(before));
        before = Some(*at);
        own
    };
    splits.iter().filter_map(one).collect()
}
