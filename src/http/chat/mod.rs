//! `POST /v1/chat/{name}`: the outgoing webhook of a chat server, and its
//! answer.
//!
//! Knows the fields that such servers post and nothing of swimming.

mod hook;
mod post;
pub(super) mod take;

pub use hook::Chat;
pub use take::take;
