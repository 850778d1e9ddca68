//! The next session of one swimmer.

use super::calendar::day_of_next;
use super::purpose::{Turn, purpose_on, with_effort};
use super::rulebook::{RuleId, Rulebook};
use super::swimmer_state::{SwimmerState, in_unit};
use super::write_session::{Order, course_for, write};
use super::{Facts, Refusal, RefusalReason, SessionWish};
use crate::session::{Purpose, Session};

/// The next session: what it is for, by the rules; then the best that fits the
/// minutes and the pool.
///
/// # Errors
/// [`RefusalReason::Stopped`] while faintness or chest pain is open,
/// [`RefusalReason::TooShort`] where the minutes hold no warm-up, swim and
/// swim-down, [`RefusalReason::NotHarder`] where harder was asked for against a
/// rule.
pub fn next_session(facts: &Facts, wish: &SessionWish) -> Result<Session, Refusal> {
    next_session_by(&Rulebook::default(), facts, wish)
}

/// [`next_session`] by a coach's own numbers.
///
/// # Errors
/// As [`next_session`].
pub fn next_session_by(
    book: &Rulebook,
    facts: &Facts,
    wish: &SessionWish,
) -> Result<Session, Refusal> {
    let state = SwimmerState::of(facts, book);
    refuse_if_stopped(&state)?;
    let on = day_of_next(&state);
    let purpose = purpose_on(&state, on, Turn::Next);
    let purpose = with_effort(&state, on, purpose, wish)?;
    let mut order = Order {
        on,
        purpose,
        minutes: wish.minutes,
        most: wish.distance.map(|distance| in_unit(distance, course_for(facts, wish))),
        aim: None,
        uncapped: false,
    };
    if wish.shorter
        && let Ok(whole) = write(&state, wish, &order)
    {
        order.most = Some(whole.amount() * 3 / 4);
    }
    write(&state, wish, &order)
}

/// A session for `purpose` on the day right ahead; `None` where it can't be written.
pub(super) fn session_for(state: &SwimmerState<'_>, purpose: Purpose) -> Option<Session> {
    let order = Order {
        on: day_of_next(state),
        purpose: (purpose, vec![RuleId::Promised]),
        minutes: None,
        most: None,
        aim: None,
        uncapped: false,
    };
    write(state, &SessionWish::default(), &order).ok()
}

/// Nothing is written while faintness or chest pain is open.
pub(super) fn refuse_if_stopped(state: &SwimmerState<'_>) -> Result<(), Refusal> {
    match state.open.faint {
        true => Err(refusal(RuleId::Stopped, RefusalReason::Stopped)),
        false => Ok(()),
    }
}

/// A rule's refusal.
pub(super) fn refusal(rule: RuleId, reason: RefusalReason) -> Refusal {
    Refusal { rule: rule.id().to_owned(), reason }
}
