//! The kinds of statement that words tell apart.

use crate::message::{About, Kind, Limits};

/// A kind of statement, as far as its words can tell.
macro_rules! classes {
    ($($variant:ident = $name:literal),* $(,)?) => {
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[allow(missing_docs)] // named as in the outside interface
        pub enum Class { $($variant),* }

        impl Class {
            /// Every one.
            pub const ALL: &'static [Class] = &[$(Class::$variant),*];

            /// Its name in the tables and labels.
            pub const fn name(self) -> &'static str {
                match self { $(Class::$variant => $name),* }
            }
        }
    };
}

classes! {
    Test = "test",
    SetResult = "set_result",
    Done = "done",
    Missed = "missed",
    Attend = "attend",
    Register = "register",
    Away = "away",
    Pain = "pain",
    Ill = "ill",
    Better = "better",
    Fix = "fix",
    Undo = "undo",
    Ask = "ask",
    Evening = "tonight",
    Why = "why",
    Trend = "trend",
    Best = "best",
    Log = "log",
    Plan = "plan",
    Next = "next",
    Easier = "easier",
    Harder = "harder",
    Shorter = "shorter",
    More = "more",
    Again = "again",
    Targets = "targets",
    Predict = "predict",
    Race = "race",
    Profile = "profile",
    Kit = "kit",
    Limit = "limit",
    Tell = "tell",
    Note = "note",
    Set = "set",
    Change = "change",
    Lanes = "lanes",
    Move = "move",
    Timetable = "timetable",
    Hold = "hold",
    Release = "release",
    Squad = "squad",
    Nothing = "nothing",
}

impl Class {
    /// The class of a name in labels and in the outside interface.
    pub fn named(name: &str) -> Option<Class> {
        let own = Class::ALL.iter().copied().find(|class| class.name() == name);
        own.or_else(|| {
            Some(match name {
                "timed_test" => Class::Test,
                "here" | "absent" | "left" => Class::Register,
                "maybe" | "back" | "leaves" | "leaves_early" => Class::Attend,
                "faint" | "tired" | "welfare" => Class::Ill,
                "no" => Class::Undo,
                "may_swim" | "predict_set" | "help" => Class::Ask,
                "own_target" | "goal" | "entry" => Class::Race,
                "avoid" | "ability" => Class::Limit,
                "focus" => Class::Note,
                "cut" | "resume" | "next_part" | "send_off" => Class::Change,
                "order" | "lead" | "swap_swimmers" | "lane_move" | "draw" | "apart" => Class::Move,
                "slot" | "shut" | "test_night" => Class::Timetable,
                "swimmer" | "compare" => Class::Squad,
                _ => return None,
            })
        })
    }

    /// The class of a statement; none where words can't tell it.
    pub fn of(kind: &Kind) -> Option<Class> {
        Some(match kind {
            Kind::Test(_) | Kind::TimedTest(_) => Class::Test,
            Kind::SetResult(_) => Class::SetResult,
            Kind::Done(_) => Class::Done,
            Kind::Missed { .. } => Class::Missed,
            Kind::Attend { .. } | Kind::Leaves { .. } | Kind::Maybe { .. } | Kind::Back { .. } => {
                Class::Attend
            }
            Kind::Here { .. } | Kind::Absent { .. } => Class::Register,
            Kind::Away { .. } => Class::Away,
            Kind::Pain(_) => Class::Pain,
            Kind::Ill { .. } | Kind::Faint | Kind::Tired => Class::Ill,
            Kind::Better => Class::Better,
            Kind::Restate { .. } | Kind::Fix(_) => Class::Fix,
            Kind::Undo => Class::Undo,
            Kind::Tonight | Kind::LaneOf { .. } => Class::Evening,
            Kind::Ask(ask) => match ask.about {
                About::Evening { .. } | About::Turnout { .. } | About::Standing { .. } => {
                    Class::Evening
                }
                About::Swum { .. } | About::SetOf { .. } => Class::Log,
                _ => Class::Ask,
            },
            Kind::Help { .. } => Class::Ask,
            Kind::Why => Class::Why,
            Kind::Trend => Class::Trend,
            Kind::Best => Class::Best,
            Kind::Log => Class::Log,
            Kind::Plan(_) => Class::Plan,
            Kind::Next(_) => Class::Next,
            Kind::Easier => Class::Easier,
            Kind::Harder => Class::Harder,
            Kind::Shorter => Class::Shorter,
            Kind::More => Class::More,
            Kind::Again => Class::Again,
            Kind::Targets { .. } => Class::Targets,
            Kind::Predict { .. } => Class::Predict,
            Kind::Race { .. } | Kind::Goal { .. } => Class::Race,
            Kind::Profile(_) => Class::Profile,
            Kind::Limits(Limits::Kit { .. } | Limits::KitChanged { .. }) => Class::Kit,
            Kind::Limits(_) | Kind::Ability { .. } => Class::Limit,
            Kind::Tell { .. } => Class::Tell,
            Kind::Note { .. } | Kind::Focus { .. } => Class::Note,
            Kind::Set(_) => Class::Set,
            Kind::Cut(_) | Kind::Change(_) => Class::Change,
            Kind::Lanes { .. } | Kind::LaneGone => Class::Lanes,
            Kind::Move { .. } | Kind::SwapLanes { .. } | Kind::LaneOrder { .. } => Class::Move,
            Kind::Slot(_) | Kind::Shut { .. } => Class::Timetable,
            Kind::Hold { .. } => Class::Hold,
            Kind::Release => Class::Release,
            Kind::Squad { .. } | Kind::Swimmer | Kind::Compare { .. } => Class::Squad,
            _ => return None,
        })
    }
}
