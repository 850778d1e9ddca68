//! Sessions and weeks in whiteboard shorthand.

use super::Care;
use crate::coaching::{self, Promise, WeekKind, is_hard};
use crate::reply::shorthand::{block_shorthand, repeat_shorthand, shown};
use crate::reply::{CautionKind, News, PlanReply, SessionReply};
use crate::session::{Block, Cue, Part, Purpose, Repeat, Session};
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
    /// Before what is swum before the main set.
    fn before_it(&self) -> &'static str;
    /// Somebody is ill: the session is for when that is over.
    fn only_if_well(&self) -> &'static str;
    /// No swim was told since a day, though there were some to swim.
    fn unheard_since(&self, day: &str) -> String;
    /// Between the warm-up for a race and the swim-down comes the race.
    fn then_the_race(&self) -> &'static str;
    /// How a test is swum, and what to text of it.
    fn how_to_test(&self, distance: u32) -> String;
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
        // What is not urgent comes behind the main set; open water is no place to learn
        // it later.
        let caution = reply.caution.clone().map(|kind| self.caution_with(kind));
        let (first, behind) = match reply.caution {
            Some(CautionKind::Effort) => (None, caution),
            _ => (caution, None),
        };
        let mut lines = self.session_lines(&reply.session, behind.unwrap_or_default());
        if let (Some(lane), Some(head)) = (reply.lane, lines.first_mut()) {
            head.insert_str(0, &format!("{}, ", self.lane(lane)));
        }
        if reply.on_squad_night {
            lines.insert(1, self.for_alone().to_owned());
        }
        if reply.after_yes {
            lines.insert(1, self.harder_sessions_after_yes().to_owned());
        }
        if reply.if_well {
            lines.insert(1, self.only_if_well().to_owned());
        }
        if let Some(last) = reply.unheard {
            lines.insert(1, self.unheard_since(&self.day(last)));
        }
        if let Some(promise) = &reply.waits {
            lines.splice(1..1, self.waits(promise));
        }
        if let Some((day, news)) = reply.changed {
            lines.insert(0, self.another_than_told(&self.day(day), news));
        }
        lines.splice(1..1, first.unwrap_or_default());
        lines
    }

    /// A session, first things first: its head; the main set with its stop rule, to the
    /// swim-down; what is to be heeded; what is swum before; what to think of.
    fn session_lines(&self, session: &Session, heed: Vec<String>) -> Vec<String> {
        let mut lines = vec![self.head(
            &self.day(session.on),
            &distance(session),
            session.duration_s().div_ceil(60),
            self.title(session.purpose),
        )];
        let is_main = |block: &Block| matches!(block.part, Part::Main | Part::Test);
        let main_from = session.blocks.iter().position(is_main).unwrap_or(0);
        let (before, from_main) = session.blocks.split_at(main_from);
        for block in from_main {
            lines.push(self.block_line(block));
            let test = block.repeats.first().filter(|_| block.part == Part::Test);
            lines.extend(test.map(|test| self.how_to_test(test.distance.amount())));
            let rule = block.repeats.iter().find_map(coaching::stop_rule);
            lines.extend(rule.map(|rule| self.stop_rule(&shown(rule.over), rule.then)));
        }
        lines.extend((session.purpose == Purpose::Race).then(|| self.then_the_race().to_owned()));
        lines.extend(heed);
        let mut first = before.iter().map(|block| self.with_its_cue(block)).collect::<Vec<_>>();
        if let Some(warm_up) = first.first_mut() {
            warm_up.insert_str(0, &format!("{} ", self.before_it()));
        }
        lines.extend(first);
        let others = session.blocks.iter().filter(|block| block.part != Part::Drill);
        let repeats = others.flat_map(|block| &block.repeats);
        lines.extend(repeats.filter_map(|repeat| self.cue_line(repeat)));
        lines
    }

    /// `Drill 4x25 on :55: fists closed, last 10 m open`
    fn with_its_cue(&self, block: &Block) -> String {
        let line = self.block_line(block);
        match block.repeats.iter().find_map(|repeat| self.cue_of(repeat)) {
            Some(cue) if block.part == Part::Drill => format!("{line}: {cue}"),
            _ => line,
        }
    }

    /// What to think of.
    fn cue_of(&self, repeat: &Repeat) -> Option<String> {
        Some(match repeat.cue.as_ref()? {
            Cue::Drill(id) => self.cue(id),
            Cue::Coach(text) => text.clone(),
        })
    }

    /// `Main 6x50 48 on 1:15`
    fn block_line(&self, block: &Block) -> String {
        format!("{} {}", self.part(block.part), block_shorthand(block, self))
    }

    /// `4x25 fins: kick on your side, lower arm long`
    fn cue_line(&self, repeat: &Repeat) -> Option<String> {
        let cue = self.cue_of(repeat)?;
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
        lines.extend(reply.sessions.iter().flat_map(|session| self.session_lines(session, vec![])));
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
        // The day of a race has no main set but the race.
        let main = if main.is_empty() { self.title(session.purpose).to_owned() } else { main };
        format!("{} {}: {main}", self.day(session.on), distance(session))
    }
}

fn distance(session: &Session) -> String {
    format!("{}{}", session.amount(), session.unit)
}
