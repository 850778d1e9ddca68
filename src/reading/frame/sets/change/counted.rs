//! Another number of repeats.

use super::lanes_and_names::{count_at, cuts, lanes, names, names_line, pass};
use super::sent_off::send_off_in;
use crate::message::{Cut, Edit, EditWhat, Kind, Scope};
use crate::reading::frame::Clause;
use crate::reading::frame::attend::days_in;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::health::body;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Far, Item};
use crate::reading::situation::Line;

/// `make it 10`, `cut to 6`, `lane 4 just do 6`, `10 instead of 8`, `puffin only 4`.
pub fn counted(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    let mut candidate = Candidate::new("cut", c.len());
    let lanes = lanes(c, &mut candidate);
    let names = names(c, &mut candidate);
    let evoked = c.has_any(&[
        Concept::Make,
        Concept::Cut,
        Concept::Only,
        Concept::Instead,
        Concept::Stopped,
        Concept::Extra,
        Concept::Add,
        Concept::Skip,
    ]) || c.pieces.iter().any(|piece| {
        matches!(
            piece.text,
            "do" | "does"
                | "doing"
                | "knock"
                | "haga"
                | "hagan"
                | "hace"
                | "hacen"
                | "haz"
                | "deja"
                | "corta"
        )
    });
    if !evoked
        || c.pieces.iter().any(|piece| {
            matches!(piece.item, Item::OfAll(..) | Item::Each(_))
                || piece.means(Concept::Missed) && piece.text != "drop" && piece.text != "skip"
        })
    {
        return None;
    }
    let mut count = None;
    for (at, piece) in c.pieces.iter().enumerate() {
        let before = |concept: Concept| at > 0 && c.pieces[at - 1].means(concept);
        let value = match piece.item {
            Item::Repeat(value, Far::Of(amount, _)) if amount == main.distance => {
                Some((value, true))
            }
            _ => count_at(piece).map(|value| (value, false)),
        };
        let Some((value, whole)) = value else { continue };
        let denied = before(Concept::Instead) && !before(Concept::Sorry)
            || before(Concept::Not)
            || at > 1
                && c.pieces[at - 2].means(Concept::Instead)
                && c.pieces[at - 2].text == "instead"
            || before(Concept::Last)
            || before(Concept::First);
        candidate.used[at] = true;
        if denied || count.is_some() && !whole {
            continue;
        }
        // `wren's 20 weeks`: of something else.
        let unit = c.at(at + 1).is_some_and(|next| {
            next.is(Sense::Unit(UnitWord::Second))
                || next.is(Sense::Unit(UnitWord::Minute))
                || next.sense(days_in).is_some()
        });
        // `three lanes, four persons in each`
        let lanes = c.at(at + 1).is_some_and(|next| next.means(Concept::Lane));
        if lanes || unit || value == main.count && !whole && !names.is_empty() {
            continue;
        }
        let more = before(Concept::Extra)
            || c.at(at + 1).is_some_and(|next| next.means(Concept::Extra))
            // `pon 10x50 en lugar de 8`
            || before(Concept::Add) && !c.has(Concept::Instead);
        let fewer = c.at(at + 1).is_some_and(|next| next.means(Concept::Less) || next.text == "off")
                // `drop 2 reps`, `lose 2`
                || at > 0 && matches!(c.pieces[at - 1].text, "drop" | "lose" | "minus" | "menos" | "quita");
        count = Some(if more {
            main.count + value
        } else if fewer {
            main.count.saturating_sub(value)
        } else {
            value
        });
    }
    let count = u16::try_from(count?).ok().filter(|count| (1..=60).contains(count))?;
    let others = c.pieces.iter().any(|piece| match piece.item {
        Item::Repeat(_, Far::Of(amount, _)) => amount != main.distance,
        Item::Far(Far::Of(amount, _)) => amount != main.distance,
        Item::Figure(figure) => {
            figure.is_marked() || figure.whole().is_some_and(|value| value > 60)
        }
        Item::Span(_) => true,
        _ => false,
    });
    if others
        && !c
            .pieces
            .iter()
            .any(|piece| piece.item == Item::Mark('@') || piece.means(Concept::SetTime))
    {
        return None;
    }
    let send_off = send_off_in(c, &mut candidate);
    pass(c, &mut candidate);
    candidate.used.mark(c.pieces, |piece| {
        names_line(piece, main)
            || piece.means(Concept::Reps)
            || piece.means(Concept::Stopped)
            || piece.means(Concept::Extra)
            || piece.means(Concept::Add)
    });
    if !names.is_empty() {
        // `11 in the water, no teal`, `puffin says her back is a 6`: no fewer repeats.
        let more = c.has_any(&[Concept::Make, Concept::Add, Concept::Extra]);
        let of_body = c.pieces.iter().any(|piece| body(piece).is_some());
        if u32::from(count) > main.count && !more || of_body {
            return None;
        }
        let edit = Edit { scope: Scope::Main, lanes: vec![], names, what: EditWhat::Count(count) };
        return Some(candidate.says(Kind::Change(vec![edit])).at_cost(0.4));
    }
    candidate.says =
        cuts(&lanes, |lane| Cut { lane, count: Some(count), send_off, ..Cut::default() });
    Some(candidate.at_cost(0.4))
}
