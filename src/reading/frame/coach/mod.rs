//! What only a coach says: words to pass on, notes, lanes, the timetable, people.

mod cover;
mod easy_nights;
mod lanes;
mod pass_on;
mod people;
mod rooms;
mod test_night;
mod timetable;

pub use cover::read as cover;
pub use easy_nights::read as easy_nights;
pub use lanes::read as lanes;
pub use pass_on::{eased, remark, words};
pub use people::read as people;
pub use rooms::read as rooms;
pub use timetable::read as timetable;
