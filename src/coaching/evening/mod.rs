//! The squad's evening: one set in the versions of its lanes.
//!
//! Knows lanes and their paces; not who coaches, nor how it is told.

mod lane;
mod written;

pub use written::{Hold, LaneSet, Tight, WrittenBlock, WrittenLine, for_lane, with_own_targets};
