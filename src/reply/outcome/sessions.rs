//! What is to be swum.

use super::CautionKind;
use crate::coaching::WeekKind;
use crate::session::Session;
use crate::units::Distance;
use jiff::civil::Date;

/// A session to swim.
#[derive(Debug, Clone, PartialEq)]
pub struct SessionReply {
    /// The session.
    pub session: Session,
    /// A caution that belongs with it.
    pub caution: Option<CautionKind>,
    /// The lane, for one's own version of tonight's set.
    pub lane: Option<u8>,
    /// Tonight's set, for one who was not seen yet and has no lane.
    pub unseen: bool,
    /// It is for a swim alone and falls on a squad night.
    pub on_squad_night: bool,
    /// It is an easy one, as harder ones wait for the coach's yes: said once.
    pub after_yes: bool,
}

/// A week to swim.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanReply {
    /// Its first day.
    pub starts: Date,
    /// Its kind.
    pub kind: WeekKind,
    /// The kind that was asked for, where the rules gave another.
    pub asked: Option<WeekKind>,
    /// How far in all.
    pub distance: Distance,
    /// Its sessions.
    pub sessions: Vec<Session>,
    /// The rules that decided.
    pub rules: Vec<String>,
}
