//! What a statement leaves out, filled in: days, lengths, times.

use jiff::civil::Date;

use super::fields::Fields;
use crate::desk::decision::resolve::{self, Settled, Toward};
use crate::desk::decision::view::View;
use crate::message::{Day, Length, Name, Statement, TypedTime};
use crate::units::{Centis, Course, Distance, Stroke};

/// Fills in what a statement leaves out.
pub struct Reader<'a> {
    /// What is known.
    pub view: &'a View<'a>,
    /// Whom the statement is about, where that is clear.
    pub about: Option<Name>,
    /// The pool they swim in, else the squad's.
    pub course: Course,
    /// The squad's local day.
    pub today: Date,
}

impl<'a> Reader<'a> {
    pub fn of(view: &'a View<'a>, statement: &Statement) -> Self {
        let about = statement.who.as_ref().or_else(|| view.me()).cloned();
        let course = about.as_ref().map_or(view.squad.course, |name| view.course_of(name));
        Self { view, about, course, today: view.today }
    }
}

impl Reader<'_> {
    pub fn length(&self, length: Length, said: Option<Course>) -> (Course, Option<Distance>) {
        let course = resolve::course(said, length, self.course);
        (course, resolve::distance(length, course))
    }

    pub fn with_length(&self, fields: Fields, length: Length) -> Fields {
        let (_, distance) = self.length(length, None);
        fields
            .with("distance", length.amount)
            .with("unit", distance.map(|distance| distance.unit().name()))
    }

    pub fn settled(
        &self,
        typed: &TypedTime,
        length: Length,
        course: Course,
        stroke: Stroke,
    ) -> Option<f64> {
        let distance = resolve::distance(length, course)?;
        resolve::time(typed, distance, stroke).map(Settled::likelier).map(Centis::seconds)
    }

    pub fn past(&self, day: Option<Day>, course: Course) -> Option<String> {
        let Some(day) = day else { return Some(self.view.day_swum().to_string()) };
        resolve::day(day, self.today, course.unit(), Toward::Past).map(|date| date.to_string())
    }

    pub fn past_if_said(&self, day: Option<Day>) -> Option<String> {
        day.and_then(|day| self.past(Some(day), self.course))
    }

    pub fn future(&self, day: Day) -> Option<String> {
        resolve::day(day, self.today, self.course.unit(), Toward::Future)
            .map(|date| date.to_string())
    }
}
