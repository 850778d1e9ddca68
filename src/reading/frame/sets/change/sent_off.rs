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
            Item::Figure(figure)
                if leaves
                    || figure.is_marked()
                    || matches!(figure, Figure::Parted { places: 2, .. }) =>
            {
                figure.times().into_iter().find(|time| (20.0..=900.0).contains(&time.seconds()))
            }
            Item::Span(time) if leaves => Some(time),
            Item::Word if leaves && piece.is(Sense::Unit(UnitWord::Minute)) => {
                Centis::from_whole_seconds(60).ok()
            }
            _ => None,
        };
        let Some(time) = time else { continue };
        // `they can't make 1:05, give them 1:20`: that of now, and the new one.
        let is_now = c.sit.set.as_ref().and_then(|set| set.main()?.send_off);
        let others = c.pieces[at + 1..]
            .iter()
            .any(|piece| matches!(piece.item, Item::Figure(figure) if figure.is_marked()));
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

/// Pieces of a lane with a time and hardly more.
pub const BRIEF: usize = 6;

/// `lane 3 on 1:20 from now`, `put the 50s on a minute`, `5 secs extra for lanes 3
/// and 4`.
pub fn sent_off(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    if !c.people().is_empty() {
        return None;
    }
    // `L3+4 10s more. L1 hold.`: each sentence is of its own lanes.
    let stops = c.pieces.iter().position(|piece| piece.item == Item::Mark('.'));
    let is_lane = |piece: &Piece<'_>| matches!(piece.item, Item::Lanes(_));
    if stops.is_some_and(|stop| c.pieces[stop..].iter().any(is_lane)) {
        return None;
    }
    let mut candidate = Candidate::new("cut", c.len());
    let lanes = lanes(c, &mut candidate);
    let other = c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(count, Far::Of(amount, _)) if amount != main.distance || count != main.count) || matches!(piece.item, Item::Far(Far::Of(amount, _)) if amount != main.distance) || matches!(piece.item, Item::Each(_)));
    if other {
        return None;
    }
    // `10 sec more`, `give them an extra 5 seconds`, `drop everyone 5 sec`
    let by = c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let seconds = match piece.item {
            Item::Span(time) if time.seconds() <= 30.0 => time.seconds() as i16,
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
    let given = c.sit.phase == Phase::During
        && (c.has(Concept::Give) && (c.has(Concept::They) || !lanes.is_empty())
            || c.has_any(&[Concept::To, Concept::Make]) && !lanes.is_empty() && c.len() <= BRIEF
            // `lane 4 cant make 1:05, go 1:20`
            || c.has_any(&[Concept::Cant, Concept::Out]) && c.has(Concept::Move)
                && !lanes.is_empty()
            || c.has(Concept::From)
                && c.pieces.iter().any(|piece| matches!(piece.item, Item::Ordinal(_)))
            || c.has(Concept::Everyone) && c.has(Concept::For));
    if !said && !given {
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
            || given && (piece.means(Concept::Give) || piece.means(Concept::Cant))
            || matches!(piece.item, Item::Figure(_))
    });
    candidate.says = cuts(&lanes, |lane| Cut { lane, send_off: Some(send_off), ..Cut::default() });
    Some(candidate.at_cost(0.45))
}
