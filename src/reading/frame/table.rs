//! The table of frames: what evokes each, and who may say it.

use super::results::{capture, done, set, test};
use super::{Candidate, Clause, ask, attend, coach, correct, health, own, sets, unchanged};
use crate::reading::lexicon::Concept;

/// A kind of statement.
pub struct Frame {
    /// Its name, for showing a reading.
    pub name: &'static str,
    /// Words of which one must stand in the stretch; none for frames that go by
    /// figures.
    pub evoked_by: &'static [Concept],
    /// Reads a stretch.
    pub read: fn(&Clause<'_, '_>) -> Vec<Candidate>,
}

/// Every frame.
pub const FRAMES: &[Frame] = &[
    Frame { name: "set-result", evoked_by: &[], read: set::read },
    Frame { name: "test", evoked_by: &[], read: test::read },
    Frame { name: "capture", evoked_by: &[], read: capture::read },
    Frame { name: "nameless", evoked_by: &[], read: capture::nameless },
    Frame { name: "done", evoked_by: &[], read: done::read },
    Frame { name: "set", evoked_by: &[], read: sets::read },
    Frame { name: "change", evoked_by: &[], read: sets::change },
    Frame {
        name: "same-again",
        evoked_by: &[Concept::Same, Concept::Again],
        read: sets::same_again,
    },
    Frame { name: "lanes", evoked_by: &[], read: sets::lanes_on },
    Frame {
        name: "words",
        evoked_by: &[Concept::Tell, Concept::Note, Concept::Focus],
        read: coach::words,
    },
    Frame { name: "cover", evoked_by: &[], read: coach::cover },
    Frame { name: "easy-nights", evoked_by: &[], read: coach::easy_nights },
    Frame { name: "eased", evoked_by: &[], read: coach::eased },
    Frame { name: "remark", evoked_by: &[], read: coach::remark },
    Frame { name: "places", evoked_by: &[], read: coach::lanes },
    Frame { name: "timetable", evoked_by: &[], read: coach::timetable },
    Frame { name: "rooms", evoked_by: &[], read: coach::rooms },
    Frame { name: "people", evoked_by: &[], read: coach::people },
    Frame { name: "ask", evoked_by: &[], read: ask::read },
    Frame { name: "person", evoked_by: &[], read: ask::lone_person },
    Frame {
        name: "attend",
        evoked_by: &[
            Concept::Come,
            Concept::PerhapsCome,
            Concept::YesWord,
            Concept::Out,
            Concept::PerhapsOut,
            Concept::Late,
            Concept::LeaveEarly,
            Concept::Away,
            Concept::Back,
            Concept::Maybe,
            Concept::Here,
            Concept::Absent,
            Concept::Everyone,
            Concept::Not,
            Concept::No,
            // `no swimming for 2 weeks`
            Concept::Shut,
            Concept::Arrive,
            // `teal left 1930`, `finch must go at 19:45`
            Concept::Left,
            Concept::Move,
        ],
        read: attend::read,
    },
    Frame { name: "turned", evoked_by: &[], read: attend::turned },
    Frame { name: "late", evoked_by: &[Concept::Late], read: attend::unsure },
    Frame { name: "health", evoked_by: &[], read: health::read },
    Frame { name: "correct", evoked_by: &[], read: correct::read },
    Frame { name: "own", evoked_by: &[], read: own::read },
    Frame {
        name: "race",
        evoked_by: &[Concept::Enter, Concept::Want, Concept::KitHave],
        read: own::unfinished,
    },
    Frame { name: "unchanged", evoked_by: &[Concept::Stay], read: unchanged::read },
    Frame { name: "missed", evoked_by: &[Concept::MissedSwim], read: done::missed },
];
