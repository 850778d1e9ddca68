//! How long someone is away: `til the 16th`, `14th to the 21st`, `for 3 weeks`.

use super::days::days_in;
use super::group::{Group, Says};
use crate::message::Day;
use crate::reading::frame::{Clause, stroke_of};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Named, Piece, Used};
use crate::reading::situation::Role;

/// Settles the last day of an absence, where one is told.
pub fn until(c: &Clause<'_, '_>, group: &mut Group, used: &mut Used) {
    // `no swimming til next weds`
    let none = |piece: &Piece<'_>| piece.means(Concept::Shut) && piece.text == "no";
    // `no breaststroke until april` keeps nobody away.
    let but_one_stroke = c
        .pieces
        .array_windows::<2>()
        .any(|pair| matches!(pair[0].text, "no" | "sin" | "nada") && stroke_of(&pair[1]).is_some());
    if but_one_stroke && c.sit.role != Role::Coach {
        return;
    }
    let out = group.says.iter().any(|one| matches!(one, Says::Away | Says::Out))
        || c.sit.role != Role::Coach && c.pieces.iter().any(none);
    let comes =
        group.says.iter().any(|one| matches!(one, Says::In | Says::Late(_) | Says::Leaves(_)));
    if comes {
        return;
    }
    let runs_to = |piece: &Piece<'_>| {
        piece.means(Concept::Until) || piece.means(Concept::To) || piece.item == Item::Mark('-')
    };
    let dated = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Day(Named::OfMonth(_)) | Item::Ordinal(1..=31))
    };
    // `from 9th to 13th`, `12th to 19th`
    let first_day = |place: usize| match c.pieces[place].item {
        Item::Day(named) => Some(named),
        Item::Ordinal(day @ 1..=31)
            if place > 0 && c.pieces[place - 1].means(Concept::From)
                || c.at(place + 1).is_some_and(runs_to) && c.at(place + 2).is_some_and(dated) =>
        {
            Some(Named::OfMonth(u8::try_from(day).ok()?))
        }
        _ => None,
    };
    let is_day = |place: usize| first_day(place).is_some();
    let last = (0..c.len()).rev().find_map(|at| {
        let named = match c.pieces[at].item {
            Item::Day(named) => named,
            // `til 9th`, `5th to 9th`
            Item::Ordinal(day @ 1..=31)
                if at > 0 && c.pieces[at - 1].means(Concept::Until)
                    || at > 1 && runs_to(&c.pieces[at - 1]) && dated(&c.pieces[at - 2]) =>
            {
                Named::OfMonth(u8::try_from(day).ok()?)
            }
            _ => return None,
        };
        let earlier = (0..at).any(is_day);
        let before = (at.saturating_sub(3)..at).any(|place| {
            let piece = &c.pieces[place];
            piece.means(Concept::Until)
                || earlier && (piece.means(Concept::To) || piece.item == Item::Mark('-'))
        });
        // `del 9 al 20`
        let before = before || earlier && c.pieces[at].text == "al";
        if before { Some((at, named, c.coming(named)?)) } else { None }
    });
    if let Some((at, named, day)) = last {
        let first = (0..at).find_map(|place| c.coming(first_day(place)?));
        group.from = first.filter(|first| *first != Day::Today);
        group.until = Some(following(c, group.from, named, day));
        group.strength = group.strength.max(if out { 3 } else { 1 });
        for (place, used) in used.iter_mut().enumerate().take(at + 1) {
            *used |= c.pieces[place].means(Concept::Until)
                || c.pieces[place].means(Concept::To)
                || c.pieces[place].means(Concept::From)
                || is_day(place)
                || place == at
                || matches!(c.pieces[place].item, Item::Mark('-'));
        }
        return;
    }
    if !out {
        return;
    }
    // `back from hols tonight, 2 wks off`: how long it was.
    if c.has(Concept::Back) && !c.has_any(&[Concept::Until, Concept::For]) {
        return;
    }
    if let Some((at, days)) = span(c) {
        let begins = group.days.first().and_then(|day| c.date_of(*day)).unwrap_or(c.sit.today);
        if let Ok(until) = begins.checked_add(jiff::Span::new().days(days)) {
            group.from = group.days.first().copied().filter(|day| *day != Day::Today);
            group.until = Some(Day::Full(until));
            group.strength = group.strength.max(2);
            used[at..at + 2].fill(true);
        }
        return;
    }
    // `out for the next week at least`: seven days, and not the week to come.
    let seven = c.pieces.array_windows::<2>().position(|pair| {
        pair[0].means(Concept::For) && matches!(pair[1].item, Item::Day(Named::Week(0 | 1)))
    });
    if let Some(at) = seven
        && let Ok(until) = c.sit.today.checked_add(jiff::Span::new().days(7))
    {
        group.days.clear();
        group.until = Some(Day::Full(until));
        used[at..at + 2].fill(true);
        return;
    }
    let week = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.monday_of(named),
        _ => None,
    });
    // `out all of next week`
    let all = group.says.contains(&Says::Out) && c.has(Concept::All);
    if all && week.is_some() {
        group.days.clear();
    }
    if let (true, Some(monday)) = (group.says.contains(&Says::Away) || all, week)
        && let Ok(sunday) = monday.checked_add(jiff::Span::new().days(6))
    {
        group.from = (monday > c.sit.today).then_some(Day::Full(monday));
        group.until = Some(Day::Full(sunday));
    }
}

/// `from friday until the following friday`: a week on.
fn following(c: &Clause<'_, '_>, from: Option<Day>, named: Named, day: Day) -> Day {
    let (Some(from), Named::Day(Day::On(_), _)) = (from, named) else { return day };
    match (c.date_of(from), c.date_of(day)) {
        (Some(first), Some(last)) if last <= first => {
            last.checked_add(jiff::Span::new().weeks(1)).map_or(day, Day::Full)
        }
        _ => day,
    }
}

/// `for 3 weeks`, `a fortnight`: where it stands and how many days that is.
pub fn span(c: &Clause<'_, '_>) -> Option<(usize, i32)> {
    c.pieces.array_windows::<2>().enumerate().find_map(|(at, pair)| {
        let count = match pair[0].item {
            Item::Figure(Figure::Whole { value, .. }) => i32::try_from(value).ok()?,
            _ if pair[0].means(Concept::Article) => 1,
            _ => return None,
        };
        Some((at, count.checked_mul(pair[1].sense(days_in)?)?)).filter(|(_, days)| *days <= 400)
    })
}
