//! Questions that one word settles: asked, kept open, answered.

use super::desk::Desk;
use super::refusing::{Stopped, refused};
use super::view::View;
use crate::history::{Event, QuestionKept, Right, Squad};
use crate::message::{Choice, Doubt, Kind, Message, Name, Reading, Statement};
use crate::reply::{self, Asks, OkReply, Outcome, QuestionReply, RefusedWhy};

/// What became of the sender's earlier questions.
#[derive(Debug, Default)]
pub struct Questions {
    /// One that waited, and is asked now.
    pub next: Option<String>,
    /// One that gives way to this text, and was never answered.
    pub dropped: Option<String>,
}

impl View<'_> {
    /// The sender's open question, if it has not expired.
    pub fn open_question(&self) -> Option<&QuestionKept> {
        self.member()?.question.as_ref().filter(|question| question.until > self.asked.wall)
    }

    /// What a `y` or `ok` agrees to: what is asked, or the one name suggested.
    /// Only the word itself agrees to what can't be taken back.
    fn agreed<'q>(&self, text: &str, question: &'q QuestionKept) -> Option<&'q Choice> {
        let erases = |choice: &Choice| {
            choice.message.statements.iter().any(|statement| statement.kind == Kind::Forget)
        };
        let read = || self.typed(text, |typed| typed.reading(self.language(), |_| false));
        let says_yes = || match read() {
            Reading::Understood(said) => {
                matches!(said.statements.as_slice(), [Statement { who: None, kind: Kind::Yes }])
            }
            _ => false,
        };
        let [only] = question.choices.as_slice() else { return None };
        let agreeable = only.word == "yes" && !erases(only) || suggests_a_name(only);
        (agreeable && says_yes()).then_some(only)
    }
}

impl Desk<'_> {
    /// Forgets the sender's open question; the next that waits is then open.
    pub fn close_question(&mut self) {
        if self.member().is_some_and(|member| member.question.is_some()) {
            let address = self.asked.from.to_owned();
            self.record(Event::QuestionClosed { address, about: None });
        }
    }

    /// Forgets what the sender was asked about this swimmer, whose result is
    /// here; what is asked about another stays open.
    pub fn close_question_about(&mut self, who: &Name) {
        if self.member().is_some_and(|member| member.question.is_some()) {
            let address = self.asked.from.to_owned();
            self.record(Event::QuestionClosed { address, about: Some(who.clone()) });
        }
    }

    /// The question to ask now: it waited behind the one that this message settled.
    pub fn next_question(&self, before: &Squad) -> Option<String> {
        let open = self.open_question()?;
        // One about danger is asked until it is answered.
        let asked_now = |event: &Event| matches!(event, Event::QuestionAsked { .. });
        if open.asks_of_danger() && !self.events.iter().any(asked_now) {
            return Some(open.asks.clone());
        }
        let waited = &before.members.get(self.asked.from)?.waiting;
        waited.contains(open).then(|| open.asks.clone())
    }

    /// The question that was open before this message and is dropped without an answer;
    /// not one that this text answers by saying it all again.
    pub fn dropped_question(&self, before: &Squad) -> Option<String> {
        let member = before.members.get(self.asked.from)?;
        let asked = member.question.as_ref().filter(|asked| asked.until > self.asked.wall)?;
        let gives_way = |event: &Event| {
            matches!(
                event,
                Event::QuestionAsked { .. } | Event::QuestionClosed { about: Some(_), .. }
            )
        };
        let now = self.member()?;
        let waits = now.question.iter().chain(&now.waiting).any(|one| one.asks == asked.asks);
        let dropped = !self.answered && !waits && self.events.iter().any(gives_way);
        let said_over = self.events.iter().any(|event| asked.would_store_as(event));
        // One without choices only asked for the text again, and an offer to pass words on
        // stored nothing.
        let offered = is_offer(self, asked) || asked.takes_back();
        (dropped && !said_over && !offered && !asked.choices.is_empty()).then(|| asked.asks.clone())
    }

    /// Keeps a question until it is answered.
    pub fn ask(&mut self, reply: &QuestionReply, choices: Vec<Choice>) {
        let question = self.kept(reply, choices);
        let address = self.asked.from.to_owned();
        // What was asked of danger, pain or illness is asked again once this is answered.
        let health = self.open_question().filter(|open| open.is_of_health()).cloned();
        let health = health.filter(|open| open.asks != question.asks);
        self.record(Event::QuestionAsked { address: address.clone(), question });
        if let Some(question) = health {
            self.record(Event::QuestionQueued { address, question });
        }
    }

    /// Keeps a question about what ails somebody until the one that is open is answered.
    pub fn ask_later(&mut self, reply: &QuestionReply, choices: Vec<Choice>) {
        let question = self.kept(reply, choices);
        if question.is_of_health() {
            let address = self.asked.from.to_owned();
            self.record(Event::QuestionQueued { address, question });
        }
    }

    fn kept(&self, reply: &QuestionReply, choices: Vec<Choice>) -> QuestionKept {
        QuestionKept {
            asks: self.voice().question(reply).join(" "),
            choices,
            until: reply.until,
            about: None,
            confirms: reply.asks.confirms(),
            asked: Some(self.now()),
            text: matches!(reply.asks, Asks::Doubt(Doubt::Missing { .. }))
                .then(|| self.asked.text.to_owned()),
        }
    }

    /// The message that a one-word answer to the open question chooses. What it says is
    /// still checked like any text, unless the question was whether it is right.
    pub fn settled_by(&mut self, text: &str) -> Option<Message> {
        let question = self.open_question()?;
        let word = reply::carried(&text.trim_end_matches(['.', '!', ' ']).to_lowercase());
        let voice = self.voice();
        // In their language, as it was asked, or in English.
        let settles = |choice: &&Choice| {
            choice.word == word || voice.option(&choice.word).to_lowercase() == word
        };
        let chosen = question.choices.iter().find(settles);
        let message = chosen.or_else(|| self.agreed(text, question))?.message.clone();
        self.view.confirmed = question.confirms;
        self.view.answered = true;
        self.close_question();
        Some(message)
    }
}

/// True for an answer that puts a swimmer's name right.
fn suggests_a_name(choice: &Choice) -> bool {
    Name::new(&choice.word).is_ok_and(|name| {
        choice.message.statements.iter().any(|statement| {
            statement.who.as_ref() == Some(&name) || statement.kind.names().contains(&name)
        })
    })
}

/// True for the question whether to pass the sender's words on.
pub fn is_offer(view: &View<'_>, question: &QuestionKept) -> bool {
    let tells = |one: &Statement| matches!(one.kind, Kind::Tell { .. });
    let [only] = question.choices.as_slice() else { return false };
    !view.may(Right::Broadcast) && only.message.statements.iter().all(tells)
}

/// `no` to an open question leaves all as it was; what may ail somebody was asked about with
/// something else, and is asked about alone.
pub fn no(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    let asked = desk.member().and_then(|member| member.question.clone());
    let late = asked.as_ref().is_some_and(|asked| !asked.what_ails().is_empty());
    if desk.open_question().is_none() && !desk.answered && !late {
        return Err(refused("no_question", RefusedWhy::NoQuestion));
    }
    if let Some(ails) = asked.filter(|_| !desk.answered).and_then(|asked| ails_among(&asked)) {
        desk.close_question();
        let asks = Asks::Doubt(Doubt::Meant { says: ails.clone() });
        return Err(ask_yes(desk, asks, &Message { statements: ails }));
    }
    if !desk.answered {
        desk.close_question();
    }
    Ok(Outcome::Ok(OkReply::LeftAlone))
}

/// What may ail somebody by a question, where it asks about more than that.
fn ails_among(question: &QuestionKept) -> Option<Vec<Statement>> {
    let ails: Vec<Statement> = question.what_ails().into_iter().cloned().collect();
    let more = question.choices.iter().any(|one| one.message.statements.len() > ails.len());
    (more && !ails.is_empty()).then_some(ails)
}

/// Asks for a yes before `message` is stored.
pub fn ask_yes(desk: &mut Desk<'_>, asks: Asks, message: &Message) -> Stopped {
    let reply = QuestionReply {
        asks,
        options: vec!["yes".into(), "no".into()],
        until: desk.question_until(),
    };
    desk.ask(&reply, vec![Choice { word: "yes".into(), message: message.clone() }]);
    Box::new(Outcome::Question(reply))
}

/// The message with one of its names put right.
pub fn with_name(message: &Message, name: &Name, option: &str) -> Option<Choice> {
    let right = Name::new(option).ok()?;
    let mut message = message.clone();
    for statement in &mut message.statements {
        if statement.who.as_ref() == Some(name) {
            statement.who = Some(right.clone());
        }
        let names = statement.kind.names_mut().iter_mut();
        names.filter(|one| *one == name).for_each(|one| one.clone_from(&right));
    }
    Some(Choice { word: option.to_owned(), message })
}

/// The question with the name of the swimmer it is about.
pub fn of_whom(reply: QuestionReply, who: &Name) -> QuestionReply {
    match reply.asks {
        Asks::WhoIs { .. } => reply,
        asks => {
            QuestionReply { asks: Asks::Of { who: who.clone(), asks: Box::new(asks) }, ..reply }
        }
    }
}
