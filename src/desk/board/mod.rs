//! The squad's page: all that whoever runs the evening looks at, as data.
//!
//! Read-only, and a second look at what texts are answered from. It knows no
//! HTML and no address; private matters are on no part of it.

mod calendar;
pub(super) mod clock;
mod focus;
mod hurting;
mod lanes;
pub(super) mod link;
mod one;
mod paced;
mod page;
mod person;
mod register;
mod tested;
mod todo;
mod weeks;

pub use super::decision::asked::BoardDoor;
pub use calendar::{CalendarSeen, CalendarWish, calendar, calendar_digest, whose_calendar};
pub use clock::{Clock, LaneClock, Left};
pub use focus::Focus;
pub use hurting::{Hurting, MayRelease, Open, Swims};
pub use lanes::{LaneNow, Lanes, Placed};
pub use one::{DaySeen, One, TestSeen, WeekSeen};
pub use paced::Paced;
pub use page::{Board, Look, look, look_at_one, whose};
pub use person::{Adult, Person};
pub use register::Register;
pub use tested::{Due, Tested};
pub use todo::{Slower, ToDo};
pub use weeks::Weeks;
