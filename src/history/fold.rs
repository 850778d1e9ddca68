//! The fold: one event, one change to what is known. It holds no rule.

use std::sync::Arc;

use jiff::civil::Date;

use super::event::Event;
use super::lanes::PARTINGS_KEPT;
use super::meets::MEETS_KEPT;
use super::subject::{is_undoable, subject};
use super::test_night::TEST_NIGHTS_KEPT;
use super::{
    Before, BoardOpen, CalendarOpen, Kept, Member, PlanWaiting, Presence, PutRight, Readiness,
    Role, Squad, Stamped, TroubleKept, TroubleKind,
};
use crate::message::Name;

/// What an event changed, for whoever writes snapshots. The head of a squad
/// (its settings and members) always counts as changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Touched {
    /// The head only.
    Head,
    /// One swimmer.
    Swimmer(Name),
    /// Perhaps every swimmer.
    All,
}

impl Squad {
    /// Takes in one event, and says what of the squad it changed.
    pub fn apply(&mut self, stamped: &Stamped) -> Touched {
        let Stamped { cause, at, by, event } = stamped;
        let (cause, at) = (*cause, *at);
        self.next_cause = self.next_cause.max(cause + 1);
        let today = self.local_day(at);
        if let Some(touched) = self.apply_offices(stamped) {
            return touched;
        }
        if let Some(touched) = self.apply_safeguards(stamped) {
            return touched;
        }
        if let Some(touched) = self.apply_belonging(stamped) {
            return touched;
        }
        match event {
            Event::SquadOpened { name, coach, timezone, course, code, expires, minors, ready } => {
                self.name.clone_from(name);
                self.timezone.clone_from(timezone);
                self.course = *course;
                self.code.clone_from(code);
                self.expires = *expires;
                self.minors = *minors;
                self.ready = *ready;
                self.member_or_new(coach, Role::Coach).role = Role::Coach;
                Touched::Head
            }
            Event::SaidUnasked { address, what, on, .. } => {
                self.member(address, |member| member.told.keep(*what, *on))
            }
            Event::DigestWished { address, wish } => {
                self.member(address, |member| member.wish(cause, wish))
            }
            Event::LanguageChosen { address, language } => self.member(address, |member| {
                member.language.set(cause, at, *language);
                member.can_undo(cause);
            }),
            Event::BoardOpened { address, of, token, until, language } => {
                self.open_board(BoardOpen {
                    address: address.clone(),
                    of: of.clone(),
                    token: token.clone(),
                    opened: at,
                    until: *until,
                    language: *language,
                })
            }
            Event::CalendarOpened { address, of, token } => self.open_calendar(CalendarOpen {
                address: address.clone(),
                of: of.clone(),
                token: token.clone(),
                since: at,
            }),
            Event::CalendarShut { address, of } => self.shut_calendar(address, of.as_ref()),
            Event::OptedOut { address } => self.member(address, |member| member.opted_out = true),
            Event::OptedIn { address } => self.member(address, |member| member.opted_out = false),
            Event::QuestionAsked { address, question } => {
                self.member(address, |member| member.question = Some(question.clone()))
            }
            Event::QuestionQueued { address, question } => {
                self.member(address, |member| member.queue(question.clone()))
            }
            Event::QuestionClosed { address, about } => {
                self.member(address, |member| member.close_question(about.as_ref()))
            }
            Event::QuestionsDropped { address } => self.member(address, |member| {
                member.question = None;
                member.waiting.clear();
            }),
            Event::MoreKept { address, lines } => {
                self.member(address, |member| member.more.clone_from(lines))
            }
            Event::ReasonsKept { address, reasons } => {
                self.member(address, |member| member.reasons = Some(reasons.clone()))
            }
            Event::QuestionHeard { address, text } => self.member(address, |member| {
                member.asked = text.clone().map(|text| (at, text));
            }),
            Event::Undone { cause: undone } => {
                for member in self.members.values_mut().map(Arc::make_mut) {
                    member.undoable.retain(|number| number != undone);
                    member.unwish(*undone);
                    member.language.withdraw(*undone);
                }
                self.take_back_evening(*undone);
                self.timetable.withdraw(*undone);
                self.partings.withdraw(*undone);
                self.test_nights.withdraw(*undone);
                self.meets.withdraw(*undone);
                self.limits.withdraw(*undone);
                self.approval.withdraw(*undone);
                self.names_in_rooms.withdraw(*undone);
                self.give_back(*undone);
                let zone = self.zone();
                // One message may have stored for a whole lane.
                for swimmer in self.swimmers.values_mut() {
                    let swimmer = Arc::make_mut(swimmer);
                    swimmer.keep_taken_back(*undone, cause, at, &zone);
                    if swimmer.rests_on(*undone) {
                        swimmer.corrected.set(cause, at, ());
                    }
                    swimmer.withdraw(*undone);
                }
                Touched::All
            }
            Event::EveningPut { evening } => self.put_evening(stamped, evening.clone()),
            Event::SquadSetPut { set } => self.put_evening(stamped, set.evening()),
            Event::LanesDrawn { drawn } => {
                let before = self.evenings.latest_on(drawn.on, at).map(|kept| &kept.what);
                let evening = drawn.evening(before);
                self.put_evening(stamped, evening)
            }
            Event::Remarked { .. } => self.member(by, |member| member.can_undo(cause)),
            Event::LimitsSet { who: None, limits, .. } => {
                self.limits.set(cause, at, limits.clone());
                self.member(by, |member| member.can_undo(cause))
            }
            Event::ApprovalSet { wanted } => {
                self.approval.set(cause, at, *wanted);
                self.member(by, |member| member.can_undo(cause))
            }
            Event::NamesInRoomsSet { shown } => {
                self.names_in_rooms.set(cause, at, *shown);
                self.member(by, |member| member.can_undo(cause))
            }
            Event::ResultsSwapped { one, other } => {
                self.member(by, |member| member.can_undo(cause));
                self.swap_results(one, other, &self.putting_right(stamped))
            }
            Event::TimetableChanged { on, change } => {
                self.timetable.keep(Kept { cause, at, on: *on, what: change.clone() });
                self.member(by, |member| member.can_undo(cause))
            }
            Event::TestNightCalled { on, distance } => {
                self.test_nights.keep(Kept { cause, at, on: *on, what: *distance });
                self.test_nights.keep_latest(TEST_NIGHTS_KEPT);
                self.member(by, |member| member.can_undo(cause))
            }
            Event::MeetSet { on, course } => {
                self.meets.keep(Kept { cause, at, on: *on, what: *course });
                self.meets.keep_latest(MEETS_KEPT);
                self.member(by, |member| member.can_undo(cause))
            }
            Event::LanesParted { parting } => {
                self.partings.keep(Kept { cause, at, on: today, what: parting.clone() });
                self.partings.keep_latest(PARTINGS_KEPT);
                self.member(by, |member| member.can_undo(cause))
            }
            Event::ResultMoved { from, to, cause: moved } => {
                self.member(by, |member| member.can_undo(cause));
                self.move_results(from, to, *moved, &self.putting_right(stamped))
            }
            _ => {
                if is_undoable(event) {
                    self.member(by, |member| member.can_undo(cause));
                }
                if let Event::TroubleOpened { trouble, .. } = event
                    && matches!(trouble, TroubleKind::Faint | TroubleKind::Held)
                {
                    // Nobody takes back a stop, nor what was before it.
                    self.member(by, |member| member.stops_undo(cause));
                }
                let right_by = self.handle_of(by);
                self.apply_to_swimmer(cause, at, today, right_by, event)
            }
        }
    }

    pub(super) fn member(&mut self, address: &str, change: impl FnOnce(&mut Member)) -> Touched {
        if let Some(member) = self.members.get_mut(address).map(Arc::make_mut) {
            change(member);
        }
        Touched::Head
    }

    /// The handle of whoever texts from an address, as far as one is known.
    pub(super) fn handle_of(&self, address: &str) -> Option<Name> {
        let member = self.members.get(address)?;
        member.name.clone().or_else(|| member.called.clone())
    }

    fn apply_to_swimmer(
        &mut self,
        cause: u64,
        at: jiff::Timestamp,
        today: Date,
        right_by: Option<Name>,
        event: &Event,
    ) -> Touched {
        let whole = self.whole;
        let Some(who) = subject(event) else { return Touched::Head };
        let Some(swimmer) = self.swimmers.get_mut(who).map(Arc::make_mut) else {
            return Touched::Head;
        };
        match event {
            Event::TestSwum { test, .. } => {
                swimmer.tests.keep(Kept { cause, at, on: test.trial.on, what: test.clone() });
            }
            Event::SetSwum { set, .. } => {
                swimmer.sets.keep(Kept { cause, at, on: set.on, what: set.clone() });
            }
            Event::SessionSwum { swum, .. } => {
                swimmer.swims.keep(Kept { cause, at, on: swum.on, what: swum.clone() });
            }
            Event::OtherTrained { training, .. } => {
                swimmer.other.keep(Kept { cause, at, on: training.on, what: training.clone() });
            }
            Event::SessionMissed { on, .. } => {
                swimmer.missed.keep(Kept { cause, at, on: *on, what: () });
            }
            Event::AttendanceSaid { on, attendance, .. } => {
                swimmer.attendance.keep(Kept { cause, at, on: *on, what: *attendance });
            }
            Event::MarkedHere { on, .. } => {
                swimmer.presence.keep(Kept { cause, at, on: *on, what: Presence::Here });
            }
            Event::MarkedAbsent { on, .. } => {
                swimmer.presence.keep(Kept { cause, at, on: *on, what: Presence::Absent });
            }
            Event::WentAway { from, until, .. } => {
                let on = from.unwrap_or(today);
                swimmer.away.keep(Kept { cause, at, on, what: *until });
            }
            Event::TroubleOpened { trouble, .. } => {
                let what = TroubleKept { kind: trouble.clone(), closed: None };
                swimmer.troubles.keep(Kept { cause, at, on: today, what });
            }
            Event::Recovered { clear, .. } => {
                swimmer.close_troubles(cause, at, |kind| matches!(kind, TroubleKind::Pain { .. }));
                swimmer.recover(cause, at, clear);
            }
            Event::HeadKnocked { .. } => {
                swimmer.knocks.keep(Kept { cause, at, on: today, what: () })
            }
            Event::Released { .. } => {
                swimmer.close_troubles(cause, at, |kind| {
                    matches!(kind, TroubleKind::Faint | TroubleKind::Held | TroubleKind::Eased)
                });
                let before = swimmer.readiness.at(at).copied().unwrap_or_default();
                swimmer.readiness.set(cause, at, Readiness { cleared: true, ..before });
            }
            Event::ReadinessAnswered { question, concern, .. } => {
                let before = swimmer.readiness.at(at).copied().unwrap_or_default();
                swimmer.readiness.set(cause, at, before.after(*question, *concern));
            }
            Event::ContactSet { contact, .. } => swimmer.contact.set(cause, at, contact.clone()),
            Event::WeeklyNoteWished { wanted, .. } => swimmer.wish_note(cause, *wanted),
            Event::ClearanceSaid { .. } => swimmer.clearance = Some(at),
            Event::ProfileSet { setting, .. } => swimmer.set_profile(cause, at, setting),
            Event::LegSwum { on, leg, .. } => {
                swimmer.legs.keep(Kept { cause, at, on: *on, what: *leg });
            }
            Event::EntrySet { entry, .. } => {
                let on = entry.on.unwrap_or(today);
                swimmer.entries.keep(Kept { cause, at, on, what: *entry });
            }
            Event::RaceSet { race, .. } => swimmer.race.set(cause, at, race.clone()),
            Event::LanePinned { lane, .. } => swimmer.lane.set(cause, at, *lane),
            Event::LimitsSet { deck: true, limits, .. } => {
                swimmer.deck_limits.set(cause, at, limits.clone());
            }
            Event::LimitsSet { limits, .. } => swimmer.limits.set(cause, at, limits.clone()),
            Event::KitSet { kit, .. } => swimmer.kit.set(cause, at, kit.clone()),
            Event::OwnTargetsSet { targets, .. } => {
                swimmer.own_targets.set(cause, at, targets.clone());
            }
            Event::FocusSet { text, .. } => swimmer.focus.set(cause, at, text.clone()),
            Event::Noted { text, .. } => {
                swimmer.notes.keep(Kept { cause, at, on: today, what: text.clone() });
            }
            Event::AbilitySaid { ability, .. } => {
                let before = swimmer.ability.at(at).copied().unwrap_or_default();
                swimmer.ability.set(cause, at, ability.after(before));
            }
            Event::FeltTired { .. } => {
                swimmer.tired.keep(Kept { cause, at, on: today, what: () });
            }
            Event::SessionSuggested { session, .. } => {
                swimmer.suggested.keep(Kept { cause, at, on: session.on, what: session.clone() });
            }
            Event::Promised { promise, .. } => swimmer.promised.set(cause, at, promise.clone()),
            Event::WeekPlanned { week, sessions, .. } => {
                swimmer.weeks.keep(Kept { cause, at, on: week.starts, what: week.clone() });
                for session in sessions {
                    let what = session.clone();
                    swimmer.planned.keep(Kept { cause, at, on: session.on, what });
                }
            }
            Event::WeekWaits { wish, week, sessions, .. } => {
                let (wish, week, sessions) = (wish.clone(), week.clone(), sessions.clone());
                let waiting = PlanWaiting { cause, wish, week, sessions };
                swimmer.waiting.set(cause, at, Some(waiting));
            }
            Event::WeekSettled { .. } => swimmer.waiting.set(cause, at, None),
            Event::TestBegun { cause: begun, start, meet, .. } => {
                for kept in swimmer.tests.of_cause_mut(*begun) {
                    let test = &mut kept.what;
                    test.begun_before.push((cause, test.start, test.trial.meet));
                    test.start = start.or(test.start);
                    test.trial.meet |= meet;
                }
            }
            Event::TestFixed { cause: fixed, time, distance, .. } => {
                let is_it = |far| distance.is_none_or(|distance| distance == far);
                let of_cause = swimmer.tests.of_cause_mut(*fixed);
                if let Some(kept) = of_cause.filter(|k| is_it(k.what.trial.distance)).last() {
                    let was = Before::Time(kept.what.trial.time);
                    kept.what.put_right.push(PutRight { cause, by: right_by, on: today, was });
                    kept.what.before.push((cause, kept.what.trial.time));
                    kept.what.trial.time = *time;
                    swimmer.corrected.set(cause, at, ());
                }
            }
            Event::SetFixed { cause: fixed, was, now, .. } => {
                swimmer.put_set_right(cause, *fixed, was, now);
            }
            Event::ResultsTakenBack { cause: told, .. } => swimmer.withdraw_results(*told),
            _ => {}
        }
        if !whole {
            swimmer.prune(today);
        }
        Touched::Swimmer(who.clone())
    }
}
