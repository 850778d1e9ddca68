//! Whether a text is our own notation, whole and of people of the squad, so that nothing
//! else need be looked for in it.

use crate::desk::decision::view::View;
use crate::desk::evening::results_by_lane;
use crate::history::Right;
use crate::language::Language;
use crate::message::{Kind, Message, Name, Reading, Sport, Statement};
use crate::reading;
use crate::reading::situation::Phase;

impl View<'_> {
    /// True for a text that the grammar reads whole, that needs no situation to be
    /// understood, and that names people of the squad or mistypes them.
    pub(super) fn is_whole_notation(&self, strict: &Reading, text: &str) -> bool {
        let Reading::Understood(said) = strict else { return false };
        let is_name = |name: &Name| self.is_name(name) || self.is_slip(name);
        said.statements.iter().all(|one| is_command(&one.kind))
            || self.typed(text, |typed| typed.is_notation(self.language(), is_name))
                && self.may_slip(said)
                && !tells_twice(said)
                && !mixes_up(said)
                && said
                    .statements
                    .iter()
                    .all(|one| self.is_settled(&one.kind, text) && self.is_of_somebody(one))
    }

    /// False for texts that say too little without the situation, and for what only a
    /// coach may say.
    fn is_settled(&self, kind: &Kind, text: &str) -> bool {
        match kind {
            Kind::Choose { .. } => self.open_question().is_some(),
            Kind::Fix(_) => self.said_before().iter().all(|one| matches!(one.kind, Kind::Test(_))),
            Kind::Slot(_) => self.may(Right::RunEvening) || text.starts_with("slot"),
            Kind::Cut(_) | Kind::Lanes { .. } => self.may(Right::RunEvening),
            // More figures than swimmers are their repeats.
            Kind::LaneResults(told) => {
                told.distance.is_some()
                    || results_by_lane::number_in(self, told.lane)
                        .is_none_or(|all| all >= told.times.len())
            }
            // Of two who swam nothing yet, in the middle of an evening it is their lanes.
            Kind::SwapResults { names, on: None, distance: None } => {
                let today = self.today;
                let swum = |name: &Name| {
                    let swimmer = self.swimmer(name);
                    swimmer.is_some_and(|one| one.tests.as_of(self.now()).any(|t| t.on == today))
                };
                names.iter().all(swum) || self.situation().phase != Phase::During
            }
            Kind::Done(done) => done.sport != Some(Sport::Other),
            _ => true,
        }
    }

    /// False for a note of nobody, where the sender doesn't swim: `note for wren: …` names
    /// its swimmer in other words.
    fn is_of_somebody(&self, one: &Statement) -> bool {
        let noted = matches!(one.kind, Kind::Note { .. } | Kind::Focus { .. });
        !noted || one.who.is_some() || self.me().is_some()
    }

    /// True for a name of nobody here that is no known word either: whoever speaks for
    /// others has mistyped it, or means somebody else. Swimmers write about themselves.
    fn is_slip(&self, name: &Name) -> bool {
        self.may(Right::SpeakForOthers)
            && !reading::lexicon::Lexicon::of(self.language()).knows(name.as_str())
    }

    /// True if everyone whom a message names is of the squad, or mistyped; in a list
    /// an ordinary word is nobody's name: `kite's here, finally`.
    fn may_slip(&self, said: &Message) -> bool {
        let word = |name: &Name| reading::lexicon::is_ordinary(name.as_str(), self.language());
        let listed = |name: &Name| self.is_ours(name) || self.is_slip(name) && !word(name);
        said.statements.iter().all(|one| {
            about(one).all(|name| self.is_ours(name) || self.is_slip(name))
                && one.kind.names().iter().all(listed)
        })
    }

    /// True for a name of the squad, or of the sender's telephone.
    pub(super) fn is_ours(&self, name: &Name) -> bool {
        self.squad.swimmers.contains_key(name) || self.is_mine(name)
    }

    /// True where an ordinary word stands in a name's place, and is nobody's name here.
    pub(super) fn names_a_word(&self, one: &Statement) -> bool {
        let word = |name: &Name| {
            let is_word = |language| reading::lexicon::is_ordinary(name.as_str(), language);
            !self.is_ours(name) && Language::ALL.into_iter().any(is_word)
        };
        let told = matches!(one.kind, Kind::Tell { .. } | Kind::Focus { .. });
        !told && about(one).any(word)
    }

    /// What the notation read of a text that isn't all notation: outside of it a word that is
    /// nobody's name here is no name, small talk has none (`cheers that was grand`), and `no`
    /// answers only what was asked.
    pub(super) fn without_words_for_names(
        &self,
        read: Reading,
        chats: impl FnOnce() -> bool,
        text: &str,
    ) -> Reading {
        let answers = |kind: &Kind| matches!(kind, Kind::Choose { .. } | Kind::Yes | Kind::No);
        let amiss = |one: &Statement| answers(&one.kind) || self.names_a_word(one);
        let is_none = match &read {
            Reading::Understood(said) => {
                chats()
                    || !self.may(Right::SpeakForOthers) && !self.knows_all(said)
                    || said.statements.iter().any(amiss)
            }
            Reading::NotUnderstood { understood, .. } => {
                understood.iter().any(|one| self.names_a_word(one))
            }
            Reading::Unsure { .. } => false,
        };
        if is_none { nothing_of(text) } else { read }
    }

    /// True if everyone whom a message names is of the squad, or is to be.
    pub(super) fn knows_all(&self, said: &Message) -> bool {
        names(said).all(|name| self.is_ours(name))
    }
}

/// True of two sessions of one kind in a text, which are one told in parts: `gym this
/// morning, weights, 45 mins`.
fn tells_twice(said: &Message) -> bool {
    let done = said.statements.iter().filter_map(|one| match &one.kind {
        Kind::Done(done) => Some((&one.who, done.sport)),
        _ => None,
    });
    let done: Vec<_> = done.collect();
    let mut with_places = done.iter().enumerate();
    with_places.any(|(at, one)| one.1.is_some() && done.iter().take(at).any(|other| other == one))
}

/// True of several tests over what nobody swims against the clock: `50s: swift 37 finch 39`.
fn mixes_up(said: &Message) -> bool {
    let odd = |one: &&Statement| match &one.kind {
        Kind::Test(test) => {
            let far = test.distance;
            far.unit.is_none() && far.amount < 100 && !far.amount.is_multiple_of(25)
        }
        _ => false,
    };
    said.statements.iter().filter(odd).count() > 1
}

/// True for the words that every gateway knows.
const fn is_command(kind: &Kind) -> bool {
    matches!(kind, Kind::Stop | Kind::Start | Kind::Forget | Kind::Help { topic: None })
}

fn names(said: &Message) -> impl Iterator<Item = &Name> {
    said.statements.iter().flat_map(|one| about(one).chain(one.kind.names()))
}

/// Whom a statement is about: `that was teal` of teal, too.
fn about(one: &Statement) -> impl Iterator<Item = &Name> {
    let was = match &one.kind {
        Kind::Fix(fix) => fix.was.as_ref(),
        _ => None,
    };
    one.who.iter().chain(was)
}

/// True where a swim is told of somebody by name, swum or to be swum.
pub(super) fn tells_of_another(read: &Reading) -> bool {
    let swum = |kind: &Kind| kind.is_swum() || matches!(kind, Kind::Entry(_) | Kind::RelayLeg(_));
    matches!(read, Reading::Understood(said)
        if said.statements.iter().any(|one| one.who.is_some() && swum(&one.kind)))
}

/// True where pain or illness was read of a text that isn't understood as a whole.
pub(super) fn tells_of_pain(read: &Reading) -> bool {
    matches!(read, Reading::NotUnderstood { understood, .. }
        if understood.iter().any(|one| one.kind.ails()))
}

/// Nothing of a text was read.
fn nothing_of(text: &str) -> Reading {
    let example = crate::message::EXAMPLES[0].1;
    Reading::NotUnderstood { understood: vec![], rest: text.to_owned(), example }
}
