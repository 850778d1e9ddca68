//! What whoever owns the folder does with squads as a whole: to see them, to name
//! them anew, to end an office or the squad itself.

use std::sync::Arc;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::deciding::PutOf;
use super::record::Record;
use super::{Failure, Service, WayBack, consent, opening, speaking, world};
use crate::desk::managing::{self, Managed};
use crate::history::{Event, Member, Role, Squad, SquadId, StrangersAsked};
use crate::message::Name;
use crate::units::Course;

/// What is to be done, and with which squad; where there is but one, with that.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Managing {
    /// See all squads.
    SeeAll,
    /// See one.
    See {
        /// Which.
        squad: Option<SquadId>,
    },
    /// Give one another name.
    Rename {
        /// Which.
        squad: Option<SquadId>,
        /// The name.
        name: String,
    },
    /// Have one joined by another code.
    RenewCode {
        /// Which.
        squad: Option<SquadId>,
    },
    /// Take an office from somebody.
    EndOffice {
        /// In which squad.
        squad: Option<SquadId>,
        /// Where they text from.
        address: String,
    },
    /// Close one for good.
    Close {
        /// Which.
        squad: SquadId,
        /// Forget everybody who swam in it.
        erase: bool,
    },
}

/// A squad, as whoever owns the folder sees it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SquadSeen {
    /// Its id.
    pub id: SquadId,
    /// Its name.
    pub name: String,
    /// The code to join by.
    pub code: String,
    /// When the code stops working, if ever.
    pub expires: Option<Timestamp>,
    /// Its IANA time zone.
    pub timezone: String,
    /// Its pool.
    pub course: Course,
    /// Minors swim in it.
    pub minors: bool,
    /// How many swim in it.
    pub swimmers: usize,
    /// Who holds an office in it.
    pub staff: Vec<StaffSeen>,
}

/// One who holds an office, or is called in danger.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StaffSeen {
    /// As what; none for the second contact, who is only called in danger.
    pub role: Option<Role>,
    /// What they are called, where that is known.
    pub name: Option<Name>,
    /// Where they text from.
    pub address: String,
}

/// What was done with a squad, on its way to the disk.
struct Done {
    seen: SquadSeen,
    /// Nothing where nothing changes.
    put: Option<PutOf>,
    /// Somebody goes.
    erases: bool,
}

impl SquadSeen {
    fn of(squad: &Squad) -> SquadSeen {
        let line = |(address, member): (&String, &Arc<Member>)| StaffSeen {
            role: Some(member.role),
            name: member.goes_by().cloned(),
            address: address.clone(),
        };
        let holders = squad.members.iter().filter(|(_, member)| member.role != Role::Swimmer);
        let mut staff: Vec<StaffSeen> = holders.map(line).collect();
        staff.sort_by_key(|one| Role::ALL.iter().position(|role| one.role == Some(*role)));
        let second = squad.safe.second_contact.iter().cloned();
        staff.extend(second.map(|address| StaffSeen { role: None, name: None, address }));
        SquadSeen {
            id: squad.id.clone(),
            name: squad.name.clone(),
            code: squad.code.clone(),
            expires: squad.expires,
            timezone: squad.timezone.clone(),
            course: squad.course,
            minors: squad.minors,
            swimmers: squad.swimmers.len(),
            staff,
        }
    }
}

impl Service {
    /// Does it, durably, and gives the squads it was done to, as they are now; a squad
    /// that was closed, as it was before.
    ///
    /// # Errors
    /// [`Failure::Refused`] where it can't be told which squad, or it can't be done
    /// with that one; [`Failure::Unavailable`] where it can't be stored now.
    pub async fn manage(self: &Arc<Self>, managing: Managing) -> Result<Vec<SquadSeen>, Failure> {
        let sees = matches!(managing, Managing::SeeAll | Managing::See { .. });
        if sees && self.ready().is_ok() {
            // What can be seen is shown whether or not anything can be stored.
            let _ = self.caught_up().await;
        }
        if managing == Managing::SeeAll {
            return self.see_all();
        }
        if !sees {
            self.ready()?;
            self.caught_up().await?;
        }
        loop {
            let Done { seen, put, erases } = self.manage_once(&managing)?;
            let Some((put, due)) = put else { return Ok(vec![seen]) };
            let Some(place) = self.stored(put.ticket).await? else { continue };
            self.look_after(place, due);
            if erases {
                self.erase().await?;
            }
            self.letters.notify_one();
            return Ok(vec![seen]);
        }
    }

    fn manage_once(&self, managing: &Managing) -> Result<Done, Failure> {
        let world = self.world();
        let id = match managing {
            Managing::Close { squad, .. } => self.the_squad_even_closed(&world, squad)?,
            Managing::See { squad }
            | Managing::Rename { squad, .. }
            | Managing::RenewCode { squad }
            | Managing::EndOffice { squad, .. } => self.the_squad(&world, squad.as_ref())?,
            Managing::SeeAll => return Err(Failure::Refused("that is several squads".into())),
        };
        let seat = world.room(&id).map_err(|error| self.failed(&error))?;
        let seat = seat.ok_or_else(|| Failure::Refused("there is no such squad".into()))?;
        let mut room = seat.enter();
        let before = SquadSeen::of(&room.squad);
        let unchanged = |seen| Ok(Done { seen, put: None, erases: false });
        let wall = self.now();
        let now = self.shown_as_of(room.squad.as_of, wall);
        let nobody = StrangersAsked::default();
        let asked = self.looking("", now, wall, &nobody);
        let refused = |why: &dyn std::fmt::Display| Failure::Refused(why.to_string());
        let closes = matches!(managing, Managing::Close { .. });
        let managed = match managing {
            Managing::SeeAll | Managing::See { .. } => return unchanged(before),
            Managing::Rename { name, .. } => {
                let name = opening::named(name)?;
                managing::renamed(&room.squad, &asked, name)
            }
            Managing::RenewCode { .. } => managing::code_renewed(&room.squad, &asked),
            Managing::EndOffice { address, .. } => {
                managing::out_of_office(&room.squad, &asked, address)
                    .map_err(|why| refused(&why))?
            }
            Managing::Close { erase, .. } => {
                let unheard = world.alarms().unheard(wall);
                if unheard.iter().any(|alarm| alarm.squad.as_ref() == Some(&id)) {
                    let why = "an alarm in it has reached nobody yet: see `lapwing outbox`";
                    return Err(refused(&why));
                }
                managing::closed(&room.squad, &asked, *erase)
            }
        };
        let Managed { events, said, squad, touched } = managed;
        if events.is_empty() {
            return unchanged(before);
        }
        let mut record = Record::unsaid(Some(id), room.squad.next_cause, "", now);
        (record.events, record.received) = (events, wall);
        speaking::say_all(&mut record, said, None, &WayBack::default());
        consent::spare(&world, "", &mut record.replies);
        record.gone = world::gone(&room.squad, &record.events, &squad);
        let seen = if closes { before } else { SquadSeen::of(&squad) };
        let put = self.append(&world, &record, None)?;
        let due = self.went_on(&mut room, squad, touched, &record, &put);
        let erases = record.events.iter().any(|one| matches!(one, Event::Forgotten { .. }));
        Ok(Done { seen, put: Some((put, due)), erases })
    }

    fn see_all(&self) -> Result<Vec<SquadSeen>, Failure> {
        let world = self.world();
        let ids = world.directory().ids();
        let mut all = Vec::with_capacity(ids.len());
        for id in ids {
            let seat = world.room(&id).map_err(|error| self.failed(&error))?;
            all.extend(seat.map(|seat| SquadSeen::of(&seat.enter().squad)));
        }
        all.sort_by(|one, other| (&one.name, &one.id).cmp(&(&other.name, &other.id)));
        Ok(all)
    }
}
