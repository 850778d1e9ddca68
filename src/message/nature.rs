//! What holds for each kind of statement whatever it says: one row a kind, without a row for
//! all others, so that the compiler asks of a new kind whether it stores, when it is decided,
//! who may hear of it and what its words are told by.

use super::{About, Approval, Class, Fix, Kind, Limits, Matter, People, PlanWish, Regular};

/// What holds for a statement of its kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Nature {
    /// It changes what is kept: read with doubt, it is asked about first. What only asks is
    /// answered, and whoever sent it is told that nothing was stored.
    pub stores: bool,
    /// When it is decided, of all that one text says.
    pub turn: Turn,
    /// What it is about, which decides who may hear of a minor's.
    pub matter: Matter,
    /// It concerns one swimmer, so that on a shared telephone it is asked whom; false for
    /// the squad, for the telephone, and for what can't wait.
    pub is_personal: bool,
    /// What its words are told by; none where no text that weights are trained on says it.
    pub class: Option<Class>,
}

/// Danger before health before all else: what is decided later sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Turn {
    /// Danger and harm.
    Danger,
    /// Pain and illness.
    Health,
    /// Who somebody is, and what holds for them.
    Person,
    /// Most of what is said.
    Usual,
    /// What is worked out from all the rest.
    Last,
}

/// Whom a statement concerns.
#[derive(Clone, Copy)]
enum Of {
    /// One swimmer.
    One,
    /// The squad, the telephone, or whoever is near.
    All,
}

impl Kind {
    /// Its row.
    pub const fn nature(&self) -> Nature {
        use Matter::{Address, Body, Danger, Harm, Swimming, Unread};
        use Of::{All, One};
        match self {
            // What was swum, and what of it is put right.
            Kind::Test(_) | Kind::TimedTest(_) => stores(Swimming, One, Some(Class::Test)),
            Kind::SetResult(_) => stores(Swimming, One, Some(Class::SetResult)),
            Kind::Done(_) => stores(Swimming, One, Some(Class::Done)),
            Kind::Missed { .. } => stores(Swimming, One, Some(Class::Missed)),
            Kind::RelayLeg(_) => stores(Swimming, One, None),
            Kind::LaneResults(_) | Kind::SwapResults { .. } => stores(Unread, All, None),
            Kind::Fix(Fix { was: None, .. }) => stores(Swimming, One, Some(Class::Fix)),
            Kind::Fix(_) => stores(Swimming, All, Some(Class::Fix)),
            Kind::Restate { .. } => stores(Unread, All, Some(Class::Fix)),
            Kind::Undo => stores(Swimming, All, Some(Class::Undo)),

            // Danger and health.
            Kind::Welfare => stores(Harm, All, None).in_turn(Turn::Danger),
            Kind::Faint => stores(Danger, All, Some(Class::Ill)).in_turn(Turn::Danger),
            Kind::Pain(_) => stores(Body, One, Some(Class::Pain)).in_turn(Turn::Health),
            Kind::Ill { .. } => stores(Body, One, Some(Class::Ill)).in_turn(Turn::Health),
            Kind::Better => stores(Body, One, Some(Class::Better)),
            Kind::Tired => stores(Unread, One, Some(Class::Ill)),
            Kind::Hold { .. } => stores(Unread, All, Some(Class::Hold)),
            Kind::Release => stores(Unread, All, Some(Class::Release)),

            // What to swim.
            Kind::Next(_) => answers(Swimming, One, Some(Class::Next)).in_turn(Turn::Last),
            // A squad's plan for a night is put in force.
            Kind::Plan(PlanWish { on: Some(_), .. }) => {
                stores(Swimming, One, Some(Class::Plan)).in_turn(Turn::Last)
            }
            Kind::Plan(_) => answers(Swimming, One, Some(Class::Plan)).in_turn(Turn::Last),
            Kind::Shorter => stores(Swimming, One, Some(Class::Shorter)),
            Kind::Easier => stores(Swimming, One, Some(Class::Easier)),
            Kind::Harder => stores(Swimming, One, Some(Class::Harder)),
            Kind::Swap { .. } => stores(Swimming, One, None),
            Kind::Set(_) => stores(Swimming, One, Some(Class::Set)),
            Kind::Cut(_) | Kind::Change(_) => stores(Unread, All, Some(Class::Change)),
            Kind::Gap { .. } => stores(Unread, All, None),

            // Times, and what they lead to.
            Kind::Targets { .. } => {
                answers(Swimming, One, Some(Class::Targets)).in_turn(Turn::Last)
            }
            Kind::Predict { .. } => {
                answers(Swimming, One, Some(Class::Predict)).in_turn(Turn::Last)
            }
            Kind::OwnTargets { .. } => stores(Unread, One, None),
            Kind::Race { .. } => stores(Swimming, One, Some(Class::Race)),
            Kind::Goal { .. } => stores(Unread, One, Some(Class::Race)),
            Kind::Entry(_) => stores(Swimming, One, None),
            Kind::Entries => answers(Swimming, One, None),
            Kind::Meet { .. } => stores(Unread, All, None),

            // Who somebody is, and what they can, have and want.
            Kind::Profile(_) => stores(Address, One, Some(Class::Profile)).in_turn(Turn::Person),
            Kind::Limits(Limits::Kit { .. }) => stores(Unread, One, Some(Class::Kit)),
            Kind::Limits(Limits::KitChanged { .. }) => stores(Unread, All, Some(Class::Kit)),
            Kind::Limits(
                Limits::Barred { all: false, .. } | Limits::Allowed { all: false, .. },
            ) => stores(Unread, One, Some(Class::Limit)),
            Kind::Limits(_) => stores(Unread, All, Some(Class::Limit)),
            Kind::Ability { .. } => stores(Unread, One, Some(Class::Limit)),
            Kind::Quiet { .. } => stores(Unread, One, None),

            // Who belongs, and who wants texts.
            Kind::Join { .. } => stores(Address, All, None).in_turn(Turn::Person),
            Kind::People(People::Leave) => stores(Address, One, None),
            Kind::People(People::Squads) => answers(Address, All, None),
            Kind::People(_) => stores(Address, All, None),
            Kind::Forget => stores(Address, One, None),
            Kind::Stop | Kind::Start => stores(Address, All, None),

            // Who comes.
            Kind::Attend { .. } => stores(Swimming, One, Some(Class::Attend)),
            Kind::Leaves { .. } | Kind::Maybe { .. } | Kind::Back { .. } => {
                stores(Unread, One, Some(Class::Attend))
            }
            Kind::Away { .. } => stores(Swimming, One, Some(Class::Away)),
            Kind::Here { .. } | Kind::Absent { .. } => stores(Unread, All, Some(Class::Register)),

            // The coach's evening.
            Kind::Lanes { .. } => answers(Unread, All, Some(Class::Lanes)),
            Kind::LaneGone => stores(Unread, All, Some(Class::Lanes)),
            Kind::Move { .. } | Kind::SwapLanes { .. } | Kind::LaneOrder { .. } => {
                stores(Unread, All, Some(Class::Move))
            }
            Kind::DrawnAs { .. } | Kind::Pin { .. } | Kind::Apart { .. } => {
                stores(Unread, All, None)
            }
            Kind::TestNight { .. } | Kind::NamesInRooms { .. } => stores(Unread, All, None),
            Kind::Slot(_) | Kind::Shut { .. } => stores(Unread, All, Some(Class::Timetable)),
            Kind::Reopen { .. } => stores(Unread, All, None),

            // What is passed on, noted and approved.
            Kind::Tell { .. } => stores(Unread, All, Some(Class::Tell)),
            Kind::Note { .. } | Kind::Focus { .. } => stores(Unread, All, Some(Class::Note)),
            Kind::Regular(Regular::Note) => answers(Unread, One, None),
            Kind::Regular(Regular::NoteWanted { .. }) => stores(Unread, One, None),
            Kind::Regular(Regular::Digest) => answers(Unread, All, None),
            Kind::Regular(_) => stores(Unread, All, None),
            Kind::Approval(Approval::Waiting) => answers(Unread, All, None),
            Kind::Approval(_) => stores(Unread, All, None),

            // Questions.
            Kind::Tonight => answers(Swimming, One, Some(Class::Evening)),
            Kind::LaneOf { .. } => answers(Unread, All, Some(Class::Evening)),
            Kind::Trend => answers(Swimming, One, Some(Class::Trend)),
            Kind::Best => answers(Swimming, One, Some(Class::Best)),
            Kind::Log => answers(Swimming, One, Some(Class::Log)),
            Kind::Swimmer => answers(Unread, One, Some(Class::Squad)),
            Kind::Squad { .. } | Kind::Compare { .. } => answers(Unread, All, Some(Class::Squad)),
            Kind::Board => answers(Unread, All, None),
            Kind::Ask(ask) => answers(Unread, One, Some(asked_of(&ask.about))),
            Kind::Help { .. } => answers(Address, All, Some(Class::Ask)),
            Kind::Why => answers(Swimming, All, Some(Class::Why)),
            Kind::More => answers(Swimming, All, Some(Class::More)),
            Kind::Again => answers(Swimming, One, Some(Class::Again)),

            // What settles a question.
            Kind::Yes | Kind::No => answers(Unread, All, None),
            Kind::Choose { .. } => stores(Unread, All, None),
        }
    }

    /// True of a question about somebody, a swim or a night, which may be asked again of
    /// another.
    pub const fn is_question(&self) -> bool {
        let nature = self.nature();
        !nature.stores
            && !matches!(self, Kind::Help { .. })
            && matches!(
                nature.class,
                Some(
                    Class::Next
                        | Class::Plan
                        | Class::Targets
                        | Class::Predict
                        | Class::Lanes
                        | Class::Evening
                        | Class::Trend
                        | Class::Best
                        | Class::Log
                        | Class::Squad
                        | Class::Why
                        | Class::Ask
                )
            )
    }

    /// True for a statement that asks for something and changes nothing.
    pub const fn only_answers(&self) -> bool {
        !self.nature().stores
    }
}

/// The class of a question in the sender's own words.
const fn asked_of(about: &About) -> Class {
    match about {
        About::Evening { .. } | About::Turnout { .. } | About::Standing { .. } => Class::Evening,
        About::Swum { .. } | About::SetOf { .. } => Class::Log,
        _ => Class::Ask,
    }
}

/// A row of what changes what is kept.
const fn stores(matter: Matter, of: Of, class: Option<Class>) -> Nature {
    let is_personal = matches!(of, Of::One);
    Nature { stores: true, turn: Turn::Usual, matter, is_personal, class }
}

/// A row of what only asks.
const fn answers(matter: Matter, of: Of, class: Option<Class>) -> Nature {
    Nature { stores: false, ..stores(matter, of, class) }
}

impl Nature {
    const fn in_turn(self, turn: Turn) -> Self {
        Nature { turn, ..self }
    }
}
