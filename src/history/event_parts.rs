//! What events are made of: results, with more than the maths needs of them; pain and
//! illness; questions that were asked back; reasons; settings.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantNames};

use super::Event;
use crate::language::Language;
use crate::message::{Choice, Kind, Name, Statement};
use crate::session::{Limit, Purpose, Repeat, Session};
use crate::swim::Trial;
use crate::units::{Centis, Course, Distance, Start, Stroke, Unit, Weekdays};

/// A test with what the maths need not know.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TestKept {
    /// The swim.
    pub trial: Trial,
    /// Its splits, if given.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub splits: Vec<Centis>,
    /// How it began, where it was said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start: Option<Start>,
    /// How it was said to have begun and where it was swum before, and the message
    /// that said otherwise.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub begun_before: Vec<(u64, Option<Start>, bool)>,
    /// Times it was put right from, and the message that did so.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub before: Vec<(u64, Centis)>,
    /// Who put it right, oldest first: it stays to be seen.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub put_right: Vec<PutRight>,
}

impl TestKept {
    /// A test as it was told, not put right by anyone.
    pub fn new(trial: Trial, splits: Vec<Centis>, start: Option<Start>) -> Self {
        Self { trial, splits, start, begun_before: vec![], before: vec![], put_right: vec![] }
    }

    /// How it began: as was said; else in training from a push, at a meet as the
    /// rules have it, backstroke in the water and all else with a dive.
    pub fn began(&self) -> Start {
        self.start.unwrap_or(match (self.trial.meet, self.trial.stroke) {
            (false, _) => Start::Push,
            (true, Stroke::Back) => Start::Water,
            (true, _) => Start::Dive,
        })
    }
}

/// A test that is another's, told from others of the same message.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SwappedTest {
    /// The message that stored it.
    pub cause: u64,
    /// How far it was.
    pub distance: Distance,
}

/// A correction of a result.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PutRight {
    /// The message that made it.
    pub cause: u64,
    /// The handle of who did; none for a coach who does not swim.
    pub by: Option<Name>,
    /// The local day.
    pub on: Date,
    /// What it was before.
    pub was: Before,
}

/// What a result was before it was put right.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Before {
    /// Of this time.
    Time(Centis),
    /// This swimmer's.
    Of(Name),
}

/// What can be open.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum TroubleKind {
    /// Pain in one place.
    Pain {
        /// English singular.
        place: String,
        /// 0 to 10, where it was said.
        level: Option<u8>,
    },
    /// Illness.
    Ill {
        /// With fever or a chest infection.
        fever: bool,
        /// Of the stomach.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        stomach: bool,
    },
    /// Dizziness, faintness, chest pain, breathlessness.
    Faint,
    /// Held to easy swimming by the coach.
    Held,
    /// Easy swimming only, for a reason that is theirs and kept nowhere.
    Eased,
}

impl TroubleKind {
    /// True for what no word of theirs lifts.
    pub fn is_stop(&self) -> bool {
        matches!(self, TroubleKind::Faint | TroubleKind::Held | TroubleKind::Eased)
    }

    /// False for what is theirs, and of which no word is kept or told.
    pub fn is_told(&self) -> bool {
        *self != TroubleKind::Eased
    }
}

/// What an answer rests on, to be explained on `why` with the numbers as they
/// then are.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "of")]
pub enum Reasons {
    /// A swimmer's latest test, and the session it led to.
    Test {
        /// Whose.
        who: Name,
        /// The rules of the session.
        rules: Vec<String>,
        /// What was left out of it.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        without: Vec<Limit>,
        /// Its main set.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        main: Option<MainOf>,
    },
    /// A swimmer's latest set.
    Set {
        /// Whose.
        who: Name,
        /// The rules that changed it.
        rules: Vec<String>,
    },
    /// A predicted time.
    Prediction {
        /// Whose.
        who: Name,
        /// How far.
        distance: Distance,
    },
    /// A session, or a week.
    Rules {
        /// The rules that decided, most important first.
        rules: Vec<String>,
        /// What was left out.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        without: Vec<Limit>,
        /// A swimmer's main set that it is about.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        main: Option<MainOf>,
    },
}

/// A swimmer's main set, to be explained.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct MainOf {
    /// Whose.
    pub who: Name,
    /// What its session is for.
    pub purpose: Purpose,
    /// Its line.
    pub set: Repeat,
}

impl Reasons {
    /// What a session rests on.
    pub fn of(session: &Session) -> Reasons {
        Reasons::rules(session.rules.clone(), session.without.iter().copied())
    }

    /// Rules, and what was left out by them, each once.
    pub fn rules(rules: Vec<String>, without: impl IntoIterator<Item = Limit>) -> Reasons {
        let mut without: Vec<Limit> = without.into_iter().collect();
        without.sort_unstable();
        without.dedup();
        Reasons::Rules { rules, without, main: None }
    }

    /// The same, and the main set that it is about.
    pub fn with_main(self, of: Option<MainOf>) -> Reasons {
        match self {
            Reasons::Rules { rules, without, .. } => Reasons::Rules { rules, without, main: of },
            Reasons::Test { who, rules, without, .. } => {
                Reasons::Test { who, rules, without, main: of }
            }
            other => other,
        }
    }
}

/// One thing a swimmer says of themselves.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[derive(IntoStaticStr, VariantNames)]
#[serde(rename_all = "snake_case")]
pub enum ProfileSetting {
    /// Their pool.
    Course(Course),
    /// Their days.
    Days(Weekdays),
    /// Sessions a week.
    Sessions(u8),
    /// Minutes a session.
    Minutes(u16),
    /// Their year of birth.
    Born(i16),
    /// The unit they speak in.
    Units(Unit),
    /// Their language.
    Language(Language),
}

/// So long after the answer was no use any more what ailed them may have passed (ours).
const PASSES_DAYS: i64 = 7;

/// A question that waits for one word.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct QuestionKept {
    /// What was asked, in the words it was asked in.
    pub asks: String,
    /// Each answer, and what the text then says.
    pub choices: Vec<Choice>,
    /// The answer is no use after this.
    pub until: Timestamp,
    /// The swimmer it is about, where others' results stood in the same text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub about: Option<Name>,
    /// It asks whether what was read is meant and can be: its answer is not
    /// asked about again. False where it asks what was meant.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub confirms: bool,
    /// The instant of the message that it was asked about; earlier records don't say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asked: Option<Timestamp>,
    /// The text that said too little, where the answer is the rest of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
}

impl QuestionKept {
    /// True for the question whether anybody is in danger.
    pub fn asks_of_danger(&self) -> bool {
        self.said().any(|kind| *kind == Kind::Faint)
    }

    /// The pain and illness that stand in any answer: what may ail somebody by their own words.
    pub fn what_ails(&self) -> Vec<&Statement> {
        Statement::ailing_in_any(self.choices.iter().map(|one| one.message.statements.as_slice()))
    }

    /// When what it asks of pain or illness, left without an answer, may have passed.
    pub fn passes(&self) -> Timestamp {
        self.until.checked_add((PASSES_DAYS * 24).hours()).unwrap_or(Timestamp::MAX)
    }

    /// True of what may not be forgotten for want of an answer: danger, pain, illness.
    pub fn is_of_health(&self) -> bool {
        self.asks_of_danger() || !self.what_ails().is_empty()
    }

    /// True if one of the answers says what this event stored: the same distance,
    /// typed over instead of answered.
    pub fn would_store_as(&self, event: &Event) -> bool {
        let far = match event {
            Event::TestSwum { test, .. } => Some(test.trial.distance.amount()),
            Event::SessionSwum { swum, .. } => swum.distance.map(|distance| distance.amount()),
            Event::SetSwum { set, .. } => Some(set.set.distance.amount()),
            _ => None,
        };
        far.is_some()
            && self.said().any(|kind| match kind {
                Kind::Test(test) => Some(test.distance.amount) == far,
                Kind::TimedTest(test) => Some(test.distance.amount) == far,
                Kind::Done(done) => done.distance.map(|length| length.amount) == far,
                Kind::SetResult(set) => Some(set.distance.amount) == far,
                _ => false,
            })
    }

    /// True if it asks whether a swim was meant that is not kept yet.
    pub fn is_of_a_swim(&self) -> bool {
        let mut said = self.said().peekable();
        said.peek().is_some() && said.all(Kind::is_swum)
    }

    /// True if it asks whether something is to be taken back: nothing is lost if it is
    /// never answered.
    pub fn takes_back(&self) -> bool {
        self.said().any(|kind| *kind == Kind::Undo)
    }

    fn said(&self) -> impl Iterator<Item = &Kind> {
        let statements = self.choices.iter().flat_map(|choice| &choice.message.statements);
        statements.map(|statement| &statement.kind)
    }
}
