//! Decides the evening: who is there, who swims where, what each lane swims and has swum,
//! as one value ([`Tonight`](tonight::Tonight)), and what changes it.

pub mod attend;
pub mod coach_set;
pub mod cut;
pub mod draw;
pub mod heats;
pub mod lane_order;
pub mod lanes;
pub mod register;
pub mod reopening;
pub mod set_blocks;
pub mod shown;
pub mod stands;
pub mod test_night;
pub mod timetable;
pub mod told;
pub mod tonight;
pub mod who_swims;
pub mod write;
