//! A set or a session as the trade writes it, before anyone swims it.

use serde::{Deserialize, Serialize};

use super::{Day, Kind, Length, Message, Statement};
use crate::session::Part;
use crate::units::{Centis, Equipment, Level, SendOff, Stroke};

/// A set or a session, and the night it is for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "StoredSet", into = "StoredSet")]
pub struct TypedSet {
    /// The day, where one was said.
    pub on: Option<Day>,
    /// What to swim, line by line.
    pub lines: Vec<SetLine>,
    /// What some lanes swim otherwise of its main line.
    pub lanes: Vec<ForLanes>,
}

/// What some lanes swim otherwise of a set's main line: `10x100 on 2:15, 8 for 3 and 4`.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ForLanes {
    /// Which lanes.
    pub lanes: Vec<u8>,
    /// How many, where that is another number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u16>,
    /// When they leave, where that is another send-off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub send_off: Option<SendOff>,
}

/// How it is stored: the lines alone where no day and no lanes were said.
#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum StoredSet {
    Lines(Vec<SetLine>),
    For {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        on: Option<Day>,
        lines: Vec<SetLine>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        lanes: Vec<ForLanes>,
    },
}

impl From<StoredSet> for TypedSet {
    fn from(stored: StoredSet) -> Self {
        match stored {
            StoredSet::Lines(lines) => TypedSet { on: None, lines, lanes: Vec::new() },
            StoredSet::For { on, lines, lanes } => TypedSet { on, lines, lanes },
        }
    }
}

impl From<TypedSet> for StoredSet {
    fn from(set: TypedSet) -> Self {
        match (set.on, set.lanes.is_empty()) {
            (None, true) => StoredSet::Lines(set.lines),
            (on, _) => StoredSet::For { on, lines: set.lines, lanes: set.lanes },
        }
    }
}

/// One line of a session: perhaps named for its part, then what to swim.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SetLine {
    /// `warm up`, `main`, `swim down`, where it was said.
    pub part: Option<Part>,
    /// What to swim, in order.
    pub pieces: Vec<SetPiece>,
}

/// A piece of a set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SetPiece {
    /// `8x50 on 1:05`, `200 easy`
    Item(SetItem),
    /// `3x(…)`
    Rounds(Rounds),
}

/// Pieces swum several times through; nested to a depth of four.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rounds {
    /// How many times, 1 to 50.
    pub times: u16,
    /// What each time.
    pub pieces: Vec<SetPiece>,
    /// Rest between rounds.
    pub rest: Option<Centis>,
}

/// A number of repeats of one distance.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SetItem {
    /// How many, 1 to 100.
    pub count: u16,
    /// How far each.
    pub distance: Length,
    /// The stroke, where one was said.
    pub stroke: Option<Stroke>,
    /// `on 1:05`, `@1:45`
    pub send_off: Option<SendOff>,
    /// `rest 20`, `+10s`
    pub rest: Option<Centis>,
    /// `hold 48`
    pub target: Option<Centis>,
    /// `hold 200 pace`: the even pace of that test, whatever it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pace_of: Option<Length>,
    /// `easy`, `threshold`
    pub level: Option<Level>,
    /// `fins`
    pub equipment: Vec<Equipment>,
    /// `descend`, `build`, `neg split`
    pub effort: Vec<Effort>,
    /// What else was written: a comment.
    pub comment: Option<String>,
}

/// How the effort is spread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Effort {
    /// Each repeat faster than the one before; over so many, where it was said
    /// (`1-4 descend`).
    Descend(Option<u8>),
    /// Each slower.
    Ascend(Option<u8>),
    /// Faster within the repeat.
    Build,
    /// Second half faster.
    NegativeSplit,
    /// All alike.
    Even,
    /// As fast as can be held.
    BestAverage,
    /// In the order of the medley.
    ImOrder,
}

impl Message {
    /// The message with sets that follow each other as one: on a whiteboard a
    /// semicolon or a new line parts the blocks of a set, not two sets. One that
    /// names a day of its own stands alone.
    pub fn with_one_set(self) -> Message {
        let mut statements: Vec<Statement> = Vec::with_capacity(self.statements.len());
        for statement in self.statements {
            match (statements.last_mut(), statement) {
                (
                    Some(Statement { who, kind: Kind::Set(whole) }),
                    Statement { who: same, kind: Kind::Set(TypedSet { on: None, lines, lanes }) },
                ) if *who == same => {
                    whole.lines.extend(lines);
                    whole.lanes.extend(lanes);
                }
                (_, statement) => statements.push(statement),
            }
        }
        Message { statements }
    }
}
