//! What was stored, what it means, what to swim next.

use super::{care, people, sessions, words};
use jiff::civil::Date;

use crate::coaching::{self, Change, Outlook, Realism};
use crate::reply::shorthand::{repeat_shorthand, shown};
use crate::reply::{
    CautionKind, CautionReply, DoneReply, PredictionReply, SetReply, TargetsReply, TestReply,
};
use crate::swim::critical_speed::{Basis, Estimate};
use crate::swim::even_pace::Target;
use crate::swim::prediction::{Prediction, Reach};
use crate::units::{Centis, Distance};

/// A test.
pub fn test(reply: &TestReply) -> Vec<String> {
    if reply.quiet {
        return vec![format!("{} stored.", words::trial(&reply.trial))];
    }
    let mut lines = vec![stored(reply)];
    if !reply.targets.is_empty() {
        lines.push(format!("Even pace: {}.", targets_line(&reply.targets)));
    }
    lines.push(critical(&reply.critical, reply.test_next));
    if let Some(session) = &reply.next {
        if coaching::is_hard(session) {
            lines.extend(care::caution(&CautionReply { kind: CautionKind::Effort, about: None }));
        }
        let mut next = sessions::lines(session);
        if let Some(head) = next.first_mut() {
            head.insert_str(0, "Next ");
        }
        lines.extend(next);
    }
    lines
}

fn stored(reply: &TestReply) -> String {
    let trial = words::trial(&reply.trial);
    let who = if reply.other { format!("{} ", reply.swimmer) } else { String::new() };
    let name = words::trial_name(&reply.trial);
    match reply.best_before {
        None => format!("{who}{trial} stored - your first {name}, a mark to build on."),
        Some(best) => match best.less(reply.trial.time) {
            Some(gain) => format!("{who}{trial} stored, a best by {} s. Well swum!", gain.short()),
            None => match reply.trial.time.less(best) {
                Some(over) => format!(
                    "{who}{trial} stored, {} s off your best {}.",
                    over.short(),
                    best.short()
                ),
                None => format!("{who}{trial} stored, equal to your best."),
            },
        },
    }
}

/// `50s 48 on 1:15, 100s 1:36 on 2:30`
fn targets_line(targets: &[Target]) -> String {
    targets
        .iter()
        .map(|target| {
            let send_off =
                target.send_off.map_or_else(String::new, |send_off| format!(" on {send_off}"));
            format!("{}s {}{send_off}", target.distance.amount(), shown(target.time))
        })
        .collect::<Vec<_>>()
        .join(", ")
}

fn critical(estimate: &Estimate, test_next: Option<Distance>) -> String {
    let sharpen = test_next.map_or_else(String::new, |distance| {
        format!("; a {} test would sharpen it", distance.amount())
    });
    match (&estimate.band, estimate.basis) {
        (Some(band), Basis::OneTest) => format!(
            "Critical pace about {} per 100, a guess from one test ({}-{}){sharpen}.",
            people::shown_pace(band.pace),
            people::shown_pace(band.low),
            people::shown_pace(band.high)
        ),
        (Some(band), _) => format!(
            "Critical pace about {} per 100 ({}-{}, from {} tests){sharpen}.",
            people::shown_pace(band.pace),
            people::shown_pace(band.low),
            people::shown_pace(band.high),
            estimate.made_from.len()
        ),
        (None, _) => match test_next {
            Some(distance) => {
                format!(
                    "No critical pace from this yet: swim {} next.",
                    words::a_test(distance.amount())
                )
            }
            None => "No critical pace from this yet.".to_owned(),
        },
    }
}

/// Times to hold.
pub fn targets(reply: &TargetsReply) -> Vec<String> {
    vec![
        format!(
            "From {} ({}): {}.",
            words::trial(&reply.trial),
            words::short_day(reply.trial.on),
            targets_line(&reply.targets)
        ),
        critical(&reply.critical, None),
    ]
}

/// A set.
pub fn set(reply: &SetReply) -> Vec<String> {
    let feedback = &reply.feedback;
    let who = if reply.other { format!("{} ", reply.swimmer) } else { String::new() };
    let mut lines = Vec::new();
    if let Some(analysis) = &feedback.analysis {
        let target = reply.set.target.map_or_else(String::new, |t| format!(" at {}", shown(t)));
        let mut first = format!("{who}held {} of {}{target}", analysis.held, analysis.repeats);
        if analysis.missed > 0 {
            first.push_str(&format!(", lost {}", analysis.missed));
        }
        if let Some(lost) = analysis.first_lost {
            first.push_str(&format!(", the first at number {lost}"));
        }
        lines.push(format!("{}.", words::first_upper(&first)));
    } else {
        let set = repeat_shorthand(&reply.set, &words::Whiteboard);
        lines.push(words::first_upper(&format!("{who}{set} stored.")));
    }
    if let Some(shape) = &feedback.shape {
        let mut line = format!("Mean {}", seconds(shape.mean.get()));
        // Under half a tenth it is no fade.
        if let Some(fade) = shape.fade.filter(|fade| fade.get().abs() >= 0.05) {
            line.push_str(&format!(", fade {:+.1} s a repeat", fade.get()));
        }
        lines.push(format!("{line}."));
    }
    if feedback.slower_is_fine {
        lines.push("This kind of set may always be slower; form first.".into());
    }
    lines.push(change(reply));
    lines
}

fn change(reply: &SetReply) -> String {
    let change = &reply.feedback.change;
    let set = repeat_shorthand(&change.set, &words::Whiteboard);
    match change.what {
        Change::FewerRepeats => format!("Next time {set}: fewer, same pace."),
        Change::LongerSendOff => format!("Next time {set}: more rest, same pace."),
        Change::MoreRepeats => format!("Held well! Next time {set}: a step more."),
        Change::ShorterSendOff => format!("Held well! Next time {set}: less rest."),
        Change::FasterTarget => format!("Twice held! Next time {set}: a little faster."),
        Change::SlowerStart => format!(
            "Too fast at first. Next time {set}: start on {}.",
            change.set.target.map_or_else(String::new, shown)
        ),
        Change::Same => format!("Next time the same again: {set}."),
        Change::Rest => {
            "Off the pace from the start: no change of set. Slept badly, ill or sore? Easy swim \
             next; text how you are."
                .to_owned()
        }
        Change::Retest => {
            "Cut back twice on this target: it is out of date. Time for a new test.".to_owned()
        }
    }
}

/// A session reported.
pub fn done(reply: &DoneReply) -> Vec<String> {
    let mut what: Vec<String> = Vec::new();
    if let Some(distance) = reply.distance {
        what.push(distance.to_string());
    }
    if let Some(duration) = reply.duration {
        what.push(format!("{} min", duration.hundredths().div_ceil(6000)));
    }
    if let Some(rpe) = reply.rpe {
        what.push(format!("effort {}", rpe.value()));
    }
    let what = if what.is_empty() { "Session".to_owned() } else { what.join(", ") };
    let mut first = format!("{what} stored for {}.", words::day(reply.on));
    if reply.elsewhere {
        first.push_str(" It counts as training, not as metres swum.");
    }
    let mut lines = vec![first];
    if let Some(week) = reply.week {
        lines.push(format!("{week} in seven days."));
    }
    if reply.rpe.is_none() && !reply.elsewhere {
        lines.push(
            "How hard, 0 to 10? Text it with the session next time: done 1500 45min rpe 6".into(),
        );
    }
    lines
}

/// A predicted time.
pub fn prediction(reply: &PredictionReply) -> Vec<String> {
    let prediction = &reply.prediction;
    let mut lines = vec![format!(
        "{}: about {} ({} to {}), {}.",
        prediction.distance,
        shown(prediction.time),
        shown(prediction.low),
        shown(prediction.high),
        prediction_basis(prediction)
    )];
    if let Reach::Beyond(_) = prediction.reach {
        lines.push("That is far from any distance you tested: take it lightly.".into());
    }
    if let Some((on, outlook)) = &reply.race {
        lines.extend(race(*on, outlook));
    }
    lines
}

/// The race day, the goal's chance, the splits, what comes until then.
fn race(on: Date, outlook: &Outlook) -> Vec<String> {
    let mut lines = vec![format!(
        "Race on {}, {} to go: expect about {} on the day.",
        words::day(on),
        words::count(usize::from(outlook.weeks_left), "week"),
        shown(outlook.expected)
    )];
    if let Some(goal) = &outlook.goal {
        let verdict = match goal.verdict {
            Realism::Likely => "likely",
            Realism::Possible => "possible",
            Realism::FarOff => "far off for now",
        };
        lines.push(format!("Goal {}: {verdict}.", goal.time.short()));
    }
    let splits: Vec<String> = outlook
        .splits
        .iter()
        .map(|split| format!("{} {}", split.at.amount(), shown(split.time)))
        .collect();
    if !splits.is_empty() {
        lines.push(format!("Even splits: {}.", splits.join(", ")));
    }
    lines.push(format!("Taper from {}.", words::day(outlook.taper_from)));
    lines
}

/// `power law from 2 tests, exponent 1.08`
pub fn prediction_basis(prediction: &Prediction) -> String {
    format!(
        "power law from {}, exponent {:.2}",
        words::count(prediction.made_from.len(), "test"),
        prediction.exponent
    )
}

fn seconds(seconds: f64) -> String {
    Centis::from_seconds(seconds).map_or_else(|_| "?".to_owned(), |time| time.to_tenth().short())
}
