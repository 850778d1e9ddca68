//! A coach's own set, filled in for a lane: send-offs, times to hold, levels.
//!
//! What they wrote stands; what they left open comes from the lane's paces. Knows
//! no texts: the set comes as blocks with gaps.

use jiff::civil::Date;

use super::lane::{Lane, carries_targets, own_target};
use super::running::Running;
use super::swims::Swims;
use crate::coaching::Facts;
use crate::coaching::lanes::Gap;
use crate::coaching::paces::Paces;
use crate::session::{Aim, Block, Cue, Part, Purpose, Repeat, Session};
use crate::units::{Centis, Course, Distance, Equipment, Level, SendOff, Stroke};

/// A block as a coach wrote it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrittenBlock {
    /// What it is for, as they said or as its place says.
    pub part: Part,
    /// How many times through.
    pub rounds: u16,
    /// In the order swum.
    pub lines: Vec<WrittenLine>,
    /// Rest after each round.
    pub rest: Option<Centis>,
}

/// A line as a coach wrote it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrittenLine {
    /// How many.
    pub count: u16,
    /// How far each.
    pub distance: Distance,
    /// Which stroke or way of swimming.
    pub stroke: Stroke,
    /// Leave every so often, where they said so.
    pub send_off: Option<SendOff>,
    /// Rest after each, where they said that instead.
    pub rest: Option<Centis>,
    /// What to hold.
    pub hold: Hold,
    /// How hard, where they said so.
    pub level: Option<Level>,
    /// With what.
    pub equipment: Vec<Equipment>,
    /// Their own words on it.
    pub cue: Option<String>,
}

/// What a coach wants held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hold {
    /// As the level says, if that.
    AsLevel,
    /// This time, whoever swims.
    Time(Centis),
    /// The pace of each one's test over that distance.
    TestPace(Distance),
}

/// A send-off of the coach's that the lane's slowest can't make, which stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tight {
    /// The line, as it was written.
    pub line: Repeat,
    /// What would leave the rest of its level.
    pub fits: SendOff,
    /// That rests on a guess: no result of theirs tells of such swimming.
    pub guess: bool,
}

/// A time to hold that most of the lane's swimmers can't reach even once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beyond {
    /// The line, with the time as written.
    pub line: Repeat,
    /// How many it is beyond.
    pub swimmers: usize,
    /// Of how many who were tested.
    pub of: usize,
    /// What is hard work for the lane's slowest, where that is known.
    pub own: Option<Centis>,
}

/// The set as those of a lane swim it; `None` for a lane without any.
pub fn for_lane(written: &[WrittenBlock], lane: &Swims<'_>, on: Date) -> Option<Session> {
    let of_lane = lane.lane()?;
    let blocks = filled_for(&of_lane, written);
    let (purpose, blocks) = (purpose(&blocks), blocks.into());
    let unit = lane.course.unit();
    Some(Session { on, purpose, unit, blocks, rules: Vec::new(), without: Vec::new() })
}

/// What to say of what a lane has still to swim, `elapsed_s` seconds after it began:
/// send-offs that its slowest can't make, and times to hold that are beyond most of
/// it. Both stand.
pub fn remarks(session: &Session, elapsed_s: u32, lane: &Swims<'_>) -> (Vec<Tight>, Vec<Beyond>) {
    let Some(of_lane) = lane.lane() else { return Default::default() };
    let (mut tight, mut beyond) = (Vec::<Tight>::new(), Vec::<Beyond>::new());
    let running = Running::at(session, elapsed_s);
    let lines = running.blocks.iter().flat_map(|block| block.rounds.iter().flatten());
    for line in lines.filter(|line| line.to_come() > 0).map(|line| &line.repeat) {
        let same = |other: &Repeat| Repeat { count: line.count, ..other.clone() } == *line;
        if !tight.iter().any(|one| same(&one.line)) {
            tight.extend(tight_on(&of_lane, line));
        }
        if line.aim.is_none() && !beyond.iter().any(|one| same(&one.line)) {
            beyond.extend(of_lane.beyond(line));
        }
    }
    (tight, beyond)
}

/// A lane's session with one swimmer's own times to hold.
pub fn with_own_targets(session: &Session, facts: &Facts, course: Course) -> Session {
    let paces = Paces::of(facts, course);
    let mut own = session.clone();
    for line in own.blocks.iter_mut().flat_map(|block| &mut block.repeats) {
        let Some(aim) = line.aim else { continue };
        line.target = own_target(&paces, aim, line.distance, line.stroke)
            .filter(|time| line.send_off.is_none_or(|on| *time < on.time()));
        if let (Aim::TestPace(_), Some(time)) = (aim, line.target) {
            line.level = paces.level(line.distance, time);
        }
    }
    own
}

/// A time that a swimmer is likely to take for a line without a time to hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Expected {
    /// The line.
    pub line: Repeat,
    /// How long a repeat of it takes them.
    pub time: Centis,
    /// No result of theirs tells of such swimming.
    pub guess: bool,
}

/// What they are likely to take for the kick, pull, drill and other strokes of
/// `session` that have no time to hold, each line once.
pub fn expected_times(session: &Session, facts: &Facts, course: Course) -> Vec<Expected> {
    let facts_alone = [facts];
    let alone = Swims { swimmers: &facts_alone, course, gap: Gap::default() };
    let Some(lane) = alone.lane() else { return Vec::new() };
    let mut all: Vec<Expected> = Vec::new();
    for line in session.blocks.iter().flat_map(|block| &block.repeats) {
        let told = matches!(line.stroke, Stroke::Free | Stroke::Choice) || line.target.is_some();
        let known =
            |one: &Expected| (one.line.distance, one.line.stroke) == (line.distance, line.stroke);
        if told || all.iter().any(known) {
            continue;
        }
        all.extend(lane.likely_time(line).map(|time| Expected {
            line: line.clone(),
            time: time.to_second(),
            guess: lane.slowest().is_guess(line.stroke),
        }));
    }
    all
}

/// Blocks as a lane swims them.
pub(super) fn filled_for(lane: &Lane, written: &[WrittenBlock]) -> Vec<Block> {
    written.iter().map(|block| filled(block, lane)).collect()
}

fn filled(written: &WrittenBlock, lane: &Lane) -> Block {
    let lines = written.lines.iter();
    let mut repeats: Vec<Repeat> = lines.map(|line| line_of(line, written.part, lane)).collect();
    if let Some(rest) = written.rest {
        rest_after_round(&mut repeats, rest);
    }
    Block { part: written.part, rounds: written.rounds, repeats }
}

fn line_of(written: &WrittenLine, part: Part, lane: &Lane) -> Repeat {
    let timed = carries_targets(lane.slowest(), written.stroke);
    let aim = match (written.hold, written.level) {
        (Hold::TestPace(test), _) => Some(Aim::TestPace(test)),
        (Hold::AsLevel, Some(level)) if timed => percent(level).map(Aim::CriticalSpeed),
        _ => None,
    };
    let target = match (written.hold, aim) {
        (Hold::Time(time), _) => Some(time),
        (_, Some(aim)) => lane.target_on(aim, written.distance, written.stroke, written.send_off),
        _ => None,
    };
    let level = written
        .level
        .or_else(|| target.map(|time| lane.level(written.distance, time)))
        .unwrap_or_else(|| unsaid_level(written, part));
    let mut line = Repeat {
        count: written.count,
        distance: written.distance,
        stroke: written.stroke,
        target,
        aim,
        send_off: None,
        rest: None,
        level,
        equipment: written.equipment.clone(),
        cue: written.cue.clone().map(Cue::Coach),
    };
    match (written.send_off, written.rest) {
        (Some(on), _) => line.send_off = Some(on),
        // Without a time to add it to, a rest would say nothing of the clock.
        (None, Some(rest)) => match lane.likely_time(&line) {
            Some(time) if line.target.is_none() => {
                line.send_off = Some(SendOff::after(time, rest.hundredths().div_ceil(100)));
            }
            None => line.send_off = Some(lane.usual_send_off(&line)),
            Some(_) => line.rest = Some(rest),
        },
        (None, None) => line.send_off = Some(lane.usual_send_off(&line)),
    }
    line
}

/// What to say of a send-off that the lane's slowest can't make; nothing where
/// they can.
pub(super) fn tight_on(lane: &Lane, line: &Repeat) -> Option<Tight> {
    let on = line.send_off?;
    // By what they would hold if they could: a time that none can hold is left out.
    let held = line.aim.and_then(|aim| lane.target(aim, line.distance, line.stroke));
    let whole = Repeat { target: held.or(line.target), ..line.clone() };
    let (least, guess) = lane.least_send_off(&whole)?;
    let fits = lane.fitting_send_off(&whole)?;
    (least > on).then(|| Tight { line: line.clone(), fits: fits.max(least), guess })
}

/// The middle of a level as a share of critical speed, in tenths of a percent;
/// easy is swum by feel, and a sprint as fast as it goes.
pub(super) const fn percent(level: Level) -> Option<u16> {
    match level {
        Level::Steady => Some(915),
        Level::Threshold => Some(980),
        Level::Hard => Some(1025),
        Level::Easy | Level::Sprint => None,
    }
}

/// Where nothing says how hard: easy round the main set and in drills, else
/// steady (ours).
fn unsaid_level(written: &WrittenLine, part: Part) -> Level {
    let by_way = matches!(written.stroke, Stroke::Kick | Stroke::Drill | Stroke::Choice);
    match part {
        Part::WarmUp | Part::SwimDown | Part::Recovery | Part::Drill => Level::Easy,
        Part::Test => Level::Sprint,
        Part::Build | Part::Main if by_way => Level::Easy,
        Part::Build | Part::Main => Level::Steady,
    }
}

/// The rest between rounds, as a longer send-off of the last repeat.
fn rest_after_round(repeats: &mut Vec<Repeat>, rest: Centis) {
    let Some(last) = repeats.last_mut() else { return };
    let mut closing = Repeat { count: 1, ..last.clone() };
    match (last.send_off, last.rest) {
        (Some(on), _) => {
            let seconds = on.seconds() + rest.hundredths().div_ceil(100);
            closing.send_off = SendOff::new(seconds).ok().or(Some(on));
        }
        (None, Some(own)) => closing.rest = Some(own + rest),
        (None, None) => return,
    }
    if last.count > 1 {
        last.count -= 1;
        repeats.push(closing);
    } else {
        *last = closing;
    }
}

/// What a set is for, by the hardest that is in it.
fn purpose(blocks: &[Block]) -> Purpose {
    let has = |part| blocks.iter().any(|block| block.part == part);
    let lines = blocks.iter().flat_map(|block| &block.repeats);
    let hardest = lines.clone().map(|line| line.level).max().unwrap_or(Level::Easy);
    let drilled = lines.clone().any(|line| line.stroke == Stroke::Drill);
    match hardest {
        _ if has(Part::Test) => Purpose::Test,
        Level::Sprint if lines.clone().any(|line| line.aim.is_some()) => Purpose::PaceHolding,
        Level::Sprint => Purpose::Speed,
        Level::Hard => Purpose::PaceHolding,
        Level::Threshold => Purpose::Threshold,
        Level::Easy if drilled => Purpose::Technique,
        Level::Easy | Level::Steady => Purpose::Endurance,
    }
}
