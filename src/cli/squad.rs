//! `lapwing squad`.

use super::arguments::{
    Listing, Squad, SquadAdd, SquadCode, SquadRemove, SquadRename, SquadStaff, StaffAction,
    StaffRemove,
};
use super::asking::{asked_of, asked_of_new};
use super::console::{BOLD, Harmless, note, print, print_json, styled};
use super::progress::shown;
use super::run::{Failed, Outcome};
use super::settings::Settings;
use crate::control::{Access, Owner};
use crate::history::Role;
use crate::service::{Managing, NewSafeguards, NewSquad, Opening, SquadSeen, StaffSeen};

/// Does what is asked of squads.
pub async fn run(settings: &Settings, asked: Squad) -> Outcome {
    match asked {
        Squad::Add(asked) => add(settings, asked).await,
        Squad::List(asked) => list(settings, asked).await,
        Squad::Code(asked) => code(settings, asked).await,
        Squad::Rename(asked) => rename(settings, asked).await,
        Squad::Staff(asked) => staff(settings, asked).await,
        Squad::Remove(asked) => remove(settings, asked).await,
    }
}

/// Opens a squad and prints its id and join code, each on a line.
async fn add(settings: &Settings, asked: SquadAdd) -> Outcome {
    let squad = NewSquad {
        name: asked.name,
        coach: asked.coach,
        timezone: asked.timezone,
        course: asked.course,
        expires_days: asked.expires,
        minors: asked.minors,
        ready: asked.ready,
    };
    let closed = squad.minors && asked.welfare.is_none();
    let safeguards = NewSafeguards {
        welfare: asked.welfare,
        deputy: asked.deputy,
        helpline: asked.helpline,
        keep_years: asked.keep_records,
    };
    let opening = Opening { squad, safeguards };
    let added = asked_of_new(settings, async |access| access.add_squad(opening).await).await?;
    print(format_args!("squad {}\njoin {}", added.id, added.code))?;
    if closed {
        note(
            "minors swim in it: nobody can join until it has a welfare officer; give --welfare \
             ADDRESS, or let the coach text WELFARE OFFICER and the number",
        );
    }
    Ok(())
}

async fn managed(settings: &Settings, what: Managing) -> Result<Vec<SquadSeen>, Failed> {
    let manage =
        async |access: &Access<Owner>| shown("rewriting the squad", access.manage(what)).await;
    asked_of(settings, manage).await
}

async fn list(settings: &Settings, asked: Listing) -> Outcome {
    let squads = managed(settings, Managing::SeeAll).await?;
    if asked.json {
        print_json(&squads)?;
        return Ok(());
    }
    for squad in &squads {
        let SquadSeen { id, name, code, timezone, course, swimmers, minors, .. } = squad;
        let name = styled(BOLD, Harmless(name));
        let minors = if *minors { ", minors" } else { "" };
        print(format_args!(
            "{} {name} join {code}, {course}, {timezone}, swimmers: {swimmers}{minors}{}",
            id.0,
            expiry(squad)
        ))?;
    }
    if squads.is_empty() {
        note("there is no squad yet: `lapwing squad add NAME --coach ADDRESS` opens one");
    }
    Ok(())
}

fn expiry(squad: &SquadSeen) -> String {
    squad.expires.map_or_else(String::new, |until| format!(", the code works until {until:.0}"))
}

async fn code(settings: &Settings, asked: SquadCode) -> Outcome {
    let squad = asked.which.squad;
    let what = match asked.renew {
        true => Managing::RenewCode { squad },
        false => Managing::See { squad },
    };
    for squad in managed(settings, what).await? {
        print(format_args!("join {}", squad.code))?;
        if let Some(until) = squad.expires {
            note(format_args!("it works until {until:.0}; with --renew there is another"));
        }
    }
    Ok(())
}

async fn rename(settings: &Settings, asked: SquadRename) -> Outcome {
    let SquadRename { name, which } = asked;
    for squad in managed(settings, Managing::Rename { squad: which.squad, name }).await? {
        print(format_args!("squad {} is called {}", squad.id.0, Harmless(&squad.name)))?;
    }
    Ok(())
}

async fn staff(settings: &Settings, asked: SquadStaff) -> Outcome {
    let SquadStaff { which, listing, action } = asked;
    if let Some(StaffAction::Remove(StaffRemove { address, which })) = action {
        let what = Managing::EndOffice { squad: which.squad, address: address.clone() };
        for squad in managed(settings, what).await? {
            let name = Harmless(&squad.name);
            print(format_args!("{} holds no office in {name} any more", Harmless(&address)))?;
        }
        return Ok(());
    }
    for squad in managed(settings, Managing::See { squad: which.squad }).await? {
        if listing.json {
            print_json(&squad.staff)?;
            continue;
        }
        for StaffSeen { role, name, address } in &squad.staff {
            let name = name.as_ref().map_or_else(String::new, |name| format!(" {name}"));
            print(format_args!(
                "{}{name} {}",
                role.map_or("second contact", Role::in_english),
                Harmless(address)
            ))?;
        }
    }
    Ok(())
}

async fn remove(settings: &Settings, asked: SquadRemove) -> Outcome {
    let SquadRemove { squad, yes, erase } = asked;
    if !yes {
        let history = match erase {
            true => "what swimmers told is erased",
            false => "what swimmers told stays in the journal; --erase erases it",
        };
        return Err(format!(
            "everybody would leave {}, nothing would open it again, and {history}. If that is \
             meant, add --yes; `lapwing backup FILE` keeps a copy",
            squad.0
        )
        .into());
    }
    for was in managed(settings, Managing::Close { squad, erase }).await? {
        let SquadSeen { id, name, swimmers, .. } = was;
        print(format_args!("removed {} {}, swimmers: {swimmers}", id.0, Harmless(&name)))?;
    }
    if erase {
        note("their histories are erased; backups made before still hold them: remove those");
    }
    Ok(())
}
