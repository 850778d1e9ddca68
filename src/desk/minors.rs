//! What is different where a swimmer is a minor: who is asked first, who reads
//! along, what waits for the morning.
//!
//! Strictest common rule of published safeguarding policies: a guardian enrols
//! and reads along; nobody under 16 is written to; a second adult reads along
//! when a grown-up writes; nothing but danger and pain is answered between
//! 20:00 and 08:00. Local rules come first.

use jiff::{Timestamp, ToSpan};
use serde_json::Value;

use super::Say;
use super::answer::unread;
use super::bench::{Desk, Stopped, refused};
use super::safeguards::care_letter;
use crate::language::Language;
use crate::message::{Concern, Kind, Message, Name, Reading, Statement};
use crate::profile::{AgeGroup, Called, CareKind, Event, Guard, Right, Role, Swimmer};
use crate::reading;
use crate::reply::{
    self, CareLetter, CareRefusal, CautionKind, CautionReply, Outcome, RefusedWhy, Unread,
};

/// From this local hour on a minor is not written to.
const EVENING: i8 = 20;
/// From this local hour on she is again.
const MORNING: i8 = 8;

/// What waits, and until when.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Held {
    /// When it may go out; nothing waits without it.
    pub until: Option<Timestamp>,
    /// The answer to the sender waits too.
    pub answer: bool,
    /// Addresses that are not written to before.
    pub to: Vec<String>,
}

impl Desk<'_> {
    /// How old a swimmer is taken to be.
    pub fn age_group(&self, swimmer: &Swimmer) -> AgeGroup {
        self.squad.age_group(swimmer, self.now())
    }

    /// True for a minor.
    pub fn is_minor(&self, name: &Name) -> bool {
        self.swimmer(name).is_some_and(|swimmer| self.age_group(swimmer) != AgeGroup::Adult)
    }

    /// The guardian who agreed and still reads along.
    fn guardian_of(&self, name: &Name) -> Option<&Guard> {
        let guard = self.swimmer(name)?.guard.as_ref()?;
        (guard.agreed.is_some() && !guard.of_age).then_some(guard)
    }

    /// The one swimmer the sender is guardian of.
    pub fn ward(&self) -> Option<&Name> {
        let mut wards = self.squad.wards(self.asked.from);
        let only = wards.next()?;
        let agreed = only.guard.as_ref().is_some_and(|guard| guard.agreed.is_some());
        (agreed && wards.next().is_none()).then_some(&only.name)
    }

    /// True if the sender is a guardian of this swimmer, and agreed.
    pub fn is_ward(&self, name: &Name) -> bool {
        self.guardian_of(name).is_some_and(|guard| guard.address == self.asked.from)
    }

    /// The sender, if she is a minor who texts from a telephone of her own.
    pub fn minor_sender(&self) -> Option<&Swimmer> {
        let name = self.member()?.name.as_ref()?;
        let swimmer = self.swimmer(name)?;
        let own = swimmer.guard.as_ref().is_none_or(|guard| guard.address != self.asked.from);
        (own && self.age_group(swimmer) != AgeGroup::Adult).then_some(swimmer)
    }

    /// True if danger or pain is what this message is about: said at any hour.
    fn is_urgent(&self) -> bool {
        self.private
            || self.danger.is_some()
            || self.events.iter().any(|event| {
                use crate::profile::TroubleKind::{Faint, Pain};
                matches!(event, Event::TroubleOpened { trouble: Faint | Pain { .. }, .. })
            })
    }
}

/// What a minor is answered who has no guardian here yet, or is too young to
/// text herself, and every swimmer of a squad that is not open yet; `None` where
/// she is answered as anybody is. Words of danger and harm never come this far.
pub fn gate(
    desk: &mut Desk<'_>,
    text: &str,
    concerns: &[Concern],
) -> Option<(Vec<Value>, Outcome)> {
    let swims = desk.member().is_some_and(|member| member.role == Role::Swimmer);
    let closed = desk.squad.is_closed() && swims;
    let swimmer = match desk.minor_sender() {
        None if closed => desk.swimmer(desk.me()?)?,
        minor => minor?,
    };
    let group = desk.age_group(swimmer);
    let agreed = swimmer.guard.as_ref().is_some_and(|guard| guard.agreed.is_some());
    if agreed && group == AgeGroup::Older && !closed {
        return None;
    }
    // What is private, and what no one is set, has its own answer.
    let own_answer = |concern: &Concern| {
        use Concern::{BreathHold, Clinician, Easing, Gentle, Low, MaySwim};
        matches!(concern, BreathHold | Clinician | Easing | Gentle | Low | MaySwim)
    };
    if concerns.iter().any(own_answer) {
        return None;
    }
    let born = swimmer.born.at(desk.now()).is_some();
    let rest = desk.statements_of(text);
    let whole = match desk.parse(text) {
        Reading::Understood(Message { statements }) => statements,
        Reading::NotUnderstood { .. } | Reading::Unsure { .. } => vec![],
    };
    // What hurts is heard; what she says of her age, and that she wants out.
    let stays = |one: &Statement| match &one.kind {
        Kind::Pain(_) | Kind::Ill { .. } | Kind::Forget | Kind::Help { .. } | Kind::Join { .. } => {
            true
        }
        Kind::Profile(change) => change.born.is_some(),
        Kind::Yes | Kind::No => desk.open_question().is_some(),
        _ => false,
    };
    let statements: Vec<Statement> = rest.into_iter().filter(stays).collect();
    if statements.iter().any(|one| matches!(one.kind, Kind::Yes | Kind::No)) {
        return None;
    }
    if !statements.is_empty() {
        return Some(desk.apply(&Message { statements }));
    }
    if closed {
        return Some((vec![], *refused("no_officer", RefusedWhy::Care(CareRefusal::NoOfficer))));
    }
    // Nothing is done of it, and whoever answers for her reads what it was.
    desk.read = whole;
    // Who may have written of something grave is not sent to her parents.
    if agreed && desk.read.is_empty() && !is_of_swims(desk, text) {
        return Some((vec![], unread(Unread::Unsaid)));
    }
    let why = match (born, agreed) {
        (false, _) => CareRefusal::AskBirthYear,
        (true, false) => CareRefusal::AskParent,
        (true, true) => CareRefusal::ParentTexts,
    };
    Some((vec![], *refused("guardian", RefusedWhy::Care(why))))
}

/// True of a text that tells what was swum, surely or with a question, and nothing else.
fn is_of_swims(desk: &Desk<'_>, text: &str) -> bool {
    let swum = |one: &Statement| {
        matches!(one.kind, Kind::Test(_) | Kind::TimedTest(_) | Kind::SetResult(_) | Kind::Done(_))
    };
    let all = |said: &Message| !said.statements.is_empty() && said.statements.iter().all(swum);
    match reading::read(text, &desk.situation()).into_reading() {
        Some(Reading::Understood(said)) => all(&said),
        Some(Reading::Unsure { options, .. }) => {
            !options.is_empty() && options.iter().all(|option| all(&option.message))
        }
        _ => false,
    }
}

/// Tells a minor's guardian of danger, pain or illness at once.
pub fn tell_guardian(desk: &mut Desk<'_>, who: &Name, kind: &CautionKind) {
    if !desk.is_minor(who) {
        return;
    }
    let Some(address) = desk.guardian_of(who).map(|guard| guard.address.clone()) else { return };
    if address == desk.asked.from {
        return;
    }
    let voice = reply::voice(Language::English);
    let caution = CautionReply { kind: kind.clone(), about: None };
    let first = voice.caution(&caution).into_iter().next().unwrap_or_default();
    let letter = CareLetter::ToGuardian { who: who.clone(), what: first };
    let text = care_letter(&letter);
    match kind.is_danger() {
        true => desk.to_others.push(Say::calling(Called::Guardian, address, text)),
        false => desk.write_to(address, text),
    }
}

/// What a minor's stop still needs before it is lifted.
pub fn may_release(desk: &Desk<'_>, who: &Name, stopped: Option<Timestamp>) -> Result<(), Stopped> {
    let (Some(since), Some(swimmer)) = (stopped, desk.swimmer(who)) else { return Ok(()) };
    if desk.age_group(swimmer) == AgeGroup::Adult {
        return Ok(());
    }
    let clinician = swimmer.clearance.is_some_and(|said| said >= since);
    let agreed = swimmer.guard.as_ref().and_then(|guard| guard.released);
    let guardian = agreed.is_some_and(|said| said >= since);
    if clinician && guardian {
        return Ok(());
    }
    let why =
        CareRefusal::StopNeeds { who: who.clone(), clinician: !clinician, guardian: !guardian };
    Err(refused("minor_stop", RefusedWhy::Care(why)))
}

impl Desk<'_> {
    /// Adds who reads along, takes away what may not be said, and says what
    /// waits. `text` is what the sender is to be told of the outcome.
    pub fn read_along(&mut self, outcome: &Outcome, text: &str) -> (Held, Option<Outcome>) {
        let mut held = Held::default();
        let urgent = self.is_urgent();
        let refused = self.letters_to_minors(&mut held);
        // What is private leaves no trace of its answer.
        if !self.private {
            self.copy_to_guardian(outcome, text, urgent, &mut held);
        }
        self.come_of_age();
        let night = self.until_morning().filter(|_| held.answer || !held.to.is_empty());
        held.until = night;
        if held.until.is_none() {
            held = Held::default();
        }
        (held, refused)
    }

    /// What others write to minors.
    fn letters_to_minors(&mut self, held: &mut Held) -> Option<Outcome> {
        let staff = self.may(Right::RunEvening);
        let mut held_back = None;
        let mut letters = Vec::new();
        for say in std::mem::take(&mut self.to_others) {
            // Help is called of whoever can help.
            if say.alarm.is_some() {
                letters.push(say);
                continue;
            }
            let to = say.to.clone().unwrap_or_default();
            let minor = self.squad.swimmer_at(&to).filter(|swimmer| {
                let own = swimmer.guard.as_ref().is_none_or(|guard| guard.address != to);
                own && self.age_group(swimmer) != AgeGroup::Adult
            });
            let Some(minor) = minor else {
                letters.push(say);
                continue;
            };
            let (name, group) = (minor.name.clone(), self.age_group(minor));
            let guardian = self.guardian_who_reads(&name);
            // One who is the guardian is no second grown-up.
            let second = self.second_adult(&[&to, guardian.as_deref().unwrap_or_default()]);
            let Some(guardian) = guardian.filter(|_| !staff || second.is_some()) else {
                let why = CareRefusal::NoSecondAdult { who: name };
                held_back = Some(*refused("second_adult", RefusedWhy::Care(why)));
                continue;
            };
            let copy = copy_of(&name, &say.text);
            let mut readers = vec![guardian];
            readers.extend(second.filter(|_| staff));
            for reader in readers {
                held.to.push(reader.clone());
                letters.push(Say::to(reader, copy.clone()));
            }
            if group == AgeGroup::Older {
                let what = CareKind::ToMinor { words: say.text.clone() };
                self.record(Event::CareRecorded { who: Some(name), what });
                held.to.push(to);
                letters.push(say);
            }
        }
        self.to_others = letters;
        held_back
    }

    /// True if what the sender writes to this swimmer goes out: to a minor only
    /// if a guardian reads it, and a second grown-up.
    pub fn may_write_to(&self, name: &Name) -> bool {
        let guardian = self.guardian_who_reads(name);
        let minor = self.squad.address_of(name).unwrap_or_default();
        !self.is_minor(name)
            || guardian.is_some_and(|guardian| self.second_adult(&[minor, &guardian]).is_some())
    }

    /// The guardian's address, unless they want no texts: who does not read
    /// protects nobody.
    pub fn guardian_who_reads(&self, name: &Name) -> Option<String> {
        let address = &self.guardian_of(name)?.address;
        self.reads(address).then(|| address.clone())
    }

    /// True for an address that wants texts, as far as the squad knows.
    pub fn reads(&self, address: &str) -> bool {
        self.squad.members.get(address).is_none_or(|member| !member.opted_out)
    }

    /// A grown-up on deck or the welfare officer, other than the sender and these.
    fn second_adult(&self, others: &[&str]) -> Option<String> {
        let other = |address: &&str| {
            *address != self.asked.from && !others.contains(address) && self.reads(address)
        };
        let on_deck = self.squad.holders(Right::RunEvening).find(other);
        on_deck.or_else(|| self.squad.holders(Right::HearWelfare).find(other)).map(str::to_owned)
    }

    /// What was read of a minor's text and what she is told, as far as the table of
    /// [`hearing`](super::hearing) has it for a guardian.
    fn copy_to_guardian(&mut self, outcome: &Outcome, text: &str, urgent: bool, held: &mut Held) {
        let Some(name) = self.minor_or_grown_up().cloned() else { return };
        let Some(guardian) = self.guardian_of(&name).map(|guard| guard.address.clone()) else {
            return;
        };
        if guardian == self.asked.from || text.is_empty() {
            return;
        }
        // By night all but danger and pain waits, copied or not.
        held.answer |= !urgent;
        if let Some(words) = self.for_guardian(outcome, text, self.voice()) {
            if !urgent {
                held.to.push(guardian.clone());
            }
            self.write_to(guardian, copy_of(&name, &words));
        }
        let what = CareKind::ToMinor { words: text.to_owned() };
        self.record(Event::CareRecorded { who: Some(name), what });
    }

    /// The sender, if a guardian still reads along.
    fn minor_or_grown_up(&self) -> Option<&Name> {
        let name = self.member()?.name.as_ref()?;
        self.guardian_of(name).map(|_| name)
    }

    /// Who is of age is told so, and so is the guardian; then nothing is copied
    /// any more.
    fn come_of_age(&mut self) {
        let Some(name) = self.minor_or_grown_up().cloned() else { return };
        if self.is_minor(&name) {
            return;
        }
        let Some(guardian) = self.guardian_of(&name).map(|guard| guard.address.clone()) else {
            return;
        };
        let letter = CareLetter::OfAge { who: name.clone() };
        let text = care_letter(&letter);
        for to in [guardian, self.asked.from.to_owned()] {
            self.write_to(to, text.as_str());
        }
        self.record(Event::CameOfAge { who: name });
    }

    /// The next morning, if it is night.
    fn until_morning(&self) -> Option<Timestamp> {
        let local = self.now().to_zoned_datetime(self.squad.zone());
        let day = match local.hour() {
            EVENING.. => local.date().checked_add(1.day()).ok()?,
            ..MORNING => local.date(),
            _ => return None,
        };
        self.squad.zone().to_timestamp(day.at(MORNING, 0, 0, 0)).ok()
    }
}

/// For whoever reads along.
fn copy_of(who: &Name, words: &str) -> String {
    let letter = CareLetter::CopyOf { who: who.clone(), words: words.to_owned() };
    care_letter(&letter)
}

#[cfg(test)]
mod tests;
