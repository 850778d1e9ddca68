//! Any sequence of calls against a journal in memory.

use super::*;

use std::collections::{BTreeMap, HashMap};

use proptest::prelude::*;
use proptest::test_runner::TestCaseError;

use crate::home::{Database, Folder, Home};

#[derive(Debug, Clone)]
enum Call {
    /// Appends the entries without waiting in between, then waits for all.
    Append(Vec<(Option<u8>, usize)>),
    Checkpoint {
        back: u64,
        parts: Vec<(u8, usize)>,
    },
    Find(u8),
    After(u64),
    Reopen,
    Restart,
}

fn calls() -> impl Strategy<Value = Vec<Call>> {
    let length = prop_oneof![6 => 0..500_usize, 2 => 6_000..6_300_usize, 1 => 10_000..40_000_usize];
    let entry = (proptest::option::of(0..40_u8), length.clone());
    let call = prop_oneof![
        8 => proptest::collection::vec(entry, 1..20).prop_map(Call::Append),
        4 => (0..5_u64, proptest::collection::vec((0..4_u8, length), 0..4)).prop_map(|(back, parts)| Call::Checkpoint { back, parts }),
        4 => (0..40_u8).prop_map(Call::Find),
        2 => (0..60_u64).prop_map(Call::After),
        1 => Just(Call::Reopen),
        1 => Just(Call::Restart),
    ];
    proptest::collection::vec(call, 1..25)
}

#[derive(Default)]
struct Model {
    log: Vec<Entry>,
    index: HashMap<MessageKey, u64>,
    through: u64,
    parts: BTreeMap<String, Vec<u8>>,
}

impl Model {
    fn after(&self, through: u64) -> Vec<(Seq, Entry)> {
        (1..).map(Seq::new).zip(self.log.iter().cloned()).skip(through as usize).collect()
    }
}

fn behaves(home: &impl Home, calls: Vec<Call>) -> Result<(), TestCaseError> {
    let mut journal = home.open();
    let mut model = Model::default();
    for (step, call) in (0_u8..).zip(calls) {
        match call {
            Call::Append(entries) => {
                let mut tickets = Vec::new();
                for (id, length) in entries {
                    let entry = Entry {
                        key: id.map(|id| key(&id.to_string())),
                        ..unkeyed(&vec![step; length])
                    };
                    tickets.push(journal.append(entry.clone()));
                    model.log.push(entry);
                    let place = model.log.len() as u64;
                    if let Some(id) = id {
                        model.index.entry(key(&id.to_string())).or_insert(place);
                    }
                }
                for ticket in tickets {
                    ticket.wait().unwrap();
                }
            }
            Call::Checkpoint { back, parts } => {
                let through = (model.log.len() as u64).saturating_sub(back);
                let parts: Vec<_> = parts
                    .into_iter()
                    .map(|(name, length)| part(&name.to_string(), &vec![step; length]))
                    .collect();
                let from = (model.through > 0).then_some(model.through);
                let done = journal.checkpoint(&dusk(), from, through, parts.clone());
                prop_assert_eq!(done.is_ok(), through > 0);
                if through > 0 {
                    model.through = through;
                    for part in parts {
                        match part.bytes.is_empty() {
                            true => model.parts.remove(&part.name),
                            false => model.parts.insert(part.name, part.bytes),
                        };
                    }
                }
            }
            Call::Find(id) => {
                let expected = model
                    .index
                    .get(&key(&id.to_string()))
                    .map(|&place| (Seq::new(place), model.log[place as usize - 1].clone()));
                prop_assert_eq!(found(journal.as_ref(), &id.to_string()).unwrap(), expected);
            }
            Call::After(through) => {
                let read: Vec<_> = journal
                    .entries_of(&dusk(), through)
                    .map(Result::unwrap)
                    .map(|placed| (placed.place, placed.entry))
                    .collect();
                prop_assert_eq!(read, model.after(through));
            }
            Call::Reopen => journal.reopen().unwrap(),
            Call::Restart => {
                journal = home.again(journal);
            }
        }
        let snapshot = journal.snapshot(&dusk()).unwrap();
        prop_assert_eq!(snapshot.through, model.through);
        let parts: BTreeMap<_, _> =
            snapshot.parts.into_iter().map(|part| (part.name, part.bytes)).collect();
        prop_assert_eq!(&parts, &model.parts);
    }
    prop_assert_eq!(all(journal.as_ref()).unwrap(), model.after(0));
    let checked = journal.check().unwrap();
    prop_assert!(checked.is_sound(), "{:?}", checked.damage);
    home.look();
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]
    #[test]
    fn behaves_as_a_journal_in_memory(calls in calls()) {
        behaves(&Folder::new(), calls)?;
    }

    #[test]
    #[ignore = "wants PostgreSQL's server"]
    fn so_does_one_in_a_database(calls in calls()) {
        behaves(&Database::new(), calls)?;
    }
}
