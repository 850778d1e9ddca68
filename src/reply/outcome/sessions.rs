//! What is to be swum.

use super::CautionKind;
use crate::coaching::{Promise, WeekKind};
use crate::session::Session;
use crate::units::Distance;
use jiff::civil::Date;

/// What came up since a session was told, so that another takes its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum News {
    /// They are away then.
    Away,
    /// Pain, illness or a stop is over.
    Better,
    /// They have been out of the water for days.
    Break,
    /// A result was put right or taken back.
    Corrected,
    /// How the last swims went.
    Done,
    /// Hard training out of the water.
    Elsewhere,
    /// What they can't or may not do, or a time that the coach set.
    Limits,
    /// Their pool, days, minutes or the like.
    Profile,
    /// A race.
    Race,
    /// The result of a set.
    Set,
    /// The pool is shut.
    Shut,
    /// A hard set of the squad on a day beside it.
    SquadSet,
    /// A test.
    Test,
    /// They slept badly or are worn out.
    Tired,
    /// Pain, illness, faintness or a hold.
    Trouble,
    /// They asked for something else.
    Wish,
}

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
    /// It is another than they were told for that day or for their next swim: that
    /// one's day, and what came up.
    pub changed: Option<(Date, News)>,
    /// What was promised of the next hard swim, where this is one and has no room
    /// for it.
    pub waits: Option<Promise>,
    /// It is for a day on which they would be well, if they were from today on.
    pub if_well: bool,
    /// The last day on which they are known to have swum, where this session is one to come
    /// back with and others were to be swum since.
    pub unheard: Option<Date>,
    /// It is an easy one, as harder ones wait for the coach's yes: said once.
    pub after_yes: bool,
}

impl SessionReply {
    /// A session of which nothing else is to be said.
    pub const fn of(session: Session) -> Self {
        Self {
            session,
            caution: None,
            lane: None,
            unseen: false,
            on_squad_night: false,
            changed: None,
            waits: None,
            if_well: false,
            unheard: None,
            after_yes: false,
        }
    }
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
    /// Days for which another session was told before, and what came up.
    pub changed: Vec<(Date, News)>,
    /// What was promised of the next hard swim, where the first hard one has no room
    /// for it.
    pub waits: Option<Promise>,
    /// The rules that decided.
    pub rules: Vec<String>,
}
