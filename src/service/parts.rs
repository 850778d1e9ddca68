//! The parts of the snapshot of all that is known apart from what is in squads:
//! one a person, one a squad's keys, one a recipient's letters, one a handle, one of
//! all alarms, one of those who were forgotten and want no texts.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};
use serde_json::to_vec;

use super::OpenError;
use super::alarms::{self, Alarms};
use super::directory::{Belonging, Keys};
use super::erasure::Erasing;
use super::handles::{self, Handle};
use super::mailbag::{self, Lane, part_name};
use super::room::from_part;
use super::world::{World, lock};
use crate::history::{SquadId, Stranger, Unnamed};
use crate::journal::Part;

const PERSON: &str = "person/";
const KEYS: &str = "squad/";
const SILENT: &str = "silent";
/// Who is being erased; in it as long as that goes on.
pub(super) const ERASING: &str = "erasing";

/// One address.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Person {
    address: String,
    #[serde(flatten)]
    belonging: Belonging,
    #[serde(flatten)]
    stranger: Stranger,
}

/// A part that changed, not yet written out.
pub(super) enum Changed {
    Person(Box<Person>),
    Keys(SquadId, Box<Keys>),
    Silent(BTreeSet<Unnamed>),
    Alarms(Box<Alarms>),
    /// A recipient's letters, under the name of their part; none where all are gone.
    Lane(String, Option<Box<Lane>>),
    /// The same of a handle.
    Handle(String, Option<Handle>),
}

/// What changed since the last call, as of this instant. No message may be
/// decided meanwhile.
pub(super) fn changed(world: &World) -> Vec<Changed> {
    let mut all = Vec::new();
    let mut people = world.directory_mut().changed_people();
    people.extend(std::mem::take(&mut *lock(&world.heard)));
    for address in people {
        let belonging = world.directory().belonging(&address);
        let stranger = world.strangers().of(&address);
        all.push(Changed::Person(Box::new(Person { address, belonging, stranger })));
    }
    let squads = world.directory_mut().changed_squads();
    all.extend(squads.into_iter().map(|(id, keys)| Changed::Keys(id, Box::new(keys))));
    let lanes = world.mailbag().changed();
    all.extend(lanes.into_iter().map(|(name, lane)| Changed::Lane(name, lane.map(Box::new))));
    all.push(Changed::Silent(world.strangers().silent.clone()));
    all.extend(world.alarms().changed().map(|alarms| Changed::Alarms(Box::new(alarms))));
    let handles = world.handles().changed();
    all.extend(handles.into_iter().map(|(name, handle)| Changed::Handle(name, handle)));
    all
}

impl Changed {
    /// Writes it out; what is gone leaves an empty part.
    ///
    /// # Errors
    /// It can't be written out.
    pub fn write(self) -> Result<Part, OpenError> {
        let nothing = || Ok(Vec::new());
        let (name, bytes) = match self {
            Changed::Person(person) => {
                let Person { address, belonging, stranger } = person.as_ref();
                let known = *belonging != Belonging::default() || *stranger != Stranger::default();
                let bytes = if known { to_vec(&person) } else { nothing() };
                (part_name(PERSON, address), bytes)
            }
            Changed::Keys(id, keys) => (format!("{KEYS}{}", id.0), to_vec(&keys)),
            Changed::Silent(silent) => {
                let bytes = if silent.is_empty() { nothing() } else { to_vec(&silent) };
                (SILENT.to_owned(), bytes)
            }
            Changed::Alarms(alarms) => (alarms::ALARMS.to_owned(), to_vec(&alarms)),
            Changed::Lane(name, lane) => (name, lane.map_or_else(nothing, |lane| to_vec(&lane))),
            Changed::Handle(name, handle) => {
                (name, handle.map_or_else(nothing, |handle| to_vec(&handle)))
            }
        };
        match bytes {
            Ok(bytes) => Ok(Part { name, bytes }),
            Err(error) => Err(OpenError::Snapshot { name, error }),
        }
    }
}

/// Marks all that is known as changed.
pub(super) fn touch_all(world: &World) {
    world.directory_mut().touch_all();
    let strangers = world.strangers();
    lock(&world.heard).extend(strangers.addresses().cloned());
    drop(strangers);
    world.mailbag().touch_all();
    world.alarms().touch_all();
    world.handles().touch_all();
}

/// What a part says.
enum Said {
    Person(Box<Person>),
    Keys(SquadId, Keys),
    Lane(Lane),
    Handle(Handle),
    Alarms(Alarms),
    Silent(BTreeSet<Unnamed>),
    Erasing,
}

/// Reads a part.
fn read(part: &Part) -> Result<Said, OpenError> {
    if part.name.starts_with(PERSON) {
        from_part(part).map(Said::Person)
    } else if let Some(id) = part.name.strip_prefix(KEYS) {
        Ok(Said::Keys(SquadId(id.to_owned()), from_part(part)?))
    } else if part.name.starts_with(mailbag::LANE) {
        from_part(part).map(Said::Lane)
    } else if part.name.starts_with(handles::HANDLE) {
        from_part(part).map(Said::Handle)
    } else if part.name == alarms::ALARMS {
        from_part(part).map(Said::Alarms)
    } else if part.name == SILENT {
        from_part(part).map(Said::Silent)
    } else {
        from_part::<Erasing>(part).map(|_| Said::Erasing)
    }
}

/// Whether a part can be read.
///
/// # Errors
/// It can't.
pub(super) fn is_one(part: &Part) -> Result<(), OpenError> {
    read(part).map(drop)
}

/// Takes back one part.
///
/// # Errors
/// It can't be read.
pub(super) fn restore(world: &World, part: &Part) -> Result<(), OpenError> {
    match read(part)? {
        Said::Person(person) => {
            let Person { address, belonging, stranger } = *person;
            world.directory_mut().restore_person(&address, belonging);
            world.strangers().take(&address, stranger);
        }
        Said::Keys(id, keys) => world.directory_mut().restore_squad(&id, keys),
        Said::Lane(lane) => world.mailbag().restore(lane),
        Said::Handle(handle) => world.handles().restore(handle),
        Said::Alarms(alarms) => *world.alarms() = alarms,
        Said::Silent(silent) => world.strangers().silent = silent,
        // Looked at by whoever erases.
        Said::Erasing => {}
    }
    Ok(())
}
