//! The page: a head, what is looked at from the poolside, then the rest, folded.

use jiff::civil::{Date, Time};
use maud::{Markup, html};

use super::layout::Again;
use super::{
    files, focus, hurting, last_sets, last_tests, layout, poolside, register, set, sheet, todo,
    weeks,
};
use crate::desk::board::{Board, Left};
use crate::reply::{Label, Voice, voice};

/// What every part is laid out with.
#[derive(Clone, Copy)]
pub struct Page<'a> {
    /// The reader's language.
    pub voice: Voice,
    /// What is shown.
    pub board: &'a Board,
    /// What opened it: its own address ends so.
    pub token: &'a str,
    /// Lists are shown to their end.
    pub all: bool,
}

/// How many of a list are shown before it is asked for all (ours: more than a squad has
/// on an evening, and a page of a thousand swimmers stays one of these).
const MOST: usize = 60;

impl Page<'_> {
    pub fn label(&self, label: Label) -> &'static str {
        self.voice.label(label)
    }

    /// A part that is always open, with its heading.
    pub fn part(&self, id: &str, heading: &str, inside: &Markup) -> Markup {
        let named = format!("{id}-heading");
        html! {
            section class=(id) id=(id) aria-labelledby=(named) {
                h2 id=(named) { (heading) }
                (inside)
            }
        }
    }

    /// A part that is folded until it is asked for, with what needs doing in it.
    pub fn folded(&self, id: &str, heading: &str, due: Option<&Markup>, inside: &Markup) -> Markup {
        html! {
            details class=(id) id=(id) {
                summary {
                    h2 { (heading) }
                    @if let Some(due) = due { " " (due) }
                }
                (inside)
            }
        }
    }

    /// `Due: 3`, where there are any.
    pub fn due(&self, label: Label, number: usize) -> Markup {
        html! {
            @if number > 0 { strong.mark.due { (self.label(label)) ": " (number) } " " }
        }
    }

    /// The first of a list, or all where that is asked for.
    pub fn some<'l, T>(&self, list: &'l [T]) -> &'l [T] {
        let most = if self.all { list.len() } else { MOST.min(list.len()) };
        list.get(..most).unwrap_or(list)
    }

    /// A link to all of a list, where not all is shown.
    pub fn more(&self, number: usize) -> Markup {
        html! {
            @if !self.all && number > MOST {
                p { a.more href="?all" { (self.label(Label::All)) " " (number) } }
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

/// How a page is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// It looks again by itself.
    Live,
    /// It stands still.
    Still,
    /// With all of its lists; it looks again by itself where a script runs.
    Whole,
}

/// The whole page.
pub fn page(board: &Board, token: &str, shown: Shown) -> Markup {
    let still = shown == Shown::Still;
    let all = shown == Shown::Whole;
    let page = Page { voice: voice(board.language), board, token, all };
    let body = html! {
        // Our script puts a later one in its place.
        div.page id="page" data-ticks[board.ticks] {
            (head(page, still))
            main {
                (hurting::part(page))
                (poolside::part(page))
                (todo::part(page))
                (register::part(page))
                (set::part(page))
                (last_sets::part(page))
                (last_tests::part(page))
                (weeks::part(page))
                (focus::part(page))
                (files::part(page))
            }
        }
        (sheet::sheets(page))
    };
    let title = format!("{}: {}", page.label(Label::Board), board.squad);
    let again = if shown == Shown::Live { Again::Script } else { Again::Still };
    layout::whole(board.language, &title, again, &body)
}

fn head(page: Page<'_>, still: bool) -> Markup {
    let board = page.board;
    html! {
        header {
            h1 { (board.squad) }
            p.day { (page.voice.day(board.on)) }
            @if let Some(Left::Set(left) | Left::Booking(left)) = board.clock.left {
                p.left { b { (left) } " " span { (page.label(Label::MinutesLeft)) (until(page)) } }
            }
            p.hours { (poolside::hours(page)) }
            p.as-of {
                time datetime=(format!("{}T{}", board.today, to_second(board.at))) {
                    (page.voice.as_of(&to_minute(board.at)))
                }
            }
            (hold(page, still))
            p.old id="old" role="status" hidden {}
            @for raised in &board.unheard {
                p.unheard role="alert" { (to_minute(*raised)) " " (page.label(Label::Unheard)) }
            }
        }
    }
}

/// Until when the minutes that are left run, where that is not the booking's end, which
/// stands beside them.
fn until(page: Page<'_>) -> Markup {
    let clock = &page.board.clock;
    let ends = clock.lanes.iter().filter_map(|lane| lane.ends).max();
    html! {
        @if let (Some(Left::Set(_)), Some(ends)) = (clock.left, ends) {
            br; (page.label(Label::SetEnds)) " " b { (to_minute(ends)) }
        }
    }
}

/// Stops the page or lets it go on: a link without script, a button with.
fn hold(page: Page<'_>, still: bool) -> Markup {
    let label = |label| page.label(label);
    let (to, word) = if still { ("?", Label::GoOn) } else { ("?still", Label::Pause) };
    html! {
        a id="hold" href=(to) data-still[still] data-pause=(label(Label::Pause))
            data-on=(label(Label::GoOn)) data-old=(label(Label::Old)) data-lost=(label(Label::Lost)) {
            (label(word))
        }
    }
}
