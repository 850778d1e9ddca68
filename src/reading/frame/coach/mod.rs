//! What only a coach says: words to pass on, notes, lanes, the timetable, people.

mod lanes;
mod people;
mod rooms;
mod timetable;
mod words;

pub use lanes::read as lanes;
pub use people::read as people;
pub use rooms::read as rooms;
pub use timetable::read as timetable;
pub use words::{eased, remark, words};
