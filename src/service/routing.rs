//! Which squad a text goes to. It decides nothing else.

use jiff::{Timestamp, ToSpan};

use super::world::{OpenError, World};
use crate::desk;
use crate::history::{SquadId, Waiting};
use crate::message;

/// How long a text waits for its squad's name; as long as any question.
const WAITS_HOURS: i64 = 24;

/// Where a text goes.
pub(super) enum Route {
    /// To a squad.
    Squad {
        /// Which.
        id: SquadId,
        /// What is left of the text, where it named the squad.
        named: Option<String>,
    },
    /// To whichever of these squads its sender will name.
    Which {
        /// Their names.
        names: Vec<String>,
        /// What waits.
        waiting: Waiting,
    },
    /// To none: the sender is in no squad.
    None,
}

impl World {
    /// Where a text goes, sent now from this address.
    ///
    /// # Errors
    /// A squad that it may speak of can't be loaded.
    pub fn route(
        &self,
        from: &str,
        text: Option<&str>,
        wall: Timestamp,
    ) -> Result<Route, OpenError> {
        let to = |id: SquadId| Route::Squad { id, named: None };
        let said = text.unwrap_or_default();
        if let Some(id) = desk::opening_code(said).and_then(|code| self.squad_by_code(&code)) {
            return Ok(to(id));
        }
        let squads = self.squads_of(from);
        if squads.is_empty() && message::is_worried(said) {
            return Ok(self.directory().hearing(from).cloned().map_or(Route::None, to));
        }
        if squads.is_empty() {
            let asked_in = || self.inviting(from).filter(|_| desk::is_answer(said));
            return Ok(asked_in().map_or(Route::None, to));
        }
        let several = squads.len() > 1;
        if let Some((id, rest)) = several.then(|| self.named(&squads, said)).flatten() {
            let rest = match rest {
                "" => self.waiting(from, wall).unwrap_or_default(),
                rest => rest.to_owned(),
            };
            return Ok(Route::Squad { id, named: Some(rest) });
        }
        if let Some(id) = self.in_hand(from) {
            return Ok(to(id));
        }
        // What can't wait goes to the squad that it speaks of, or to one of them.
        if text.is_none() || desk::is_urgent(said) {
            let mut meant = squads.first();
            for id in &squads {
                if self.speaks_of(id, said)? {
                    meant = Some(id);
                    break;
                }
            }
            return Ok(meant.cloned().map_or(Route::None, to));
        }
        let until = wall.checked_add(WAITS_HOURS.hours()).unwrap_or(Timestamp::MAX);
        let waiting = Waiting { text: said.to_owned(), until };
        Ok(Route::Which { names: self.names(&squads), waiting })
    }

    /// The names of squads.
    pub fn names(&self, squads: &[SquadId]) -> Vec<String> {
        squads.iter().filter_map(|id| self.name(id)).collect()
    }

    fn name(&self, id: &SquadId) -> Option<String> {
        self.directory().name(id).map(str::to_owned)
    }

    /// The squad whose name a text begins with, and the rest of the text: its
    /// whole name, or the first word of it where no other's begins so.
    fn named<'t>(&self, squads: &[SquadId], text: &'t str) -> Option<(SquadId, &'t str)> {
        let text = text.trim();
        let names: Vec<(&SquadId, String)> =
            squads.iter().filter_map(|id| Some((id, self.name(id)?))).collect();
        let whole = names
            .iter()
            .filter_map(|(id, name)| Some((*id, name.len(), behind(text, name)?)))
            .max_by_key(|(_, length, _)| *length);
        if let Some((id, _, rest)) = whole {
            return Some((id.clone(), rest));
        }
        let mut begun = names
            .iter()
            .filter_map(|(id, name)| Some((*id, behind(text, name.split_whitespace().next()?)?)));
        match (begun.next(), begun.next()) {
            (Some((id, rest)), None) => Some((id.clone(), rest)),
            _ => None,
        }
    }

    fn waiting(&self, from: &str, wall: Timestamp) -> Option<String> {
        let strangers = self.strangers();
        let waiting = strangers.waiting.get(from)?;
        (waiting.until > wall).then(|| waiting.text.clone())
    }

    /// True if a text names one of a squad's swimmers.
    fn speaks_of(&self, id: &SquadId, text: &str) -> Result<bool, OpenError> {
        let Some(seat) = self.room(id)? else { return Ok(false) };
        let room = seat.enter();
        Ok(message::names_in(text).any(|name| room.squad.swimmers.contains_key(&name)))
    }
}

/// What stands behind a name at the start of a text, in any case.
fn behind<'t>(text: &'t str, name: &str) -> Option<&'t str> {
    let start = text.get(..name.len()).filter(|start| start.to_lowercase() == name.to_lowercase());
    let rest = &text[start?.len()..];
    let ends = rest.chars().next().is_none_or(|c| c.is_whitespace() || matches!(c, ':' | ','));
    ends.then(|| rest.trim_start_matches([':', ',', ' ']))
}

#[cfg(test)]
mod tests {
    use super::behind;

    #[test]
    fn a_name_is_a_whole_word_at_the_start() {
        assert_eq!(behind("Dusk squad", "dusk"), Some("squad"));
        assert_eq!(behind("dusk: plan tue", "Dusk"), Some("plan tue"));
        assert_eq!(behind("dusk", "Dusk"), Some(""));
        assert_eq!(behind("dusky 200", "Dusk"), None);
        assert_eq!(behind("squad dusk", "Dusk"), None);
    }
}
