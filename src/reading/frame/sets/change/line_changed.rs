//! A line beside the main one, or the warm-up or swim-down: longer, shorter, swum otherwise,
//! or left out.

use super::lanes_and_names::{lanes, pass, pieces_without};
use super::line_meant::{Meant, line_meant};
use super::reasons::{of_another_day, reasons};
use super::replaced::base;
use crate::message::{Edit, EditWhat, Kind, Length, TypedSet};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::stroke_of;
use crate::reading::frame::mood::is_question;
use crate::reading::frame::sets::item::Swim;
use crate::reading::frame::sets::writer::{WrittenPart, is_swum, lines, write};
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Far, Figure, Item, Piece, Pieces};
use crate::reading::situation::{Phase, SetInForce};
use crate::session::{Part, Scope};
use crate::units::Level;

/// `make the swim down 100`, `no swim down`, `skip the second 200, make it 100`, `the last
/// 200 as 4x50 back`, `drop the kick`.
pub fn line_changed(c: &Clause<'_, '_>) -> Option<Candidate> {
    let set = c.sit.set.as_ref()?;
    let meant = line_meant(c, set)?;
    let last = meant.said.iter().max().copied()?;
    if is_kept(c, &meant) {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    pass(c, &mut candidate);
    let lanes = lanes(c, &mut candidate);
    meant.said.iter().for_each(|at| candidate.used[*at] = true);
    let (becomes, end) = match otherwise(c, &meant, &mut candidate) {
        Some(new) => (Becomes::Instead(new), c.len()),
        None => {
            let (becomes, end) = changed(c, set, &meant, &mut candidate)?;
            (becomes, end.max(last) + 1)
        }
    };
    if of_another_day(c, end) {
        return None;
    }
    reasons(c, &mut candidate, end);
    // For some of the lanes it can't be written as another set.
    if c.sit.phase == Phase::During || !lanes.is_empty() {
        let edit = |what| Edit { scope: meant.scope, lanes: lanes.clone(), names: vec![], what };
        let edits = becomes.edits()?.into_iter().map(edit).collect();
        return Some(candidate.says(Kind::Change(edits)).at_cost(-0.2));
    }
    let mut whole = base(c);
    becomes.write_into(&mut whole, &meant)?;
    let set = TypedSet { on: None, lines: lines(whole)?, lanes: vec![] };
    (!set.lines.is_empty()).then(|| candidate.says(Kind::Set(set)).at_cost(0.2))
}

/// `keep the warm up`, `swim down as usual`: it stays.
fn is_kept(c: &Clause<'_, '_>, meant: &Meant) -> bool {
    if is_put_at(c, meant) {
        return false;
    }
    let stays = |piece: &Piece<'_>| {
        let word = Hint::Stays.is(piece.text);
        word && piece.at.1 - piece.at.0 == 1 && !piece.means(Concept::Skip)
    };
    meant.said.iter().any(|at| {
        let near = at.saturating_sub(3)..(at + 3).min(c.len());
        c.pieces[near].iter().any(stays)
    })
}

/// `leave the warm up at 300`, `deja el calentamiento en 300`: that is what it becomes.
fn is_put_at(c: &Clause<'_, '_>, meant: &Meant) -> bool {
    let to = |piece: &Piece<'_>| {
        [Concept::At, Concept::To, Concept::In].iter().any(|one| piece.means(*one))
    };
    let far = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(_) | Item::Far(_));
    meant.said.iter().any(|at| c.at(at + 1).is_some_and(to) && c.at(at + 2).is_some_and(far))
}

/// What becomes of a line.
enum Becomes {
    /// This, in its place.
    Instead(Vec<WrittenPart>),
    /// It is swum otherwise, or not at all.
    Changed(Vec<EditWhat>),
}

impl Becomes {
    fn edits(self) -> Option<Vec<EditWhat>> {
        Some(match self {
            Becomes::Instead(new) => {
                let set = TypedSet { on: None, lines: lines(new)?, lanes: vec![] };
                vec![EditWhat::Instead(set)]
            }
            Becomes::Changed(whats) => whats,
        })
    }

    /// Writes it into the lines that are known.
    fn write_into(self, whole: &mut Vec<WrittenPart>, meant: &Meant) -> Option<()> {
        let lines = meant.lines.clone();
        let whats = match self {
            Becomes::Instead(new) => {
                drop(whole.splice(lines, new));
                return Some(());
            }
            Becomes::Changed(whats) => whats,
        };
        for what in whats {
            if what == EditWhat::Drop && !lines.is_empty() {
                drop(whole.drain(lines.clone()));
                continue;
            }
            for part in whole.get_mut(lines.clone())? {
                let WrittenPart::One(swim) = part else { return None };
                match &what {
                    EditWhat::Distance(far) => {
                        swim.length = *far;
                        // What they leave on was for the other distance.
                        swim.send_off = None;
                    }
                    EditWhat::Stroke(stroke) => swim.stroke = Some(*stroke),
                    EditWhat::Kit(kit) => swim.kit.clone_from(kit),
                    _ => return None,
                }
            }
        }
        Some(())
    }
}

/// `do the last 200 as 4x50 easy`: other repeats in its place.
fn otherwise(
    c: &Clause<'_, '_>,
    meant: &Meant,
    candidate: &mut Candidate,
) -> Option<Vec<WrittenPart>> {
    let told = [Concept::Make, Concept::Swap, Concept::Instead, Concept::Skip];
    let told = c.has_any(&told) || c.pieces.iter().any(|piece| matches!(piece.text, "as" | "for"));
    let repeats = |(at, piece): (usize, &Piece<'_>)| {
        !meant.said.contains(&at) && matches!(piece.item, Item::Repeat(..))
    };
    let repeat = c.pieces.iter().enumerate().position(repeats)?;
    // `make the 8x50 10x50, there is time after the warm up` is of something else.
    let (first, last) = (meant.said.iter().min()?, meant.said.iter().max()?);
    let instead =
        c.pieces[first.saturating_sub(3)..*first].iter().any(|piece| piece.means(Concept::Instead));
    if !told || repeat < *last && !instead {
        return None;
    }
    // Without what names the line, what is written is the new one.
    let rest = pieces_without(c, |at| meant.said.contains(&at));
    let written = write(&Clause { pieces: Pieces(&rest), question: None, ..*c });
    if written.swims().first()?.count < 2 {
        return None;
    }
    let part = if skips(c, meant) { Part::Main } else { part_of(meant) };
    let new = written.parts.into_iter().map(|one| match one {
        WrittenPart::One(mut swim) => {
            swim.part = Some(part);
            WrittenPart::One(swim)
        }
        rounds => rounds,
    });
    candidate.used.fill(true);
    Some(new.collect())
}

/// The part that what stands in a line's place belongs to.
fn part_of(meant: &Meant) -> Part {
    match meant.scope {
        Scope::WarmUp => Part::WarmUp,
        Scope::SwimDown => Part::SwimDown,
        _ => Part::Main,
    }
}

/// True where the line is left out: a word for it stands before.
fn skips(c: &Clause<'_, '_>, meant: &Meant) -> bool {
    let first = meant.said.iter().min().copied().unwrap_or(0);
    let to = |at: usize| c.at(at).is_some_and(|next| next.means(Concept::To));
    let denies = |piece: &Piece<'_>| matches!(piece.text, "no" | "sin");
    c.pieces[..first].iter().enumerate().any(|(at, piece)| {
        let near = first - at <= 3;
        let shortens = piece.text == "cut" && meant.said.iter().any(|at| to(at + 1));
        (piece.means(Concept::Skip) || denies(piece)) && (near || !denies(piece)) && !shortens
    })
}

/// What becomes of the line, and the last piece that says so.
fn changed(
    c: &Clause<'_, '_>,
    set: &SetInForce,
    meant: &Meant,
    candidate: &mut Candidate,
) -> Option<(Becomes, usize)> {
    let is_drop = skips(c, meant);
    let known = set.lines.get(meant.lines.clone())?;
    let old = match known {
        [line] if line.count == 1 => Some(line.distance),
        _ => None,
    };
    let mut far = None;
    let mut other = false;
    for (at, piece) in c.pieces.iter().enumerate().filter(|(at, _)| !meant.said.contains(at)) {
        let before = |concept: Concept| at > 0 && c.pieces[at - 1].means(concept);
        let denied = before(Concept::Instead) || before(Concept::Not);
        // `stop after the sixth fifty`: one of several.
        if at > 0 && matches!(c.pieces[at - 1].item, Item::Ordinal(_)) {
            return None;
        }
        let length = match piece.item {
            // `10 min` is no length.
            Item::Far(far @ (Far::Of(..) | Far::Lengths(_))) => c.length(far),
            Item::Figure(Figure::Whole { value, .. }) if is_swum(value) => {
                Some(Length { amount: value, unit: None })
            }
            // `que nos sacan a menos cinco`
            Item::Figure(Figure::Whole { value: ..=40, .. }) => None,
            Item::Figure(_) | Item::Each(_) | Item::Range(..) | Item::OfAll(..) => {
                other = true;
                None
            }
            Item::Far(_) | Item::Repeat(..) => {
                other = true;
                None
            }
            _ => None,
        };
        let Some(length) = length else { continue };
        candidate.used[at] = true;
        if Some(length.amount) != old && !denied {
            far = Some((at, by_more(c, at, old, length)?));
        }
    }
    if other {
        return None;
    }
    let asked = [
        Concept::Make,
        Concept::Cut,
        Concept::Extra,
        Concept::Less,
        Concept::Instead,
        Concept::Skip,
        Concept::Swap,
        Concept::Want,
        Concept::Add,
        Concept::Shorter,
    ];
    // `swim down just 100`, `warm up 400`: nothing but the line and how far.
    let alone = || {
        let little = |piece: &Piece<'_>| {
            matches!(piece.item, Item::Chatter | Item::Mark(_) | Item::Day(_) | Item::Lanes(_))
                || [Concept::Only, Concept::To, Concept::For, Concept::Article, Concept::Aux]
                    .iter()
                    .any(|one| piece.means(*one))
        };
        let said = |at: &usize| meant.said.contains(at) || candidate.used[*at];
        (0..c.len()).all(|at| said(&at) || little(&c.pieces[at])) && !is_question(c)
    };
    let evoked = c.has_any(&asked) || far.is_some() && (alone() || is_put_at(c, meant));
    let way = c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let what = match (piece.kit(), stroke_of(piece)) {
            (Some(kit), _) => EditWhat::Kit(vec![kit]),
            (None, Some(stroke)) => EditWhat::Stroke(stroke),
            (None, None) => return None,
        };
        (!meant.said.contains(&at)).then_some((at, what))
    });
    let mut whats = Vec::new();
    let mut end = 0;
    match far.filter(|_| evoked) {
        Some((at, far)) => {
            end = at;
            whats.push(EditWhat::Distance(far));
        }
        None if is_drop => whats.push(EditWhat::Drop),
        None => {}
    }
    if let (Some((at, what)), true, false) = (way, evoked, whats == [EditWhat::Drop]) {
        candidate.used[at] = true;
        end = end.max(at);
        whats.push(what);
    }
    candidate.used.mark(c.pieces, |piece| {
        let little = [Concept::Skip, Concept::Swap, Concept::For, Concept::To, Concept::Extra];
        piece.text == "no" || little.iter().any(|one| piece.means(*one))
    });
    // `200 easy` says no more than that it is the line that it is.
    candidate.used.mark(c.pieces, |piece| piece.level().is_some());
    if let (Some(EditWhat::Distance(far)), None) = (whats.first(), old) {
        // `make the warm up 300`, where it was several swims.
        let mut swim = Swim::new(1, *far, 0);
        (swim.part, swim.level) = (Some(part_of(meant)), Some(Level::Easy));
        return Some((Becomes::Instead(vec![WrittenPart::One(swim)]), end));
    }
    (!whats.is_empty()).then_some((Becomes::Changed(whats), end))
}

/// A length, or so much more or less than before: `100 less`, `an extra 100`.
fn by_more(c: &Clause<'_, '_>, at: usize, old: Option<u32>, length: Length) -> Option<Length> {
    let near = |concept: Concept| {
        at > 0 && c.pieces[at - 1].means(concept)
            || c.at(at + 1).is_some_and(|next| next.means(concept))
    };
    let amount = match old {
        Some(old) if near(Concept::Extra) => old.checked_add(length.amount)?,
        Some(old) if near(Concept::Less) => {
            old.checked_sub(length.amount).filter(|left| *left > 0)?
        }
        _ => length.amount,
    };
    Some(Length { amount, ..length })
}
