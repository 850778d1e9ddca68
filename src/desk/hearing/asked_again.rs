//! A text that asks what its sender asked before, of somebody or something else: `and 400`.

use jiff::ToSpan;

use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::is_offer;
use crate::desk::decision::view::View;
use crate::history::{Event, Right};
use crate::message::{About, Ask, Kind, Message, Reading, Statement};
use crate::reading::{self, Decision};

/// How long a question can be gone on from (ours).
const SOON_MIN: i64 = 10;

/// Letters up to which a question is kept to be gone on from, and up to which a text goes
/// on from one.
const LONGEST: usize = 160;
const LONGEST_FRAGMENT: usize = 60;

impl View<'_> {
    /// The sender's last text, where it was a question and nothing else waits for an answer.
    pub fn asked_before(&self) -> Option<&str> {
        let (at, text) = self.member()?.asked.as_ref()?;
        let since = self.now().checked_sub(SOON_MIN.minutes()).ok()?;
        let open = self.open_question().is_some_and(|open| !is_offer(self, open));
        (*at >= since && *at <= self.now() && !open).then_some(text.as_str())
    }

    /// The sender's last text, where it was taken for a set to be swum and shown as one.
    pub fn shown_before(&self) -> Option<&str> {
        let text = self.asked_before().filter(|text| may_be_a_set(text))?;
        is_shown(&self.statements_of_notation(text)).then_some(text)
    }

    /// What a text says by our own notation alone.
    fn statements_of_notation(&self, text: &str) -> Vec<Statement> {
        match self.parse(text) {
            Reading::Understood(Message { statements }) => statements,
            _ => vec![],
        }
    }
}

impl Desk<'_> {
    /// The question that a fragment asks, as a whole; never anything to be kept.
    pub fn asked_again(&mut self, text: &str) -> Option<Message> {
        let before = self.asked_before().filter(|_| text.len() <= LONGEST_FRAGMENT)?;
        if self.shown_before().is_some() {
            return None;
        }
        let whole = reading::again(before, text, &self.situation())?;
        let asks = |says: &Vec<Statement>| {
            !says.is_empty() && says.iter().all(|one| one.kind.is_question())
        };
        let read = match self.reading_of(&whole) {
            Decision::Take { says, .. } => says,
            _ => vec![],
        };
        // Our own notation, where no words ask: `targets 100`.
        let found = Some(read).filter(&asks).or_else(|| {
            let said = self.statements_of(&whole);
            Some(said).filter(&asks)
        });
        let unknown = || {
            let ask = Ask { about: About::Other, text: whole.clone() };
            vec![Statement { who: None, kind: Kind::Ask(ask) }]
        };
        let statements = found.unwrap_or_else(unknown);
        self.again = Some(whole);
        Some(Message { statements })
    }

    /// Keeps what the text asked, to be gone on from; one that said something else as well,
    /// or anything of health, ends that.
    pub fn keep_question(&mut self) {
        let again = self.again.take();
        let asks = !self.private
            && !self.cares
            && self.matter.is_none()
            && self.minor_sender().is_none()
            && !self.read.is_empty()
            && (self.read.iter().all(|one| one.kind.is_question())
                || is_shown(&self.read) && !self.may(Right::RunEvening));
        let text = again.unwrap_or_else(|| self.asked.text.trim().to_owned());
        let text = Some(text).filter(|text| asks && text.len() <= LONGEST);
        let kept = self.member().map(|member| member.asked.is_some());
        if kept.is_some_and(|kept| kept || text.is_some()) {
            self.record(Event::QuestionHeard { address: self.asked.from.to_owned(), text });
        }
    }
}

/// True for a set that nobody but its sender is shown.
fn is_shown(says: &[Statement]) -> bool {
    matches!(says, [Statement { who: None, kind: Kind::Set(_) }])
}

/// True for a text that can be repeats: most can't, and need not be read.
fn may_be_a_set(text: &str) -> bool {
    text.contains(['x', 'X', '*']) && text.chars().any(|one| one.is_ascii_digit())
}
