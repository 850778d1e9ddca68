//! Names on the page, and the marks behind them.

use maud::{Markup, html};

use super::page::Page;
use crate::desk::board::{Adult, Person};
use crate::reply::Label;

impl Page<'_> {
    /// Their handle, what kind of swimmer they are, and who answers for a minor.
    pub fn person(&self, who: &Person) -> Markup {
        html! {
            (self.named(who))
            @if who.guest { " " span.mark { (self.label(Label::Guest)) } }
            @if let Some(adult) = &who.minor { " " span.mark.minor { (self.adult(adult)) } }
        }
    }

    /// Their handle, which leads to how it is going for them.
    pub fn named(&self, who: &Person) -> Markup {
        html! { a.name href=(format!("{}/swimmer/{}", self.token, who.name)) { (who.name) } }
    }

    /// The same in as little room as there is.
    pub fn briefly(&self, who: &Person) -> Markup {
        html! {
            (self.named(who))
            @if who.guest { " " span.mark { (self.label(Label::Guest)) } }
            @if who.minor.is_some() { " " span.mark.minor { (self.label(Label::Minor)) } }
        }
    }

    fn adult(&self, adult: &Adult) -> String {
        match adult {
            Adult::Named(name) => self.voice.minor(Some(name.as_str())),
            Adult::Unnamed => self.voice.minor(None),
            Adult::Nobody => self.voice.minor_alone().to_owned(),
        }
    }
}
