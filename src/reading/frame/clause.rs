//! A stretch of the text, as a frame looks at it.

use crate::message::{Day, Length, Name, TypedTime};
use crate::reading::lexicon::{Concept, Concepts, Sense};
use crate::reading::likely::Likely;
use crate::reading::piece::{Far, Figure, Item, Named, Piece, Pieces, Which};
use crate::reading::situation::{Known, Phase, Role, Situation};
use crate::units::{Centis, Course, Stroke, Unit};

/// A stretch of pieces, and the situation they were sent in.
#[derive(Debug, Clone, Copy)]
pub struct Clause<'a, 't> {
    /// The stretch.
    pub pieces: Pieces<'a, 't>,
    /// Where it begins in the whole text.
    pub offset: usize,
    /// All of the text's pieces.
    pub all: Pieces<'a, 't>,
    /// What may be meant in the stretch: nothing else is. A part of it has no more.
    pub among: Concepts,
    /// The same of the whole text.
    pub among_all: Concepts,
    /// Whether the stretch is a question, where that is known: nearly all frames ask.
    pub question: Option<bool>,
    /// The text in plain characters.
    pub plain: &'a str,
    /// Where each token begins and ends in it, in bytes.
    pub spans: &'a [(usize, usize)],
    /// The situation.
    pub sit: &'a Situation,
    /// The text names a danger.
    pub danger: bool,
    /// A word of health stands in it that worries.
    pub unwell: bool,
    /// What the words of the whole text say of its kind.
    pub likely: &'a Likely,
}

impl<'a, 't> Clause<'a, 't> {
    /// How many pieces.
    pub fn len(&self) -> usize {
        self.pieces.len()
    }

    /// True of no pieces.
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }

    /// The whole text that the stretch is of.
    #[must_use]
    pub fn whole(&self) -> Self {
        let (pieces, among) = (self.all, self.among_all);
        Clause { pieces, offset: 0, among, question: None, ..*self }
    }

    /// The pieces from one place up to another, as a stretch of their own.
    #[must_use]
    pub fn part(&self, from: usize, to: usize) -> Self {
        let (pieces, offset) = (self.pieces.part(from, to), self.offset + from);
        Clause { pieces, offset, question: None, ..*self }
    }

    /// True if some piece can mean this.
    pub fn has(&self, concept: Concept) -> bool {
        self.among.has(concept) && self.pieces.iter().any(|piece| piece.means(concept))
    }

    /// True if some piece can mean one of these.
    pub fn has_any(&self, concepts: &[Concept]) -> bool {
        concepts.iter().any(|one| self.has(*one))
    }

    /// The first piece that can mean this.
    pub fn find(&self, concept: Concept) -> Option<usize> {
        self.among
            .has(concept)
            .then(|| self.pieces.iter().position(|piece| piece.means(concept)))?
    }

    /// The piece at a place.
    pub fn at(&self, place: usize) -> Option<&'a Piece<'t>> {
        self.pieces.get(place)
    }

    /// What was typed from one piece up to another, in its own letters.
    pub fn typed(&self, from: usize, to: usize) -> &'a str {
        let (Some(first), Some(last)) =
            (self.pieces.get(from), self.pieces.get(to.wrapping_sub(1)))
        else {
            return "";
        };
        let start = self.spans.get(first.at.0).map_or(0, |span| span.0);
        let end = self.spans.get(last.at.1 - 1).map_or(0, |span| span.1);
        self.plain.get(start..end).unwrap_or_default().trim()
    }

    /// A person by number.
    pub fn name(&self, person: usize) -> Option<Name> {
        self.sit.people.get(person).map(|known| known.name.clone())
    }

    /// The people whom the stretch names, in order, each once.
    pub fn people(&self) -> Vec<usize> {
        let mut named: Vec<usize> = Vec::new();
        for piece in self.pieces {
            if let Item::Person(person) = piece.item
                && !named.contains(&person)
            {
                named.push(person);
            }
        }
        named
    }

    /// Whom the stretch is about, where that is somebody else; of a swimmer's own
    /// text nobody behind a word like `with`, `to` or `of`.
    pub fn other(&self) -> Option<usize> {
        let [one] = self.people()[..] else { return None };
        let beside = |at: usize| {
            let words = [
                Concept::With,
                Concept::To,
                Concept::Of,
                Concept::By,
                Concept::Over,
                Concept::Under,
                Concept::Instead,
            ];
            at > 0 && words.iter().any(|word| self.pieces[at - 1].means(*word))
        };
        let at = self.pieces.iter().position(|piece| piece.item == Item::Person(one))?;
        let own = self.sit.role == Role::Swimmer && beside(at);
        (Some(one) != self.sit.me && !own).then_some(one)
    }

    /// Who swam what the stretch tells of: the one it names, else the sender.
    pub fn subject(&self) -> Option<&'a Known> {
        self.other().map_or_else(|| self.sit.own(), |one| self.sit.people.get(one))
    }

    /// A distance as typed, in the pool's unit where none was said.
    pub fn length(&self, far: Far) -> Option<Length> {
        let (amount, unit) = match far {
            Far::Of(amount, unit) => (amount, unit),
            Far::Lengths(count) => (count.checked_mul(self.sit.pool_length())?, None),
            Far::Miles(hundredths) => {
                (u32::try_from(u64::from(hundredths) * 160_934 / 10_000).ok()?, Some(Unit::Metre))
            }
        };
        (1..=100_000).contains(&amount).then_some(Length { amount, unit })
    }

    /// The day that a named day is, for what is past.
    pub fn past(&self, named: Named) -> Option<Day> {
        self.settled(named, false)
    }

    /// The day that a named day is, for what is to come.
    pub fn coming(&self, named: Named) -> Option<Day> {
        self.settled(named, true)
    }

    /// The last day of what a named day is, to come: `by the end of may`.
    pub fn last_of(&self, named: Named) -> Option<Day> {
        let Named::Month(month) = named else { return self.coming(named) };
        let today = self.sit.today;
        let month = i8::try_from(month).ok()?;
        let year = if month < today.month() { today.year() + 1 } else { today.year() };
        let first = jiff::civil::Date::new(year, month, 1).ok()?;
        Some(Day::Full(first.last_of_month()))
    }

    fn settled(&self, named: Named, ahead: bool) -> Option<Day> {
        let today = self.sit.today;
        let shifted =
            |days: i32| today.checked_add(jiff::Span::new().days(days)).ok().map(Day::Full);
        match named {
            Named::Day(Day::On(weekday), Which::Next) => {
                let days = i32::from(today.weekday().until(weekday));
                // The one of next week: `next wed` said on a wednesday is a week off.
                let rest_of_week = 7 - i32::from(today.weekday().to_monday_zero_offset());
                shifted(if days == 0 {
                    7
                } else if days < rest_of_week {
                    days + 7
                } else {
                    days
                })
            }
            Named::Day(Day::On(weekday), Which::Last) => Some(Day::Last(weekday)),
            // Of the same weekday, once its evening is over, the next is meant.
            Named::Day(Day::On(weekday), Which::Plain)
                if ahead && weekday == today.weekday() && self.sit.phase == Phase::After =>
            {
                shifted(7)
            }
            Named::Day(day, _) => Some(day),
            Named::OfMonth(number) => self.of_month(number, ahead),
            Named::From(days) => shifted(days),
            Named::Week(_) | Named::WeekOf(..) => self.monday_of(named).map(Day::Full),
            Named::Month(month) => Some(Day::DayMonth(1, month)),
            Named::EndOf(month) => self.last_of(Named::Month(month)),
            Named::Feast(feast) => {
                let years = if ahead {
                    [today.year(), today.year() + 1]
                } else {
                    [today.year(), today.year() - 1]
                };
                let dates = years.into_iter().filter_map(|year| feast.in_year(year));
                let fits = |date: &jiff::civil::Date| (*date >= today) == ahead || *date == today;
                dates.into_iter().find(fits).map(Day::Full)
            }
        }
    }

    /// The monday of a week named; none of what is no week.
    pub fn monday_of(&self, named: Named) -> Option<jiff::civil::Date> {
        let today = self.sit.today;
        let (day, weeks) = match named {
            Named::Week(weeks) => (today, weeks),
            Named::WeekOf(day, month) => {
                let named = match month {
                    Some(month) => Named::Day(Day::DayMonth(day, month), Which::Plain),
                    None => Named::OfMonth(day),
                };
                (self.date_of(self.coming(named)?)?, 0)
            }
            _ => return None,
        };
        let monday = day
            .checked_sub(jiff::Span::new().days(i64::from(day.weekday().to_monday_zero_offset())));
        monday.ok()?.checked_add(jiff::Span::new().weeks(weeks)).ok()
    }

    /// The next date that a day is.
    pub fn date_of(&self, day: Day) -> Option<jiff::civil::Date> {
        let today = self.sit.today;
        match day {
            Day::Full(date) => Some(date),
            Day::Today => Some(today),
            Day::Tomorrow => today.tomorrow().ok(),
            Day::On(weekday) => (1..=7i32).find_map(|days| {
                let date = today.checked_add(jiff::Span::new().days(days)).ok()?;
                (date.weekday() == weekday).then_some(date)
            }),
            Day::DayMonth(day, month) => {
                let (day, month) = (i8::try_from(day).ok()?, i8::try_from(month).ok()?);
                let of = |year: i16| jiff::civil::Date::new(year, month, day).ok();
                of(today.year()).filter(|date| *date >= today).or_else(|| of(today.year() + 1))
            }
            _ => None,
        }
    }

    /// True for a day that is still to come, so that nothing can have been swum on
    /// it; of a bare weekday one can't tell.
    pub fn is_ahead(&self, named: Named) -> bool {
        let today = self.sit.today;
        match named {
            Named::Day(Day::Tomorrow, _) | Named::Day(Day::On(_), Which::Next) => true,
            Named::Day(Day::DayMonth(day, month), _) => {
                let date = i8::try_from(month).ok().zip(i8::try_from(day).ok());
                let date = date
                    .and_then(|(month, day)| jiff::civil::Date::new(today.year(), month, day).ok());
                date.is_some_and(|date| date > today)
            }
            Named::Day(Day::Full(date), _) => date > today,
            Named::OfMonth(day) => i8::try_from(day).is_ok_and(|day| day > today.day() + 1),
            Named::From(days) => days > 0,
            Named::Week(weeks) => weeks > 0,
            Named::WeekOf(..) => true,
            Named::Month(month) | Named::EndOf(month) => {
                i8::try_from(month).is_ok_and(|month| month > today.month())
            }
            Named::Feast(feast) => feast.in_year(today.year()).is_some_and(|date| date > today),
            _ => false,
        }
    }

    /// True if some day of the stretch is still to come.
    pub fn speaks_ahead(&self) -> bool {
        self.pieces
            .iter()
            .any(|piece| matches!(piece.item, Item::Day(named) if self.is_ahead(named)))
    }

    /// The past day that the sentence named before this stretch, where the two are
    /// joined: `yesterday an hour of spin and a 20 min run`.
    pub fn day_joined(&self) -> Option<Day> {
        if !self.pieces.first()?.means(Concept::And) {
            return None;
        }
        let mut sentence = self.before().iter().rev().take_while(|piece| !piece.ends_sentence());
        sentence.find_map(|piece| match piece.item {
            Item::Day(named) if !self.is_ahead(named) => self.past(named),
            _ => None,
        })
    }

    /// What stands before the stretch.
    fn before(&self) -> Pieces<'a, 't> {
        self.all.part(0, self.offset.min(self.all.len()))
    }

    /// Whom the text named last before the stretch.
    pub fn person_before(&self) -> Option<usize> {
        self.before().iter().rev().find_map(|piece| match piece.item {
            Item::Person(person) => Some(person),
            _ => None,
        })
    }

    fn of_month(&self, number: u8, ahead: bool) -> Option<Day> {
        let today = self.sit.today;
        let number = i8::try_from(number).ok()?;
        (0..13).find_map(|months| {
            let months = if ahead { months } else { -months };
            let month =
                today.first_of_month().checked_add(jiff::Span::new().months(months)).ok()?;
            let day = jiff::civil::Date::new(month.year(), month.month(), number).ok()?;
            let fits = if ahead { day >= today } else { day <= today };
            fits.then_some(Day::Full(day))
        })
    }

    /// The stroke that the stretch names, if it names one.
    pub fn stroke(&self) -> Option<Stroke> {
        self.pieces.iter().find_map(stroke_of)
    }

    /// `1 42`: minutes, and behind them seconds in two digits.
    pub fn minutes_apart(&self, at: usize) -> Option<Figure> {
        match (self.at(at)?.item, self.at(at + 1)?.item) {
            (
                Item::Figure(Figure::Whole { value: minutes @ 1..=9, places: 0..=1 }),
                Item::Figure(Figure::Whole { value: seconds @ 0..=59, places: 2 }),
            ) => Some(Figure::Whole { value: minutes * 100 + seconds, places: 3 }),
            _ => None,
        }
    }

    /// The time that a figure is over a distance, by the swimmer's record if there
    /// is one, else by what anybody swims.
    pub fn time(
        &self,
        figure: Figure,
        distance: u32,
        stroke: Stroke,
        of: Option<&Known>,
    ) -> Option<Centis> {
        let expected = of.and_then(|known| known.expected(distance, stroke));
        let times = figure.times();
        let fits = |time: &Centis| fits(*time, distance, self.sit.course, stroke, expected);
        times.iter().copied().find(fits)
    }
}

/// The stroke that a piece names.
pub fn stroke_of(piece: &Piece<'_>) -> Option<Stroke> {
    piece.sense(|sense| if let Sense::Stroke(stroke) = sense { Some(*stroke) } else { None })
}

/// True for a time that somebody may swim over a distance: within what the record
/// lets expect, or else between 0.3 and 2.4 m/s; kick and drill down to 0.15 m/s.
pub fn fits(
    time: Centis,
    distance: u32,
    course: Course,
    stroke: Stroke,
    expected: Option<f64>,
) -> bool {
    if let Some(expected) = expected {
        let share = time.seconds() / expected;
        let slowest = if matches!(stroke, Stroke::Kick | Stroke::Drill) { 2.2 } else { 1.75 };
        return (0.62..=slowest).contains(&share);
    }
    let metres = f64::from(distance) * course.unit().in_metres();
    let speed = metres / time.seconds();
    let slowest = if matches!(stroke, Stroke::Kick | Stroke::Drill) { 0.15 } else { 0.3 };
    (slowest..=if distance <= 50 { 2.7 } else { 2.4 }).contains(&speed)
}

/// A time settled, with whether tenths were given.
pub fn typed(time: Centis, tenths: bool) -> TypedTime {
    TypedTime { readings: vec![time], tenths: tenths || !time.is_whole_seconds() }
}

/// How many lanes a stretch counts (`3 lanes`), and the place of the figure.
pub fn lane_count(c: &Clause<'_, '_>) -> Option<(usize, u8)> {
    c.pieces.array_windows::<2>().enumerate().find_map(|(at, pair)| {
        match (&pair[0].item, &pair[1]) {
            (Item::Figure(Figure::Whole { value: value @ 1..=10, .. }), lane)
                if lane.means(Concept::Lane) =>
            {
                Some((at, u8::try_from(*value).ok()?))
            }
            _ => None,
        }
    })
}
