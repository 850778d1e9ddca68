//! What a text tells of pain and illness, kept whatever became of the rest of it.

use crate::message::{Kind, Statement};
use crate::reading::decide::Decision;
use crate::reading::frame::{Clause, complaints};
use crate::reading::told_beside;

/// What goes on from the text before, and what ails somebody by this text alone.
pub fn with_what_ails(followed: Decision, alone: Decision) -> Decision {
    let Decision::Ask { options, says, .. } = alone else { return followed };
    let told = followed.clone().certain();
    let is_new = |one: &Statement| one.kind.ails() && !restates(&told, one);
    let kept: Vec<Statement> = says.into_iter().filter(is_new).collect();
    let asked = options.into_iter().next().map_or_else(Vec::new, |(_, says)| says);
    let asked = asked.into_iter().filter(|one| is_new(one) && !kept.contains(one)).collect();
    let followed = match followed {
        Decision::Take { mut says, rest } => {
            says.extend(kept);
            Decision::Take { says, rest }
        }
        Decision::Ask { about, options, mut says } => {
            says.extend(kept);
            Decision::Ask { about, options, says }
        }
        Decision::Nothing => Decision::Nothing,
    };
    told_beside::beside(followed, asked)
}

/// True where one of these says as much, or puts as much right.
fn restates(told: &[Statement], one: &Statement) -> bool {
    told.iter().any(|told| match &told.kind {
        Kind::Restate { says, .. } => says.iter().any(|said| is_same(said, one)),
        _ => is_same(told, one),
    })
}

/// True of two statements of one kind, and of one place where it is pain.
fn is_same(one: &Statement, other: &Statement) -> bool {
    std::mem::discriminant(&one.kind) == std::mem::discriminant(&other.kind)
        && place_of(&one.kind) == place_of(&other.kind)
}

/// Nobody is ill and better in one text: the illness stands, as it lowers what follows.
fn without_contrary(says: &mut Vec<Statement>) {
    let ill: Vec<_> = says
        .iter()
        .filter(|one| matches!(one.kind, Kind::Ill { .. }))
        .map(|one| one.who.clone())
        .collect();
    says.retain(|one| one.kind != Kind::Better || !ill.contains(&one.who));
}

/// Pain and illness once read are never dropped, whatever became of the rest.
pub fn with_health(decision: Decision, whole: &Clause<'_, '_>) -> Decision {
    let told = complaints(whole);
    let missing = |says: &[Statement]| -> Vec<Statement> {
        told.iter().filter(|one| !says.iter().any(|said| is_same(one, said))).cloned().collect()
    };
    match decision {
        Decision::Take { mut says, rest } => {
            let more = missing(&says);
            says.extend(more);
            without_contrary(&mut says);
            Decision::Take { says, rest }
        }
        // Read by its words alone, it is a part of what is asked about.
        Decision::Ask { about, mut options, mut says } => {
            let options_say: Vec<Statement> =
                options.iter().flat_map(|(_, says)| says.clone()).chain(says.clone()).collect();
            let more = missing(&options_say);
            if options.is_empty() {
                says.extend(more.iter().cloned());
            }
            options.iter_mut().for_each(|(_, says)| says.extend(more.iter().cloned()));
            Decision::Ask { about, options, says }
        }
        Decision::Nothing if told.is_empty() => Decision::Nothing,
        Decision::Nothing => Decision::Take { says: told, rest: None },
    }
}

fn place_of(kind: &Kind) -> Option<&str> {
    match kind {
        Kind::Pain(pain) => Some(&pain.place),
        _ => None,
    }
}
