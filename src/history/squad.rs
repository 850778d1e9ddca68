//! A squad: its settings, its members, its swimmers.

use std::collections::BTreeMap;
use std::sync::Arc;

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use serde::{Deserialize, Serialize};

use super::setting::Setting;
use super::{
    BoardOpen, CalendarOpen, Confirmation, CowMap, EveningKept, Invitation, Ledger, Member, Moved,
    Parting, Right, Safeguards, StopKept, Swimmer, Timetable, Unnamed,
};
use crate::language::Language;
use crate::message::Name;
use crate::session::Limit;
use crate::units::{Course, Distance};

/// A squad's id: opaque, made when it is opened.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct SquadId(pub String);

/// A squad, folded from its events.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Squad {
    /// Its id.
    pub id: SquadId,
    /// Its name.
    pub name: String,
    /// Its IANA time zone.
    pub timezone: String,
    /// Its pool.
    pub course: Course,
    /// The code to join by.
    pub code: String,
    /// When the code stops working.
    pub expires: Option<Timestamp>,
    /// Minors swim in it.
    pub minors: bool,
    /// The club has screened its members.
    pub ready: bool,
    /// It was closed for good.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub closed: bool,
    /// The number the next message gets.
    pub next_cause: u64,
    /// Who looks after whom, and what is kept apart from training.
    #[serde(default)]
    pub safe: Safeguards,
    /// Someone in it wished to be forgotten, and is still in the log.
    #[serde(default)]
    pub to_erase: bool,
    /// Its people by address; shared, as its swimmers are.
    #[serde(with = "super::cow_map::shared")]
    pub members: CowMap<String, Arc<Member>>,
    /// Those asked in who have not answered, by address.
    #[serde(default)]
    pub invitations: BTreeMap<String, Invitation>,
    /// What waits for a code.
    #[serde(default)]
    pub confirmation: Option<Confirmation>,
    /// Stops of those who were forgotten.
    #[serde(default)]
    pub stops: Vec<(Unnamed, StopKept)>,
    /// Guests by the code that makes their history a telephone's own.
    #[serde(default)]
    pub claims: BTreeMap<String, Name>,
    /// Its nights, as they stand after each change.
    #[serde(default)]
    pub evenings: Ledger<EveningKept>,
    /// Its evenings.
    #[serde(default)]
    pub timetable: Timetable,
    /// Words on who shares no lane.
    #[serde(default)]
    pub partings: Ledger<Parting>,
    /// Pages of it that are open, oldest first.
    #[serde(default)]
    pub boards: Vec<BoardOpen>,
    /// Calendars of it that last.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub calendars: Vec<CalendarOpen>,
    /// What counted as now for its last message.
    #[serde(default)]
    pub as_of: Option<Timestamp>,
    /// Test nights that were called.
    #[serde(default)]
    pub test_nights: Ledger<Distance>,
    /// What nobody in it may do.
    #[serde(default)]
    pub limits: Setting<Vec<Limit>>,
    /// Plans wait for the coach's yes before they go out.
    #[serde(default)]
    pub approval: Setting<bool>,
    /// A room may hear who swims in which lane; see [`Squad::names_in_rooms_at`].
    #[serde(default)]
    pub names_in_rooms: Setting<bool>,
    /// Meets, each with its pool where that was said.
    #[serde(default)]
    pub meets: Ledger<Option<Course>>,
    /// Results that were given to another.
    #[serde(default)]
    pub moves: Ledger<Moved>,
    /// Nothing is dropped of its swimmers' histories: it is folded whole, for one
    /// question.
    #[serde(skip)]
    pub whole: bool,
    /// Its swimmers by handle; shared, so that a working copy of the squad
    /// costs little and a snapshot is written from a still picture.
    #[serde(skip)]
    pub swimmers: CowMap<Name, Arc<Swimmer>>,
    /// Those who left, with the history that stays with the squad.
    #[serde(skip)]
    pub former: CowMap<Name, Arc<Swimmer>>,
}

impl Squad {
    /// A squad of which nothing has been told yet.
    pub fn unopened(id: SquadId) -> Self {
        Self {
            id,
            name: String::new(),
            timezone: "UTC".to_owned(),
            course: Course::Short25m,
            code: String::new(),
            expires: None,
            minors: false,
            ready: false,
            closed: false,
            next_cause: 1,
            safe: Safeguards::default(),
            to_erase: false,
            members: CowMap::new(),
            invitations: BTreeMap::new(),
            confirmation: None,
            stops: Vec::new(),
            claims: BTreeMap::new(),
            evenings: Ledger::default(),
            timetable: Timetable::default(),
            partings: Ledger::default(),
            boards: Vec::new(),
            calendars: Vec::new(),
            as_of: None,
            test_nights: Ledger::default(),
            limits: Setting::default(),
            approval: Setting::default(),
            names_in_rooms: Setting::default(),
            meets: Ledger::default(),
            moves: Ledger::default(),
            whole: false,
            swimmers: CowMap::new(),
            former: CowMap::new(),
        }
    }

    /// True while minors swim in it and nobody is named to hear of harm: then it
    /// takes names, and answers danger, and nothing else of those who swim.
    pub fn is_closed(&self) -> bool {
        self.minors && self.safe.officers.is_empty()
    }

    /// Its time zone; UTC where the name is none, which opening it refuses.
    pub fn zone(&self) -> TimeZone {
        TimeZone::get(&self.timezone).unwrap_or(TimeZone::UTC)
    }

    /// The local day of an instant.
    pub fn local_day(&self, at: Timestamp) -> Date {
        at.to_zoned_datetime(self.zone()).date()
    }

    /// The swimmer at an address.
    pub fn swimmer_at(&self, address: &str) -> Option<&Swimmer> {
        let name = self.members.get(address)?.name.as_ref()?;
        self.swimmers.get(name).map(Arc::as_ref)
    }

    /// The language that whoever texts from an address has chosen: as a swimmer, else as
    /// somebody who doesn't swim.
    pub fn language_of(&self, address: &str, now: Timestamp) -> Option<Language> {
        let of_swimmer = self.swimmer_at(address).and_then(|swimmer| swimmer.language.at(now));
        let own = || self.members.get(address)?.language.at(now);
        of_swimmer.or_else(own).copied()
    }

    /// True if the address has `right`.
    pub fn may(&self, address: &str, right: Right) -> bool {
        self.members.get(address).is_some_and(|member| member.role.may(right))
    }

    /// The addresses that have `right`.
    pub fn holders(&self, right: Right) -> impl Iterator<Item = &str> {
        self.members
            .iter()
            .filter(move |(_, member)| member.role.may(right))
            .map(|(address, _)| address.as_str())
    }
}
