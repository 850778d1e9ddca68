//! The way through: danger first, then the open question, then the grammar,
//! then one decision a statement, applied together or not at all.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};
use serde_json::{Value, json};

use super::{
    Asked, Decision, Say, care, help, join, people, profile, repair, results, sessions, understood,
};
use crate::language::Language;
use crate::message::{self, Choice, Danger, Doubt, Kind, Message, Name, Reading, Statement, Whom};
use crate::profile::{
    Event, Member, QuestionKept, Reasons, Role, Squad, Stamped, Swimmer, Touched,
};
use crate::reply::{
    self, Alert, Asks, CautionKind, NotUnderstoodReply, OkReply, Outcome, QuestionReply,
    RefusedReply, RefusedWhy, Unread, Voice,
};
use crate::units::Course;

/// How long a question stays open.
const QUESTION_HOURS: i64 = 24;

/// What one message is decided with: a working copy of the squad that each
/// statement changes for the next.
pub struct Desk<'a> {
    /// What is asked.
    pub asked: &'a Asked<'a>,
    /// The squad, with what this message did folded in.
    pub squad: Squad,
    /// The number of this message.
    pub cause: u64,
    /// What this message did.
    pub events: Vec<Event>,
    /// The squad's local day.
    pub today: Date,
    /// A question was answered with yes: don't ask again.
    pub confirmed: bool,
    /// The danger that the text names.
    pub danger: Option<Danger>,
    /// Whom that danger is about.
    pub danger_to: Whom,
    /// What goes to others.
    pub to_others: Vec<Say>,
    touched: Vec<Touched>,
}

/// Decides one message from a member of the squad, or from someone who joins it.
pub fn answer(squad: &Squad, asked: &Asked<'_>) -> Decision {
    let mut desk = Desk::new(squad, asked);
    let (understood, outcome) = desk.decide();
    desk.close(understood, outcome)
}

impl<'a> Desk<'a> {
    fn new(squad: &Squad, asked: &'a Asked<'a>) -> Self {
        Self {
            asked,
            cause: squad.next_cause,
            events: Vec::new(),
            today: asked.now.to_zoned_datetime(squad.zone()).date(),
            confirmed: false,
            danger: None,
            danger_to: Whom::Unsaid,
            to_others: Vec::new(),
            touched: Vec::new(),
            squad: squad.clone(),
        }
    }

    /// Records that something happened, and folds it in at once.
    pub fn record(&mut self, event: Event) {
        let stamped = Stamped {
            cause: self.cause,
            at: self.asked.now,
            by: self.asked.from.to_owned(),
            event,
        };
        self.touched.push(self.squad.apply(&stamped));
        self.events.push(stamped.event);
    }

    /// The squad's local day of an instant.
    pub fn local_day(&self, at: Timestamp) -> Date {
        at.to_zoned_datetime(self.squad.zone()).date()
    }

    /// The sender as a member.
    pub fn member(&self) -> Option<&Member> {
        self.squad.members.get(self.asked.from)
    }

    /// The sender's own handle.
    pub fn me(&self) -> Option<&Name> {
        self.member()?.name.as_ref()
    }

    /// True if the sender is a coach.
    pub fn is_coach(&self) -> bool {
        self.member().is_some_and(|member| member.role == Role::Coach)
    }

    /// A swimmer of the squad.
    pub fn swimmer(&self, name: &Name) -> Option<&Swimmer> {
        self.squad.swimmers.get(name).map(AsRef::as_ref)
    }

    /// What counts as now.
    pub fn now(&self) -> Timestamp {
        self.asked.now
    }

    /// The sender's language.
    pub fn language(&self) -> Language {
        self.me()
            .and_then(|name| self.swimmer(name))
            .and_then(|swimmer| swimmer.language.at(self.now()))
            .copied()
            .unwrap_or_default()
    }

    /// The pool a swimmer swims in.
    pub fn course_of(&self, name: &Name) -> Course {
        self.swimmer(name)
            .and_then(|swimmer| swimmer.course.at(self.now()))
            .copied()
            .unwrap_or(self.squad.course)
    }

    /// The language's words.
    pub fn voice(&self) -> &'static dyn Voice {
        reply::voice(self.language())
    }

    /// Tells the coaches, unless the sender is the only one.
    pub fn tell_coaches(&mut self, who: Option<Name>, kind: CautionKind) {
        let by = self.me().cloned().filter(|me| who.as_ref() != Some(me));
        let text = reply::voice(Language::English).alert(&Alert { who, by, kind });
        let coaches: Vec<String> = self
            .squad
            .coaches()
            .filter(|coach| *coach != self.asked.from)
            .map(str::to_owned)
            .collect();
        for coach in coaches {
            let say = Say { to: Some(coach), text: text.clone() };
            if !self.to_others.contains(&say) {
                self.to_others.push(say);
            }
        }
    }

    /// When a question asked now stops waiting.
    pub fn question_until(&self) -> Timestamp {
        self.asked.wall.checked_add(QUESTION_HOURS.hours()).unwrap_or(Timestamp::MAX)
    }

    /// Whom a statement is about: the one named, if the sender may speak for
    /// her, else the sender.
    pub fn subject(&self, statement: &Statement) -> Result<Name, Stopped> {
        match &statement.who {
            None => {
                self.me().cloned().ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))
            }
            Some(name) if self.me() == Some(name) => Ok(name.clone()),
            Some(_) if !self.is_coach() => Err(refused("coach_only", RefusedWhy::CoachOnly)),
            Some(name) if self.squad.swimmers.contains_key(name) => Ok(name.clone()),
            Some(name) => Err(self.who_is(name)),
        }
    }

    fn who_is(&self, name: &Name) -> Stopped {
        let mut near: Vec<(usize, &Name)> = self
            .squad
            .swimmers
            .keys()
            .map(|known| (strsim::osa_distance(known.as_str(), name.as_str()), known))
            .filter(|(distance, _)| *distance <= 2)
            .collect();
        near.sort();
        Box::new(Outcome::Question(QuestionReply {
            asks: Asks::WhoIs { name: name.clone() },
            options: near.iter().take(3).map(|(_, known)| known.to_string()).collect(),
            until: self.question_until(),
        }))
    }

    fn decide(&mut self) -> (Vec<Value>, Outcome) {
        if let Some((kind, outcome)) = self.opt_words() {
            return (vec![json!({ "kind": kind })], outcome);
        }
        let text = self.asked.text.trim();
        if text.is_empty() {
            return (vec![], unread(Unread::Empty));
        }
        // Before anything is parsed, and whatever else the text says.
        if message::welfare(text) {
            let statement = Statement { who: None, kind: Kind::Welfare };
            return self.apply(&Message { statements: vec![statement] });
        }
        if let Some(danger) = message::danger(text) {
            return self.danger(danger, text);
        }
        if text.len() > message::LONGEST_TEXT {
            return (vec![], unread(Unread::TooLong));
        }
        if let Some(message) = self.settled_by(text) {
            self.confirmed = true;
            return self.apply(&message);
        }
        if let Some(statement) = self.of_roster(text) {
            return self.apply(&Message { statements: vec![statement] });
        }
        match self.parse(text) {
            Reading::Understood(message) => self.apply(&message),
            // Half-read words of pain or illness are taken as said.
            _ if let Some(kind) = message::health(text) => {
                let statement = Statement { who: self.named_in(text), kind };
                self.apply(&Message { statements: vec![statement] })
            }
            Reading::Unsure { options, asks } => self.unsure(options, asks),
            _ if is_greeting(text) => (vec![], Outcome::Ok(OkReply::Greeting)),
            Reading::NotUnderstood { understood, rest, example } => {
                let voice = self.voice();
                let reply = NotUnderstoodReply {
                    understood: understood.iter().map(|one| voice.statement(one)).collect(),
                    rest: if rest.is_empty() { Unread::Empty } else { Unread::Words(rest) },
                    example: example.to_owned(),
                };
                let message = Message { statements: understood };
                (understood::all(self, &message), Outcome::NotUnderstood(reply))
            }
        }
    }

    /// Reads a text; one that begins with a swimmer's name is read with the name
    /// marked as one, where it can't be read without.
    fn parse(&self, text: &str) -> Reading {
        let reading = message::parse(text, self.language());
        if matches!(reading, Reading::Understood(_)) {
            return reading;
        }
        let first = text.split_whitespace().next().unwrap_or_default().trim_end_matches([':', ',']);
        let known = Name::new(first).is_ok_and(|name| self.squad.swimmers.contains_key(&name));
        if !known {
            return reading;
        }
        let rest = text[first.len()..].trim_start_matches([':', ',', ' ']);
        match message::parse(&format!("@{first} {rest}"), self.language()) {
            marked @ Reading::Understood(_) => marked,
            _ => reading,
        }
    }

    /// A text with a grave word: answered as one, and what else it says is
    /// stored after. Inside a harmless phrase it is asked about in one word.
    fn danger(&mut self, danger: Danger, text: &str) -> (Vec<Value>, Outcome) {
        self.danger_to = message::danger_to(text, |word| {
            Name::new(word)
                .is_ok_and(|name| self.swimmer(&name).is_some() && self.me() != Some(&name))
        });
        let said = match self.parse(text) {
            Reading::Understood(Message { statements }) => statements,
            Reading::NotUnderstood { understood, .. } => understood,
            Reading::Unsure { .. } => vec![],
        };
        // A knock to the head is read as pain too; it is more than that. And a
        // word that the grammar took for a name may be anything.
        let is_it = |one: &Statement| match &one.kind {
            Kind::Faint => true,
            Kind::Pain(pain) => ["head", "chest"].contains(&pain.place.as_str()),
            Kind::Swimmer => true,
            _ => false,
        };
        let without: Vec<Statement> = said.iter().filter(|one| !is_it(one)).cloned().collect();
        let faint = Statement { who: self.endangered(&said, text), kind: Kind::Faint };
        let with = Message { statements: [without.clone(), vec![faint]].concat() };
        if danger != Danger::Unclear {
            self.danger = Some(danger);
            return self.apply(&with);
        }
        let without = match without.is_empty() {
            true => vec![Statement { who: None, kind: Kind::No }],
            false => without,
        };
        let choices = vec![
            Choice { word: "yes".into(), message: with },
            Choice { word: "no".into(), message: Message { statements: without } },
        ];
        let reply = QuestionReply {
            asks: Asks::AnyDanger,
            options: choices.iter().map(|choice| choice.word.clone()).collect(),
            until: self.question_until(),
        };
        self.ask(&reply, choices);
        (vec![], Outcome::Question(reply))
    }

    /// Whom a danger text is about, if not the sender: a swimmer it names; from
    /// a coach who does not swim, whoever stands first in it.
    fn endangered(&self, said: &[Statement], text: &str) -> Option<Name> {
        let of_another = match self.danger_to {
            Whom::Sender => false,
            Whom::Unsaid => self.me().is_none(),
            Whom::Another => true,
        };
        self.named_in(text).filter(|_| of_another).or_else(|| {
            let first = said.iter().find(|one| one.kind == Kind::Faint)?.who.clone();
            first.filter(|_| self.me().is_none())
        })
    }

    /// The swimmer of this squad whom a text names, if not the sender.
    fn named_in(&self, text: &str) -> Option<Name> {
        text.split(|c: char| !(c.is_alphanumeric() || c == '-' || c == '_'))
            .filter_map(|word| Name::new(word).ok())
            .find(|name| self.squad.swimmers.contains_key(name) && self.me() != Some(name))
    }

    /// A coach's text that is a swimmer's name and no more. The grammar knows
    /// no names, and would take `teal` for a slip of `team`.
    fn of_roster(&self, text: &str) -> Option<Statement> {
        let name = Name::new(text).ok()?;
        let known = self.is_coach() && self.squad.swimmers.contains_key(&name);
        known.then_some(Statement { who: Some(name), kind: Kind::Swimmer })
    }

    fn unsure(&mut self, choices: Vec<Choice>, asks: Doubt) -> (Vec<Value>, Outcome) {
        let understood = choices
            .first()
            .map(|choice| understood::all(self, &choice.message))
            .unwrap_or_default();
        let mut options: Vec<String> = choices.iter().map(|choice| choice.word.clone()).collect();
        if options.as_slice() == ["yes"] {
            options.push("no".to_owned());
        }
        let reply =
            QuestionReply { asks: Asks::Doubt(asks), options, until: self.question_until() };
        self.ask(&reply, choices);
        (understood, Outcome::Question(reply))
    }

    fn opt_words(&mut self) -> Option<(&'static str, Outcome)> {
        let address = self.asked.from.to_owned();
        if message::is_opt_out(self.asked.text) {
            self.record(Event::OptedOut { address });
            return Some(("stop", Outcome::Ok(OkReply::OptedOut)));
        }
        if message::is_opt_in(self.asked.text) && self.member().is_some_and(|m| m.opted_out) {
            self.record(Event::OptedIn { address });
            return Some(("start", Outcome::Ok(OkReply::OptedIn)));
        }
        None
    }

    /// The message that a one-word answer to the open question chooses.
    fn settled_by(&mut self, text: &str) -> Option<Message> {
        let question = self.open_question()?;
        let word = reply::carried(&text.trim_end_matches(['.', '!', ' ']).to_lowercase());
        let voice = self.voice();
        // In her language, as it was asked, or in English.
        let settles = |choice: &&Choice| {
            choice.word == word || voice.option(&choice.word).to_lowercase() == word
        };
        let message = question.choices.iter().find(settles)?.message.clone();
        self.close_question();
        Some(message)
    }

    /// The sender's open question, if it has not expired.
    pub fn open_question(&self) -> Option<&QuestionKept> {
        self.member()?.question.as_ref().filter(|question| question.until > self.asked.wall)
    }

    /// Forgets the sender's open question.
    pub fn close_question(&mut self) {
        if self.member().is_some_and(|member| member.question.is_some()) {
            self.record(Event::QuestionClosed { address: self.asked.from.to_owned() });
        }
    }

    /// Keeps what the answer rests on, for `why`.
    pub fn keep_reasons(&mut self, reasons: Reasons) {
        let address = self.asked.from.to_owned();
        self.record(Event::ReasonsKept { address, reasons });
    }

    /// Keeps a question until it is answered.
    pub fn ask(&mut self, reply: &QuestionReply, choices: Vec<Choice>) {
        let question = QuestionKept {
            asks: self.voice().question(reply).join(" "),
            choices,
            until: reply.until,
        };
        self.record(Event::QuestionAsked { address: self.asked.from.to_owned(), question });
    }

    /// Decides every statement, those about danger and health first. If one of
    /// the others can't be done, none of them is; a danger text is never undone
    /// by what stands beside it.
    fn apply(&mut self, message: &Message) -> (Vec<Value>, Outcome) {
        let understood = understood::all(self, message);
        let (urgent, others): (Vec<_>, Vec<_>) =
            (0..).zip(&message.statements).partition(|(_, one)| urgency(one) <= HEALTH);
        let mut outcomes: Vec<(usize, Outcome)> = Vec::new();
        for (at, statement) in urgent {
            outcomes.push((at, self.statement(statement, message)));
        }
        let mut others = others;
        others.sort_by_key(|(_, statement)| urgency(statement));
        let several = others.len() > 1;
        let before = several.then(|| (self.squad.clone(), self.events.clone()));
        let safe = outcomes.len();
        for (at, statement) in others {
            let outcome = self.statement(statement, message);
            let stops = stops_all(&outcome);
            outcomes.push((at, outcome));
            if let (true, Some((squad, events))) = (stops, &before) {
                let question = self.asked_last();
                self.squad = squad.clone();
                self.events = events.clone();
                outcomes.drain(safe..outcomes.len() - 1);
                question.into_iter().for_each(|question| self.record(question));
                break;
            }
        }
        outcomes.sort_by_key(|(at, _)| *at);
        let mut outcomes: Vec<Outcome> = outcomes.into_iter().map(|(_, outcome)| outcome).collect();
        let outcome =
            if outcomes.len() == 1 { outcomes.remove(0) } else { Outcome::Mixed(outcomes) };
        (understood, outcome)
    }

    /// True for a word that was taken for a name, and is nobody's.
    fn is_no_name(&self, statement: &Statement) -> bool {
        statement.kind == Kind::Swimmer
            && !self.is_coach()
            && statement.who.as_ref().is_some_and(|who| !self.squad.swimmers.contains_key(who))
    }

    /// The question that a statement asked on its way, to outlive the rest.
    fn asked_last(&self) -> Option<Event> {
        self.events.iter().rev().find(|event| matches!(event, Event::QuestionAsked { .. })).cloned()
    }

    fn statement(&mut self, statement: &Statement, message: &Message) -> Outcome {
        let done = match &statement.kind {
            Kind::Swimmer if self.is_no_name(statement) => {
                let typed = statement.who.as_ref().map(Name::to_string).unwrap_or_default();
                Err(Box::new(unread(Unread::Words(typed))))
            }
            Kind::Test(test) => results::test(self, statement, test, message),
            Kind::TimedTest(test) => results::timed_test(self, statement, test, message),
            Kind::SetResult(set) => results::set(self, statement, set),
            Kind::Done(done) => results::done(self, statement, done),
            Kind::Missed { on } => results::missed(self, statement, *on),
            Kind::Away { until } => results::away(self, statement, *until),
            Kind::Pain(pain) => care::pain(self, statement, pain),
            Kind::Ill { what } => care::ill(self, statement, *what),
            Kind::Better => care::better(self, statement),
            Kind::Faint => care::faint(self, statement),
            Kind::Welfare => Ok(care::welfare()),
            Kind::Hold { .. } => care::hold(self, statement),
            Kind::Release => care::release(self, statement),
            Kind::Plan(wish) => sessions::plan(self, statement, wish),
            Kind::Next(wish) => sessions::next(self, statement, wish),
            Kind::Shorter => sessions::changed(self, statement, sessions::Step::Shorter),
            Kind::Easier => sessions::changed(self, statement, sessions::Step::Easier),
            Kind::Harder => sessions::changed(self, statement, sessions::Step::Harder),
            Kind::Again => sessions::again(self, statement),
            Kind::Targets { distances } => results::targets(self, statement, distances),
            Kind::Predict { distance } => results::predict(self, statement, *distance),
            Kind::Race { distance, on, goal } => {
                sessions::race(self, statement, *distance, *on, goal.as_ref())
            }
            Kind::Swap { days } => sessions::swap(self, statement, days),
            Kind::Squad { filter } => people::squad(self, *filter),
            Kind::Swimmer | Kind::Trend | Kind::Best | Kind::Log => {
                people::swimmer(self, statement)
            }
            Kind::Profile(change) => profile::change(self, statement, change),
            Kind::Focus { text } => people::focus(self, statement, text),
            Kind::Note { text } => people::note(self, statement, text),
            Kind::Join { code, name } => join::join(self, code, name),
            Kind::Help { topic } => Ok(help::help(self, topic.as_deref())),
            Kind::Why => help::why(self),
            Kind::More => help::more(self),
            Kind::Undo => repair::undo(self),
            Kind::Fix(fix) => repair::fix(self, statement, fix),
            Kind::Yes | Kind::Choose { .. } => Err(refused("no_question", RefusedWhy::NoQuestion)),
            Kind::No => repair::no(self),
            Kind::Forget => repair::forget(self),
            Kind::Stop => {
                self.record(Event::OptedOut { address: self.asked.from.to_owned() });
                Ok(Outcome::Ok(OkReply::OptedOut))
            }
            Kind::Start => Ok(Outcome::Ok(OkReply::OptedIn)),
            Kind::Here { .. }
            | Kind::Absent { .. }
            | Kind::Lanes { .. }
            | Kind::Tell { .. }
            | Kind::Slot(_)
            | Kind::Shut { .. }
            | Kind::Cut(_)
            | Kind::Compare { .. }
                if !self.is_coach() =>
            {
                Err(refused("coach_only", RefusedWhy::CoachOnly))
            }
            Kind::Here { .. }
            | Kind::Absent { .. }
            | Kind::Lanes { .. }
            | Kind::Tell { .. }
            | Kind::Slot(_)
            | Kind::Shut { .. }
            | Kind::Cut(_)
            | Kind::Compare { .. }
            | Kind::Set(_)
            | Kind::Attend { .. } => Err(refused("not_yet", RefusedWhy::NotYet)),
        };
        // A refusal on the way is an outcome like any other.
        let outcome = done.unwrap_or_else(|stopped| *stopped);
        if let Outcome::Question(reply @ QuestionReply { asks: Asks::WhoIs { name }, .. }) =
            &outcome
        {
            let choices = reply.options.iter().filter_map(|option| renamed(message, name, option));
            self.ask(reply, choices.collect());
        }
        outcome
    }

    /// Words the outcome, keeps what does not fit for `more`, and hands all
    /// over.
    fn close(mut self, understood: Vec<Value>, outcome: Outcome) -> Decision {
        let voice = self.voice();
        let mut lines = voice.lines(&outcome);
        if let Outcome::Mixed(outcomes) = &outcome {
            // What to do first comes first, whatever the order typed.
            let mut cautions: Vec<Outcome> =
                outcomes.iter().filter(|o| is_caution(o)).cloned().collect();
            cautions.sort_by_key(|caution| !is_danger(caution));
            let others: Vec<Outcome> =
                outcomes.iter().filter(|o| !is_caution(o)).cloned().collect();
            lines = voice.lines(&Outcome::Mixed([cautions, others].concat()));
        }
        let fitted = reply::fit(lines, PARTS, voice.more_hint());
        let waiting = self.member().is_some_and(|member| !member.more.is_empty());
        if !fitted.rest.is_empty() || waiting {
            let address = self.asked.from.to_owned();
            self.record(Event::MoreKept { address, lines: fitted.rest });
        }
        let mut said = std::mem::take(&mut self.to_others);
        // Whoever opted out is still heard, and told nothing but what she must
        // know: danger, how to come back, help.
        let quiet = self.member().is_some_and(|member| member.opted_out) && !must_be_said(&outcome);
        if !fitted.text.is_empty() && !quiet {
            said.insert(0, Say { to: None, text: fitted.text });
        }
        Decision {
            result: reply::result(&outcome, voice),
            events: self.events,
            said,
            understood,
            outcome,
            squad: self.squad,
            touched: self.touched,
        }
    }
}

/// How many SMS parts a reply may have.
const PARTS: usize = 2;

/// What a request comes to where it stops short: a question or a refusal.
pub type Stopped = Box<Outcome>;

/// A refusal.
pub fn refused(rule: impl Into<String>, why: RefusedWhy) -> Stopped {
    Box::new(Outcome::Refused(RefusedReply { rule: rule.into(), why }))
}

fn unread(rest: Unread) -> Outcome {
    Outcome::NotUnderstood(NotUnderstoodReply {
        understood: vec![],
        rest,
        example: "200 test 3:12".to_owned(),
    })
}

/// A word that only wants to be met kindly.
fn is_greeting(text: &str) -> bool {
    const WORDS: [&str; 16] = [
        "hi",
        "hello",
        "hey",
        "hiya",
        "thanks",
        "thank you",
        "thx",
        "ta",
        "cheers",
        "great",
        "\u{1F44D}",
        "hola",
        "gracias",
        "buenas",
        "genial",
        "muchas gracias",
    ];
    let word = text.trim_matches(|c: char| !c.is_alphanumeric() && c != '\u{1F44D}').to_lowercase();
    WORDS.contains(&word.as_str())
}

/// What keeps a text of several statements from being applied at all.
fn stops_all(outcome: &Outcome) -> bool {
    matches!(outcome, Outcome::Question(_) | Outcome::Refused(_) | Outcome::NotUnderstood(_))
}

fn is_danger(outcome: &Outcome) -> bool {
    use CautionKind::{Beside, Danger, Dizzy, HeadKnock};
    let Outcome::Caution(reply) = outcome else { return false };
    matches!(reply.kind, Danger | Beside { .. } | Dizzy | HeadKnock)
}

/// What even someone who opted out is told.
fn must_be_said(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Mixed(outcomes) => outcomes.iter().any(must_be_said),
        Outcome::Ok(OkReply::OptedOut) | Outcome::Help(_) => true,
        outcome => is_caution(outcome),
    }
}

/// The message with one of its names put right.
fn renamed(message: &Message, name: &Name, option: &str) -> Option<Choice> {
    let right = Name::new(option).ok()?;
    let mut message = message.clone();
    for statement in &mut message.statements {
        if statement.who.as_ref() == Some(name) {
            statement.who = Some(right.clone());
        }
    }
    Some(Choice { word: option.to_owned(), message })
}

fn is_caution(outcome: &Outcome) -> bool {
    matches!(outcome, Outcome::Caution(reply) if reply.kind != CautionKind::Effort)
}

/// The last urgency that is about danger or health.
const HEALTH: u8 = 1;

/// Danger before health before all else: what is decided later sees it.
fn urgency(statement: &Statement) -> u8 {
    match statement.kind {
        Kind::Welfare | Kind::Faint => 0,
        Kind::Pain(_) | Kind::Ill { .. } => 1,
        Kind::Profile(_) | Kind::Join { .. } => 2,
        Kind::Next(_) | Kind::Plan(_) | Kind::Targets { .. } | Kind::Predict { .. } => 4,
        _ => 3,
    }
}
