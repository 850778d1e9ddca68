//! Pieces put right by those beside them: what a sender takes back in the same breath,
//! figures that belong together, words that mean something else in their company.

use std::mem::discriminant;

use super::lexicon::{Concept, Sense};
use super::piece::{Clock, Figure, Item, Named, Piece, Pieces, Which};
use crate::message::Day;
use crate::units::Centis;

/// Puts a text's pieces right.
pub fn amend(pieces: &mut Vec<Piece<'_>>) {
    without_false_strokes(pieces);
    without_grand(pieces);
    without_tolerance(pieces);
    with_hundreds(pieces);
    with_days_joined(pieces);
    without_days_owned(pieces);
    with_minutes_apart(pieces);
    with_tenths_apart(pieces);
    with_people_first(pieces);
    without_taken_back(pieces);
}

/// `did 1800. since i got home a tight band round my chest, prob just the fly`: the parts of
/// a text that speak of a danger say nothing else, nor does what makes light of it, so that
/// their words cost no result beside them. A part that holds a result itself is left.
pub fn without_dangers(pieces: &mut [Piece<'_>], speaks: impl Fn(usize) -> bool) {
    let spoken = |piece: &Piece<'_>| speaks(piece.at.0);
    let parts = |piece: &Piece<'_>| {
        piece.ends_sentence()
            || piece.item == Item::Mark(',')
            || piece.means(Concept::But)
            || piece.means(Concept::And)
    };
    let tells = |piece: &Piece<'_>| match piece.item {
        Item::Figure(figure) => figure.whole().is_none_or(|value| value >= 25),
        Item::Far(_) | Item::Repeat(..) | Item::Each(_) | Item::OfAll(..) => true,
        _ => false,
    };
    for whole in pieces.split_inclusive_mut(Piece::ends_sentence) {
        if !whole.iter().any(spoken) {
            continue;
        }
        let mut silent = false;
        for part in whole.split_mut(parts) {
            silent = false;
            let light = part.iter().any(|piece| piece.means(Concept::Maybe));
            if (part.iter().any(spoken) || light) && !part.iter().any(tells) {
                part.iter_mut().for_each(silence);
                silent = true;
            }
        }
        // `is it indigestion?` asks for no more than it tells.
        if let Some(last) = whole.last_mut().filter(|last| silent && last.item == Item::Mark('?')) {
            last.item = Item::Picture;
        }
    }
}

/// Leaves a piece nothing to say but a pain, which is one beside a danger all the same, and
/// whose it is.
fn silence(piece: &mut Piece<'_>) {
    let ails = |sense: &Sense| {
        matches!(sense, Sense::Body(_) | Sense::Illness(_) | Sense::Word(Concept::Pain))
    };
    piece.senses.retain(ails);
    if piece.senses.is_empty() && !matches!(piece.item, Item::Person(_)) {
        piece.item = Item::Picture;
    }
}

/// `with his back`, `got lane 4 back`: no backstroke.
fn without_false_strokes(pieces: &mut [Piece<'_>]) {
    for at in 1..pieces.len() {
        let (before, here) = pieces.split_at_mut(at);
        let (Some(before), Some(here)) = (before.last(), here.first_mut()) else { continue };
        let owned = matches!(before.text, "my" | "his" | "her" | "their" | "your")
            || matches!(before.item, Item::Lanes(_));
        if here.text == "back" && owned {
            here.senses.retain(|sense| !matches!(sense, Sense::Stroke(_)));
        }
    }
}

/// `grand session`, `im grand`: good, and no thousand, unless it is counted.
fn without_grand(pieces: &mut [Piece<'_>]) {
    for at in 0..pieces.len() {
        let counts = |before: &Piece<'_>| {
            matches!(before.item, Item::Figure(_)) || before.means(Concept::Article)
        };
        let ends = |next: &Piece<'_>| matches!(next.item, Item::Mark(_)) || next.means(Concept::In);
        let before = at.checked_sub(1).and_then(|before| pieces.get(before));
        let counted = before.is_some_and(counts) && pieces.get(at + 1).is_none_or(ends);
        if let Some(grand) = pieces.get_mut(at).filter(|piece| piece.text == "grand" && !counted) {
            grand.item = Item::Word;
            grand.senses.retain(|sense| *sense == Sense::Word(Concept::Good));
        }
    }
}

/// `48±1`, `48 +/- 1`: how near they came says nothing more.
fn without_tolerance(pieces: &mut [Piece<'_>]) {
    for end in 2..=pieces.len() {
        let told = pieces.split_at_mut(end).0;
        let marks = match &*told {
            [.., sign, _] if sign.text == "\u{b1}" => 1,
            [.., plus, slash, minus, _]
                if [plus, slash, minus].map(|piece| piece.item)
                    == ['+', '/', '-'].map(Item::Mark) =>
            {
                3
            }
            _ => continue,
        };
        let small = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(figure) if figure.whole().is_some_and(|value| value <= 5));
        if told.last().is_some_and(small) {
            told.iter_mut().rev().take(marks + 1).for_each(|piece| {
                piece.item = Item::Picture;
                piece.senses.clear();
            });
        }
    }
}

/// `6:40 for the 4`, `the 2 in 3:05`: hundreds, beside a time that is one of theirs.
fn with_hundreds(pieces: &mut [Piece<'_>]) {
    /// Seconds a hundred, of anyone.
    const PACES: std::ops::RangeInclusive<u32> = 45..=240;
    let time = |piece: &Piece<'_>| match piece.item {
        Item::Figure(figure) if figure.whole().is_none() => {
            figure.times().first().map(|time| time.hundredths() / 100)
        }
        _ => None,
    };
    for at in 1..pieces.len() {
        let (before, rest) = pieces.split_at_mut(at);
        let Some((here, behind)) = rest.split_first_mut() else { continue };
        let Item::Figure(Figure::Whole { value: value @ (1 | 2 | 4 | 8), places: 1 }) = here.item
        else {
            continue;
        };
        if !before.last().is_some_and(|the| the.means(Concept::Article) && the.text != "a") {
            continue;
        }
        let before = match before {
            [.., time, word, _] if word.means(Concept::For) => Some(&*time),
            _ => None,
        };
        let behind = match behind {
            [word, time, ..] if word.means(Concept::In) => Some(&*time),
            _ => None,
        };
        let swum = before.into_iter().chain(behind).find_map(time);
        if swum.is_some_and(|swum| PACES.contains(&(swum / value))) {
            here.item = Item::Figure(Figure::Whole { value: value * 100, places: 3 });
        }
    }
}

/// `monday 30th`: one day, by its date.
fn with_days_joined(pieces: &mut Vec<Piece<'_>>) {
    // Of the two that it is asked about, it drops the one behind: the date takes the other's place.
    pieces.dedup_by(|date, weekday| {
        let joined = matches!(weekday.item, Item::Day(Named::Day(Day::On(_), Which::Plain)))
            && matches!(date.item, Item::Day(Named::OfMonth(_)));
        if joined {
            date.at.0 = weekday.at.0;
            std::mem::swap(date, weekday);
        }
        joined
    });
}

/// `food poisoning from last nights curry`: the day of something else.
fn without_days_owned(pieces: &mut [Piece<'_>]) {
    for at in 1..pieces.len() {
        let (before, here) = pieces.split_at_mut(at);
        let (Some(day), [here, rest @ ..]) = (before.last_mut(), here) else { continue };
        let owns = matches!(day.item, Item::Day(_)) && day.possessive;
        // `monday's arvo session`
        let session = rest.iter().take(2).any(|piece| piece.means(Concept::Session));
        if owns && !session && matches!(here.item, Item::Chatter | Item::Unknown) {
            day.item = Item::Chatter;
            day.senses.clear();
        }
    }
}

/// `on 1 45`, `saliendo a 2 15`, `media 1 44`: a minute and seconds typed apart, behind a
/// word that wants one time and with no further figure behind them; hour and minute behind
/// an arrival.
fn with_minutes_apart(pieces: &mut Vec<Piece<'_>>) {
    let wants = [Concept::SetTime, Concept::Average, Concept::SendOffWord];
    let late = pieces.iter().any(|piece| piece.means(Concept::Late));
    let mut at = 0;
    while let Some([first, second, rest @ ..]) = pieces.get(at..) {
        let before = at.checked_sub(1).and_then(|before| pieces.get(before));
        let behind = |concept: Concept| before.is_some_and(|before| before.means(concept));
        let listed = rest.first().is_some_and(|next| matches!(next.item, Item::Figure(_)));
        let joined = match (first.item, second.item) {
            // `llega 19 20`
            (
                Item::Figure(Figure::Whole { value: hour @ 5..=23, places: 1 | 2 }),
                Item::Figure(Figure::Whole { value: minute @ 0..=59, places: 2 }),
            ) if behind(Concept::Arrive) || late && !listed => {
                let time = u8::try_from(hour).ok().zip(u8::try_from(minute).ok());
                time.map(|(hour, minute)| Item::TimeOfDay(hour, minute))
            }
            (
                Item::Figure(Figure::Whole { value: minutes @ 1..=9, places: 1 }),
                Item::Figure(Figure::Whole { value: seconds @ 0..=59, places: 2 }),
            ) if wants.into_iter().any(behind) && !listed => {
                let time = Centis::new((minutes * 60 + seconds) * 100).ok();
                let clock = |time| Figure::Clock(Clock { time, tenths: false, day_time: None });
                time.map(|time| Item::Figure(clock(time)))
            }
            // `3 06.4`
            (
                Item::Figure(Figure::Whole { value: minutes @ 1..=9, places: 1 }),
                Item::Figure(Figure::Parted { whole: seconds @ 0..=59, parts, places, .. }),
            ) if !listed && second.text.find(['.', ',']) == Some(2) => {
                let parts = if places == 1 { parts * 10 } else { parts };
                let time = Centis::new((minutes * 60 + seconds) * 100 + parts).ok();
                let clock = |time| Figure::Clock(Clock { time, tenths: true, day_time: None });
                time.map(|time| Item::Figure(clock(time)))
            }
            _ => None,
        };
        if let Some(item) = joined {
            join(pieces, at, at + 1, item);
        }
        at += 1;
    }
}

/// Makes one piece of those from the `first` place to the `last`.
fn join<'t>(pieces: &mut Vec<Piece<'t>>, first: usize, last: usize, item: Item<'t>) {
    let Some([one, .., end]) = pieces.get_mut(first..=last) else { return };
    one.item = item;
    one.at.1 = end.at.1;
    pieces.drain(first + 1..=last);
}

/// `200 de hoy 3 11 8`, `50 al palo hice 39 8`: minutes, seconds and tenths typed apart, the
/// last figures of a text that names a distance.
fn with_tenths_apart(pieces: &mut Vec<Piece<'_>>) {
    let whole = |at: usize| match pieces.get(at).map(|piece| piece.item) {
        Some(Item::Figure(Figure::Whole { value, places: places @ 1.. })) => Some((value, places)),
        _ => None,
    };
    let far = |piece: &Piece<'_>| match piece.item {
        Item::Figure(Figure::Whole { value, .. }) => matches!(value, 50 | 100 | 200 | 400 | 800),
        Item::Far(_) => true,
        _ => false,
    };
    let figures: Vec<usize> = (0..pieces.len()).filter(|at| whole(*at).is_some()).collect();
    let (Some(last), true) = (figures.last().copied(), pieces.iter().any(far)) else { return };
    let Some((tenths, 1)) = whole(last) else { return };
    let Some((seconds @ 0..=99, 2)) = last.checked_sub(1).and_then(whole) else { return };
    let minutes = last
        .checked_sub(2)
        .and_then(whole)
        .filter(|(value, places)| (1..=9).contains(value) && *places == 1 && seconds < 60);
    // `8 50 39 8` is a list; a distance and no more stands before a time.
    let before = figures.len() - 2 - usize::from(minutes.is_some());
    let from = if minutes.is_some() { last - 2 } else { last - 1 };
    let apart = from.checked_sub(1).and_then(|at| pieces.get(at)).is_some_and(|one| !far(one));
    let told = before <= 1 && (minutes.is_some() || apart && seconds >= 20);
    let hundredths = (minutes.map_or(0, |(value, _)| value * 60) + seconds) * 100 + tenths * 10;
    if let (true, Ok(time)) = (told, Centis::new(hundredths)) {
        let clock = Figure::Clock(Clock { time, tenths: true, day_time: None });
        join(pieces, from, last, Item::Figure(clock));
    }
}

/// `4:01 for robin, 4:15 for plover`, `1:10 for lane 3 n 1:15 for lane 4`: of several people,
/// or lanes, that each stand behind their time, each is put before it.
fn with_people_first(pieces: &mut [Piece<'_>]) {
    with_first(pieces, |piece| matches!(piece.item, Item::Person(_)));
    with_first(pieces, |piece| matches!(piece.item, Item::Lanes(_)));
}

fn with_first(pieces: &mut [Piece<'_>], is_person: impl Fn(&Piece<'_>) -> bool) {
    let follows = |three: &[Piece<'_>; 3]| match three {
        [time, word, person] if is_person(person) => {
            (word.means(Concept::For) || matches!(word.text, "to" | "para"))
                && matches!(time.item, Item::Figure(figure) if figure.whole().is_none())
        }
        _ => false,
    };
    let people = pieces.iter().filter(|piece| is_person(piece)).count();
    let behind = pieces.array_windows().enumerate().filter(|(_, three)| follows(three));
    let behind: Vec<usize> = behind.map(|(from, _)| from).collect();
    if people > 1 && behind.len() == people {
        for from in behind {
            if let Some(three) = pieces.get_mut(from..from + 3) {
                three.rotate_right(1);
            }
        }
    }
}

/// `rook 3:19, no wait 3:17`, `lane 2 sorry lane 3`: of two alike about a word that takes
/// back, the first is not meant.
fn without_taken_back(pieces: &mut [Piece<'_>]) {
    let is_mark = |piece: &Piece<'_>| matches!(piece.item, Item::Mark(_) | Item::Line);
    for at in 1..pieces.len() {
        let row = Pieces(pieces);
        // `3:12 not 3:21` takes back the second; `no fueron 3:12 sino 3:21` says itself which
        // is wrong; `one oh two` is a time.
        let here = &row[at];
        let takes_back = here.means(Concept::Sorry) && !matches!(here.text, "oh" | "sino");
        if !takes_back || here.means(Concept::Instead) {
            continue;
        }
        let before = (0..at).rev().find(|place| !is_mark(&row[*place]));
        let after = (at + 1..row.len()).find(|place| !is_mark(&row[*place]));
        let (Some(before), Some(after)) = (before, after) else { continue };
        let counts = matches!(
            row[before].item,
            Item::Figure(_)
                | Item::Repeat(..)
                | Item::Far(_)
                | Item::Each(_)
                | Item::Person(_)
                | Item::Day(_)
                | Item::Lanes(_)
                | Item::TimeOfDay(..)
        );
        // `did 10 by mistake. 48 48 49`: no time for a count.
        let alike = match (row[before].item, row[after].item) {
            (Item::Figure(one), Item::Figure(other)) => match (one.whole(), other.whole()) {
                (Some(one), Some(other)) => one.max(other) <= one.min(other).saturating_mul(3),
                _ => true,
            },
            (one, other) => discriminant(&one) == discriminant(&other),
        };
        if counts && alike {
            for piece in pieces.iter_mut().take(after).skip(before) {
                piece.item = Item::Chatter;
                piece.senses.clear();
            }
        }
    }
}
