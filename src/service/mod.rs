//! One message, one way through: dedupe, decide, append, fold, answer.
//!
//! The shell round the pure core. It knows the journal and the desk; it knows
//! no sockets, and decides nothing about swimming.

mod alarms;
mod answer;
mod asked;
mod boards;
mod consent;
mod counter;
mod directory;
mod echo;
mod erasure;
mod handles;
mod incoming;
mod letter;
mod mailbag;
mod opening;
mod post_room;
mod record;
mod routing;
mod speaking;
mod unasked;
mod under_way;
mod unheard;
mod way_back;
mod world;

pub use alarms::{Call, Unheard};
pub use answer::{Answer, Failure, Spoken, Via};
pub use counter::Service;
pub use incoming::{Body, Incoming, NewSafeguards, NewSquad, Opening, SquadAdded};
pub use letter::{Letter, LetterEvent, LetterNumber, NotALetter};
pub use mailbag::{Due, Instants, LetterState, Undelivered};
pub use record::RecordError;
pub use way_back::WayBack;
pub use world::OpenError;
