//! Another send-off.

use super::lanes_and_names::{cuts, lanes, names_line, pass};
use crate::message::Cut;
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::reading::situation::{Line, Phase};
use crate::units::{Centis, SendOff};

/// A figure as a send-off, behind its word or not.
pub fn send_off_in(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<SendOff> {
    for (at, piece) in c.pieces.iter().enumerate() {
        let leaves = at > 0
            && (c.pieces[at - 1].means(Concept::SetTime)
                || c.pieces[at - 1].item == Item::Mark('@')
                || c.pieces[at - 1].means(Concept::To) && c.len() <= BRIEF
                || matches!(c.pieces[at - 1].text, "the" | "a" | "to" | "at")
                    && at > 1
                    && (c.pieces[at - 2].means(Concept::SetTime)
                        || c.pieces[at - 2].means(Concept::Make)
                        || c.pieces[at - 1].text == "to"));
        let denied = at > 0
            && (c.pieces[at - 1].means(Concept::Instead) || c.pieces[at - 1].means(Concept::Not))
            || at > 1
                && (c.pieces[at - 2].means(Concept::Instead)
                    && c.pieces[at - 2].text.starts_with("in")
                    || matches!(c.pieces[at - 2].text, "not" | "than"));
        let time: Option<Centis> = match piece.item {
            // `put them on 1`: a minute.
            Item::Figure(Figure::Whole { value: value @ 1..=3, places: 1 })
                if at > 0 && matches!(c.pieces[at - 1].text, "on" | "off" | "every" | "cada") =>
            {
                Centis::from_whole_seconds(value * 60).ok()
            }
            Item::Figure(figure)
                if leaves
                    || figure.is_marked()
                    || matches!(figure, Figure::Parted { places: 2, .. }) =>
            {
                figure.times().into_iter().find(|time| (20.0..=900.0).contains(&time.seconds()))
            }
            Item::Span(time) if leaves || is_usual(time) => Some(time),
            Item::Word if leaves && piece.is(Sense::Unit(UnitWord::Minute)) => {
                Centis::from_whole_seconds(60).ok()
            }
            _ => None,
        };
        let Some(time) = time else { continue };
        // `they can't make 1:05, give them 1:20`: that of now, and the new one.
        let is_now = c.sit.set.as_ref().and_then(|set| set.main()?.send_off);
        let timed = |piece: &Piece<'_>| {
            is_clear_time(piece) || matches!(piece.item, Item::Span(time) if is_usual(time))
        };
        let others = c.pieces[at + 1..].iter().any(timed);
        if others
            && is_now.is_some_and(|now| (f64::from(now.seconds()) - time.seconds()).abs() < 0.5)
        {
            candidate.used[at] = true;
            continue;
        }
        candidate.used[at] = true;
        if leaves {
            candidate.used[at - 1] = true;
        }
        if denied {
            continue;
        }
        return SendOff::new(time.seconds() as u32).ok();
    }
    None
}

/// True of a time such as many leave on, and nobody rests.
fn is_usual(time: Centis) -> bool {
    (40.0..=180.0).contains(&time.seconds())
}

/// True of a figure that can't but be a time: `1:05`, `1.05`.
pub fn is_clear_time(piece: &Piece<'_>) -> bool {
    let clear =
        |figure: Figure| figure.is_marked() || matches!(figure, Figure::Parted { places: 2, .. });
    matches!(piece.item, Item::Figure(figure) if clear(figure))
}

/// Pieces of a lane with a time and hardly more.
pub const BRIEF: usize = 6;

/// True of a clear time at which somebody may be sent off, in fives of seconds.
fn in_fives(piece: &Piece<'_>) -> bool {
    let fives = |figure: Figure| {
        figure.times().into_iter().any(|time| time.hundredths().is_multiple_of(500))
    };
    is_clear_time(piece) && matches!(piece.item, Item::Figure(figure) if fives(figure))
}

/// `go back to 1.05`, `back on 1:05`: to what it was, where hardly more is said.
fn goes_back(c: &Clause<'_, '_>) -> bool {
    let back = |piece: &Piece<'_>| {
        piece.text.starts_with("back") || piece.means(Concept::Back) || piece.text == "volvemos"
    };
    c.len() <= BRIEF && c.pieces.iter().any(back) && c.pieces.iter().any(in_fives)
}

/// `lane 3 on 1:20 from now`, `put the 50s on a minute`, `5 secs extra for lanes 3
/// and 4`.
pub fn sent_off(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    let mut candidate = Candidate::new("cut", c.len());
    let lanes = lanes(c, &mut candidate);
    let for_all = c.has(Concept::Everyone) && c.has(Concept::For);
    // `rook can't make 1:05, 1:10 for all of lane 3`: who it is about is but why.
    let last = c.pieces.iter().rposition(|piece| matches!(piece.item, Item::Person(_)));
    let told = c.pieces.iter().position(|piece| piece.means(Concept::Assign));
    if let Some(last) = last {
        if lanes.is_empty() && !for_all || told.is_none_or(|told| told < last) {
            return None;
        }
        candidate.used.mark(c.pieces, |piece| matches!(piece.item, Item::Person(_)));
    }
    // `L3+4 10s more. L1 hold.`: each sentence is of its own lanes.
    let stops = c.pieces.iter().position(|piece| piece.item == Item::Mark('.'));
    let is_lane = |piece: &Piece<'_>| matches!(piece.item, Item::Lanes(_));
    if stops.is_some_and(|stop| c.pieces[stop..].iter().any(is_lane)) {
        return None;
    }
    let other = c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(count, Far::Of(amount, _)) if amount != main.distance || count != main.count) || matches!(piece.item, Item::Far(Far::Of(amount, _)) if amount != main.distance) || matches!(piece.item, Item::Each(_)));
    if other {
        return None;
    }
    // `10 sec more`, `give them an extra 5 seconds`, `drop everyone 5 sec`
    let by = c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let seconds = match piece.item {
            Item::Span(time) if time.seconds() < 30.0 => time.seconds() as i16,
            Item::Figure(Figure::Whole { value: value @ 3..=30, .. })
                if c.at(at + 1).is_some_and(|next| next.is(Sense::Unit(UnitWord::Second))) =>
            {
                i16::try_from(value).ok()?
            }
            // `10s more`
            Item::Plural(value @ 3..=30)
                if c.at(at + 1).is_some_and(|next| {
                    next.means(Concept::Extra) || next.means(Concept::Less)
                }) =>
            {
                i16::try_from(value).ok()?
            }
            _ => return None,
        };
        Some((at, seconds))
    });
    let more = c.has_any(&[Concept::Extra, Concept::Slow])
        || c.pieces.iter().any(|piece| matches!(piece.text, "add" | "mas" | "more"));
    let less = c.has_any(&[Concept::Less, Concept::Fast])
        || c.pieces.iter().any(|piece| matches!(piece.text, "drop" | "off" | "menos" | "tighter"));
    if let (Some((at, seconds)), true, Some(before)) = (by, more || less, main.send_off) {
        candidate.used[at] = true;
        pass(c, &mut candidate);
        for (place, piece) in c.pieces.iter().enumerate() {
            candidate.used[place] |= piece.means(Concept::Extra)
                || piece.means(Concept::Less)
                || piece.means(Concept::RestWord)
                || piece.means(Concept::SendOffWord)
                || piece.is(Sense::Unit(UnitWord::Second))
                || piece.means(Concept::Fast)
                || piece.means(Concept::Slow);
        }
        let seconds = i32::try_from(before.seconds()).ok()?
            + i32::from(if more { seconds } else { -seconds });
        let send_off = SendOff::new(u32::try_from(seconds).ok()?).ok()?;
        candidate.says =
            cuts(&lanes, |lane| Cut { lane, send_off: Some(send_off), ..Cut::default() });
        return Some(candidate.at_cost(0.4));
    }
    let said = c.has_any(&[Concept::SetTime, Concept::SendOffWord])
        || c.pieces.iter().any(|piece| piece.item == Item::Mark('@'));
    // `give them 1:15`, `lane 1 down to 60 sec`, `1:10 for everyone`
    let assigned = c.has(Concept::Assign)
        && (c.has_any(&[Concept::To, Concept::Make]) || !lanes.is_empty() || c.has(Concept::They));
    let given = matches!(c.sit.phase, Phase::During | Phase::Before)
        && (assigned && c.pieces.iter().any(in_fives)
            || goes_back(c)
            || c.has(Concept::Want) && !lanes.is_empty() && c.question == Some(true)
            || c.has(Concept::Give) && (c.has(Concept::They) || !lanes.is_empty())
            || c.has_any(&[Concept::To, Concept::Make]) && !lanes.is_empty() && c.len() <= BRIEF
            // `lane 4 cant make 1:05, go 1:20`
            || c.has_any(&[Concept::Cant, Concept::Out]) && c.has(Concept::Move)
                && !lanes.is_empty()
            || c.has(Concept::From)
                && c.pieces.iter().any(|piece| matches!(piece.item, Item::Ordinal(_)))
            || for_all);
    if !said && !given {
        return None;
    }
    // `lane 1 to 55, lane 4 to 1:20`: each lane's is its own.
    let named = c.pieces.iter().filter(|piece| is_lane(piece)).count();
    let timed = c.pieces.iter().filter(|piece| match piece.item {
        Item::Figure(figure) => figure.whole().is_none_or(|value| (40..=59).contains(&value)),
        _ => false,
    });
    if assigned && named > 1 && timed.count() > 1 {
        return None;
    }
    let send_off = send_off_in(c, &mut candidate)?;
    let seconds = f64::from(send_off.seconds());
    let plausible = main
        .send_off
        .is_none_or(|before| (0.6..=1.9).contains(&(seconds / f64::from(before.seconds()))));
    if !plausible {
        return None;
    }
    // `1:10 from no 5`
    let from = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Ordinal(number)
            if at > 0
                && (c.pieces[at - 1].means(Concept::From)
                    || at > 1 && c.pieces[at - 2].means(Concept::From)) =>
        {
            Some((at, number))
        }
        _ => None,
    });
    if let Some((at, _)) = from {
        candidate.used[at] = true;
    }
    pass(c, &mut candidate);
    candidate.used.mark(c.pieces, |piece| {
        names_line(piece, main)
            || piece.means(Concept::SendOffWord)
            || piece.means(Concept::SetTime)
            || piece.means(Concept::From)
            || piece.means(Concept::Rest)
            || given
                && [Concept::Give, Concept::Cant, Concept::Back, Concept::Move, Concept::To]
                    .iter()
                    .any(|one| piece.means(*one))
            || matches!(piece.item, Item::Figure(_) | Item::Span(_))
            || piece.item == Item::Mark('?')
    });
    candidate.says = cuts(&lanes, |lane| Cut { lane, send_off: Some(send_off), ..Cut::default() });
    Some(candidate.at_cost(0.45))
}
