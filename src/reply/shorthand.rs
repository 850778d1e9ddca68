//! A session as it would stand on a whiteboard: our own layout, the same in
//! every language but for the words handed in.

use super::Voice;
use crate::session::{Block, Part, Repeat};
use crate::units::{Centis, Level, Stroke};

/// A block: `2x(3x50 1:10 on 1:35, 50 easy on 2:15)`. Parts that are easy by
/// nature do not say so.
pub fn block_shorthand(block: &Block, words: Voice) -> String {
    let implied = match block.part {
        Part::WarmUp | Part::SwimDown | Part::Recovery => Implied::Easy,
        Part::Drill => Implied::EasyDrill,
        Part::Test => Implied::Test,
        Part::Build | Part::Main => Implied::Nothing,
    };
    let listed = |lines: &[Repeat]| {
        let lines = lines.iter().map(|repeat| shorthand(repeat, words, implied));
        lines.collect::<Vec<_>>().join(", ")
    };
    if block.rounds > 1 {
        return format!("{}x({})", block.rounds, listed(&block.repeats));
    }
    let part = |(times, lines): (usize, &[Repeat])| match times {
        1 => listed(lines),
        times => format!("{times}x({})", listed(lines)),
    };
    rounds_in(&block.repeats).into_iter().map(part).collect::<Vec<_>>().join(", ")
}

/// Lines, those that come again and again told once: what was changed on the way is
/// swum in no rounds any more, and mostly still is.
fn rounds_in(lines: &[Repeat]) -> Vec<(usize, &[Repeat])> {
    let mut parts = Vec::new();
    let mut rest = lines;
    while !rest.is_empty() {
        let times = |long: usize| {
            rest.chunks_exact(long).take_while(|round| rest.starts_with(round)).count()
        };
        let best = (2..=rest.len() / 2).max_by_key(|long| (times(*long) - 1) * long);
        let long = best.filter(|long| times(*long) > 1).unwrap_or(1);
        let times = if long > 1 { times(long) } else { 1 };
        let (round, _) = rest.split_at(long);
        parts.push((times, round));
        (_, rest) = rest.split_at(long * times);
    }
    parts
}

/// A main block, in which easy swims between the repeats go without a send-off:
/// `2x(7x100 1:29 on 1:45, 50 easy)`.
pub fn main_shorthand(block: &Block, words: Voice) -> String {
    let asks = block.repeats.iter().any(|line| line.level > Level::Easy);
    let brief = |line: &Repeat| match line.level {
        Level::Easy if asks => Repeat { send_off: None, rest: None, cue: None, ..line.clone() },
        _ => line.clone(),
    };
    let repeats = block.repeats.iter().map(brief).collect();
    block_shorthand(&Block { repeats, ..block.clone() }, words)
}

/// A repeat: `6x50 48 on 1:15`, `4x25 fins on 1:15`, `200 easy`.
pub fn repeat_shorthand(repeat: &Repeat, words: Voice) -> String {
    shorthand(repeat, words, Implied::Nothing)
}

/// A line for all of a lane, whose times to hold differ: `6x50 on 1:15`.
pub fn line_shorthand(repeat: &Repeat, words: Voice) -> String {
    let untimed = Repeat { target: None, ..repeat.clone() };
    shorthand(&untimed, words, Implied::Level)
}

/// What need not be said.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Implied {
    Nothing,
    Easy,
    EasyDrill,
    Level,
    /// A test has no clock, and is as fast as it can be swum.
    Test,
}

fn shorthand(repeat: &Repeat, words: Voice, implied: Implied) -> String {
    let mut out = match repeat.count {
        1 => repeat.distance.amount().to_string(),
        count => format!("{count}x{}", repeat.distance.amount()),
    };
    let mut add = |word: &str| {
        out.push(' ');
        out.push_str(word);
    };
    let is_implied_drill = implied == Implied::EasyDrill && repeat.stroke == Stroke::Drill;
    if repeat.stroke != Stroke::Free && !is_implied_drill {
        add(words.stroke(repeat.stroke));
    }
    for equipment in &repeat.equipment {
        add(words.equipment(*equipment));
    }
    match repeat.target {
        // An easy swim is swum by feel; its target is a bound, not an aim.
        Some(target) if repeat.level > Level::Easy => add(&shown(target)),
        _ if matches!(implied, Implied::Level | Implied::Test) => {}
        _ if repeat.level == Level::Easy && implied != Implied::Nothing => {}
        _ => add(words.level(repeat.level)),
    }
    if implied == Implied::Test && repeat.target.is_none() {
        return out;
    }
    if let Some(send_off) = repeat.send_off {
        add(words.on());
        add(&send_off.to_string());
    } else if let Some(rest) = repeat.rest {
        add(words.rest());
        add(&rest.to_second().short());
    }
    out
}

/// A target as it is read off a clock: tenths under a minute and a half,
/// whole seconds above.
pub fn shown(time: Centis) -> String {
    if time.hundredths() < 9000 { time.to_tenth().short() } else { time.to_second().short() }
}
