//! The evening: who is there, who swims where, what each lane swims and has swum,
//! as one value ([`Tonight`]), and what changes it.

mod booking;
mod draw;
mod people;
mod stands;
mod told;
mod write;

pub use booking::{Booking, NIGHT_S};
pub use draw::DrawnAnew;
pub use people::Part;
pub use stands::Tonight;
pub use told::ends;
pub use write::{named_in, said_in, sessions, written};
