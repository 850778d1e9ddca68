//! What became of a set's repeats, by what adds up: where the text told from left to right
//! leaves more or fewer times than repeats, every number is tried as a time, a count, a
//! place or nothing, and the way that fills all repeats is the one to ask about.
//!
//! `first four in 48, after this 50`; `todos a 49 menos el quinto que fue 54`; `48 up to
//! number 6, then 50 and 50`.

mod row;
mod token;

use super::narrative::Spec;
use crate::message::TypedTime;
use crate::reading::frame::Clause;
use crate::reading::frame::clause::typed;
use crate::reading::lexicon::Concept;
use crate::reading::piece::Item;
use crate::units::Centis;
use row::Row;
use token::{Role, Token, tokens};

/// More numbers than this are a list, and no puzzle.
const NUMBERS: usize = 20;

/// What a way may cost at most.
const DEAREST: f32 = 2.6;

/// How many times of a row may be something else.
const PASSED_OVER: usize = 2;

/// A time, and whether tenths were given.
type Timed = (Centis, bool);

/// One time for each repeat, none for one that was missed, by the first of the numbers of
/// repeats that comes out.
pub fn solve(
    c: &Clause<'_, '_>,
    spec: &Spec<'_>,
    totals: &[Option<u32>],
) -> Option<Vec<Option<TypedTime>>> {
    let times = totals.iter().flatten().find_map(|total| of_total(c, spec, *total))?;
    Some(times.into_iter().map(|time| time.map(|(time, tenths)| typed(time, tenths))).collect())
}

fn of_total(c: &Clause<'_, '_>, spec: &Spec<'_>, total: u32) -> Option<Vec<Option<Timed>>> {
    // A mean, a span of times or rounds tell less than each.
    let sums = c.has_any(&[Concept::Average, Concept::Round])
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Range(..)));
    if sums {
        return None;
    }
    let tokens = tokens(c, spec, total);
    let numbers = tokens.iter().filter(|token| matches!(token, Token::Number(_))).count();
    if numbers == 0 || numbers > NUMBERS {
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
    let mut search =
        Search { tokens: &tokens, roles: Vec::new(), total: total as usize, stopped, best: None };
    search.go(0, 0.0, 0);
    let (cost, times) = search.best?;
    (cost <= DEAREST && times.iter().any(Option::is_some)).then_some(times)
}

/// Goes through every way to take the numbers.
struct Search<'t> {
    tokens: &'t [Token],
    roles: Vec<Role>,
    total: usize,
    stopped: bool,
    best: Option<(f32, Vec<Option<Timed>>)>,
}

impl Search<'_> {
    fn go(&mut self, at: usize, cost: f32, passed: usize) {
        if cost > DEAREST || self.best.as_ref().is_some_and(|(known, _)| cost >= *known) {
            return;
        }
        let Some(token) = self.tokens.get(at) else {
            // Who stopped and leaves times unread tells something else.
            let stopped = self.stopped && passed == 0;
            let row = Row::of(self.tokens, &self.roles, self.total, stopped);
            if let Some((more, times)) = row
                && self.best.as_ref().is_none_or(|(known, _)| cost + more < *known)
            {
                self.best = Some((cost + more, times));
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
