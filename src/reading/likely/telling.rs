//! What a text tells, all of it at once: `pain+test`, `in+out`.
//!
//! Where [`Likely`](super::Likely) says of each kind by itself how likely it is, this chooses
//! among whole texts as people write them, and tells coming from staying away. It is a second
//! opinion beside the frames: they know how things are said, it knows what is said together
//! and by which words. `grammar/weights/tellings-*.txt`, trained from the labelled texts
//! (`tests/reading/train.rs`).

use std::sync::LazyLock;

use super::softmax::Softmax;
use crate::language::Language;
use crate::message::{Class, named_variants};
use crate::reading::frame::Clause;
use crate::reading::lexicon::Sense;
use crate::reading::piece::{Item, Piece};

named_variants! {
    /// One thing that a text may tell.
    #[allow(missing_docs)] // named as in the outside interface
    Telling {
    Test = "test",
    SetResult = "set_result",
    Done = "done",
    Missed = "missed",
    In = "in",
    Out = "out",
    Leaves = "leaves",
    Here = "here",
    Absent = "absent",
    Away = "away",
    Pain = "pain",
    Ill = "ill",
    Tired = "tired",
    Better = "better",
    Cleared = "cleared",
    Fix = "fix",
    Undo = "undo",
    Ask = "ask",
    MaySwim = "may_swim",
    Tonight = "tonight",
    TestNight = "test_night",
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
    OwnTarget = "own_target",
    Profile = "profile",
    Kit = "kit",
    Limit = "limit",
    Tell = "tell",
    Note = "note",
    Set = "set",
    Change = "change",
    Lanes = "lanes",
    Move = "move",
    Slot = "slot",
    Shut = "shut",
    Hold = "hold",
    Release = "release",
    Squad = "squad",
    Swimmer = "swimmer",
    Compare = "compare",
    Private = "private",
    Guest = "guest",
    Add = "add",
    Remove = "remove",
    Help = "help",
    Stop = "stop",
    Nothing = "nothing",
    }
}

impl Telling {
    /// Those that a label's kind may be; `comes` where it says whether somebody comes.
    pub fn named(kind: &str, comes: Option<bool>) -> Option<Telling> {
        Telling::by_name(kind).or_else(|| {
            Some(match kind {
                "attend" if comes == Some(false) => Telling::Out,
                "attend" | "maybe" | "back" => Telling::In,
                "timed_test" => Telling::Test,
                "leaves_early" | "leave_early" | "left_early" => Telling::Leaves,
                "sleep" | "wellness" => Telling::Tired,
                "cut" | "change_set" | "set_change" | "resume" | "next_part" | "send_off"
                | "pause" => Telling::Change,
                "order" | "lead" | "swap_swimmers" | "swap_lanes" | "move_lane" | "lane_move"
                | "lane" | "draw" | "apart" => Telling::Move,
                "focus" => Telling::Note,
                "goal" | "wish" => Telling::OwnTarget,
                "entry" => Telling::Race,
                "avoid" | "ability" | "restrict" => Telling::Limit,
                "invite" => Telling::Add,
                "predict_set" => Telling::Ask,
                "delete" | "no" => Telling::Undo,
                _ => return None,
            })
        })
    }

    /// The kind of what it tells; none of what words alone don't tell.
    pub fn class(self) -> Option<Class> {
        match self {
            Telling::In | Telling::Out | Telling::Leaves => Some(Class::Attend),
            one => Class::named(one.name()),
        }
    }

    /// What a kind is of a text that tells of it.
    pub fn of(class: Class, comes: bool) -> Option<Telling> {
        Telling::by_name(class.name()).or(match class {
            Class::Attend if comes => Some(Telling::In),
            Class::Attend => Some(Telling::Out),
            Class::Register if comes => Some(Telling::Here),
            Class::Register => Some(Telling::Absent),
            Class::Timetable if comes => Some(Telling::Slot),
            Class::Timetable => Some(Telling::Shut),
            _ => None,
        })
    }
}

/// Pieces up to which a text has a second opinion: nobody types more in one breath.
pub const LONGEST: usize = 100;

/// What a text may tell, the likeliest first, and how likely each is.
pub type Tellings = Vec<(Vec<Telling>, f32)>;

/// What the model looks at in a text.
pub fn telling_features(c: &Clause<'_, '_>) -> Vec<String> {
    let mut all = c.likely.features().to_vec();
    for one in &c.sit.before {
        let class = Class::of(&one.kind).map_or("other", Class::name);
        all.push(format!("after {class}"));
        all.push(format!("after {class} {}", c.len().min(6)));
    }
    if c.sit.pending {
        all.push("after a question".to_owned());
    }
    let figures = c.pieces.iter().filter(|piece| is_figure(piece)).count();
    all.push(format!("figures {}", figures.min(5)));
    all.push(format!("pieces {}", (c.len() / 4).min(6)));
    all.push(format!("people {}", c.people().len().min(3)));
    let aching = |piece: &Piece<'_>| piece.sense(|one| matches!(one, Sense::Body(_)).then_some(()));
    if c.pieces.iter().any(|piece| aching(piece).is_some()) {
        all.push("body".to_owned());
    }
    all
}

/// True of a piece in which a figure stands.
fn is_figure(piece: &Piece<'_>) -> bool {
    matches!(
        piece.item,
        Item::Figure(_)
            | Item::Far(_)
            | Item::Repeat(..)
            | Item::Plural(_)
            | Item::Each(_)
            | Item::Span(_)
            | Item::OfAll(..)
            | Item::Range(..)
    )
}

/// What a text tells by its words and situation alone.
pub fn tellings(c: &Clause<'_, '_>) -> Tellings {
    let model: &Model = match c.sit.language {
        Language::English => &ENGLISH,
        Language::Spanish => &SPANISH,
    };
    let odds = model.weights.odds(&telling_features(c));
    let mut all: Tellings = model.tellings.iter().cloned().zip(odds).collect();
    all.sort_by(|one, other| other.1.total_cmp(&one.1));
    all
}

struct Model {
    weights: Softmax,
    /// What each choice tells.
    tellings: Vec<Vec<Telling>>,
}

impl Model {
    fn load(table: &'static str) -> Self {
        let weights = Softmax::load(table);
        let of =
            |choice: &&str| choice.split('+').filter_map(|one| Telling::named(one, None)).collect();
        let tellings = weights.choices.iter().map(of).collect();
        Model { weights, tellings }
    }
}

static ENGLISH: LazyLock<Model> =
    LazyLock::new(|| Model::load(include_str!("../../../grammar/weights/tellings-english.txt")));

static SPANISH: LazyLock<Model> =
    LazyLock::new(|| Model::load(include_str!("../../../grammar/weights/tellings-spanish.txt")));

#[cfg(test)]
mod tests {
    use super::{ENGLISH, SPANISH, Telling};

    /// The tables name what we know: a choice with an unknown name would tell less than it
    /// was learnt for.
    #[test]
    fn every_choice_of_the_tables_is_known() {
        for model in [&*ENGLISH, &*SPANISH] {
            assert!(model.tellings.len() > 50);
            for (choice, tells) in model.weights.choices.iter().zip(&model.tellings) {
                let names: Vec<&str> = tells.iter().map(|one| one.name()).collect();
                assert_eq!(names.join("+"), *choice);
            }
        }
    }

    #[test]
    fn a_label_says_whether_somebody_comes() {
        assert_eq!(Telling::named("attend", Some(false)), Some(Telling::Out));
        assert_eq!(Telling::named("attend", None), Some(Telling::In));
        assert_eq!(Telling::named("cut", None), Some(Telling::Change));
        assert_eq!(Telling::named("entry_fee", None), None);
    }
}
