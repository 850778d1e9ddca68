//! Decides what danger, pain, illness and harm come to: who is stopped, who is called,
//! what is held back.

pub mod alarm;
pub mod care;
pub mod gates;
pub mod readiness;
pub mod welfare;
