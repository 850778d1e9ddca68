//! Who may do what in a squad: one table of roles and rights. It must not know
//! how a right is used.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use crate::units::every;

/// What a person is in a squad. A coach, an assistant or a guardian may swim
/// in it too: that is told by a handle, not by the role.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[derive(VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Runs it.
    Coach,
    /// Stands in for the coach on the evening.
    Assistant,
    /// Swims in it.
    Swimmer,
    /// Is responsible for a minor who swims in it.
    Guardian,
    /// Hears worries about harm or fear, and nothing of training.
    WelfareOfficer,
}

impl Role {
    /// Every role, the widest first.
    pub const ALL: [Role; Role::VARIANTS.len()] = every(Role::VARIANTS);

    /// What it is called in English.
    pub const fn in_english(self) -> &'static str {
        match self {
            Role::Coach => "coach",
            Role::Assistant => "assistant",
            Role::Swimmer => "swimmer",
            Role::Guardian => "guardian",
            Role::WelfareOfficer => "welfare officer",
        }
    }

    /// True if this role has `right`.
    pub const fn may(self, right: Right) -> bool {
        use Right::{
            AddGuest, BeWarned, Broadcast, Erase, HandOver, HearWelfare, Hold, Invite, Release,
            Remove, RunEvening, SayYes, SeeSquad, SetTimetable, SpeakForOthers,
        };
        match right {
            // The evening goes on without the coach.
            SeeSquad | SpeakForOthers | RunEvening | AddGuest | BeWarned => self.is_on_deck(),
            // Whoever is on deck may say that the pool is shut, and make it
            // easier for someone; making it harder again is the coach's.
            Broadcast | Hold => self.is_on_deck(),
            SetTimetable | Release | SayYes | Invite | Remove | HandOver | Erase => {
                matches!(self, Role::Coach)
            }
            HearWelfare => matches!(self, Role::WelfareOfficer),
        }
    }

    const fn is_on_deck(self) -> bool {
        matches!(self, Role::Coach | Role::Assistant)
    }
}

/// What not everybody in a squad may do. What a person does for themselves needs
/// no right.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[derive(VariantArray)]
pub enum Right {
    /// See the squad and every swimmer's card, and set swimmers side by side.
    SeeSquad,
    /// Text results, pain, wishes, notes and corrections for others by name.
    SpeakForOthers,
    /// Keep the register, draw lanes, set and change what is swum tonight.
    RunEvening,
    /// Take in someone without a phone.
    AddGuest,
    /// Be told of danger, pain and what else cannot wait.
    BeWarned,
    /// Write to one swimmer or all.
    Broadcast,
    /// Hold a swimmer to easy swimming.
    Hold,
    /// Set the squad's standing evenings, and take one off.
    SetTimetable,
    /// Lift a stop or a hold.
    Release,
    /// Say whether plans wait for a yes, and give or withhold it.
    SayYes,
    /// Ask people into the squad.
    Invite,
    /// End someone's access.
    Remove,
    /// Make someone else the coach.
    HandOver,
    /// Erase someone else's history.
    Erase,
    /// Be told of worries about harm or fear.
    HearWelfare,
}

impl Right {
    /// Every right, in the order of the table.
    pub const ALL: [Right; Right::VARIANTS.len()] = every(Right::VARIANTS);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_as_a_page() {
        let rows: Vec<String> = Right::ALL
            .iter()
            .map(|&right| {
                let who: Vec<String> = Role::ALL
                    .iter()
                    .filter(|role| role.may(right))
                    .map(|role| format!("{role:?}"))
                    .collect();
                format!("{right:?}: {}", who.join(", "))
            })
            .collect();
        assert_eq!(
            rows,
            [
                "SeeSquad: Coach, Assistant",
                "SpeakForOthers: Coach, Assistant",
                "RunEvening: Coach, Assistant",
                "AddGuest: Coach, Assistant",
                "BeWarned: Coach, Assistant",
                "Broadcast: Coach, Assistant",
                "Hold: Coach, Assistant",
                "SetTimetable: Coach",
                "Release: Coach",
                "SayYes: Coach",
                "Invite: Coach",
                "Remove: Coach",
                "HandOver: Coach",
                "Erase: Coach",
                "HearWelfare: WelfareOfficer",
            ]
        );
    }

    #[test]
    fn roles_stored_before_there_were_more_still_read() {
        assert_eq!(serde_json::from_str::<Role>("\"coach\"").unwrap(), Role::Coach);
        assert_eq!(serde_json::from_str::<Role>("\"swimmer\"").unwrap(), Role::Swimmer);
    }
}
