//! What the sender said last and may put right now.

use jiff::ToSpan;

use crate::coaching::SetSwum;
use crate::desk::decision::view::View;
use crate::history::TroubleKind;
use crate::message::{
    Day, Done, Illness, Kind, Length, Pain, SetResult, Sport, Statement, Test, TypedTime,
};
use crate::reading::situation::Phase;
use crate::reading::{self, Decision, Situation};
use crate::units::Centis;

/// How long what was said last may be meant by a text (ours).
const BEFORE_HOURS: i64 = 12;

impl View<'_> {
    /// What the sender is being asked about ("was this meant?"): a text may put it right
    /// instead of answering.
    pub fn asked_about(&self) -> Option<Vec<Statement>> {
        let asked = self.open_question()?.choices.first()?;
        let says = &asked.message.statements;
        // `8 if you swam 8`: as many as were told.
        let as_told = asked.word == "yes" || asked.word.chars().all(|one| one.is_ascii_digit());
        (as_told && says.iter().all(|one| one.kind.is_swum())).then(|| says.clone())
    }

    /// `8x50 a 48`, and then `bueno el ultimo 54`: repeats that were taken for a set to be
    /// swum, and shown as one, are told of where the next text puts a time of theirs right.
    pub fn shown_for_swum(&self) -> Option<Vec<Statement>> {
        let text = self.shown_before()?;
        let sit = Situation { before: vec![], ..self.situation_before(None) };
        // Before an evening a set is rather asked for.
        if sit.phase != Phase::After {
            return None;
        }
        let Decision::Take { says, .. } = reading::read(text, &sit) else { return None };
        let timed = |one: &Statement| match &one.kind {
            Kind::SetResult(set) => one.who.is_none() && !set.times.is_empty(),
            _ => false,
        };
        (says.len() == 1 && says.iter().all(timed)).then_some(says)
    }

    /// What can be put right: the set that the text names, else what was said last.
    pub fn said_or_named(&self) -> Vec<Statement> {
        match self.set_named() {
            Some((who, kept)) => vec![Statement { who: Some(who), kind: set_said(&kept.what) }],
            None => self.said_before(),
        }
    }

    /// What the sender said last, as far as it can be put right.
    pub fn said_before(&self) -> Vec<Statement> {
        let Some(cause) = self.member().and_then(|member| member.undoable.last().copied()) else {
            return Vec::new();
        };
        let since = self.now().checked_sub(BEFORE_HOURS.hours()).unwrap_or(self.now());
        let mut said = Vec::new();
        for swimmer in self.squad.swimmers.values() {
            let own = self.me() == Some(&swimmer.name);
            let who = (!own).then(|| swimmer.name.clone());
            let mut says = |kind: Kind| said.push(Statement { who: who.clone(), kind });
            let length = |distance: crate::units::Distance| Length {
                amount: distance.amount(),
                unit: Some(distance.unit()),
            };
            for kept in swimmer.tests.of_cause(cause).filter(|kept| kept.at >= since) {
                let trial = kept.what.trial;
                says(Kind::Test(Test {
                    distance: length(trial.distance),
                    time: TypedTime::sure(trial.time),
                    stroke: Some(trial.stroke),
                    course: Some(trial.course),
                    on: Some(Day::Full(trial.on)),
                    splits: kept.what.splits.clone(),
                    start: kept.what.start,
                    meet: trial.meet,
                }));
            }
            for kept in swimmer.sets.of_cause(cause).filter(|kept| kept.at >= since) {
                says(set_said(&kept.what));
            }
            for kept in swimmer.swims.of_cause(cause).filter(|kept| kept.at >= since) {
                let swum = &kept.what;
                says(Kind::Done(Done {
                    distance: swum.distance.map(length),
                    duration: swum.minutes.and_then(|minutes| {
                        Centis::from_whole_seconds(u32::from(minutes) * 60).ok()
                    }),
                    rpe: swum.rpe,
                    on: Some(Day::Full(swum.on)),
                    ..Done::default()
                }));
            }
            for kept in swimmer.other.of_cause(cause).filter(|kept| kept.at >= since) {
                let training = &kept.what;
                says(Kind::Done(Done {
                    duration: training.minutes.and_then(|minutes| {
                        Centis::from_whole_seconds(u32::from(minutes) * 60).ok()
                    }),
                    rpe: training.rpe,
                    on: Some(Day::Full(training.on)),
                    sport: Some(Sport::Other),
                    ..Done::default()
                }));
            }
            for kept in swimmer.attendance.of_cause(cause).filter(|kept| kept.at >= since) {
                says(Kind::Attend {
                    coming: kept.what.coming,
                    late_min: kept.what.late_min,
                    on: Some(Day::Full(kept.on)),
                });
            }
            for kept in swimmer.away.of_cause(cause).filter(|kept| kept.at >= since) {
                says(Kind::Away { from: Some(Day::Full(kept.on)), until: Day::Full(kept.what) });
            }
            if let Some(race) = swimmer.race.of_cause(cause)
                && swimmer.race.set_at(self.now()).is_some_and(|at| at >= since)
            {
                says(Kind::Race {
                    distance: length(race.distance),
                    on: Day::Full(race.on),
                    goal: race.goal.map(TypedTime::sure),
                });
            }
            for kept in swimmer.troubles.of_cause(cause).filter(|kept| kept.at >= since) {
                match &kept.what.kind {
                    TroubleKind::Pain { place, level } => {
                        says(Kind::Pain(Pain { place: place.clone(), level: *level }))
                    }
                    TroubleKind::Ill { fever, stomach } => {
                        let what = match (fever, stomach) {
                            (true, _) => Some(Illness::Fever),
                            (_, true) => Some(Illness::Stomach),
                            _ => None,
                        };
                        says(Kind::Ill { what })
                    }
                    _ => {}
                }
            }
        }
        said
    }
}

/// A set as it is said.
fn set_said(set: &SetSwum) -> Kind {
    let distance = set.set.distance;
    Kind::SetResult(SetResult {
        stroke: Some(set.set.stroke),
        send_off: set.set.send_off,
        rest: set.set.rest,
        target: set.set.target,
        times: set.times.iter().map(|time| time.map(TypedTime::sure)).collect(),
        equipment: set.set.equipment.clone(),
        on: Some(Day::Full(set.on)),
        ..SetResult::new(
            set.set.count,
            Length { amount: distance.amount(), unit: Some(distance.unit()) },
        )
    })
}
