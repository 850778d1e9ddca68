//! What was stored, what it means, what to swim next.

use super::English;
use crate::coaching::{Change, Realism};
use crate::reply::phrases::{BesideBest, Results, ShownBand, count, difference};
use crate::swim::prediction::PredictionBasis;
use crate::units::{Centis, Rpe, Start};

impl Results for English {
    fn stored(&self, what: &str) -> String {
        format!("{what} stored.")
    }

    fn coach_told(&self, set: &str) -> String {
        format!("From your coach: {set}.")
    }

    fn stored_already(&self, what: &str) -> String {
        format!("{what} was stored already, minutes ago: kept once.")
    }

    fn stored_beside(&self, what: &str, name: &str, best: BesideBest) -> String {
        match best {
            BesideBest::First => {
                format!("{what} stored - a first {name}, a mark to build on.")
            }
            BesideBest::Faster(by) => {
                format!("{what} stored, a best by {}. Well swum!", difference(by))
            }
            BesideBest::Equal => format!("{what} stored, equal to the best."),
            BesideBest::Slower { by, best } => {
                format!("{what} stored, {} off the best, {}.", difference(by), best.short())
            }
        }
    }

    fn start_taken(&self, start: Start) -> &'static str {
        match start {
            Start::Push => "Taken as from a push; if not, text DIVE.",
            Start::Dive => "Taken as from a dive; if not, text PUSH.",
            Start::Water => "Taken as from a start in the water; if not, text PUSH.",
        }
    }

    fn began(&self, tests: &str, start: Start) -> String {
        match start {
            Start::Push => format!("{tests}: from a push."),
            Start::Dive => format!("{tests}: from a dive. From a push, as repeats begin:"),
            Start::Water => format!("{tests}: from the water."),
        }
    }

    fn by_coach(&self, targets: &str) -> String {
        format!("By the coach: {targets}.")
    }

    fn even_pace(&self, targets: &str) -> String {
        format!("Even pace: {targets}.")
    }

    fn target(&self, distance: u32, time: &str) -> String {
        format!("{distance}s {time}")
    }

    fn sharpened_by(&self, distance: u32) -> String {
        format!("; {} would sharpen it", a_test(distance))
    }

    fn critical_guess(&self, band: &ShownBand, sharpened: &str) -> String {
        let ShownBand { pace, low, high } = band;
        format!(
            "Critical pace about {pace} per 100, a guess from one test ({low}-{high}){sharpened}."
        )
    }

    fn critical_from(&self, tests: usize, band: &ShownBand, sharpened: &str) -> String {
        let ShownBand { pace, low, high } = band;
        format!("Critical pace about {pace} per 100 ({low}-{high}, from {tests} tests){sharpened}.")
    }

    fn no_critical(&self, test_next: Option<u32>) -> String {
        match test_next {
            Some(distance) => {
                format!("No critical pace from this yet: swim {} next.", a_test(distance))
            }
            None => "No critical pace from this yet.".to_owned(),
        }
    }

    fn next(&self) -> &'static str {
        "Next"
    }

    fn targets_from(&self, trial: &str, day: &str, targets: &str) -> String {
        format!("From {trial} ({day}): {targets}.")
    }

    fn held(&self, held: usize, of: usize, target: Option<&str>) -> String {
        match target {
            Some(target) => format!("held {held} of {of} at {target}"),
            None => format!("held {held} of {of}"),
        }
    }

    fn lost(&self, lost: usize) -> String {
        format!("lost {lost}")
    }

    fn first_lost(&self, number: usize) -> String {
        format!("the first at number {number}")
    }

    fn mean(&self, mean: &str) -> String {
        format!("Mean {mean}")
    }

    fn fade(&self, seconds: f64) -> String {
        let way = if seconds > 0.0 { "slower" } else { "faster" };
        format!("{:.1} s {way} from one to the next", seconds.abs())
    }

    fn slower_is_fine(&self) -> &'static str {
        "This kind of set may always be slower; form first."
    }

    fn change(&self, what: Change, set: &str, target: &str, held: bool) -> String {
        match what {
            Change::FewerRepeats => format!("{set}: fewer, same pace."),
            Change::LongerSendOff => format!("{set}: more rest, same pace."),
            Change::MoreRepeats => format!("Held well! {set}: a step more."),
            Change::ShorterSendOff => format!("Held well! {set}: less rest."),
            Change::FasterTarget => format!("Twice held! {set}: a little faster."),
            Change::SlowerStart => {
                format!("Too fast at first. {set}: start on {target}.")
            }
            Change::Same if held => format!("All held! {set}: the same again."),
            Change::Same => format!("{set}: the same again."),
            Change::Rest => {
                "Off the pace from the start: no change of set. Slept badly, ill or sore? Easy \
                 swim next; text how you are."
                    .to_owned()
            }
            Change::Retest => {
                "Cut back twice on this target: it is out of date. Time for a new test.".to_owned()
            }
        }
    }

    fn beside_goal(&self, time: Centis, goal: Centis) -> String {
        match (goal.less(time), time.less(goal)) {
            (Some(by), _) => {
                format!("Goal {}: met, with {} to spare. Well raced!", goal.short(), difference(by))
            }
            (_, Some(by)) => {
                format!("{} over your goal of {}: still to come.", difference(by), goal.short())
            }
            (None, None) => format!("Goal {}: met to the point. Well raced!", goal.short()),
        }
    }

    fn farther(&self, distance: &str) -> String {
        format!("{distance} without a stop, for the first time here: a milestone!")
    }

    fn cut_short(&self) -> &'static str {
        "Less than was meant is fine; well done for going. The next one is made to measure."
    }

    fn eased(&self) -> &'static str {
        "A hard day; well done for going. The next one is made to measure: less."
    }

    fn next_hard_swim(&self) -> &'static str {
        "Next hard swim"
    }

    fn swum_again(&self) -> &'static str {
        "When you swim it again,"
    }

    fn in_place_of(&self, set: &str) -> String {
        format!("That comes in place of {set}, which is off.")
    }

    fn off_by_test(&self, set: &str) -> String {
        format!("The {set} that was to come is off: new paces.")
    }

    fn a_session(&self) -> &'static str {
        "Session"
    }

    fn effort_of(&self, rpe: Rpe) -> String {
        format!("effort {}", rpe.value())
    }

    fn stored_for(&self, what: &str, day: &str) -> String {
        format!("{what} stored for {day}.")
    }

    fn elsewhere(&self) -> &'static str {
        "It counts as training, not as metres swum."
    }

    fn in_seven_days(&self, distance: &str) -> String {
        format!("{distance} in seven days.")
    }

    fn how_hard(&self) -> &'static str {
        "How hard, 0 to 10? Text it with the session next time: done 1500 45min rpe 6"
    }

    fn predicted(&self, distance: &str, [time, low, high]: [&str; 3], basis: &str) -> String {
        format!("{distance}: about {time} ({low} to {high}), {basis}.")
    }

    fn basis(&self, tests: usize, basis: PredictionBasis) -> String {
        let tests = count(tests, "test", "tests");
        match basis {
            PredictionBasis::Law(exponent) => {
                format!("power law from {tests}, exponent {exponent:.2}")
            }
            PredictionBasis::Curve(_) => format!("your curve from {tests}"),
        }
    }

    fn far_from_tests(&self) -> &'static str {
        "That is far from any distance you tested: take it lightly."
    }

    fn race_on(&self, day: &str, weeks: usize, time: &str) -> String {
        let weeks = count(weeks, "week", "weeks");
        format!("Race on {day}, {weeks} to go: expect about {time} on the day.")
    }

    fn goal(&self, time: &str, verdict: Realism) -> String {
        let verdict = match verdict {
            Realism::Likely => "likely",
            Realism::Possible => "possible",
            Realism::FarOff => "far off for now",
        };
        format!("Goal {time}: {verdict}.")
    }

    fn even_splits(&self, splits: &str) -> String {
        format!("Even splits: {splits}.")
    }

    fn taper_from(&self, day: &str) -> String {
        format!("Taper from {day}.")
    }
}

/// `a 400 test`, `an 800 test`
fn a_test(distance: u32) -> String {
    let article = if distance.to_string().starts_with('8') { "an" } else { "a" };
    format!("{article} {distance} test")
}
