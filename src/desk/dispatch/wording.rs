//! The end of a message: the outcome worded, cut, and handed over.

use serde_json::Value;

use crate::desk::decision::decided::{Decision, Say, stops_all};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::letters::PARTS;
use crate::desk::decision::questions_back::Questions;
use crate::desk::decision::view::View;
use crate::desk::hearing::rooms;
use crate::desk::hearing::understood::with_stores;
use crate::history::{Event, Right};
use crate::reply::{self, CautionKind, Fitted, HelpReply, OkReply, Outcome, Voice};

impl Desk<'_> {
    /// Words the outcome, keeps what does not fit for `more`, and hands all
    /// over, with what became of questions.
    pub fn close(
        mut self,
        understood: Vec<Value>,
        outcome: Outcome,
        questions: Questions,
    ) -> Decision {
        let voice = self.voice();
        let asks = |event: &Event| {
            matches!(
                event,
                Event::QuestionAsked { .. }
                    | Event::QuestionClosed { .. }
                    | Event::QuestionHeard { .. }
            )
        };
        let stores = self.events.iter().any(|event| !asks(event));
        let understood = with_stores(understood, stores);
        let parted = self
            .asked
            .room
            .map(|_| rooms::part(&outcome, &understood, self.me(), self.names_in_rooms()));
        let aloud = parted.as_ref().and_then(|parted| rooms::words(&parted.aloud, voice));
        let mut lines = match (&parted, &outcome) {
            (Some(parted), _) => in_order(&parted.aside, voice),
            (None, Outcome::Mixed(outcomes)) => in_order(outcomes, voice),
            (None, one) => voice.lines(one),
        };
        if self.may_worry(&outcome) {
            lines.push(voice.worried_hint().to_owned());
        }
        // What to do at once stays first, whatever else there is to say.
        let mut next = lines.len().min(1);
        if !lines.is_empty()
            && let Some((at, nobody)) = self.nobody(&outcome)
        {
            lines.insert(at, nobody.to_owned());
            next = at + 1;
        }
        // Behind what this text came to, before what may wait; the results of
        // several come first.
        let several = matches!(outcome, Outcome::Captured(_));
        if let Some(asked) = questions.dropped {
            let at = if several { lines.len() } else { next };
            lines.insert(at, voice.never_answered(&asked));
        }
        if let Some(question) = questions.next {
            lines.insert(next, question);
        }
        let room = if self.asked.room.is_some() { rooms::PARTS } else { PARTS };
        let named = self
            .naming_squad(&outcome, &lines)
            .map(|lines| reply::fit(lines, room, voice.more_hint()));
        let fitted = reply::fit(lines, room, voice.more_hint());
        // A caution is worth more than the squad's name.
        let fitted = named.filter(|named| named.rest == fitted.rest).unwrap_or(fitted);
        // A text that came to nothing leaves the rest of the last answer waiting.
        let waiting =
            !stops_all(&outcome) && self.member().is_some_and(|member| !member.more.is_empty());
        if !fitted.rest.is_empty() || waiting {
            let address = self.asked.from.to_owned();
            self.record(Event::MoreKept { address, lines: fitted.rest.clone() });
        }
        let fitted = with_asides(fitted, voice.asides(&outcome), room);
        let answer = match &aloud {
            Some(aloud) if fitted.text.is_empty() => aloud,
            _ => &fitted.text,
        };
        let (held, refused) = self.read_along(&outcome, answer);
        let outcome = match (refused, outcome) {
            (None, outcome) => outcome,
            (Some(refused), Outcome::Ok(_)) => refused,
            (Some(refused), outcome) => Outcome::Mixed(vec![outcome, refused]),
        };
        let mut said = std::mem::take(&mut self.to_others);
        // Whoever opted out is still heard, and told nothing but what they must
        // know: danger, how to come back, help.
        let quiet = self.is_opted_out() && !must_be_said(&outcome);
        let mut aside = None;
        if !quiet {
            let (to_sender, alone) = match &parted {
                None => (Some(fitted.text), None),
                Some(_) if fitted.text.is_empty() => (aloud, None),
                Some(parted) => (aloud, Some(rooms::aside(parted, fitted.text, voice))),
            };
            let to_sender = to_sender.filter(|text| !text.is_empty());
            to_sender.into_iter().for_each(|text| said.insert(0, Say::back(text)));
            aside = alone;
        }
        Decision {
            result: reply::result(&outcome, voice),
            private: self.private,
            events: self.events,
            said,
            aside,
            held,
            understood,
            outcome,
            squad: self.view.squad,
            touched: self.touched,
        }
    }

    /// Whether nobody is told or reached, and the line that says so: for this text's
    /// alarm, else once for an earlier one.
    fn nobody(&mut self, outcome: &Outcome) -> Option<(usize, &'static str)> {
        let voice = self.voice();
        if self.unreached {
            return Some((1, voice.nobody_told()));
        }
        let nobody_reached = voice.nobody_reached(self.may(Right::BeWarned));
        if self.uncalled {
            return Some((1, nobody_reached));
        }
        // Whoever writes of harm is not sent to somebody whom it may be about.
        let of_harm = outcome.parts().iter().any(is_welfare);
        let alarm = self.asked.unheard.filter(|_| !of_harm)?;
        self.record(Event::AlarmTold { alarm });
        Some((usize::from(outcome.parts().iter().any(is_caution)), nobody_reached))
    }
}

impl View<'_> {
    /// A reply with its squad's name before it, for whoever is in several: they must
    /// see that their `in` went where they meant. First aid stays first; what belongs
    /// to no squad, or names it already, gets no name.
    fn naming_squad(&self, outcome: &Outcome, lines: &[String]) -> Option<Vec<String>> {
        let several = self.asked.squads.len() > 1 && self.asked.room.is_none();
        let (first, others) = lines.split_first().filter(|_| several && is_of_squad(outcome))?;
        let first = format!("{}: {first}", self.squad.name);
        Some(std::iter::once(first).chain(others.iter().cloned()).collect())
    }
}

fn is_of_squad(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Mixed(outcomes) => {
            !outcomes.iter().any(is_caution) && outcomes.iter().any(is_of_squad)
        }
        Outcome::Caution(_)
        | Outcome::Question(_)
        | Outcome::Refused(_)
        | Outcome::NotUnderstood(_)
        | Outcome::Help(_)
        | Outcome::Squad(_) => false,
        Outcome::Ok(done) => !matches!(
            done,
            OkReply::Belonging(_)
                | OkReply::Joined { .. }
                | OkReply::More { .. }
                | OkReply::Greeting
                | OkReply::Thanks
                | OkReply::OptedOut
                | OkReply::OptedIn
                | OkReply::Silent
                | OkReply::Forgotten
                | OkReply::Board { .. }
                | OkReply::Weekly(_)
        ),
        _ => true,
    }
}

/// The lines of several outcomes: what to do first comes first, whatever the
/// order typed.
fn in_order(outcomes: &[Outcome], voice: Voice) -> Vec<String> {
    let mut ordered = outcomes.to_vec();
    ordered.sort_by_key(|one| (!is_caution(one), !is_danger(one)));
    let behind_danger = match ordered.as_slice() {
        [danger, harm, ..] if is_danger(danger) && is_welfare(harm) => voice.lines(danger).len(),
        _ => 0,
    };
    let mut lines = voice.lines(&Outcome::Mixed(ordered));
    // The first act, then the kind word, then what follows of either.
    if let Some(after_first) = lines.get_mut(1..=behind_danger) {
        after_first.rotate_right(1.min(after_first.len()));
    }
    lines
}

/// A reply, with as many of the lines that may wait as there is room for.
fn with_asides(fitted: Fitted, asides: Vec<String>, parts: usize) -> Fitted {
    if !fitted.rest.is_empty() {
        return fitted;
    }
    asides.into_iter().fold(fitted, |so_far, aside| {
        let longer = format!("{}\n{aside}", so_far.text);
        match reply::segments(&longer).len() <= parts {
            true => Fitted { text: longer, ..so_far },
            false => so_far,
        }
    })
}

fn is_welfare(outcome: &Outcome) -> bool {
    matches!(outcome, Outcome::Caution(reply) if reply.kind.is_welfare())
}

fn is_danger(outcome: &Outcome) -> bool {
    matches!(outcome, Outcome::Caution(reply) if reply.kind.is_danger())
}

/// What even someone who opted out is told.
fn must_be_said(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Mixed(outcomes) | Outcome::Captured(outcomes) => outcomes.iter().any(must_be_said),
        Outcome::Ok(OkReply::OptedOut | OkReply::OptedIn) => true,
        Outcome::Help(help) => !matches!(help, HelpReply::Why { .. }),
        outcome => is_caution(outcome),
    }
}

fn is_caution(outcome: &Outcome) -> bool {
    matches!(outcome, Outcome::Caution(reply) if reply.kind != CautionKind::Effort)
}
