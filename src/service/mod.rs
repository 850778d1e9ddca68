//! One message, one way through: dedupe, decide, append, fold, answer.
//!
//! The shell round the pure core. It knows the journal and the desk; it knows
//! no sockets, and decides nothing about swimming.

mod answer;
mod counter;
mod incoming;
mod opening;
mod record;
mod under_way;
mod world;

pub use answer::{Answer, Failure, Spoken, Via};
pub use counter::Service;
pub use incoming::{Body, Incoming, NewSquad, SquadAdded};
pub use record::RecordError;
pub use world::OpenError;
