//! Calls for help: brings the letters of alarms out, on connections of their
//! own, whatever else waits, failed or was refused; and says so where nobody is
//! reached.
//!
//! When which letter is tried is not decided here.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;
use std::time::Duration;

use tokio::task::{Id, JoinError, JoinSet};
use tokio::time::sleep;
use tokio_util::sync::CancellationToken;

use super::alarm_schedule::{Cries, Cry, UNHEARD};
use super::carrier::{Knocked, Returned, Wish};
use super::routes::Routes;
use crate::clock::Clock;
use crate::service::{Call, LetterEvent, LetterNumber, Service, Unheard};

/// Tries under way at once, at most; those of a letter that was never tried come
/// on top. Ours.
const SIDE_BY_SIDE: usize = 64;

/// How often it is looked whether a try is due while there is anything to try.
const LOOK: Duration = Duration::from_millis(200);

/// How often it is looked for alarms that nobody woke us for.
const IDLE: Duration = Duration::from_secs(1);

/// How often we listen whether another end is there again. Ours: with the time
/// that a knock may take it is less than five seconds.
const KNOCK_EVERY: Duration = Duration::from_secs(2);

/// How long a first try that failed may be made good by the next, before it is said
/// that nobody is reached. Ours.
const AGAIN: Duration = Duration::from_secs(2);

/// How often it is said that nobody is reached.
const SAID_EVERY: Duration = Duration::from_secs(60);

/// How long of several processes the one that leads has for an alarm's letter, before any
/// other tries it too (ours): it may be dead, or cut off from where the letter goes.
const LEADERS: Duration = Duration::from_secs(3);

/// Brings the letters of alarms where they belong.
pub struct Siren {
    service: Arc<Service>,
    clock: Arc<dyn Clock>,
    routes: Arc<Routes>,
}

/// What is under way, and what was heard so far.
#[derive(Default)]
struct Out {
    cries: Cries,
    tries: JoinSet<Came>,
    /// What each task is.
    tasks: HashMap<Id, Task>,
    /// What came of the last knock at each way, and when the next is due.
    heard: BTreeMap<usize, (Option<Knocked>, Duration)>,
    /// Since when each letter is known.
    known: HashMap<LetterNumber, Duration>,
    /// The alarms that nobody has heard, since when, and when that is said again.
    unheard: BTreeMap<u64, (Duration, Duration)>,
}

enum Task {
    Cry(Cry),
    Knock(usize),
}

/// What came of a task.
enum Came {
    /// It is delivered, or will never be.
    Settled,
    Failed,
    Heard(Knocked),
}

impl Siren {
    /// A siren for this service's alarms. There must be only one in a process.
    pub fn new(
        service: Arc<Service>,
        clock: Arc<dyn Clock>,
        routes: impl Into<Arc<Routes>>,
    ) -> Arc<Siren> {
        Arc::new(Siren { service, clock, routes: routes.into() })
    }

    /// Calls until `stopping`, then ends what is out: whoever can't wait may drop
    /// it, at the price of a repeat under the same id.
    pub async fn run(self: Arc<Self>, stopping: CancellationToken) {
        let mut out = Out::default();
        while !stopping.is_cancelled() {
            self.cry_out(&mut out);
            self.knock(&mut out);
            self.say_unheard(&mut out).await;
            let look = if out.cries.is_empty() { IDLE } else { LOOK };
            tokio::select! {
                () = stopping.cancelled() => {}
                Some(back) = out.tries.join_next_with_id() => self.is_back(&mut out, back),
                () = self.service.alarm_raised() => {}
                () = sleep(look) => {}
            }
        }
        while let Some(back) = out.tries.join_next_with_id().await {
            self.is_back(&mut out, back);
        }
    }

    /// Tries all that is due at this instant and returns when nothing is out: for
    /// whoever moves the clock.
    pub async fn cry_due(self: &Arc<Self>) {
        let mut out = Out::default();
        self.cry_out(&mut out);
        while let Some(back) = out.tries.join_next_with_id().await {
            self.is_back(&mut out, back);
        }
    }

    fn cry_out(self: &Arc<Self>, out: &mut Out) {
        let now = self.clock.passed();
        let calls = out.ours(self.service.calls(), self.service.leads(), now);
        out.cries.take(&calls, |to| self.routes.all_for(to), now);
        for cry in out.cries.due(now) {
            // A letter that was never tried waits for no other's slot.
            if out.tries.len() >= SIDE_BY_SIDE && out.cries.was_tried(&cry) {
                continue;
            }
            out.cries.begins(&cry, now);
            let (siren, this) = (Arc::clone(self), cry.clone());
            let task = out.tries.spawn(async move { siren.try_one(&this).await });
            out.tasks.insert(task.id(), Task::Cry(cry));
        }
    }

    /// Listens at the ways on which tries fail, so that the next try comes when
    /// the other end does.
    fn knock(self: &Arc<Self>, out: &mut Out) {
        let now = self.clock.passed();
        let troubled = out.cries.troubled(now);
        out.heard.retain(|way, _| troubled.contains(way));
        for way in troubled {
            let (_, next) = out.heard.entry(way).or_insert((None, now));
            let is_out =
                out.tasks.values().any(|task| matches!(task, Task::Knock(at) if *at == way));
            if *next > now || is_out {
                continue;
            }
            *next = now + KNOCK_EVERY;
            let siren = Arc::clone(self);
            let task = out.tries.spawn(async move {
                match siren.routes.route(way) {
                    Some(route) => Came::Heard(route.carrier.knock().await),
                    None => Came::Failed,
                }
            });
            out.tasks.insert(task.id(), Task::Knock(way));
        }
    }

    async fn try_one(&self, cry: &Cry) -> Came {
        let Some(route) = self.routes.route(cry.way) else { return Came::Failed };
        let letter = match self.service.letter(cry.letter) {
            Ok(letter) => letter,
            Err(unread) => {
                tracing::error!(letter = %cry.letter, %unread, "an alarm's letter can't be read");
                return Came::Failed;
            }
        };
        let (to, number) = (letter.spoken.to.clone(), cry.letter);
        let event = if self.service.is_unwanted(&letter) {
            self.died(to, number, "the recipient has opted out")
        } else {
            match route.carrier.cry(&letter, self.clock.now()).await {
                Ok(()) => LetterEvent::Delivered { to, letter: number },
                Err(Returned { wish: Some(Wish::OptedOut), .. }) => {
                    if self.service.opt_out_elsewhere(&to).await.is_err() {
                        return Came::Failed;
                    }
                    self.died(to, number, "the recipient has opted out at the gateway")
                }
                Err(Returned { why, .. }) => {
                    tracing::error!(id = %letter.id, way = cry.way, %why, "an alarm is not delivered");
                    return Came::Failed;
                }
            }
        };
        match self.service.settle(event).await {
            Ok(()) => Came::Settled,
            Err(_) => Came::Failed,
        }
    }

    fn died(&self, to: String, letter: LetterNumber, why: &str) -> LetterEvent {
        LetterEvent::Died { to, letter, at: self.clock.now(), why: why.to_owned() }
    }

    fn is_back(&self, out: &mut Out, back: Result<(Id, Came), JoinError>) {
        let now = self.clock.passed();
        let (id, came) = match back {
            Ok((id, came)) => (id, came),
            Err(broken) => {
                tracing::error!(%broken, "a call for help broke");
                (broken.id(), Came::Failed)
            }
        };
        match (out.tasks.remove(&id), came) {
            (Some(Task::Cry(cry)), Came::Failed) => out.cries.failed(&cry, now),
            (Some(Task::Knock(way)), Came::Heard(heard)) => {
                let Some((before, _)) = out.heard.get_mut(&way) else { return };
                let is_news = before.is_some_and(|before| before != heard);
                *before = Some(heard);
                if is_news && matches!(heard, Knocked::Answers(_)) {
                    out.cries.stirs(way);
                }
            }
            _ => {}
        }
    }

    /// Says in the log, and to whoever raised it, that an alarm has reached
    /// nobody who can help.
    async fn say_unheard(&self, out: &mut Out) {
        let (now, unheard) = (self.clock.passed(), self.service.unheard());
        let before = out.unheard.len();
        out.unheard.retain(|alarm, _| unheard.iter().any(|one| one.alarm == *alarm));
        if before > 0 && out.unheard.is_empty() {
            tracing::info!("no alarm is unheard any more");
        }
        for one in &unheard {
            let (since, said) = out.unheard.entry(one.alarm).or_insert((now, now + UNHEARD));
            let failed = out.cries.is_in_vain(one.alarm, now);
            let first = *said == *since + UNHEARD;
            // What failed is tried again within a second: only then is it said.
            let tried_again = now.saturating_sub(*since) >= AGAIN;
            if *said > now && !(failed && first && tried_again) {
                continue;
            }
            *said = now + SAID_EVERY;
            let waited_s = now.saturating_sub(*since).as_secs();
            tracing::error!(
                alarm = one.alarm,
                waited_s,
                "an alarm has reached nobody who can help"
            );
            let already = |other: &Unheard| other.noticed && other.from == one.from;
            if self.service.leads() && !unheard.iter().any(already) {
                self.notice(one).await;
            }
        }
    }

    async fn notice(&self, one: &Unheard) {
        if !one.danger || one.noticed || one.from.is_empty() {
            return;
        }
        if self.service.tell_unheard(one).await.is_err() {
            tracing::error!("whoever raised an alarm could not be told that nobody is reached");
        }
    }
}

impl Out {
    /// The letters that are for this process to try: all where it leads, else those that
    /// nobody has brought for a while.
    fn ours(&mut self, mut calls: Vec<Call>, leads: bool, now: Duration) -> Vec<Call> {
        self.known.retain(|known, _| calls.iter().any(|call| call.number == *known));
        calls.retain(|call| {
            let since = *self.known.entry(call.number).or_insert(now);
            leads || now.saturating_sub(since) >= LEADERS
        });
        calls
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::history::Called;

    #[test]
    fn whoever_does_not_lead_waits_three_seconds_for_who_does() {
        let call = |place| Call {
            alarm: place,
            number: LetterNumber { place, index: 0 },
            to: "coach".into(),
            called: Called::Deck,
        };
        let mut out = Out::default();
        let at = Duration::from_secs;
        assert_eq!(out.ours(vec![call(1)], true, at(9)).len(), 1, "it leads");
        assert_eq!(out.ours(vec![call(1), call(2)], false, at(11)).len(), 0);
        assert_eq!(out.ours(vec![call(1), call(2)], false, at(12)), [call(1)]);
        assert_eq!(out.ours(vec![call(2)], false, at(14)), [call(2)]);
        assert!(!out.known.contains_key(&call(1).number), "it was brought");
    }
}
