//! The outbox: brings letters, which are replies to others than the sender, to
//! one HTTP address, until they are there or were tried for long enough.
//!
//! Each is sent by the Standard Webhooks scheme under an id that stays the
//! same over its tries, so that a receiver that knows an id again gets it once.
//! Which letters there are and what became of them is the service's to keep;
//! this knows addresses, sockets and when to try again, and nothing of swimming.

mod carrier;
mod courier;
mod destination;
mod gate;
mod guard;
mod schedule;

pub use carrier::{Carrier, NoCarrier, Patience};
pub use courier::Courier;
pub use destination::{Destination, NotADestination};
pub use guard::is_public;
pub use schedule::DELAYS;
