//! Matrix, as an application service: what is said in its rooms comes in by
//! transactions, what we say goes out by the outbox.
//!
//! Knows the homeserver's two interfaces (application service API v1, client
//! API v3, as of specification 1.13) and nothing of swimming.

mod account;
mod event;
mod homeserver;
mod letters;
mod registration;
mod transactions;

pub use account::{Account, NotAnAccount};
pub use homeserver::Homeserver;
pub use letters::Letters;
pub use registration::registration;
pub use transactions::{Appservice, router};
