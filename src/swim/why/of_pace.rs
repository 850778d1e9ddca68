//! Why a pace, a target or a test is what it is.

use super::{Explanation, Source, Sureness};
use crate::swim::Trial;
use crate::swim::critical_speed::{Basis, EXPONENT, Estimate};
use crate::swim::even_pace::Target;
use crate::swim::levels::Band;
use crate::swim::next_test::NextTest;
use crate::units::{Centis, Distance, Level, Pace};

/// An even-pace target out of a test, with its send-off if it has one.
pub fn even_pace(distance: Distance, time: Centis, target: &Target) -> Explanation {
    let piece = target.distance;
    let send_off = match target.send_off {
        Some(send_off) => {
            let rest = send_off.rest_after(target.time);
            let rest = rest.map_or_else(
                || "no rest".to_owned(),
                |rest| match rest.hundredths() {
                    ..6000 => format!("{} s rest", rest.short()),
                    _ => format!("{} rest", rest.to_second().short()),
                },
            );
            format!("; leave every {send_off}: {rest}")
        }
        None => String::new(),
    };
    let share = f64::from(piece.amount()) / f64::from(distance.amount());
    let push = target.time.seconds() - time.seconds() * share;
    let push = if push > 0.01 { format!(" + {push:.1} for the push") } else { String::new() };
    Explanation {
        number: "even-pace target",
        formula: "time x piece / distance (+ 0.5 s for a 25, 1 s for more, after a dive); \
            send-off = target + rest, up to the next 5 s",
        with: format!(
            "{} x {} / {}{push} = {}{send_off}",
            time.short(),
            piece.amount(),
            distance.amount(),
            target.time.short()
        ),
        source: Source::CommonPractice,
        sureness: Sureness::RuleOfThumb,
    }
}

/// The formula of critical speed from one test.
pub const CRITICAL_FROM_ONE: &str =
    "T400 and T200 = time x (400 or 200 / distance)^1.095; per 100 = (T400 - T200) / 2";

/// The formula of critical speed from several.
pub const CRITICAL_BY_CURVE: &str = "94 % of the speed over 400 by your curve: each result pulls \
    at its own distance, the weaker the older; near distances pull each other, far ones hardly";

/// Critical speed; `None` where there is none.
pub fn critical_speed(estimate: &Estimate) -> Option<Explanation> {
    let band = estimate.band?;
    let tests: Vec<String> = estimate.made_from.iter().map(named).collect();
    let band_of = |meaning| Sureness::Band {
        low: band.low.to_string(),
        high: band.high.to_string(),
        meaning,
    };
    match estimate.basis {
        Basis::None => None,
        Basis::OneTest => {
            let test = estimate.made_from.first()?;
            let at = |distance: f64| {
                let ratio = distance / f64::from(test.distance.amount());
                shown_seconds(test.time.seconds() * libm::pow(ratio, EXPONENT))
            };
            Some(Explanation {
                number: "critical speed per 100",
                formula: CRITICAL_FROM_ONE,
                with: format!(
                    "{}: ({} - {}) / 2 = {}",
                    tests.join(", "),
                    at(400.0),
                    at(200.0),
                    band.pace
                ),
                source: Source::Ours(
                    "the exponent at which critical speed is 94 % of the 400's speed, the mean \
                        of 18 national and international men",
                ),
                sureness: band_of(
                    "where it is 97 to 91 % of the 400's speed, two standard deviations either \
                        way; at least the typical error of the test",
                ),
            })
        }
        Basis::Curve => {
            let beside = estimate.linear.as_ref().map_or_else(String::new, |line| {
                format!(
                    "; the plain line through {} says {}, reserve {:.0} m (unreliable)",
                    line.made_from.iter().map(named).collect::<Vec<_>>().join(", "),
                    line.pace,
                    line.reserve.get()
                )
            });
            Some(Explanation {
                number: "critical speed per 100",
                formula: CRITICAL_BY_CURVE,
                with: format!("{}: {} per 100{beside}", tests.join(", "), band.pace),
                source: Source::Ours(
                    "the share: 94.0 (1.5) % in 18 national and international men; errors of \
                        tests: Scott, Burden & Dekerle 2023, J Hum Kinet 90:239-251; the line: \
                        Wakayoshi et al. 1992, Eur J Appl Physiol 64:153-157",
                ),
                sureness: band_of("four in five"),
            })
        }
    }
}

/// The pace of a level for a distance; `None` past 24 h.
pub fn level(band: &Band, critical: Pace, distance: Distance) -> Option<Explanation> {
    let (slow, fast) = band.times(critical, distance)?;
    let source = match band.level {
        Level::Sprint => Source::CommonPractice,
        _ => Source::Ours(
            "ordered by Wakayoshi et al. 1993, Eur J Appl Physiol 66:90-95: lactate falls at 98 \
                % of critical speed, is steady at 100, rises at 102",
        ),
    };
    Some(Explanation {
        number: "pace of a level",
        formula: "time = distance / (percent x critical speed)",
        with: format!(
            "level {}, {:.0} to {:.0} % of the speed of {critical} per 100: {distance} in {} to {}",
            band.level.number(),
            band.slow_percent,
            band.fast_percent,
            slow.to_tenth().short(),
            fast.to_tenth().short()
        ),
        source,
        sureness: Sureness::RuleOfThumb,
    })
}

/// The test to swim next.
pub fn next_test(next: &NextTest) -> Explanation {
    let now = match next.unsure_percent_now {
        Some(percent) => format!("critical speed is known to {percent:.1} %"),
        None => "critical speed is not known".to_owned(),
    };
    Explanation {
        number: "next test",
        formula: "among 200, 400 and 800 up to 15 min: most narrowing of critical speed for each \
            minute swum",
        with: format!("{now}; after a {} to {:.1} %", next.distance, next.unsure_percent_then),
        source: Source::Ours(
            "typical error of a trial 2 % (Scott, Burden & Dekerle 2023), exponent 1.095 with \
                standard deviation 0.025",
        ),
        sureness: Sureness::RuleOfThumb,
    }
}

/// A test by its distance, time and date.
pub(super) fn named(trial: &Trial) -> String {
    format!("{} in {} on {}", trial.distance, trial.time.short(), trial.on)
}

/// Seconds as a time to the tenth.
pub(super) fn shown_seconds(seconds: f64) -> String {
    Centis::from_seconds(seconds)
        .map_or_else(|_| format!("{seconds:.1} s"), |t| t.to_tenth().short())
}
