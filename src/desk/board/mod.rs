//! The squad's page: all that whoever runs the evening looks at, as data.
//!
//! Read-only, and a second look at what texts are answered from. It knows no
//! HTML and no address; private matters are on no part of it.

mod calendar;
mod focus;
mod hurting;
mod lanes;
mod last_sets;
mod last_tests;
mod name_on_page;
mod page;
pub(super) mod page_address;
mod register;
pub(super) mod set_by_clock;
mod swimmer_page;
mod todo;
mod weeks;

pub use super::decision::asked::BoardDoor;
pub use calendar::{CalendarSeen, CalendarWish, calendar, calendar_digest, whose_calendar};
pub use focus::Focus;
pub use hurting::{Hurting, MayRelease, Open, Swims};
pub use lanes::{LaneNow, Lanes, Placed};
pub use last_sets::Paced;
pub use last_tests::{Due, Tested};
pub use name_on_page::{Adult, Person};
pub use page::{Board, Look, look, look_at_one, whose};
pub use register::Register;
pub use set_by_clock::{Clock, LaneClock, Left};
pub use swimmer_page::{DaySeen, One, TestSeen, WeekSeen};
pub use todo::{Slower, ToDo};
pub use weeks::Weeks;
