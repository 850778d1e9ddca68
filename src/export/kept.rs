//! Everything as JSON Lines: one object a line, each with its `kind`.

use jiff::Timestamp;
use serde::Serialize;
use serde_json::{Value, json};

use super::file::{NotWritten, Whose};
use super::rows;
use crate::history::{Squad, Swimmer, TroubleKind};

/// A line for the squad where it is the squad's, then each swimmer's.
pub fn lines(
    squad: &Squad,
    swimmers: &[&Swimmer],
    whose: &Whose,
    now: Timestamp,
) -> Result<String, NotWritten> {
    let mut lines = Lines(String::new());
    if *whose == Whose::Squad {
        lines.put(&json!({
            "kind": "squad", "squad": squad.name, "course": squad.course.name(),
        }))?;
    }
    for swimmer in swimmers {
        lines.swimmer(swimmer, now)?;
        if *whose != Whose::Squad {
            lines.own(swimmer, now)?;
        }
    }
    Ok(lines.0)
}

struct Lines(String);

impl Lines {
    fn put(&mut self, line: &Value) -> Result<(), NotWritten> {
        self.0.push_str(&serde_json::to_string(line)?);
        self.0.push('\n');
        Ok(())
    }

    fn rows<R: Serialize>(
        &mut self,
        kind: &str,
        rows: impl IntoIterator<Item = R>,
    ) -> Result<(), NotWritten> {
        for row in rows {
            let mut line = serde_json::to_value(row)?;
            if let Some(fields) = line.as_object_mut() {
                fields.retain(|_, value| !value.is_null());
                fields.insert("kind".to_owned(), kind.into());
            }
            self.put(&line)?;
        }
        Ok(())
    }

    /// What the coach may see of anybody.
    fn swimmer(&mut self, swimmer: &Swimmer, now: Timestamp) -> Result<(), NotWritten> {
        let name = swimmer.name.as_str();
        self.put(&json!({
            "kind": "swimmer", "swimmer": name, "joined_on": swimmer.joined_on,
            "guest": swimmer.guest.is_some(),
        }))?;
        self.rows("test", rows::tests(swimmer, now))?;
        self.rows("set", rows::sets(swimmer, now))?;
        self.rows("session", rows::sessions(swimmer, now))?;
        self.rows("attendance", rows::attendance(swimmer, now))?;
        if let Some(race) = swimmer.race.at(now) {
            self.put(&json!({
                "kind": "race", "swimmer": name, "on": race.on,
                "distance": race.distance.amount(), "unit": race.distance.unit().name(),
                "stroke": race.stroke.name(), "goal_s": race.goal.map(|goal| goal.seconds()),
            }))?;
        }
        if let Some(focus) = swimmer.focus_at(now) {
            self.put(&json!({ "kind": "focus", "swimmer": name, "text": focus }))?;
        }
        Ok(())
    }

    /// What is theirs alone beside that: what they said of themselves, and of their
    /// health what has words.
    fn own(&mut self, swimmer: &Swimmer, now: Timestamp) -> Result<(), NotWritten> {
        let name = swimmer.name.as_str();
        self.put(&json!({
            "kind": "profile", "swimmer": name, "born": swimmer.born.at(now),
            "course": swimmer.course.at(now).map(|course| course.name()),
            "sessions": swimmer.sessions.at(now), "minutes": swimmer.minutes.at(now),
            "contact": swimmer.contact.at(now),
        }))?;
        for kept in swimmer.away.as_of(now) {
            self.put(&json!({
                "kind": "away", "swimmer": name, "on": kept.on, "until": kept.what,
            }))?;
        }
        for kept in swimmer.troubles.as_of(now) {
            let over = kept.what.closed.map(|(_, closed)| closed).filter(|closed| *closed <= now);
            let mut line = trouble(&kept.what.kind);
            if let Some(fields) = line.as_object_mut() {
                fields.insert("swimmer".to_owned(), name.into());
                fields.insert("on".to_owned(), json!(kept.on));
                fields.insert("over_at".to_owned(), json!(over));
            }
            self.put(&line)?;
        }
        Ok(())
    }
}

/// By the contract's kinds; `hold` for what keeps somebody to easy swimming.
fn trouble(kind: &TroubleKind) -> Value {
    match kind {
        TroubleKind::Pain { place, level } => {
            json!({ "kind": "pain", "where": place, "level": level })
        }
        TroubleKind::Ill { fever, .. } => json!({ "kind": "ill", "fever": fever }),
        TroubleKind::Faint => json!({ "kind": "faint" }),
        TroubleKind::Held | TroubleKind::Eased => json!({ "kind": "hold" }),
    }
}
