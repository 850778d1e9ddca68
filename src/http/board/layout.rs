//! The frame round every page.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::policy::{SCRIPT, STYLE};
use crate::language::Language;

/// Seconds until a page without script looks again (ours: a repeat of 50 is
/// shorter, but nobody reads a board twice in one).
const AGAIN_S: u8 = 30;

/// What keeps a page up to date.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Again {
    /// Our script; the browser where no script runs.
    Script,
    /// Our script alone, once it is told to.
    Still,
    /// The browser.
    Browser,
    /// Nothing: it stays as it is.
    Never,
}

/// A whole page.
pub fn whole(language: Language, title: &str, again: Again, body: &Markup) -> Markup {
    let by_browser = html! { meta http-equiv="refresh" content=(AGAIN_S); };
    html! {
        (DOCTYPE)
        html lang=(language.code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                @match again {
                    Again::Browser => (by_browser),
                    Again::Script => noscript { (by_browser) },
                    Again::Still | Again::Never => {},
                }
                title { (title) }
                // Our own files, and the policy lets no others in.
                style { (PreEscaped(STYLE)) }
            }
            body {
                (body)
                @if matches!(again, Again::Script | Again::Still) { script { (PreEscaped(SCRIPT)) } }
            }
        }
    }
}

/// A page of a heading and a sentence.
pub fn note(language: Language, heading: &str, sentence: &str, again: Again) -> Markup {
    let body = html! {
        main.note {
            h1 { (heading) }
            p { (sentence) }
        }
    };
    whole(language, heading, again, &body)
}
