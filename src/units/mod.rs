//! Quantities as types: times in hundredths, distances with their unit, pace
//! per 100, speed, course, stroke, equipment, level.
//!
//! Knows nothing of swimmers, texts or stores, and imports nothing of ours. A
//! bare number never crosses a module boundary; these types do, each bounded
//! once, in its constructor.

mod centis;
mod course;
mod distance;
mod equipment;
mod every;
mod lane;
mod level;
mod pace;
mod rpe;
mod seconds;
mod send_off;
mod start;
mod stroke;
mod weekdays;

pub use centis::{Centis, NotATime};
pub use course::{Course, Unit};
pub use distance::{Distance, Metres, NotADistance};
pub use equipment::Equipment;
pub(crate) use every::every;
pub use lane::{Lane, NotALane};
pub use level::Level;
pub use pace::{NotASpeed, Pace, Speed};
pub use rpe::{NotAnRpe, Rpe};
pub use seconds::Seconds;
pub use send_off::{NotASendOff, SendOff};
pub use start::Start;
pub use stroke::Stroke;
pub use weekdays::{Weekdays, weekday_word};

/// A word that names none of a unit's values, such as a course `33m`.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{word}` is not a {what}")]
pub struct UnknownName {
    /// What was expected, for people: `course`, `stroke`.
    pub what: &'static str,
    /// What came instead.
    pub word: String,
}
