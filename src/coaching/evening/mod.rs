//! The squad's evening: one set in the versions of its lanes.
//!
//! Knows lanes and their paces; not who coaches, nor how it is told.

mod cut;
mod drafted;
mod eased;
mod lane;
mod motion;
mod night;
mod position;
mod purpose;
mod running;
mod slots;
mod versions;
mod written;

pub use cut::{GivenUp, Shortened, before_main_s, shortened};
pub use drafted::drafted;
pub use eased::{for_swimmer, is_only_new, swims_gently};
pub use motion::{least_send_off, line_in_question, with_count, with_send_off, without_last_round};
pub use night::{Night, for_night};
pub use position::{Position, position};
pub use purpose::NightWish;
pub use written::{
    Beyond, Hold, LaneSet, Tight, WrittenBlock, WrittenLine, for_lane, with_lane_targets,
    with_own_targets,
};
