//! The squad and its swimmers at a glance.

use super::words;
use crate::reply::{Flag, SquadReply, SquadRow, SwimmerReply, Trend};
use crate::units::{Centis, Pace, Unit};

/// The squad: a head, then a line a swimmer.
pub fn squad(reply: &SquadReply) -> Vec<String> {
    let flagged = |flag| reply.swimmers.iter().filter(|row| row.flags.contains(&flag)).count();
    let mut head = format!("{}: {}", reply.squad, words::count(reply.swimmers.len(), "swimmer"));
    for (flag, word) in
        [(Flag::Hurt, "hurt"), (Flag::Overdue, "overdue"), (Flag::Silent, "not heard from")]
    {
        match flagged(flag) {
            0 => {}
            number => head.push_str(&format!(", {number} {word}")),
        }
    }
    let mut lines = vec![format!("{head}.")];
    lines.extend(reply.swimmers.iter().map(row));
    lines
}

/// `heron 200 free 3:12 (2 Mar) faster; hurt`
fn row(row: &SquadRow) -> String {
    let mut line = match &row.last_test {
        Some(trial) => {
            format!("{} {} ({})", row.swimmer, words::trial(trial), words::short_day(trial.on))
        }
        None => format!("{} no test yet", row.swimmer),
    };
    match row.trend {
        Trend::Up => line.push_str(" faster"),
        Trend::Down => line.push_str(" slower"),
        Trend::Flat => line.push_str(" level"),
        Trend::Unknown => {}
    }
    let flags: Vec<&str> = row
        .flags
        .iter()
        .map(|flag| match flag {
            Flag::Overdue => "test due",
            Flag::Hurt => "HURT",
            Flag::Silent => "not heard from",
        })
        .collect();
    if !flags.is_empty() {
        line.push_str("; ");
        line.push_str(&flags.join(", "));
    }
    line
}

/// One swimmer.
pub fn swimmer(reply: &SwimmerReply) -> Vec<String> {
    let mut lines = vec![row(&reply.row)];
    if let Some(pace) =
        reply.row.critical_per_100_s.and_then(|per_100| Pace::new(per_100, Unit::Metre).ok())
    {
        lines.push(format!("Critical pace about {} per 100.", shown_pace(pace)));
    }
    if !reply.bests.is_empty() {
        let bests: Vec<String> = reply
            .bests
            .iter()
            .map(|trial| format!("{} ({})", words::trial(trial), trial.course))
            .collect();
        lines.push(format!("Bests: {}.", bests.join(", ")));
    }
    if reply.latest.len() > 1 {
        let latest: Vec<String> = reply
            .latest
            .iter()
            .map(|trial| format!("{} {}", words::short_day(trial.on), words::trial(trial)))
            .collect();
        lines.push(format!("Latest: {}.", latest.join(", ")));
    }
    if let Some(focus) = &reply.focus {
        lines.push(format!("Focus: {focus}"));
    }
    lines
}

/// A pace to the second, as it is meant to be read: `1:49`.
pub fn shown_pace(pace: Pace) -> String {
    pace.per_100().map_or_else(|| "?".to_owned(), |time: Centis| time.to_second().short())
}

/// A pace to the tenth.
pub fn shown_pace_exact(pace: Pace) -> String {
    pace.to_string()
}
