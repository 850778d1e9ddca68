//! Days and times of day: every shape in which a text names one.

mod date;
mod hour;
mod named;
mod near;
mod stretch;

use nom::Parser;
use nom::branch::alt;

use super::sensed_token::{Read, Words};
use date::{day_month, dotted, full, late_of_month, month_day, of_month, slashed};
use near::{ago, ahead, feast, near, weekday};
use stretch::{end_of_month, month, week, week_of};

pub use hour::time_of_day;
pub use named::{Named, Which};

/// A day, in any of its shapes.
pub fn day<'t>(input: Words<'t>) -> Read<'t, Named> {
    alt((
        feast,
        end_of_month,
        full,
        day_month,
        month_day,
        slashed,
        dotted,
        weekday,
        ago,
        ahead,
        week_of,
        week,
        of_month,
        late_of_month,
        near,
        month,
    ))
    .parse(input)
}
