//! Sessions and weeks in whiteboard shorthand.

use super::Care;
use crate::coaching::{self, Promise, WeekKind, is_hard};
use crate::reply::shorthand::{block_shorthand, repeat_shorthand, shown};
use crate::reply::{CautionKind, News, PlanReply, SessionReply};
use crate::session::{Block, Cue, Part, Repeat, Session};
use crate::units::SendOff;

/// What a language says of sessions and weeks.
pub trait Sessions: Care {
    /// A session's first line: the day, the distance, the minutes, the purpose.
    fn head(&self, day: &str, distance: &str, minutes: u32, title: &str) -> String;
    /// `L2`
    fn lane(&self, lane: u8) -> String;
    /// A week's first line.
    fn week(&self, kind: WeekKind, starts: &str, sessions: usize, distance: &str) -> String;
    /// When to change a set while it is swum: two running slower than `over`,
    /// then the longer send-off, or the rest of the round left out.
    fn stop_rule(&self, over: &str, then: Option<SendOff>) -> String;
    /// It falls on a squad night: what comes first there.
    fn for_alone(&self) -> &'static str;
    /// Harder sessions come after the coach's yes.
    fn harder_sessions_after_yes(&self) -> &'static str;
    /// Another session than was told for `day`, and why.
    fn another_than_told(&self, day: &str, news: News) -> String;
    /// The set promised for the next hard swim has no room in this one.
    fn set_waits(&self, set: &str) -> String;
    /// Nor has the test that was promised.
    fn test_is_promised(&self) -> &'static str;
    /// The rules gave another kind of week than was asked for.
    fn other_week(&self, asked: WeekKind, given: WeekKind) -> String;

    /// That what was promised waits.
    fn waits(&self, promise: &Promise) -> Option<String> {
        match promise {
            Promise::Easy => None,
            Promise::Set { set } => Some(self.set_waits(&repeat_shorthand(set, self))),
            Promise::Test => Some(self.test_is_promised().to_owned()),
        }
    }

    /// A session on its own.
    fn session(&self, reply: &SessionReply) -> Vec<String> {
        let mut lines = self.session_lines(&reply.session);
        if let (Some(lane), Some(head)) = (reply.lane, lines.first_mut()) {
            head.insert_str(0, &format!("{}, ", self.lane(lane)));
        }
        if reply.on_squad_night {
            lines.insert(1, self.for_alone().to_owned());
        }
        if reply.after_yes {
            lines.insert(1, self.harder_sessions_after_yes().to_owned());
        }
        if let Some(promise) = &reply.waits {
            lines.splice(1..1, self.waits(promise));
        }
        if let Some((day, news)) = reply.changed {
            lines.insert(0, self.another_than_told(&self.day(day), news));
        }
        if let Some(kind) = &reply.caution {
            // Before the blocks, so that it never waits behind `more`.
            lines.splice(1..1, self.caution_with(kind.clone()));
        }
        lines
    }

    /// A session: one line of head, one a block, then what to think of.
    fn session_lines(&self, session: &Session) -> Vec<String> {
        let mut lines = vec![self.head(
            &self.day(session.on),
            &distance(session),
            session.duration_s().div_ceil(60),
            self.title(session.purpose),
        )];
        for block in &session.blocks {
            lines.push(self.block_line(block));
            let rule = block.repeats.iter().find_map(coaching::stop_rule);
            lines.extend(rule.map(|rule| self.stop_rule(&shown(rule.over), rule.then)));
        }
        // Behind the whiteboard, so that the main set is read first.
        let repeats = session.blocks.iter().flat_map(|block| &block.repeats);
        lines.extend(repeats.filter_map(|repeat| self.cue_line(repeat)));
        lines
    }

    /// `Main 6x50 48 on 1:15`
    fn block_line(&self, block: &Block) -> String {
        format!("{} {}", self.part(block.part), block_shorthand(block, self))
    }

    /// `4x25 fins: kick on your side, lower arm long`
    fn cue_line(&self, repeat: &Repeat) -> Option<String> {
        let cue = match repeat.cue.as_ref()? {
            Cue::Drill(id) => self.cue(id),
            Cue::Coach(text) => text.clone(),
        };
        let kit = repeat.equipment.iter().map(|kit| format!(" {}", self.equipment(*kit)));
        let what = format!("{}x{}", repeat.count, repeat.distance.amount());
        Some(format!("{what}{}: {cue}", kit.collect::<String>()))
    }

    /// A week: its kind, then one line a session with the main set only, then
    /// the sessions whole.
    fn plan(&self, reply: &PlanReply) -> Vec<String> {
        let starts = self.day(reply.starts);
        let sessions = reply.sessions.len();
        let mut lines = vec![self.week(reply.kind, &starts, sessions, &reply.distance.to_string())];
        if let Some(asked) = reply.asked {
            lines.push(self.other_week(asked, reply.kind));
        }
        lines.extend(reply.waits.as_ref().and_then(|promise| self.waits(promise)));
        for (day, news) in &reply.changed {
            lines.push(self.another_than_told(&self.day(*day), *news));
        }
        if reply.sessions.iter().any(is_hard) {
            lines.extend(self.caution_with(CautionKind::Effort));
        }
        lines.extend(reply.sessions.iter().map(|session| self.outline(session)));
        lines.extend(reply.sessions.iter().flat_map(|session| self.session_lines(session)));
        lines
    }

    /// `Wed 4 Mar 1100m: 2x(3x50 1:10 on 1:35, 50 easy on 2:15)`
    fn outline(&self, session: &Session) -> String {
        let main = session
            .blocks
            .iter()
            .filter(|block| matches!(block.part, Part::Main | Part::Test))
            .map(|block| block_shorthand(block, self))
            .collect::<Vec<_>>()
            .join(" + ");
        format!("{} {}: {main}", self.day(session.on), distance(session))
    }
}

fn distance(session: &Session) -> String {
    format!("{}{}", session.amount(), session.unit)
}
