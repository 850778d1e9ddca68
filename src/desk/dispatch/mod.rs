//! The way of one text through the desk: what is answered first whatever else it says,
//! then one decision a statement, then the words and to whom they go.

pub mod answer;
pub mod concerns;
pub mod danger;
pub mod not_open_yet;
mod notation;
pub mod statements;
mod unanswered;
pub mod wording;
