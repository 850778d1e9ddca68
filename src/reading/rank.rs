//! The readings of a text, best first: which stretches say what, and what is left.

use crate::message::Statement;
use crate::reading::decide::stores;
use crate::reading::frame::{Candidate, Clause, FRAMES, Question, asks_otherwise, mood, unchanged};
use crate::reading::lexicon::Concepts;
use crate::reading::likely::Class;
use crate::reading::passed_over::{completed, overlooked};
use crate::reading::piece::{Item, Used, borders, concepts_of};
use crate::reading::unexplained::{Unexplained, unexplained};

/// One reading of a whole text.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Ranked {
    /// Its parts, in order.
    pub parts: Vec<Part>,
    /// What it costs.
    pub cost: f32,
    /// What it leaves unexplained.
    pub left: Unexplained,
}

impl Ranked {
    /// Which pieces of a text are explained by a part that counts for that piece.
    pub fn used(&self, pieces: usize, counts: impl Fn(&Part, usize) -> bool) -> Used {
        let mut all = Used::none(pieces);
        for part in &self.parts {
            for (at, used) in (part.at.0..part.at.1).zip(part.used.iter()) {
                all[at] |= *used && counts(part, at);
            }
        }
        all
    }
}

/// A part of a reading: a stretch of pieces and what it says, or nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// The first piece and the one behind the last.
    pub at: (usize, usize),
    /// Which frame reads it; none where it is left.
    pub frame: Option<&'static str>,
    /// What it says.
    pub says: Vec<Statement>,
    /// What it asks.
    pub asks: Option<Question>,
    /// What it costs, with what it leaves.
    pub cost: f32,
    /// What it leaves.
    pub left: Unexplained,
    /// Which pieces it explains.
    pub used: Used,
}

/// Every statement costs so much, so that one that explains all beats two.
const STATEMENT: f32 = 0.9;

/// How much the words' evidence weighs beside that of pieces and situation.
const WORDS: f32 = 0.3;

/// What the words cost a right reading as a rule.
const USUAL: f32 = 1.0;

/// What only answers stands in nobody's way.
const ANSWER: f32 = 0.4;

/// What a stretch that no frame reads costs beside its words.
const NOTHING: f32 = 0.5;

/// Stretches that one frame may span, counted from border to border, by how many pieces the
/// text has at most: fewer in one longer than anybody types, so that the work grows with its
/// length and no more.
const WIDEST: [(usize, usize); 3] = [(LONG, 14), (400, 4), (usize::MAX, 2)];

/// Pieces up to which all stretches of a text are looked at.
const LONG: usize = 160;

/// The same by the borders of the text: one that is parted oftener than anybody types (28,
/// ours; results of a whole squad have 26) is looked at in stretches of so many.
const OFTEN: (usize, usize) = (28, 4);

fn is_parted_often(whole: &Clause<'_, '_>, borders: &[usize]) -> bool {
    // Words that speak of a danger stand there as pictures, and part nothing.
    let parts = |at: &&usize| whole.pieces[at.saturating_sub(1)].item != Item::Picture;
    borders.len() > OFTEN.0 + 1 && borders.iter().filter(parts).count() > OFTEN.0 + 1
}

/// True of a text that nobody types: what its best reading leaves is not looked at again.
pub(super) fn is_long(whole: &Clause<'_, '_>, borders: &[usize]) -> bool {
    whole.pieces.len() > LONG || is_parted_often(whole, borders)
}

/// The best reading of a text.
pub fn best(whole: &Clause<'_, '_>) -> Ranked {
    let borders = borders(whole.pieces);
    let count = borders.len() - 1;
    let widest = WIDEST.iter().find(|(pieces, _)| whole.pieces.len() <= *pieces);
    let widest = widest.map_or(1, |(_, widest)| *widest);
    let widest = if is_parted_often(whole, &borders) { widest.min(OFTEN.1) } else { widest };
    let least: Vec<Least> = borders.array_windows().map(|ends| Least::of(whole, *ends)).collect();
    let mut ways: Vec<Option<Way>> = Vec::with_capacity(count);
    for (to, end) in borders.iter().enumerate().skip(1) {
        let mut way: Option<Way> = None;
        // Nothing wider than the widest, and the whole text.
        let narrow = to.saturating_sub(widest)..to;
        let wide = (to == count && narrow.start > 0).then_some(0);
        for from in narrow.rev().chain(wide) {
            let Some(before) = cost_to(&ways, from) else { continue };
            let (Some(start), Some(over)) = (borders.get(from), least.get(from..to)) else {
                continue;
            };
            let among = over.iter().fold(Concepts::default(), |all, one| all.and(one.among));
            let stretch = Clause { among, ..whole.part(*start, *end) };
            let swallowed = over.iter().skip(1).any(|one| one.asks)
                || over.len() > 1 && over.iter().any(|one| one.stays);
            let part = read(&stretch, swallowed);
            let cost = before + part.cost;
            if way.as_ref().is_none_or(|known| cost < known.cost) {
                way = Some(Way { cost, from, part });
            }
        }
        ways.push(way);
    }
    let mut ranked =
        Ranked { cost: cost_to(&ways, count).unwrap_or_default(), ..Ranked::default() };
    // Back from the last border, by the ways that led there.
    while let Some(way) = ways.pop() {
        let Some(Way { from, part, .. }) = way else { break };
        ranked.left += part.left;
        ranked.parts.push(part);
        ways.truncate(from);
    }
    ranked.parts.reverse();
    overlooked(whole, &borders, &mut ranked);
    completed(whole, &borders, &mut ranked);
    ranked
}

/// What stands between two borders that have none between them.
struct Least {
    /// A question begins there.
    asks: bool,
    /// It is to stay as it is.
    stays: bool,
    /// What may be meant.
    among: Concepts,
}

impl Least {
    fn of(whole: &Clause<'_, '_>, [from, to]: [usize; 2]) -> Least {
        let stays = unchanged::stays(&whole.part(from, to));
        Least { asks: asks_from(whole, from), stays, among: concepts_of(&whole.pieces[from..to]) }
    }
}

/// The cheapest way from a text's first border to another.
struct Way {
    /// What it costs.
    cost: f32,
    /// The border before.
    from: usize,
    /// What stands between the two.
    part: Part,
}

/// What the way to a border costs, of the ways to all but the first; nothing to that.
fn cost_to(ways: &[Option<Way>], border: usize) -> Option<f32> {
    match border.checked_sub(1) {
        None => Some(0.0),
        Some(place) => ways.get(place)?.as_ref().map(|way| way.cost),
    }
}

/// What it costs to pass over a question that stands in the stretch, or over what is to
/// stay as it is.
const SWALLOWED: f32 = 1.5;

/// What it costs to take for told what is asked for: `did heron go under 3:10`.
const ASKED_FOR: f32 = 1.0;

/// How likely the words make a swim of what is told and no question of.
const TOLD: f32 = 0.5;

/// How likely they must make a question, and how unlikely a swim, where none is put as one:
/// `quick q the hold 48 bit is that touch to touch`.
const ASKS: f32 = 0.6;
const HARDLY: f32 = 0.2;

/// True if a question begins at a border.
fn asks_from(whole: &Clause<'_, '_>, at: usize) -> bool {
    let rest = whole.part(at, whole.len());
    at > 0 && mood::opens_question(&rest)
}

fn stores_something(candidate: &Candidate) -> bool {
    candidate.asks.is_none() && candidate.says.iter().any(|one| stores(&one.kind))
}

/// The best that one frame, or none, makes of a stretch.
fn read(stretch: &Clause<'_, '_>, swallowed: bool) -> Part {
    let at = (stretch.offset, stretch.offset + stretch.len());
    let stretch = &Clause { question: Some(mood::is_question(stretch)), ..*stretch };
    // Nothing that is told first, and then asked about: `came in on 47, is that ok`.
    // Nor where the words speak for a swim: `did my 400 tonight 6 49`.
    let swum = [Class::Test, Class::SetResult, Class::Done];
    let swum = swum.iter().map(|class| stretch.likely.of(*class)).fold(0.0, f32::max);
    let asks = stretch.question == Some(true)
        && swum < TOLD
        && (mood::opens_question(stretch) || asks_otherwise(stretch));
    let by_words = swum < HARDLY && stretch.likely.of(Class::Ask) > ASKS;
    let asked_for = (asks || by_words) && !mood::is_request(stretch);
    let mut best = part_of(stretch, None, at);
    for mut candidate in candidates(stretch) {
        if swallowed && stores_something(&candidate) {
            candidate.cost += SWALLOWED;
        }
        if asked_for && candidate.says.iter().any(|one| one.kind.is_swum()) {
            candidate.cost += ASKED_FOR;
        }
        let part = part_of(stretch, Some(candidate), at);
        if part.cost < best.cost {
            best = part;
        }
    }
    best
}

/// Everything that the frames make of a stretch.
pub fn candidates(stretch: &Clause<'_, '_>) -> Vec<Candidate> {
    FRAMES
        .iter()
        .filter(|frame| frame.evoked_by.is_empty() || stretch.has_any(frame.evoked_by))
        .flat_map(|frame| (frame.read)(stretch))
        .collect()
}

/// What the words of the text say against a reading, in nats.
fn by_words(stretch: &Clause<'_, '_>, candidate: &Candidate) -> f32 {
    let options = candidate.asks.iter().flat_map(|asks| asks.options.first());
    let says = candidate.says.iter().chain(options.flat_map(|(_, says)| says));
    let costs: Vec<f32> = says.map(|one| stretch.likely.cost(&one.kind)).collect();
    match costs.len() {
        0 => 0.7,
        several => costs.iter().sum::<f32>() / several as f32,
    }
}

fn statement(says: &[Statement]) -> f32 {
    let answers = !says.is_empty() && says.iter().all(|one| !stores(&one.kind));
    if answers { ANSWER } else { STATEMENT }
}

pub(super) fn part_of(
    stretch: &Clause<'_, '_>,
    candidate: Option<Candidate>,
    at: (usize, usize),
) -> Part {
    let mut left = Unexplained::default();
    let used = candidate.as_ref().map_or_else(|| Used::none(stretch.len()), |one| one.used.clone());
    for (piece, used) in stretch.pieces.iter().zip(used.iter()) {
        if !used {
            left += unexplained(piece);
        }
    }
    match candidate {
        None => Part {
            at,
            frame: None,
            says: vec![],
            asks: None,
            // What no frame explains weighs double: something should.
            cost: NOTHING + left.cost * 1.3,
            left,
            used,
        },
        Some(candidate) => Part {
            at,
            frame: Some(candidate.frame),
            cost: candidate.cost
                + statement(&candidate.says)
                + left.cost
                + WORDS * (by_words(stretch, &candidate) - USUAL),
            says: candidate.says,
            asks: candidate.asks,
            left,
            used,
        },
    }
}
