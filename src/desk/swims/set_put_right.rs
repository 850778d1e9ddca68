//! A set put right by naming it: one of its times, or several.
//!
//! Finds which set is meant, and works out anew what it comes to.

use jiff::ToSpan;

use super::set_doubts;
use crate::coaching::{self, Facts, SetSwum};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve;
use crate::desk::decision::view::View;
use crate::desk::known::facts::facts;
use crate::history::{Event, Kept};
use crate::message::{self, Day, Kind, Message, Name, Statement};
use crate::reply::{Asks, OkReply, Outcome, RefusedWhy, SetFixedReply, SetReply};
use crate::units::Centis;

/// For how many days after its night a set is put right by a swimmer's name and a
/// place in it (ours: the next day or the one after).
const DAYS: i64 = 2;

impl View<'_> {
    /// The set of the one swimmer whom a coach's text names, where the text tells of a
    /// place in it: `heron's third was 44`. It is the last that was told of them, of the
    /// last days.
    pub fn set_named(&self) -> Option<(Name, &Kept<SetSwum>)> {
        if !self.may(crate::history::Right::SpeakForOthers) || !self.tells_a_place() {
            return None;
        }
        let mut named: Vec<Name> = message::names_in(self.asked.text)
            .filter(|name| self.squad.swimmers.contains_key(name))
            .collect();
        named.dedup();
        let [who] = named.as_slice() else { return None };
        let since = self.today.saturating_sub(DAYS.days());
        let sets = self.swimmer(who)?.sets.since(since, self.now());
        let last = sets.max_by_key(|kept| kept.cause)?;
        Some((who.clone(), last))
    }

    /// True for a text with a word such as `third` or `last one`; `last night` is a
    /// day.
    fn tells_a_place(&self) -> bool {
        use crate::reading::lex::lex;
        use crate::reading::lexicon::{Concept, Lexicon, Sense};
        let lexicon = Lexicon::of(self.language());
        let lexed = lex(self.asked.text);
        let tokens = lexed.tokens();
        let senses = |at: usize| {
            let ahead = tokens.get(at..).map(|ahead| lexicon.senses_at(ahead));
            ahead.into_iter().flatten()
        };
        let is_day = |at: usize| senses(at).any(|found| matches!(found.sense, Sense::Day(_)));
        (0..tokens.len()).filter(|at| !is_day(*at)).any(|at| {
            senses(at).any(|found| {
                matches!(
                    found.sense,
                    Sense::Ordinal(_) | Sense::Word(Concept::First | Concept::Last)
                )
            })
        })
    }
}

/// Takes a set out of the facts that another one replaces: it is not an earlier set.
pub fn forget_set(facts: &mut Facts, was: &SetSwum) {
    if let Some(at) = facts.sets.iter().rposition(|set| set == was) {
        facts.sets.remove(at);
    }
}

/// The set of theirs that a new one tells again: the same repeats of the night's set, which
/// holds fewer of them than the two together.
pub fn told_before(view: &View<'_>, who: &Name, swum: &SetSwum) -> Option<(u64, SetSwum)> {
    let line = view.session_that_night(who, swum.on)?;
    let swims = |repeat: &crate::session::Repeat| {
        (repeat.distance, repeat.stroke) == (swum.set.distance, swum.set.stroke)
    };
    let all: u32 = line.main_lines().filter(|(_, line)| swims(line)).map(|(count, _)| count).sum();
    let mut sets = view.swimmer(who)?.sets.since(swum.on, view.now());
    let before = sets.rfind(|kept| kept.on == swum.on && swims(&kept.what.set))?;
    let both = u32::from(before.what.set.count) + u32::from(swum.set.count);
    (both > all && before.what != *swum).then(|| (before.cause, before.what.clone()))
}

/// What was said of a swimmer's set, as it should have been; none where the text names
/// none, and what was said last is meant.
pub fn restated(desk: &mut Desk<'_>, says: &[Statement]) -> Option<Result<Outcome, Stopped>> {
    let [Statement { who: Some(who), kind: Kind::SetResult(told) }] = says else { return None };
    if desk.is_mine(who) {
        return None;
    }
    let named = desk.set_named().filter(|(name, _)| name == who).map(|(_, kept)| kept.clone());
    let kept = named.or_else(|| {
        // An answer to what was asked about it names nobody.
        let Some(Day::Full(on)) = told.on.filter(|_| desk.answered) else { return None };
        let sets = desk.swimmer(who)?.sets.since(on, desk.now());
        let far = told.distance.amount;
        let of_far = sets.filter(|kept| kept.on == on && kept.what.set.distance.amount() == far);
        of_far.max_by_key(|kept| kept.cause).cloned()
    })?;
    let swum = &kept.what;
    let times = match told.times.is_empty() {
        true => swum.times.clone(),
        false => resolve::times(&told.times, swum.set.distance, swum.set.stroke, swum.set.target),
    };
    let mut set = swum.set.clone();
    set.count = told.count;
    set.stroke = told.stroke.unwrap_or(set.stroke);
    let right = SetSwum { set, times, ..swum.clone() };
    let kind = Kind::Restate { says: says.to_vec(), changed: 0 };
    let statement = Statement { who: Some(who.clone()), kind };
    Some(put_right(desk, &who.clone(), &kept, right, &statement))
}

/// `fix heron tue 1:34 instead of 1:33`: the time of a set that is named, where no
/// test has it.
pub fn fixed(
    desk: &mut Desk<'_>,
    who: &Name,
    fix: &message::Fix,
    time: &message::TypedTime,
    statement: &Statement,
) -> Option<Result<Outcome, Stopped>> {
    let wrong = fix.instead.as_ref()?;
    let unit = desk.course_of(who).unit();
    let on = fix.on.and_then(|day| resolve::day(day, desk.today, unit, resolve::Toward::Past));
    let place = |kept: &Kept<SetSwum>| {
        let is_it = |time: &Option<Centis>| time.is_some_and(|time| wrong.readings.contains(&time));
        kept.what.times.iter().position(is_it)
    };
    let now = desk.asked.wall.max(desk.now());
    let sets = desk.swimmer(who)?.sets.as_of(now);
    let sets = sets.filter(|kept| on.is_none_or(|on| kept.on == on) && place(kept).is_some());
    let kept = sets.max_by_key(|kept| kept.cause)?.clone();
    let at = place(&kept)?;
    let set = &kept.what.set;
    let settled = resolve::time(time, set.distance, set.stroke)?.likelier();
    let mut right = kept.what.clone();
    *right.times.get_mut(at)? = Some(settled);
    Some(put_right(desk, who, &kept, right, statement))
}

/// Weighed like a new result, then kept in the place of the other.
fn put_right(
    desk: &mut Desk<'_>,
    who: &Name,
    kept: &Kept<SetSwum>,
    mut right: SetSwum,
    statement: &Statement,
) -> Result<Outcome, Stopped> {
    let was = kept.what.clone();
    let changes: Vec<(usize, Option<Centis>, Option<Centis>)> = right
        .times
        .iter()
        .enumerate()
        .map(|(at, now)| (at + 1, was.times.get(at).copied().flatten(), *now))
        .filter(|(_, was, now)| was != now)
        .collect();
    if changes.is_empty() && right.set == was.set {
        return Err(refused("nothing", RefusedWhy::Nothing));
    }
    let mut facts = facts(desk, who)?;
    forget_set(&mut facts, &was);
    let feedback = coaching::feedback_by(desk.asked.book, &facts, &right);
    let doubted = set_doubts::unlike_them(desk, who, &facts, true, &right, &feedback);
    let doubted = doubted.filter(|time| changes.iter().any(|(_, _, now)| *now == Some(*time)));
    if let (Some(time), false) = (doubted, desk.confirmed) {
        let distance = right.set.distance;
        let message = Message { statements: vec![statement.clone()] };
        return Err(ask_yes(desk, Asks::Implausible { distance, time }, &message));
    }
    right.held = feedback.held();
    let set = right.set.clone();
    desk.record(Event::SetFixed {
        who: who.clone(),
        cause: kept.cause,
        was: Box::new(was),
        now: Box::new(right),
    });
    let other = desk.me() != Some(who);
    let swum = SetReply {
        swimmer: who.clone(),
        other,
        set,
        lane: None,
        feedback,
        promised: false,
        replaced: None,
        repeat: false,
    };
    Ok(Outcome::Ok(OkReply::SetFixed(Box::new(SetFixedReply { swum, changes }))))
}
