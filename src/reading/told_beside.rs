//! Pain and illness in words that no frame knows, told beside something else: `bit of a pull in
//! my groin on the kick, do we have training wed`.
//!
//! Alone such words are asked about, by what they make likely. Beside a question, a time or who
//! comes the words of the whole text speak for that instead. So each stretch is looked at as if
//! it had come alone, and what would be asked about then is asked about here too.

use super::decide::{Decision, decide};
use super::fallback::by_words;
use super::frame::{Clause, body, is_theirs, mood};
use super::gist;
use super::health::{Sign, Signs};
use super::lexicon::{Concept, Hint};
use super::likely::{Class, Weights};
use super::piece::{Piece, Used, borders, concepts_of};
use super::rank::{best, is_long};
use crate::message::{Doubt, Kind, Statement};

/// How likely the words of a stretch must make pain, which has a part of the body to stand on.
const PAIN: f32 = 0.3;

/// The same of illness, where a word of health stands in the stretch, and where none does.
const ILL: f32 = 0.5;
const ILL_UNSAID: f32 = 0.8;

/// Pieces round a part of the body in which it is said to be well.
const NEAR: usize = 6;

/// Stretches from border to border that are looked at together.
const TOGETHER: usize = 2;

/// The same decision with what may be pain or illness beside it: asked about where all else is
/// sure, else a part of what is asked about anyway.
pub fn with_suspected(decision: Decision, whole: &Clause<'_, '_>) -> Decision {
    if whole.danger || decision == Decision::Nothing {
        return decision;
    }
    let told: Vec<&Statement> = match &decision {
        Decision::Take { says, .. } => says.iter().collect(),
        Decision::Ask { options, says, .. } => {
            options.iter().flat_map(|(_, says)| says).chain(says).collect()
        }
        Decision::Nothing => vec![],
    };
    // What ails them is told already: more words are mostly about that.
    if told.iter().any(|told| tells_of_health(told)) {
        return decision;
    }
    beside(decision, suspected(whole))
}

/// The same decision, and what may ail somebody asked about with it.
pub fn beside(decision: Decision, new: Vec<Statement>) -> Decision {
    match decision {
        decision if new.is_empty() => decision,
        Decision::Take { says, .. } => Decision::ask_whether_beside(new, says),
        // More words are waited for, and no yes: in doubt it is kept.
        Decision::Ask { about, options, mut says } if options.is_empty() => {
            says.extend(new);
            Decision::Ask { about, options, says }
        }
        Decision::Ask { about, mut options, says } => {
            options.iter_mut().for_each(|(_, says)| says.extend(new.iter().cloned()));
            let about = match about {
                Doubt::Meant { says } => Doubt::Meant { says: [says, new].concat() },
                about => about,
            };
            Decision::Ask { about, options, says }
        }
        Decision::Nothing => Decision::ask_whether(new),
    }
}

/// True of pain and illness, and of their end.
const fn tells_of_health(one: &Statement) -> bool {
    one.kind.ails() || matches!(one.kind, Kind::Better)
}

/// What stretches of a text would be asked about, or kept, of pain and illness if they came
/// alone.
fn suspected(whole: &Clause<'_, '_>) -> Vec<Statement> {
    let borders = borders(whole.pieces);
    if is_long(whole, &borders) {
        return vec![];
    }
    let asks = |at: usize| mood::opens_question(&whole.part(at, whole.len()));
    let mut parted = borders;
    parted.extend((1..whole.len()).filter(|at| asks(*at)));
    parted.sort_unstable();
    parted.dedup();
    let spans = (1..=TOGETHER).flat_map(|span| parted.windows(span + 1));
    let ends = spans.filter_map(|ends| Some((*ends.first()?, *ends.last()?)));
    let parts = ends.filter(|(from, to)| to - from < whole.len());
    parts
        .map(|(from, to)| alone(&whole.part(from, to)))
        .find(|found| !found.is_empty())
        .unwrap_or_default()
}

/// What a stretch would be asked about, or kept, of pain and illness if it came alone.
fn alone(stretch: &Clause<'_, '_>) -> Vec<Statement> {
    let others = Signs::of(&[Sign::Kin, Sign::Child, Sign::Other]);
    let of_others = stretch.pieces.iter().any(|piece| piece.signs.meets(others));
    if of_others && !stretch.sit.guardian {
        return vec![];
    }
    let likely = Weights::of(stretch.sit.language).likely(stretch);
    let hurts = |at: usize| body(&stretch.pieces[at]).is_some() && may_hurt(stretch, at);
    let pain = (0..stretch.len()).any(hurts) && likely.of(Class::Pain) >= PAIN;
    let of_health = stretch.pieces.iter().any(|piece| piece.signs.meets(OF_HEALTH));
    let ill = likely.of(Class::Ill) >= if of_health { ILL } else { ILL_UNSAID };
    if !pain && (!ill || (0..stretch.len()).any(|at| is_of_something(stretch, at))) {
        return vec![];
    }
    let among = concepts_of(stretch.pieces.0);
    let alone = &Clause {
        all: stretch.pieces,
        offset: 0,
        among,
        among_all: among,
        likely: &likely,
        ..*stretch
    };
    let decision = match decide(&best(alone), alone) {
        Decision::Nothing => by_words(alone).or_else(|| {
            let class = if pain { Class::Pain } else { Class::Ill };
            Some(Decision::ask_whether(gist::beside(alone, Used::none(alone.len()), class)?))
        }),
        decision => Some(decision),
    };
    let says = match decision {
        Some(Decision::Take { says, .. }) => says,
        Some(Decision::Ask { options, says, .. }) => {
            says.into_iter().chain(options.into_iter().flat_map(|(_, says)| says)).collect()
        }
        _ => vec![],
    };
    let ails = |one: &Statement| match &one.kind {
        Kind::Pain(_) => pain,
        kind => matches!(kind, Kind::Ill { .. }) && ill,
    };
    says.into_iter().filter(ails).collect()
}

/// Signs of which one makes it likelier that illness is spoken of.
const OF_HEALTH: Signs = Signs::of(&[
    Sign::Ache,
    Sign::Ill,
    Sign::Strange,
    Sign::Shiver,
    Sign::Cough,
    Sign::Vomit,
    Sign::Sweat,
    Sign::Hot,
    Sign::Throat,
    Sign::Headache,
    Sign::Belly,
]);

/// True where a part of the body may be what hurts: somebody's own, not said to be well, and in
/// no idiom.
fn may_hurt(c: &Clause<'_, '_>, at: usize) -> bool {
    is_theirs(c, at) && !is_well(c, at) && !is_of_something(c, at) && !is_paired(c, at)
}

/// `shoulder fine`, `knee didn't hurt once`, `the hip is holding up`.
fn is_well(c: &Clause<'_, '_>, at: usize) -> bool {
    let near = at.saturating_sub(NEAR)..c.len().min(at + NEAR);
    let denies = |piece: &Piece<'_>| {
        [Concept::Not, Concept::Didnt, Concept::Without].iter().any(|one| piece.means(*one))
            || Hint::Denies.is(piece.text)
    };
    let denied = |place: usize| c.pieces[place.saturating_sub(2)..place].iter().any(denies);
    let well = |place: usize| {
        let piece = &c.pieces[place];
        [Concept::Good, Concept::Better, Concept::Past].iter().any(|one| piece.means(*one))
            || Hint::Well.is(piece.text)
            || piece.text == "up"
                && place > 0
                && matches!(c.pieces[place - 1].text, "holding" | "held" | "holds")
    };
    let trouble = |place: usize| {
        c.pieces[place].means(Concept::Pain) || Hint::Trouble.is(c.pieces[place].text)
    };
    // `hips high and legs quiet`: how it was held.
    let held = c.at(at + 1).is_some_and(|next| Hint::HeldSo.is(next.text));
    held || near.clone().any(|place| well(place) && !denied(place))
        || near.clone().any(|place| trouble(place) && denied(place))
        || near.into_iter().any(|place| {
            denies(&c.pieces[place]) && c.at(place + 1).is_some_and(|now| now.text == "now")
        })
}

/// `stomach of steel`, `neck of the bottle`, `knee straps`: the name of something else.
fn is_of_something(c: &Clause<'_, '_>, at: usize) -> bool {
    let named = body(&c.pieces[at]).is_some() || c.pieces[at].illness().is_some();
    let bodily = |place: usize| c.at(place).is_some_and(|piece| body(piece).is_some());
    let of = c.at(at + 1).is_some_and(|piece| piece.text == "of");
    let thing = c.at(at + 1).is_some_and(|piece| Hint::ForABodyPart.is(piece.text));
    named && (thing || of && c.at(at + 2).is_some() && !(2..=4).any(|far| bodily(at + far)))
}

/// `neck and neck`, `shoulder to shoulder`, `mano a mano`.
fn is_paired(c: &Clause<'_, '_>, at: usize) -> bool {
    let here = c.pieces[at].text;
    // A border may stand between the two.
    let all = c.offset + at;
    let text = |place: Option<usize>| place.and_then(|place| c.all.get(place)).map(|one| one.text);
    text(Some(all + 2)) == Some(here) || text(all.checked_sub(2)) == Some(here)
}
