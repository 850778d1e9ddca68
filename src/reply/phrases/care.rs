//! Cautions: the first sentence says what to do, and none says what may be
//! wrong. We advise; we do not diagnose.

use super::Words;
use crate::coaching::UNSAID_LEVEL;
use crate::message::{Danger, Name};
use crate::reply::{Alert, CautionKind, CautionReply};

/// What a language says to keep people safe.
pub trait Care: Words {
    /// The sender is in danger: the first act, and `call` as words to fit in
    /// (`call 999`).
    fn first_aid(&self, danger: Danger, call: &str) -> String;
    /// Someone beside the sender is: what to do for them.
    fn first_aid_for(&self, danger: Danger, call: &str) -> String;
    /// `call 999`; without a number, that of the emergency services.
    fn call(&self, number: Option<&str>) -> String;
    /// A kind of danger, as a coach is told it: what it looks like, never what it
    /// may be.
    fn danger_named(&self, danger: Danger) -> &'static str;
    /// To the coach: which swimmer is to be stopped.
    fn name_whom(&self) -> &'static str;
    /// After either, to one who is not the coach.
    fn until_another_is_cleared(&self) -> &'static str;
    /// To the coach: a swimmer's stop is open.
    fn stopped_of(&self, who: &Name) -> String;
    /// After any danger: how long it stops her, and whom to tell.
    fn until_cleared(&self) -> &'static str;
    /// A stop is open.
    fn stopped(&self) -> &'static str;
    /// Words of harm or fear.
    /// The first line is for everybody: believed, and what to do if there is danger,
    /// `call` as in first aid; of someone beside the sender, what to do for them.
    fn welfare(&self, of_another: bool, call: &str) -> String;
    /// After it: who is told, and whom to talk to.
    fn after_welfare(&self, officer: bool, helpline: Option<&str>) -> String;
    /// Hard swimming ahead.
    fn effort(&self) -> &'static str;
    /// Open water.
    fn open_water(&self) -> &'static str;
    /// A request for breath-holding.
    fn breath_hold(&self) -> &'static str;
    /// Something of hers that makes her swim easy; the reply does not name it.
    fn easing(&self) -> [&'static str; 2];
    /// Weight, food, the body; the reply does not name it.
    fn gentle(&self) -> [&'static str; 2];
    /// A medicine, an operation, a period; the reply does not name it.
    fn clinician(&self) -> [&'static str; 2];
    /// Low spirits or a death: a kind word, and whom to talk to.
    fn low(&self, call: &str, helpline: Option<&str>) -> Vec<String>;
    /// A question whether she may swim; the answer is never yes.
    fn may_swim(&self) -> &'static str;
    /// Dives.
    fn dive(&self) -> &'static str;
    /// Swimming with nobody there.
    fn alone(&self) -> &'static str;
    /// To the coach: a swimmer says that a clinician has cleared her.
    fn cleared_alert(&self, who: &Name) -> String;
    /// Pain in a place, and what to do about it.
    fn pain(&self, place: &str, level: Option<u8>) -> String;
    /// The same of another swimmer, to whoever told of it.
    fn pain_of(&self, who: &Name, place: &str, level: Option<u8>) -> String;
    /// What to leave out so as to spare a sore place.
    fn spare(&self, spare: Spare) -> &'static str;
    /// After pain: when to see someone, when to text again.
    fn after_pain(&self, again: bool) -> &'static str;
    /// The same of another.
    fn after_pain_of(&self, who: &Name, again: bool) -> String;
    /// Illness: how long to stay out.
    fn ill(&self, illness: Illness) -> &'static str;
    /// The same of another.
    fn ill_of(&self, who: &Name, illness: Illness) -> String;
    /// After illness: how to start again.
    fn after_illness(&self) -> &'static str;
    /// The same of another.
    fn after_illness_of(&self, who: &Name) -> String;
    /// Nothing more is swum today.
    fn done_for_today(&self) -> &'static str;
    /// The same of another.
    fn done_for_today_of(&self, who: &Name) -> String;
    /// In an alert, for a swimmer whom we don't know.
    fn someone(&self) -> &'static str;
    /// In an alert, `who` as another's text has it.
    fn as_told_by(&self, who: &str, by: &Name) -> String;
    /// Tells a coach of pain, of that level if one was said, perhaps `again`.
    fn pain_alert(&self, who: &str, place: &str, level: Option<u8>, again: bool) -> String;
    /// Tells a coach of a danger of this kind.
    fn danger_alert(&self, who: &str, danger: Danger, stopped: Option<&Name>) -> String;

    /// To the coach: a swimmer's answers to the questions on joining leave
    /// something to be asked.
    fn not_ready_alert(&self, who: &Name) -> String;
    /// In a danger alert: whom to call.
    fn contact(&self, contact: &str) -> String;

    /// What a coach is told unasked.
    fn alert(&self, alert: &Alert) -> String {
        let who = match (&alert.who, &alert.by) {
            (Some(who), None) => who.to_string(),
            (Some(who), Some(by)) => self.as_told_by(who.as_str(), by),
            (None, None) => self.someone().to_owned(),
            (None, Some(by)) => self.as_told_by(self.someone(), by),
        };
        let who = who.as_str();
        let contact =
            alert.contact.as_ref().map(|to| format!(" {}", self.contact(to))).unwrap_or_default();
        match &alert.kind {
            CautionKind::Pain { place, level, again } => {
                self.pain_alert(who, place, *level, *again)
            }
            CautionKind::Danger { danger, .. } | CautionKind::Beside { danger, .. } => {
                self.danger_alert(who, *danger, alert.who.as_ref()) + &contact
            }
            _ => self.danger_alert(who, Danger::Unspecific, alert.who.as_ref()) + &contact,
        }
    }

    /// A caution, on its own.
    fn caution(&self, reply: &CautionReply) -> Vec<String> {
        let one = match (&reply.kind, &reply.about) {
            (CautionKind::Danger { danger, call }, Some(who)) => {
                let call = self.call(call.as_deref());
                return vec![self.first_aid_for(*danger, &call), self.stopped_of(who)];
            }
            (CautionKind::Danger { danger, call }, None) => {
                let first = self.first_aid(*danger, &self.call(call.as_deref()));
                return vec![first, self.until_cleared().to_owned()];
            }
            (CautionKind::Beside { danger, unnamed, call }, _) => {
                let first = self.first_aid_for(*danger, &self.call(call.as_deref()));
                let then =
                    if *unnamed { self.name_whom() } else { self.until_another_is_cleared() };
                return vec![first, then.to_owned()];
            }
            (CautionKind::Stopped, Some(who)) => return vec![self.stopped_of(who)],
            (CautionKind::Welfare { officer, of_another, call, helpline }, _) => {
                let first = self.welfare(*of_another, &self.call(call.as_deref()));
                return vec![first, self.after_welfare(*officer, helpline.as_deref())];
            }
            (CautionKind::Pain { place, level, again }, None) => {
                return vec![self.pain(place, *level), self.after_pain(*again).to_owned()];
            }
            (CautionKind::Pain { place, level, again }, Some(who)) => {
                return vec![self.pain_of(who, place, *level), self.after_pain_of(who, *again)];
            }
            (CautionKind::Ill { fever, stomach }, about) => {
                let illness = Illness::of(*fever, *stomach);
                return match about {
                    None => owned(&[self.ill(illness), self.after_illness()]),
                    Some(who) => vec![self.ill_of(who, illness), self.after_illness_of(who)],
                };
            }
            (CautionKind::DoneToday, Some(who)) => return vec![self.done_for_today_of(who)],
            (CautionKind::DoneToday, None) => self.done_for_today(),
            (CautionKind::Stopped, None) => self.stopped(),
            (CautionKind::Effort, _) => self.effort(),
            (CautionKind::OpenWater, _) => self.open_water(),
            (CautionKind::BreathHold, _) => self.breath_hold(),
            (CautionKind::Easing, _) => return owned(&self.easing()),
            (CautionKind::Clinician, _) => return owned(&self.clinician()),
            (CautionKind::Gentle, _) => return owned(&self.gentle()),
            (CautionKind::Low { call, helpline }, _) => {
                return self.low(&self.call(call.as_deref()), helpline.as_deref());
            }
            (CautionKind::MaySwim, _) => self.may_swim(),
            (CautionKind::Dive, _) => self.dive(),
            (CautionKind::Alone, _) => self.alone(),
        };
        vec![one.to_owned()]
    }

    /// A caution that belongs to what the sender will swim.
    fn caution_with(&self, kind: CautionKind) -> Vec<String> {
        self.caution(&CautionReply { kind, about: None })
    }
}

/// How much it hurts, as far as that changes what to do (common practice, no
/// source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Soreness {
    /// Up to 2: noted.
    Light,
    /// 3 to 5: swim without what hurts.
    Felt,
    /// 6 or more: stop for today.
    Severe,
}

impl Soreness {
    /// That of a level; one that was not said counts as 5.
    pub fn of(level: Option<u8>) -> Self {
        match level.unwrap_or(UNSAID_LEVEL) {
            0..=2 => Soreness::Light,
            3..=5 => Soreness::Felt,
            _ => Soreness::Severe,
        }
    }
}

/// An illness, as far as it changes what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Illness {
    /// Of the stomach: out of the water for others' sake too.
    Stomach,
    /// With fever or a bad chest.
    Fever,
    /// Any other.
    Other,
}

impl Illness {
    fn of(fever: bool, stomach: bool) -> Self {
        match (stomach, fever) {
            (true, _) => Illness::Stomach,
            (false, true) => Illness::Fever,
            (false, false) => Illness::Other,
        }
    }
}

/// What to leave out so as to spare a sore place (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spare {
    /// Paddles, butterfly and a board held overhead.
    Arms,
    /// Butterfly and hard dolphin kick.
    Back,
    /// The breaststroke kick.
    BreastKick,
    /// Fins and a hard kick.
    Feet,
    /// Turning the head.
    Neck,
    /// Anything hard.
    Hard,
    /// The water.
    Water,
}

impl Spare {
    /// What spares a place, by its English name.
    pub fn of(place: &str) -> Self {
        match place {
            "shoulder" | "elbow" | "wrist" | "arm" => Spare::Arms,
            "knee" | "groin" | "hip" => Spare::BreastKick,
            "back" => Spare::Back,
            "neck" => Spare::Neck,
            "ear" | "eye" => Spare::Water,
            "ankle" | "foot" | "calf" => Spare::Feet,
            _ => Spare::Hard,
        }
    }
}

fn owned(lines: &[&str]) -> Vec<String> {
    lines.iter().map(|line| (*line).to_owned()).collect()
}
