//! How the evening helps to read a coach's short text: on a test night a distance and a
//! time are a test, and behind `200s heron 3:14 teal 2:57` further names and times are
//! tests of the same distance.

use jiff::ToSpan;

use crate::desk::decision::view::View;
use crate::history::Right;
use crate::message::{self, Day, Doubt, Kind, Message, Reading};
use crate::units::Stroke;

/// How long a distance carries on to the next text (ours).
const CARRIES_MINUTES: i64 = 10;

impl View<'_> {
    /// The reading, completed by what is known of the evening.
    pub fn by_the_evening(&self, text: &str, reading: Reading) -> Reading {
        if !self.may(Right::SpeakForOthers) {
            return reading;
        }
        let settled = match &reading {
            Reading::Unsure { options, asks: Doubt::TestOrSession, .. } => {
                let tested = options.iter().find(|option| option.word == "test");
                tested.map(|option| option.message.clone()).filter(|said| self.is_called(said))
            }
            Reading::NotUnderstood { .. } => self.of_same_distance(text),
            _ => None,
        };
        self.of_last_night(settled.map_or(reading, Reading::Understood))
    }

    /// A coach's results of others that name no day are those of the last evening, where
    /// none of today has begun.
    fn of_last_night(&self, mut reading: Reading) -> Reading {
        let Reading::Understood(said) = &mut reading else { return reading };
        let mut undated: Vec<&mut Option<Day>> = said
            .statements
            .iter_mut()
            .filter(|one| one.who.is_some())
            .filter_map(|one| match &mut one.kind {
                Kind::Test(test) => Some(&mut test.on),
                Kind::SetResult(set) => Some(&mut set.on),
                _ => None,
            })
            .filter(|on| on.is_none())
            .collect();
        if undated.is_empty() {
            return reading;
        }
        let night = self.situation().swum_on();
        if night != self.today {
            undated.iter_mut().for_each(|on| **on = Some(Day::Full(night)));
        }
        reading
    }

    /// True if all are tests, each of a swimmer by name, of the distance that
    /// tonight's test night was called for.
    fn is_called(&self, said: &Message) -> bool {
        let called = self.squad.test_night_called(self.now());
        let called = called.filter(|called| called.on == self.evening());
        said.statements.iter().all(|one| match (&one.kind, called) {
            (Kind::Test(test), Some(called)) => {
                one.who.is_some() && test.distance.amount == called.what.amount()
            }
            _ => false,
        })
    }

    /// Names and times alone, read as tests of the distance of the sender's last
    /// storing text, if that was a list of tests a moment ago.
    fn of_same_distance(&self, text: &str) -> Option<Message> {
        let cause = *self.member()?.undoable.last()?;
        let since = self.now().checked_sub(CARRIES_MINUTES.minutes()).ok()?;
        let tests = self.squad.swimmers.values().flat_map(|one| one.tests.of_cause(cause));
        let tests: Vec<_> = tests.collect();
        let first = tests.first()?.what.trial;
        let alike = tests.iter().all(|kept| {
            let trial = kept.what.trial;
            kept.at >= since && trial.distance == first.distance && trial.stroke == Stroke::Free
        });
        if tests.len() < 2 || !alike {
            return None;
        }
        let far = first.distance.amount();
        let names = |name: &message::Name| self.squad.swimmers.contains_key(name);
        let told = format!("{far} test: {text}");
        match message::parse_knowing(&told, self.language(), names) {
            Reading::Understood(said) => {
                let is_test = |kind: &Kind| match kind {
                    Kind::Test(test) => test.distance.amount == far,
                    _ => false,
                };
                let known = said
                    .statements
                    .iter()
                    .all(|one| is_test(&one.kind) && one.who.as_ref().is_some_and(names));
                known.then_some(said)
            }
            _ => None,
        }
    }
}
