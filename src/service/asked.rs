//! What somebody has been asked, for channels that hear more than is said to us.

use super::Service;
use crate::message::Kind;

impl Service {
    /// True if this person has been asked whether there is any danger, and has
    /// not answered: then a bare word is for us, whoever else is in the room.
    pub fn is_asked_of_danger(&self, address: &str) -> bool {
        let world = self.world();
        let now = self.now();
        let seats = world.squads_of(address);
        // One that can't be loaded has asked nothing that could be answered.
        seats.iter().filter_map(|id| world.room(id).ok().flatten()).any(|seat| {
            let room = seat.enter();
            let question = room.squad.members.get(address).and_then(|one| one.question.as_ref());
            question.filter(|question| question.until > now).is_some_and(|question| {
                let statements =
                    question.choices.iter().flat_map(|choice| &choice.message.statements);
                statements.into_iter().any(|statement| statement.kind == Kind::Faint)
            })
        })
    }
}
