//! A send-off, or fewer, for some of the swimmers by name.

use super::lanes_and_names::{count_at, lanes_named, names, names_line, pass};
use super::reasons::reasons;
use super::sent_off::{is_clear_time, send_off_in};
use crate::message::{Edit, EditWhat, Kind, Name, Scope};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Far, Item, Piece};
use crate::reading::situation::{Line, Phase};
use crate::units::SendOff;

/// How much longer than a swim a time has to be that is no result of it, where no word says
/// that it is a send-off (ours).
const NO_RESULT: f64 = 1.2;

/// `ponle a teal y swift los 50 a 1:00`, `wren can't make it, give her 1:15`, `swift finch
/// teal on 55`, `1:10 for all but heron`.
pub fn for_some(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    let people = c.people();
    if people.is_empty()
        || !matches!(c.sit.phase, Phase::Before | Phase::During)
        || !lanes_named(c).is_empty()
    {
        return None;
    }
    let other = |piece: &Piece<'_>| match piece.item {
        Item::Repeat(_, Far::Of(amount, _)) | Item::Far(Far::Of(amount, _)) => {
            amount != main.distance
        }
        Item::Each(_) | Item::Range(..) | Item::OfAll(..) => true,
        _ => false,
    };
    if c.pieces.iter().any(other) {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    let asked = [Concept::Assign, Concept::Give];
    let verb = c.pieces.iter().rposition(|piece| asked.iter().any(|one| piece.means(*one)));
    // What stands before the word that says what to do is why.
    let from = verb.filter(|verb| figures(&c.part(*verb, c.len())) > 0).unwrap_or(0);
    let told = c.part(from, c.len());
    let mut stretch = Candidate::new("change", told.len());
    let send_off = send_off_in(&told, &mut stretch)?;
    let plausible = main.send_off.is_none_or(|usual| {
        let share = f64::from(send_off.seconds()) / f64::from(usual.seconds());
        (0.6..=1.9).contains(&share)
    });
    let later = leaves_later(c, main, send_off);
    let sure = verb.is_some() || later && is_sent_off(c);
    // `put wren down for 56` is what she swam.
    let swum =
        c.pieces.iter().any(|piece| piece.text == "down") || !send_off.seconds().is_multiple_of(5);
    if !plausible || !sure || swum || figures(&told) > 2 {
        return None;
    }
    for (at, used) in stretch.used.iter().enumerate() {
        candidate.used[from + at] |= *used;
    }
    let mut whats = vec![EditWhat::SendOff(send_off)];
    let count = c.pieces.iter().enumerate().skip(from).find_map(|(at, piece)| {
        let only = at > 0 && c.pieces[at - 1].means(Concept::Only);
        Some((at, count_at(piece).filter(|_| only)?))
    });
    if let Some((at, count)) = count {
        candidate.used[at] = true;
        whats.push(EditWhat::Count(u16::try_from(count).ok()?));
    }
    if let Some(except) = c.find(Concept::Except) {
        let bar = c.part(except, c.len()).people();
        (bar.len() == people.len()).then_some(())?;
        candidate.used.fill(true);
        let says = edits(all_but(c, &bar), whats);
        return Some(candidate.asking_whether(vec![says]).at_cost(0.2));
    }
    let names = names(c, &mut candidate);
    pass(c, &mut candidate);
    candidate.used.mark(c.pieces, |piece| {
        names_line(piece, main)
            || [
                Concept::Give,
                Concept::SetTime,
                Concept::SendOffWord,
                Concept::Only,
                Concept::Cant,
                Concept::To,
                Concept::On,
                Concept::Off,
            ]
            .iter()
            .any(|one| piece.means(*one))
    });
    let why = |piece: &Piece<'_>| !piece.is_of_health() && piece.item != Item::Mark('?');
    for at in (0..from).filter(|at| why(&c.pieces[*at])) {
        candidate.used[at] = true;
    }
    reasons(c, &mut candidate, c.pieces.iter().rposition(is_clear_time).unwrap_or(0) + 1);
    let says = edits(names, whats);
    let cost = if verb.is_some() { 0.0 } else { 0.1 };
    // Some of them may have swum that.
    Some(match later {
        true => candidate.says(says.kind).at_cost(cost),
        false => candidate.asking_whether(vec![says]).at_cost(cost),
    })
}

fn edits(names: Vec<Name>, whats: Vec<EditWhat>) -> crate::message::Statement {
    let edit = |what| Edit { scope: Scope::Main, lanes: vec![], names: names.clone(), what };
    let kind = Kind::Change(whats.into_iter().map(edit).collect());
    crate::message::Statement { who: None, kind }
}

fn figures(c: &Clause<'_, '_>) -> usize {
    c.pieces.iter().filter(|piece| matches!(piece.item, Item::Figure(_) | Item::Span(_))).count()
}

/// True where a word for a send-off stands, and none for what was swum.
fn is_sent_off(c: &Clause<'_, '_>) -> bool {
    let told = c.has_any(&[Concept::Held, Concept::Average, Concept::Made, Concept::Missed]);
    c.has(Concept::SetTime) && !told
}

/// True of a time so long that none of those who are named swam it.
fn leaves_later(c: &Clause<'_, '_>, main: &Line, send_off: SendOff) -> bool {
    let later = |person: usize| {
        let expected = c.sit.people.get(person)?.expected(main.distance, main.stroke)?;
        Some(f64::from(send_off.seconds()) > expected * NO_RESULT)
    };
    c.people().into_iter().all(|person| later(person).unwrap_or(false))
}

/// Everybody who swims, as far as lanes are drawn, but these.
fn all_but(c: &Clause<'_, '_>, bar: &[usize]) -> Vec<Name> {
    let drawn: Vec<usize> = c.sit.lanes.iter().flatten().copied().collect();
    let all = match drawn.is_empty() {
        true => (0..c.sit.people.len()).collect(),
        false => drawn,
    };
    all.into_iter().filter(|one| !bar.contains(one)).filter_map(|one| c.name(one)).collect()
}
