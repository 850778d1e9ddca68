//! Decides who belongs to the squad, who holds an office in it, and what is told of its
//! people and to them.

pub mod broadcast;
pub mod codes;
pub mod confirming;
pub mod forgetting;
pub mod importing;
pub mod inviting;
pub mod joining;
pub mod leaving;
pub mod managing;
pub mod membership;
pub mod names;
pub mod office_words;
pub mod offices;
pub mod outcomes;
pub mod overview;
pub mod passing_on;
pub mod profile;
