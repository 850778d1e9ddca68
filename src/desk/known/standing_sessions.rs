//! The sessions that stand: what a swimmer was told they will swim, until it was swum,
//! its day is over, they or the coach change it, or something new is known.
//!
//! `next` and `plan` each keep what they told; this reads both as one record, and
//! says what came up since.

use jiff::civil::Date;

use crate::coaching::{self, Facts, Promise, Race};
use crate::desk::decision::view::View;
use crate::history::{Kept, Swimmer};
use crate::reply::News;
use crate::session::Session;

/// Of what was told, what stands as it was: nothing came up since.
pub fn that_stand(told: &[(Option<News>, Session)]) -> Vec<Session> {
    told.iter().filter(|(news, _)| news.is_none()).map(|(_, session)| session.clone()).collect()
}

impl View<'_> {
    /// What they were told for days to come, one a day, by day: the sessions of the
    /// last plan, and the one suggested since or beside it.
    pub fn told<'s>(&self, swimmer: &'s Swimmer) -> Vec<&'s Kept<Session>> {
        let now = self.now();
        let swum_today = self.seen_swum(&swimmer.name, self.today).is_some()
            || swimmer.sets.since(self.today, now).next().is_some()
            || swimmer.tests.since(self.today, now).next().is_some();
        let ahead = |on: Date| on > self.today || (on == self.today && !swum_today);
        swimmer.told(now).into_iter().filter(|kept| ahead(kept.on)).collect()
    }

    /// Each of them with what came up since.
    pub fn told_since(&self, swimmer: &Swimmer, facts: &Facts) -> Vec<(Option<News>, Session)> {
        let told = self.told(swimmer).into_iter();
        told.map(|told| (self.news(swimmer, facts, told), told.what.clone())).collect()
    }

    /// Why a session that was told no longer holds, the weightiest reason first. None
    /// where it holds.
    pub fn news(&self, swimmer: &Swimmer, facts: &Facts, told: &Kept<Session>) -> Option<News> {
        let (now, since, session) = (self.now(), told.cause, &told.what);
        let hard = coaching::is_hard(session);
        let on = session.on;
        let came = |cause: Option<u64>| cause.is_some_and(|cause| cause > since);
        let (mut came_up, mut is_over) = (false, false);
        for kept in swimmer.troubles.as_of(now) {
            match kept.what.closed.filter(|(_, at)| *at <= now) {
                Some((by, _)) => is_over |= by > since,
                None => came_up |= kept.cause > since,
            }
        }
        if came_up {
            return Some(News::Trouble);
        }
        if is_over {
            return Some(News::Better);
        }
        let careful = !facts.open.is_empty();
        if careful && on < coaching::first_day_to_swim(self.asked.book, facts) {
            return Some(News::Trouble);
        }
        if !careful && facts.cleared && coaching::after_a_break(self.asked.book, facts, session) {
            return Some(News::Break);
        }
        if came(swimmer.corrected.cause_at(now)) {
            return Some(News::Corrected);
        }
        if swimmer.tests.as_of(now).any(|kept| kept.cause > since) {
            return Some(News::Test);
        }
        if facts.shut.contains(&on) {
            return Some(News::Shut);
        }
        if swimmer.away.as_of(now).any(|kept| kept.cause > since && kept.what > on) {
            return Some(News::Away);
        }
        if came(swimmer.race.cause_at(now)) || self.entered_since(swimmer, since) {
            return Some(News::Race);
        }
        // The day of a race comes first, also where it could not be told with the week.
        let race = coaching::race_to_tell(self.asked.book, facts);
        if race.is_some_and(|race| {
            race < on && self.told(swimmer).first().is_some_and(|next| next.on > race)
        }) {
            return Some(News::Race);
        }
        // While something is open nothing told before is more than what was told since.
        let mut told_since = swimmer.suggested.as_of(now).filter(|kept| kept.cause > since);
        let lower = |one: &Session| one.on != on && one.amount() < session.amount();
        if careful && told_since.any(|kept| lower(&kept.what)) {
            return Some(News::Trouble);
        }
        // How the last swim went, and how they slept, is the measure of the next alone.
        let is_next = self.told(swimmer).first().is_some_and(|next| next.on == on);
        if is_next && !coaching::within_measure(self.asked.book, facts, session) {
            if swimmer.tired.as_of(now).any(|kept| kept.cause > since) {
                return Some(News::Tired);
            }
            if swimmer.swims.as_of(now).any(|kept| kept.cause > since) {
                return Some(News::Done);
            }
        }
        let settings = [
            swimmer.course.cause_at(now),
            swimmer.days.cause_at(now),
            swimmer.sessions.cause_at(now),
            swimmer.minutes.cause_at(now),
            swimmer.born.cause_at(now),
            swimmer.readiness.cause_at(now),
        ];
        if settings.into_iter().any(came) {
            return Some(News::Profile);
        }
        if as_told(session, facts) != *session {
            return Some(News::Limits);
        }
        // What was promised since is the main set of the next hard one.
        if came(swimmer.promised.cause_at(now)) {
            let kept = match &facts.promised {
                Some(Promise::Set { set }) => !hard || coaching::holds(session, set),
                Some(Promise::Easy) => !hard,
                Some(Promise::Test) => !hard,
                None => true,
            };
            if !kept {
                return Some(News::Set);
            }
        }
        let gap = coaching::hard_days_apart(self.asked.book);
        let near = |other: &Date| *other != on && i64::from((on - *other).get_days().abs()) < gap;
        if hard && facts.squad_hard.iter().any(near) {
            return Some(News::SquadSet);
        }
        let other = swimmer.other.as_of(now).filter(|kept| kept.cause > since);
        if hard && other.map(|kept| kept.on).any(|day| near(&day)) {
            return Some(News::Elsewhere);
        }
        None
    }

    fn entered_since(&self, swimmer: &Swimmer, since: u64) -> bool {
        let race: Option<Race> = self.next_race(swimmer);
        race.is_some() && swimmer.entries.as_of(self.now()).any(|kept| kept.cause > since)
    }
}

/// A session written before, with the coach's own times for them and without what
/// is barred by now.
pub fn as_told(session: &Session, facts: &Facts) -> Session {
    coaching::within(&coaching::held_to_own(session, facts, facts.course), &facts.limits)
}
