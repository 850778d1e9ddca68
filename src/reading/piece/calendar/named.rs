//! A day as it was named, before the clock says which one it is.

use crate::message::Day;
use crate::reading::piece::feast::Feast;

/// Which of the weekdays of that name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// `mon`
    Plain,
    /// `next mon`
    Next,
    /// `last mon`
    Last,
}

/// A day named, before the clock says which.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// `tonight`, `tue`, `18 april`, `20/12`
    Day(Day, Which),
    /// `the 20th`: of this month or the next.
    OfMonth(u8),
    /// `3 days ago`, `in two weeks`: so many days from today.
    From(i32),
    /// `next week`, `this week`, `the weekend`: by its first day, as so many weeks
    /// from this one.
    Week(i32),
    /// `week of the 16th`, `w/c 16 march`: the week that holds a day of the month, of
    /// this month or the next where none is said.
    WeekOf(u8, Option<u8>),
    /// `april`
    Month(u8),
    /// `the end of may`
    EndOf(u8),
    /// `easter`, `boxing day`
    Feast(Feast),
}

pub fn plain(day: Day) -> Named {
    Named::Day(day, Which::Plain)
}
