//! Which day, evening or night a text means.

use jiff::civil::{Date, Weekday};

use super::refusing::{Stopped, refused};
use super::resolve::{self, Toward};
use super::view::View;
use crate::message::Day;
use crate::reply::RefusedWhy;
use crate::units::Course;

impl View<'_> {
    /// The night a typed day means; the next one where none is typed. `None`
    /// for one that is over or no day at all.
    pub fn night_meant(&self, typed: Option<Day>) -> Option<Date> {
        let Some(typed) = typed else {
            let night = self.squad.coming_night(self.now());
            return Some(night.map_or(self.today, |night| night.on));
        };
        resolve::day(typed, self.today, self.squad.course.unit(), Toward::Future)
            .filter(|on| *on >= self.today)
    }

    /// The evening that a typed day means: this one, or a squad night just over.
    pub fn evening_meant(&self, typed: Option<Day>) -> Result<Date, Stopped> {
        let Some(typed) = typed else { return Ok(self.evening()) };
        let on = resolve::day(typed, self.today, self.squad.course.unit(), Toward::Past)
            .filter(|on| *on <= self.evening())
            .ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
        match on == self.evening() || self.squad.night(on, self.now()).is_some() {
            true => Ok(on),
            false => Err(refused("no_night", RefusedWhy::NoNight { on })),
        }
    }

    /// The night that a typed day means, this evening's or one to come.
    pub fn night_from_now(&self, typed: Day) -> Result<Date, Stopped> {
        resolve::day(typed, self.today, self.squad.course.unit(), Toward::Future)
            .filter(|on| *on >= self.evening())
            .ok_or_else(|| refused("day", RefusedWhy::Nothing))
    }

    /// The day of a result that names none: today, or before four in the morning the
    /// day of the squad night just over.
    pub fn day_swum(&self) -> Date {
        let evening = self.evening();
        match self.squad.night(evening, self.now()) {
            Some(_) => evening,
            None => self.today,
        }
    }
}

/// The day something was swum; not one that has not come.
pub fn swum_on(view: &View<'_>, typed: Option<Day>, course: Course) -> Result<Date, Stopped> {
    let Some(typed) = typed else { return Ok(view.day_swum()) };
    let on = resolve::day(typed, view.today, course.unit(), Toward::Past)
        .ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
    if on > view.today {
        return Err(refused("future_day", RefusedWhy::Future { on }));
    }
    Ok(on)
}

/// The dates meant by weekdays, each the next to come, and a date.
pub fn dates(view: &View<'_>, days: &[Weekday], on: Option<Day>) -> Result<Vec<Date>, Stopped> {
    let typed = days.iter().map(|day| Day::On(*day)).chain(on);
    let unit = view.squad.course.unit();
    typed
        .map(|day| {
            resolve::day(day, view.today, unit, Toward::Future)
                .filter(|date| *date >= view.today)
                .ok_or_else(|| refused("day", RefusedWhy::Nothing))
        })
        .collect()
}
