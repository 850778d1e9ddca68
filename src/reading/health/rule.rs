//! Rules: signs that mean something together.

use super::context::Context;
use super::sign::Signs;
use super::signs_in_text::{Mark, Marked};

/// Signs that stand near each other, and what they say.
#[derive(Debug, Clone, Copy)]
pub struct Rule<T: 'static> {
    /// What they say.
    pub says: T,
    /// They say it for certain; else it is asked about.
    pub sure: bool,
    /// Where each must be found. The first may stand anywhere.
    pub slots: &'static [Slot],
    /// Signs in the same sentence that take it back.
    pub unless: Signs,
}

/// A place that one of some signs must fill.
#[derive(Debug, Clone, Copy)]
pub struct Slot {
    /// One of these.
    pub any: Signs,
    /// So many tokens at most between it and the nearest slot before.
    pub within: usize,
    /// Behind the slot before.
    pub after: bool,
}

/// Where a rule was met.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found<T> {
    /// What it says.
    pub says: T,
    /// For certain, or to be asked about.
    pub sure: bool,
    /// The tokens that say it: from each to the one behind the last.
    pub at: Vec<(usize, usize)>,
}

impl<T> Found<T> {
    /// From the first token to the one behind the last.
    pub fn span(&self) -> (usize, usize) {
        let from = self.at.iter().map(|(from, _)| *from).min().unwrap_or_default();
        let to = self.at.iter().map(|(_, to)| *to).max().unwrap_or_default();
        (from, to)
    }
}

/// Signs by name.
macro_rules! any {
    ($($sign:ident)+) => {
        $crate::reading::health::sign::Signs::of(&[$($crate::reading::health::sign::Sign::$sign),+])
    };
}

/// A table of rules, one a line: `sure Heart: [Chest], near 6 [Hurt Tight];`.
/// `near 6` is within six tokens on either side, `then 4` within four behind;
/// `! [..]` names what takes it back; `ask` in place of `sure` asks in one word.
macro_rules! rules {
    ($says:ty; $($grade:ident $what:ident: [$($first:ident)+] $(, $side:ident $within:literal [$($sign:ident)+])*
        $(! [$($un:ident)+])? ;)+) => {
        &[$(
            $crate::reading::health::rule::Rule::<$says> {
                says: <$says>::$what,
                sure: rules!(@grade $grade),
                slots: &[
                    $crate::reading::health::rule::Slot {
                        any: $crate::reading::health::rule::any!($($first)+), within: 0, after: false,
                    },
                    $($crate::reading::health::rule::Slot {
                        any: $crate::reading::health::rule::any!($($sign)+),
                        within: $within,
                        after: rules!(@side $side),
                    }),*
                ],
                unless: rules!(@unless $($($un)+)?),
            }
        ),+]
    };
    (@grade sure) => { true };
    (@grade ask) => { false };
    (@side near) => { false };
    (@side then) => { true };
    (@unless) => { $crate::reading::health::sign::Signs::NONE };
    (@unless $($un:ident)+) => { $crate::reading::health::rule::any!($($un)+) };
}

pub(super) use {any, rules};

/// The signs of the first slots of all these rules.
pub const fn firsts<T>(mut rules: &[Rule<T>]) -> Signs {
    let mut signs = Signs::NONE;
    while let [rule, rest @ ..] = rules {
        if let [first, ..] = rule.slots {
            signs = signs.and(first.any);
        }
        rules = rest;
    }
    signs
}

/// Most slots that a rule may have.
const MOST: usize = 4;

/// The best of what a rule finds in a text: for certain before to be asked about.
pub fn meet<T: Copy>(
    rule: &Rule<T>,
    marked: &Marked<'_, '_>,
    weigh: &dyn Fn(&Found<T>, &Context) -> Option<bool>,
) -> Option<Found<T>> {
    if rule.slots.iter().any(|slot| !marked.all.meets(slot.any)) {
        return None;
    }
    let (first, others) = rule.slots.split_first()?;
    let mut best: Option<Found<T>> = None;
    for mark in marked.marks.iter().filter(|mark| mark.signs.meets(first.any)) {
        let mut at: Vec<(usize, usize)> = Vec::with_capacity(MOST);
        at.push((mark.from, mark.to));
        let filled = others.iter().all(|slot| match fill(slot, marked, &at) {
            Some(next) => {
                at.push((next.from, next.to));
                true
            }
            None => false,
        });
        if !filled {
            continue;
        }
        let mut found = Found { says: rule.says, sure: rule.sure, at };
        let (from, to) = found.span();
        let (start, _) = marked.sentence_of(from);
        let (_, end) = marked.sentence_of(to - 1);
        if !rule.unless.is_empty() && marked.any(start, end, rule.unless) {
            continue;
        }
        let context = Context::of(marked, &found.at);
        match weigh(&found, &context) {
            None => continue,
            Some(sure) => found.sure &= sure,
        }
        if found.sure {
            return Some(found);
        }
        best.get_or_insert(found);
    }
    best
}

/// The mark nearest to those before that fills a slot.
fn fill<'m>(
    slot: &Slot,
    marked: &'m Marked<'_, '_>,
    before: &[(usize, usize)],
) -> Option<&'m Mark> {
    const LONGEST: usize = 6;
    let from = before.iter().map(|(from, _)| *from).min()?;
    let to = before.iter().map(|(_, to)| *to).max()?;
    let gap = |mark: &Mark| {
        let one = |(from, to): &(usize, usize)| match mark.from >= *to {
            true => mark.from - to,
            false => from.saturating_sub(mark.to),
        };
        before.iter().map(one).min().unwrap_or(usize::MAX)
    };
    let start = match slot.after {
        true => before.last().map_or(to, |(_, to)| *to),
        false => from.saturating_sub(slot.within + LONGEST),
    };
    marked
        .between(start, to + slot.within + 1)
        .filter(|mark| mark.signs.meets(slot.any))
        .filter(|mark| !before.iter().any(|(from, to)| mark.overlaps(*from, *to)))
        .map(|mark| (gap(mark), mark))
        .filter(|(gap, _)| *gap <= slot.within)
        .min_by_key(|(gap, _)| *gap)
        .map(|(_, mark)| mark)
}
