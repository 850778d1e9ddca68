//! The squad's evening: one set in the versions of its lanes.
//!
//! Knows lanes and their paces; not who coaches, nor how it is told.

mod change;
mod cut;
mod eased;
mod lane;
mod night;
mod plan;
mod position;
mod purpose;
mod running;
mod slots;
mod swims;
#[cfg(test)]
mod test_sessions;
mod together;
mod versions;
mod written;

pub use change::{Changed, What, aimed_anew, changed, dealt_anew, line_in_question};
pub use cut::{GivenUp, Shortened, before_main_s, shortened};
pub use eased::{for_swimmer, is_only_new, swims_gently};
pub use night::{Night, for_night};
pub use position::{Position, position};
pub use purpose::NightWish;
pub use running::swum_amount;
pub use swims::Swims;
pub use together::{TOGETHER_S, ending_at};
pub use written::{
    Beyond, Expected, Hold, Tight, WrittenBlock, WrittenLine, expected_times, for_lane, remarks,
    with_own_targets,
};
