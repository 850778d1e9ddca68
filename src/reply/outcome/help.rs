//! How to talk to us.

use strum::{IntoStaticStr, VariantArray, VariantNames};

use crate::coaching::{PaceFrom, Rule};
use crate::message::Term;
use crate::session::{Limit, Repeat};
use crate::swim::Trial;
use crate::swim::why::Explanation;
use crate::units::{Centis, SendOff, Start};

/// How to talk to us.
#[derive(Debug, Clone, PartialEq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum HelpReply {
    /// In general, for a swimmer.
    Swimmer,
    /// In general, for a coach.
    Coach,
    /// In a group chat, which it must not fill.
    Room,
    /// For someone we don't know.
    Stranger,
    /// For someone who has opted out.
    OptedOut,
    /// On one topic.
    Topic(Topic),
    /// What words of the trade mean, with the send-off and the time to hold that were
    /// asked about.
    Meaning {
        /// Which.
        terms: Vec<Term>,
        /// Leave every so often.
        on: Option<SendOff>,
        /// The time to hold.
        hold: Option<Centis>,
    },
    /// What we are.
    Us,
    /// What is kept, and who sees it.
    Data,
    /// Why the last answer was as it was.
    Why {
        /// The main set that it is about, and what its time to hold is taken from.
        main: Option<Box<WhyMain>>,
        /// It is about what changes next: the rules say that, the formulas come after.
        of_change: bool,
        /// The formulas, with the swimmer's own numbers.
        explanations: Vec<Explanation>,
        /// The rules that decided.
        rules: Vec<Rule>,
        /// What was left out, by name.
        without: Vec<Limit>,
    },
}

/// A main set, explained.
#[derive(Debug, Clone, PartialEq)]
pub struct WhyMain {
    /// Its line.
    pub set: Repeat,
    /// What its time to hold is taken from.
    pub from: PaceFrom,
    /// How a test that it is taken from was swum, where that was not from a push.
    pub as_swum: Option<(Trial, Start)>,
}

/// What help can be about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[derive(VariantArray)]
pub enum Topic {
    /// Tests.
    Test,
    /// Sets.
    Set,
    /// Sessions done.
    Done,
    /// Plans and the next session.
    Plan,
    /// Pain and illness.
    Pain,
    /// Settings.
    Profile,
    /// The coach's words.
    Squad,
    /// The register: who is at the pool.
    Register,
    /// Lanes.
    Lanes,
    /// The set of the night, and changes while it is swum.
    Evening,
    /// When and where the squad swims.
    Timetable,
    /// Several results in one text, and putting them right.
    Results,
    /// A night of tests.
    TestNight,
    /// Who belongs to the squad.
    People,
    /// Repairs.
    Fix,
}
