//! Puts the parts of a session together to an exact distance.

use super::Setting;
use super::main_sets::{MainSet, STEADY_PERCENT};
use super::pen::once;
use crate::coaching::RuleId;
use crate::session::{Block, Cue, Part, Purpose, Session};
use crate::units::{Equipment, Stroke};

/// What stands between warm-up and swim-down.
pub(super) struct Middle<'a> {
    /// Drills before the main set.
    pub drills: Vec<Block>,
    /// Up to the pace of the main set.
    pub build: Option<Block>,
    /// The main set.
    pub main: &'a MainSet,
}

impl Middle<'_> {
    /// What counts as the main part: the test too, where there is one.
    fn main_part(&self) -> u32 {
        self.main.amount()
    }

    fn amount(&self) -> u32 {
        let before = self.drills.iter().chain(&self.build).map(Block::amount).sum::<u32>();
        before + self.main.amount()
    }
}

/// A session of exactly `total`, easy swimming round `middle`; `None` if the
/// parts leave too little for warm-up and swim-down.
pub(super) fn compose(setting: &Setting<'_>, middle: &Middle<'_>, total: u32) -> Option<Session> {
    let step = setting.length();
    let whole = |share: f64| {
        let least = (f64::from(total) * share).ceil() as u32;
        least.next_multiple_of(if total >= 400 { step.max(50) } else { step }).max(step)
    };
    let warm_least = whole(setting.book.share(match setting.purpose {
        Purpose::Speed => RuleId::WarmUpShareSpeed,
        _ if setting.long_warm_up => RuleId::WarmUpShareOlder,
        _ => RuleId::WarmUpShare,
    }));
    let down_least = whole(setting.book.share(RuleId::SwimDownShare));
    let spare = total.checked_sub(middle.amount() + warm_least + down_least)?;

    // A long rest of the session is swum as a block of its own, a short one
    // lengthens the warm-up and the swim-down.
    let (support, spare) = match spare {
        long if long >= 300 && long * 5 >= total && setting.hard() => {
            // It stays beside the main set, never in its place.
            let most = total * 2 / 5;
            let support = (long - long / 5).min(most) / 100 * 100;
            (support, long - support)
        }
        short => (0, short),
    };
    // The main part is worth its name, unless the session is there to recover:
    // what else would lengthen the warm-up is swum beside it.
    let wanted = match setting.purpose {
        Purpose::Return => 0,
        _ => (f64::from(total) * setting.book.share(RuleId::MainShare)).ceil() as u32,
    };
    let piece = step.max(50);
    let lacking = wanted.saturating_sub(middle.main_part() + support).next_multiple_of(piece);
    let more = lacking.min(spare / piece * piece);
    let (support, spare) = (support + more, spare - more);
    let few_lengths = total < 10 * step;
    if middle.main_part() + support < wanted && !few_lengths {
        return None;
    }
    let down_more = (spare / 3) / step.max(50) * step.max(50);
    let warm = warm_least + spare - down_more;
    let down = down_least + down_more;

    let mut blocks = vec![warm_up(setting, warm)?];
    if let (Some(focus), Some(line)) = (&setting.focus, blocks[0].repeats.first_mut()) {
        line.cue = Some(Cue::Coach(focus.clone()));
    }
    blocks.extend(middle.drills.iter().cloned());
    blocks.extend(middle.build.clone());
    blocks.extend(middle.main.blocks.iter().cloned());
    if support > 0 {
        blocks.push(support_block(setting, support)?);
    }
    blocks.push(once(Part::SwimDown, easy_pieces(setting, down, Stroke::Choice)?));
    let session = Session {
        on: setting.on,
        purpose: setting.purpose,
        unit: setting.paces.unit(),
        blocks,
        rules: setting.because.iter().map(|rule| rule.id().to_owned()).collect(),
        without: Vec::new(),
    };
    (session.amount() == total).then_some(session)
}

fn warm_up(setting: &Setting<'_>, amount: u32) -> Option<Block> {
    let stroke = setting.stroke_for(50);
    // Half straight and easy, then shorter ones in any stroke.
    let choice = (amount / 3) / 50 * 50;
    let mut lines = easy_pieces(setting, amount - choice, stroke)?;
    if choice > 0 {
        lines.extend(easy_pieces(setting, choice, Stroke::Choice)?);
    }
    Some(once(Part::WarmUp, lines))
}

/// Easy swimming of exactly `amount`: straight for those who can, else in 50s.
fn easy_pieces(
    setting: &Setting<'_>,
    amount: u32,
    stroke: Stroke,
) -> Option<Vec<crate::session::Repeat>> {
    let length = setting.length();
    let longest = match setting.paces.easy_per_100_s() {
        _ if setting.paces.course.length().is_none() => 400,
        slow if slow > 150.0 => 50.max(length),
        middling if middling > 120.0 => 100,
        _ => 400,
    };
    if amount.is_multiple_of(length) && amount <= longest {
        return Some(vec![setting.easy(1, amount, stroke)?]);
    }
    let piece = if longest > 100 && amount > 400 { 200 } else { longest.min(100) };
    let count = amount / piece;
    let rest = amount % piece;
    let mut lines = Vec::new();
    if count > 0 {
        lines.push(setting.easy(u16::try_from(count).ok()?, piece, stroke)?);
    }
    if rest > 0 {
        lines.push(setting.easy(1, rest, stroke)?);
    }
    Some(lines)
}

/// Aerobic swimming after a hard main set: easy after threshold, else steady,
/// by arms with a buoy on some days.
fn support_block(setting: &Setting<'_>, amount: u32) -> Option<Block> {
    let piece = match setting.paces.easy_per_100_s() {
        _ if !amount.is_multiple_of(100) => 50.max(setting.length()),
        slow if slow > 150.0 => 50,
        fast if fast < 105.0 && amount.is_multiple_of(200) && amount >= 800 => 200,
        _ => 100,
    };
    let count = u16::try_from(amount / piece).ok()?;
    let easy = || setting.easy(count, piece, setting.stroke_for(piece));
    let mut line = match setting.purpose {
        Purpose::Technique | Purpose::Test | Purpose::Threshold => easy()?,
        _ => setting.at(count, piece, STEADY_PERCENT).or_else(easy)?,
    };
    let arms_only = setting.seed.is_multiple_of(2)
        && setting.stroke() == Stroke::Free
        && setting.kit.contains(&Equipment::PullBuoy)
        && !setting.hurts("shoulder");
    if arms_only {
        line.stroke = Stroke::Pull;
        line.equipment = vec![Equipment::PullBuoy];
    }
    Some(once(Part::Main, vec![line]))
}
