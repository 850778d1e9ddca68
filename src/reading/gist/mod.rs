//! The gist of a text: what its words make likely, with whatever figures, days and people
//! fit into that, in whichever order they stand.
//!
//! Frames know how things are said; the gist knows only what a statement of each kind
//! needs. Nothing of it is kept without a question: it stands for the texts that no frame was
//! written for.

mod coming;
mod evening;
mod one_changed;
mod slots;
mod swum;

use crate::message::{Kind, NextWish, PlanWish, Statement, WeekKind};
use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::likely::Class;
use crate::reading::piece::Used;
use crate::reading::situation::Role;
pub use coming::says_whether;
pub use one_changed::{CORRECTING, anew};
use slots::Slots;

/// How likely a kind must be to be part of the gist of all.
const PART: f32 = 0.4;

/// How likely a kind must be that no figure, day or name stands for.
const ALONE: f32 = 0.6;

/// How many kinds are tried.
const KINDS: usize = 3;

/// What a text may say: all that its words make likely, else the likeliest kind that its
/// figures, days and people fill. Kinds under `least` are not thought of.
pub fn gist(whole: &Clause<'_, '_>, least: f32) -> Option<Vec<Statement>> {
    let ranked = whole.likely.ranked();
    let likely: Vec<Class> = ranked.iter().filter(|one| one.1 >= PART).map(|one| one.0).collect();
    if likely.len() > 1
        && let Some(says) = together(whole, likely)
    {
        return Some(says);
    }
    let single = |(class, odds): &(Class, f32)| {
        let mut slots = Slots::of(whole);
        let says = statements(&mut slots, *class)?;
        // A day, a figure or somebody stands for it, or its words leave little doubt.
        let stands = slots.used.iter().any(|used| *used) || *odds >= ALONE;
        stands.then_some(says)
    };
    let mut likely = ranked.iter().take(KINDS).filter(|one| one.1 >= least);
    likely.find_map(single).or_else(|| swum::lone(&mut Slots::of(whole)))
}

/// What a text says of one kind by pieces of which nothing else was made; nothing where
/// none of them speaks of it.
pub fn beside(whole: &Clause<'_, '_>, used: Used, class: Class) -> Option<Vec<Statement>> {
    let mut slots = Slots { c: whole, used };
    let before = slots.used.clone();
    let says = statements(&mut slots, class)?;
    let taken = slots.used.iter().zip(before.iter()).any(|(now, before)| *now && !*before);
    let free = whole.pieces.iter().zip(before.iter()).filter(|(_, used)| !**used);
    let speaks = coming::is_of(class) && free.map(|(piece, _)| piece).any(coming::speaks);
    (taken || speaks).then_some(says)
}

/// Several kinds in one text, each with what is its own; nothing where one of them has
/// nothing to stand on.
fn together(whole: &Clause<'_, '_>, mut classes: Vec<Class>) -> Option<Vec<Statement>> {
    let mut slots = Slots::of(whole);
    let mut says = Vec::new();
    // What needs figures takes them first.
    classes.sort_by_key(|class| std::cmp::Reverse(hunger(*class)));
    for class in classes.iter().take(KINDS) {
        says.extend(statements(&mut slots, *class)?);
    }
    Some(says)
}

/// How many figures a kind wants, roughly.
const fn hunger(class: Class) -> u8 {
    match class {
        Class::SetResult | Class::Set | Class::Register => 4,
        Class::Test | Class::Race => 3,
        Class::Done | Class::Pain | Class::Change | Class::Move => 2,
        Class::Attend | Class::Away | Class::Missed | Class::Timetable => 1,
        _ => 0,
    }
}

/// The statements of one kind that what is left of a text makes.
fn statements(slots: &mut Slots<'_, '_, '_>, class: Class) -> Option<Vec<Statement>> {
    let coach = slots.c.sit.role == Role::Coach;
    let own = |kind: Kind| Some(vec![Statement { who: None, kind }]);
    match class {
        Class::Test if coach => swum::tests_of_many(slots),
        Class::Test => swum::test(slots),
        Class::SetResult => swum::set_result(slots),
        Class::Done => swum::done(slots),
        Class::Missed => own(Kind::Missed { on: slots.past_day() }),
        Class::Ill => {
            let who = slots.who()?;
            let kind = match slots.c.has(Concept::Tired) {
                true => Kind::Tired,
                false => Kind::Ill { what: slots.illness() },
            };
            Some(vec![Statement { who, kind }])
        }
        Class::Better => Some(vec![Statement { who: slots.who()?, kind: Kind::Better }]),
        Class::Pain => slots.pain(),
        Class::Attend => coming::attend(slots),
        Class::Away => coming::away(slots),
        Class::Register => coming::register(slots),
        Class::Hold | Class::Release if coach => {
            let who = Some(slots.who()??);
            let kind = match class {
                Class::Hold => Kind::Hold { week: WeekKind::Easy },
                _ => Kind::Release,
            };
            Some(vec![Statement { who, kind }])
        }
        Class::Undo => own(Kind::Undo),
        Class::Easier => own(Kind::Easier),
        Class::Harder => own(Kind::Harder),
        Class::Shorter => own(Kind::Shorter),
        Class::Again => own(Kind::Again),
        Class::Trend => own(Kind::Trend),
        Class::Best => own(Kind::Best),
        Class::Log => own(Kind::Log),
        Class::Plan => own(Kind::Plan(PlanWish::default())),
        Class::Next => own(Kind::Next(NextWish::default())),
        Class::Targets => own(Kind::Targets { distances: vec![] }),
        Class::Predict => own(Kind::Predict { distance: slots.distance()? }),
        Class::Squad => evening::squad(slots),
        Class::Lanes if coach => own(Kind::Lanes { count: None }),
        Class::Move if coach => evening::moves(slots),
        Class::Change if coach => evening::change(slots),
        Class::Timetable if coach => evening::timetable(slots),
        Class::Note if coach => evening::note(slots),
        Class::Tell if coach => evening::tell(slots),
        _ => None,
    }
}
