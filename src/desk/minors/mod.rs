//! Decides what is different where a swimmer is a minor: who is asked first, who hears
//! of what, who reads along.

pub mod guardians;
pub mod reading_along;
pub mod safeguards;
pub mod who_hears;
