//! What else of the last text a short one changes: a field that it names, days away.

use super::clue::{course, distance_instead, effort, figures, is_behind_not, minutes_alone};
use crate::message::{Day, Kind, Statement};
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::stroke_of;
use crate::reading::frame::{Clause, mood};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Piece};

/// True of a text that names a field of what was said last, and hardly more: a pool, a start,
/// a stroke, how hard it was, how late.
pub fn names_a_field(c: &Clause<'_, '_>) -> bool {
    const SHORT: usize = 6;
    const LONGEST: usize = 10;
    let [said] = c.sit.before.as_slice() else { return false };
    let whole = c.len() == c.all.len() && c.len() <= LONGEST && c.people().is_empty();
    if !whole || mood::is_question(c) {
        return false;
    }
    match &said.kind {
        Kind::Test(test) => {
            course(c).is_some() && figures(c).len() <= 1
                || c.pieces.iter().any(|piece| piece.start().is_some())
                || c.len() <= SHORT && figures(c).is_empty() && names_stroke(c)
                || distance_instead(c, test.distance.amount).is_some()
        }
        Kind::SetResult(_) => c.pieces.iter().any(|piece| matches!(piece.item, Item::Rpe(_))),
        Kind::Done(done) => {
            let far = c.pieces.iter().any(|piece| matches!(piece.item, Item::Far(_)));
            done.rpe.is_some() && rates_anew(c) || done.sport.is_some() && far
        }
        Kind::Attend { coming: true, late_min, .. } => {
            minutes_alone(c, late_min.is_some()).is_some()
        }
        Kind::Race { .. } => {
            let day = c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(_)));
            let hopes = c.has_any(&[Concept::Goal, Concept::Under, Concept::Want]);
            day && is_put_right(c) && figures(c).is_empty() || hopes && figures(c).len() == 1
        }
        _ => false,
    }
}

/// A stroke, and little beside it that says anything: `breaststroke i should add`, `de
/// espalda`; a back that may hurt, or somebody who is back, is none.
fn names_stroke(c: &Clause<'_, '_>) -> bool {
    let says = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Day(_))
            || [Concept::Pain, Concept::Can, Concept::Want, Concept::Next, Concept::Targets]
                .iter()
                .any(|one| piece.means(*one))
    };
    let named = (0..c.len()).any(|at| {
        let piece = &c.pieces[at];
        let other = piece.is_of_health() || piece.means(Concept::Back);
        let led =
            at > 0 && matches!(c.pieces[at - 1].text, "de" | "a" | "en" | "era" | "fue" | "was");
        stroke_of(piece).is_some() && (!other || led)
    });
    named && !c.pieces.iter().any(says)
}

/// How hard it was, told once more: `felt more like an 8`, `on reflection eight`.
fn rates_anew(c: &Clause<'_, '_>) -> bool {
    const SHORT: usize = 4;
    let other = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Day(_) | Item::TimeOfDay(..) | Item::Span(_) | Item::Far(_))
            || [Concept::At, Concept::Come, Concept::Late, Concept::Want, Concept::Lane]
                .iter()
                .any(|one| piece.means(*one))
    });
    let weighs = c.has_any(&[Concept::About, Concept::Sorry, Concept::Instead, Concept::Rpe])
        || c.pieces.iter().any(|piece| matches!(piece.text, "felt" | "feels" | "fue" | "senti"));
    effort(c, true).is_some() && !other && (weighs || c.len() <= SHORT)
}

/// `its the 21st they moved it`, `28th my bad`
fn is_put_right(c: &Clause<'_, '_>) -> bool {
    c.has_any(&[Concept::Sorry, Concept::Instead, Concept::Not, Concept::Refers])
        || c.pieces.iter().any(|piece| matches!(piece.text, "its" | "moved" | "now" | "digo"))
}

/// Days away told anew: `only the monday, wednesday I'm back`, `the week after I mean`, `doc
/// says three actually`, `me he liado, del 12 al 22`.
pub fn of_away(c: &Clause<'_, '_>) -> Option<Candidate> {
    const LONGEST: usize = 14;
    let [Statement { who, kind: Kind::Away { from, until } }] = c.sit.before.as_slice() else {
        return None;
    };
    let whole = c.len() == c.all.len() && c.len() <= LONGEST && c.people().is_empty();
    if !whole || mood::is_question(c) {
        return None;
    }
    let days = days(c);
    let kinds = restricted(c, &days, *from, *until)
        .or_else(|| moved_weeks(c, &days, *from, *until).map(|kind| vec![kind]))
        .or_else(|| moved(c, &days, *from, *until).map(|kind| vec![kind]))?;
    let says: Vec<Statement> =
        kinds.into_iter().map(|kind| Statement { who: who.clone(), kind }).collect();
    let mut candidate = Candidate::new("correct", c.len());
    candidate.used.mark(c.pieces, |piece| !piece.is_of_health());
    Some(candidate.says(Kind::Restate { says, changed: 0 }).at_cost(0.2))
}

/// The days that are named, each with whether somebody comes on it.
fn days(c: &Clause<'_, '_>) -> Vec<(Day, bool)> {
    let mut days = Vec::new();
    let parts = |at: usize| {
        let piece = &c.pieces[at];
        piece.is_apart() || piece.means(Concept::And) || piece.means(Concept::But)
    };
    for (at, piece) in c.pieces.iter().enumerate() {
        let Item::Day(named) = piece.item else { continue };
        let Some(day) = c.coming(named) else { continue };
        // What is said of it stands in its own part, or behind the last day before it.
        let from = (0..at)
            .rev()
            .find(|at| parts(*at) || matches!(c.pieces[*at].item, Item::Day(_)))
            .map_or(0, |at| at + 1);
        let to = (at + 1..c.len()).find(|at| parts(*at)).unwrap_or(c.len());
        let comes = c.pieces.part(from, to).iter().any(|piece| {
            [Concept::Back, Concept::Come, Concept::Here, Concept::YesWord]
                .iter()
                .any(|one| piece.means(*one))
                || matches!(piece.text, "there" | "in" | "si")
        });
        days.push((day, comes));
    }
    days
}

/// `only the monday`, `monday and wednesday both`: of all the days away these alone.
fn restricted(
    c: &Clause<'_, '_>,
    days: &[(Day, bool)],
    from: Option<Day>,
    until: Day,
) -> Option<Vec<Kind>> {
    let only = c.has(Concept::Only)
        || c.pieces.iter().any(|piece| matches!(piece.text, "just" | "both" | "ambos" | "nomas"));
    let (first, last) = (c.date_of(from.unwrap_or(Day::Today))?, c.date_of(until)?);
    let away: Vec<Day> = days.iter().filter(|(_, comes)| !comes).map(|(day, _)| *day).collect();
    let within =
        away.iter().all(|day| c.date_of(*day).is_some_and(|on| (first..=last).contains(&on)));
    if !only || away.is_empty() || !within {
        return None;
    }
    let attend = |(day, coming): &(Day, bool)| Kind::Attend {
        coming: *coming,
        late_min: None,
        on: Some(*day),
    };
    let (out, comes): (Vec<_>, Vec<_>) = days.iter().partition(|(_, comes)| !comes);
    Some(out.into_iter().chain(comes).map(attend).collect())
}

/// `the week after i mean`, `and the week after too`, `three actually` behind two weeks.
fn moved_weeks(
    c: &Clause<'_, '_>,
    days: &[(Day, bool)],
    from: Option<Day>,
    until: Day,
) -> Option<Kind> {
    const DAYS: i64 = 7;
    let later = |day: Day, days: i64| {
        let on = c.date_of(day)?;
        on.checked_add(jiff::Span::new().days(days)).ok().map(Day::Full)
    };
    let typed = c.typed(0, c.len()).to_lowercase();
    if typed.contains("week after") || typed.contains("semana siguiente") {
        let too = ["too", "also", "as well", "tambien"].iter().any(|word| typed.contains(word));
        let from = match from.filter(|_| !too) {
            Some(from) => Some(later(from, DAYS)?),
            None => from,
        };
        return Some(Kind::Away { from, until: later(until, DAYS)? });
    }
    // A number alone is of the weeks that were told.
    let weeks = c.pieces.iter().filter_map(|piece| match piece.item {
        Item::Figure(Figure::Whole { value, .. }) => Some(i64::from(value)),
        Item::Figure(_) | Item::Each(_) | Item::Far(_) | Item::Repeat(..) | Item::Span(_) => {
            Some(0)
        }
        _ => None,
    });
    let [weeks @ 2..=12] = weeks.collect::<Vec<_>>()[..] else { return None };
    let first = from.map_or(Some(c.sit.today), |from| c.date_of(from))?;
    let told = c.date_of(until)?.since(first).ok()?.get_days();
    let by_weeks = i64::from(told) % DAYS == 0 && i64::from(told) != weeks * DAYS;
    (days.is_empty() && by_weeks)
        .then(|| Kind::Away { from, until: later(Day::Full(first), weeks * DAYS).unwrap_or(until) })
}

/// True for days of which one may stand for the other: of the same month or nearly.
fn is_near(c: &Clause<'_, '_>, one: Day, other: Day) -> bool {
    const DAYS: i32 = 15;
    let (Some(one), Some(other)) = (c.date_of(one), c.date_of(other)) else { return false };
    one.since(other).is_ok_and(|apart| apart.get_days().abs() <= DAYS)
}

/// `del 12 al 22`, `back on the 18th now, flight changed`, `saturday rather`.
fn moved(c: &Clause<'_, '_>, days: &[(Day, bool)], from: Option<Day>, until: Day) -> Option<Kind> {
    let corrects = c.has_any(&[Concept::Sorry, Concept::Instead, Concept::Not])
        || c.pieces.iter().any(|piece| {
            piece.item == Item::Mark('*')
                || matches!(piece.text, "now" | "rather" | "actually" | "liado" | "digo")
        });
    // `sorry cant make wednesday either` is of another day.
    let comes = c.has_any(&[Concept::Cant, Concept::Wont, Concept::Come, Concept::Out]);
    if !corrects || comes || !figures(c).is_empty() {
        return None;
    }
    let open: Vec<(Day, bool)> = c
        .pieces
        .iter()
        .enumerate()
        .filter_map(|(at, piece)| match piece.item {
            Item::Day(named) if !is_behind_not(c, at) => c.coming(named),
            _ => None,
        })
        .filter_map(|day| days.iter().find(|(one, _)| *one == day).copied())
        .collect();
    match open[..] {
        [(day, _)] => {
            let first = from.map_or(Some(c.sit.today), |from| c.date_of(from))?;
            let on = c.date_of(day)?;
            let apart =
                |end: jiff::civil::Date| end.since(on).ok().map(|span| span.get_days().abs());
            // The end that it is nearer to is the one that was wrong.
            let begins = from.is_some()
                && !c.has(Concept::Back)
                && apart(first)? < apart(c.date_of(until)?)?;
            match begins {
                true => Some(Kind::Away { from: Some(day), until }),
                false => (on > first).then_some(Kind::Away { from, until: day }),
            }
        }
        [(first, false), (last, false)]
            if c.date_of(first)? < c.date_of(last)? && is_near(c, last, until) =>
        {
            Some(Kind::Away { from: Some(first), until: last })
        }
        _ => None,
    }
}
