//! Changes of how a set goes on: a pause, the next block, a restart, other blocks.

use super::numbered;
use crate::coaching::evening::cut::is_main;
use crate::coaching::evening::lane::Lane;
use crate::coaching::evening::running::{Line, Running, RunningBlock};
use crate::coaching::evening::written::{WrittenBlock, filled_for};
use crate::session::{Part, Repeat, Scope, Session};
use crate::units::{Centis, SendOff};

/// The repeat that was begun last, with what it leaves, so much longer.
pub(super) fn pause(running: &mut Running, seconds: u32) -> Option<Vec<Repeat>> {
    let begun = running.blocks.iter_mut().flat_map(|block| &mut block.rounds);
    let begun = begun.filter_map(|round| {
        let at = round.iter().rposition(|line| line.swum > 0)?;
        let line = round.get(at)?.clone();
        Some((round, at, line))
    });
    let (round, at, line) = begun.last()?;
    let mut longer = Repeat { count: 1, ..line.repeat.clone() };
    match (longer.send_off, longer.rest) {
        (Some(on), _) => longer.send_off = SendOff::new(on.seconds() + seconds).ok().or(Some(on)),
        (None, rest) => {
            let more = Centis::from_whole_seconds(seconds).ok()?;
            longer.rest = Some(rest.map_or(more, |rest| rest + more));
        }
    }
    let part = |count: u16, swum: u16, repeat: &Repeat| Line {
        repeat: Repeat { count, ..repeat.clone() },
        swum,
    };
    let before = line.swum.saturating_sub(1);
    let parts = [
        part(before, before, &line.repeat),
        part(1, 1, &longer),
        part(line.to_come(), 0, &line.repeat),
    ];
    round.splice(at..=at, parts.into_iter().filter(|line| line.repeat.count > 0));
    Some(Vec::new())
}

/// Nothing more of the first block that isn't over; where by the clock all are, there is
/// nothing to give up.
pub(super) fn move_on(running: &mut Running) -> Option<Vec<Repeat>> {
    let open = |block: &&mut RunningBlock| {
        block.part != Part::SwimDown && block.rounds.iter().flatten().any(|l| l.to_come() > 0)
    };
    let Some(block) = running.blocks.iter_mut().find(open) else { return Some(Vec::new()) };
    for line in block.rounds.iter_mut().flatten() {
        line.repeat.count = line.swum;
    }
    Some(Vec::new())
}

/// The line begun last, from one of its repeats on again.
pub(super) fn restart(running: &mut Running, place: Scope) -> Option<Vec<Repeat>> {
    let from = match place {
        Scope::FromRepeat(number) => number.max(1),
        _ => 1,
    };
    let lines = running.blocks.iter_mut().flat_map(|block| block.rounds.iter_mut().flatten());
    let line = lines.filter(|line| line.swum > 0).last()?;
    let again = line.repeat.count.saturating_sub(from - 1).max(1);
    line.repeat.count = line.swum.saturating_add(again);
    Some(vec![Repeat { count: again, ..line.repeat.clone() }])
}

/// The main set without its last round, but for what is swum of it.
pub(super) fn skip_round(session: &Session, running: &mut Running) -> Option<Vec<Repeat>> {
    let mains = session.blocks.iter().zip(&mut running.blocks).rev();
    let (block, rounds) =
        mains.into_iter().find(|(block, _)| is_main(session, block) && block.rounds > 1)?;
    for line in rounds.rounds.last_mut()?.iter_mut() {
        line.repeat.count = line.swum;
    }
    Some(block.repeats.first().cloned().into_iter().collect())
}

/// Blocks behind all but the swim-down.
pub(super) fn add(running: &mut Running, lane: &Lane, blocks: &[WrittenBlock]) -> Vec<Repeat> {
    let new = filled_for(lane, blocks);
    let lines = new.iter().flat_map(|block| block.repeats.clone()).collect();
    let end = running.blocks.iter().position(|block| block.part == Part::SwimDown);
    let end = end.unwrap_or(running.blocks.len());
    running.blocks.splice(end..end, new.iter().map(RunningBlock::to_come));
    lines
}

/// Blocks in the place of what is to come of others.
pub(super) fn instead(
    session: &Session,
    running: &mut Running,
    lane: &Lane,
    place: Scope,
    blocks: &[WrittenBlock],
) -> Option<Vec<Repeat>> {
    let line = match place {
        Scope::Line(number) => Some(numbered(session, number)?),
        _ => None,
    };
    let goes = |at: usize, block: &RunningBlock| match place {
        Scope::Line(_) => line.is_some_and(|(block, _)| block == at),
        Scope::SwimDown => block.part == Part::SwimDown,
        Scope::WarmUp => block.part == Part::WarmUp,
        Scope::Rest => block.part != Part::SwimDown,
        _ => session.blocks.get(at).is_some_and(|block| is_main(session, block)),
    };
    let going = running.blocks.iter().enumerate().filter(|(at, block)| goes(*at, block));
    let going: Vec<usize> = going.map(|(at, _)| at).collect();
    let last = *going.last()?;
    let mut behind = None;
    for at in going {
        let block = running.blocks.get_mut(at)?;
        // Of a block of several lines that is swum once, those behind the one stay behind.
        if let (Some((_, line)), [round]) = (line, block.rounds.as_mut_slice()) {
            let rest = round.split_off((line + 1).min(round.len()));
            let (part, rounds) = (block.part, vec![rest]);
            behind = Some(RunningBlock { part, rounds });
        }
        for round in &mut block.rounds {
            let meant = |(at, _): &(usize, _)| line.is_none_or(|(_, line)| line == *at);
            for (_, line) in round.iter_mut().enumerate().filter(meant) {
                line.repeat.count = line.swum;
            }
        }
    }
    let mut new = filled_for(lane, blocks);
    if place == Scope::SwimDown {
        new.iter_mut().for_each(|block| block.part = Part::SwimDown);
    }
    let lines = new.iter().flat_map(|block| block.repeats.clone()).collect();
    let new = new.iter().map(RunningBlock::to_come).chain(behind);
    running.blocks.splice(last + 1..last + 1, new);
    Some(lines)
}
