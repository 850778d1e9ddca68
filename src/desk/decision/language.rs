//! Which language the sender is answered in.

use super::view::View;
use crate::language::Language;
use crate::message::Name;
use crate::reading;
use crate::reply::{self, Voice};

impl View<'_> {
    /// The sender's language: as chosen, else that of the text.
    pub fn language(&self) -> Language {
        self.chosen_language()
            .unwrap_or_else(|| *self.text_language.get_or_init(|| self.text_language()))
    }

    /// The language that the sender has chosen; a guardian who hasn't is answered in
    /// their ward's.
    pub fn chosen_language(&self) -> Option<Language> {
        let member = self.member();
        let of_me = || {
            let me = self.me().or_else(|| member?.names().next())?;
            self.swimmer(me)?.language.at(self.now()).copied()
        };
        let own = || member?.language.at(self.now()).copied();
        match member.is_some_and(|member| member.name.is_some()) {
            true => of_me().or_else(own),
            false => own().or_else(of_me),
        }
    }

    fn text_language(&self) -> Language {
        let is_name =
            |word: &str| Name::new(word).is_ok_and(|name| self.squad.swimmers.contains_key(&name));
        reading::language_of(self.typed.lexed(), Language::default(), is_name)
    }

    /// The words for whoever texts from an address, in English where no language is
    /// known of them.
    pub fn voice_for(&self, address: &str) -> Voice {
        reply::voice(self.squad.language_of(address, self.now()).unwrap_or_default())
    }

    /// The language's words.
    pub fn voice(&self) -> Voice {
        reply::voice(self.language())
    }
}
