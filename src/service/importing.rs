//! A table that whoever owns the folder brings into a squad: stored whole, or not at
//! all.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::deciding::PutOf;
use super::record::Record;
use super::{Failure, Service};
use crate::desk::importing::{self, Brought};
use crate::history::{Role, SquadId, StrangersAsked};
use crate::import::{self, Fault, List, Read};

/// A table that is brought.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Bringing {
    /// Into which squad; where there is but one, into that.
    pub squad: Option<SquadId>,
    /// What it is a list of.
    pub list: List,
    /// The table's text.
    pub text: String,
}

/// What became of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BroughtIn {
    /// It is stored.
    Stored {
        /// Rows that were new.
        new: usize,
        /// Rows that said what was known.
        known: usize,
    },
    /// Nothing is stored.
    Faulty(
        /// All that is wrong, by line.
        Vec<Fault>,
    ),
}

impl Service {
    /// Brings a table into a squad, in its coach's name.
    ///
    /// # Errors
    /// [`Failure::Refused`] where it can't be told which squad, and for one without a
    /// coach; [`Failure::Unavailable`] where it can't be stored now.
    pub async fn bring(self: &Arc<Self>, bringing: &Bringing) -> Result<BroughtIn, Failure> {
        self.ready()?;
        self.caught_up().await?;
        loop {
            let (stored, put) = self.bring_once(bringing)?;
            let Some((put, due)) = put else { return Ok(stored) };
            if let Some(place) = self.stored(put.ticket).await? {
                self.look_after(place, due);
                return Ok(stored);
            }
        }
    }

    fn bring_once(&self, bringing: &Bringing) -> Result<(BroughtIn, Option<PutOf>), Failure> {
        let world = self.world();
        let id = self.the_squad(&world, bringing.squad.as_ref())?;
        let seat = world.room(&id).map_err(|error| self.failed(&error))?;
        let seat = seat.ok_or_else(|| Failure::Refused("there is no such squad".into()))?;
        let mut room = seat.enter();
        let mut members = room.squad.members.iter();
        let coach = members.find(|(_, member)| member.role == Role::Coach);
        let Some(coach) = coach.map(|(address, _)| address.clone()) else {
            return Err(Failure::Refused("the squad has no coach".into()));
        };
        let wall = self.now();
        let now = self.shown_as_of(room.squad.as_of, wall);
        let nobody = StrangersAsked::default();
        let asked = self.looking(&coach, now, wall, &nobody);
        let made = match bringing.list {
            List::Tests => {
                let Read { rows, faults } = import::read_tests(&bringing.text);
                or_faults(importing::tests(&room.squad, &asked, &rows), faults)
            }
            List::Members => {
                let Read { rows, faults } = import::read_members(&bringing.text);
                or_faults(importing::members(&room.squad, &asked, &rows), faults)
            }
        };
        let Brought { events, squad, touched, new, known } = match made {
            Ok(brought) => brought,
            Err(faults) => return Ok((BroughtIn::Faulty(faults), None)),
        };
        let stored = BroughtIn::Stored { new, known };
        if events.is_empty() {
            return Ok((stored, None));
        }
        let cause = room.squad.next_cause;
        let mut record = Record::unsaid(Some(id), cause, &coach, now);
        (record.events, record.received) = (events, wall);
        let put = self.append(&world, &record, None)?;
        let due = self.went_on(&mut room, squad, touched, &record, &put);
        Ok((stored, Some((put, due))))
    }
}

/// What was wrong in the text beside what is wrong in the squad, by line.
fn or_faults(
    made: Result<Brought, Vec<Fault>>,
    mut read: Vec<Fault>,
) -> Result<Brought, Vec<Fault>> {
    match made {
        Ok(brought) if read.is_empty() => Ok(brought),
        Ok(_) => Err(read),
        Err(more) => {
            read.extend(more);
            read.sort();
            Err(read)
        }
    }
}
