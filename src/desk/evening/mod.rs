//! Decides the evening: who is there, who swims where, what each lane swims and has swum,
//! as one value ([`Tonight`](tonight::Tonight)), and what changes it.

pub mod answers;
pub mod attend;
pub mod change_set;
pub mod coach_set;
pub mod draw;
pub mod heats;
pub mod lanes;
pub mod outcomes;
pub mod register;
pub mod reopening;
pub mod results_by_lane;
pub mod set_blocks;
pub mod test_night;
pub mod timetable;
pub mod tonight;
pub mod up_to_date;
pub mod who_swims;
pub mod write;
