//! One data folder, one owner: how a command reaches the process that owns the
//! folder, or becomes its owner for as long as it runs.
//!
//! The owner listens on a Unix socket in the folder that only the folder's
//! user may open; that right is all the trust there is. Knows processes, files
//! and sockets; what is asked for it hands on.

mod access;
mod client;
mod folder;
mod owner;
mod router;
mod socket;
mod typed;

pub use access::{Access, AccessError, own};
pub use client::{Client, ClientError};
pub use folder::{Claim, ClaimError, DataFolder, write_private};
pub use owner::{Mended, Owner, Store, TakeError, rulebook};
pub use typed::Typed;
