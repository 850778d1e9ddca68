//! Acknowledgements, questions, refusals, help.

use jiff::civil::Date;

use super::results::of_another;
use super::words::{first_upper, shown_pace};
use super::{
    Approvals, Limited, Meets, Offices, OwnTargets, Questions, Results, TestNights, Timetables,
    Weeklies,
};
use crate::coaching::{PaceFrom, Rule};
use crate::message::Name;
use crate::reply::shorthand::{line_shorthand, repeat_shorthand, shown};
use crate::reply::{
    Asks, CareRefusal, HelpReply, NotUnderstoodReply, OkReply, QuestionReply, RefusedReply,
    RefusedWhy, SetFixedReply, SetReply, Topic, Unread, WhyMain, Withdrawn, carried,
};
use crate::swim::why::Explanation;
use crate::units::{Centis, Level, Start};

/// So many results are taken back one by one in words (ours: what one SMS part holds).
const MOST_TAKEN_BACK: usize = 4;

/// What a language answers where nothing is to be computed.
pub trait Answers:
    Timetables
    + TestNights
    + Offices
    + Results
    + Meets
    + Weeklies
    + Approvals
    + Limited
    + OwnTargets
    + Questions
{
    /// Someone is in.
    fn welcome(&self, name: &Name, squad: &str) -> String;
    /// Plans stay easy until the coach knows her health.
    fn readiness(&self, questions: bool) -> &'static str;
    /// One of the questions that follow joining, with how to answer it.
    fn readiness_question(&self, question: u8) -> &'static str;
    /// What to do and text first, and what comes before all texting.
    fn first_steps(&self) -> [&'static str; 2];
    /// Something done; nothing for what is told elsewhere: joining, the rest of a
    /// reply, silence.
    fn done_so(&self, reply: &OkReply) -> String;
    /// What was taken back of a day.
    fn of_day(&self, what: &str, day: &str) -> String;
    /// A session, among what was taken back.
    fn session_taken_back(&self) -> &'static str;
    /// A register, among what was taken back.
    fn register_taken_back(&self) -> &'static str;
    /// The set of a night, among what was taken back.
    fn squad_set_taken_back(&self) -> &'static str;
    /// Other things of the squad, among what was taken back.
    fn evening_taken_back(&self, what: &Withdrawn) -> &'static str;
    /// A test that stands again as it was.
    fn as_before(&self, trial: &str) -> String;
    /// More results than are told one by one, and of whom.
    fn results_taken_back(&self, number: usize, names: &str) -> String;
    /// One repeat of a set, as it was and as it is; `x` for a missed one.
    fn repeat_put_right(&self, number: usize, was: &str, now: &str) -> String;
    /// A change of what had been stored, among what was taken back.
    fn change_taken_back(&self) -> &'static str;
    /// Something to be settled.
    fn ask(&self, asks: &Asks) -> String;
    /// The end of a question: the words that settle it, listed.
    fn text_one_of(&self, options: &str) -> String;
    /// The end of a question that no one word settles.
    fn text_again(&self) -> &'static str;
    /// A word that settles a question, as it is to be texted.
    fn option(&self, option: &str) -> String;
    /// Why something was not done.
    fn refusal(&self, why: &RefusedWhy) -> String;
    /// Some of a text was read, and `what` about the rest.
    fn read_but(&self, understood: &str, what: &str) -> String;
    /// What was wrong with a text of which nothing was read.
    fn unread(&self, rest: &Unread) -> String;
    /// What was wrong with the rest of a text.
    fn but(&self, rest: &Unread) -> String;
    /// An example to follow.
    fn like_this(&self, example: &str) -> String;
    /// Help in general, for a swimmer.
    fn for_a_swimmer(&self) -> &'static [&'static str];
    /// Help in general, for a coach.
    fn for_a_coach(&self) -> &'static [&'static str];
    /// Help in a group chat: two lines at most.
    fn for_a_room(&self) -> &'static [&'static str];
    /// Help for someone we don't know.
    fn for_a_stranger(&self) -> &'static [&'static str];
    /// Those who should have been told have opted out.
    fn nobody_told(&self) -> &'static str;
    /// What was asked before this text and gave way to it, in the words asked.
    fn not_stored(&self, asked: &str) -> String;
    /// The same, cut to what was asked.
    fn never_answered(&self, asked: &str) -> String {
        let ends = [asked.find('?').map(|at| at + 1), asked.find(". ")];
        let end = ends.into_iter().flatten().min().unwrap_or(asked.len());
        let first: String = asked[..end].chars().take(MOST_ASKED).collect();
        self.not_stored(first.trim_end())
    }
    /// Help for someone who has opted out.
    fn for_who_opted_out(&self) -> &'static [&'static str];
    /// Help on a topic.
    fn on_topic(&self, topic: Topic) -> &'static [&'static str];
    /// Why a number is what it is.
    fn explanation(&self, explanation: &Explanation) -> String;
    /// A rule that decided.
    fn rule(&self, rule: &Rule) -> String;
    /// A main set: its time to hold, where that comes from, the seconds of rest.
    fn why_set(&self, set: &str, target: &str, from: &str, rest_s: Option<u32>) -> String;
    /// A time to hold is the coach's.
    fn pace_of_coach(&self) -> &'static str;
    /// It is a share of critical speed, whose pace per 100 is told.
    fn pace_of_share(&self, percent: u32, critical: &str) -> String;
    /// It is the pace of a race in a time, which is as from a push where that tells.
    fn pace_of_race(&self, distance: &str, time: &str, pushed: bool) -> String;
    /// It is the even pace of a test, which began in some other way than with a push.
    fn pace_of_test(&self, trial: &str, began: Option<Start>) -> String;

    /// Why a main set is swum in that time.
    fn why_main(&self, main: &WhyMain) -> String {
        let from = match &main.from {
            PaceFrom::Coach => self.pace_of_coach().to_owned(),
            PaceFrom::CriticalSpeed { percent, critical } => {
                self.pace_of_share(percent.round() as u32, &shown_pace(*critical))
            }
            PaceFrom::Race { distance, time } => {
                let pushed = distance.amount() <= SPRINT;
                self.pace_of_race(&distance.to_string(), &shown(*time), pushed)
            }
            PaceFrom::Test(pushed) => match &main.as_swum {
                Some((trial, began)) => self.pace_of_test(&self.trial(trial), Some(*began)),
                None => self.pace_of_test(&self.trial(pushed), None),
            },
        };
        let set = repeat_shorthand(&main.set, self);
        let target = main.set.target.map_or_else(String::new, shown);
        let rest = main.set.send_off.zip(main.set.target);
        let rest = rest.and_then(|(on, target)| on.rest_after(target));
        self.why_set(&set, &target, &from, rest.map(|rest| rest.hundredths().div_ceil(100)))
    }

    /// Something done.
    fn ok(&self, reply: &OkReply) -> Vec<String> {
        match reply {
            OkReply::Joined { name, squad, ask_readiness, questions, minors, closed } => {
                let mut lines = vec![self.welcome(name, squad)];
                if *closed {
                    lines.push(self.care_refusal(&CareRefusal::NoOfficer));
                    return lines;
                }
                if *minors {
                    lines.push(self.ask_birth_year().to_owned());
                    return lines;
                }
                lines.extend(ask_readiness.then(|| self.readiness(*questions).to_owned()));
                lines.extend(questions.then(|| self.readiness_question(1).to_owned()));
                lines.extend(self.first_steps().map(str::to_owned));
                lines
            }
            OkReply::More { lines } => lines.clone(),
            OkReply::Timetable(lines) => self.timetable(lines),
            OkReply::Shut(nights) => nights.iter().map(|night| self.shut(night)).collect(),
            OkReply::Attend(reply) => {
                let lanes = reply.lanes.iter().flat_map(|lanes| self.lanes_changed(lanes));
                std::iter::once(self.attends(reply)).chain(lanes).collect()
            }
            OkReply::LanesChanged(reply) => self.lanes_changed(reply),
            OkReply::SetFixed(reply) => self.set_fixed(reply),
            OkReply::HeatOf(reply) => vec![self.heat_of(reply)],
            OkReply::Leg { who, leg } => vec![self.leg(who.as_ref(), leg)],
            OkReply::Entered(reply) => self.entered(reply),
            OkReply::Meet(reply) => self.meet(reply),
            OkReply::Entries(meets) => self.meets(meets),
            OkReply::Begun(reply) => self.begun(reply),
            OkReply::Weekly(reply) => self.weekly(reply),
            OkReply::Approval(reply) => self.approval(reply),
            OkReply::TestNight(reply) => self.test_night(reply),
            OkReply::OwnTargets(reply) => self.set_by_coach(reply),
            OkReply::Limits(reply) => self.limited(reply),
            OkReply::Register(reply) => self.register(reply),
            OkReply::SetChanged(reply) => self.set_changed(reply),
            OkReply::Care(done) => self.care_done(done),
            OkReply::Office(done) => self.offices(done),
            OkReply::Known(known) => self.known(known),
            OkReply::GivenToDeck => vec![self.given_to_deck().to_owned()],
            OkReply::Silent => Vec::new(),
            done => vec![self.done_so(done)],
        }
    }

    /// All that was taken back.
    fn taken_back(&self, records: &[(Option<Name>, Withdrawn)]) -> String {
        let names = records.iter().filter_map(|(whose, _)| whose.as_ref());
        let mut names: Vec<&str> = names.map(Name::as_str).collect();
        let all_named = names.len() == records.len();
        names.dedup();
        if records.len() > MOST_TAKEN_BACK && all_named {
            return self.results_taken_back(records.len(), &names.join(", "));
        }
        let what = |record: &Withdrawn| match record {
            Withdrawn::Test(trial) => self.of_day(&self.trial(trial), &self.short_day(trial.on)),
            Withdrawn::Set(set) => format!("{}x{}", set.count, set.distance.amount()),
            Withdrawn::Session(on) => self.of_day(self.session_taken_back(), &self.short_day(*on)),
            Withdrawn::Register(on) => {
                self.of_day(self.register_taken_back(), &self.short_day(*on))
            }
            Withdrawn::SquadSet(on) => {
                self.of_day(self.squad_set_taken_back(), &self.short_day(*on))
            }
            Withdrawn::SetChange(on)
            | Withdrawn::Lanes(on)
            | Withdrawn::Shut(on)
            | Withdrawn::Night(on) => {
                self.of_day(self.evening_taken_back(record), &self.short_day(*on))
            }
            Withdrawn::Timetable | Withdrawn::Digest | Withdrawn::Note => {
                self.evening_taken_back(record).to_owned()
            }
            Withdrawn::PutRight(trial) => {
                self.as_before(&self.of_day(&self.trial(trial), &self.short_day(trial.on)))
            }
            Withdrawn::SetPutRight(set) => {
                self.as_before(&format!("{}x{}", set.count, set.distance.amount()))
            }
            Withdrawn::Change => self.change_taken_back().to_owned(),
        };
        let one = |(whose, record): &(Option<Name>, Withdrawn)| match whose {
            Some(whose) => format!("{whose} {}", what(record)),
            None => what(record),
        };
        self.all_of(&records.iter().map(one).collect::<Vec<_>>())
    }

    /// What is another in a set that was put right, and what it comes to.
    fn set_fixed(&self, reply: &SetFixedReply) -> Vec<String> {
        let time = |time: Option<Centis>| time.map_or_else(|| "x".to_owned(), Centis::short);
        let changes = reply.changes.iter();
        let changes = changes
            .map(|(number, was, now)| self.repeat_put_right(*number, &time(*was), &time(*now)));
        let what = line_shorthand(&reply.swum.set, self);
        let what = of_another(reply.swum.other, &reply.swum.swimmer, &what);
        let said = self.all_of(&changes.collect::<Vec<_>>());
        let first = if said.is_empty() { format!("{what}.") } else { format!("{what}: {said}.") };
        let told = SetReply { other: false, ..reply.swum.clone() };
        std::iter::once(first).chain(self.set(&told)).collect()
    }

    /// `Mon 2 Mar and Thu 5 Mar (hard)`
    fn days_and_hard_ones(&self, days: &[(Date, bool)]) -> String {
        let one = |(on, hard): &(Date, bool)| {
            let day = self.day(*on);
            if *hard { format!("{day} ({})", self.level(Level::Hard)) } else { day }
        };
        self.all_of(&days.iter().map(one).collect::<Vec<_>>())
    }

    /// Something to be settled by a word.
    fn question(&self, reply: &QuestionReply) -> Vec<String> {
        let ask = self.ask(&reply.asks);
        let asks = match &reply.asks {
            Asks::Of { asks, .. } => asks,
            asks => asks,
        };
        if let Asks::Impossible { .. } | Asks::Readiness { .. } = asks {
            // These say themselves how they are answered.
            return vec![ask];
        }
        let options: Vec<String> = reply.options.iter().map(|word| self.option(word)).collect();
        let how = match options.as_slice() {
            [] => self.text_again().to_owned(),
            options => self.text_one_of(&self.one_of(options)),
        };
        vec![format!("{ask} {how}")]
    }

    /// Something not done.
    fn refused(&self, reply: &RefusedReply) -> Vec<String> {
        vec![self.refusal(&reply.why)]
    }

    /// Something that could not be read.
    fn not_understood(&self, reply: &NotUnderstoodReply) -> Vec<String> {
        let first = if reply.understood.is_empty() {
            self.unread(&reply.rest)
        } else {
            self.read_but(&self.all_of(&reply.understood), &self.but(&reply.rest))
        };
        vec![first_upper(&first), self.like_this(&reply.example)]
    }

    /// Help.
    fn help(&self, reply: &HelpReply) -> Vec<String> {
        let lines = match reply {
            HelpReply::Swimmer => self.for_a_swimmer(),
            HelpReply::Coach => self.for_a_coach(),
            HelpReply::Room => self.for_a_room(),
            HelpReply::Stranger => self.for_a_stranger(),
            HelpReply::OptedOut => self.for_who_opted_out(),
            HelpReply::Topic(topic) => self.on_topic(*topic),
            HelpReply::Why { main, of_change, explanations, rules, without } => {
                let main = main.iter().map(|main| self.why_main(main));
                let explanations = explanations.iter().map(|one| self.explanation(one));
                let rules = rules.iter().map(|rule| self.rule(rule));
                let limits = self.within_limits(without);
                return match of_change {
                    true => main.chain(rules).chain(limits).chain(explanations).collect(),
                    false => main.chain(explanations).chain(limits).chain(rules).collect(),
                };
            }
        };
        lines.iter().map(|line| (*line).to_owned()).collect()
    }
}

/// Over so much the start tells in a race's time.
const SPRINT: u32 = 200;

/// The first words of what was typed, in quotes and in the SMS alphabet.
pub fn quoted(text: &str) -> String {
    const MOST: usize = 40;
    let mut letters = carried(text);
    if let Some((end, _)) = letters.char_indices().nth(MOST) {
        letters.truncate(end);
        letters.push_str("...");
    }
    format!("'{letters}'")
}

/// Characters of an earlier question that are said again.
const MOST_ASKED: usize = 100;

#[cfg(test)]
mod tests {
    use super::quoted;

    #[test]
    fn what_was_typed_stays_in_the_sms_alphabet() {
        for (typed, shown) in [
            ("tset", "'tset'"),
            ("r\u{e1}pido y ni\u{f1}o", "'rapido y ni\u{f1}o'"),
            ("ra\u{301}pido", "'rapido'"),
            ("\u{663}:\u{661}", "'?:?'"),
            (&"a".repeat(41), &format!("'{}...'", "a".repeat(40))),
        ] {
            assert_eq!(quoted(typed), shown);
        }
    }
}
