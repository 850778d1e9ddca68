//! Points for a race by the cubic formula of World Aquatics, and back.
//!
//! Compares swims over different events; knows nothing of training. The base
//! times change every year, so they are data: a table is shipped, and a
//! squad's own file may stand in for it.

mod formula;
mod table;

pub use formula::{TimesFor, points, times_for};
pub use table::{BadTable, BaseTimes, Event};
