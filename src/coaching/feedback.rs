//! What the result of a set changes next time: exactly one thing.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use super::own_targets::own_time;
use super::paces::Paces;
use super::rulebook::{RuleId, Rulebook};
use super::swimmer_state::{SwimmerState, days_between};
use super::{Facts, SetSwum, Trouble};
use crate::session::Repeat;
use crate::swim::levels::Band;
use crate::swim::set::{SetAnalysis, Shape, analyse, shape};
use crate::units::{Centis, Level, SendOff, Stroke};

/// What changes, by the contract's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[derive(VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Change {
    /// A faster target.
    FasterTarget,
    /// Fewer repeats.
    FewerRepeats,
    /// A longer send-off.
    LongerSendOff,
    /// More repeats.
    MoreRepeats,
    /// The same set after rest, and a word about sleep and health.
    Rest,
    /// The same set, and a new test: the target is stale.
    Retest,
    /// The same set.
    Same,
    /// A shorter send-off.
    ShorterSendOff,
    /// The same set, started on the target.
    SlowerStart,
}

/// The set to swim next time: only the field that `what` names differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NextSet {
    /// What differs.
    pub what: Change,
    /// The whole set.
    pub set: Repeat,
}

/// What a result says and changes.
#[derive(Debug, Clone, PartialEq)]
pub struct SetFeedback {
    /// The set judged by its target; none where there is no target or no times.
    pub analysis: Option<SetAnalysis>,
    /// The shape of the times, whatever the target.
    pub shape: Option<Shape>,
    /// The set for next time.
    pub change: NextSet,
    /// An easy, steady or technique set, which may always be slower.
    pub slower_is_fine: bool,
    /// The rules that decided.
    pub rules: Vec<String>,
}

impl SetFeedback {
    /// How many repeats were held; none where there was nothing to hold.
    pub fn held(&self) -> u16 {
        let held = self.analysis.as_ref().map(|analysis| analysis.held);
        held.and_then(|held| u16::try_from(held).ok()).unwrap_or_default()
    }

    /// True if its next step can be promised.
    pub fn is_of_pace(&self) -> bool {
        self.analysis.is_some() && !self.slower_is_fine
    }
}

/// Judges a set and settles the one change for next time.
pub fn feedback(facts: &Facts, result: &SetSwum) -> SetFeedback {
    feedback_by(&Rulebook::default(), facts, result)
}

/// [`feedback`] by a coach's own numbers.
pub fn feedback_by(book: &Rulebook, facts: &Facts, result: &SetSwum) -> SetFeedback {
    let state = SwimmerState::of(facts, book);
    let target = result.set.target;
    let judged = target.filter(|_| !result.times.is_empty());
    let analysis = judged.map(|target| analyse(target, &result.times));
    let slower_is_fine = slower_is_fine(&state, &result.set);
    let (what, because) = match analysis {
        _ if slower_is_fine => (Change::Same, RuleId::SlowerIsFine),
        Some(analysis) => decide(&state, result, &analysis),
        None => (Change::Same, RuleId::NoTest),
    };
    let (what, set) = apply(&state, result, analysis.as_ref(), what);
    SetFeedback {
        analysis,
        shape: shape(&result.times),
        change: NextSet { what, set },
        slower_is_fine,
        rules: vec![because.id().to_owned()],
    }
}

/// The target that a reported set is judged by if it names none: that of the
/// suggested hard set of the same distance, stroke and send-off, the newest
/// first; else the even pace of the newest test, or threshold where the set is
/// too long to be swum at test pace.
pub fn target_for(facts: &Facts, set: &Repeat) -> Option<Centis> {
    let suggested = facts
        .suggested
        .iter()
        .rev()
        .filter(|session| (-7..=7).contains(&days_between(session.on, facts.today)))
        .flat_map(|session| session.main())
        .flat_map(|block| &block.repeats)
        .find(|line| {
            line.level.is_hard()
                && line.distance == set.distance
                && line.stroke == set.stroke
                && set.send_off.is_none_or(|send_off| line.send_off == Some(send_off))
        })
        .and_then(|line| own_time(facts, line));
    suggested.or_else(|| {
        let paces = Paces::of(facts, facts.course);
        let same = set.stroke == paces.stroke;
        let newest = paces.newest().filter(|_| same)?;
        // Nobody swims far more than the test at its pace: that was threshold.
        if set.amount() * 2 > newest.distance.amount() * 5 {
            return paces.at(TEST_PACE_OUTLASTED, set.distance).map(|hold| hold.time);
        }
        let even = paces.even(newest, set.distance).map(|hold| hold.time)?;
        Some(paces.by_coach(set.distance, even))
    })
}

/// Percent of critical speed by which a set of more than two and a half times
/// the test is judged: the slow half of threshold (ours; at test pace one to
/// two times the test is common practice).
const TEST_PACE_OUTLASTED: f64 = 98.0;

fn decide(state: &SwimmerState<'_>, result: &SetSwum, analysis: &SetAnalysis) -> (Change, RuleId) {
    if state.open.ill_since.is_some() || state.open.faint {
        return (Change::Rest, RuleId::NothingRaised);
    }
    if analysis.fast_start {
        return (Change::SlowerStart, RuleId::FastStart);
    }
    if analysis.missed == 0 {
        return if state.open.any() {
            (Change::Same, RuleId::NothingRaised)
        } else {
            raise(state, result, analysis)
        };
    }
    lower(state, result, analysis)
}

/// One step up after a set that was held.
fn raise(state: &SwimmerState<'_>, result: &SetSwum, analysis: &SetAnalysis) -> (Change, RuleId) {
    let book = state.book;
    if !is_comfortable(result, analysis) {
        return (Change::Same, RuleId::HeldJust);
    }
    // A time that the coach set is theirs to change.
    let by_coach = is_by_coach(state, result);
    if faster_by_test(state, result).is_some() {
        return (Change::FasterTarget, RuleId::FasterStep);
    }
    let mut running = 1;
    for earlier in earlier_on_target(state.facts, result) {
        if verdict(earlier).is_some_and(|analysis| analysis.missed == 0) {
            running += 1;
        } else {
            break;
        }
    }
    if !by_coach
        && running >= book.whole(RuleId::HeldBeforeFaster)
        && faster(book, result).is_some()
    {
        return (Change::FasterTarget, RuleId::HeldBeforeFaster);
    }
    if more_repeats(state, result).is_some() {
        return (Change::MoreRepeats, RuleId::StepRepeats);
    }
    if shorter_send_off(state, result).is_some() {
        return (Change::ShorterSendOff, RuleId::StepSendOffShorter);
    }
    (Change::Same, RuleId::SameAgain)
}

/// True if the coach set the time that a set is to be held in.
fn is_by_coach(state: &SwimmerState<'_>, result: &SetSwum) -> bool {
    let paces = state.paces();
    result.set.stroke == paces.stroke && paces.is_by_coach(result.set.distance)
}

/// One step down after a set that was not held; never a slower target.
fn lower(state: &SwimmerState<'_>, result: &SetSwum, analysis: &SetAnalysis) -> (Change, RuleId) {
    let book = state.book;
    let count = analysis.repeats as f64;
    let first_lost = analysis.first_lost.unwrap_or(1);
    if first_lost == 1 && analysis.held * 2 < analysis.repeats {
        return (Change::Rest, RuleId::LostFromFirst);
    }
    let wanted = book.whole(RuleId::CutBacks);
    let earlier = earlier_on_target(state.facts, result)
        .take_while(|earlier| verdict(earlier).is_some_and(|a| a.missed > 0 && !a.fast_start));
    if 1 + earlier.count() as i64 >= wanted {
        return (Change::Retest, RuleId::CutBacks);
    }
    let at_the_end = (first_lost - 1) as f64 >= count * (1.0 - book.share(RuleId::LastQuarter));
    if at_the_end && fewer_repeats(book, analysis) < result.set.count {
        (Change::FewerRepeats, RuleId::LastQuarter)
    } else {
        (Change::LongerSendOff, RuleId::StepSendOffLonger)
    }
}

/// The whole set with the one field changed; a change that can't be made leaves
/// the set as it is and says so.
fn apply(
    state: &SwimmerState<'_>,
    result: &SetSwum,
    analysis: Option<&SetAnalysis>,
    what: Change,
) -> (Change, Repeat) {
    let book = state.book;
    let mut set = result.set.clone();
    let done = match what {
        Change::FewerRepeats => analysis.map(|analysis| set.count = fewer_repeats(book, analysis)),
        Change::MoreRepeats => more_repeats(state, result).map(|count| set.count = count),
        Change::FasterTarget => faster_by_test(state, result)
            .or_else(|| faster(book, result))
            .map(|target| set.target = Some(target)),
        Change::ShorterSendOff => shorter_send_off(state, result).map(|on| set.send_off = Some(on)),
        Change::LongerSendOff => {
            let more = book.whole(RuleId::StepSendOffLonger).unsigned_abs() as u32;
            match (set.send_off, set.rest, set.target) {
                (None, Some(rest), _) => Centis::new(rest.hundredths() + more * 100)
                    .ok()
                    .map(|rest| set.rest = Some(rest)),
                (Some(on), _, _) => {
                    SendOff::new(on.seconds() + more).ok().map(|on| set.send_off = Some(on))
                }
                // No send-off was said: the usual one for the pace, and the step.
                (None, None, Some(target)) => {
                    let level = level_of(state, &set, target);
                    let usual = Band::of(level).send_off(set.distance, target);
                    SendOff::new(usual.seconds() + more).ok().map(|on| set.send_off = Some(on))
                }
                (None, None, None) => None,
            }
        }
        Change::Rest | Change::Retest | Change::Same | Change::SlowerStart => Some(()),
    };
    match done {
        Some(()) => (what, set),
        None => (Change::Same, result.set.clone()),
    }
}

fn fewer_repeats(book: &Rulebook, analysis: &SetAnalysis) -> u16 {
    let least = (analysis.repeats as f64 * book.share(RuleId::FewestRepeats)).ceil() as usize;
    u16::try_from(analysis.held.max(least).max(1)).unwrap_or(u16::MAX)
}

/// One or two repeats more, at most a quarter, within the level's minutes.
fn more_repeats(state: &SwimmerState<'_>, result: &SetSwum) -> Option<u16> {
    let count = f64::from(result.set.count);
    let step = (count * state.book.share(RuleId::StepRepeats)).floor().min(2.0) as u16;
    let target = result.set.target?;
    let dose = Band::of(level_of(state, &result.set, target)).dose_min;
    let within = |more: u16| {
        let minutes = f64::from(result.set.count + more) * target.seconds() / 60.0;
        dose.is_none_or(|(_, most)| minutes <= f64::from(most))
    };
    (1..=step).rev().find(|more| within(*more)).map(|more| result.set.count + more)
}

/// Five seconds less, as long as ten of rest are left (five after a 25).
fn shorter_send_off(state: &SwimmerState<'_>, result: &SetSwum) -> Option<SendOff> {
    let less = state.book.whole(RuleId::StepSendOffShorter).unsigned_abs() as u32;
    let send_off = SendOff::new(result.set.send_off?.seconds().checked_sub(less)?).ok()?;
    let rest = send_off.rest_after(result.set.target?)?;
    let least = if result.set.distance.amount() <= 25 { 500 } else { 1000 };
    (rest.hundredths() >= least).then_some(send_off)
}

/// A hundredth of it faster, and no more than a second for each 100.
fn faster(book: &Rulebook, result: &SetSwum) -> Option<Centis> {
    let target = result.set.target?;
    let by_share = f64::from(target.hundredths()) * book.share(RuleId::FasterStep);
    let step = by_share.min(f64::from(result.set.distance.amount())).floor() as u32;
    let faster = Centis::new(target.hundredths().checked_sub(step)?).ok()?;
    // A tenth is what a watch shows; the step never grows by rounding.
    let shown = Centis::new(faster.hundredths().div_ceil(10) * 10).ok()?;
    [shown, faster].into_iter().find(|one| *one < target)
}

/// The target of a test swum since the set was last swum on this target, if
/// that test is faster, at most one step at a time.
fn faster_by_test(state: &SwimmerState<'_>, result: &SetSwum) -> Option<Centis> {
    let facts = state.facts;
    let last = earlier_on_target(facts, result).next().map(|earlier| earlier.on)?;
    let paces = state.paces();
    let test = paces.newest().filter(|test| test.on > last && test.on <= result.on)?;
    let even = paces.even(test, result.set.distance)?.time;
    (even < result.set.target?).then(|| faster(state.book, result).map(|t| t.max(even)))?
}

/// Comfortable: on the mean no slower than half the tolerance over the target.
fn is_comfortable(result: &SetSwum, analysis: &SetAnalysis) -> bool {
    let (Some(target), Some(shape)) = (result.set.target, analysis.shape) else { return false };
    shape.mean.get() <= target.seconds() + analysis.tolerance.seconds() / 2.0
}

/// Earlier sets of the same distance, stroke and target, newest first.
fn earlier_on_target<'a>(
    facts: &'a Facts,
    result: &'a SetSwum,
) -> impl Iterator<Item = &'a SetSwum> {
    // The result itself may already be among the facts.
    let sets = match facts.sets.as_slice() {
        [before @ .., last] if last == result => before,
        all => all,
    };
    sets.iter().rev().filter(move |earlier| {
        earlier.on <= result.on
            && earlier.set.distance == result.set.distance
            && earlier.set.stroke == result.set.stroke
            && earlier.set.target == result.set.target
    })
}

fn verdict(swum: &SetSwum) -> Option<SetAnalysis> {
    swum.set.target.filter(|_| !swum.times.is_empty()).map(|target| analyse(target, &swum.times))
}

fn level_of(state: &SwimmerState<'_>, set: &Repeat, target: Centis) -> Level {
    state.paces().level(set.distance, target)
}

/// Easy, steady and technique sets, and all while something is open.
fn slower_is_fine(state: &SwimmerState<'_>, set: &Repeat) -> bool {
    if matches!(set.stroke, Stroke::Drill | Stroke::Kick) {
        return true;
    }
    let sore = state.facts.open.iter().any(|trouble| matches!(trouble, Trouble::Ill { .. }));
    let settles = |target| level_of(state, set, target) <= Level::Steady;
    !sore && state.paces().critical.is_some() && set.target.is_some_and(settles)
}
