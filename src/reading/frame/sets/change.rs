//! Changes to the set that is known: fewer or more, another send-off, another main
//! part, something added or left out, for all, for a lane, for one.

use super::frame::{known, with_ends};
use super::writer::{Part2, lines, write};
use jiff::civil::Time;

use crate::message::{
    Cut, Day, Edit, EditWhat, Kind, Length, Name, Scope, Slot, Statement, TypedSet,
};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::lane_count;
use crate::reading::frame::clause::stroke_of;
use crate::reading::frame::mood::{is_question, is_request};
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::reading::situation::{Line, Phase, Role};
use crate::session::Part;
use crate::units::{Centis, Level, SendOff};

/// Reads a stretch of a coach's as a change to the set.
pub fn change(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role != Role::Coach {
        return vec![];
    }
    let Some(set) = &c.sit.set else { return vec![] };
    let Some(main) = set.main() else { return vec![] };
    // `could lane 3 go to 1:15 and lane 4 to 1:25?` asks for both.
    let asked_for = is_request(c) || is_request(&Clause { pieces: c.all, offset: 0, ..*c });
    if is_question(c) && !c.has(Concept::Can) && !asked_for {
        return vec![];
    }
    let mut read = Vec::new();
    read.extend(each_lane(c, main));
    read.extend(replaced(c, main));
    read.extend(ends(c));
    read.extend(added(c, main));
    read.extend(counted(c, main));
    read.extend(sent_off(c, main));
    read.extend(part_of_it(c, main));
    read.extend(flow(c));
    read.extend(left(c));
    read
}

/// `L1 on 60, L2 1.05, L3 1.10`, `l1 12x50 55. l2 10x50 1.00`: each lane with a count or a
/// send-off of its own behind it.
fn each_lane(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    let starts: Vec<usize> =
        (0..c.len()).filter(|at| matches!(c.pieces[*at].item, Item::Lanes(_))).collect();
    let told = c.sit.phase == Phase::Before
        || c.has_any(&[Concept::SetTime, Concept::To, Concept::Make, Concept::Give])
        || c.pieces.iter().any(|piece| piece.item == Item::Mark('@'));
    if starts.len() < 2 || !told || !c.people().is_empty() {
        return None;
    }
    let mut candidate = Candidate::new("cut", c.len());
    let mut says = Vec::new();
    for (place, from) in starts.iter().enumerate() {
        let to = starts.get(place + 1).copied().unwrap_or(c.len());
        let stretch = Clause { pieces: &c.pieces[*from..to], offset: c.offset + from, ..*c };
        let (cut, used) = one_lane(&stretch, main)?;
        used.into_iter().for_each(|at| candidate.used[from + at] = true);
        let lanes = lanes_named(&stretch);
        says.extend(cuts(&lanes, |lane| Cut { lane, ..cut.clone() }));
    }
    pass(c, &mut candidate);
    for (at, piece) in c.pieces.iter().enumerate() {
        let little = [Concept::SetTime, Concept::To, Concept::Started, Concept::Reps];
        candidate.used[at] |= little.iter().any(|one| piece.means(*one))
            || matches!(piece.item, Item::Plural(value) if value == main.distance);
    }
    candidate.says = says;
    Some(candidate.at_cost(0.1))
}

/// What one lane's stretch says of its repeats, and the pieces that say it: at most one
/// count and one send-off, and no other figure.
fn one_lane(c: &Clause<'_, '_>, main: &Line) -> Option<(Cut, Vec<usize>)> {
    let mut cut = Cut::default();
    let mut used = vec![0];
    for (at, piece) in c.pieces.iter().enumerate().skip(1) {
        let time = match piece.item {
            Item::Repeat(count, Far::Of(amount, _)) => {
                if amount != main.distance || cut.count.is_some() {
                    return None;
                }
                cut.count = u16::try_from(count).ok();
                used.push(at);
                continue;
            }
            Item::Figure(figure) => figure.times().into_iter().find(|time| {
                let seconds = time.seconds();
                let usual = main.send_off.map_or(60.0, |usual| f64::from(usual.seconds()));
                (0.6..=2.2).contains(&(seconds / usual))
            })?,
            Item::Range(..) | Item::Each(_) | Item::Far(_) | Item::Repeat(..) => return None,
            _ => continue,
        };
        // A pace to hold is no send-off.
        let held =
            c.pieces[at - 1].means(Concept::Held) || c.pieces[at - 1].means(Concept::Average);
        if cut.send_off.is_some() || held {
            return None;
        }
        cut.send_off = SendOff::new(time.seconds() as u32).ok();
        used.push(at);
    }
    (cut.count.is_some() || cut.send_off.is_some()).then_some((cut, used))
}

/// The lanes that a stretch names, and their words taken as explained.
fn lanes(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Vec<u8> {
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= matches!(piece.item, Item::Lanes(_)) || piece.means(Concept::Lane);
    }
    lanes_named(c)
}

/// The lanes that a stretch names.
fn lanes_named(c: &Clause<'_, '_>) -> Vec<u8> {
    let mut all = Vec::new();
    for piece in c.pieces {
        if let Item::Lanes(bits) = piece.item {
            all.extend((1..=20u8).filter(|lane| bits & (1 << lane) != 0));
        }
    }
    if all.is_empty() {
        // `fast lane`, `slow lane`
        let count = u8::try_from(c.sit.lanes.len()).unwrap_or(0);
        let lane = c.find(Concept::Lane);
        let near = |words: &[&str]| {
            lane.is_some_and(|lane| {
                c.pieces[lane.saturating_sub(2)..(lane + 3).min(c.len())]
                    .iter()
                    .any(|piece| words.contains(&piece.text))
            })
        };
        if near(&["fast", "fastest", "top", "rapida"]) {
            all.push(1);
        } else if near(&["slow", "slowest", "bottom", "lenta"]) && count > 0 {
            all.push(count);
        }
    }
    all
}

fn names(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Vec<Name> {
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= matches!(piece.item, Item::Person(_));
    }
    c.people().into_iter().filter_map(|person| c.name(person)).collect()
}

/// Words that say nothing beside a change.
fn pass(c: &Clause<'_, '_>, candidate: &mut Candidate) {
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= [
            Concept::Make,
            Concept::Cut,
            Concept::Can,
            Concept::CanYou,
            Concept::Want,
            Concept::Everyone,
            Concept::They,
            Concept::She,
            Concept::He,
            Concept::Only,
            Concept::Set,
            Concept::Then,
            Concept::Will,
            Concept::We,
            Concept::Set,
            Concept::Instead,
            Concept::Sorry,
            Concept::Same,
            Concept::Maybe,
            Concept::Not,
        ]
        .iter()
        .any(|one| piece.means(*one))
            || matches!(piece.item, Item::Day(_))
            // `could lane 3 go to 1:15?` asks for it.
            || piece.item == Item::Mark('?')
                && is_request(&Clause { pieces: c.all, offset: 0, ..*c });
    }
}

/// True if a piece names the main line: `8x50`, `the 50s`, `main set`.
fn names_line(piece: &Piece<'_>, main: &Line) -> bool {
    match piece.item {
        Item::Plural(value) => value == main.distance,
        Item::Repeat(count, Far::Of(amount, _)) => count == main.count && amount == main.distance,
        _ => {
            piece.sense(|sense| (*sense == Sense::Part(Part::Main)).then_some(())).is_some()
                && piece.at.1 - piece.at.0 > 1
        }
    }
}

/// Figures that say how many.
fn count_at(piece: &Piece<'_>) -> Option<u32> {
    match piece.item {
        Item::Figure(Figure::Whole { value, .. }) if (1..=40).contains(&value) => Some(value),
        _ => None,
    }
}

/// `make it 10`, `cut to 6`, `lane 4 just do 6`, `10 instead of 8`, `puffin only 4`.
fn counted(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
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
        let unit = c.at(at + 1).is_some_and(|next| {
            next.sense(|sense| {
                matches!(sense, Sense::Unit(UnitWord::Second | UnitWord::Minute)).then_some(())
            })
            .is_some()
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
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= names_line(piece, main)
            || piece.means(Concept::Reps)
            || piece.means(Concept::Stopped)
            || piece.means(Concept::Extra)
            || piece.means(Concept::Add);
    }
    if !names.is_empty() {
        let edit = Edit { scope: Scope::Main, lanes: vec![], names, what: EditWhat::Count(count) };
        return Some(candidate.says(Kind::Change(vec![edit])).at_cost(0.4));
    }
    candidate.says =
        cuts(&lanes, |lane| Cut { lane, count: Some(count), send_off, ..Cut::default() });
    Some(candidate.at_cost(0.4))
}

fn cuts(lanes: &[u8], cut: impl Fn(Option<u8>) -> Cut) -> Vec<Statement> {
    let says = |lane| Statement { who: None, kind: Kind::Cut(cut(lane)) };
    match lanes {
        [] => vec![says(None)],
        several => several.iter().map(|lane| says(Some(*lane))).collect(),
    }
}

/// A figure as a send-off, behind its word or not.
fn send_off_in(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<SendOff> {
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
const BRIEF: usize = 6;

/// `lane 3 on 1:20 from now`, `put the 50s on a minute`, `5 secs extra for lanes 3
/// and 4`.
fn sent_off(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
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
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= names_line(piece, main)
            || piece.means(Concept::SendOffWord)
            || piece.means(Concept::SetTime)
            || piece.means(Concept::From)
            || piece.means(Concept::Rest)
            || given && (piece.means(Concept::Give) || piece.means(Concept::Cant))
            || matches!(piece.item, Item::Figure(_));
    }
    candidate.says = cuts(&lanes, |lane| Cut { lane, send_off: Some(send_off), ..Cut::default() });
    Some(candidate.at_cost(0.45))
}

/// `instead of the 8x50 16x25`, `swap the 50s for 4x100 on 2:10`, `scrap the 50s, 4x100
/// off 2:10 instead`.
fn replaced(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    let swaps = c.has_any(&[Concept::Instead, Concept::Swap, Concept::Make])
        || c.has(Concept::Skip)
            && c.pieces.iter().filter(|piece| matches!(piece.item, Item::Repeat(..))).count() > 0;
    if !swaps {
        return None;
    }
    let old = c.pieces.iter().position(|piece| names_line(piece, main))?;
    // Without the line's old name, what is written is the new one.
    let pieces: Vec<Piece<'_>> = c
        .pieces
        .iter()
        .enumerate()
        .filter(|(at, _)| *at != old)
        .map(|(_, piece)| piece.clone())
        .collect();
    let stretch = Clause { pieces: &pieces, ..*c };
    let written = write(&stretch);
    let swims = written.swims();
    let new = !swims.is_empty()
        && swims.iter().any(|swim| swim.count > 1 || swim.length.amount != main.distance);
    if !new {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    let skipped: Vec<bool> = written.used.clone();
    let mut place = 0;
    for at in 0..c.len() {
        if at == old {
            candidate.used[at] = true;
            continue;
        }
        candidate.used[at] = skipped[place]
            || !matches!(
                c.pieces[at].item,
                Item::Figure(_) | Item::Repeat(..) | Item::Far(_) | Item::Span(_)
            );
        place += 1;
    }
    let parts = mains(written.parts);
    said(c, candidate, with_ends(c, parts.clone()), EditWhat::Instead, &parts, Scope::Main)
}

/// Parts without a name belong to the main part.
fn mains(parts: Vec<Part2>) -> Vec<Part2> {
    parts
        .into_iter()
        .map(|part| match part {
            Part2::One(mut swim) => {
                swim.part = swim.part.or(Some(Part::Main));
                Part2::One(swim)
            }
            rounds => rounds,
        })
        .collect()
}

/// The new set before the evening; during it the change alone.
fn said(
    c: &Clause<'_, '_>,
    candidate: Candidate,
    whole: Vec<Part2>,
    what: fn(TypedSet) -> EditWhat,
    parts: &[Part2],
    scope: Scope,
) -> Option<Candidate> {
    if c.sit.phase == Phase::During {
        let set = TypedSet { on: None, lines: lines(parts.to_vec())? };
        let edit = Edit { scope, lanes: vec![], names: vec![], what: what(set) };
        return Some(candidate.says(Kind::Change(vec![edit])).at_cost(0.5));
    }
    let set = TypedSet { on: None, lines: lines(whole)? };
    Some(candidate.says(Kind::Set(set)).at_cost(0.5))
}

/// Every line that is known, with its part.
fn base(c: &Clause<'_, '_>) -> Vec<Part2> {
    let Some(set) = &c.sit.set else { return vec![] };
    let last = set.lines.len() - 1;
    set.lines
        .iter()
        .enumerate()
        .map(|(at, line)| {
            known(
                line,
                if line.main {
                    Part::Main
                } else if at == last {
                    Part::SwimDown
                } else {
                    Part::WarmUp
                },
            )
        })
        .collect()
}

/// `make the swim down 100`, `no swim down`, `skip the last 200`, `cut the warm up`.
fn ends(c: &Clause<'_, '_>) -> Option<Candidate> {
    let set = c.sit.set.as_ref()?;
    let named = c.pieces.iter().position(|piece| {
        piece
            .sense(|sense| {
                matches!(sense, Sense::Part(Part::SwimDown | Part::WarmUp)).then_some(())
            })
            .is_some()
    });
    // `the last 200`
    let by_length = c.pieces.windows(2).position(|pair| pair[0].means(Concept::Last) && matches!(pair[1].item, Item::Figure(Figure::Whole { value, .. }) if set.lines.last().is_some_and(|line| line.distance == value && !line.main)));
    let at = named.or(by_length.map(|at| at + 1))?;
    let warm =
        c.pieces[at].sense(|sense| (*sense == Sense::Part(Part::WarmUp)).then_some(())).is_some();
    let mut candidate = Candidate::new("change", c.len());
    pass(c, &mut candidate);
    candidate.used[at] = true;
    if let Some(before) = by_length {
        candidate.used[before] = true;
    }
    let drops = c.pieces[..at]
        .iter()
        .any(|piece| piece.means(Concept::Skip) || matches!(piece.text, "no" | "sin"))
        && !c.pieces[..at].iter().any(|piece| {
            piece.text == "cut" && c.at(at + 1).is_some_and(|next| next.means(Concept::To))
        });
    let far =
        c.pieces.iter().enumerate().skip(if by_length.is_some() { at + 1 } else { 0 }).find_map(
            |(place, piece)| match piece.item {
                Item::Far(far) => Some((place, c.length(far)?)),
                Item::Figure(Figure::Whole { value, .. })
                    if super::writer::is_swum(value) && place != at =>
                {
                    Some((place, Length { amount: value, unit: None }))
                }
                _ => None,
            },
        );
    let repeats = c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(..)));
    let scope = if warm { Scope::WarmUp } else { Scope::SwimDown };
    if repeats {
        // `do the last 200 as 4x50 easy`
        if !c.has_any(&[Concept::Make, Concept::Swap, Concept::Instead, Concept::Skip])
            && !c.pieces.iter().any(|piece| matches!(piece.text, "as" | "for"))
        {
            return None;
        }
        let written = write(&Clause { pieces: &c.pieces[at + 1..], ..*c });
        let swims = written.swims();
        let (first, ..) = (swims.first()?,);
        if first.count < 2 {
            return None;
        }
        candidate.used[at + 1..].fill(true);
        let mut new = written.parts;
        let mut whole = base(c);
        if warm {
            whole.remove(0)
        } else {
            whole.pop()?
        };
        for part in &mut new {
            if let Part2::One(swim) = part {
                swim.part = Some(if drops {
                    Part::Main
                } else if warm {
                    Part::WarmUp
                } else {
                    Part::SwimDown
                });
            }
        }
        whole.extend(new.clone());
        return said(c, candidate, whole, EditWhat::Instead, &new, scope);
    }
    let what = match (drops, far) {
        (false, Some((place, far))) => {
            candidate.used[place] = true;
            EditWhat::Distance(far)
        }
        (true, _) => EditWhat::Drop,
        (false, None) => return None,
    };
    if !drops
        && !c.has_any(&[
            Concept::Make,
            Concept::Cut,
            Concept::Extra,
            Concept::Less,
            Concept::Instead,
            Concept::Skip,
        ])
    {
        return None;
    }
    for (place, piece) in c.pieces.iter().enumerate() {
        candidate.used[place] |= piece.means(Concept::Skip)
            || piece.text == "no"
            || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if set.lines.last().is_some_and(|line| line.distance == value));
    }
    if c.sit.phase == Phase::During {
        let edit = Edit { scope, lanes: vec![], names: vec![], what };
        return Some(candidate.says(Kind::Change(vec![edit])).at_cost(0.4));
    }
    let mut whole = base(c);
    let place = if warm { 0 } else { whole.len() - 1 };
    match what {
        EditWhat::Drop => drop(whole.remove(place)),
        EditWhat::Distance(far) => {
            if let Part2::One(swim) = &mut whole[place] {
                (swim.count, swim.length) = (1, far);
            }
        }
        _ => {}
    }
    let set = TypedSet { on: None, lines: lines(whole)? };
    Some(candidate.says(Kind::Set(set)).at_cost(0.5))
}

/// `add another 4x50 same turnaround`, `stick 4x25 fly in before the swim down`.
fn added(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    if !c.has_any(&[Concept::Add, Concept::Extra])
        && !c.pieces.iter().any(|piece| {
            matches!(
                piece.text,
                "after"
                    | "stick"
                    | "chuck"
                    | "throw"
                    | "despues"
                    | "agrega"
                    | "anade"
                    | "mete"
                    | "sumale"
            )
        })
    {
        return None;
    }
    let written = write(c);
    let swims = written.swims();
    let [first] = swims.as_slice() else { return None };
    let mut candidate = Candidate::new("change", c.len());
    let lanes = lanes(c, &mut candidate);
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= written.used[at]
            || !matches!(
                piece.item,
                Item::Figure(_) | Item::Repeat(..) | Item::Far(_) | Item::Person(_)
            );
    }
    if first.length.amount == main.distance
        && first.count > 1
        && first.is_bare()
        && c.sit.phase == Phase::During
    {
        let count = u16::try_from(main.count + first.count).ok()?;
        candidate.says = cuts(&lanes, |lane| Cut { lane, count: Some(count), ..Cut::default() });
        return Some(candidate.at_cost(0.4));
    }
    if first.count == 1 && !matches!(c.pieces[first.at].item, Item::Far(_) | Item::Figure(_)) {
        return None;
    }
    let parts = mains(written.parts.clone());
    let mut whole = base(c);
    let end = whole
        .iter()
        .rposition(|part| matches!(part, Part2::One(swim) if swim.part == Some(Part::SwimDown)))
        .unwrap_or(whole.len());
    let before_main = c.pieces.windows(3).any(|three| {
        three[0].text == "before" && (names_line(&three[1], main) || names_line(&three[2], main))
    });
    let place = if before_main {
        whole
            .iter()
            .position(|part| matches!(part, Part2::One(swim) if swim.part == Some(Part::Main)))
            .unwrap_or(end)
    } else {
        end
    };
    for (more, part) in parts.iter().enumerate() {
        whole.insert(place + more, part.clone());
    }
    let mut read = said(c, candidate, whole, EditWhat::Add, &parts, Scope::Rest)?;
    if let Some(Statement { kind: Kind::Change(edits), .. }) = read.says.first_mut() {
        edits.iter_mut().for_each(|edit| edit.lanes.clone_from(&lanes));
    }
    Some(read)
}

/// `last 2 all out`, `odds fast evens easy`, `pull for the last 4`, `lane 1 hold 40`.
fn part_of_it(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    if c.sit.phase != Phase::During {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    let lanes = lanes(c, &mut candidate);
    let names = names(c, &mut candidate);
    let mut scope = Scope::Main;
    let mut scoped = false;
    for (at, piece) in c.pieces.iter().enumerate() {
        // `los 2 ultimos`
        let counted = at.checked_sub(1).and_then(|before| c.at(before)).and_then(count_at);
        if piece.means(Concept::Last)
            && let Some(count) = counted.filter(|_| c.at(at + 1).and_then(count_at).is_none())
        {
            scope = Scope::LastRepeats(u16::try_from(count).ok()?);
            scoped = true;
            candidate.used[at - 1..=at].fill(true);
        } else if piece.means(Concept::Last)
            && let Some(count) = c.at(at + 1).and_then(count_at)
        {
            scope = Scope::LastRepeats(u16::try_from(count).ok()?);
            scoped = true;
            candidate.used[at..at + 2].fill(true);
        } else if piece.means(Concept::From)
            && let Some(Item::Ordinal(number)) = c.at(at + 1).map(|next| next.item)
        {
            scope = Scope::FromRepeat(u16::try_from(number).ok()?);
            scoped = true;
            candidate.used[at..at + 2].fill(true);
        } else if piece.means(Concept::Rest) || piece.means(Concept::All) {
            scope = Scope::Rest;
            scoped = true;
            candidate.used[at] = true;
        }
    }
    if c.has(Concept::Odd) && c.has(Concept::Even) {
        let level = |concept: Concept| {
            let at = c.find(concept)?;
            c.pieces[at + 1..].iter().take(2).find_map(|piece| {
                piece
                    .sense(|sense| match sense {
                        Sense::Level(level) => Some(*level),
                        _ => None,
                    })
                    .or(piece.means(Concept::Fast).then_some(Level::Sprint))
            })
        };
        let (odd, even) = (level(Concept::Odd)?, level(Concept::Even)?);
        candidate.used.fill(true);
        let edit = |scope, level| Edit {
            scope,
            lanes: lanes.clone(),
            names: names.clone(),
            what: EditWhat::Level(level),
        };
        return Some(
            candidate
                .says(Kind::Change(vec![edit(Scope::Odd, odd), edit(Scope::Even, even)]))
                .at_cost(0.4),
        );
    }
    let results = c.pieces.iter().filter(|piece| matches!(piece.item, Item::Figure(figure) if figure.whole().is_none_or(|value| value > 15)) || matches!(piece.item, Item::Each(_))).count();
    let mut what = None;
    for (at, piece) in c.pieces.iter().enumerate() {
        let kit = piece.sense(|sense| match sense {
            Sense::Kit(kit) => Some(*kit),
            _ => None,
        });
        let level = piece.sense(|sense| match sense {
            Sense::Level(level) => Some(*level),
            _ => None,
        });
        if let Some(kit) = kit {
            what = Some(EditWhat::Kit(vec![kit]));
        } else if let Some(stroke) = stroke_of(piece) {
            what = what.or(Some(EditWhat::Stroke(stroke)));
        } else if let Some(level) = level.filter(|_| scoped) {
            what = what.or(Some(EditWhat::Level(level)));
        } else {
            continue;
        }
        candidate.used[at] = true;
    }
    // `lane 1 hold 40`
    if let Some(at) = c
        .pieces
        .iter()
        .position(|piece| matches!(piece.text, "hold" | "target" | "aguanten" | "mantengan"))
        && let Some(Item::Figure(figure)) = c.at(at + 1).map(|next| next.item)
        && let Some(time) = c.time(figure, main.distance, main.stroke, None)
    {
        candidate.used[at..at + 2].fill(true);
        what = Some(EditWhat::Target(time));
        scoped = true;
    } else if results > 0 {
        return None;
    }
    let what = what?;
    let evoked = scoped
        || !lanes.is_empty() && c.len() <= 8
        || c.has_any(&[Concept::Make, Concept::Everyone, Concept::Swap]);
    if !evoked || !names.is_empty() && !scoped {
        return None;
    }
    pass(c, &mut candidate);
    let edit = Edit { scope, lanes, names, what };
    Some(candidate.says(Kind::Change(vec![edit])).at_cost(0.6))
}

/// `extra minute after the 4th`, `carry on`, `restart from no 4`, `move on`, `scrap the
/// rest`, `2 more then swim down`.
fn flow(c: &Clause<'_, '_>) -> Option<Candidate> {
    if c.sit.phase != Phase::During
        || c.pieces
            .iter()
            .any(|piece| matches!(piece.item, Item::Repeat(..) | Item::Each(_) | Item::Person(_)))
    {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    let lanes = lanes(c, &mut candidate);
    let say = |mut candidate: Candidate, scope: Scope, what: EditWhat, cost: f32| {
        candidate.used.fill(true);
        let edit = Edit { scope, lanes: lanes.clone(), names: vec![], what };
        Some(candidate.says(Kind::Change(vec![edit])).at_cost(cost))
    };
    let pause = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Span(time) if time.seconds() <= 600.0 => Some(time),
        Item::Word if piece.is(Sense::Unit(UnitWord::Minute)) => {
            Centis::from_whole_seconds(60).ok()
        }
        _ => None,
    });
    if let Some(pause) =
        pause.filter(|_| c.has_any(&[Concept::Extra, Concept::Pause]) && c.len() <= 12)
    {
        return say(candidate, Scope::Rest, EditWhat::Pause(pause), 0.6);
    }
    let small = c.len() <= 8;
    if c.has(Concept::Restart) && small {
        let from = c.pieces.iter().find_map(|piece| match piece.item {
            Item::Ordinal(number) => u16::try_from(number).ok(),
            _ => None,
        });
        return say(candidate, from.map_or(Scope::Main, Scope::FromRepeat), EditWhat::Restart, 0.5);
    }
    if c.has(Concept::Resume) && small {
        return say(candidate, Scope::Rest, EditWhat::Resume, 0.6);
    }
    let swim_down = c.pieces.iter().any(|piece| piece.is(Sense::Part(Part::SwimDown)));
    if (c.has(Concept::MoveOn)
        || swim_down && c.has(Concept::Then) && small
        || swim_down && c.pieces.iter().any(|piece| piece.text == "now"))
        && small
    {
        return say(candidate, Scope::Main, EditWhat::MoveOn, 0.6);
    }
    if c.has_any(&[Concept::Stopped, Concept::Skip])
        && (c.has(Concept::Rest) || c.has(Concept::Set) || !lanes.is_empty())
        && small
    {
        return say(candidate, Scope::Main, EditWhat::MoveOn, 0.7);
    }
    None
}

/// `only 20 mins left`, `they want us out by quarter to`, `we have to be out by 7.45`.
fn left(c: &Clause<'_, '_>) -> Option<Candidate> {
    let during = c.sit.phase == Phase::During;
    let others = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Repeat(..) | Item::Far(_) | Item::Each(_) | Item::Person(_))
    });
    if !during && c.sit.phase != Phase::Before || others || !lanes_named(c).is_empty() {
        return None;
    }
    let minutes = match until(c) {
        Some(end) => {
            let from = if during { c.sit.time } else { c.sit.starts? };
            let left = from.until(end).ok()?.total(jiff::Unit::Minute).ok()?;
            left.round() as i64
        }
        None if during && c.has_any(&[Concept::Left, Concept::LeftMin]) => {
            let span = c.pieces.iter().find_map(|piece| match piece.item {
                Item::Span(time) => Some(time.seconds() / 60.0),
                _ => None,
            });
            span? as i64
        }
        None => return None,
    };
    let minutes = u16::try_from(minutes).ok().filter(|minutes| (3..=180).contains(minutes))?;
    let mut candidate = Candidate::new("left", c.len());
    candidate.used.fill(true);
    let kind = match during {
        true => Kind::Cut(Cut { minutes_left: Some(minutes), ..Cut::default() }),
        false => Kind::Slot(Slot {
            days: vec![],
            starts: None,
            minutes: Some(minutes),
            lanes: None,
            on: Some(Day::Today),
            course: None,
        }),
    };
    Some(candidate.says(kind).at_cost(0.5))
}

/// The hour by which all must be out: `out by 7.45`, `out by quarter to`, `shuts at 8`.
fn until(c: &Clause<'_, '_>) -> Option<Time> {
    let ends = c.has_any(&[Concept::Out, Concept::Shut, Concept::Ended, Concept::LeaveEarly]);
    let at = (0..c.len()).position(|at| {
        let piece = &c.pieces[at];
        c.typed(at, at + 1).ends_with(" by")
            || matches!(piece.text, "by" | "antes" | "before" | "till" | "until")
            || piece.means(Concept::Until)
            || piece.means(Concept::At) && c.has_any(&[Concept::Shut, Concept::Ended])
    })?;
    if !ends {
        return None;
    }
    c.pieces[at + 1..].iter().take(3).enumerate().find_map(|(more, piece)| match piece.item {
        Item::TimeOfDay(hour, minute) => hour_of(c, hour, minute),
        Item::Figure(figure) if figure.whole().is_none() => {
            let (hour, minute) = figure.day_time()?;
            hour_of(c, hour, minute)
        }
        Item::Day(_) => {
            let typed = c.typed(at + 1 + more, at + 2 + more);
            let (hour, minute) = typed.split_once('.')?;
            hour_of(c, hour.parse().ok()?, minute.trim_end_matches('.').parse().ok()?)
        }
        _ => None,
    })
}

/// The hour of this evening, whichever half of the day was meant.
fn hour_of(c: &Clause<'_, '_>, hour: u8, minute: u8) -> Option<Time> {
    let from = if c.sit.phase == Phase::During { c.sit.time } else { c.sit.starts? };
    [hour, hour.checked_add(12)?]
        .into_iter()
        .filter_map(|hour| {
            Time::new(i8::try_from(hour).ok()?, i8::try_from(minute).ok()?, 0, 0).ok()
        })
        .find(|time| *time > from)
}

/// `how would you split them over 3 lanes`, `redo the lanes`, `lanes without swift`: the
/// lanes drawn anew.
fn drawn_anew(c: &Clause<'_, '_>) -> Option<Candidate> {
    if c.sit.role != Role::Coach || !c.has(Concept::Lane) || !c.has(Concept::Divide) {
        return None;
    }
    let without = c.find(Concept::Without);
    let people = c.people();
    if without.is_none() && !people.is_empty() {
        return None;
    }
    let mut candidate = Candidate::new("lanes", c.len());
    candidate.used.fill(true);
    let count = lane_count(c).map(|(_, count)| count);
    let names: Vec<Name> = people.into_iter().filter_map(|person| c.name(person)).collect();
    if !names.is_empty() {
        let kind = Kind::Absent { names, on: None };
        candidate.says.push(Statement { who: None, kind });
    }
    Some(candidate.says(Kind::Lanes { count }).at_cost(0.3))
}

/// `3 lanes tonight not 4`, `got a fifth lane`, `they took a lane from us`.
pub fn lanes_on(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if let Some(drawn) = drawn_anew(c) {
        return vec![drawn];
    }
    if c.sit.role != Role::Coach || is_question(c) || !c.people().is_empty() {
        return vec![];
    }
    let mut candidate = Candidate::new("lanes", c.len());
    let lane_word = c
        .pieces
        .iter()
        .any(|piece| piece.means(Concept::Lane) || matches!(piece.item, Item::Lanes(_)));
    if !lane_word
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(..) | Item::Far(_)))
    {
        return vec![];
    }
    let count = c.pieces.windows(2).find_map(|pair| match (&pair[0].item, &pair[1]) {
        (
            Item::Figure(Figure::Whole { value: value @ 1..=10, .. })
            | Item::Ordinal(value @ 2..=10),
            lane,
        ) if lane.means(Concept::Lane) => u8::try_from(*value).ok(),
        _ => None,
    });
    // `lanes 3 only tonight`
    let count = count.or_else(|| {
        let first = c.pieces.first()?;
        let (Item::Lanes(bits), true) = (first.item, c.at(1)?.means(Concept::Only)) else {
            return None;
        };
        let many = c.typed(0, 1).to_lowercase().starts_with("lanes") && bits.count_ones() == 1;
        many.then(|| u8::try_from(bits.trailing_zeros()).ok()).flatten()
    });
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= piece.means(Concept::Lane)
            || matches!(piece.item, Item::Lanes(_) | Item::Day(_))
            || piece.means(Concept::Lost)
            || piece.means(Concept::Gained)
            || piece.means(Concept::Only)
            || piece.means(Concept::Not)
            || piece.means(Concept::KitHave)
            || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if value <= 10)
            || matches!(piece.item, Item::Ordinal(_) | Item::Span(_));
    }
    let on = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.coming(named),
        _ => None,
    });
    // `only 3 lanes tonight`, said before it begins, is of the night as of any other.
    let ahead = on.is_some_and(|on| {
        on != crate::message::Day::Today || c.has(Concept::Only) && c.sit.phase != Phase::During
    });
    if let Some(count) = count {
        if ahead {
            let slot = crate::message::Slot {
                days: vec![],
                starts: None,
                minutes: None,
                lanes: Some(count),
                on,
                course: None,
            };
            return vec![candidate.says(Kind::Slot(slot)).at_cost(0.5)];
        }
        return vec![candidate.says(Kind::Lanes { count: Some(count) }).at_cost(0.5)];
    }
    // `got l4 back`
    let back = c.pieces.windows(2).find_map(|pair| match pair[0].item {
        Item::Lanes(bits) if bits.count_ones() == 1 && pair[1].means(Concept::Gained) => {
            u8::try_from(bits.trailing_zeros()).ok()
        }
        _ => None,
    });
    if let (Some(lane), true) = (back, c.len() <= 7) {
        let count = u8::try_from(c.sit.lanes.len()).map_or(lane, |lanes| lanes.max(lane));
        return vec![candidate.says(Kind::Lanes { count: Some(count) }).at_cost(0.5)];
    }
    // `they've just shut lane 1 on us`
    let one = |piece: &Piece<'_>| matches!(piece.item, Item::Lanes(bits) if bits.count_ones() == 1);
    let shut = c.has(Concept::Shut) && c.pieces.iter().any(one) && c.sit.phase == Phase::During;
    if (c.has(Concept::Lost) || shut) && c.len() <= 12 {
        let left = u8::try_from(c.sit.lanes.len()).ok().filter(|lanes| *lanes > 1);
        let kind = match left {
            Some(lanes) => Kind::Lanes { count: Some(lanes - 1) },
            None => Kind::LaneGone,
        };
        return vec![candidate.says(kind).at_cost(0.6)];
    }
    vec![]
}
