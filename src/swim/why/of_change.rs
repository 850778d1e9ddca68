//! Why a set counts as held, a change as real, a week as heavy.

use super::{Explanation, Source, Sureness};
use crate::swim::Trial;
use crate::swim::load::{Balance, Monotony, Week};
use crate::swim::real_change::Change;
use crate::swim::set::SetAnalysis;
use crate::swim::splits::Pacing;
use crate::units::Centis;

/// A paced set: held, lost and fading.
pub fn set(target: Centis, set: &SetAnalysis) -> Explanation {
    let fade = set.shape.and_then(|shape| shape.fade).map_or_else(String::new, |fade| {
        format!("; {:+.2} s a repeat, the median of all pairs' slopes", fade.get())
    });
    let limit = target + set.tolerance;
    Explanation {
        number: "held and missed",
        formula: "held = no slower than the target by the larger of 2 % and 1.0 s (0.5 s with \
            tenths)",
        with: format!(
            "target {}, up to {}: held {} of {}{fade}",
            target.short(),
            limit.short(),
            set.held,
            set.repeats
        ),
        source: Source::CommonPractice,
        sureness: Sureness::Exact,
    }
}

/// How a swim was paced.
pub fn pacing(pacing: &Pacing) -> Explanation {
    let verdict = if pacing.faded { ", too much for an even test" } else { "" };
    Explanation {
        number: "pacing",
        formula: "second half / first half - 1; over 6 % is a badly paced test",
        with: format!("second half {:+.1} %{verdict}", pacing.second_half_percent),
        source: Source::Ours(
            "elite 400s are swum fast-start-even or parabolic: Mauger et al. 2012, Med Sci \
                Sports Exerc 44:2205-2212",
        ),
        sureness: Sureness::Exact,
    }
}

/// A change between two tests.
pub fn change(old: &Trial, new: &Trial, change: &Change) -> Explanation {
    let (low, high) = change.limits_90;
    Explanation {
        number: "real change",
        formula: "gain = 100 x ln(old / new); chances from its error, the root of both typical \
            errors squared and added, against 0.3 of the typical error",
        with: format!(
            "{} then {}: {:+.1} %, faster {:.0} in 100, no matter {:.0}, slower {:.0}",
            old.time.short(),
            new.time.short(),
            change.percent,
            change.faster * 100.0,
            change.same * 100.0,
            change.slower * 100.0
        ),
        source: Source::Published(
            "Hopkins 2004, Sportscience 8:1-7; typical error 1.4 % at a meet: Stewart & Hopkins \
                2000, Med Sci Sports Exerc 32:997-1001; 2 % in training: Scott, Burden & Dekerle \
                2023",
        ),
        sureness: Sureness::Band {
            low: format!("{low:+.1} %"),
            high: format!("{high:+.1} %"),
            meaning: "nine in ten",
        },
    }
}

/// A week's load, its monotony and strain.
pub fn week(week: &Week) -> Explanation {
    let total = week.total.units();
    let with = match week.monotony {
        Monotony::Rest => "no training".to_owned(),
        Monotony::EveryDayTheSame => format!("load {total:.0}, every day the same"),
        Monotony::Varied { monotony, strain } => {
            format!("load {total:.0}, monotony {monotony:.2}, strain {strain:.0}")
        }
    };
    Explanation {
        number: "week's load",
        formula: "load = sum of RPE x minutes; monotony = mean / standard deviation of the seven \
            days; strain = load x monotony",
        with,
        source: Source::Published(
            "Foster et al. 2001, J Strength Cond Res 15(1):109-115; Foster 1998, Med Sci Sports \
                Exerc 30:1164-1168",
        ),
        sureness: Sureness::DescribesOnly,
    }
}

/// Recent load beside usual load.
pub fn balance(balance: &Balance) -> Explanation {
    let ratio =
        balance.ratio.map_or_else(String::new, |ratio| format!(": {ratio:.2} times as much"));
    Explanation {
        number: "recent beside usual load",
        formula: "weighted means, each day 2/(N+1) of the new and the rest of the old, N = 7 and \
            28",
        with: format!(
            "recent {:.0} a day, usual {:.0} a day{ratio}",
            balance.recent.units(),
            balance.usual.units()
        ),
        source: Source::Published("Williams et al. 2017, Br J Sports Med 51:209-210"),
        sureness: Sureness::DescribesOnly,
    }
}
