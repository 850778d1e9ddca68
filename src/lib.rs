//! Lapwing: a coaching assistant that a swim squad talks to by text message.
//!
//! One message, one way through:
//!
//! ```text
//! text ─▶ desk::answer ─▶ events, outcome, words ─▶ journal: durable, then answered
//!           │      │        │
//!   message, reading   history::apply
//!   (what it says)       (the fold)
//! ```
//!
//! The core is pure functions of (text, history, clock):
//!
//! - [`units`]: times in hundredths, distances, pace, course, stroke.
//! - [`language`]: which languages there are.
//! - [`session`]: what is to be swum, as data with exact sums.
//! - [`message`]: our own notation: its grammar, and the tree of what a text says.
//! - [`reading`]: whatever else people write, read into the same tree.
//! - [`swim`]: the maths: critical speed, prediction, levels, sets, real change.
//! - [`coaching`]: the rules: sessions, weeks, what a result changes.
//! - [`history`]: what happened: events, and the fold from events to squads and swimmers.
//! - [`reply`]: outcomes as data, their words, their JSON, their SMS parts.
//! - [`desk`]: what a text, a due moment or a look at the page means for a squad; a
//!   folder a subject.
//! - [`export`]: what people take along as files: tables, lines, a calendar.
//! - [`import`]: the tables that they bring, read whole or not at all.
//! - [`simulation`]: virtual swimmers, to try the rules on whole seasons.
//!
//! Round it the shell, which decides nothing about swimming:
//!
//! - [`clock`]: the one clock, handed in at the rim.
//! - [`background`]: threads for what no request waits for.
//! - [`journal`]: opaque bytes, durable through a power cut.
//! - [`service`]: dedupe, decide, append, fold, answer.
//! - [`signing`], [`http`], [`control`], [`tls`], [`cli`]: how messages come in.
//! - [`digest`]: digests and digits.
//! - [`config`], [`hidden`]: what the settings file may say; passwords that no log shows.
//! - [`matrix`]: how we take part in the rooms of a Matrix homeserver.
//! - [`outbox`]: how what others are to be told goes out.
//! - [`demo`]: the invented squad, which texts by the same way in.
//!
//! Nothing in the core imports the shell; which room takes from which is drawn in
//! `DEVELOPERS.md`.

#![warn(clippy::indexing_slicing)] // nothing from outside may bring the program down

pub mod background;
pub mod cli;
pub mod clock;
pub mod coaching;
pub mod config;
pub mod control;
pub mod demo;
pub mod desk;
pub mod digest;
pub mod export;
pub mod hidden;
pub mod history;
pub mod http;
pub mod import;
pub mod journal;
pub mod language;
pub mod matrix;
pub mod message;
pub mod outbox;
pub mod reading;
pub mod reply;
pub mod service;
pub mod session;
pub mod signing;
pub mod simulation;
pub mod swim;
pub mod tls;
pub mod units;
