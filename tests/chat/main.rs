//! Group chat: what is said in a room and what to its sender alone; chat
//! servers' webhooks and Matrix, over real sockets.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod club;
mod hooks;
mod matrix;
mod rooms;
mod server;
