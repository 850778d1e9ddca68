//! Who swims where: moved, swapped, leading, drawn as the coach says; one lane
//! shown, and the gap they leave in.

use crate::message::{Kind, Name};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::mood;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Role;

/// Reads a stretch as who swims where.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let people = c.people();
    if c.sit.role == Role::Coach && people.is_empty() {
        return shown(c).or_else(|| gap(c)).into_iter().collect();
    }
    if c.sit.role != Role::Coach
        || people.is_empty()
        || mood::is_question(c) && !c.has(Concept::Can) && !mood::is_request(c)
    {
        return vec![];
    }
    let timed = c.pieces.iter().any(|piece| match piece.item {
        Item::Figure(figure) => figure.is_marked() || figure.whole().is_none_or(|value| value > 20),
        Item::Each(_) | Item::Repeat(..) | Item::Far(_) => true,
        _ => false,
    });
    if timed {
        return vec![];
    }
    let names: Vec<Name> = people.iter().filter_map(|person| c.name(*person)).collect();
    several(c)
        .or_else(|| drawn(c))
        .or_else(|| apart(c, &names))
        .or_else(|| swapped(c, &names))
        .or_else(|| order(c, &names))
        .or_else(|| moved(c, &names))
        .into_iter()
        .collect()
}

fn candidate(c: &Clause<'_, '_>) -> Candidate {
    let mut candidate = Candidate::new("lanes", c.len());
    candidate.used.fill(true);
    candidate
}

/// `L2`, `tonight L2`, `lane 2?`: one lane, and nothing else said of it.
fn shown(c: &Clause<'_, '_>) -> Option<Candidate> {
    let lane = lane(c)?;
    let bare = c.pieces.iter().all(|piece| {
        matches!(piece.item, Item::Lanes(_) | Item::Day(_) | Item::Mark(_))
            || matches!(piece.text, "show" | "the" | "for" | "tonight" | "targets" | "hoy")
    });
    bare.then(|| candidate(c).says(Kind::LaneOf { lane }).at_cost(0.3))
}

/// `leave 10 apart`, `10 s gaps`, `5 sec apart please`.
fn gap(c: &Clause<'_, '_>) -> Option<Candidate> {
    let apart = c.has(Concept::Apart) || c.pieces.iter().any(|p| matches!(p.text, "gap" | "gaps"));
    let seconds: Vec<u32> = c
        .pieces
        .iter()
        .filter_map(|piece| match piece.item {
            Item::Figure(figure) | Item::Each(figure) => figure.whole(),
            Item::Span(time) => Some(time.hundredths() / 100),
            _ => None,
        })
        .collect();
    let ([seconds @ (5 | 10)], true) = (seconds.as_slice(), apart && c.len() <= 8) else {
        return None;
    };
    let seconds = u8::try_from(*seconds).ok()?;
    Some(candidate(c).says(Kind::Gap { seconds }).at_cost(0.4))
}

/// `lane one swift finch kite lane two teal heron rook`.
fn drawn(c: &Clause<'_, '_>) -> Option<Candidate> {
    let mut lanes: Vec<(u8, Vec<Name>)> = Vec::new();
    for piece in c.pieces {
        match piece.item {
            Item::Lanes(bits) => lanes.push((u8::try_from(bits.trailing_zeros()).ok()?, vec![])),
            Item::Person(person) => lanes.last_mut()?.1.push(c.name(person)?),
            _ => {}
        }
    }
    let full = lanes.iter().filter(|(_, names)| !names.is_empty()).count();
    (full > 1 && full == lanes.len())
        .then(|| candidate(c).says(Kind::DrawnAs { lanes }).at_cost(0.3))
}

/// `keep dunnock and lark apart`.
fn apart(c: &Clause<'_, '_>, names: &[Name]) -> Option<Candidate> {
    let apart = c.has(Concept::Apart);
    if names.len() < 2 || !apart && !c.has(Concept::Together) {
        return None;
    }
    Some(candidate(c).says(Kind::Apart { names: names.to_vec(), apart }).at_cost(0.3))
}

/// `swap heron and rook`.
fn swapped(c: &Clause<'_, '_>, names: &[Name]) -> Option<Candidate> {
    let [one, other] = names else { return None };
    let results = c.has_any(&[Concept::Test, Concept::Held])
        && c.pieces
            .iter()
            .any(|piece| matches!(piece.text, "times" | "tiempos" | "results" | "time"));
    // `rook and dunnock are swapped, rook 3:29, dunnock 3:18`: their times were.
    let timed =
        |piece: &Piece<'_>| matches!(piece.item, Item::Figure(figure) if figure.is_marked());
    // `cambia a dunnock por rook`
    let crossed = c.has(Concept::Move)
        && c.pieces.array_windows::<3>().any(|[one, by, other]| {
            let both = [one, other].iter().all(|one| matches!(one.item, Item::Person(_)));
            both && by.means(Concept::For)
        });
    if !c.has(Concept::Swap) && !crossed && !results || c.all.iter().any(timed) {
        return None;
    }
    if results {
        let swaps = c.has(Concept::Swap)
            || c.pieces
                .iter()
                .any(|piece| matches!(piece.text, "wrong" | "mixed" | "round" | "other"));
        return swaps.then(|| {
            candidate(c)
                .says(Kind::SwapResults {
                    names: [one.clone(), other.clone()],
                    on: None,
                    distance: None,
                })
                .at_cost(0.4)
        });
    }
    Some(candidate(c).says(Kind::SwapLanes { names: [one.clone(), other.clone()] }).at_cost(0.3))
}

fn lane(c: &Clause<'_, '_>) -> Option<u8> {
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Lanes(bits) if bits.count_ones() == 1 => u8::try_from(bits.trailing_zeros()).ok(),
        _ => None,
    })
}

/// `lane 1 go teal swift finch`, `dunnock leading lane 3, wren 2nd lark 3rd`.
fn order(c: &Clause<'_, '_>, names: &[Name]) -> Option<Candidate> {
    let lane = lane(c);
    let leads = c.has(Concept::Lead)
        || c.pieces
            .iter()
            .any(|piece| matches!(piece.item, Item::Ordinal(2..=6)) && !piece.means(Concept::Last));
    let goes = lane.is_some()
        && names.len() > 1
        && c.pieces.first().is_some_and(|piece| matches!(piece.item, Item::Lanes(_)));
    if !leads && !goes {
        return None;
    }
    Some(candidate(c).says(Kind::LaneOrder { lane, names: names.to_vec() }).at_cost(0.5))
}

/// `heron to lane 1 teal down to 2`: each with the lane behind the name.
fn several(c: &Clause<'_, '_>) -> Option<Candidate> {
    if !moves_twice(c) {
        return None;
    }
    let mut moves: Vec<(Vec<Name>, u8)> = Vec::new();
    let mut waiting: Vec<Name> = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let lane = match piece.item {
            Item::Person(person) => {
                waiting.push(c.name(person)?);
                continue;
            }
            Item::Lanes(bits) if bits.count_ones() == 1 => u8::try_from(bits.trailing_zeros()).ok(),
            Item::Figure(Figure::Whole { value: value @ 1..=10, .. })
                if at > 0
                    && (c.pieces[at - 1].means(Concept::To)
                        || c.pieces[at - 1].means(Concept::Move)
                        || matches!(c.pieces[at - 1].text, "in" | "up" | "down")) =>
            {
                u8::try_from(value).ok()
            }
            Item::Figure(_) | Item::Lanes(_) => return None,
            _ => continue,
        };
        moves.push((std::mem::take(&mut waiting), lane?));
    }
    let whole = waiting.is_empty() && moves.iter().all(|(names, _)| !names.is_empty());
    if !whole || moves.len() < 2 {
        return None;
    }
    let mut read = candidate(c);
    for (names, lane) in moves {
        read = read.says(Kind::Move { names, lane: Some(lane), by: 0 });
    }
    Some(read.at_cost(0.3))
}

/// True for `robin up to lane 3, lark down to 4`: two moves, each a stretch of its own.
fn moves_twice(c: &Clause<'_, '_>) -> bool {
    let goes = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Lanes(_) | Item::Figure(_))
            || piece.means(Concept::Up)
            || piece.means(Concept::Down)
    };
    let is_person = |piece: &Piece<'_>| matches!(piece.item, Item::Person(_));
    let Some(first) = c.pieces.iter().position(is_person) else { return false };
    let Some(went) = c.pieces[first..].iter().position(goes) else { return false };
    // Whoever stands behind a place belongs to what comes next.
    c.pieces[first + went..].iter().any(is_person)
}

/// True where somebody goes `up` or `down`: a lane, to a lane, or just so. `robin down as
/// absent`, `her head is up every stroke` move nobody.
fn shifts(c: &Clause<'_, '_>, way: Concept) -> bool {
    c.pieces.iter().enumerate().any(|(at, piece)| {
        let behind = c.pieces[at + 1..].iter().find(|next| !next.means(Concept::Article));
        let goes = behind.is_none_or(|next| {
            matches!(
                next.item,
                Item::Mark(_)
                    | Item::Line
                    | Item::Picture
                    | Item::Lanes(_)
                    | Item::Figure(_)
                    | Item::Day(_)
                    | Item::Person(_)
            ) || [
                Concept::Lane,
                Concept::One,
                Concept::To,
                Concept::For,
                Concept::In,
                Concept::And,
                Concept::Please,
                Concept::With,
                Concept::Because,
                Concept::Then,
            ]
            .iter()
            .any(|one| next.means(*one))
        });
        piece.means(way) && goes && (at == 0 || c.pieces[at - 1].text != "heads")
    })
}

/// `wren up to 2`, `bump heron to lane 1`, `plover n robin down one`.
fn moved(c: &Clause<'_, '_>, names: &[Name]) -> Option<Candidate> {
    // `finch out, cramp. lane 1 down to two`: the lane is of another sentence.
    let person = c.pieces.iter().rposition(|piece| matches!(piece.item, Item::Person(_)));
    let lane_at = c.pieces.iter().position(|piece| matches!(piece.item, Item::Lanes(_)));
    let apart = person.zip(lane_at).is_some_and(|(person, lane)| {
        person < lane && c.pieces[person..lane].iter().any(|piece| piece.item == Item::Mark('.'))
    });
    if moves_twice(c) || apart {
        return None;
    }
    let by_lane = lane(c);
    let bare = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Figure(Figure::Whole { value: value @ 1..=10, .. })
            if at > 0
                && (c.pieces[at - 1].means(Concept::To)
                    || matches!(c.pieces[at - 1].text, "in" | "into" | "to" | "la" | "al")) =>
        {
            u8::try_from(value).ok()
        }
        _ => None,
    });
    let (up, down) = (shifts(c, Concept::Up), shifts(c, Concept::Down));
    let moves = c.has(Concept::Move) || up || down;
    let by: i8 = if up {
        -1
    } else if down {
        1
    } else {
        0
    };
    let lane = by_lane.or(bare);
    // `pon a rook con dunnock`: into the lane of the one behind `with`.
    if let (None, true, [one, others @ ..]) = (lane, moves, c.people().as_slice())
        && let Some(other) = others.first()
        && let Some(at) = c.pieces.iter().position(|piece| piece.item == Item::Person(*other))
        && at > 0
        && c.pieces[at - 1].means(Concept::With)
        && let Some(lane) =
            c.sit.lanes.iter().position(|lane| others.iter().all(|other| lane.contains(other)))
    {
        let names = c.name(*one).into_iter().collect();
        let lane = u8::try_from(lane + 1).ok();
        return Some(candidate(c).says(Kind::Move { names, lane, by: 0 }).at_cost(0.4));
    }
    let bare_lane = by_lane.is_some()
        && c.pieces.iter().all(|piece| {
            matches!(
                piece.item,
                Item::Person(_) | Item::Lanes(_) | Item::Mark(_) | Item::Day(_) | Item::Picture
            ) || piece.means(Concept::And)
                || matches!(piece.text, "in" | "to" | "for")
        });
    // `robin plover puffin into 3`
    let bare_number = bare.is_some()
        && c.pieces.iter().all(|piece| {
            matches!(piece.item, Item::Person(_) | Item::Mark(_) | Item::Figure(_))
                || piece.means(Concept::And)
                || piece.means(Concept::To)
        });
    if !moves && !bare_lane && !bare_number || lane.is_none() && by == 0 {
        return None;
    }
    let words =
        c.pieces.iter().filter(|piece| matches!(piece.item, Item::Chatter | Item::Unknown)).count();
    Some(
        candidate(c)
            .says(Kind::Move {
                names: names.to_vec(),
                lane,
                by: if lane.is_some() { 0 } else { by },
            })
            .at_cost(0.4 + words as f32 * 0.05),
    )
}
