//! The frame round every page.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::style::STYLE;
use crate::language::Language;

/// Seconds until the page looks again (ours: a repeat of 50 is shorter, but
/// nobody reads a board twice in one).
const AGAIN_S: u8 = 30;

/// A whole page; `again` has it look again by itself.
pub fn whole(language: Language, title: &str, again: bool, body: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang=(language.code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                @if again { meta http-equiv="refresh" content=(AGAIN_S); }
                title { (title) }
                // Our own file, and the policy lets no other in.
                style { (PreEscaped(STYLE)) }
            }
            body { (body) }
        }
    }
}

/// A page of a heading and a sentence.
pub fn note(language: Language, heading: &str, sentence: &str, again: bool) -> Markup {
    let body = html! {
        main.note {
            h1 { (heading) }
            p { (sentence) }
        }
    };
    whole(language, heading, again, &body)
}
