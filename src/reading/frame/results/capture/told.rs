//! What a stretch tells of its people: tests, repeats, a word that there is no time.

use super::entry::{Entry, is_heading};
use super::heading::Heading;
use super::repeats::{set_statement, spec};
use super::single::{Mode, in_splits, mode, single};
use super::timed::times;
use crate::message::{Kind, Length, Name, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::clause::stroke_of;
use crate::reading::frame::results::narrative::{Slot, Told, tell};
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Figure, Item, Used};
use crate::reading::situation::Phase;

/// The words that say that there is no time.
const NO_TIME: [Concept; 2] = [Concept::Dnf, Concept::Dns];

/// What the stretch tells of its people; nothing where it tells nothing.
pub fn one(
    c: &Clause<'_, '_>,
    entry: &Entry,
    heading: &Heading,
    before: &[Statement],
    used: &mut Used,
) -> Option<Vec<Statement>> {
    let stretch = c.part(entry.from, entry.to);
    let names: Vec<Name> = entry.people.iter().filter_map(|person| c.name(*person)).collect();
    let first = *entry.people.first()?;
    let mut own = *heading;
    for (at, piece) in stretch.pieces.iter().enumerate() {
        if let Some(stroke) = stroke_of(piece) {
            own.stroke = Some(stroke);
            used[entry.from + at] = true;
        }
        if let Item::Repeat(count, far) = piece.item {
            own.length = c.length(far);
            own.count = Some(count);
            own.repeats = true;
            used[entry.from + at] = true;
        }
        let far = match piece.item {
            Item::Far(far) => c.length(far).map(|length| length.amount),
            Item::Figure(Figure::Whole { value, .. })
                if is_heading(value) && own.length.is_none() && at + 1 < stretch.len() =>
            {
                Some(value)
            }
            _ => None,
        };
        if let Some(amount) = far.filter(|_| own.length.is_none()) {
            own.length = Some(Length { amount, unit: None });
            used[entry.from + at] = true;
        }
    }
    // `teal same as finch`
    if stretch.has(Concept::Same) {
        return same_as(c, entry, before, used);
    }
    // `robin plover puffin into 3`: where they go; `los del 4 ponlos a 1 15`: what they
    // are to do.
    let goes = [Concept::To, Concept::Move, Concept::Up, Concept::Down];
    if let [first, to, ..] = stretch.pieces.0
        && goes.iter().any(|one| first.means(*one))
        && matches!(to.item, Item::Figure(Figure::Whole { value: 1..=10, .. }))
    {
        return None;
    }
    // `l1 last 4 on 55`: when to leave.
    let by_lane = matches!(c.pieces[entry.from.saturating_sub(1)].item, Item::Lanes(_));
    let sent_off = stretch.pieces.array_windows::<2>().any(|pair| {
        (pair[0].means(Concept::SetTime) || pair[0].item == Item::Mark('@'))
            && matches!(pair[1].item, Item::Figure(_))
    });
    let told = stretch.has_any(&[Concept::Held, Concept::Made, Concept::Average, Concept::Missed]);
    if by_lane && sent_off && !told && c.sit.phase == Phase::During {
        return None;
    }
    let times = times(&stretch, &own);
    // One time each, in the order of their names.
    if entry.people.len() > 1 && times.len() == entry.people.len() {
        let mut says = Vec::new();
        for (person, time) in entry.people.iter().zip(&times) {
            says.push(single(c, *person, time.figure, &own)?);
            time.mark(used, entry);
        }
        return Some(says);
    }
    // `dunnock and wren both 52`, told while they swim: one repeat of each.
    let both = stretch.pieces.first().is_some_and(|piece| matches!(piece.text, "both" | "ambos"));
    if let [time] = times[..]
        && both
        && c.sit.phase == Phase::During
        && own.count.is_none()
    {
        time.mark(used, entry);
        used[entry.from] = true;
        return entry.people.iter().map(|person| single(c, *person, time.figure, &own)).collect();
    }
    if let ([_], Some(test)) = (entry.people.as_slice(), in_splits(c, &own, first, &times)) {
        times.iter().for_each(|time| time.mark(used, entry));
        for (at, piece) in c.pieces.iter().enumerate() {
            used[at] |= piece.means(Concept::Splits);
        }
        return Some(vec![test]);
    }
    let mode = mode(c, &own, first, &times);
    if let (Mode::Test(distance), true) = (mode, !times.is_empty()) {
        // `heron 312 no wait 321`, `wren first 50 in 48, end 3'38`
        let last = times.last()?.figure;
        times.iter().for_each(|time| time.mark(used, entry));
        let own = Heading { length: Some(distance), ..own };
        return entry.people.iter().map(|person| single(c, *person, last, &own)).collect();
    }
    if !stretch.has_any(&NO_TIME) || !times.is_empty() {
        let spec = spec(c, &own, first)?;
        let mut told = tell(&stretch, spec.0);
        // `lane 1 averaging 41 lane 2 48`
        if let ([Slot::Swum(time, tenths)], true) = (told.slots.as_slice(), c.has(Concept::Average))
        {
            told.average = Some((*time, *tenths));
            told.slots.clear();
        }
        // `lane 4 only doing 6`: what they are to do.
        let ahead = matches!(c.pieces[entry.from.saturating_sub(1)].item, Item::Lanes(_))
            && c.sit.phase == Phase::During
            && told.made.is_some()
            && stretch.pieces.iter().any(|piece| Hint::Doing.is(piece.text));
        if ahead {
            return None;
        }
        let is_told = told.is_something();
        if is_told {
            mark(&told, entry.from, used);
            let says: Option<Vec<Statement>> = names
                .iter()
                .map(|name| set_statement(&stretch, told.clone(), spec.0, spec.1, name, &own))
                .collect();
            if says.is_some() {
                return says;
            }
        }
    }
    if let Some(at) =
        stretch.pieces.iter().position(|piece| NO_TIME.iter().any(|concept| piece.means(*concept)))
    {
        used[entry.from + at] = true;
        let text = stretch.typed(at, stretch.len().min(at + 3)).to_owned();
        let far = own.length.map(|length| length.amount).or(c.sit.tested);
        let text = far.map_or_else(|| text.clone(), |far| format!("{far}: {text}"));
        return Some(
            names
                .into_iter()
                .map(|who| Statement { who: Some(who), kind: Kind::Note { text: text.clone() } })
                .collect(),
        );
    }
    None
}

fn mark(told: &Told, from: usize, used: &mut Used) {
    for (at, one) in told.used.iter().enumerate() {
        used[from + at] |= *one;
    }
}

/// `teal same as finch`: what was said of finch, of teal.
fn same_as(
    c: &Clause<'_, '_>,
    entry: &Entry,
    before: &[Statement],
    used: &mut Used,
) -> Option<Vec<Statement>> {
    let other = c.pieces.get(entry.to).and_then(|piece| match piece.item {
        Item::Person(person) => c.name(person),
        _ => None,
    })?;
    let said = before.iter().find(|one| one.who.as_ref() == Some(&other))?;
    used[entry.from..entry.to].fill(true);
    let names = entry.people.iter().filter_map(|person| c.name(*person));
    Some(names.map(|who| Statement { who: Some(who), kind: said.kind.clone() }).collect())
}
