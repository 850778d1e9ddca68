//! The fields of who belongs to the squad, and of its nights.

use jiff::civil::Weekday;
use serde_json::json;

use super::fields::Fields;
use super::filled_in::Reader;
use super::words::strings;
use crate::history::Right;
use crate::message::{Day, Length, Name, People, PlanWish, Slot, WeekKind};
use crate::units::{Course, Stroke, weekday_word};

impl Reader<'_> {
    /// Nights by weekday, with the date of the one that is meant.
    pub fn nights(&self, days: &[Weekday], on: Option<Day>) -> Fields {
        let one = match days {
            [day] => on.or(Some(Day::On(*day))),
            _ => on,
        };
        Fields::default()
            .with_list("days", days.iter().map(|day| weekday_word(*day)).collect())
            .with("on", one.and_then(|day| self.future(day)))
    }

    /// Who is at the pool; of all but some, those who are not.
    pub fn here(&self, names: &[Name], all_but: bool, on: Option<Day>) -> (&'static str, Fields) {
        let night = self.view.evening_meant(on).ok();
        let fields = Fields::default().with("on", night.map(|on| on.to_string()));
        if all_but && !names.is_empty() {
            return ("absent", fields.with("who", strings(names)).with("others_here", true));
        }
        // Nobody else is told who they all are.
        let told = all_but && self.view.may(Right::RunEvening);
        let expected = night.filter(|_| told).map(|on| {
            let expected = self.view.squad.expected_on(on, self.view.now());
            expected.map(|swimmer| swimmer.name.to_string()).collect()
        });
        ("here", fields.with_list("who", expected.unwrap_or_else(|| strings(names))))
    }

    pub fn plan(&self, wish: &PlanWish) -> Fields {
        Fields::default()
            .with("week", wish.week.map(WeekKind::word))
            .with("minutes", wish.minutes)
            .with("sessions", wish.sessions)
            .with("on", wish.on.and_then(|day| self.future(day)))
    }

    pub fn slot(&self, slot: &Slot) -> Fields {
        Fields::default()
            .with_list("days", slot.days.iter().map(|day| weekday_word(*day)).collect())
            .with("starts", slot.starts.map(|time| time.strftime("%H:%M").to_string()))
            .with("minutes", slot.minutes)
            .with("lanes", slot.lanes)
            .with("on", slot.on.and_then(|day| self.future(day)))
            .with("course", slot.course.map(Course::name))
    }

    pub fn people(&self, said: &People) -> (&'static str, Fields) {
        let none = Fields::default;
        let called = |name: &Option<Name>| name.as_ref().map(Name::to_string);
        match said {
            People::Invite { to, office, name } => (
                "invite",
                none()
                    .with("to", to.clone())
                    .with("role", office.map(|office| json!(office)))
                    .with("name", called(name)),
            ),
            People::HandOver { to } => ("hand_over", none().with("who", to.to_string())),
            People::Remove { name } => ("remove", none().with("who", name.to_string())),
            People::Leave => ("leave", none()),
            People::Add { name, guess } => {
                let fields = none().with("who", name.to_string());
                let Some(guess) = guess else { return ("add", fields) };
                let length = guess.distance.unwrap_or(Length { amount: 100, unit: None });
                let time = self.settled(&guess.time, length, self.course, Stroke::Free);
                ("add", self.with_length(fields, length).with("time_s", time))
            }
            People::Claim { code } => ("claim", none().with("code", code.clone())),
            People::Squads => ("squads", none()),
        }
    }
}
