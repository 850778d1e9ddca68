//! What people type, and what is read in it.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod corpus;
mod grammar;
mod notation;
mod printing;
mod safety;
mod vocabulary;
