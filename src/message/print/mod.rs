//! Trees as texts: one plain English wording for each, which the parser reads
//! back as the same tree.
//!
//! Knows how things are said to Lapwing and nothing of how Lapwing answers.

mod evening;
mod parts;
mod people;
mod sets;
mod statements;
mod swum;
mod wishes;
