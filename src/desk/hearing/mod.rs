//! Decides what a text means in this squad: what it says, who speaks from a shared
//! telephone, what is meant by it tonight, and what of it a room may hear.

mod asked_again;
pub mod at_test_night;
pub mod capture;
pub mod correctable;
pub mod health_of_others;
pub mod parse;
pub mod pausing;
pub mod rooms;
pub mod shared_phone;
pub mod situation;
pub mod strangers;
pub mod understood;
