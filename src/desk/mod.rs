//! Decides what a text, a due moment or a look at the page means for a squad: events to
//! store, things to say.
//!
//! Pure: it is handed the squad, the text and the instant, and gives back what
//! happened and what to say. It knows swimmers and coaching, and nothing of
//! sockets or disks. A folder for each subject, a file for each kind of request; a
//! file takes from those below it and never from one that takes from it:
//!
//! ```text
//! dispatch ─▶ questions, unasked, board ─▶ squad ─▶ safety ─▶ hearing ─▶ swims
//!     ─▶ evening ─▶ plans ─▶ minors ─▶ known ─▶ decision
//! ```

pub mod board;
mod decision;
mod dispatch;
mod evening;
mod hearing;
mod known;
mod minors;
mod plans;
mod questions;
mod safety;
mod squad;
mod swims;
mod unasked;

pub use decision::asked::Asked;
pub use decision::decided::{Aside, Decision, Held, Say};
pub use dispatch::answer::answer;
pub use hearing::rooms::{Parted, in_a_room, part};
pub use hearing::situation::{situation, traced};
pub use hearing::strangers::{answer_stranger, is_answer, is_urgent, opening_code};
pub use minors::who_hears::{Hears, Row, TABLE};
pub use safety::alarm::nobody_reached;
pub use squad::{importing, managing};
pub use unasked::{Unprompted, claims, next_look, unprompted};
