//! Files to take along: of the squad that a page's token opens, or of whichever the
//! folder's owner asks for.

use serde::{Deserialize, Serialize};

use super::world::World;
use super::{Failure, Service};
use crate::desk::board::{self, BoardDoor};
use crate::export::{File, Whose, written};
use crate::history::{SquadId, StrangersAsked};
use crate::message::Name;

/// A file that whoever owns the folder asks for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Taking {
    /// Of which squad; where there is but one, of that.
    pub squad: Option<SquadId>,
    /// Of which of its swimmers; of all without.
    pub swimmer: Option<Name>,
    /// The file, by its name.
    pub file: String,
}

impl Service {
    /// A file of the squad or the swimmer whose page a token opens, as of now; `None`
    /// for a token that opens none, that is shut, or whose owner may no longer see
    /// it.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be read now.
    pub fn taken_by_board(&self, token: &str, file: File) -> Result<Option<String>, Failure> {
        let digest = BoardDoor::digest(token);
        self.by_door(&digest, |_, squad, now, wall| {
            let Some(open) = squad.board_open(&digest, wall) else { return Ok(None) };
            let nobody = StrangersAsked::default();
            let asked = self.looking(&open.address, now, wall, &nobody);
            let Some(whose) = board::whose(squad, &asked, open) else { return Ok(None) };
            let text = written(squad, &whose, file, now);
            text.map(Some).map_err(|error| self.failed(&error))
        })
    }

    /// A file for whoever owns the folder.
    ///
    /// # Errors
    /// [`Failure::Refused`] for a file, a squad or a swimmer that there is not, and
    /// where it is not said which of several squads.
    pub fn taken(&self, taking: &Taking) -> Result<String, Failure> {
        let refused = |why: String| Failure::Refused(why);
        let file: File = taking.file.parse().map_err(|none| refused(format!("{none}")))?;
        let world = self.world();
        let id = self.the_squad(&world, taking.squad.as_ref())?;
        let seat = world.room(&id).map_err(|error| self.failed(&error))?;
        let seat = seat.ok_or_else(|| refused(format!("there is no squad `{}`", id.0)))?;
        let room = seat.enter();
        let whose = match &taking.swimmer {
            None => Whose::Squad,
            Some(name) if room.squad.swimmers.contains_key(name) => Whose::One(name.clone()),
            Some(name) => return Err(refused(format!("nobody of the squad is called `{name}`"))),
        };
        let now = self.shown_as_of(room.squad.as_of, self.now());
        written(&room.squad, &whose, file, now).map_err(|error| self.failed(&error))
    }

    /// The squad that whoever owns the folder means, by its id or its name.
    ///
    /// # Errors
    /// [`Failure::Refused`] for one that there is not, and where it is not said which
    /// of several.
    pub(super) fn the_squad(
        &self,
        world: &World,
        asked: Option<&SquadId>,
    ) -> Result<SquadId, Failure> {
        let directory = world.directory();
        let ids = directory.ids();
        let why = match (asked, ids.as_slice()) {
            (Some(id), ids) if ids.contains(id) => return Ok(id.clone()),
            (Some(SquadId(word)), ids) => match directory.named(word, ids).as_slice() {
                [] => format!("there is no squad `{word}`"),
                [only] => return Ok((*only).clone()),
                _ => format!("several squads are called `{word}`: name one by its id"),
            },
            (None, [only]) => return Ok(only.clone()),
            (None, []) => "there is no squad yet".to_owned(),
            (None, several) => {
                let told: Vec<&str> = several.iter().map(|id| id.0.as_str()).collect();
                format!("say which squad: {}", told.join(", "))
            }
        };
        Err(Failure::Refused(why))
    }

    /// The same, also for one that is closed, by its id.
    pub(super) fn the_squad_even_closed(
        &self,
        world: &World,
        asked: &SquadId,
    ) -> Result<SquadId, Failure> {
        if world.directory().holds(asked) {
            return Ok(asked.clone());
        }
        self.the_squad(world, Some(asked))
    }
}
