//! The outbox: brings letters, which are replies to others than the sender, to
//! HTTP addresses, until they are there or were tried for long enough.
//!
//! Each goes the way that its recipient's address says, in the manner of the
//! other end there; those of an alarm every way that leads there. Its id stays the same over its tries, so that a receiver
//! that knows an id again gets it once.
//! Which letters there are and what became of them is the service's to keep;
//! this knows addresses, sockets and when to try again, and nothing of swimming.

mod alarm_courier;
mod alarm_schedule;
mod carrier;
mod courier;
mod destination;
mod gateway;
mod guard;
mod manner;
mod pause;
mod routes;
mod schedule;
mod signed;

pub use alarm_courier::Siren;
pub use carrier::{Carrier, NoCarrier, Patience, Returned, Wish, client};
pub use courier::Courier;
pub use destination::{Destination, NotADestination};
pub use gateway::{Format, Gateway, NotATemplate, Part, Template, Value};
pub use guard::is_public;
pub use manner::{Manner, Request};
pub use routes::Routes;
pub use schedule::DELAYS;
pub use signed::Signed;
