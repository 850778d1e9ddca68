//! One swimmer: what they said of themselves and what they swam.

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::unasked::take_back;
use super::{
    Attendance, Dropped, FlyingLeg, Guard, Guest, Kept, Ledger, PlanWaiting, Presence,
    ProfileSetting, RaceEntry, Readiness, SetPutRight, Setting, TakenBack, TestKept, TroubleKind,
};
use crate::coaching::{
    Ability, OtherTraining, OwnTarget, Promise, Race, SetSwum, Swum, WeekPlanned,
};
use crate::language::Language;
use crate::message::Name;
use crate::session::{Limit, Session};
use crate::units::{Course, Equipment, Lane, Unit, Weekdays};

/// A swimmer, folded from their events.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Swimmer {
    /// Their handle.
    pub name: Name,
    /// Their address; none for a guest without a telephone.
    pub address: Option<String>,
    /// When they joined.
    pub joined: Timestamp,
    /// Their local day of joining.
    pub joined_on: Date,
    /// Their pool.
    pub course: Setting<Course>,
    /// Their days.
    pub days: Setting<Weekdays>,
    /// Their sessions a week.
    pub sessions: Setting<u8>,
    /// Their minutes a session.
    pub minutes: Setting<u16>,
    /// Their year of birth.
    pub born: Setting<i16>,
    /// The unit they speak in.
    pub units: Setting<Unit>,
    /// Their language.
    pub language: Setting<Language>,
    /// Their next race.
    pub race: Setting<Race>,
    /// Legs of relays that they began with a takeover.
    #[serde(default)]
    pub legs: Ledger<FlyingLeg>,
    /// Their entries for meets.
    #[serde(default)]
    pub entries: Ledger<RaceEntry>,
    /// The coach's focus for them.
    pub focus: Setting<String>,
    /// What they say that they can't do.
    #[serde(default)]
    pub limits: Setting<Vec<Limit>>,
    /// What those on deck say that they may not do.
    #[serde(default)]
    pub deck_limits: Setting<Vec<Limit>>,
    /// All the kit they have, where they said so.
    #[serde(default)]
    pub kit: Setting<Vec<Equipment>>,
    /// Times to hold that the coach set; see [`Swimmer::own_targets_at`].
    #[serde(default)]
    pub own_targets: Setting<Vec<OwnTarget>>,
    /// The lane that the coach keeps them in, if any.
    #[serde(default)]
    pub lane: Setting<Option<Lane>>,
    /// Tests: the latest, and the best of each kind for ever.
    pub tests: Ledger<TestKept>,
    /// Sets with results.
    pub sets: Ledger<SetSwum>,
    /// Sets that were put right, the last ones.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sets_put_right: Vec<SetPutRight>,
    /// Sessions in the water.
    pub swims: Ledger<Swum>,
    /// Training out of it.
    pub other: Ledger<OtherTraining>,
    /// Sessions missed.
    pub missed: Ledger<()>,
    /// The register: what the coach saw.
    #[serde(default)]
    pub presence: Ledger<Presence>,
    /// What they say of nights to come.
    #[serde(default)]
    pub attendance: Ledger<Attendance>,
    /// Times away: the first day back.
    pub away: Ledger<Date>,
    /// The coach's notes.
    pub notes: Ledger<String>,
    /// How far they say they can swim.
    #[serde(default)]
    pub ability: Setting<Ability>,
    /// When they said that they slept badly or are worn out.
    #[serde(default)]
    pub tired: Ledger<()>,
    /// Weeks planned.
    pub weeks: Ledger<WeekPlanned>,
    /// Sessions of the weeks planned.
    #[serde(default)]
    pub planned: Ledger<Session>,
    /// The week that waits for the coach's yes, if one does.
    #[serde(default)]
    pub waiting: Setting<Option<PlanWaiting>>,
    /// Sessions suggested.
    pub suggested: Ledger<Session>,
    /// Races and sessions that were taken back: a calendar may have shown them.
    #[serde(default, skip_serializing_if = "Ledger::is_empty")]
    pub taken_back: Ledger<TakenBack>,
    /// What a reply promised of a session to come.
    #[serde(default)]
    pub promised: Setting<Option<Promise>>,
    /// When something that they had told was put right or taken back.
    #[serde(default)]
    pub corrected: Setting<()>,
    /// Pain, illness, stops and holds.
    pub troubles: Ledger<TroubleKept>,
    /// How far the questions on joining have come.
    #[serde(default)]
    pub readiness: Setting<Readiness>,
    /// Knocks to the head.
    #[serde(default)]
    pub knocks: Ledger<()>,
    /// Whom to call in an emergency.
    #[serde(default)]
    pub contact: Setting<String>,
    /// A guest, until they have a telephone here.
    #[serde(default)]
    pub guest: Option<Guest>,
    /// The day they left the squad.
    #[serde(default)]
    pub left: Option<Date>,
    /// The grown-up responsible for them.
    #[serde(default)]
    pub guard: Option<Guard>,
    /// They want to be told of their week. The last word holds, at whatever instant
    /// it is asked.
    #[serde(default)]
    pub wants_note: bool,
    /// Whether they wanted it before, and the messages that changed it, the last ones.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub note_before: Vec<(u64, bool)>,
    /// When they last said that a clinician has cleared them.
    #[serde(default)]
    pub clearance: Option<Timestamp>,
    /// What of their history is kept no more.
    #[serde(default, skip_serializing_if = "Dropped::is_nothing")]
    pub dropped: Dropped,
}

/// Something that was or is wrong.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TroubleKept {
    /// What.
    pub kind: TroubleKind,
    /// When it was over, and the message that said so.
    pub closed: Option<(u64, Timestamp)>,
}

impl Swimmer {
    /// How many changes of a wish can be taken back.
    const MOST_WISHES: usize = 20;

    /// A swimmer who has just joined.
    pub fn new(name: Name, address: Option<String>, joined: Timestamp, joined_on: Date) -> Self {
        Self {
            name,
            address,
            joined,
            joined_on,
            course: Setting::default(),
            days: Setting::default(),
            sessions: Setting::default(),
            minutes: Setting::default(),
            born: Setting::default(),
            units: Setting::default(),
            language: Setting::default(),
            race: Setting::default(),
            legs: Ledger::default(),
            entries: Ledger::default(),
            limits: Setting::default(),
            deck_limits: Setting::default(),
            own_targets: Setting::default(),
            kit: Setting::default(),
            focus: Setting::default(),
            lane: Setting::default(),
            tests: Ledger::default(),
            sets: Ledger::default(),
            sets_put_right: Vec::new(),
            swims: Ledger::default(),
            other: Ledger::default(),
            missed: Ledger::default(),
            presence: Ledger::default(),
            attendance: Ledger::default(),
            away: Ledger::default(),
            notes: Ledger::default(),
            ability: Setting::default(),
            tired: Ledger::default(),
            weeks: Ledger::default(),
            planned: Ledger::default(),
            waiting: Setting::default(),
            suggested: Ledger::default(),
            taken_back: Ledger::default(),
            promised: Setting::default(),
            corrected: Setting::default(),
            troubles: Ledger::default(),
            readiness: Setting::default(),
            contact: Setting::default(),
            knocks: Ledger::default(),
            guest: None,
            left: None,
            guard: None,
            wants_note: false,
            note_before: Vec::new(),
            clearance: None,
            dropped: Dropped::default(),
        }
    }

    /// What is open at `now`, oldest first.
    pub fn open_troubles(
        &self,
        now: Timestamp,
    ) -> impl DoubleEndedIterator<Item = &Kept<TroubleKept>> {
        self.troubles
            .as_of(now)
            .filter(move |kept| kept.what.closed.is_none_or(|(_, closed)| closed > now))
    }

    /// What is open at `now` and may be told, oldest first: all but what is theirs and
    /// of which no word is kept.
    pub fn told_troubles(&self, now: Timestamp) -> impl Iterator<Item = &Kept<TroubleKept>> {
        self.open_troubles(now).filter(|kept| kept.what.kind.is_told())
    }

    /// The same with what was told more than once as one, since it was told first: two stops
    /// are one, and so is a pain of one place and level.
    pub fn told_once(&self, now: Timestamp) -> Vec<Kept<TroubleKept>> {
        let mut once: Vec<Kept<TroubleKept>> = Vec::new();
        for kept in self.told_troubles(now) {
            if !once.iter().any(|one| one.what.kind == kept.what.kind) {
                once.push(kept.clone());
            }
        }
        once
    }

    /// The coach's focus for them at `now`, in the coach's words; none once it was
    /// taken back.
    pub fn focus_at(&self, now: Timestamp) -> Option<&String> {
        self.focus.at(now).filter(|focus| !focus.is_empty())
    }

    /// True while faintness, chest pain or the like is open at `now`: no swimming.
    pub fn is_stopped(&self, now: Timestamp) -> bool {
        self.open_troubles(now).any(|kept| kept.what.kind == TroubleKind::Faint)
    }

    /// True if they said, known at `now`, that they are away on `day`.
    pub fn is_away(&self, day: Date, now: Timestamp) -> bool {
        self.away.as_of(now).any(|kept| kept.on <= day && kept.what > day)
    }

    pub(super) fn set_profile(&mut self, cause: u64, at: Timestamp, setting: &ProfileSetting) {
        match setting {
            ProfileSetting::Course(course) => self.course.set(cause, at, *course),
            ProfileSetting::Days(days) => self.days.set(cause, at, days.clone()),
            ProfileSetting::Sessions(sessions) => self.sessions.set(cause, at, *sessions),
            ProfileSetting::Minutes(minutes) => self.minutes.set(cause, at, *minutes),
            ProfileSetting::Born(year) => self.born.set(cause, at, *year),
            ProfileSetting::Units(unit) => self.units.set(cause, at, *unit),
            ProfileSetting::Language(language) => self.language.set(cause, at, *language),
        }
    }

    /// Closes what is open of illness: each at the end of its clear days, or at
    /// once where none are said.
    pub(super) fn recover(&mut self, cause: u64, at: Timestamp, clear: &[(u64, Timestamp)]) {
        let mut clear = clear.to_vec();
        for kept in self.troubles.iter_mut() {
            if kept.what.closed.is_none() && matches!(kept.what.kind, TroubleKind::Ill { .. }) {
                let which = clear.iter().position(|(of, _)| *of == kept.cause);
                let until = which.map(|at| clear.remove(at));
                kept.what.closed = Some((cause, until.map_or(at, |(_, until)| until)));
            }
        }
    }

    /// When their clear days after illness end, by what was known at `now`; none
    /// where none are running.
    pub fn clear_until(&self, now: Timestamp) -> Option<Timestamp> {
        let ends = self.open_troubles(now).filter_map(|kept| kept.what.closed);
        ends.map(|(_, until)| until).max()
    }

    /// Closes what `closes` picks of what is open.
    pub(super) fn close_troubles(
        &mut self,
        cause: u64,
        at: Timestamp,
        closes: impl Fn(&TroubleKind) -> bool,
    ) {
        for kept in self.troubles.iter_mut() {
            if kept.what.closed.is_none() && closes(&kept.what.kind) {
                kept.what.closed = Some((cause, at));
            }
        }
    }

    /// The times that the coach set and no test since has taken the place of.
    pub fn own_targets_at(&self, now: Timestamp) -> Vec<OwnTarget> {
        let all = self.own_targets.at(now).into_iter().flatten();
        let is_over = |own: &OwnTarget| {
            self.tests.as_of(now).any(|kept| own.is_over(&kept.what.trial, kept.at))
        };
        all.filter(|own| !is_over(own)).copied().collect()
    }

    /// True if what they were told since may rest on what message `cause` stored.
    pub(super) fn rests_on(&self, cause: u64) -> bool {
        self.tests.of_cause(cause).next().is_some()
            || self.sets.of_cause(cause).next().is_some()
            || self.swims.of_cause(cause).next().is_some()
            || self.troubles.of_cause(cause).next().is_some()
            || self.troubles.iter().any(|k| k.what.closed.is_some_and(|(by, _)| by == cause))
    }

    /// Takes in what message `cause` says of the weekly note.
    pub(super) fn wish_note(&mut self, cause: u64, wanted: bool) {
        self.note_before.push((cause, self.wants_note));
        let over = self.note_before.len().saturating_sub(Self::MOST_WISHES);
        self.note_before.drain(..over);
        self.wants_note = wanted;
    }

    /// True if message `cause` said something of the weekly note.
    pub fn wished_in(&self, cause: u64) -> bool {
        self.note_before.iter().any(|(said, _)| *said == cause)
    }

    /// Takes back all that message `cause` stored, but no stop: faintness and
    /// holds are lifted by a release only.
    pub(super) fn withdraw(&mut self, cause: u64) {
        self.course.withdraw(cause);
        take_back(&mut self.note_before, &mut self.wants_note, cause);
        self.days.withdraw(cause);
        self.sessions.withdraw(cause);
        self.minutes.withdraw(cause);
        self.born.withdraw(cause);
        self.units.withdraw(cause);
        self.language.withdraw(cause);
        self.race.withdraw(cause);
        self.entries.withdraw(cause);
        self.legs.withdraw(cause);
        self.limits.withdraw(cause);
        self.deck_limits.withdraw(cause);
        self.kit.withdraw(cause);
        self.own_targets.withdraw(cause);
        self.focus.withdraw(cause);
        self.lane.withdraw(cause);
        self.contact.withdraw(cause);
        self.withdraw_results(cause);
        self.take_back_sets_put_right(cause);
        self.missed.withdraw(cause);
        self.attendance.withdraw(cause);
        self.away.withdraw(cause);
        self.notes.withdraw(cause);
        self.ability.withdraw(cause);
        self.tired.withdraw(cause);
        self.weeks.withdraw(cause);
        self.planned.withdraw(cause);
        self.waiting.withdraw(cause);
        self.suggested.withdraw(cause);
        self.promised.withdraw(cause);
        self.troubles.withdraw_if(cause, |trouble| !trouble.kind.is_stop());
        for kept in self.troubles.iter_mut() {
            if kept.what.closed.is_some_and(|(by, _)| by == cause) {
                kept.what.closed = None;
            }
        }
        for kept in self.tests.iter_mut() {
            while let Some(&(_, was)) = kept.what.before.last().filter(|(by, _)| *by == cause) {
                kept.what.trial.time = was;
                kept.what.before.pop();
                kept.what.put_right.retain(|right| right.cause != cause);
            }
            let said = kept.what.begun_before.iter().position(|(by, _, _)| *by == cause);
            if let Some((_, start, meet)) = said.map(|at| kept.what.begun_before.remove(at)) {
                (kept.what.start, kept.what.trial.meet) = (start, meet);
            }
        }
    }
}
