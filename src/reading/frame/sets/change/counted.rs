//! Another number of repeats.

use super::lanes_and_names::{count_at, cuts, lanes, names, names_line, pass};
use super::reasons::{of_another_day, reasons};
use super::sent_off::send_off_in;
use crate::message::{Cut, Edit, EditWhat, Kind, Scope};
use crate::reading::frame::Clause;
use crate::reading::frame::attend::days_in;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::health::body;
use crate::reading::lexicon::{Concept, Hint, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::reading::situation::{Line, Phase};

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
    ]) || c.pieces.iter().any(|piece| Hint::CountChanged.is(piece.text));
    let evoked = evoked
        || c.has(Concept::Assign)
            && (c.pieces.iter().any(|piece| names_line(piece, main)) || !lanes.is_empty())
            && c.pieces
                .array_windows::<2>()
                .any(|[to, count]| to.means(Concept::To) && count_at(count).is_some())
        || of_two(c, main);
    if !evoked
        || c.pieces.iter().any(|piece| {
            matches!(piece.item, Item::OfAll(..) | Item::Each(_))
                || piece.means(Concept::Missed) && piece.text != "drop" && piece.text != "skip"
        })
    {
        return None;
    }
    let mut count = by_word(c, main, &mut candidate);
    for (at, piece) in c.pieces.iter().enumerate() {
        let before = |concept: Concept| at > 0 && c.pieces[at - 1].means(concept);
        let value = match piece.item {
            Item::Repeat(value, Far::Of(amount, _)) if amount == main.distance => {
                Some((value, true))
            }
            _ => count_at(piece).map(|value| (value, false)),
        };
        let Some((value, whole)) = value else { continue };
        // `out by 5 to`, `on 1`: a time.
        let timed = c.at(at + 1).is_some_and(|next| next.text == "to")
            && c.at(at + 2).is_none_or(Piece::is_apart)
            || at > 0 && matches!(c.pieces[at - 1].text, "on" | "off" | "every" | "cada");
        // `before the next one`: it counts nothing.
        let counts = |piece: &Piece<'_>| {
            [Concept::Extra, Concept::Less, Concept::Reps].iter().any(|one| piece.means(*one))
        };
        let spelled = value == 1
            && piece.is_spelled()
            && !before(Concept::Only)
            && !c.at(at + 1).is_some_and(counts);
        if (timed || spelled) && !whole {
            continue;
        }
        // `drop the last two`
        let dropped = at > 1
            && before(Concept::Last)
            && c.pieces[at.saturating_sub(4)..at - 1].iter().any(|one| one.means(Concept::Skip));
        if dropped && value < main.count && names.is_empty() {
            candidate.used[at] = true;
            count = Some(main.count - value);
            continue;
        }
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
                || at > 0 && Hint::Fewer.is(c.pieces[at - 1].text);
        count = Some(if more {
            main.count + value
        } else if fewer {
            main.count.saturating_sub(value)
        } else {
            value
        });
    }
    let count = u16::try_from(count?).ok().filter(|count| (1..=60).contains(count))?;
    // `skip the last 2, straight into the 200`: a line of the set, as it is.
    let ends = c.has_any(&[Concept::Skip, Concept::Cut, Concept::Stopped]);
    let is_line = |amount: u32| {
        let set = c.sit.set.as_ref().filter(|_| ends);
        set.is_some_and(|set| set.lines.iter().any(|one| !one.main && one.distance == amount))
    };
    let others = c.pieces.iter().any(|piece| match piece.item {
        Item::Repeat(_, Far::Of(amount, _)) => amount != main.distance,
        Item::Far(Far::Of(amount, _)) => amount != main.distance && !is_line(amount),
        Item::Figure(figure) => {
            let far = figure.whole().is_some_and(|value| value > 60 && !is_line(value));
            figure.is_marked() || far
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
            || piece.means(Concept::Skip)
            || piece.means(Concept::Last)
            || piece.means(Concept::To)
            || piece.item == Item::Ordinal(main.count)
            || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if is_line(value))
    });
    let figure = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(_) | Item::Repeat(..));
    if let Some(last) = c.pieces.iter().rposition(figure) {
        if of_another_day(c, last) {
            return None;
        }
        reasons(c, &mut candidate, last + 1);
    }
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

/// `mejor 12x50 que 8`, `tonight 10x50 no 8`: a new number beside the old one.
fn of_two(c: &Clause<'_, '_>, main: &Line) -> bool {
    let new = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Repeat(count, Far::Of(amount, _))
            if amount == main.distance && count != main.count)
    };
    // `no 8`
    let old = |piece: &Piece<'_>| {
        count_at(piece) == Some(main.count) || piece.item == Item::Ordinal(main.count)
    };
    let new = c.pieces.iter().position(new);
    new.is_some_and(|new| c.pieces[new + 1..].iter().take(3).any(old))
}

/// Fewer without a figure of how many: `halve the 50s`, `lane 4 miss out number six`.
fn by_word(c: &Clause<'_, '_>, main: &Line, candidate: &mut Candidate) -> Option<u32> {
    let line = c.pieces.iter().any(|piece| names_line(piece, main));
    if let Some(half) = c.find(Concept::Half).filter(|_| line && c.has(Concept::Cut)) {
        candidate.used[half] = true;
        return Some(main.count / 2);
    }
    let one = c.pieces.array_windows::<2>().position(|[verb, which]| {
        let single = matches!(which.item, Item::Ordinal(number) if number <= main.count);
        verb.means(Concept::Skip) && verb.text != "no" && single
    })?;
    let during = c.sit.phase == Phase::During && c.people().is_empty();
    candidate.used[one..one + 2].fill(true);
    during.then(|| main.count.saturating_sub(1))
}
