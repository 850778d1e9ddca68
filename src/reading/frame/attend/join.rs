//! Which parts of a stretch belong together.

use super::group::{Group, Says, returned};
use super::part::Part;
use crate::message::Day;
use crate::reading::frame::Clause;

/// Joins the parts that belong together; none where nothing is said of coming.
pub fn groups(c: &Clause<'_, '_>, parts: Vec<Part>) -> Option<Vec<Group>> {
    let mut groups: Vec<Group> = Vec::new();
    let mut waiting = Group::default();
    let mut parts = parts.into_iter().peekable();
    while let Some(part) = parts.next() {
        let Part { group, denied, good, excepted, everyone_else, told } = part;
        if group.says.is_empty() && group.until.is_none() {
            if let (true, Some(last)) = (excepted, groups.last_mut()) {
                last.except.extend(group.people);
                continue;
            }
            // `register for last night: all but lark and swift`
            if excepted && everyone_else && !group.people.is_empty() {
                let days = std::mem::take(&mut waiting).days.into_iter().chain(group.days);
                let says = vec![Says::Out];
                let days = days.collect();
                groups.push(Group { people: group.people, days, says, strength: 2, ..group });
                continue;
            }
            // `and lark is only just getting changed`: of somebody else, and something else.
            if told {
                continue;
            }
            if group.people.is_empty() && group.days.is_empty() {
                continue;
            }
            // `not the monday`, `wednesday ok`
            let turned = match groups.last() {
                Some(last) if denied && last.says.contains(&Says::In) => Some(Says::Out),
                Some(last) if denied && last.says.contains(&Says::Out) => Some(Says::In),
                Some(last) if good && last.says.contains(&Says::Out) => Some(Says::In),
                _ => None,
            };
            if let Some(says) = turned {
                let people = match (group.people.is_empty(), groups.last()) {
                    (true, Some(last)) => last.people.clone(),
                    _ => group.people,
                };
                groups.push(Group { people, says: vec![says], strength: 1, ..group });
                continue;
            }
            let forward = parts.peek().is_some_and(|next| {
                !next.group.says.is_empty()
                    && if group.people.is_empty() {
                        next.group.days.is_empty()
                    } else {
                        !next.group.people.is_empty()
                    }
            });
            match groups.last_mut() {
                Some(last) if !forward => {
                    last.people.extend(group.people);
                    last.days.extend(group.days);
                }
                // `eid is friday, so I can't come wed`
                _ if !forward && group.people.is_empty() => {}
                _ => {
                    waiting.people.extend(group.people);
                    waiting.days.extend(group.days);
                }
            }
            continue;
        }
        let mut group = group;
        if excepted {
            group.except.append(&mut group.people);
        }
        let past = |day: &Day| matches!(day, Day::Yesterday | Day::Last(_));
        if let Some(last) = groups.last().filter(|last| last.days.iter().any(past))
            && group.days.is_empty()
        {
            group.days.clone_from(&last.days);
        }
        let mut ahead = std::mem::take(&mut waiting);
        // `plover's early. all in`: one of them.
        if group.everyone && !group.says.contains(&Says::Out) {
            ahead.people.clear();
        }
        group.people = ahead.people.into_iter().chain(group.people).collect();
        group.days = ahead.days.into_iter().chain(group.days).collect();
        let subject = !group.people.is_empty() || group.everyone || group.others;
        if let (false, Some(last)) = (subject, groups.last_mut()) {
            let gone = last.until.is_some()
                || last.says.iter().any(|one| matches!(one, Says::Out | Says::Away));
            // `out of town next week, back the 16th`: how long, and no word of coming.
            if gone && group.says == [Says::Back] && !group.days.is_empty() {
                let away = last.says.contains(&Says::Away) || last.until.is_some();
                let day = returned(c, std::slice::from_ref(last), &group).days.first().copied();
                let left = last.from.or(last.days.first().copied()).and_then(|day| c.date_of(day));
                let before = day.and_then(|day| c.date_of(day)?.yesterday().ok());
                // `away next week, back the monday after`
                let before = before.and_then(|mut before| {
                    while left.is_some_and(|left| before < left) {
                        before = before.checked_add(jiff::Span::new().weeks(1)).ok()?;
                    }
                    Some(before)
                });
                // `away fri to the 15th, back for the monday`: the last day was told.
                if let (true, Some(before), None) = (away, before, last.until) {
                    last.until = Some(Day::Full(before));
                }
                continue;
            }
            // `might be back`, `you will miss me`, behind an absence.
            if gone && group.days.is_empty() && group.until.is_none() {
                continue;
            }
            // `won't be in mon, hols til the 16th`
            if gone && group.until.is_some() && last.until.is_none() {
                last.from = last.days.first().copied().filter(|day| *day != Day::Today);
                last.until = group.until;
                continue;
            }
            // `rook yes but leaving at 7:45`, `in tonight, 10 late`
            let same_day = group.days.is_empty() || group.days == last.days;
            if same_day && adds(&last.says, &group.says) {
                last.says.append(&mut group.says);
                last.strength = last.strength.max(group.strength);
                continue;
            }
            // `on a late tonight so count me out`
            if same_day && group.says == [Says::Out] && group.until.is_none() {
                last.says = group.says;
                continue;
            }
            group.people.clone_from(&last.people);
        }
        groups.push(group);
    }
    let sure = groups.iter().map(|group| group.strength).max().unwrap_or(0);
    let said = groups.iter().any(|group| !group.says.is_empty() || group.until.is_some());
    (said && sure > 0).then_some(groups)
}

/// True if what comes behind only says more of the same coming.
fn adds(before: &[Says], more: &[Says]) -> bool {
    let comes = before.iter().any(|one| matches!(one, Says::In | Says::Late(_) | Says::Leaves(_)));
    comes && more.iter().all(|one| matches!(one, Says::Late(_) | Says::Leaves(_) | Says::In))
}
