//! Who comes, who goes, who runs the squad.

use super::parts::Words;
use super::swum::apart;
use crate::message::{Name, Office, People};

/// What is said of people, as words.
pub fn said(people: &People) -> Words {
    let called = |name: &Name| format!("@{name}");
    match people {
        People::Invite { to, office, name } => Words::of("invite")
            .and(to)
            .maybe(office.map(|office| match office {
                Office::Coach => "co-coach",
                Office::Assistant => "assistant",
                Office::Guardian => "guardian",
                Office::WelfareOfficer => "officer",
            }))
            .maybe(name.as_ref().map(called)),
        People::HandOver { to } => Words::of("hand over").and(called(to)),
        People::Remove { name } => Words::of("remove").and(called(name)),
        People::Leave => Words::of("leave"),
        People::Add { name, guess } => {
            let guess = guess.as_ref();
            let time = guess.map(|guess| guess.time.to_string());
            Words::of("add")
                .and(called(name))
                .each(apart(guess.and_then(|guess| guess.distance), time))
        }
        People::Claim { code } => Words::of("claim").and(code),
        People::Squads => Words::of("squads"),
    }
}
