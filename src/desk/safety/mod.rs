//! Decides what danger, pain, illness and harm come to: who is stopped, who is called,
//! what is held back.

use jiff::SignedDuration;

pub mod alarm;
pub mod care;
pub mod gates;
pub mod readiness;
pub mod welfare;

/// So long after words of danger or harm what can't be read may be more of them (ours: help
/// has come by then, or they write something that can be read).
pub const SOON: SignedDuration = SignedDuration::from_mins(60);
