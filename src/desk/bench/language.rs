//! Which language the sender is answered in.

use super::desk::Desk;
use crate::language::Language;
use crate::message::Name;
use crate::reading;
use crate::reply::{self, Voice};

impl Desk<'_> {
    /// The sender's language: as chosen, else that of the text.
    pub fn language(&self) -> Language {
        self.chosen_language().unwrap_or_else(|| *self.tongue.get_or_init(|| self.text_language()))
    }

    /// The language that the sender has chosen.
    pub fn chosen_language(&self) -> Option<Language> {
        let me = self.all_of_me();
        let swimmer = self.swimmer(me.first()?)?;
        swimmer.language.at(self.now()).copied()
    }

    fn text_language(&self) -> Language {
        let is_name =
            |word: &str| Name::new(word).is_ok_and(|name| self.squad.swimmers.contains_key(&name));
        reading::language_of(self.typed.lexed(), Language::default(), is_name)
    }

    /// The language's words.
    pub fn voice(&self) -> Voice {
        reply::voice(self.language())
    }
}
