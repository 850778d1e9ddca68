//! Puts the parts of a session together to an exact distance.

use std::cell::RefCell;
use std::collections::HashMap;

use foldhash::fast::FixedState;

use super::Setting;
use super::main_sets::{MainSet, STEADY_PERCENT};
use super::pen::once;
use crate::coaching::RuleId;
use crate::session::{Block, Extent, Part, Purpose, Repeat, Session};
use crate::units::{Equipment, Stroke};

/// What stands between warm-up and swim-down, and what it comes to.
pub(super) struct Middle<'a> {
    /// Drills before the main set.
    drills: &'a [Block],
    /// Up to the pace of the main set.
    build: Option<&'a Block>,
    /// The main set.
    main: &'a MainSet,
    extent: Extent,
}

impl<'a> Middle<'a> {
    /// These, in this order; `drills` come to so much.
    pub fn new(
        (drills, extent): (&'a [Block], Extent),
        build: Option<&'a (Block, Extent)>,
        main: &'a MainSet,
    ) -> Self {
        let extent = build.map_or(extent, |(_, build)| extent.then(*build)).then(main.extent());
        Middle { drills, build: build.map(|(block, _)| block), main, extent }
    }

    fn blocks(&self) -> impl Iterator<Item = &'a Block> + use<'a> {
        self.drills.iter().chain(self.build).chain(self.main.blocks())
    }
}

/// What the easy parts of a session come to in every length that was looked at:
/// searching for the best session asks for the same ones again and again.
pub(super) struct EasyParts<'s, 'a> {
    setting: &'s Setting<'a>,
    /// The same without times to hold, which take none.
    untimed: Setting<'a>,
    shares: Shares,
    warm: RefCell<Known>,
    support: RefCell<Known>,
    down: RefCell<Known>,
}

/// By the length asked for: our own sums, so that a quick hash does.
type Known = HashMap<u32, Option<Extent>, FixedState>;

/// So many lengths of one part are mostly looked at.
const LIKELY: usize = 28;

/// The least of a whole session that its parts are, looked up once.
struct Shares {
    warm: f64,
    down: f64,
    /// Of the main part.
    main: f64,
}

impl Shares {
    fn of(setting: &Setting<'_>) -> Shares {
        Shares {
            warm: setting.book.share(match setting.purpose {
                Purpose::Speed => RuleId::WarmUpShareSpeed,
                _ if setting.long_warm_up => RuleId::WarmUpShareOlder,
                _ => RuleId::WarmUpShare,
            }),
            down: setting.book.share(RuleId::SwimDownShare),
            main: setting.book.share(RuleId::MainShare),
        }
    }
}

/// How far the easy parts round a middle are, to an exact total.
struct Split {
    warm: u32,
    support: u32,
    down: u32,
}

impl<'s, 'a> EasyParts<'s, 'a> {
    /// None looked at yet.
    pub fn new(setting: &'s Setting<'a>) -> Self {
        EasyParts {
            setting,
            untimed: Setting { targets_shown: false, ..setting.clone() },
            shares: Shares::of(setting),
            warm: Self::none_known(),
            support: Self::none_known(),
            down: Self::none_known(),
        }
    }

    fn none_known() -> RefCell<Known> {
        RefCell::new(HashMap::with_capacity_and_hasher(LIKELY, FixedState::default()))
    }

    fn extent(
        known: &RefCell<Known>,
        amount: u32,
        block: impl FnOnce(u32) -> Option<Block>,
    ) -> Option<Extent> {
        let mut known = known.borrow_mut();
        let make = || Some(Extent::of(&[block(amount)?]));
        *known.entry(amount).or_insert_with(make)
    }

    /// How many seconds a session of exactly `total` round `middle` takes; `None`
    /// where there is none.
    pub fn duration_s(&self, middle: &Middle<'_>, total: u32) -> Option<u32> {
        let Split { warm, support, down } = split(self.setting, &self.shares, middle, total)?;
        let warm = Self::extent(&self.warm, warm, |warm| warm_up(&self.untimed, warm))?;
        let mut whole = warm.then(middle.extent);
        if support > 0 {
            let block = |support| support_block(self.setting, support);
            whole = whole.then(Self::extent(&self.support, support, block)?);
        }
        let down = Self::extent(&self.down, down, |down| swim_down(&self.untimed, down))?;
        whole = whole.then(down);
        (whole.amount == total).then(|| whole.duration_s())
    }

    /// A session of exactly `total`, easy swimming round `middle`; `None` if the
    /// parts leave too little for warm-up and swim-down.
    pub fn compose(&self, middle: &Middle<'_>, total: u32) -> Option<Session> {
        let setting = self.setting;
        let Split { warm, support, down } = split(setting, &self.shares, middle, total)?;
        let mut blocks = vec![warm_up(setting, warm)?];
        setting.put_focus(blocks.first_mut());
        blocks.extend(middle.blocks().cloned());
        if support > 0 {
            blocks.push(support_block(setting, support)?);
        }
        blocks.push(swim_down(setting, down)?);
        let session = setting.session(blocks);
        (session.amount() == total).then_some(session)
    }
}

fn split(setting: &Setting<'_>, shares: &Shares, middle: &Middle<'_>, total: u32) -> Option<Split> {
    let step = setting.length();
    let whole = |share: f64| {
        let least = (f64::from(total) * share).ceil() as u32;
        least.next_multiple_of(if total >= 400 { step.max(50) } else { step }).max(step)
    };
    let warm_least = whole(shares.warm);
    let down_least = whole(shares.down);
    let spare = total.checked_sub(middle.extent.amount + warm_least + down_least)?;

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
        _ => (f64::from(total) * shares.main).ceil() as u32,
    };
    // A long session has no block of a length or two.
    let piece = step.max(if total >= 1000 { 100 } else { 50 });
    let lacking = wanted.saturating_sub(middle.main.amount() + support).next_multiple_of(piece);
    let more = lacking.min(spare / piece * piece);
    let (support, spare) = (support + more, spare - more);
    let few_lengths = total < 10 * step;
    if middle.main.amount() + support < wanted && !few_lengths {
        return None;
    }
    let down_more = (spare / 3) / step.max(50) * step.max(50);
    Some(Split { warm: warm_least + spare - down_more, support, down: down_least + down_more })
}

pub(super) fn warm_up(setting: &Setting<'_>, amount: u32) -> Option<Block> {
    let stroke = setting.stroke_for(50);
    // Half straight and easy, then shorter ones in any stroke.
    let choice = (amount / 3) / 50 * 50;
    let mut lines = Vec::with_capacity(4);
    put_easy_pieces(&mut lines, setting, amount - choice, stroke)?;
    if choice > 0 {
        put_easy_pieces(&mut lines, setting, choice, Stroke::Choice)?;
    }
    Some(once(Part::WarmUp, lines))
}

fn swim_down(setting: &Setting<'_>, amount: u32) -> Option<Block> {
    let pieces = easy_pieces(setting, amount, Stroke::Choice)?;
    Some(once(Part::SwimDown, pieces))
}

/// Easy swimming of exactly `amount`: straight for those who can, else in 50s.
pub(super) fn easy_pieces(
    setting: &Setting<'_>,
    amount: u32,
    stroke: Stroke,
) -> Option<Vec<Repeat>> {
    let mut lines = Vec::with_capacity(2);
    put_easy_pieces(&mut lines, setting, amount, stroke)?;
    Some(lines)
}

/// [`easy_pieces`] behind other lines.
fn put_easy_pieces(
    lines: &mut Vec<Repeat>,
    setting: &Setting<'_>,
    amount: u32,
    stroke: Stroke,
) -> Option<()> {
    let length = setting.length();
    let longest = match setting.paces.easy_per_100_s() {
        _ if setting.paces.course.length().is_none() => 400,
        slow if slow > 150.0 => 50.max(length),
        middling if middling > 120.0 => 100,
        _ => 400,
    };
    let longest = longest.min(setting.longest());
    if amount.is_multiple_of(length) && amount <= longest {
        lines.push(setting.easy(1, amount, stroke)?);
        return Some(());
    }
    let piece = if longest > 100 && amount > 400 { 200 } else { longest.min(100) };
    let count = amount / piece;
    let rest = amount % piece;
    if count > 0 {
        lines.push(setting.easy(u16::try_from(count).ok()?, piece, stroke)?);
    }
    if rest > 0 {
        lines.push(setting.easy(1, rest, stroke)?);
    }
    Some(())
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
    let piece = piece.min(setting.longest());
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
