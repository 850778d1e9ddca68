//! The days that a stretch names, as dates: behind or ahead of the day that the text was sent on.

use jiff::ToSpan;
use jiff::civil::Date;

use super::Clause;
use crate::language::Language;
use crate::message::Day;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Named, Piece, Which};
use crate::reading::situation::Phase;

impl Clause<'_, '_> {
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
        let first = Date::new(year, month, 1).ok()?;
        Some(Day::Full(first.last_of_month()))
    }

    fn settled(&self, named: Named, ahead: bool) -> Option<Day> {
        let today = self.sit.today;
        let shifted = |days: i32| today.checked_add(days.days()).ok().map(Day::Full);
        match named {
            Named::Day(Day::On(weekday), Which::Next) => {
                let days = i32::from(today.weekday().until(weekday));
                // The one of next week: `next wed` said on a wednesday is a week off.
                let rest_of_week = 7 - i32::from(today.weekday().to_monday_zero_offset());
                // In Spanish it is the coming one: `el viernes que viene`.
                let spanish = self.sit.language == Language::Spanish;
                shifted(if days == 0 {
                    7
                } else if days < rest_of_week && !spanish {
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
                let fits = |date: &Date| (*date >= today) == ahead || *date == today;
                dates.into_iter().find(fits).map(Day::Full)
            }
        }
    }

    /// The monday of a week named; none of what is no week.
    pub fn monday_of(&self, named: Named) -> Option<Date> {
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
        let monday = day.checked_sub(day.weekday().to_monday_zero_offset().days()).ok()?;
        monday.checked_add(weeks.weeks()).ok()
    }

    /// The squad's evenings to come in the week that a piece names; none where it names none.
    pub fn nights_of(&self, piece: &Piece<'_>) -> Vec<Day> {
        let Item::Day(named @ (Named::Week(_) | Named::WeekOf(..))) = piece.item else {
            return vec![];
        };
        let Some(monday) = self.monday_of(named) else { return vec![] };
        let week = (0..7i32).filter_map(|days| monday.checked_add(days.days()).ok());
        let nights = week
            .filter(|date| self.sit.nights.contains(&date.weekday()) && *date >= self.sit.today);
        nights.map(Day::Full).collect()
    }

    /// The next date that a day is.
    pub fn date_of(&self, day: Day) -> Option<Date> {
        let today = self.sit.today;
        match day {
            Day::Full(date) => Some(date),
            Day::Today => Some(today),
            Day::Tomorrow => today.tomorrow().ok(),
            Day::On(weekday) => (1..=7i32).find_map(|days| {
                let date = today.checked_add(days.days()).ok()?;
                (date.weekday() == weekday).then_some(date)
            }),
            Day::DayMonth(day, month) => {
                let (day, month) = (i8::try_from(day).ok()?, i8::try_from(month).ok()?);
                let of = |year: i16| Date::new(year, month, day).ok();
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
                let date = date.and_then(|(month, day)| Date::new(today.year(), month, day).ok());
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

    fn of_month(&self, number: u8, ahead: bool) -> Option<Day> {
        let today = self.sit.today;
        let number = i8::try_from(number).ok()?;
        (0..13i32).find_map(|months| {
            let months = if ahead { months } else { -months };
            let month = today.first_of_month().checked_add(months.months()).ok()?;
            let day = Date::new(month.year(), month.month(), number).ok()?;
            let fits = if ahead { day >= today } else { day <= today };
            fits.then_some(Day::Full(day))
        })
    }
}
