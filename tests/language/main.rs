//! What people type, and what is read in it.

mod corpus;
mod grammar;
mod notation;
mod printing;
mod safety;
mod vocabulary;
