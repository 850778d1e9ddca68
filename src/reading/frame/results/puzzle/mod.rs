//! What became of a set's repeats, by what adds up: where the text told from left to right
//! leaves more or fewer times than repeats, every number is tried as a time, a count, a
//! place or nothing, and the way that fills all repeats is the one to ask about.
//!
//! `first four in 48, after this 50`; `todos a 49 menos el quinto que fue 54`; `48 up to
//! number 6, then 50 and 50`.

mod close;
mod row;
mod subset;
mod token;

use super::narrative::{Slot as Told, Spec};
use crate::message::TypedTime;
use crate::reading::frame::Clause;
use crate::reading::frame::clause::typed;
use crate::reading::lexicon::Concept;
use crate::reading::piece::Item;
use crate::units::{Centis, SendOff};
use row::{Open, Row, Slot};
use token::{COMMA, Role, Token, Which, tokens};

/// More numbers than this are a list, and no puzzle.
const NUMBERS: usize = 20;

/// What a way may cost at most.
const DEAREST: f32 = 2.6;

/// How many times of a row may be something else.
const PASSED_OVER: usize = 2;

/// A time, and whether tenths were given.
type Timed = (Centis, bool);

/// What the repeats come to, and what that costs.
pub struct Solved {
    /// 0 where every number and word has its place, more the more is guessed.
    pub cost: f32,
    /// One for each repeat.
    pub repeats: Vec<Told>,
}

impl Solved {
    /// One time for each repeat, none for one that was missed; what was held is at the
    /// target. Nothing where no time was told.
    pub fn times(&self, target: Option<Centis>) -> Option<Vec<Option<TypedTime>>> {
        let one = |told: &Told| match told {
            Told::Swum(time, tenths) => Some(typed(*time, *tenths)),
            Told::Held => target.map(|target| typed(target, false)),
            Told::Missed | Told::Unsaid => None,
        };
        let swum = self.repeats.iter().any(|told| matches!(told, Told::Swum(..)));
        swum.then(|| self.repeats.iter().map(one).collect())
    }
}

/// What became of each repeat, by the first of the numbers of repeats that comes out.
/// `left_on` is what they left on, where that is told beside.
pub fn solve(
    c: &Clause<'_, '_>,
    spec: &Spec<'_>,
    left_on: Option<SendOff>,
    totals: &[Option<u32>],
) -> Option<Solved> {
    totals.iter().flatten().find_map(|total| of_total(c, spec, left_on, *total))
}

fn of_total(
    c: &Clause<'_, '_>,
    spec: &Spec<'_>,
    left_on: Option<SendOff>,
    total: u32,
) -> Option<Solved> {
    let tokens = tokens(c, spec, left_on, total);
    // A mean, a span of times or rounds tell less than each.
    let places = tokens.iter().filter(|token| matches!(token, Token::Span(..))).count();
    let ranges = c.pieces.iter().filter(|piece| matches!(piece.item, Item::Range(..))).count();
    if ranges > places || c.has_any(&[Concept::Average, Concept::Round, Concept::Odd]) {
        return None;
    }
    if let Some(repeats) = list(&tokens, total as usize) {
        return Some(Solved { cost: 0.0, repeats });
    }
    let numbers = tokens.iter().filter(|token| matches!(token, Token::Number(_))).count();
    if numbers > NUMBERS {
        return None;
    }
    let stopped = c.has_any(&[
        Concept::Missed,
        Concept::Stopped,
        Concept::Only,
        Concept::Short,
        Concept::Left,
        Concept::Cant,
        Concept::Didnt,
    ]);
    let open = Open { stopped, so_far: spec.so_far };
    let mut search =
        Search { tokens: &tokens, roles: Vec::new(), total: total as usize, open, best: None };
    search.go(0, 0.0, 0);
    let (cost, slots) = search.best?;
    let repeats: Vec<Told> = slots.into_iter().map(told).collect();
    let says = repeats.iter().any(|repeat| !matches!(repeat, Told::Unsaid));
    says.then_some(Solved { cost, repeats })
}

/// As many times one behind the other as there were repeats.
fn list(tokens: &[Token], total: usize) -> Option<Vec<Told>> {
    let time = |token: &Token| match token {
        Token::Number(roles) => roles.iter().find_map(|(role, cost)| match role {
            Role::Time((time, tenths)) if *cost < 0.5 => Some(Told::Swum(*time, *tenths)),
            _ => None,
        }),
        _ => None,
    };
    let mut run = Vec::new();
    for token in tokens {
        match (time(token), token) {
            (Some(time), _) => run.push(time),
            (None, Token::Break(cost)) if *cost <= COMMA => {}
            (None, Token::Word(Which::Then)) => {}
            _ if run.len() == total => break,
            _ => run.clear(),
        }
    }
    (total > 1 && run.len() == total).then_some(run)
}

fn told(slot: Slot) -> Told {
    match slot {
        Slot::Unsaid => Told::Unsaid,
        Slot::Missed => Told::Missed,
        Slot::Held => Told::Held,
        Slot::Swum((time, tenths)) => Told::Swum(time, tenths),
    }
}

/// Goes through every way to take the numbers.
struct Search<'t> {
    tokens: &'t [Token],
    roles: Vec<Role>,
    total: usize,
    open: Open,
    best: Option<(f32, Vec<Slot>)>,
}

impl Search<'_> {
    fn go(&mut self, at: usize, cost: f32, passed: usize) {
        let limit = self.best.as_ref().map_or(DEAREST, |(known, _)| *known);
        if cost >= limit {
            return;
        }
        let Some(token) = self.tokens.get(at) else {
            // Who stopped and leaves times unread tells something else.
            let open = Open { stopped: self.open.stopped && passed == 0, ..self.open };
            let row = Row::of(self.tokens, &self.roles, self.total, open, limit - cost);
            if let Some((more, slots)) = row {
                self.best = Some((cost + more, slots));
            }
            return;
        };
        let Token::Number(options) = token else {
            self.roles.push(Role::Nothing);
            self.go(at + 1, cost, passed);
            self.roles.pop();
            return;
        };
        for (role, more) in options {
            let over = passed + usize::from(*role == Role::Nothing && *more > 1.0);
            if over > PASSED_OVER {
                continue;
            }
            self.roles.push(*role);
            self.go(at + 1, cost + more, over);
            self.roles.pop();
        }
    }
}
