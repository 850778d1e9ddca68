//! What became of a set's repeats, as people tell it: a list of times, `all 48s`,
//! `first five 48 then 50 51 52`, `made 6 of 8`, `last one 44, the rest 48`.
//!
//! Works from left to right over the pieces, with the repeats that the next time
//! is about; knows how many there were and how far, and nothing of who swam.

mod condition;
mod figure;
mod made_or_missed;
mod not_told;
mod piece_at;
mod put_times;
mod scope;
mod swum_otherwise;

use std::cell::{Cell, RefCell};

use crate::reading::frame::Clause;
use crate::reading::lexicon::Hint;
use crate::reading::piece::{Item, Named, Used};
use crate::reading::situation::Known;
use crate::units::{Centis, Equipment, SendOff, Stroke};

pub use piece_at::LITTLE;

/// What is known of the repeats before a word of the stretch is read.
#[derive(Debug, Clone, Copy)]
pub struct Spec<'a> {
    /// How many there were to be.
    pub count: Option<u32>,
    /// How far each, in the pool's unit.
    pub distance: u32,
    /// Their stroke.
    pub stroke: Stroke,
    /// What was to be held.
    pub target: Option<Centis>,
    /// Their send-off.
    pub send_off: Option<SendOff>,
    /// Whose record tells which times can be.
    pub whose: Option<&'a Known>,
    /// It may be told while they are being swum: a time is that of one repeat.
    pub so_far: bool,
}

/// One repeat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Slot {
    /// Nothing was said of it.
    Unsaid,
    /// It was not made, or not swum.
    Missed,
    /// Its time, and whether tenths were given.
    Swum(Centis, bool),
    /// It was held, at whatever it was.
    Held,
}

/// What a stretch tells.
#[derive(Debug, Clone, Default)]
pub struct Told {
    /// Repeats, in order; as long as was told of.
    pub slots: Vec<Slot>,
    /// A count that was said.
    pub count: Option<u32>,
    /// One time for each of them, and whether tenths were given.
    pub each: Option<(Centis, bool)>,
    /// Their average.
    pub average: Option<(Centis, bool)>,
    /// So many were made, of so many where that was said.
    pub made: Option<(u32, Option<u32>)>,
    /// All were made.
    pub made_all: bool,
    /// Only the best, the worst or a range was told.
    pub vague: bool,
    /// Send-off.
    pub send_off: Option<SendOff>,
    /// Rest.
    pub rest: Option<Centis>,
    /// A target that was said.
    pub target: Option<Centis>,
    /// Stroke.
    pub stroke: Option<Stroke>,
    /// Kit.
    pub kit: Vec<Equipment>,
    /// Effort in tenths.
    pub rpe: Option<u8>,
    /// Pulse.
    pub pulse: Option<u16>,
    /// The day.
    pub day: Option<Named>,
    /// Which pieces were understood.
    pub used: Used,
}

impl Told {
    /// True if something was told of the repeats.
    pub fn is_something(&self) -> bool {
        !self.slots.is_empty()
            || self.each.is_some()
            || self.average.is_some()
            || self.made.is_some()
            || self.made_all
            || self.vague
    }
}

/// Which repeats the next time is about.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Scope {
    Sequential,
    Next(u32),
    Last(u32),
    Places(Vec<u32>),
    Others,
    All,
    Odd,
    Even,
}

struct Teller<'c, 'a, 't> {
    c: &'c Clause<'a, 't>,
    spec: Spec<'a>,
    told: Told,
    scope: Scope,
    /// Repeats told of at the end, before it is known how many there are.
    from_end: Vec<(u32, Slot)>,
    cursor: usize,
    excepted: bool,
    base: Option<Slot>,
    others: Option<Slot>,
    odd: Option<Slot>,
    even: Option<Slot>,
    /// The repeats just told of on which the pace went, whose times may follow, and
    /// where the next repeat stood then.
    faded: Option<(Scope, usize)>,
    /// Which repeats a time is of stands behind it.
    behind: bool,
    /// What is to be expected of a stroke, once that was asked for.
    expected: Cell<Option<(Stroke, Option<f64>)>>,
    /// The times that were found so far, for a stroke, by their places.
    times: RefCell<(Stroke, Vec<Option<Option<TimeAt>>>)>,
}

/// A time with whether tenths were given, how many pieces it takes, and whether it is that
/// of each.
type TimeAt = ((Centis, bool), usize, bool);

/// Reads a stretch as what became of the repeats of `spec`.
pub fn tell<'a>(c: &Clause<'a, '_>, spec: Spec<'a>) -> Told {
    let mut teller = Teller {
        c,
        spec,
        told: Told { used: Used::none(c.len()), ..Told::default() },
        scope: Scope::Sequential,
        from_end: Vec::new(),
        cursor: 0,
        excepted: false,
        base: None,
        others: None,
        odd: None,
        even: None,
        faded: None,
        behind: false,
        expected: Cell::new(None),
        times: RefCell::new((spec.stroke, Vec::new())),
    };
    teller.behind = teller.tells_behind();
    let mut at = 0;
    while at < c.len() {
        at += teller.step(at).max(1);
    }
    teller.close()
}

/// True for words of losing the pace rather than of leaving out.
fn is_fading(text: &str) -> bool {
    Hint::Fades.words().iter().any(|word| text.starts_with(word))
}

impl<'a, 't> Teller<'_, 'a, 't> {
    fn step(&mut self, at: usize) -> usize {
        let Some(piece) = self.piece(at) else { return 1 };
        if self.names_repeats(at) || self.is_former_send_off(at) || self.is_target_missed(at) {
            return self.uses(at, 1);
        }
        let first = self.not_told(at).or_else(|| self.stopped_after(at));
        let first = first.or_else(|| self.new_send_off(at));
        if let Some(length) = first.or_else(|| self.another_part(at)).or_else(|| self.dropped(at)) {
            return length;
        }
        if let Some(length) = self.half_of_them(at).or_else(|| self.time_of_some(at)) {
            return length;
        }
        if let Some(length) = self.scope_word(at).or_else(|| self.condition(at)) {
            return length;
        }
        match piece.item {
            Item::Rpe(tenths) => {
                self.told.rpe = Some(tenths);
                self.uses(at, 1)
            }
            Item::Pulse(beats) => {
                self.told.pulse = Some(beats);
                self.uses(at, 1)
            }
            Item::Day(named) => {
                self.told.day = Some(named);
                self.uses(at, 1)
            }
            Item::OfAll(some, all)
                if all <= 60 && self.spec.count.is_none_or(|count| count == all) =>
            {
                self.told.made = Some((some, Some(all)));
                self.uses(at, 1)
            }
            Item::Range(from, to) => match (self.time_of(from), self.time_of(to)) {
                (Some((low, _)), Some((high, _))) => {
                    let middle =
                        Centis::new((low.hundredths() + high.hundredths()) / 2).unwrap_or(low);
                    self.told.vague = true;
                    self.told.average = self.told.average.or(Some((middle, true)));
                    self.uses(at, 1)
                }
                _ => 1,
            },
            // `died on the last 3. 47 47 48 …`, `all eight! 48 48 49 …`: the list begins anew.
            Item::Mark('.' | '!' | ',' | ':') | Item::Line if self.lists_all(at) => {
                self.scope = Scope::Sequential;
                self.faded = None;
                1
            }
            Item::Mark('.' | ';') | Item::Line => {
                // What was said of some of them ends with its sentence.
                if self.told.send_off.is_some() {
                    self.scope = Scope::Sequential;
                }
                1
            }
            Item::Mark('-') if self.in_list(at) && !self.speaks_on(at) => {
                self.place(Slot::Missed);
                self.uses(at, 1)
            }
            Item::Word if piece.text == "x" && self.in_list(at) => {
                self.place(Slot::Missed);
                self.uses(at, 1)
            }
            _ => self.figure(at).or_else(|| self.word(at)).unwrap_or(1),
        }
    }
}
