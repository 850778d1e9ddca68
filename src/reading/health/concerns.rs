//! What is answered with care though nobody is in danger.
//!
//! Sources: no breath-holding, no lone or unwatched swims, as federations and
//! swimming teachers publish it; pregnancy, food, weight and low spirits belong to
//! a clinician or someone trusted (common practice of sports clubs, no source).

use super::rule::{Rule, rules};
use crate::message::Concern;

/// Every rule of what is answered with care.
pub const CONCERNS: &[Rule<Concern>] = rules! { Concern;
    sure BreathHold: [BreathHold];
    sure Easing: [Expecting Pregnant];
    sure Gentle: [NotEating];
    sure Gentle: [Purge];
    sure Gentle: [Weight];
    sure Gentle: [NoPeriod];
    sure Low: [LowMood];
    sure Afraid: [Panic] ! [Laugh Asking];
    sure Afraid: [Afraid], near 6 [Water Deep Face] ! [Laugh];
    sure Low: [Grief];
    sure MaySwim: [MaySwim];
    sure Clinician: [Medicine];
    sure Clinician: [Surgery];
    sure Clinician: [Period];
    sure Clinician: [Condition Inhaler HeartMed HeartCond Thinner Diabetic Epileptic], near 40 [Asking];
    sure Cleared: [Cleared];
    // `doctor said from monday i can swim`, `consultant happy, lengths yes`
    sure Cleared: [Clinician], then 10 [Permit] ! [Asking];
    sure Dive: [DiveTalk];
    sure Alone: [Alone];
    sure OpenWater: [OpenWater];
};
