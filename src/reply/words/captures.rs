//! Several swimmers' results in one text, told so briefly that the coach sees
//! every one.

use super::small::{difference, first_upper};
use super::trials::BesideBest;
use crate::coaching::Change;
use crate::message::Name;
use crate::reply::shorthand::{line_shorthand, repeat_shorthand, shown};
use crate::reply::{DoneReply, Out, Outcome, QuestionReply, SetReply, TestReply, Voice};
use crate::units::Lane;

// What is told, and in which order.
impl Voice {
    /// Results by kind, a line a distance or a set; then what is asked, the first
    /// in full.
    pub(in crate::reply) fn captured(self, outcomes: &[Outcome]) -> Vec<String> {
        let mut lines = Vec::new();
        let mut tests: Vec<(String, Vec<String>)> = Vec::new();
        let mut kept_sets: Vec<(String, Vec<String>)> = Vec::new();
        let mut swum: Vec<&SetReply> = Vec::new();
        let mut sessions = Vec::new();
        let mut out: Vec<&Name> = Vec::new();
        let mut ill: Vec<&Name> = Vec::new();
        let mut questions: Vec<&QuestionReply> = Vec::new();
        let mut others: Vec<String> = Vec::new();
        for outcome in outcomes {
            match outcome {
                Outcome::Caution(_) => lines.extend(self.lines_of(outcome)),
                Outcome::Kept(kept) => {
                    match kept.out {
                        Some(Out::Ill | Out::Clearing(_)) => ill.push(&kept.who),
                        Some(Out::Stopped) | None => out.push(&kept.who),
                    }
                    match kept.result.as_ref() {
                        Outcome::Test(reply) => {
                            let brief = format!("{} {}", reply.swimmer, reply.trial.time.short());
                            under(&mut tests, self.trial_name(&reply.trial), brief);
                        }
                        Outcome::Set(reply) => {
                            let shorthand = repeat_shorthand(&reply.set, self);
                            under(&mut kept_sets, shorthand, reply.swimmer.to_string());
                        }
                        Outcome::Done(reply) => sessions.push(self.brief_session(reply)),
                        _ => {}
                    }
                }
                Outcome::Test(reply) => {
                    under(&mut tests, self.trial_name(&reply.trial), self.brief_test(reply));
                }
                Outcome::Set(reply) => swum.push(reply),
                Outcome::Done(reply) => sessions.push(self.brief_session(reply)),
                Outcome::Question(reply) => questions.push(reply),
                other => others.extend(self.lines_of(other)),
            }
        }
        let listed =
            |names: &[&Name]| names.iter().map(|name| name.as_str()).collect::<Vec<_>>().join(", ");
        if !out.is_empty() {
            lines.push(self.must_not_swim(&listed(&out), out.len()));
        }
        if !ill.is_empty() {
            lines.push(self.ill_all_the_same(&listed(&ill), ill.len()));
        }
        lines.extend(tests.iter().flat_map(|(what, each)| of_each(what, each, TESTS_A_LINE, ", ")));
        lines.extend(self.sets_by_lane(&swum));
        lines.extend(
            kept_sets.iter().flat_map(|(what, each)| of_each(what, each, TESTS_A_LINE, ", ")),
        );
        let taken = outcomes.iter().find_map(|outcome| match outcome {
            Outcome::Test(reply) if !reply.repeat => reply.start_taken,
            _ => None,
        });
        lines.extend(taken.map(|start| self.start_taken(start).to_owned()));
        if !sessions.is_empty() {
            lines.push(self.sessions_stored(&sessions.join(", ")));
        }
        if let Some((first, rest)) = questions.split_first() {
            // What has to be answered is not left to wait for MORE.
            let mut asked = self.question(first).join(" ");
            if !rest.is_empty() {
                asked.push_str(&format!(" {}", self.further_questions(rest.len())));
            }
            lines.insert(lines.len().min(1), asked);
        }
        others.dedup();
        lines.extend(others);
        lines
    }

    /// `heron 3:12 first`
    fn brief_test(self, reply: &TestReply) -> String {
        let remark = match reply.repeat {
            true => self.known_already().to_owned(),
            false => self.briefly(BesideBest::of(reply.trial.time, reply.best_before)),
        };
        format!("{} {} {remark}", reply.swimmer, reply.trial.time.short()).trim_end().to_owned()
    }

    /// `L1 8x50 on 1:15: heron, teal held 8 of 8; wren held 6 of 8. Next 10x50: heron,
    /// teal; next on 1:25: wren.`, a line a lane and set; where a set was not of the
    /// night, with the time that each was judged by.
    fn sets_by_lane(self, swum: &[&SetReply]) -> Vec<String> {
        let mut by_lane: Vec<(OfLane, Vec<&SetReply>)> = Vec::new();
        for reply in swum {
            let key = (reply.lane, line_shorthand(&reply.set, self));
            match by_lane.iter_mut().find(|(known, _)| *known == key) {
                Some((_, all)) => all.push(reply),
                None => by_lane.push((key, vec![reply])),
            }
        }
        by_lane.sort_by_key(|((lane, _), _)| lane.map_or(u8::MAX, Lane::number));
        let line = |((lane, what), all): (OfLane, Vec<&SetReply>)| {
            let lane = lane.map(|lane| format!("{} ", self.lane(lane.number())));
            let (mut verdicts, mut changes) = (Vec::new(), Vec::new());
            for reply in &all {
                let name = reply.swimmer.to_string();
                under(&mut verdicts, self.how_held(reply), name.clone());
                if !reply.repeat {
                    under(&mut changes, self.next_in_brief(reply), name);
                }
            }
            let whole = all.len();
            let held = verdicts.iter().map(|(verdict, names)| {
                format!("{} {verdict}", self.names_or_all(names, whole)).trim_end().to_owned()
            });
            let mut said = format!(
                "{}{what}: {}.",
                lane.unwrap_or_default(),
                held.collect::<Vec<_>>().join("; ")
            );
            let next: Vec<String> = match changes.as_slice() {
                [(change, names)] if names.len() == whole => vec![change.clone()],
                several => several
                    .iter()
                    .map(|(what, all)| format!("{what}: {}", all.join(", ")))
                    .collect(),
            };
            if !next.is_empty() {
                said.push_str(&format!(" {}.", first_upper(&next.join("; "))));
            }
            said
        };
        by_lane.into_iter().map(line).collect()
    }

    /// All of a lane, where three or more have the same.
    fn names_or_all(self, names: &[String], whole: usize) -> String {
        match names.len() == whole && whole > 2 {
            true => self.everyone().to_owned(),
            false => names.join(", "),
        }
    }

    /// `held 4 of 6`
    fn how_held(self, reply: &SetReply) -> String {
        if reply.repeat {
            return self.known_already().to_owned();
        }
        let target = reply.set.target.filter(|_| reply.lane.is_none()).map(shown);
        let analysis = reply.feedback.analysis.as_ref();
        analysis.map_or_else(String::new, |one| self.held(one.held, one.repeats, target.as_deref()))
    }

    /// `next 10x50`, `next on 1:25`, `same again`: what differs next time, alone.
    fn next_in_brief(self, reply: &SetReply) -> String {
        let change = &reply.feedback.change;
        if let Some(words) = self.instead_of_a_set(change.what) {
            return words.to_owned();
        }
        let set = &change.set;
        let brief = match (change.what, set.send_off) {
            (Change::FewerRepeats | Change::MoreRepeats, _) => {
                format!("{}x{}", set.count, set.distance.amount())
            }
            (Change::LongerSendOff | Change::ShorterSendOff, Some(on)) => {
                format!("{} {on}", self.on())
            }
            _ => repeat_shorthand(set, self),
        };
        self.then(&brief)
    }

    /// `heron 1500 m 45 min`
    fn brief_session(self, reply: &DoneReply) -> String {
        let parts = self.session_parts(reply);
        format!("{} {}", reply.swimmer, parts.join(" ")).trim_end().to_owned()
    }
}

// In which words.
impl Voice {
    /// How a test stands to the best before, in a word or two.
    fn briefly(self, best: BesideBest) -> String {
        match best {
            BesideBest::First => say!(self, "first", "primero"),
            BesideBest::Faster(by) => {
                say!(self, "best by {by}", "mejor por {by}", [by = difference(by)])
            }
            BesideBest::Equal => say!(self, "equals best", "igual que su mejor"),
            BesideBest::Slower { by, .. } => format!("+{}", difference(by)),
        }
    }

    /// A result that had been sent already.
    fn known_already(self) -> &'static str {
        self.pick("stored already", "ya guardado")
    }

    /// The set to swim next time.
    fn then(self, set: &str) -> String {
        say!(self, "next {set}", "luego {set}", [set])
    }

    /// The set's change, where it is not another set.
    fn instead_of_a_set(self, change: Change) -> Option<&'static str> {
        match change {
            Change::Rest => Some(
                self.pick("off from the start, easy next", "mal desde el principio, toca suave"),
            ),
            Change::Retest => Some(self.pick("time for a new test", "toca un test nuevo")),
            Change::Same => Some(self.pick("same again", "lo mismo otra vez")),
            Change::SlowerStart => Some(self.pick(
                "too fast at first, next on the target",
                "demasiado rapido al principio, luego a su ritmo",
            )),
            _ => None,
        }
    }

    /// Everyone of a lane.
    fn everyone(self) -> &'static str {
        self.pick("all", "todos")
    }

    /// What is stored of sessions.
    fn sessions_stored(self, list: &str) -> String {
        say!(self, "Stored: {list}.", "Guardado: {list}.", [list])
    }

    /// How many questions follow the one just asked.
    fn further_questions(self, number: usize) -> String {
        match number {
            1 => say!(self, "Then 1 more question.", "Luego, una pregunta mas."),
            number => say!(
                self,
                "Then {number} more questions.",
                "Luego, {number} preguntas mas.",
                [number]
            ),
        }
    }

    /// Results of those who are ill are stored and no more.
    fn ill_all_the_same(self, names: &str, number: usize) -> String {
        say!(
            self,
            "{names} {are} ill: stored, and no training until clear days are over.",
            "{names} {are} una enfermedad: guardado, y sin entrenar hasta pasar el descanso.",
            [names, are = self.one_or_many(number, ["is", "are"], ["tiene", "tienen"])]
        )
    }

    /// The words of an outcome told beside the results.
    fn lines_of(self, outcome: &Outcome) -> Vec<String> {
        self.lines(outcome)
    }
}

/// A lane, none where a set was not of the night, and its repeats in words.
type OfLane = (Option<Lane>, String);

/// Tests told in one line: lines that can wait whole for the rest.
const TESTS_A_LINE: usize = 5;

/// `200 free: heron 3:12 first, teal 2:58 best by 2 s.`
fn of_each(what: &str, each: &[String], a_line: usize, between: &str) -> Vec<String> {
    each.chunks(a_line).map(|some| format!("{what}: {}.", some.join(between))).collect()
}

fn under(all: &mut Vec<(String, Vec<String>)>, what: String, one: String) {
    match all.iter_mut().find(|(of, _)| *of == what) {
        Some((_, each)) => each.push(one),
        None => all.push((what, vec![one])),
    }
}
