//! The Standard Webhooks scheme, version 1: who sent these bytes, and when.
//!
//! Knows keys and bytes; knows nothing of HTTP, of JSON or of the time of day,
//! which is handed in. Source: the specification `standard-webhooks` 1.0.0.

mod secret;
mod signature;

pub use secret::{NotASecret, Secret};
pub use signature::{Envelope, NotSigned, TOLERANCE, sign, verify};
