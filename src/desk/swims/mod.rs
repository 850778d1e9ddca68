//! Decides what becomes of results: stored, doubted, put right or taken back, and what
//! is worked out from them.

pub mod own_targets;
pub mod putting_right;
pub mod relay;
pub mod remarks;
pub mod sent_twice;
pub mod sessions_done;
pub mod set_doubts;
pub mod set_put_right;
pub mod set_results;
pub mod taking_back;
pub mod targets;
pub mod tell_swimmer;
pub mod test_results;
