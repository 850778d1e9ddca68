//! The conversation files: a line a message, `DATE TIME who: text`.
//!
//! `who` is a handle or `coach`, with `@room` where it is said in a group room;
//! `$CODE` in a text is the squad's join code; `#` begins a comment line; `\n`
//! in a text is a line break.

pub struct Script {
    pub lines: Vec<Line>,
}

pub struct Line {
    /// RFC 3339.
    pub at: String,
    pub who: String,
    /// The group room it is said in, if any.
    pub room: Option<String>,
    pub text: String,
}

impl Script {
    pub fn read(file: &str) -> Script {
        let lines = file
            .lines()
            .filter(|line| !line.trim().is_empty() && !line.starts_with('#'))
            .map(|line| {
                let (when, said) = line.split_at(16);
                let (who, text) = said.split_once(':').expect("who: text");
                let (who, room) = match who.trim().split_once('@') {
                    Some((who, room)) => (who, Some(room.to_owned())),
                    None => (who.trim(), None),
                };
                Line {
                    at: format!("{}:00Z", when.replace(' ', "T")),
                    who: who.to_owned(),
                    room,
                    text: text.strip_prefix(' ').unwrap_or(text).replace("\\n", "\n"),
                }
            })
            .collect();
        Script { lines }
    }
}
