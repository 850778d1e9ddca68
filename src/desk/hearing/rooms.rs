//! What of an answer may be said in a group chat, and what its sender alone
//! may hear.
//!
//! Pure, and careful by construction: what is not listed here as fit for a room
//! is for the sender alone. Never aloud: pain, illness, a stop, absence, age,
//! welfare, a contact, whether anything is wrong, and whatever names another.
//! Danger is the exception that is always answered aloud, without a name: whoever
//! stands near must know what to do. Who swims in which lane is said aloud where the
//! coach has said that it may be.

use serde_json::Value;

use crate::coaching::Change;
use crate::desk::decision::decided::Aside;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::history::{Event, Right};
use crate::message::{Doubt, Kind, Name, Statement};
use crate::reply::{
    self, Asks, AttendReply, CautionKind, CautionReply, EveningReply, HelpReply, Known, LanesReply,
    NotUnderstoodReply, OkReply, Outcome, RefusedReply, RefusedWhy, Set, TestReply, Unread, Voice,
};

/// How many SMS parts an answer to a chat may have: its window holds more than a
/// telephone's, and nobody texts `more` in a room (ours).
pub const PARTS: usize = 8;

/// An answer, parted.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Parted {
    /// For the room, what to do first first.
    pub aloud: Vec<Outcome>,
    /// For the sender alone.
    pub aside: Vec<Outcome>,
}

/// What is known of whom a room's answer is about.
#[derive(Debug, Clone, Copy, Default)]
pub struct Heard<'a> {
    /// Who wrote.
    pub me: Option<&'a Name>,
    /// The room may hear who swims in which lane.
    pub names: bool,
    names_another: bool,
}

/// Parts an answer into what is said aloud and what is not. `understood`, what was read, tells
/// whether it is about somebody else. With `names`, who swims in which lane is said aloud.
pub fn part(outcome: &Outcome, understood: &[Value], me: Option<&Name>, names: bool) -> Parted {
    let names_another = understood.iter().any(|one| {
        let who = one.get("who");
        who.is_some_and(|who| who.as_str() != me.map(Name::as_str) || me.is_none())
    });
    let mut parted = Parted::default();
    parted.take(outcome, Heard { me, names, names_another });
    let is_danger = |one: &Outcome| matches!(one, Outcome::Caution(_) | Outcome::Question(_));
    parted.aloud.sort_by_key(|one| !is_danger(one));
    parted
}

/// `show names in the chat`, `no names in the chat`. Never with minors in the squad:
/// where they swim and when is nobody else's.
pub fn names(desk: &mut Desk<'_>, shown: bool) -> Result<Outcome, Stopped> {
    desk.demand(Right::SayYes)?;
    if shown && desk.squad.minors {
        return Err(refused("minors", RefusedWhy::NamesOfMinors));
    }
    desk.record(Event::NamesInRoomsSet { shown });
    Ok(Outcome::Ok(OkReply::NamesInRooms { shown }))
}

/// An answer's words for the room, and for its sender alone.
pub fn in_a_room(
    outcome: &Outcome,
    understood: &[Value],
    voice: Voice,
) -> (Option<String>, Option<Aside>) {
    let parted = part(outcome, understood, None, false);
    let text = voice.lines(&Outcome::Mixed(parted.aside.clone())).join("\n");
    let aside = (!text.is_empty()).then(|| aside(&parted, text, voice));
    (words(&parted.aloud, voice), aside)
}

/// The room's words for what is said aloud.
pub fn words(aloud: &[Outcome], voice: Voice) -> Option<String> {
    let lines: Vec<String> = aloud.iter().flat_map(|one| voice.lines(one)).collect();
    let text = reply::fit(lines, PARTS, "").text.trim_end().to_owned();
    (!text.is_empty()).then_some(text)
}

/// The sender's words for what they alone may hear.
pub fn aside(parted: &Parted, text: String, voice: Voice) -> Aside {
    let asks_danger = |one: &&Outcome| matches!(one, Outcome::Question(question) if question.asks == Asks::AnyDanger);
    let asked = parted.aside.iter().find(asks_danger);
    let private = RefusedReply { rule: "private".to_owned(), why: RefusedWhy::Private };
    // Beside first aid nothing else is said, and nothing points at whoever
    // spoke of harm.
    let silent = parted.aloud.iter().any(is_first_aid) || parted.aside.iter().all(is_welfare);
    Aside {
        text,
        told: (!silent).then(|| voice.answered_privately().to_owned()),
        // Where there is no way to them alone, it must still be asked.
        untold: match asked {
            Some(question) => voice.lines(question).join("\n"),
            None => voice.refused(&private).join(" "),
        },
    }
}

impl Parted {
    fn take(&mut self, outcome: &Outcome, heard: Heard<'_>) {
        match outcome {
            Outcome::Mixed(several) => {
                several.iter().for_each(|one| self.take(one, heard));
            }
            // A lane's results are others'; what is urgent among them is not.
            Outcome::Captured(several) => {
                let (urgent, rest): (Vec<_>, Vec<_>) =
                    several.iter().cloned().partition(|one| matches!(one, Outcome::Caution(_)));
                urgent.iter().for_each(|one| self.take(one, heard));
                self.aside.push(Outcome::Captured(rest));
            }
            Outcome::Caution(caution) => self.caution(caution),
            Outcome::Lanes(lanes) if heard.names => {
                self.aloud.push(Outcome::Lanes(only_places(lanes)));
                // The coach alone hears for whom to keep it easy, and who must not swim.
                if only_places(lanes) != *lanes {
                    self.aside.push(outcome.clone());
                }
            }
            Outcome::Ok(OkReply::LanesChanged(changed)) if heard.names => {
                let mut aloud = changed.clone();
                aloud.moved.retain(|(_, _, to)| to.is_some());
                aloud.relaxed.clear();
                aloud.parted.clear();
                if aloud != *changed {
                    self.aside.push(outcome.clone());
                }
                self.aloud.push(Outcome::Ok(OkReply::LanesChanged(aloud)));
            }
            other => match fit_for_a_room(other, heard).filter(|_| !heard.names_another) {
                Some(fit) => self.aloud.push(fit),
                None => self.aside.push(other.clone()),
            },
        }
    }

    fn caution(&mut self, caution: &CautionReply) {
        use CautionKind::{
            Alone, Beside, BreathHold, Danger, Dive, Effort, EverybodyOut, OpenWater,
        };
        let about_another = caution.about.is_some();
        let aloud = match &caution.kind {
            Danger { danger, call } if about_another => {
                Some(Beside { danger: *danger, unnamed: false, call: call.clone() })
            }
            Beside { danger, call, .. } => {
                Some(Beside { danger: *danger, unnamed: false, call: call.clone() })
            }
            kind @ (Danger { .. }
            | Alone
            | BreathHold
            | Dive
            | Effort
            | EverybodyOut { .. }
            | OpenWater) => Some(kind.clone()),
            _ => None,
        };
        let whole = aloud.as_ref() == Some(&caution.kind) && !about_another;
        self.aloud.extend(aloud.map(|kind| Outcome::Caution(CautionReply { kind, about: None })));
        if !whole {
            self.aside.push(Outcome::Caution(caution.clone()));
        }
    }
}

/// What a room may hear of an outcome that is about the sender; nothing where it is for
/// them alone.
fn fit_for_a_room(outcome: &Outcome, heard: Heard<'_>) -> Option<Outcome> {
    let theirs = |who: &Name| heard.me == Some(who);
    match outcome {
        Outcome::Test(test) if theirs(&test.swimmer) && !test.other => {
            // What to swim next may tell what they may not swim.
            Some(Outcome::Test(TestReply { next: None, ..test.clone() }))
        }
        Outcome::Set(set)
            if theirs(&set.swimmer) && !set.other && set.feedback.change.what != Change::Rest =>
        {
            Some(outcome.clone())
        }
        Outcome::Done(done) if theirs(&done.swimmer) => Some(outcome.clone()),
        // A night's set is everybody's; whose times they are is not, nor who swims it
        // gently.
        Outcome::Evening(evening) => {
            let mut evening = EveningReply { in_room: !heard.names, ..evening.clone() };
            for lane in &mut evening.lanes {
                lane.gently.clear();
                lane.targets.clear();
            }
            Some(Outcome::Evening(evening))
        }
        Outcome::Targets(_) => Some(outcome.clone()),
        Outcome::Prediction(prediction) if prediction.race.is_none() => Some(outcome.clone()),
        Outcome::Help(HelpReply::Swimmer | HelpReply::Coach) => {
            Some(Outcome::Help(HelpReply::Room))
        }
        Outcome::Help(
            HelpReply::Topic(_)
            | HelpReply::Meaning { .. }
            | HelpReply::Us
            | HelpReply::Data
            | HelpReply::Stranger
            | HelpReply::OptedOut
            | HelpReply::Room,
        ) => Some(outcome.clone()),
        Outcome::NotUnderstood(reply) => Some(Outcome::NotUnderstood(NotUnderstoodReply {
            // What was typed is not repeated: it may be somebody's matter.
            understood: vec![],
            rest: Unread::Unsaid,
            example: reply.example.clone(),
        })),
        // When lanes end is everybody's; who was moved or swims otherwise is not.
        Outcome::Ok(OkReply::Attend(said)) if said.coming && said.who.is_none() => {
            let said = AttendReply { lanes: None, ..said.clone() };
            Some(Outcome::Ok(OkReply::Attend(said)))
        }
        Outcome::Ok(OkReply::SetChanged(changed)) => {
            let mut changed = changed.clone();
            changed.lanes.iter_mut().for_each(|lane| lane.whom.clear());
            Some(Outcome::Ok(OkReply::SetChanged(changed)))
        }
        Outcome::Ok(done) if is_plain(done) => Some(outcome.clone()),
        Outcome::Question(question) if is_about_figures(&question.asks) => Some(outcome.clone()),
        Outcome::Refused(refused) if is_about_nobody(&refused.why) => Some(outcome.clone()),
        _ => None,
    }
}

/// Who swims in which lane and on what send-off, and no more of anybody.
fn only_places(lanes: &LanesReply) -> LanesReply {
    LanesReply {
        relaxed: vec![],
        advice: None,
        stopped: vec![],
        done: vec![],
        careful: vec![],
        focus: vec![],
        ..lanes.clone()
    }
}

fn is_plain(done: &OkReply) -> bool {
    match done {
        OkReply::Profile(settings) => !settings.iter().any(|set| matches!(set, Set::Born(_))),
        OkReply::Greeting
        | OkReply::NamesInRooms { .. }
        | OkReply::Thanks
        | OkReply::LeftAlone
        | OkReply::OptedIn
        | OkReply::OptedOut
        // When the squad swims is no secret in its room.
        | OkReply::Known(Known::Evening { .. })
        | OkReply::Silent => true,
        _ => false,
    }
}

fn is_own_swim(one: &Statement) -> bool {
    let swum =
        matches!(one.kind, Kind::Test(_) | Kind::TimedTest(_) | Kind::SetResult(_) | Kind::Done(_));
    one.who.is_none() && swum
}

fn is_about_figures(asks: &Asks) -> bool {
    match asks {
        // What was read is repeated in the question.
        Asks::Doubt(Doubt::Meant { says }) => says.iter().all(is_own_swim),
        Asks::Doubt(Doubt::Either { first, second }) => first.iter().chain(second).all(is_own_swim),
        Asks::Doubt(_)
        | Asks::Implausible { .. }
        | Asks::Impossible { .. }
        | Asks::TwoReadings { .. } => true,
        _ => false,
    }
}

fn is_about_nobody(why: &RefusedWhy) -> bool {
    matches!(
        why,
        RefusedWhy::BadCode
            | RefusedWhy::CoachOnly
            | RefusedWhy::OthersSwims
            | RefusedWhy::Distance
            | RefusedWhy::Future { .. }
            | RefusedWhy::NoBoard
            | RefusedWhy::NoLane { .. }
            | RefusedWhy::NamesOfMinors
            | RefusedWhy::NoMainSet
            | RefusedWhy::NothingOfPart { .. }
            | RefusedWhy::NoQuestion
            | RefusedWhy::NoRounds
            | RefusedWhy::NoSet
            | RefusedWhy::NoSetYet
            | RefusedWhy::NoTest
            | RefusedWhy::NotAMember
            | RefusedWhy::NotASwimmer
            | RefusedWhy::NotYet
            | RefusedWhy::Nothing
            | RefusedWhy::Private
            | RefusedWhy::Unlikely { .. }
    )
}

fn is_first_aid(outcome: &Outcome) -> bool {
    matches!(outcome, Outcome::Caution(caution) if caution.kind.is_danger())
}

fn is_welfare(outcome: &Outcome) -> bool {
    matches!(outcome, Outcome::Caution(caution) if caution.kind.is_welfare())
}
