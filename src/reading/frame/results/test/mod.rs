//! Swims of a set distance against the clock: `200 test 3:12`, `312 again for the
//! 200`, `css test done. 400 6:48 200 3:11`.

mod kit;
mod pairs;
mod splits;

use crate::message::{Day, Doubt, Kind, Length, Name, Statement, Test};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::typed;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Known;
use crate::units::{Course, Stroke};
pub use kit::with_kit;
use kit::worn;
use pairs::swims;

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
        .array_windows::<3>()
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
        || c.pieces.iter().any(|piece| piece.start().is_some());
    let course = c.pieces.iter().find_map(|piece| piece.course());
    if course == Some(Course::OpenWater) && !evoked {
        return vec![];
    }
    let meet = c.has(Concept::Meet);
    let day = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.past(named),
        _ => None,
    });
    let start = c.pieces.iter().find_map(|piece| piece.start());
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
    let kit = worn(c);
    let kind = |test: &Test| match kit.is_empty() {
        true => Kind::Test(test.clone()),
        false => Kind::SetResult(with_kit(test, kit.clone())),
    };
    let says: Vec<Statement> =
        tests.iter().map(|test| Statement { who: who.clone(), kind: kind(test) }).collect();
    candidate.used.mark(c.pieces, |piece| piece.kit().is_some_and(|one| kit.contains(&one)));
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
    let test = Test::new(Length { amount: *distance, unit: None }, typed(time, false));
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
        duration: test.time.readings.first().copied(),
        on: test.on,
        ..crate::message::Done::default()
    };
    Statement { who, kind: Kind::Done(done) }
}
