//! A test night.

use jiff::civil::Date;

use crate::coaching::test_night::Heat;
use crate::message::Name;
use crate::units::{Centis, Distance, Lane};

/// A test night: its heats while it is ahead, who is owed a test after it.
#[derive(Debug, Clone, PartialEq)]
pub struct TestNightReply {
    /// The night.
    pub on: Date,
    /// How far is swum.
    pub distance: Distance,
    /// The heats, the fastest first; none once it is over.
    pub heats: Vec<Heat>,
    /// Those who are there and must not swim.
    pub stopped: Vec<Name>,
    /// Those who have swum too little yet to swim flat out, with the swims that
    /// are still to come, the fewest first: they swim an even 200.
    pub soon: Vec<(usize, Name)>,
    /// Those who swim easy instead.
    pub easy: Vec<Name>,
    /// Those still owed a test, where it was asked and some have swum or the
    /// night is over.
    pub owed: Vec<Name>,
    /// The night on which they may swim it.
    pub catch_up: Option<Date>,
}

/// A swimmer's own part in a test night.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatOfReply {
    /// The night.
    pub on: Date,
    /// How far is swum.
    pub distance: Distance,
    /// Their heat, counted from 1, ...
    pub heat: usize,
    /// ... of so many.
    pub of: usize,
    /// Their lane.
    pub lane: Lane,
    /// The time that they are expected to swim.
    pub expected: Option<Centis>,
    /// Who counts their lengths.
    pub counter: Option<String>,
    /// The heat in which they count, and for whom.
    pub counts_for: Option<(usize, String)>,
}
