//! Puts the parts of a session together to an exact distance.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use super::Setting;
use super::main_sets::{MainSet, STEADY_PERCENT};
use super::pen::once;
use crate::coaching::RuleId;
use crate::session::{Block, Part, Purpose, Session};
use crate::units::{Equipment, Stroke};

/// What stands between warm-up and swim-down, and what it comes to.
pub(super) struct Middle<'a> {
    /// Drills before the main set.
    drills: &'a [Block],
    /// Up to the pace of the main set.
    build: Option<&'a Block>,
    /// The main set.
    main: &'a MainSet,
    amount: u32,
    hundredths: u64,
    change_s: u32,
}

impl<'a> Middle<'a> {
    /// These, in this order.
    pub fn new(drills: &'a [Block], build: Option<&'a Block>, main: &'a MainSet) -> Self {
        let middle = Middle { drills, build, main, amount: 0, hundredths: 0, change_s: 0 };
        let (mut amount, mut hundredths, mut change_s) = (0, 0, 0);
        let mut before: Option<&Block> = None;
        for block in middle.blocks() {
            amount += block.amount();
            hundredths += block.hundredths();
            change_s += before.map_or(0, |before| Session::change_s(before, block));
            before = Some(block);
        }
        Middle { amount, hundredths, change_s, ..middle }
    }

    fn blocks(&self) -> impl DoubleEndedIterator<Item = &'a Block> + use<'a> {
        self.drills.iter().chain(self.build).chain(&self.main.blocks)
    }
}

/// The easy parts of a session in every length that was looked at: searching for
/// the best session asks for the same ones again and again.
pub(super) struct EasyParts<'s, 'a> {
    setting: &'s Setting<'a>,
    warm: RefCell<Known>,
    support: RefCell<Known>,
    down: RefCell<Known>,
}

type Known = HashMap<u32, Option<Rc<Easy>>>;

/// An easy part, and what it comes to.
struct Easy {
    block: Block,
    amount: u32,
    hundredths: u64,
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
            warm: RefCell::default(),
            support: RefCell::default(),
            down: RefCell::default(),
        }
    }

    fn of(
        known: &RefCell<Known>,
        amount: u32,
        block: impl FnOnce() -> Option<Block>,
    ) -> Option<Rc<Easy>> {
        let mut known = known.borrow_mut();
        let easy = known.entry(amount).or_insert_with(|| {
            let block = block()?;
            let (amount, hundredths) = (block.amount(), block.hundredths());
            Some(Rc::new(Easy { block, amount, hundredths }))
        });
        easy.clone()
    }

    fn warm(&self, amount: u32) -> Option<Rc<Easy>> {
        Self::of(&self.warm, amount, || warm_up(self.setting, amount))
    }

    fn support(&self, amount: u32) -> Option<Rc<Easy>> {
        Self::of(&self.support, amount, || support_block(self.setting, amount))
    }

    fn down(&self, amount: u32) -> Option<Rc<Easy>> {
        Self::of(&self.down, amount, || {
            let pieces = easy_pieces(self.setting, amount, Stroke::Choice)?;
            Some(once(Part::SwimDown, pieces))
        })
    }

    /// Warm-up, what supports the main set, and swim-down, to exactly `total`
    /// round `middle`; `None` if that leaves too little for them.
    fn round(&self, middle: &Middle<'_>, total: u32) -> Option<[Option<Rc<Easy>>; 3]> {
        let Split { warm, support, down } = split(self.setting, middle, total)?;
        let warm = self.warm(warm)?;
        let support = if support > 0 { Some(self.support(support)?) } else { None };
        let down = self.down(down)?;
        let beside = support.as_ref().map_or(0, |support| support.amount);
        let exact = warm.amount + middle.amount + beside + down.amount == total;
        exact.then_some([Some(warm), support, Some(down)])
    }

    /// How many seconds a session of exactly `total` round `middle` takes; `None`
    /// where there is none.
    pub fn duration_s(&self, middle: &Middle<'_>, total: u32) -> Option<u32> {
        let [warm, support, down] = self.round(middle, total)?;
        let easy: Vec<Rc<Easy>> = [&warm, &support, &down].into_iter().flatten().cloned().collect();
        let hundredths = middle.hundredths + easy.iter().map(|one| one.hundredths).sum::<u64>();
        let (first, last) = (middle.blocks().next(), middle.blocks().next_back());
        let after = support.as_ref().or(down.as_ref()).map(|easy| &easy.block);
        let changes = [
            (warm.as_ref().map(|easy| &easy.block), first),
            (last, after),
            (support.as_ref().map(|easy| &easy.block), down.as_ref().map(|easy| &easy.block)),
        ];
        let change_s = changes.into_iter().filter_map(|(before, after)| before.zip(after));
        let change_s: u32 = change_s.map(|(before, after)| Session::change_s(before, after)).sum();
        let swum = u32::try_from(hundredths.div_ceil(100)).unwrap_or(u32::MAX);
        Some(swum + middle.change_s + change_s)
    }

    /// A session of exactly `total`, easy swimming round `middle`; `None` if the
    /// parts leave too little for warm-up and swim-down.
    pub fn compose(&self, middle: &Middle<'_>, total: u32) -> Option<Session> {
        let setting = self.setting;
        let [warm, support, down] = self.round(middle, total)?;
        let block = |easy: Option<Rc<Easy>>| easy.map(|easy| easy.block.clone());
        let mut blocks: Vec<Block> = block(warm).into_iter().collect();
        setting.put_focus(blocks.first_mut());
        blocks.extend(middle.blocks().cloned());
        blocks.extend(block(support));
        blocks.extend(block(down));
        Some(setting.session(blocks))
    }
}

fn split(setting: &Setting<'_>, middle: &Middle<'_>, total: u32) -> Option<Split> {
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
    let spare = total.checked_sub(middle.amount + warm_least + down_least)?;

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
    let mut lines = easy_pieces(setting, amount - choice, stroke)?;
    if choice > 0 {
        lines.extend(easy_pieces(setting, choice, Stroke::Choice)?);
    }
    Some(once(Part::WarmUp, lines))
}

/// Easy swimming of exactly `amount`: straight for those who can, else in 50s.
pub(super) fn easy_pieces(
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
    let longest = longest.min(setting.longest());
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
