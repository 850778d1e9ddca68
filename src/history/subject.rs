//! Whom an event is about, and whether its sender may take it back.

use super::event::Event;
use crate::message::Name;

/// The swimmer an event is about, if it is about one.
pub(super) fn subject(event: &Event) -> Option<&Name> {
    match event {
        Event::AttendanceSaid { who, .. }
        | Event::ClearanceSaid { who }
        | Event::ContactSet { who, .. }
        | Event::ReadinessAnswered { who, .. }
        | Event::AbilitySaid { who, .. }
        | Event::FeltTired { who }
        | Event::FocusSet { who, .. }
        | Event::LimitsSet { who: Some(who), .. }
        | Event::KitSet { who, .. }
        | Event::OwnTargetsSet { who, .. }
        | Event::Promised { who, .. }
        | Event::LanePinned { who, .. }
        | Event::MarkedAbsent { who, .. }
        | Event::MarkedHere { who, .. }
        | Event::Noted { who, .. }
        | Event::OtherTrained { who, .. }
        | Event::ProfileSet { who, .. }
        | Event::EntrySet { who, .. }
        | Event::LegSwum { who, .. }
        | Event::RaceSet { who, .. }
        | Event::HeadKnocked { who }
        | Event::Recovered { who, .. }
        | Event::Released { who }
        | Event::SessionMissed { who, .. }
        | Event::SessionSuggested { who, .. }
        | Event::SessionSwum { who, .. }
        | Event::ResultsTakenBack { who, .. }
        | Event::SetFixed { who, .. }
        | Event::SetSwum { who, .. }
        | Event::TestBegun { who, .. }
        | Event::TestFixed { who, .. }
        | Event::TestSwum { who, .. }
        | Event::TroubleOpened { who, .. }
        | Event::WeekPlanned { who, .. }
        | Event::WeekSettled { who, .. }
        | Event::WeekWaits { who, .. }
        | Event::WeeklyNoteWished { who, .. }
        | Event::WentAway { who, .. } => Some(who),
        _ => None,
    }
}

/// True for what its sender would call stored, as against what we suggested.
pub(super) fn is_undoable(event: &Event) -> bool {
    match event {
        Event::TroubleOpened { trouble, .. } => !trouble.is_stop(),
        Event::ClearanceSaid { .. }
        | Event::Promised { .. }
        | Event::HeadKnocked { .. }
        | Event::ReadinessAnswered { .. }
        | Event::Released { .. }
        | Event::ResultsTakenBack { .. }
        | Event::SessionSuggested { .. }
        | Event::WeekPlanned { .. }
        | Event::WeekSettled { yes: None, .. }
        | Event::WeekWaits { .. } => false,
        other => subject(other).is_some(),
    }
}
