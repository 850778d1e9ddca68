//! The page: a head, then the eight parts.

use jiff::civil::{Date, Time};
use maud::{Markup, html};

use super::{clock, focus, hurting, lanes, layout, paced, register, tested, weeks};
use crate::desk::board::Board;
use crate::reply::{Label, Voice, voice};

/// What every part is laid out with.
#[derive(Clone, Copy)]
pub struct Page<'a> {
    /// The reader's language.
    pub voice: &'static dyn Voice,
    /// What is shown.
    pub board: &'a Board,
}

impl Page<'_> {
    pub fn label(&self, label: Label) -> &'static str {
        self.voice.label(label)
    }

    /// A part with its number and heading.
    pub fn part(&self, number: u8, heading: &str, class: &str, inside: &Markup) -> Markup {
        let id = format!("part-{number}");
        html! {
            section class=(class) aria-labelledby=(id) {
                h2 id=(id) { span.number aria-hidden="true" { (number) } (heading) }
                (inside)
            }
        }
    }

    /// A day, where it isn't today.
    pub fn day(&self, day: Date) -> String {
        self.voice.short_day(day)
    }

    /// The heading of a part that is of a night.
    pub fn is_tonight(&self) -> bool {
        self.board.on == self.board.today || self.board.on.tomorrow().ok() == Some(self.board.today)
    }
}

/// `20:14`
pub fn to_minute(time: Time) -> String {
    time.strftime("%H:%M").to_string()
}

/// `20:14:45`
pub fn to_second(time: Time) -> String {
    time.strftime("%H:%M:%S").to_string()
}

/// The whole page.
pub fn page(board: &Board) -> Markup {
    let page = Page { voice: voice(board.language), board };
    let time = to_minute(board.at);
    let body = html! {
        header {
            h1 { (board.squad) }
            p.day { (page.voice.day(board.on)) }
            p.time {
                time datetime=(format!("{}T{}", board.today, to_second(board.at))) {
                    (page.voice.as_of(&time))
                }
            }
            @for raised in &board.unheard {
                p.unheard role="alert" { (to_minute(*raised)) " " (page.label(Label::Unheard)) }
            }
        }
        main {
            (hurting::part(page))
            (register::part(page))
            (lanes::part(page))
            (clock::part(page))
            (paced::part(page))
            (tested::part(page))
            (weeks::part(page))
            (focus::part(page))
        }
    };
    let title = format!("{}: {}", page.label(Label::Board), board.squad);
    layout::whole(board.language, &title, true, &body)
}
