//! What somebody asks for or says of themselves, in words that are read back the same.

use super::parts::{Words, course, equipment};
use crate::message::{Approval, Limits, NextWish, PlanWish, ProfileChange, Regular, WeekKind};
use crate::session::Limit;
use crate::units::{Unit, weekday_word};

pub(super) fn plan(wish: &PlanWish) -> Words {
    Words::of("plan")
        .maybe(wish.week.map(WeekKind::word))
        .maybe(wish.minutes.map(|minutes| format!("{minutes}min")))
        .maybe(wish.sessions.map(|sessions| format!("{sessions} sessions")))
        .maybe(wish.on.as_ref())
}

pub(super) fn next(wish: &NextWish) -> Words {
    Words::of("next")
        .maybe(wish.minutes.map(|minutes| format!("{minutes}min")))
        .maybe(wish.distance)
        .maybe(wish.open_water.then_some("open water"))
        .each(wish.with.iter().map(|kit| equipment(*kit)))
        .maybe((!wish.without.is_empty()).then_some("without"))
        .each(wish.without.iter().map(|kit| equipment(*kit)))
}

pub(super) fn profile(change: &ProfileChange) -> Words {
    let unit = |unit: Unit| match unit {
        Unit::Metre => "units metres",
        Unit::Yard => "units yards",
    };
    Words::default()
        .maybe(change.course.map(|one| format!("pool {}", course(one))))
        .maybe((!change.days.is_empty()).then_some("days"))
        .each(change.days.iter().map(|day| weekday_word(*day)))
        .maybe(change.sessions.map(|sessions| format!("days {sessions}")))
        .maybe(change.minutes.map(|minutes| format!("minutes {minutes}")))
        .maybe(change.born.map(|year| format!("born {year}")))
        .maybe(change.units.map(unit))
        .maybe(change.language.map(|language| format!("language {language}")))
}

pub(super) fn limits(limits: &Limits) -> Words {
    let said = |verb: &str, what: &[Limit], all: bool| {
        Words::of(verb).maybe(all.then_some("all")).each(what.iter().map(|one| limited(*one)))
    };
    match limits {
        Limits::Barred { what, all } => said("limit", what, *all),
        Limits::Allowed { what, all } => said("allow", what, *all),
        Limits::KitChanged { have, lack } => {
            let each = |kit: &[crate::units::Equipment]| {
                kit.iter().map(|one| equipment(*one)).collect::<Vec<_>>()
            };
            let mut words = Words::default();
            if !have.is_empty() {
                words = words.and("got").each(each(have));
            }
            if !lack.is_empty() {
                words = words.and("no").each(each(lack));
            }
            words
        }
        Limits::Kit { kit } => {
            Words::of("kit").each(kit.iter().map(|kit| limited(Limit::Kit(*kit))))
        }
    }
}

fn limited(limit: Limit) -> &'static str {
    match limit {
        Limit::Kit(kit) => equipment(kit),
        Limit::Stroke(stroke) => stroke.name(),
        Limit::BreastKick => "breast kick",
        Limit::Dives => "dives",
        Limit::TumbleTurns => "tumble turns",
    }
}

pub(super) fn regular(regular: &Regular) -> Words {
    let switch = |wanted: &bool| if *wanted { "on" } else { "off" };
    match regular {
        Regular::Digest => Words::of("digest"),
        Regular::DigestWanted { wanted } => Words::of("digest").and(switch(wanted)),
        Regular::DigestAt { day, at } => Words::of("digest")
            .maybe(day.as_ref())
            .maybe(at.map(|at| format!("{:02}:{:02}", at.hour(), at.minute()))),
        Regular::Note => Words::of("weekly"),
        Regular::NoteWanted { wanted } => Words::of("weekly").and(switch(wanted)),
    }
}

pub(super) fn approval(said: Approval, whom: Option<&String>) -> Words {
    let approve = Words::of("approve");
    match said {
        Approval::Waiting => approve,
        Approval::Wanted { wanted } => approve.and(if wanted { "plans on" } else { "plans off" }),
        Approval::All => approve.and("all"),
        Approval::Given => approve.maybe(whom),
        Approval::SentBack => approve.maybe(whom).and("no"),
    }
}
