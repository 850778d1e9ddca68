//! The command line: what can be typed, and which part of Lapwing does it.
//!
//! Knows arguments, the environment, terminals and signals; decides nothing
//! about swimming.

mod arguments;
mod asking;
mod channels;
mod chat;
mod check_config;
mod completions;
mod console;
mod demo;
mod export;
mod import;
mod keys;
mod listening;
mod matrix;
mod outbox;
mod progress;
mod read;
mod rules;
mod run;
mod send;
mod serve;
mod settings;
mod simulate;
mod squad;
mod upkeep;
mod version;

pub use run::run;
