//! The statements that groups of people and days come to.

use super::group::{Group, Says, returned};
use crate::message::{Day, Kind, Name, Statement};
use crate::reading::frame::Clause;
use crate::reading::lexicon::Hint;
use crate::reading::piece::Piece;
use crate::reading::situation::{Phase, Role};

/// What the groups come to.
pub fn statements(c: &Clause<'_, '_>, groups: &[Group]) -> Vec<Statement> {
    let coach = c.sit.role == Role::Coach;
    let mut says: Vec<Statement> = Vec::new();
    let (mut here, mut absent): (Vec<Name>, Vec<Name>) = (vec![], vec![]);
    let mut register_on = None;
    for (place, group) in groups.iter().enumerate() {
        let before = groups.get(..place).unwrap_or_default();
        let told_past = coach && group.days.is_empty() && was_there(c);
        let is_past = c.sit.phase != Phase::During
            && (told_past
                || group.days.iter().any(|day| matches!(day, Day::Yesterday | Day::Last(_))));
        // `finch back in`, at the poolside: here.
        let returns = c.sit.phase == Phase::During && group.days.is_empty();
        let plain = group.says.iter().all(|one| match one {
            Says::In | Says::Out => true,
            Says::Back => returns,
            _ => false,
        });
        let today = group.days.is_empty() || group.days.contains(&Day::Today);
        let registers = coach
            && plain
            && group.until.is_none()
            && (c.sit.phase == Phase::During && today || is_past || group.everyone);
        let out = group.says.contains(&Says::Out);
        if registers {
            let names = |people: &[usize]| -> Vec<Name> {
                people.iter().filter_map(|one| c.name(*one)).collect()
            };
            if is_past {
                register_on = group.days.first().copied().or_else(|| last_night(c));
            }
            if group.others {
                // `faltan wren y puffin el resto estan todos`: who is named before the
                // rest belongs to what was said before.
                match before.last() {
                    Some(before) if before.says.contains(&Says::Out) => {
                        absent.extend(names(&group.people));
                    }
                    Some(_) => here.extend(names(&group.people)),
                    None => {}
                }
                continue;
            }
            if group.everyone && !out && group.except.is_empty() && group.people.is_empty() {
                says.push(Statement {
                    who: None,
                    kind: Kind::Here { names: vec![], all_but: true, on: register_on },
                });
            } else if group.everyone && !out {
                absent.extend(names(&group.except));
                absent.extend(names(&group.people));
            } else if out {
                absent.extend(names(&group.people));
            } else {
                here.extend(names(&group.people));
            }
            let others: Vec<Day> =
                group.days.iter().copied().filter(|day| *day != Day::Today).collect();
            if !is_past && !others.is_empty() && !group.everyone {
                let later = Group { days: others, ..group.clone() };
                says.extend(of_each(c, &later));
            }
            continue;
        }
        says.extend(of_each(c, &returned(c, before, group)));
    }
    if !absent.is_empty() {
        says.insert(
            0,
            Statement { who: None, kind: Kind::Absent { names: absent, on: register_on } },
        );
    }
    if !here.is_empty() {
        let kind = Kind::Here { names: here, all_but: false, on: register_on };
        says.insert(0, Statement { who: None, kind });
    }
    says
}

fn of_each(c: &Clause<'_, '_>, group: &Group) -> Vec<Statement> {
    let names: Vec<Option<Name>> = match group.people.as_slice() {
        [] if group.everyone || c.sit.role == Role::Coach => return vec![],
        [] => vec![None],
        several => {
            let swimmer = c.sit.role != Role::Coach;
            let own = |one: usize| swimmer && c.sit.me == Some(one);
            several.iter().map(|one| c.name(*one).filter(|_| !own(*one))).collect()
        }
    };
    let kinds = kinds(group);
    let of = |who: &Option<Name>| -> Vec<Statement> {
        kinds.iter().map(|kind| Statement { who: who.clone(), kind: kind.clone() }).collect()
    };
    names.iter().flat_map(of).collect()
}

/// The statements about one person.
fn kinds(group: &Group) -> Vec<Kind> {
    if let Some(until) = group.until {
        return vec![Kind::Away { from: group.from, until }];
    }
    let first = group.days.first().copied();
    let days: Vec<Option<Day>> = match group.days.as_slice() {
        [] => vec![None],
        days => days.iter().copied().map(Some).collect(),
    };
    let has = |says: Says| group.says.contains(&says);
    let late = group.says.iter().find_map(|one| match one {
        Says::Late(minutes) => Some(*minutes),
        _ => None,
    });
    let leaves = group.says.iter().find_map(|one| match one {
        Says::Leaves(at) => Some(*at),
        _ => None,
    });
    let attend = |coming: bool, late_min: Option<u16>| {
        days.iter().map(move |on| Kind::Attend { coming, late_min, on: *on })
    };
    // What is over can't be stayed away from any more.
    if let (true, Some(on @ (Day::Yesterday | Day::Last(_)))) = (has(Says::Out), first) {
        return vec![Kind::Missed { on: Some(on) }];
    }
    if has(Says::Out) {
        return attend(false, None).collect();
    }
    if has(Says::Maybe) && late.is_none() {
        return vec![Kind::Maybe { on: first }];
    }
    let mut kinds: Vec<Kind> = Vec::new();
    if let Some(minutes) = late {
        kinds.extend(attend(true, minutes));
    } else if has(Says::In) {
        kinds.extend(attend(true, None));
    }
    if let Some(at) = leaves {
        kinds.push(Kind::Leaves { at, on: first });
    }
    if kinds.is_empty() && has(Says::Back) {
        return match group.days.as_slice() {
            [] => vec![Kind::Back { on: None }],
            _ => attend(true, None).collect(),
        };
    }
    if kinds.is_empty() && has(Says::Away) && !group.days.is_empty() {
        return attend(false, None).collect();
    }
    kinds
}

/// `plover was there i just forgot to tick him`: of an evening that is over.
pub fn was_there(c: &Clause<'_, '_>) -> bool {
    let was = |piece: &Piece<'_>| Hint::WasThere.is(piece.text);
    c.sit.phase == Phase::None && c.pieces.iter().any(was)
}

/// The last evening that is over.
fn last_night(c: &Clause<'_, '_>) -> Option<Day> {
    (1..=7i32).find_map(|days| {
        let date = c.sit.today.checked_sub(jiff::Span::new().days(days)).ok()?;
        c.sit.nights.contains(&date.weekday()).then_some(Day::Full(date))
    })
}
