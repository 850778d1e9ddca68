//! What was stored, what it means, what to swim next.

use jiff::civil::Date;

use super::Sessions;
use super::words::{first_upper, shown_pace};
use crate::coaching::{Change, Outlook, Realism, RuleId, is_hard};
use crate::message::Name;
use crate::reply::shorthand::{line_shorthand, repeat_shorthand, shown};
use crate::reply::{
    BegunReply, CautionKind, DoneReply, PredictionReply, SetReply, TargetsReply, TestReply,
};
use crate::session::Repeat;
use crate::swim::Trial;
use crate::swim::critical_speed::{Basis, Estimate};
use crate::swim::even_pace::Target;
use crate::swim::prediction::{Prediction, PredictionBasis, Reach};
use crate::swim::set::{SetAnalysis, Shape};
use crate::units::{Centis, Distance, Rpe, Start};

/// What a language says of results.
pub trait Results: Sessions {
    /// A result is stored, and no more is said of it.
    fn stored(&self, what: &str) -> String;
    /// A result sent a second time; it is kept once.
    fn stored_already(&self, what: &str) -> String;
    /// A test is stored; how it stands to the best before. `name` is the test
    /// without its time.
    fn stored_beside(&self, what: &str, name: &str, best: BesideBest) -> String;
    /// The time of a race beside what was hoped for.
    fn beside_goal(&self, time: Centis, goal: Centis) -> String;
    /// Somebody swam farther without a stop than ever before here.
    fn farther(&self, distance: &str) -> String;
    /// How a test is taken to have begun, and what to text if not.
    fn start_taken(&self, start: Start) -> &'static str;
    /// How a test or several began.
    fn began(&self, tests: &str, start: Start) -> String;
    /// Targets at even pace.
    fn even_pace(&self, targets: &str) -> String;
    /// Targets that the coach set in place of the computed ones.
    fn by_coach(&self, targets: &str) -> String;
    /// A target: a distance and the time for each.
    fn target(&self, distance: u32, time: &str) -> String;
    /// Which test would sharpen an estimate, to follow it.
    fn sharpened_by(&self, distance: u32) -> String;
    /// Critical pace from one test.
    fn critical_guess(&self, band: &ShownBand, sharpened: &str) -> String;
    /// Critical pace from several tests.
    fn critical_from(&self, tests: usize, band: &ShownBand, sharpened: &str) -> String;
    /// No critical pace; what to test for one.
    fn no_critical(&self, test_next: Option<u32>) -> String;
    /// Before the first line of the session that follows a test.
    fn next(&self) -> &'static str;
    /// From which test, of which day, targets come.
    fn targets_from(&self, trial: &str, day: &str, targets: &str) -> String;

    /// So many of so many held, perhaps at a target.
    fn held(&self, held: usize, of: usize, target: Option<&str>) -> String;
    /// So many lost.
    fn lost(&self, lost: usize) -> String;
    /// The number of the first that was lost.
    fn first_lost(&self, number: usize) -> String;
    /// The mean of a set.
    fn mean(&self, mean: &str) -> String;
    /// Seconds slower from one repeat to the next.
    fn fade(&self, seconds: f64) -> String;
    /// A kind of set that may always be slower.
    fn slower_is_fine(&self) -> &'static str;
    /// The one change for next time, and on what to start; all of it was `held` or not.
    fn change(&self, what: Change, set: &str, target: &str, held: bool) -> String;

    /// A session, where nothing more is known of it.
    fn a_session(&self) -> &'static str;
    /// How hard a session felt.
    fn effort_of(&self, rpe: Rpe) -> String;
    /// A session is stored for a day.
    fn stored_for(&self, what: &str, day: &str) -> String;
    /// Training that wasn't swimming.
    fn elsewhere(&self) -> &'static str;
    /// The distance of seven days.
    fn in_seven_days(&self, distance: &str) -> String;
    /// Asks how hard it was.
    fn how_hard(&self) -> &'static str;

    /// A time to come and its interval; `basis` is what it rests on.
    fn predicted(&self, distance: &str, times: [&str; 3], basis: &str) -> String;
    /// When the set that a result leads to is swum.
    fn next_hard_swim(&self) -> &'static str;
    /// The same for a set that is in no session of ours.
    fn swum_again(&self) -> &'static str;
    /// The set promised before is off, this one comes in its place.
    fn in_place_of(&self, set: &str) -> String;
    /// The set promised before is off, the paces being new.
    fn off_by_test(&self, set: &str) -> String;
    /// A swim was cut short, and the next is as long as it.
    fn cut_short(&self) -> &'static str;
    /// A swim was very hard, and the next is less.
    fn eased(&self) -> &'static str;
    /// What a prediction rests on.
    fn basis(&self, tests: usize, basis: PredictionBasis) -> String;
    /// The prediction reaches far.
    fn far_from_tests(&self) -> &'static str;
    /// A race's day, the weeks until then, the time to expect.
    fn race_on(&self, day: &str, weeks: usize, time: &str) -> String;
    /// A goal and how realistic it is.
    fn goal(&self, time: &str, verdict: Realism) -> String;
    /// When to be where.
    fn even_splits(&self, splits: &str) -> String;
    /// The first day of the taper.
    fn taper_from(&self, day: &str) -> String;

    /// A test.
    fn test(&self, reply: &TestReply) -> Vec<String> {
        let trial = self.trial(&reply.trial);
        if reply.repeat {
            let what = of_another(reply.other, &reply.swimmer, &trial);
            return vec![first_upper(&self.stored_already(&what))];
        }
        let what = of_another(reply.other, &reply.swimmer, &trial);
        let mut lines = vec![self.stored_beside(
            &what,
            &self.trial_name(&reply.trial),
            BesideBest::of(reply.trial.time, reply.best_before),
        )];
        lines.extend(reply.goal.map(|goal| self.beside_goal(reply.trial.time, goal)));
        lines.extend(reply.farther.then(|| self.farther(&reply.trial.distance.to_string())));
        if !reply.targets.is_empty() {
            lines.push(self.even_pace(&self.targets_line(&reply.targets)));
        }
        lines.extend(reply.start_taken.map(|start| self.start_taken(start).to_owned()));
        lines.push(self.critical(&reply.critical, reply.test_next));
        lines.extend(
            reply.dropped.as_ref().map(|set| self.off_by_test(&repeat_shorthand(set, self))),
        );
        if let Some(session) = &reply.next {
            if is_hard(session) {
                lines.extend(self.caution_with(CautionKind::Effort));
            }
            let mut next = self.session_lines(session, vec![]);
            if let Some(head) = next.first_mut() {
                *head = format!("{} {head}", self.next());
            }
            lines.extend(next);
        }
        lines
    }

    /// How tests began, and what to hold after the one.
    fn begun(&self, reply: &BegunReply) -> Vec<String> {
        let one = |(whose, trial): &(Option<Name>, Trial)| match whose {
            Some(whose) => format!("{whose} {}", self.trial(trial)),
            None => self.trial(trial),
        };
        let tests: Vec<String> = reply.tests.iter().map(one).collect();
        let mut lines = vec![self.began(&tests.join(", "), reply.start)];
        if !reply.targets.is_empty() {
            lines.push(self.even_pace(&self.targets_line(&reply.targets)));
        }
        lines
    }

    /// On a card and beside the test's: those that the coach set.
    fn by_coach_line(&self, own: &[Target]) -> Option<String> {
        (!own.is_empty()).then(|| self.by_coach(&self.targets_line(own)))
    }

    /// `50s 48 on 1:15, 100s 1:36 on 2:30`
    fn targets_line(&self, targets: &[Target]) -> String {
        let one = |target: &Target| {
            let pace = self.target(target.distance.amount(), &shown(target.time));
            match target.send_off {
                Some(send_off) => format!("{pace} {} {send_off}", self.on()),
                None => pace,
            }
        };
        targets.iter().map(one).collect::<Vec<_>>().join(", ")
    }

    /// Critical pace, its band, and the test that would tell most.
    fn critical(&self, estimate: &Estimate, test_next: Option<Distance>) -> String {
        let test_next = test_next.map(Distance::amount);
        let Some(band) = &estimate.band else {
            return self.no_critical(test_next);
        };
        let band = ShownBand {
            pace: shown_pace(band.pace),
            low: shown_pace(band.low),
            high: shown_pace(band.high),
        };
        let sharpened = test_next.map(|next| self.sharpened_by(next)).unwrap_or_default();
        match estimate.basis {
            Basis::OneTest => self.critical_guess(&band, &sharpened),
            _ => self.critical_from(estimate.made_from.len(), &band, &sharpened),
        }
    }

    /// Times to hold.
    fn targets(&self, reply: &TargetsReply) -> Vec<String> {
        let mut lines = vec![self.targets_from(
            &self.trial(&reply.trial),
            &self.short_day(reply.trial.on),
            &self.targets_line(&reply.targets),
        )];
        lines.extend(self.by_coach_line(&reply.own));
        lines.push(self.critical(&reply.critical, None));
        lines
    }

    /// The coach has told of her set: what it was.
    fn coach_told(&self, set: &str) -> String;

    /// The first line of what a swimmer hears of a set that the coach told.
    fn coach_told_of(&self, set: &Repeat) -> String {
        self.coach_told(&line_shorthand(set, self))
    }

    /// A set.
    fn set(&self, reply: &SetReply) -> Vec<String> {
        let feedback = &reply.feedback;
        let of_whom = |what: &str| of_another(reply.other, &reply.swimmer, what);
        if reply.repeat {
            let what = of_whom(&repeat_shorthand(&reply.set, self));
            return vec![first_upper(&self.stored_already(&what))];
        }
        let first = match &feedback.analysis {
            Some(analysis) => of_whom(&self.held_and_lost(analysis, reply.set.target)),
            None => self.stored(&of_whom(&repeat_shorthand(&reply.set, self))),
        };
        let mut lines = vec![first_upper(&first)];
        // The mean of what was only said to be made is the time to hold.
        let told = |shape: &&Shape| {
            shape.spread.get() > 0.0 || reply.set.target.is_none_or(|target| shape.best != target)
        };
        if let Some(shape) = feedback.shape.as_ref().filter(told) {
            let mean = Centis::from_seconds(shape.mean.get())
                .map_or_else(|_| "?".to_owned(), |time| time.to_tenth().short());
            let mut line = self.mean(&mean);
            // Under half a tenth it is no fade.
            if let Some(fade) = shape.fade.filter(|fade| fade.get().abs() >= 0.05) {
                line.push_str(&format!(", {}", self.fade(fade.get())));
            }
            lines.push(format!("{line}."));
        }
        if feedback.slower_is_fine {
            lines.push(self.slower_is_fine().to_owned());
        }
        let change = &feedback.change;
        if reply.promised || feedback.is_of_pace() {
            let set = repeat_shorthand(&change.set, self);
            let when = match reply.promised {
                true => self.next_hard_swim(),
                false => self.swum_again(),
            };
            lines.push(self.change(
                change.what,
                &format!("{when} {set}"),
                &change.set.target.map_or_else(String::new, shown),
                feedback.analysis.as_ref().is_some_and(|analysis| analysis.missed == 0),
            ));
        }
        if let Some(replaced) = &reply.replaced {
            lines.push(self.in_place_of(&repeat_shorthand(replaced, self)));
        }
        lines
    }

    /// `held 6 of 8 at 48, lost 2, the first at number 7.`
    fn held_and_lost(&self, analysis: &SetAnalysis, target: Option<Centis>) -> String {
        let target = target.map(shown);
        let mut parts = vec![self.held(analysis.held, analysis.repeats, target.as_deref())];
        if analysis.missed > 0 {
            parts.push(self.lost(analysis.missed));
        }
        if let Some(number) = analysis.first_lost {
            parts.push(self.first_lost(number));
        }
        format!("{}.", parts.join(", "))
    }

    /// A session reported.
    fn done(&self, reply: &DoneReply) -> Vec<String> {
        let parts = self.session_parts(reply);
        if reply.repeat {
            return vec![self.stored_already(&parts.join(", "))];
        }
        let what = if parts.is_empty() { self.a_session().to_owned() } else { parts.join(", ") };
        let mut first = self.stored_for(&what, &self.day(reply.on));
        if reply.elsewhere {
            first.push_str(&format!(" {}", self.elsewhere()));
        }
        let mut lines = vec![first];
        lines.extend(reply.eased.map(|rule| match rule {
            RuleId::CutShort => self.cut_short().to_owned(),
            _ => self.eased().to_owned(),
        }));
        if let Some(week) = reply.week {
            lines.push(self.in_seven_days(&week.to_string()));
        }
        if reply.rpe.is_none() && !reply.elsewhere {
            lines.push(self.how_hard().to_owned());
        }
        lines
    }

    /// How far, how long, how hard.
    fn session_parts(&self, reply: &DoneReply) -> Vec<String> {
        [
            reply.distance.map(|distance| distance.to_string()),
            reply.duration.map(|time| format!("{} min", time.hundredths().div_ceil(6000))),
            reply.rpe.map(|rpe| self.effort_of(rpe)),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// A predicted time, and what it means for a race.
    fn prediction(&self, reply: &PredictionReply) -> Vec<String> {
        let prediction = &reply.prediction;
        let [time, low, high] = [prediction.time, prediction.low, prediction.high].map(shown);
        let mut lines = vec![self.predicted(
            &prediction.distance.to_string(),
            [&time, &low, &high],
            &self.prediction_basis(prediction),
        )];
        if let Reach::Beyond(_) = prediction.reach {
            lines.push(self.far_from_tests().to_owned());
        }
        if let Some((on, outlook)) = &reply.race {
            lines.extend(self.race(*on, outlook));
        }
        lines
    }

    /// `your curve from 2 tests`
    fn prediction_basis(&self, prediction: &Prediction) -> String {
        self.basis(prediction.made_from.len(), prediction.basis)
    }

    /// The race day, the goal's chance, the splits, what comes until then.
    fn race(&self, on: Date, outlook: &Outlook) -> Vec<String> {
        let mut lines = vec![self.race_on(
            &self.day(on),
            usize::from(outlook.weeks_left),
            &shown(outlook.expected),
        )];
        if let Some(goal) = &outlook.goal {
            lines.push(self.goal(&goal.time.short(), goal.verdict));
        }
        let splits: Vec<String> = outlook
            .splits
            .iter()
            .map(|split| format!("{} {}", split.at.amount(), shown(split.time)))
            .collect();
        if !splits.is_empty() {
            lines.push(self.even_splits(&splits.join(", ")));
        }
        lines.push(self.taper_from(&self.day(outlook.taper_from)));
        lines
    }
}

/// A pace and its band, as they are meant to be read.
#[derive(Debug)]
pub struct ShownBand {
    /// The best guess, per 100.
    pub pace: String,
    /// The fast edge.
    pub low: String,
    /// The slow edge.
    pub high: String,
}

/// How a test stands to the best before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BesideBest {
    /// There was none.
    First,
    /// Faster by so much.
    Faster(Centis),
    /// The same.
    Equal,
    /// Slower.
    Slower {
        /// By so much.
        by: Centis,
        /// Than this.
        best: Centis,
    },
}

impl BesideBest {
    /// How `time` stands to the best before it.
    pub fn of(time: Centis, best: Option<Centis>) -> Self {
        let Some(best) = best else {
            return BesideBest::First;
        };
        match (best.less(time), time.less(best)) {
            (Some(by), _) => BesideBest::Faster(by),
            (None, Some(by)) => BesideBest::Slower { by, best },
            (None, None) => BesideBest::Equal,
        }
    }
}

/// What is said, with her name before it where it is not the sender's own.
pub(super) fn of_another(other: bool, swimmer: &Name, what: &str) -> String {
    if other { format!("{swimmer} {what}") } else { what.to_owned() }
}
