//! The fields of statements that need nothing filled in, and the contract's words.

use serde_json::json;

use super::fields::Fields;
use crate::message::{
    Approval, Cut, Day, LaneResults, Limits, Name, NextWish, ProfileChange, Regular,
};
use crate::session::Limit;
use crate::units::{Course, SendOff, weekday_word};

pub fn next(wish: &NextWish) -> Fields {
    Fields::default()
        .with("minutes", wish.minutes)
        .with("distance", wish.distance.map(|length| length.amount))
        .with_list("with", wish.with.iter().map(|kit| kit.name()).collect())
        .with_list("without", wish.without.iter().map(|kit| kit.name()).collect())
        .with("open_water", wish.open_water.then_some(true))
}

/// `no paddles`: what is left out or not, of whom.
pub fn limits(said: &Limits) -> (&'static str, Fields) {
    let fields = |what: &[Limit], allowed: bool, all: bool| {
        let all = all.then_some(true);
        Fields::default().with("what", json!(what)).with("allowed", allowed).with("all", all)
    };
    match said {
        Limits::Barred { what, all } => ("limit", fields(what, false, *all)),
        Limits::Allowed { what, all } => ("limit", fields(what, true, *all)),
        Limits::KitChanged { have, lack } => {
            let some = |kit: &[crate::units::Equipment]| (!kit.is_empty()).then(|| json!(kit));
            ("kit", Fields::default().with("equipment", some(have)).with("without", some(lack)))
        }
        Limits::Kit { kit } => ("kit", Fields::default().with("equipment", json!(kit))),
    }
}

/// `digest` or `weekly`: whether it is wanted, and when.
pub fn regular(said: &Regular) -> (&'static str, Fields) {
    let none = Fields::default;
    match said {
        Regular::Digest => ("digest", none()),
        Regular::DigestWanted { wanted } => ("digest", none().with("wanted", *wanted)),
        Regular::DigestAt { day, at } => {
            let day = match day {
                Some(Day::On(day)) => Some(weekday_word(*day)),
                _ => None,
            };
            let at = at.map(|at| at.strftime("%H:%M").to_string());
            ("digest", none().with("wanted", true).with("day", day).with("at", at))
        }
        Regular::Note => ("weekly", none()),
        Regular::NoteWanted { wanted } => ("weekly", none().with("wanted", *wanted)),
    }
}

/// `approve`: whether plans wait at all, or the yes or no to those that do.
pub fn approval(said: Approval) -> (&'static str, Fields) {
    let fields = Fields::default();
    let fields = match said {
        Approval::Waiting => fields,
        Approval::Wanted { wanted } => fields.with("wanted", wanted),
        Approval::All => fields.with("all", true).with("approved", true),
        Approval::Given => fields.with("approved", true),
        Approval::SentBack => fields.with("approved", false),
    };
    ("approve", fields)
}

pub fn profile(change: &ProfileChange) -> Fields {
    Fields::default()
        .with("course", change.course.map(Course::name))
        .with_list("days", change.days.iter().map(|day| weekday_word(*day)).collect())
        .with("sessions", change.sessions)
        .with("minutes", change.minutes)
        .with("born", change.born)
        .with("units", change.units.map(|unit| unit.name()))
        .with("language", change.language.map(|language| language.code()))
}

/// As typed: whose they are is not settled.
pub fn lane_results(results: &LaneResults) -> Fields {
    Fields::default()
        .with("lane", results.lane)
        .with("distance", results.distance.map(|distance| distance.amount))
        .with("results", results.times.len())
}

pub fn cut_fields(cut: &Cut) -> Fields {
    Fields::default()
        .with("minutes_left", cut.minutes_left)
        .with("ends", cut.ends.map(|at| at.strftime("%H:%M").to_string()))
        .with("lane", cut.lane)
        .with("count", cut.count)
        .with("send_off_s", cut.send_off.map(SendOff::seconds))
        .with("skip_round", cut.skip_round.then_some(true))
}

pub fn strings(names: &[Name]) -> Vec<String> {
    names.iter().map(Name::to_string).collect()
}
