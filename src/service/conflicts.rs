//! What a decision rests on and what it changes, so that two which conflict are found where
//! others decide at the same time:
//! squads, people, codes, welfare officers, lanes of letters, and the ids of messages.

use super::letter::Logged;
use super::record::Record;
use super::{Body, LetterEvent};
use crate::desk;
use crate::history::{Event, SquadId, Strangers};
use crate::journal::{Basis, Entry, MessageKey, Topic};
use crate::message;

/// A message's key, and how far the log was known before it was looked for in it.
#[derive(Debug, Clone)]
pub(super) struct Keyed {
    pub key: MessageKey,
    pub since: u64,
}

fn of_squad(id: &SquadId) -> Topic {
    Topic::of("squad", &id.0)
}

fn of_person(address: &str) -> Topic {
    Topic::of("person", address)
}

fn of_code(code: &str) -> Topic {
    Topic::of("code", code.to_uppercase())
}

/// Which squads have a welfare officer: the worry of somebody in no squad goes to one of them.
fn of_officers() -> Topic {
    Topic::of("officers", "")
}

fn of_lane(event: &LetterEvent) -> Topic {
    Topic::of("lane", event.lane().unwrap_or_default())
}

fn of_key(key: &MessageKey) -> Topic {
    Topic::of("key", key)
}

/// What an entry of the log changes.
pub(super) fn changed_by(entry: &Entry, logged: &Logged) -> Vec<Topic> {
    let mut changes = match logged {
        Logged::Message(record) => changed_by_message(record),
        Logged::Letter(event) => vec![of_lane(event)],
        Logged::Stated(_) => super::streams::squad_of(&entry.stream).iter().map(of_squad).collect(),
    };
    changes.extend(entry.key.as_ref().map(of_key));
    changes
}

fn changed_by_message(record: &Record) -> Vec<Topic> {
    let mut changes: Vec<Topic> = record.squad.iter().map(of_squad).collect();
    let people = std::iter::once(&record.from).chain(&record.gone);
    let people = people.chain(record.events.iter().filter_map(person_in));
    changes.extend(people.filter(|address| !address.is_empty()).map(|one| of_person(one)));
    changes.extend(record.events.iter().filter_map(code_in).map(|code| of_code(code)));
    let officers = !record.gone.is_empty() || record.events.iter().any(may_change_officers);
    changes.extend(officers.then(of_officers));
    changes
}

/// Whether this event may give a squad its welfare officer, or take it away.
const fn may_change_officers(event: &Event) -> bool {
    matches!(event, Event::RoleGiven { .. } | Event::AccessEnded { .. } | Event::SquadClosed)
}

/// The person of whom an event tells something that is known apart from the squad.
fn person_in(event: &Event) -> Option<&String> {
    match event {
        Event::SquadOpened { coach, .. } => Some(coach),
        Event::GuardianAsked { address, .. }
        | Event::AccessEnded { address }
        | Event::Invited { address, .. }
        | Event::InvitationClosed { address } => Some(address),
        event => Strangers::concerned(event),
    }
}

fn code_in(event: &Event) -> Option<&String> {
    match event {
        Event::SquadOpened { code, .. }
        | Event::GuestAdded { code, .. }
        | Event::CodeRenewed { code } => Some(code),
        _ => None,
    }
}

/// What a message's record was decided on, with all that was known at a place: what it
/// changes, the squads that its sender is in, those who are written to, and the code that
/// it brought.
pub(super) fn basis_of(record: &Record, key: Option<&Keyed>, squads: &[SquadId], at: u64) -> Basis {
    let mut changes = changed_by_message(record);
    let mut on = changes.clone();
    on.extend(squads.iter().map(of_squad));
    on.extend(record.replies.iter().map(|reply| of_person(&reply.to)));
    if let Body::Text(text) = &record.body {
        on.extend(desk::opening_code(text).map(|code| of_code(&code)));
        on.extend((squads.is_empty() && message::is_worried(text)).then(of_officers));
    }
    let mut on: Vec<(Topic, u64)> = on.into_iter().map(|topic| (topic, at)).collect();
    if let Some(Keyed { key, since }) = key {
        on.push((of_key(key), *since));
        changes.push(of_key(key));
    }
    Basis { on, changes }
}

/// What became of a letter, with all that was known at a place.
pub(super) fn basis_of_letter(event: &LetterEvent, at: u64) -> Basis {
    let lane = of_lane(event);
    Basis { on: vec![(lane, at)], changes: vec![lane] }
}

#[cfg(test)]
mod tests {
    use jiff::Timestamp;

    use super::*;
    use crate::service::speaking::tests::letter_to;

    #[test]
    fn a_message_stands_on_its_squads_its_people_its_code_and_its_id() {
        let (dusk, dawn) = (SquadId("dusk".into()), SquadId("dawn".into()));
        let record = Record {
            body: Body::Text("join k7qm-2px4 heron".into()),
            events: vec![Event::OptedIn { address: "teal".into() }],
            replies: vec![letter_to("coach", None)],
            ..Record::unsaid(Some(dusk.clone()), 1, "heron", Timestamp::UNIX_EPOCH)
        };
        let key = MessageKey { channel: "sms".into(), id: "gw-1".into() };
        let keyed = Keyed { key: key.clone(), since: 5 };
        let Basis { on, changes } = basis_of(&record, Some(&keyed), std::slice::from_ref(&dawn), 7);
        for topic in [of_squad(&dusk), of_person("heron"), of_person("teal")] {
            assert!(on.contains(&(topic, 7)) && changes.contains(&topic));
        }
        for topic in [of_squad(&dawn), of_person("coach"), of_code("K7QM-2PX4")] {
            assert!(on.contains(&(topic, 7)) && !changes.contains(&topic));
        }
        assert!(on.contains(&(of_key(&key), 5)), "as it was known before it was looked for");
        assert!(changes.contains(&of_key(&key)));
    }

    /// Whom the worry of somebody in no squad reaches hangs on who has an officer.
    #[test]
    fn a_worry_from_no_squad_stands_on_the_welfare_officers() {
        let dusk = SquadId("dusk".into());
        let record = |squad: Option<&SquadId>, text: &str, events: Vec<Event>| Record {
            body: Body::Text(text.into()),
            events,
            ..Record::unsaid(squad.cloned(), 1, "heron", Timestamp::UNIX_EPOCH)
        };
        let worried = record(Some(&dusk), "worried", vec![]);
        let stands = |record: &Record, squads: &[SquadId]| {
            basis_of(record, None, squads, 7).on.contains(&(of_officers(), 7))
        };
        assert!(stands(&worried, &[]));
        assert!(!stands(&worried, std::slice::from_ref(&dusk)));
        assert!(!stands(&record(None, "200 test 3:12", vec![]), &[]));
        let ended = Event::AccessEnded { address: "teal".into() };
        let changes = |record: &Record| changed_by_message(record).contains(&of_officers());
        assert!(changes(&record(Some(&dusk), "remove teal", vec![ended])));
        assert!(!changes(&worried));
    }

    /// What it says that it changes is what others find in it.
    #[test]
    fn what_a_message_changes_is_read_from_its_entry() {
        let record = Record {
            gone: vec!["teal".into()],
            events: vec![Event::CodeRenewed { code: "K7QM-2PX4".into() }],
            ..Record::unsaid(Some(SquadId("dusk".into())), 1, "heron", Timestamp::UNIX_EPOCH)
        };
        let key = MessageKey { channel: "sms".into(), id: "gw-1".into() };
        let keyed = Keyed { key: key.clone(), since: 5 };
        let body = record.write().unwrap();
        let entry = Entry { stream: record.stream(), key: Some(key), at: record.received, body };
        let logged = Logged::read(&entry.body).unwrap();
        assert_eq!(changed_by(&entry, &logged), basis_of(&record, Some(&keyed), &[], 7).changes);
    }
}
