//! The kinds of statement that words tell apart.

use super::Kind;

/// Variants that stand by a name in tables and labels.
macro_rules! named_variants {
    ($(#[$about:meta])* $name:ident { $($(#[$meaning:meta])* $variant:ident = $word:literal),* $(,)? }) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$meaning])* $variant),* }

        impl $name {
            /// Every one.
            pub const ALL: &'static [$name] = &[$($name::$variant),*];

            /// Its name in the tables and labels.
            pub const fn name(self) -> &'static str {
                match self { $($name::$variant => $word),* }
            }

            /// The one of a name in the tables and labels.
            pub fn by_name(name: &str) -> Option<$name> {
                $name::ALL.iter().copied().find(|one| one.name() == name)
            }
        }
    };
}
pub(crate) use named_variants;

named_variants! {
    /// A kind of statement, as far as its words can tell.
    #[allow(missing_docs)] // named as in the outside interface
    Class {
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
}

impl Class {
    /// The class of a name in labels and in the outside interface.
    pub fn named(name: &str) -> Option<Class> {
        Class::by_name(name).or_else(|| {
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
    pub const fn of(kind: &Kind) -> Option<Class> {
        kind.nature().class
    }
}
