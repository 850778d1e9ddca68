//! Who comes, who does not, late, early, away, back: of oneself, or a coach's word
//! of others; and the register of an evening under way.
//!
//! A stretch is read in parts, each with at most one word of coming or not; people
//! and days that stand alone go with the part before or behind.

mod days;
mod part;
mod until;

use jiff::civil::Time;

use super::Clause;
use super::candidate::Candidate;
use crate::message::{Day, Doubt, Kind, Name, Statement, Wants};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::{Phase, Role};
use part::Part;

/// What someone says of coming.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Says {
    In,
    Out,
    Late(Option<u16>),
    Leaves(Option<Time>),
    Away,
    Back,
    Maybe,
}

/// People, days, and what is said of them.
#[derive(Debug, Clone, Default)]
struct Group {
    people: Vec<usize>,
    everyone: bool,
    /// Those whom `all but` leaves out.
    except: Vec<usize>,
    /// The others: `rest in`.
    others: bool,
    days: Vec<Day>,
    says: Vec<Says>,
    from: Option<Day>,
    until: Option<Day>,
    /// How sure the words are, 1 to 3.
    strength: u8,
}

/// Reads a stretch as who comes.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let coach = c.sit.role == Role::Coach;
    let own = |person: &usize| Some(*person) == c.sit.me;
    let people = c.people();
    let meant = if coach && people.is_empty() { meant_before(c) } else { None };
    let of_nobody = coach && people.is_empty() && meant.is_none() && !c.has(Concept::Everyone);
    if super::mood::is_question(c) || of_nobody {
        return vec![];
    }
    let mut used = vec![false; c.len()];
    let parts = part::parts(c, &mut used);
    let Some(mut groups) = groups(c, parts) else { return vec![] };
    // `no se si llego hoy, te confirmo`: one doubt in two ways.
    let mut doubted = false;
    groups.retain(|group| {
        let bare = group.says == [Says::Maybe] && group.days.is_empty() && group.people.is_empty();
        let again = bare && doubted;
        doubted |= group.says.contains(&Says::Maybe);
        !again
    });
    if !coach {
        // A swimmer speaks for no other.
        if groups.iter().any(|group| group.everyone || !group.except.is_empty()) {
            return vec![];
        }
        for (at, piece) in c.pieces.iter().enumerate() {
            if let Item::Person(person) = piece.item {
                used[at] &= own(&person);
            }
        }
        groups.iter_mut().for_each(|group| group.people.clear());
    }
    if let Some(person) = meant {
        let bare = groups.iter_mut().filter(|group| group.people.is_empty() && !group.everyone);
        bare.for_each(|group| group.people.push(person));
    }
    // `running late, 7.20ish`
    for group in &mut groups {
        let late = group.says.contains(&Says::Late(None))
            || c.has(Concept::Arrive) && group.says == [Says::In];
        if late && let Some((minutes, place)) = days::late_by(c, &group.says) {
            group.says.retain(|one| !matches!(one, Says::Late(None) | Says::In));
            group.says.push(Says::Late(Some(minutes)));
            used[place] = true;
        }
    }
    take_day_before(c, &mut groups);
    let says = statements(c, &groups);
    if says.is_empty() {
        return vec![];
    }
    let mut candidate = Candidate::new("attend", c.len());
    candidate.used = used;
    mark_reason(c, &mut candidate);
    candidate.says = says;
    if let Some(at) = better(c).filter(|_| !coach) {
        candidate.used[at] = true;
        candidate.says.insert(0, Statement { who: None, kind: Kind::Better });
    }
    let doubt = groups.iter().any(|group| group.says.contains(&Says::Maybe));
    vec![candidate.at_cost(if doubt { 0.7 } else { 0.4 })]
}

/// By how many minutes a stretch says that somebody comes late: `quarter past`, `7.20`.
pub fn minutes_late(c: &Clause<'_, '_>) -> Option<u16> {
    days::late_by(c, &[Says::In]).map(|(minutes, _)| minutes)
}

/// `kite had his scan, consultant says out 6 weeks`, `teal texted, she is out`: whom a
/// coach's text named last before this stretch.
fn meant_before(c: &Clause<'_, '_>) -> Option<usize> {
    let speaks = c.has_any(&[Concept::She, Concept::He]) || until::span(c).is_some();
    speaks.then(|| c.person_before())?
}

/// `my son is ill so im out`: why, and not of whoever writes.
fn mark_reason(c: &Clause<'_, '_>, candidate: &mut Candidate) {
    let ill = |piece: &Piece<'_>| {
        piece.sense(|sense| matches!(sense, Sense::Illness(_)).then_some(())).is_some()
    };
    let Some(whose) = c.find(Concept::My) else { return };
    let near = c.pieces.iter().skip(whose + 2).take(3).position(ill);
    if let Some(near) = near
        && matches!(c.pieces[whose + 1].item, Item::Chatter | Item::Unknown)
    {
        candidate.used[whose..=whose + 2 + near].fill(true);
    }
}

/// `feeling loads better, back tonight`: the place of `better`, where one feels it.
fn better(c: &Clause<'_, '_>) -> Option<usize> {
    let at = c.find(Concept::Better)?;
    let feels = |piece: &Piece<'_>| {
        matches!(piece.text, "feeling" | "feel" | "felt" | "siento" | "encuentro" | "estoy")
    };
    let long = c.pieces[at].at.1 - c.pieces[at].at.0 > 1;
    let near = c.pieces[at.saturating_sub(3)..at].iter().any(feels);
    let denied = c.pieces[at.saturating_sub(3)..at].iter().any(|piece| {
        piece.means(Concept::Not) || piece.means(Concept::Didnt) || piece.means(Concept::If)
    });
    ((near || long) && !denied).then_some(at)
}

/// What the sender said last of coming, and of which day.
fn said_before(c: &Clause<'_, '_>) -> Option<(bool, Option<Day>)> {
    match c.sit.before.as_slice() {
        [Statement { who: None, kind: Kind::Attend { coming, on, .. } }] => Some((*coming, *on)),
        _ => None,
    }
}

/// `can make it after all`: on the day that was last spoken of.
fn take_day_before(c: &Clause<'_, '_>, groups: &mut [Group]) {
    let Some((coming, Some(day))) = said_before(c) else { return };
    for group in groups.iter_mut().filter(|group| group.days.is_empty()) {
        let turns = group.says.contains(&if coming { Says::Out } else { Says::In });
        if turns && group.people.is_empty() && group.until.is_none() {
            group.days.push(day);
        }
    }
}

/// `actually no`, `can now`, behind what was said of coming.
pub fn turned(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let Some((coming, on)) = said_before(c) else { return vec![] };
    let plain = c.pieces.iter().all(|piece| {
        super::mood::is_opening(piece)
            || [
                Concept::Not,
                Concept::Cant,
                Concept::Wont,
                Concept::Can,
                Concept::YesWord,
                Concept::Me,
                Concept::Idiom,
                Concept::Will,
                Concept::It,
                Concept::Undo,
            ]
            .iter()
            .any(|one| piece.means(*one))
    });
    let no = c.has_any(&[Concept::Not, Concept::Cant, Concept::Wont]);
    let yes = c.has_any(&[Concept::Can, Concept::YesWord, Concept::Will]) && !no;
    if !plain || !(coming && no || !coming && yes) {
        return vec![];
    }
    let mut candidate = Candidate::new("turned", c.len());
    candidate.used.fill(true);
    vec![candidate.says(Kind::Attend { coming: !coming, late_min: None, on }).at_cost(0.6)]
}

/// Joins the parts that belong together; none where nothing is said of coming.
fn groups(c: &Clause<'_, '_>, parts: Vec<Part>) -> Option<Vec<Group>> {
    let mut groups: Vec<Group> = Vec::new();
    let mut waiting = Group::default();
    let mut parts = parts.into_iter().peekable();
    while let Some(part) = parts.next() {
        let Part { group, denied, good, excepted, .. } = part;
        if group.says.is_empty() && group.until.is_none() {
            if let (true, Some(last)) = (excepted, groups.last_mut()) {
                last.except.extend(group.people);
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
                if let (true, Some(before)) = (away, before) {
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

/// What the groups come to.
fn statements(c: &Clause<'_, '_>, groups: &[Group]) -> Vec<Statement> {
    let coach = c.sit.role == Role::Coach;
    let mut says: Vec<Statement> = Vec::new();
    let (mut here, mut absent): (Vec<Name>, Vec<Name>) = (vec![], vec![]);
    let mut register_on = None;
    for (place, group) in groups.iter().enumerate() {
        let is_past = c.sit.phase != Phase::During
            && group.days.iter().any(|day| matches!(day, Day::Yesterday | Day::Last(_)));
        let plain = group.says.iter().all(|one| matches!(one, Says::In | Says::Out));
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
                register_on = group.days.first().copied();
            }
            if group.others {
                // `faltan wren y puffin el resto estan todos`: who is named before the
                // rest belongs to what was said before.
                match groups[..place].last() {
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
        says.extend(of_each(c, &returned(c, &groups[..place], group)));
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

/// `cant make monday, back wed`: the day of return comes behind those before it.
fn returned(c: &Clause<'_, '_>, before: &[Group], group: &Group) -> Group {
    let out = before.last().filter(|last| last.says.contains(&Says::Out));
    let left = out.and_then(|last| c.date_of(*last.days.last()?));
    let (true, Some(left), [Day::On(weekday)]) =
        (group.says.contains(&Says::Back), left, group.days.as_slice())
    else {
        return group.clone();
    };
    let date = (1..=7i32).find_map(|days| {
        let date = left.checked_add(jiff::Span::new().days(days)).ok()?;
        (date.weekday() == *weekday).then_some(date)
    });
    Group { days: date.into_iter().map(Day::Full).collect(), ..group.clone() }
}

fn of_each(c: &Clause<'_, '_>, group: &Group) -> Vec<Statement> {
    let names: Vec<Option<Name>> = match group.people.as_slice() {
        [] if group.everyone || c.sit.role == Role::Coach => return vec![],
        [] => vec![None],
        several => several.iter().map(|one| c.name(*one)).collect(),
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
    if let (true, Some(on @ (Day::Yesterday | Day::Last(_)))) = (has(Says::Out), days[0]) {
        return vec![Kind::Missed { on: Some(on) }];
    }
    if has(Says::Out) {
        return attend(false, None).collect();
    }
    if has(Says::Maybe) && late.is_none() {
        return vec![Kind::Maybe { on: days[0] }];
    }
    let mut kinds: Vec<Kind> = Vec::new();
    if let Some(minutes) = late {
        kinds.extend(attend(true, minutes));
    } else if has(Says::In) {
        kinds.extend(attend(true, None));
    }
    if let Some(at) = leaves {
        kinds.push(Kind::Leaves { at, on: days[0] });
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

/// `running late`, with nothing to say by how much: asks.
pub fn unsure(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role == Role::Coach || !c.has(Concept::Late) || c.len() > 6 {
        return vec![];
    }
    let late = c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_) | Item::Span(_)));
    if late {
        return vec![];
    }
    let mut candidate = Candidate::new("late", c.len());
    candidate.used.fill(true);
    vec![candidate.asking(Doubt::Missing { wants: Wants::HowLate }, vec![]).at_cost(0.9)]
}
