//! The service from outside: real sockets, real processes, a real store.

mod connections;
mod control;
mod messages;
mod plain;
mod process;
mod program;
mod server;
