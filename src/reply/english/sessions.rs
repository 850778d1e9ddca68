//! Sessions and weeks in whiteboard shorthand.

use super::{care, words};
use crate::coaching::{WeekKind, is_hard};
use crate::reply::shorthand::block_shorthand;
use crate::reply::{CautionReply, PlanReply, SessionReply};
use crate::session::{Block, Cue, Part, Session};

/// A session on its own.
pub fn session(reply: &SessionReply) -> Vec<String> {
    let mut lines = lines(&reply.session);
    if let Some(kind) = &reply.caution {
        // Before the blocks, so that it never waits behind `more`.
        let caution = care::caution(&CautionReply { kind: kind.clone(), about: None });
        lines.splice(1..1, caution);
    }
    lines
}

/// A session: one line of head, one a block.
pub fn lines(session: &Session) -> Vec<String> {
    let mut lines = vec![head(session)];
    lines.extend(session.blocks.iter().map(line));
    lines
}

/// A block's line, with the cue of its first repeat that has one.
fn line(block: &Block) -> String {
    let cue = block.repeats.iter().find_map(|repeat| repeat.cue.as_ref()).map(|cue| match cue {
        Cue::Drill(id) => words::cue(id),
        Cue::Coach(text) => text.clone(),
    });
    let cue = cue.map_or_else(String::new, |cue| format!(" - {cue}"));
    format!("{} {}{cue}", words::part(block.part), block_shorthand(block, &words::Whiteboard))
}

/// `Wed 4 Mar, 1100m in 43 min, holding pace:`
fn head(session: &Session) -> String {
    format!(
        "{}, {}{} in {} min, {}:",
        words::day(session.on),
        session.amount(),
        session.unit,
        session.duration_s().div_ceil(60),
        words::purpose(session.purpose)
    )
}

/// A week: its kind, then one line a session with the main set only, then the
/// sessions whole.
pub fn plan(reply: &PlanReply) -> Vec<String> {
    let kind = kind(reply.kind);
    let mut lines = vec![format!(
        "{kind} week from {}: {}, {}.",
        words::day(reply.starts),
        words::count(reply.sessions.len(), "session"),
        reply.distance
    )];
    if let Some(asked) = reply.asked {
        lines.push(format!(
            "You asked for {}; the rules give {} (text WHY).",
            self::kind(asked).to_lowercase(),
            kind.to_lowercase()
        ));
    }
    if reply.sessions.iter().any(is_hard) {
        lines.extend(care::caution(&CautionReply {
            kind: crate::reply::CautionKind::Effort,
            about: None,
        }));
    }
    for session in &reply.sessions {
        lines.push(outline(session));
    }
    for session in &reply.sessions {
        lines.extend(self::lines(session));
    }
    lines
}

/// `Wed 4 Mar 1100m: 2x(3x50 1:10 on 1:35, 50 easy on 2:15)`
fn outline(session: &Session) -> String {
    let main = session
        .blocks
        .iter()
        .filter(|block| matches!(block.part, Part::Main | Part::Test))
        .map(|block| block_shorthand(block, &words::Whiteboard))
        .collect::<Vec<_>>()
        .join(" + ");
    format!("{} {}{}: {main}", words::day(session.on), session.amount(), session.unit)
}

fn kind(kind: WeekKind) -> &'static str {
    match kind {
        WeekKind::Easy => "Easy",
        WeekKind::Normal => "Normal",
        WeekKind::Hard => "Hard",
        WeekKind::Taper => "Taper",
        WeekKind::Return => "Return",
    }
}
