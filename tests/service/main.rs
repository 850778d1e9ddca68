//! The service from outside: real sockets, real processes, a real store.

#![expect(clippy::unwrap_used, reason = "a test fails where it stands")]

mod connections;
mod control;
mod erasure;
mod gateways;
mod load;
mod manners;
mod mending;
mod messages;
mod million;
mod people;
mod plain;
mod process;
mod program;
mod server;
mod snapshot;
mod upkeep;
