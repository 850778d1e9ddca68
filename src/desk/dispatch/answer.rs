//! The way through: the safe word and opting out, then danger, then the open question, then
//! the grammar, then one decision a statement.

use serde_json::{Value, json};

use super::{concerns, not_open_yet, notation};
use crate::desk::decision::asked::Asked;
use crate::desk::decision::decided::Decision;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::Questions;
use crate::desk::decision::refusing::unread;
use crate::desk::decision::view::View;
use crate::desk::hearing::{strangers, understood};
use crate::desk::minors::safeguards;
use crate::desk::safety::{SOON, readiness, welfare};
use crate::desk::squad::{names, offices};
use crate::desk::swims::taking_back;
use crate::history::{Event, Right, Squad, Swimmer, TroubleKind};
use crate::message::{
    self, Choice, Courtesy, Danger, Doubt, Kind, Matter, Message, Name, Reading, Statement,
};
use crate::reading::health::Alarms;
use crate::reading::{self, Aside, Situation};
use crate::reply::{
    Asks, Belonging, CautionKind, CautionReply, NotUnderstoodReply, OkReply, Outcome,
    QuestionReply, Unread,
};

/// How many statements of one text are taken (ours: a coach's whole lane, thrice).
const MOST_STATEMENTS: usize = 100;

/// Decides one message from a member of the squad, or from someone who joins it.
pub fn answer(squad: &Squad, asked: &Asked<'_>) -> Decision {
    let mut desk = Desk::new(squad, asked);
    let (understood, outcome) = desk.decide();
    let outcome = concerns::with_where_help_is(&mut desk, outcome);
    desk.keep_question();
    desk.settle_after();
    desk.advise(&outcome);
    let questions =
        Questions { next: desk.next_question(squad), dropped: desk.dropped_question(squad) };
    desk.close(understood, outcome, questions)
}

impl Desk<'_> {
    pub fn decide(&mut self) -> (Vec<Value>, Outcome) {
        // Whoever says it, whenever: before joining and after STOP.
        if message::is_worried(self.asked.text) {
            self.private = true;
            self.matter = Some(Matter::Worried);
            return (vec![json!({ "kind": "welfare" })], welfare::welfare(self));
        }
        if let Some((kind, outcome)) = self.opt_words() {
            return (vec![json!({ "kind": kind })], outcome);
        }
        let text = self.asked.text.trim();
        if self.asked.takes {
            self.record(Event::SquadTaken { address: self.asked.from.to_owned() });
            if text.is_empty() {
                let squad = self.squad.name.clone();
                return (vec![], Outcome::Ok(OkReply::Belonging(Belonging::Taken { squad })));
            }
        }
        if text.is_empty() {
            return (vec![], unread(Unread::Empty));
        }
        self.hear_name(text);
        // Before all else, and whatever else the text says.
        let alarms = self.alarms(text);
        let harm = alarms.harm.is_some();
        self.cares = alarms.care;
        self.harm_of_another = alarms.harm_of_another;
        match &alarms.danger {
            // Beside harm, what can't wait comes first; the rest goes harm's way.
            Some(danger) if danger.sure && (!harm || danger.danger.is_grave()) => {
                return self.danger(danger, harm, text);
            }
            _ if harm => {
                self.private = true;
                self.matter = Some(Matter::Harm);
                let mut statements = vec![Statement { who: None, kind: Kind::Welfare }];
                statements.extend(concerns::beside_harm(self, text));
                return self.apply(&Message { statements });
            }
            Some(danger) => return self.asks_of_danger(Some(danger), text),
            None => {}
        }
        if let Some(answered) = offices::answer(self, text) {
            return answered;
        }
        if let Some(answered) = safeguards::answer(self, text) {
            return answered;
        }
        if let Some(answered) = not_open_yet::gate(self, text, &alarms.concerns) {
            return answered;
        }
        if text.len() > message::LONGEST_TEXT {
            return (vec![], unread(Unread::TooLong));
        }
        if let Some(paused) = self.pause(text) {
            return paused;
        }
        if self.member().is_none()
            && let Some(comes) = strangers::said_yes(text)
        {
            let read = if comes { "yes" } else { "no" };
            let outcome = self.invited(comes).unwrap_or_else(|stopped| *stopped);
            return (vec![json!({ "kind": read })], outcome);
        }
        // An alarm in the building waits for nothing that the text says beside it.
        if message::is_alarm(text) {
            return (vec![], self.courtesy(Courtesy::EverybodyOut));
        }
        if let Some(answered) = concerns::answer(self, text, &alarms) {
            return answered;
        }
        if let Some(message) = self.settled_by(text) {
            return self.apply(&message);
        }
        let kept = self.keep_what_ails(text);
        let (understood, outcome) = self.read_anew(text, &alarms);
        (understood, Outcome::of_all(kept.into_iter().chain([outcome]).collect()))
    }

    /// A text that answers nothing.
    fn read_anew(&mut self, text: &str, alarms: &Alarms) -> (Vec<Value>, Outcome) {
        if let Some(message) = self.asked_again(text) {
            return self.apply(&message);
        }
        let about_them = readiness::answer(self, text).or_else(|| readiness::contact(self, text));
        if let Some(answered) = about_them {
            return answered;
        }
        if let Some(message) = taking_back::named(self, text) {
            return self.apply(&message);
        }
        if let Some(statement) = self.of_roster(text) {
            return self.apply(&Message { statements: vec![statement] });
        }
        let strict = self.by_the_evening(text, self.parse(text));
        let notation = self.is_whole_notation(&strict, text);
        let situation = (!notation).then(|| self.situation());
        let read = situation.as_ref().and_then(|sit| {
            self.typed(text, |typed| reading::read_typed(typed, sit)).into_reading()
        });
        // Our own notation with two meanings is asked about, unless the situation settles which
        // is meant.
        let doubted = |read: &Reading| {
            matches!((&strict, read), (Reading::Unsure { .. }, Reading::Unsure { .. }))
                && self.is_notation(text)
        };
        // What we can read is not shrugged off either, and no grave word is.
        let past_answering = |read: &Reading| {
            let past = |one: &Statement| one.kind.is_past_answering();
            matches!(read, Reading::Understood(said) if said.statements.iter().all(past))
        };
        let shrugs = |read: &Reading| {
            past_answering(read)
                && (alarms.gear
                    || matches!(&strict, Reading::Understood(said) if self.knows_all(said)))
        };
        let read = read
            .filter(|read| !doubted(read) && !shrugs(read))
            .map(|one| View::with_absence(one, &strict));
        let question = read.as_ref().is_some_and(past_answering);
        let is_chat = |sit: &Situation| {
            read.is_none()
                && self.typed(text, |typed| reading::aside(typed, sit)) == Some(Aside::Chat)
        };
        // What was told of somebody who isn't here is no swim of the sender's.
        let of_another = notation::tells_of_another(&strict);
        let chats = || situation.as_ref().is_some_and(is_chat);
        let strict = match notation {
            true => strict,
            false => self.without_words_for_names(strict, chats, text),
        };
        let nothing = matches!(strict, Reading::NotUnderstood { .. });
        let silent = read.is_none() && !of_another && nothing;
        let hurts = notation::tells_of_pain(&strict);
        let read = match &situation {
            Some(sit) if silent || question => {
                let guess = self.typed(text, |typed| reading::guess(typed, sit, question));
                // Who told of pain is not answered with something else.
                let guess = guess.into_reading().filter(|one| !(hurts && past_answering(one)));
                guess.or(read)
            }
            _ => read,
        };
        match read.unwrap_or(strict) {
            Reading::Understood(message) if message.statements.len() > MOST_STATEMENTS => {
                (vec![], unread(Unread::TooLong))
            }
            Reading::Understood(message) => {
                let message = self.with_health_of_others(message, text);
                self.apply(&message.with_one_set())
            }
            // Whose illness it is was read, whatever else is asked about.
            Reading::Unsure { options, asks, told }
                if tell_illness(&options) || told.iter().any(is_illness_of_one) =>
            {
                self.unsure(options, asks, told)
            }
            // A child's illness from their guardian, beside nothing else.
            _ if let Some(message) = self.illness_of_others(text) => self.apply(&message),
            // A grave word in a harmless phrase, where nothing else says what is meant.
            Reading::NotUnderstood { .. } if alarms.gear => self.asks_of_danger(None, text),
            _ if let Some(said) = message::courtesy(text) => (vec![], self.courtesy(said)),
            Reading::Unsure { options, asks, told } => self.unsure(options, asks, told),
            // `its getting worse`, and no example of how to text a swim.
            Reading::NotUnderstood { .. } if self.was_just_stopped() => {
                let kind = CautionKind::Danger {
                    danger: Danger::Unspecific,
                    call: self.squad.emergency_number(),
                };
                let understood = vec![json!({ "kind": "faint", "stores": false })];
                (understood, Outcome::Caution(CautionReply { kind, about: None }))
            }
            Reading::NotUnderstood { .. } if let Some(outcome) = welfare::again(self) => {
                (vec![json!({ "kind": "welfare" })], outcome)
            }
            Reading::NotUnderstood { understood, .. }
                if understood.is_empty()
                    && let Some(sit) = &situation
                    && let Some(answered) = self.aside(text, sit) =>
            {
                answered
            }
            Reading::NotUnderstood { understood, rest, example } => {
                let voice = self.voice();
                // What a child wrote and nobody could read is nobody else's to read.
                self.private |= self.minor_sender().is_some();
                let rest = match rest {
                    _ if understood.is_empty() && (is_prose(text) || alarms.unwell) => {
                        Unread::Prose { words: rest, call: self.squad.emergency_number() }
                    }
                    rest if rest.is_empty() => Unread::Empty,
                    rest => Unread::Words(rest),
                };
                let reply = NotUnderstoodReply {
                    understood: understood.iter().map(|one| voice.statement(one)).collect(),
                    rest,
                    example: example.to_owned(),
                };
                let message = Message { statements: understood };
                (understood::all(self, &message), Outcome::NotUnderstood(reply))
            }
        }
    }

    /// The answer to a question of health or to small talk that nothing else reads.
    fn aside(&mut self, text: &str, sit: &Situation) -> Option<(Vec<Value>, Outcome)> {
        match self.typed(text, |typed| reading::aside(typed, sit))? {
            Aside::OfHealth => Some(concerns::may_swim(self)),
            // Words alone are no answer to what was asked.
            Aside::Chat if self.open_question().is_some() => None,
            Aside::Chat => Some((vec![], self.courtesy(Courtesy::Chat))),
        }
    }

    pub fn opt_words(&mut self) -> Option<(&'static str, Outcome)> {
        let address = self.asked.from.to_owned();
        let text = self.asked.text;
        if message::is_opt_out(text) {
            // It was confirmed once: nothing more is said.
            if self.is_opted_out() {
                return Some(("stop", Outcome::Ok(OkReply::Silent)));
            }
            self.record(Event::OptedOut { address });
            return Some(("stop", Outcome::Ok(OkReply::OptedOut)));
        }
        let asked = self.open_question().is_some();
        let wanted = message::is_opt_in(text) || !asked && message::is_yes(text);
        if wanted && self.is_opted_out() {
            self.record(Event::OptedIn { address });
            return Some(("start", Outcome::Ok(OkReply::OptedIn)));
        }
        None
    }
}

impl View<'_> {
    /// True soon after a danger of whoever writes: what nobody can read may be more of it.
    fn was_just_stopped(&self) -> bool {
        let now = self.now();
        let stopped = |swimmer: &Swimmer| {
            let mut open = swimmer.open_troubles(now);
            open.any(|kept| {
                kept.what.kind == TroubleKind::Faint && now.duration_since(kept.at) <= SOON
            })
        };
        self.swims() && self.me().and_then(|me| self.swimmer(me)).is_some_and(stopped)
    }

    fn courtesy(&self, said: Courtesy) -> Outcome {
        match said {
            Courtesy::Greeting => Outcome::Ok(OkReply::Greeting),
            Courtesy::Thanks => Outcome::Ok(OkReply::Thanks),
            Courtesy::Chat => Outcome::Ok(OkReply::Chat),
            Courtesy::EverybodyOut => {
                let runs = self.may(Right::RunEvening);
                let here = self.squad.here_on(self.evening(), self.now()).count();
                let kind = CautionKind::EverybodyOut { here: if runs { here } else { 0 } };
                Outcome::Caution(CautionReply { kind, about: None })
            }
        }
    }

    /// A coach's text that is a swimmer's name and no more. The grammar knows
    /// no names, and would take `teal` for a slip of `team`.
    pub fn of_roster(&self, text: &str) -> Option<Statement> {
        let name = Name::new(text).ok()?;
        // A name older than the rule that none may be a command hides no command.
        if names::is_command(name.as_str()) {
            return None;
        }
        let shared = self.member().is_some_and(|member| member.is_shared());
        let known = self.may(Right::SeeSquad) && self.squad.swimmers.contains_key(&name)
            || shared && self.is_mine(&name);
        known.then_some(Statement { who: Some(name), kind: Kind::Swimmer })
    }
}

/// True where every answer tells of somebody's illness.
fn tell_illness(options: &[Choice]) -> bool {
    let tells = |one: &Choice| one.message.statements.iter().any(is_illness_of_one);
    !options.is_empty() && options.iter().all(tells)
}

fn is_illness_of_one(one: &Statement) -> bool {
    one.who.is_some() && matches!(one.kind, Kind::Ill { .. })
}

/// Words without a figure, more than a command would be.
fn is_prose(text: &str) -> bool {
    const FEWEST: usize = 4;
    text.split_whitespace().count() >= FEWEST && !text.chars().any(|c| c.is_ascii_digit())
}

impl Desk<'_> {
    /// Asks what is meant; what was `told` beside it is kept at once.
    fn unsure(
        &mut self,
        choices: Vec<Choice>,
        asks: Doubt,
        mut told: Vec<Statement>,
    ) -> (Vec<Value>, Outcome) {
        let mut options: Vec<String> = choices.iter().map(|choice| choice.word.clone()).collect();
        if options.as_slice() == ["yes"] {
            options.push("no".to_owned());
        }
        // `yes` to one of two is the first, and not offered beside them.
        if matches!(asks, Doubt::Either { .. }) {
            options.retain(|word| word != "yes");
            options.push("no".to_owned());
        }
        let reply =
            QuestionReply { asks: Asks::Doubt(asks), options, until: self.question_until() };
        let ails = |one: &Statement| one.kind.ails();
        let of_health = !choices.is_empty()
            && choices.iter().all(|one| one.message.statements.iter().all(ails));
        // An offer to pass a question on doesn't stand before one about pain.
        told.retain(|one| !of_health || !one.kind.is_past_answering());
        let kept = (!told.is_empty()).then(|| self.apply(&Message { statements: told }));
        // One question at a time: whose pain it is goes first, and what else may ail them is
        // asked about once that is answered.
        if let Some((understood, outcome @ Outcome::Question(_))) = kept {
            self.ask_later(&reply, choices);
            return (understood, outcome);
        }
        let (understood, outcome) = kept.unzip();
        let mut understood = understood.unwrap_or_default();
        if let Some(choice) = choices.first() {
            understood.extend(understood::all(self, &choice.message));
        }
        // What may ail them is asked before anything that may take all the room.
        self.ask(&reply, choices);
        let question = Outcome::Question(reply);
        let outcomes = match outcome {
            Some(told) if of_health => vec![question, told],
            told => told.into_iter().chain([question]).collect(),
        };
        (understood, Outcome::of_all(outcomes))
    }
}
