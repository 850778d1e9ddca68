//! Sets and sessions as coaches write them, in trade notation or in words, and
//! changes to the set that is known.

mod by_lane;
mod change;
mod frame;
mod item;
mod same_again;
mod writer;

pub use change::{change, lanes_on};
pub use frame::read;
pub use same_again::read as same_again;
