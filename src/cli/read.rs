//! `lapwing read`: how a text is read.

use super::arguments::ReadText;
use super::asking::asked_of;
use super::console::{FAINT, Harmless, print, print_json, styled};
use super::run::Outcome;
use super::settings::Settings;
use crate::message::Name;
use crate::reading::situation::Known;
use crate::reading::{Situation, trace};
use crate::service::{Showing, Shown};

/// Shows it: of a text that anybody may have sent, or of a member's with all that is
/// known when they text. Nothing is stored.
pub async fn run(settings: &Settings, asked: ReadText) -> Outcome {
    let text = asked.text.join(" ");
    let Some(from) = asked.from else {
        let trace = trace(&text, &somebodys());
        match asked.listing.json {
            true => print_json(&trace)?,
            false => print(Harmless(&trace.to_string()))?,
        }
        return Ok(());
    };
    let showing = Showing { squad: asked.which.squad, from, text };
    let shown = asked_of(settings, async |access| access.shown(&showing).await).await?;
    match asked.listing.json {
        true => print_json(&shown)?,
        false => print_shown(&shown)?,
    }
    Ok(())
}

/// Prints how a member's text is read, and what would be answered.
pub fn print_shown(shown: &Shown) -> std::io::Result<()> {
    print(Harmless(&shown.trace.to_string()))?;
    for reply in &shown.reply {
        for (at, line) in reply.lines().enumerate() {
            let title = if at == 0 { "answer" } else { "" };
            print(format_args!("{title:10} {}", Harmless(line)))?;
        }
    }
    if shown.letters > 0 {
        print(format_args!("           and to others, texts: {}", shown.letters))?;
    }
    Ok(())
}

/// The reading alone, beside a conversation.
pub fn print_beside(shown: &Shown) -> std::io::Result<()> {
    print(styled(FAINT, Harmless(&shown.trace.to_string())))
}

/// The situation of a swimmer, heron, of whom nothing is known, at noon of a day
/// without a squad night.
fn somebodys() -> Situation {
    let people: Vec<Known> =
        Name::new("heron").into_iter().map(|name| Known { name, bests: vec![] }).collect();
    Situation { me: Some(0), people, ..Situation::default() }
}
