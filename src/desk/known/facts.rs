//! What coaching may know of a swimmer, gathered from their history as of now.

use jiff::ToSpan;
use jiff::civil::Date;

use super::nights;
use super::trials::{sprints_from, trials_from_a_push};
use crate::coaching::{Ability, Facts, WeekPlanned, evening};
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::{Presence, Swimmer};
use crate::message::Name;
use crate::reply::{Out, RefusedWhy};
use crate::session::Session;
use crate::swim::Trial;
use crate::units::{Distance, Stroke};

/// Minutes booked where they said nothing (common practice, no source).
const MINUTES: u16 = 60;

/// Sessions a week where they said nothing (common practice, no source).
const SESSIONS: u8 = 3;

/// How far back sets, swims and weeks are looked at.
const WEEKS: i64 = 16;

/// How many suggested sessions are looked at.
const SUGGESTED: usize = 12;

/// How far back the squad's nights are looked at.
const NIGHTS_DAYS: i64 = 28;

impl View<'_> {
    /// The facts of one swimmer of this squad.
    pub fn facts(&self, name: &Name) -> Option<Facts> {
        let swimmer = self.swimmer(name)?;
        let mut facts = self.facts_of_results(swimmer);
        facts.suggested = self.suggested(swimmer);
        let nights = self.nights(swimmer, &facts);
        facts.suggested.splice(0..0, nights);
        Some(facts)
    }

    /// The same without what was suggested to them, which says nothing of what they can do.
    pub fn facts_of_results(&self, swimmer: &Swimmer) -> Facts {
        let (name, now) = (&swimmer.name, self.now());
        let since = self.today.checked_sub(WEEKS.weeks()).unwrap_or(Date::MIN);
        // The squad's nights are theirs, unless they named days of their own.
        let days: Vec<_> = match swimmer.days.at(now) {
            Some(days) => days.iter().collect(),
            None => self.squad.weekly_days(self.today, now),
        };
        let shut = self.squad.shut_days(self.today, now);
        let week = self.today.saturating_add(6.days());
        let lost = shut.iter().filter(|day| **day <= week && days.contains(&day.weekday())).count();
        let sessions = swimmer.sessions.at(now).copied();
        let named = u8::try_from(days.len()).ok().filter(|&number| number > 0);
        let left = named.map(|named| named.saturating_sub(lost as u8).max(1));
        let minutes = swimmer.minutes.at(now).copied();
        let booked = self.squad.next_night(self.today, now).map(|night| night.minutes);
        Facts {
            handle: name.to_string(),
            today: self.today,
            course: self.course_of(name),
            minutes: minutes.or(booked).unwrap_or(MINUTES),
            sessions_a_week: sessions.or(left).unwrap_or(SESSIONS),
            days,
            squad_hard: self.squad_hard(swimmer),
            shut,
            age: swimmer.born.at(now).and_then(|born| u8::try_from(self.today.year() - born).ok()),
            cleared: self.is_cleared(swimmer),
            joined: swimmer.joined_on.min(self.today),
            tests: trials_from_a_push(swimmer, self),
            sprints_from: sprints_from(swimmer, now),
            sets: swimmer.sets.since(since, now).map(|kept| kept.what.clone()).collect(),
            swims: self.swum_since(swimmer, since),
            other: swimmer.other.since(since, now).map(|kept| kept.what.clone()).collect(),
            weeks: self.weeks(swimmer, since),
            suggested: Vec::new(),
            standing: Vec::new(),
            promised: self.promised(swimmer),
            test_waits: self.test_waits(swimmer),
            away: swimmer.away.as_of(now).map(|kept| (kept.on, kept.what)).collect(),
            with_squad: self.with_squad(swimmer),
            clear_from: match self.out(swimmer) {
                Some(Out::Clearing(from)) => Some(from),
                _ => None,
            },
            ability: self.ability(swimmer),
            tired: swimmer.tired.as_of(now).next_back().map(|kept| kept.on),
            open: self.still_careful(swimmer),
            race: self.next_race(swimmer),
            raced: self.last_race(swimmer),
            focus: swimmer.focus_at(now).cloned(),
            limits: self.limits_of(swimmer),
            own_targets: self.own_targets(swimmer),
        }
    }

    /// Only what tells their pace, their tests and sets, for where the pace of many swimmers is
    /// wanted.
    pub fn facts_of_pace(&self, swimmer: &Swimmer) -> Facts {
        let since = self.today.checked_sub(WEEKS.weeks()).unwrap_or(Date::MIN);
        Facts {
            tests: trials_from_a_push(swimmer, self),
            sets: swimmer.sets.since(since, self.now()).map(|kept| kept.what.clone()).collect(),
            ..Facts::of_nobody(self.today, self.course_of(&swimmer.name), MINUTES)
        }
    }

    /// How far they can swim: by their word, and by what they have been tested over since.
    pub fn ability(&self, swimmer: &Swimmer) -> Ability {
        let now = self.now();
        let Some(said) = swimmer.ability.at(now).copied() else { return Ability::default() };
        let since = swimmer.ability.cause_at(now);
        let tested = swimmer.tests.as_of(now).filter(|kept| Some(kept.cause) > since);
        let tested = tested.map(|kept| kept.what.trial.distance);
        let far = |distance: &Distance| distance.metres().get();
        let longest = said.unbroken.into_iter().chain(tested);
        let longest = longest.max_by(|one, other| far(one).total_cmp(&far(other)));
        // Whoever never said so is not bound, nor is whoever can swim any repeat there is.
        let bound = longest.filter(|longest| said.unbroken.is_some() && far(longest) < 400.0);
        Ability { unbroken: bound, most: said.most }
    }

    /// Weeks planned, without the days they said they missed.
    fn weeks(&self, swimmer: &Swimmer, since: Date) -> Vec<WeekPlanned> {
        let mut weeks: Vec<WeekPlanned> =
            swimmer.weeks.since(since, self.now()).map(|kept| kept.what.clone()).collect();
        for week in &mut weeks {
            week.days.retain(|(day, _)| {
                !self.missed(swimmer, *day) && !self.squad.is_shut(*day, self.now())
            });
        }
        weeks
    }

    /// Nights of theirs with a hard set, from the last days on.
    fn squad_hard(&self, swimmer: &Swimmer) -> Vec<Date> {
        let now = self.now();
        let (first, last) =
            (self.today.saturating_sub(7.days()), self.today.saturating_add(14.days()));
        let kept = self.squad.evenings.since(first, now).map(|kept| kept.on);
        let mut days: Vec<Date> = kept.take_while(|day| *day <= last).collect();
        days.dedup();
        days.retain(|day| {
            self.squad.set_in_force(*day, now).is_some_and(nights::is_hard)
                && self.squad.is_night_of(swimmer, *day, now)
        });
        days
    }

    fn missed(&self, swimmer: &Swimmer, day: Date) -> bool {
        swimmer.missed.as_of(self.now()).any(|kept| kept.on == day)
    }

    /// Nights that are over on which they had a lane, unless they said that they were not
    /// there, or whoever was there was marked and they were not.
    fn with_squad(&self, swimmer: &Swimmer) -> Vec<Date> {
        let now = self.now();
        let marked =
            |on: Date| self.squad.swimmers.values().any(|other| other.seen_on(on, now).is_some());
        let nights = self.squad.sets_before(self.today, now).into_iter();
        nights
            .filter(|evening| evening.lane_of(&swimmer.name).is_some())
            .map(|evening| evening.on)
            .filter(|on| !self.missed(swimmer, *on) && !swimmer.is_away(*on, now))
            .filter(|on| swimmer.says_of(*on, now).is_none_or(|said| said.coming))
            .filter(|on| match swimmer.seen_on(*on, now) {
                Some(presence) => presence == Presence::Here,
                None => !marked(*on),
            })
            .collect()
    }

    /// What they swam, or are to swim, on the squad's nights of the last weeks: their
    /// version of their lane's set, oldest first. Not where they said or were seen not
    /// to be there, and nothing while something is open: then what they were
    /// suggested themselves is the measure.
    fn nights(&self, swimmer: &Swimmer, facts: &Facts) -> Vec<Session> {
        let now = self.now();
        if !facts.open.is_empty() {
            return Vec::new();
        }
        let since = self.today.saturating_sub(NIGHTS_DAYS.days());
        let tomorrow = self.today.saturating_add(1.day());
        let mut nights: Vec<Session> = self
            .squad
            .sets_before(tomorrow, now)
            .into_iter()
            .filter(|set| set.on >= since && !self.missed(swimmer, set.on))
            .filter(|set| swimmer.seen_on(set.on, now) != Some(Presence::Absent))
            .filter_map(|evening| evening.lane_of(&swimmer.name)?.session_of(&swimmer.name))
            .filter_map(|session| {
                let course = self.squad.course;
                evening::for_swimmer(self.asked.book, session, facts, course).ok()
            })
            .collect();
        nights.reverse();
        nights
    }

    /// Sessions suggested, and those planned for days up to today, in the order in
    /// which they were made.
    fn suggested(&self, swimmer: &Swimmer) -> Vec<Session> {
        let now = self.now();
        let planned = swimmer.planned.as_of(now).filter(|kept| kept.on <= self.today);
        let mut all: Vec<_> = planned.chain(swimmer.suggested.as_of(now)).collect();
        // While something is open, one that was missed is still a measure: the
        // next is no longer than it.
        let open = !self.still_careful(swimmer).is_empty();
        all.retain(|kept| open || kept.on > self.today || !self.missed(swimmer, kept.on));
        all.sort_by_key(|kept| (kept.cause, kept.on));
        let over = all.len().saturating_sub(SUGGESTED);
        all.into_iter().skip(over).map(|kept| kept.what.clone()).collect()
    }
}

/// The test that targets come from: the latest of the pool they swim in, else
/// the latest.
pub fn latest_test(facts: &Facts) -> Option<Trial> {
    let here = |trial: &&Trial| trial.course == facts.course && trial.stroke == Stroke::Free;
    facts
        .tests
        .iter()
        .rev()
        .find(here)
        .or_else(|| facts.tests.iter().rev().find(|trial| trial.course == facts.course))
        .or(facts.tests.last())
        .copied()
}

/// The facts of a swimmer who is known to be there.
pub fn facts(view: &View<'_>, who: &Name) -> Result<Facts, Stopped> {
    view.facts(who).ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))
}
