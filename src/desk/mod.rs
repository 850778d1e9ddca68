//! Decides what a message means for the squad: events to store, things to say.
//!
//! Pure: it is handed the squad, the text and the instant, and gives back what
//! happened and what to say. It knows swimmers and coaching, and nothing of
//! sockets or disks. One file for each kind of request.

mod ailing;
mod answer;
mod approval;
mod asked;
mod asking;
mod at_test_night;
mod attend;
mod belonging;
mod bench;
pub mod board;
mod broadcast;
mod capture;
mod care;
mod closing;
mod coach_set;
mod concerns;
mod danger;
mod evening;
mod facts;
mod help;
mod join;
mod lane_order;
mod lanes;
mod limits;
mod meets;
mod minors;
mod own_targets;
mod pausing;
mod people;
mod presumed;
mod profile;
mod readiness;
mod redealt;
mod register;
mod regular;
mod relay;
mod reopening;
mod repair;
mod repeats;
mod resolve;
mod results;
mod rooms;
mod safeguards;
mod sessions;
mod set_blocks;
mod set_in_motion;
mod set_of_night;
mod speaking;
mod squad_session;
mod standing;
mod statements;
mod strangers;
mod test_night;
mod timetable;
mod tonight;
mod understood;
mod unprompted;
mod welfare;

pub use answer::answer;
pub use asked::{Asked, Decision, Say};
pub use minors::Held;
pub use rooms::{Aside, Parted, in_a_room, part};
pub use strangers::{answer_stranger, is_answer, is_urgent, opening_code};
pub use unprompted::{Unprompted, claims, unprompted};
