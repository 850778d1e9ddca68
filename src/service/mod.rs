//! One message, one way through: dedupe, decide, append, fold, answer.
//!
//! The shell round the pure core. It knows the journal and the desk; it knows
//! no sockets, and decides nothing about swimming.

mod after_repair;
mod alarms;
mod answer;
mod asked;
mod boards;
mod calendars;
mod changes;
mod conflicts;
mod consent;
mod deciding;
mod directory;
mod echo;
mod erasure;
mod examine;
mod exporting;
mod following;
mod handles;
mod happened;
mod importing;
mod incoming;
mod letter;
mod mailbag;
mod managing;
mod opening;
mod parts;
mod post_room;
mod preferred_machine;
mod receiving;
mod record;
mod room;
mod rooms;
mod routing;
mod scrub;
mod showing;
mod speaking;
mod streams;
mod told;
mod unasked;
mod under_way;
mod unheard;
mod upkeep;
mod way_back;
mod world;

pub use after_repair::state_what_was_lost;
pub use alarms::{Call, Unheard};
pub use answer::{Answer, Failure, Spoken, Via};
pub use changes::Changes;
pub use examine::{examine, makes_sense};
pub use exporting::Taking;
pub use importing::{Bringing, BroughtIn};
pub use incoming::{Body, Incoming, NewSafeguards, NewSquad, Opening, SquadAdded};
pub use letter::{Letter, LetterEvent, LetterNumber, NotALetter};
pub use mailbag::{Due, Instants, LetterState, Undelivered};
pub use managing::{Managing, SquadSeen, StaffSeen};
pub use receiving::Service;
pub use record::RecordError;
pub use showing::{Arrival, Arrived, LetterSeen, Showing, Shown, Waiting};
pub use way_back::WayBack;
pub use world::OpenError;
