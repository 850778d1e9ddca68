//! The gentle version of a lane's session, on the lane's clock: for whoever is
//! sore, ill, held, new or not cleared. It says of nobody why.

use super::cut::shortened;
use crate::coaching::limits::within;
use crate::coaching::paces::Paces;
use crate::coaching::rulebook::{RuleId, Rulebook};
use crate::coaching::swimmer_state::SwimmerState;
use crate::coaching::{Facts, Refusal, next};
use crate::session::{Block, Cue, Purpose, Repeat, Session};
use crate::units::{Course, Equipment, Level, SendOff, Stroke};

/// `session` as they may swim it: their own times to hold, or the gentle version
/// where a rule wants that; with what the coach wants them to think of.
///
/// # Errors
/// [`RefusalReason::Stopped`](crate::coaching::RefusalReason::Stopped) while
/// faintness or chest pain is open.
pub fn for_swimmer(
    book: &Rulebook,
    session: &Session,
    facts: &Facts,
    course: Course,
) -> Result<Session, Refusal> {
    let state = SwimmerState::of(facts, book);
    next::refuse_if_stopped(&state)?;
    let mut own = match gentle_by(&state) {
        Some(rule) => gentle(&state, rule, session, course),
        None => super::with_own_targets(session, facts, course),
    };
    own = within(&own, &facts.limits);
    let first = own.blocks.iter_mut().flat_map(|block| &mut block.repeats).next();
    if let (Some(focus), Some(line)) = (&facts.focus, first) {
        line.cue = Some(Cue::Coach(focus.clone()));
    }
    Ok(own)
}

/// True if they swim the gentle version, whatever the lane does.
pub fn swims_gently(book: &Rulebook, facts: &Facts) -> bool {
    let state = SwimmerState::of(facts, book);
    state.open.faint || gentle_by(&state).is_some()
}

/// True if all that keeps them from a flat-out swim is that they have swum too
/// little yet.
pub fn is_only_new(book: &Rulebook, facts: &Facts) -> bool {
    let state = SwimmerState::of(facts, book);
    let gentle = gentle_by(&state).is_none_or(|rule| rule == RuleId::FirstSwimsEasy);
    facts.cleared && facts.open.is_empty() && gentle
}

/// The rule that wants the gentle version. Without a test they have no time to
/// hold, and may swim what the lane swims.
fn gentle_by(state: &SwimmerState<'_>) -> Option<RuleId> {
    state.easy_only().filter(|rule| *rule != RuleId::NoTest)
}

fn gentle(state: &SwimmerState<'_>, rule: RuleId, session: &Session, course: Course) -> Session {
    let paces = Paces::of(state.facts, course);
    let blocks = session.blocks.iter().map(|block| Block {
        repeats: block.repeats.iter().map(|line| slowed(state, &paces, line)).collect(),
        ..block.clone()
    });
    let purpose = match state.open.lowers() || state.comeback.is_some() {
        true => Purpose::Return,
        false => Purpose::Endurance,
    };
    let rules = vec![rule.id().to_owned()];
    let easy = Session { purpose, blocks: blocks.collect(), rules, ..session.clone() };
    let share = match rule {
        RuleId::PainEasy | RuleId::IllEasy => state.book.share(rule),
        rule if state.comeback.is_some_and(|comeback| comeback.rule == rule) => {
            state.book.share(rule)
        }
        _ => return easy,
    };
    let most = f64::from(session.amount()) * share;
    let mut gentle = easy;
    // A repeat less each time, down to what is never given up.
    while f64::from(gentle.amount()) > most {
        let shorter = shortened(&gentle, 0, gentle.duration_s().saturating_sub(1)).session;
        if shorter.amount() == gentle.amount() {
            break;
        }
        gentle = shorter;
    }
    gentle
}

/// A line swum easily on the lane's clock: every other repeat where the send-off
/// leaves no rest.
fn slowed(state: &SwimmerState<'_>, paces: &Paces, line: &Repeat) -> Repeat {
    let mut easy = Repeat { target: None, aim: None, level: Level::Easy, ..unloaded(state, line) };
    let Some(time) = paces.easy_time(line.distance, easy.stroke) else { return easy };
    let least = SendOff::after(time, 5);
    match line.send_off {
        Some(on) if on >= least => {}
        Some(on) if line.count > 1 && on.seconds() * 2 >= least.seconds() => {
            easy.count = line.count / 2;
            easy.send_off = SendOff::new(on.seconds() * 2).ok().or(Some(least));
        }
        _ => (easy.send_off, easy.rest) = (Some(least), None),
    }
    easy
}

/// The line without what loads a sore place.
fn unloaded(state: &SwimmerState<'_>, line: &Repeat) -> Repeat {
    let mut line = line.clone();
    if !state.open.lowers() {
        return line;
    }
    line.equipment.retain(|kit| !matches!(kit, Equipment::Paddles | Equipment::Board));
    let hurts = |places: &[&str]| places.iter().any(|place| state.open.hurts(place));
    let loads = match line.stroke {
        Stroke::Fly | Stroke::Im => hurts(&["shoulder", "back", "neck"]),
        Stroke::Breast | Stroke::Kick => hurts(&["knee", "hip"]),
        _ => false,
    };
    if loads {
        line.stroke = Stroke::Free;
    }
    line
}
