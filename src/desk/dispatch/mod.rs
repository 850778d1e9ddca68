//! The way of one text through the desk: what is answered first whatever else it says,
//! then one decision a statement, then the words and to whom they go.

pub mod answer;
pub mod closed;
pub mod closing;
pub mod concerns;
pub mod danger;
mod notation;
pub mod statements;
