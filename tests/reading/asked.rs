//! Questions in people's own words are answered from what is known, in both languages:
//! `asked.txt`.

use super::squad::{Context, Squads, say};

/// What a question that is passed on, or isn't known, is answered with.
const NOT_KNOWN: [&str; 3] = ["I don't know that", "Eso no lo s", "Hurt or unwell"];

/// What one that is the coach's alone is answered with.
const COACH: [&str; 2] = ["for the coach", "al entrenador"];

fn rows() -> Vec<(&'static str, &'static str, &'static str)> {
    let lines = include_str!("asked.txt").lines();
    let lines = lines.filter(|line| !line.starts_with('#') && !line.trim().is_empty());
    let row = |line: &'static str| {
        let columns: Vec<&str> = line.split('|').map(str::trim).collect();
        let [context, text, answer] = columns[..] else { panic!("three columns: {line}") };
        (context, text, answer)
    };
    lines.map(row).collect()
}

#[test]
fn questions_are_answered_from_what_is_known() {
    let mut squads = Squads::default();
    let mut wrong = Vec::new();
    for (context, text, holds) in rows() {
        let spanish = context.len() > 1 && context.ends_with('s') && !context.starts_with("T:");
        let at = Context::of(context.trim_end_matches('s'), spanish);
        let mut squad = squads.of(&at);
        let decision = say(&mut squad, at.sender(), text, at.at());
        let said = decision.said.iter().filter(|said| said.to.is_none());
        let reply: String = said.map(|said| said.text.as_str()).collect();
        let fits = match holds {
            "-" => {
                let asked = decision.understood.iter().any(|one| one["kind"] == "ask");
                NOT_KNOWN.iter().any(|one| reply.contains(one)) || !asked
            }
            "coach" => COACH.iter().any(|one| reply.contains(one)),
            holds => reply.contains(holds),
        };
        let stores = decision.understood.iter().any(|one| one["stores"] == true);
        if !fits || stores {
            wrong.push(format!("{context} {text}: {reply} | {holds}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
