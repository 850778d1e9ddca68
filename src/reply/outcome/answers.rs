//! Answers to questions that were taken apart, each the figure that was asked for.
//! `who` is somebody else than the sender.

use jiff::civil::{Date, Time};
use strum::{IntoStaticStr, VariantNames};

use crate::coaching::Race;
use crate::message::{Name, Pick};
use crate::swim::Trial;
use crate::swim::conversion::Converted;
use crate::units::{Centis, Course, Distance, Equipment, SendOff, Stroke, Unit};

/// An answer.
#[derive(Debug, Clone, PartialEq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Answer {
    /// How far off a time somebody is.
    Gap {
        /// Who.
        who: Option<Name>,
        /// Their best.
        best: Trial,
        /// The time.
        to: Centis,
        /// The piece to be gained on, and by how much each of them.
        each: Option<(u32, Centis)>,
    },
    /// What a time is for each piece of it.
    Pace {
        /// Whose best stands beside it.
        who: Option<Name>,
        /// Over which distance.
        distance: Distance,
        /// The time.
        time: Centis,
        /// For each piece, shortest first.
        pieces: Vec<(u32, Centis)>,
        /// Their best over the distance, where it is another time.
        best: Option<Centis>,
    },
    /// What so much for each piece comes to.
    Sum {
        /// The piece.
        piece: u32,
        /// The time for each.
        each: Centis,
        /// All of them.
        distance: u32,
        /// The time for all.
        total: Centis,
    },
    /// What a time is in another pool.
    Converted {
        /// Whose time it is, where it was their best.
        who: Option<Name>,
        /// Over which distance, in which pool.
        from: (Distance, Course),
        /// The time.
        time: Centis,
        /// The same in the other pool.
        to: (Converted, Course),
    },
    /// What was swum, beside the time before.
    Versus {
        /// Who.
        who: Option<Name>,
        /// The last.
        last: Trial,
        /// The one before it that was alike.
        before: Option<Trial>,
        /// The best of all before it that were alike.
        best: Option<Trial>,
    },
    /// When somebody last swam something by the clock.
    LastSwum {
        /// Who; none also where it was the squad.
        who: Option<Name>,
        /// The day.
        on: Date,
        /// Whole days since.
        days: u32,
        /// The time, of one swimmer.
        trial: Option<Trial>,
    },
    /// Nothing like it is on record.
    Never {
        /// Of whom.
        who: Option<Name>,
        /// Over which distance.
        distance: Option<u32>,
        /// In which stroke.
        stroke: Option<Stroke>,
        /// From which day.
        from: Option<Date>,
        /// Until which day.
        to: Option<Date>,
    },
    /// Who of all.
    Ranked {
        /// Which were asked for.
        pick: Pick,
        /// Over which distance.
        distance: u32,
        /// Of which night, where one was meant.
        on: Option<Date>,
        /// Below which time.
        below: Option<Centis>,
        /// Each with the change from the time before, where that was asked for.
        lines: Vec<RankLine>,
        /// Of how many.
        of: usize,
    },
    /// A mean.
    Mean {
        /// Of whom.
        of: MeanOf,
        /// How many times.
        count: usize,
        /// Over which distance.
        distance: u32,
        /// The mean.
        mean: Centis,
        /// The day.
        on: Date,
    },
    /// How many were there.
    Were {
        /// On which night.
        on: Date,
        /// So many.
        here: usize,
        /// So many were marked absent.
        absent: usize,
    },
    /// How many were there on each night.
    Turnouts {
        /// The first day.
        from: Date,
        /// The last.
        to: Date,
        /// The nights on which somebody was there, and how many.
        nights: Vec<(Date, usize)>,
    },
    /// How many are to come.
    Coming {
        /// On which night.
        on: Date,
        /// Those who said so.
        coming: usize,
        /// Those who said nothing, and are looked for.
        unsaid: usize,
        /// Those who said that they don't.
        out: usize,
    },
    /// Whether somebody was there, or comes.
    Came {
        /// Who.
        who: Option<Name>,
        /// On which night.
        on: Date,
        /// What is known of it.
        what: Coming,
    },
    /// When somebody was last there.
    LastThere {
        /// Who.
        who: Option<Name>,
        /// The day, and whole days since; none on record.
        on: Option<(Date, u32)>,
    },
    /// What the squad swam.
    SquadSwum {
        /// The first day.
        from: Date,
        /// The last.
        to: Date,
        /// Metres in all.
        metres: u32,
        /// Sessions in all.
        sessions: usize,
        /// Swimmers.
        swimmers: usize,
    },
    /// How far, and how long, a night's set is.
    Total {
        /// The night.
        on: Date,
        /// The lanes that differ; none by number where all swim alike.
        lanes: Vec<TotalLine>,
    },
    /// What is to be held.
    Hold {
        /// The night.
        on: Date,
        /// A lane, or somebody, each.
        lines: Vec<HoldLine>,
    },
    /// The rest that is left.
    Rest {
        /// A lane, or somebody, each.
        lines: Vec<HoldLine>,
    },
    /// The kit of a night's set.
    Kit {
        /// The night.
        on: Date,
        /// What was asked for.
        asked: Vec<Equipment>,
        /// What it asks for.
        kit: Vec<Equipment>,
    },
    /// Whether more fits in.
    Room {
        /// How many.
        count: u16,
        /// How far each.
        distance: u32,
        /// On what send-off.
        on: SendOff,
        /// Seconds that takes.
        takes_s: u32,
        /// When the set ends, where that is known.
        ends: Option<Time>,
        /// Seconds from then to the end of what is booked.
        left_s: u32,
    },
    /// Whether a test is on a night.
    TestOn {
        /// The night that was asked of.
        on: Date,
        /// The test night that is called.
        called: Option<(Date, Distance)>,
    },
    /// How many lengths a distance is.
    Lengths {
        /// The distance.
        distance: u32,
        /// Its unit.
        unit: Unit,
        /// Whole lengths.
        lengths: u32,
        /// Of this pool.
        course: Course,
    },
    /// What was last sent, as it is kept.
    Stored {
        /// In words; none where nothing was.
        says: Vec<crate::message::Statement>,
    },
    /// What somebody is training for.
    Goal {
        /// Who.
        who: Option<Name>,
        /// The race.
        race: Option<Race>,
    },
}

/// What is known of somebody's coming.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Coming {
    /// Was seen there, or told what they swam.
    There,
    /// Was marked absent.
    NotThere,
    /// Nobody marked them, and they told of no swim.
    Unmarked,
    /// Said to come.
    In,
    /// Said to come perhaps.
    Perhaps,
    /// Said not to come.
    Out,
    /// Said nothing.
    Unsaid,
}

/// Of whom a mean is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MeanOf {
    /// One swimmer's repeats.
    One(Option<Name>),
    /// A lane's.
    Lane(u8),
    /// Everybody's.
    All,
}

/// One of a ranking.
#[derive(Debug, Clone, PartialEq)]
pub struct RankLine {
    /// Who.
    pub who: Name,
    /// What they swam.
    pub time: Centis,
    /// The time before.
    pub before: Option<Centis>,
}

/// A lane's set, whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TotalLine {
    /// Which lane; none where all swim alike.
    pub lane: Option<u8>,
    /// How far.
    pub amount: u32,
    /// In this unit.
    pub unit: Unit,
    /// Whole minutes.
    pub minutes: u32,
    /// When it ends, where that is known.
    pub ends: Option<Time>,
}

/// What a lane, or somebody, is to hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HoldLine {
    /// Which lane.
    pub lane: Option<u8>,
    /// Who.
    pub who: Option<Name>,
    /// How many repeats, where they are of a set.
    pub count: Option<u16>,
    /// How far each.
    pub distance: u32,
    /// The time to hold.
    pub hold: Option<Centis>,
    /// Leave every so often.
    pub on: Option<SendOff>,
}
