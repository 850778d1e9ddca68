//! The fields of what was swum, is entered or is to be held.

use serde_json::{Value, json};

use super::fields::Fields;
use super::filled_in::Reader;
use crate::desk::decision::days::swum_on;
use crate::desk::decision::resolve;
use crate::message::{Done, Entry, Fix, Length, Name, SetResult, Sport, Test, TypedTime};
use crate::units::{Centis, SendOff, Stroke};

impl Reader<'_> {
    pub fn test(&self, test: &Test) -> Fields {
        let (course, distance) = self.length(test.distance, test.course);
        let stroke = test.stroke.unwrap_or(Stroke::Free);
        Fields::default()
            .with("distance", test.distance.amount)
            .with("unit", distance.map(|d| d.unit().name()))
            .with("stroke", stroke.name())
            .with("time_s", self.settled(&test.time, test.distance, course, stroke))
            .with("course", course.name())
            .with("on", self.past(test.on, course))
            .with_list("splits_s", test.splits.iter().map(|split| split.seconds()).collect())
            .with("start", test.start.map(|start| json!(start)))
            .with("meet", test.meet.then_some(true))
    }

    pub fn set_result(&self, set: &SetResult) -> Fields {
        let stroke = set.stroke.unwrap_or(Stroke::Free);
        let one = |typed: &TypedTime| self.settled(typed, set.distance, self.course, stroke);
        // Of times with missed ones among them it is told how many were made.
        let swum = set.times.iter().flatten().count();
        let missed = u16::try_from(swum).ok().filter(|_| swum < set.times.len());
        self.with_length(Fields::default().with("count", set.count), set.distance)
            .with("send_off_s", set.send_off.map(SendOff::seconds))
            .with("rest_s", set.rest.map(Centis::seconds))
            .with("target_s", set.target.map(Centis::seconds))
            .with_list("times_s", self.times(set, stroke))
            .with("average_s", set.average.as_ref().and_then(one))
            .with("made", set.made.or(missed))
            .with("of", set.of.or(missed.map(|_| set.count)))
            .with("stroke", stroke.name())
            .with_list("equipment", set.equipment.iter().map(|kit| kit.name()).collect())
            .with("rpe", set.rpe.map(|rpe| rpe.value()))
            .with("heart_rate", set.heart_rate)
            .with("strokes", set.strokes)
            .with("on", self.past(set.on, self.course))
    }

    pub fn times(&self, set: &SetResult, stroke: Stroke) -> Vec<Value> {
        let (_, Some(distance)) = self.length(set.distance, None) else { return Vec::new() };
        let target = self.about.as_ref().filter(|_| !set.times.is_empty()).and_then(|name| {
            let facts = self.view.facts(name)?;
            let on = swum_on(self.view, set.on, self.course).ok()?;
            self.view.set_swum(name, on, &facts, set, distance).0.target
        });
        resolve::times(&set.times, distance, stroke, target)
            .into_iter()
            .map(|time| json!(time.map(Centis::seconds)))
            .collect()
    }

    pub fn done(&self, done: &Done) -> Fields {
        let fields = match done.distance {
            // Metres run are not metres swum, so no unit of the pool's.
            Some(length) if done.sport.is_some() => Fields::default()
                .with("distance", length.amount)
                .with("unit", length.unit.map(|unit| unit.name())),
            Some(length) => self.with_length(Fields::default(), length),
            None => done
                .lengths
                .and_then(|count| resolve::lengths(count, self.course))
                .map_or_else(Fields::default, |length| self.with_length(Fields::default(), length)),
        };
        fields
            .with("duration_s", done.duration.map(Centis::seconds))
            .with("rpe", done.rpe.map(|rpe| rpe.value()))
            .with("on", self.past(done.on, self.course))
            .with("sport", done.activity.as_deref().or(done.sport.map(Sport::word)))
    }

    pub fn entry(&self, entry: &Entry) -> Fields {
        let stroke = entry.stroke.unwrap_or(Stroke::Free);
        let on = entry.on.and_then(|day| self.future(day));
        let next = || self.view.squad.next_meet(self.today, self.view.now());
        let time = entry.time.as_ref();
        self.with_length(Fields::default(), entry.distance)
            .with("stroke", stroke.name())
            .with("on", on.or_else(|| next().map(|on| on.to_string())))
            .with(
                "time_s",
                time.and_then(|time| self.settled(time, entry.distance, self.course, stroke)),
            )
            .with("scratched", entry.scratched.then_some(true))
    }

    pub fn fix(&self, fix: &Fix) -> Fields {
        let time = fix.time.as_ref().and_then(|typed| match fix.distance {
            Some(length) => self.settled(typed, length, self.course, Stroke::Free),
            None => typed.readings.first().map(|time| time.seconds()),
        });
        Fields::default()
            .with("time_s", time)
            .with("who", fix.was.as_ref().map(Name::to_string))
            .with("on", self.past_if_said(fix.on))
            .with("distance", fix.distance.map(|length| length.amount))
            .with("start", fix.start.map(|start| json!(start)))
            .with("meet", fix.meet.then_some(true))
    }

    pub fn own_targets(&self, holds: &[(Length, TypedTime)]) -> Fields {
        let one = |(far, time): &(Length, TypedTime)| {
            let time = self.settled(time, *far, self.course, Stroke::Free);
            json!({ "distance": far.amount, "time_s": time })
        };
        Fields::default().with_list("targets", holds.iter().map(one).collect())
    }
}
