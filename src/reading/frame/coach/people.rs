//! Who joins, who leaves, who is entered for what.

use crate::message::{Day, Entry, Guess, Kind, Length, Name, People, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::{stroke_of, typed};
use crate::reading::frame::mood;
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Role;
use crate::units::Stroke;

/// Reads a stretch as somebody who comes to the squad, leaves it, or is entered.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role != Role::Coach {
        return vec![];
    }
    let mut read = Vec::new();
    // `a new lady called linnet, put her in lane 4?`
    let introduced = c.pieces.iter().any(|piece| matches!(piece.text, "called" | "named"));
    if !mood::is_question(c) || introduced && !mood::opens_question(c) {
        read.extend(added(c));
    }
    if mood::is_question(c) {
        return read;
    }
    read.extend(leaves(c));
    read.extend(entered(c));
    read
}

/// `a new swimmer joins us tonight: siskin`, `visitor next wed, curlew, 2:35`.
fn added(c: &Clause<'_, '_>) -> Option<Candidate> {
    let comes = c.has_any(&[Concept::Guest, Concept::Join, Concept::New, Concept::Called])
        || c.pieces.iter().any(|piece| Hint::NewMember.is(piece.text));
    if !comes {
        return None;
    }
    // An unknown word or one that is written large, where a name stands.
    let mut names: Vec<(usize, Name)> = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let word = matches!(piece.item, Item::Chatter | Item::Unknown | Item::Marked(_));
        if word
            && may_be_name(c, at)
            && let Ok(name) = Name::new(c.typed(at, at + 1).trim_start_matches('@'))
        {
            names.push((at, name));
        }
    }
    // `name of linnet, says she swims`: the one that is called so.
    if names.iter().any(|(at, _)| is_called(c, *at)) {
        let mut before = 0;
        names.retain(|(at, _)| {
            let joined = before > 0
                && c.pieces[before + 1..*at].iter().all(|piece| piece.means(Concept::And));
            let kept = is_called(c, *at) || joined;
            if kept {
                before = *at;
            }
            kept
        });
    }
    let subject = names.is_empty().then(|| subject(c)).flatten();
    if let Some(one) = subject {
        let name = Name::new(c.typed(one, one + 1)).ok()?;
        let says = Kind::People(People::Add { name, guess: guess(c, one) });
        let mut candidate = Candidate::new("add", c.len());
        candidate.used.fill(true);
        // An ordinary word may be somebody's name, or none.
        let says = vec![Statement { who: None, kind: says }];
        return Some(candidate.asking_whether(says).at_cost(0.6));
    }
    if names.is_empty() {
        return None;
    }
    let mut candidate = Candidate::new("add", c.len());
    candidate.used.fill(true);
    let count = names.len();
    for (at, name) in names {
        let guess = guess(c, if count == 1 { 0 } else { at });
        candidate
            .says
            .push(Statement { who: None, kind: Kind::People(People::Add { name, guess }) });
    }
    Some(candidate.at_cost(0.6))
}

/// True where a word stands as a name does: behind `called`, a colon or `is`, at the end of
/// what is said or before a time, or written large.
fn may_be_name(c: &Clause<'_, '_>, at: usize) -> bool {
    let before = at.checked_sub(1).and_then(|before| c.at(before));
    let stands = before.is_some_and(|before| {
        matches!(before.item, Item::Mark(':' | ',')) || matches!(before.text, "of" | "is" | "add")
    }) || c.typed(at, at + 1).starts_with(char::is_uppercase) && at > 0;
    let next = c.at(at + 1);
    let timed = next.is_some_and(|next| {
        let parted = |figure: Figure| matches!(figure, Figure::Parted { .. });
        matches!(next.item, Item::Figure(figure) if figure.is_marked() || parted(figure))
    });
    let ends = next.is_none_or(|next| {
        matches!(next.item, Item::Mark(_) | Item::Figure(_))
            || next.means(Concept::And)
            || matches!(next.text, "she" | "he" | "about" | "who" | "swims" | "does")
    });
    stands && ends || timed || is_called(c, at)
}

/// `called siskin`, `name of linnet`, `call him osprey`
fn is_called(c: &Clause<'_, '_>, at: usize) -> bool {
    let called = |before: usize| c.pieces[before].means(Concept::Called);
    let near = at.checked_sub(1).is_some_and(called);
    let little = |before: usize| matches!(c.pieces[before].text, "of" | "is" | ":" | "es");
    near || at.checked_sub(2).is_some_and(called) && little(at - 1)
}

/// `gannet coming monday as a guest`, `osprey wants to join`: the word of which it is said.
fn subject(c: &Clause<'_, '_>) -> Option<usize> {
    // `put tern down as a guest`, `add tern as a guest`
    let put = |piece: &Piece<'_>| matches!(piece.text, "put" | "add" | "get" | "pon" | "apunta");
    let word =
        |at: usize| c.at(at).is_some_and(|p| matches!(p.item, Item::Chatter | Item::Unknown));
    let told = c.pieces.iter().position(put).map(|at| at + 1).filter(|at| word(*at));
    let goes_on = |at: usize| {
        c.at(at + 1).is_some_and(|next| matches!(next.text, "down" | "as" | "in" | "de" | "como"))
    };
    if let Some(at) = told.filter(|at| c.has(Concept::Guest) && goes_on(*at)) {
        return Some(at);
    }
    // `new girl pipit starting monday`
    let newcomer = c.find(Concept::Guest).map(|at| at + 1).filter(|at| word(*at));
    let begins = [Concept::Come, Concept::PerhapsCome, Concept::Started, Concept::Is];
    let comes = |next: &Piece<'_>| {
        begins.iter().any(|one| next.means(*one)) || matches!(next.text, "starting" | "coming")
    };
    if let Some(at) = newcomer.filter(|at| c.at(at + 1).is_some_and(comes)) {
        return Some(at);
    }
    let first = mood::opening(c);
    let is_word = matches!(c.at(first)?.item, Item::Chatter | Item::Unknown);
    let says = [Concept::Come, Concept::Want, Concept::Join, Concept::Is, Concept::Will];
    let verb = c.at(first + 1)?;
    let joins = c.has_any(&[Concept::Guest, Concept::Join]);
    (is_word && joins && says.iter().any(|one| verb.means(*one))).then_some(first)
}

/// The first time behind a place, over the distance it is said of.
fn guess(c: &Clause<'_, '_>, from: usize) -> Option<Guess> {
    let distance = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Figure(Figure::Whole { value: value @ (100 | 200 | 400), .. }) => Some(value),
        Item::Far(far) => c.length(far).map(|length| length.amount),
        _ => None,
    });
    let time = c.pieces[from..].iter().find_map(|piece| match piece.item {
        Item::Figure(figure) if figure.is_marked() || matches!(figure, Figure::Parted { .. }) => {
            figure.times().first().copied()
        }
        _ => None,
    })?;
    // Without a word of how far, it is the distance that the squad is tested over.
    let amount = distance.unwrap_or(if time.seconds() > 150.0 { 200 } else { 100 });
    Some(Guess { distance: Some(Length { amount, unit: None }), time: typed(time, false) })
}

/// `rook is leaving us`, `take dunnock off the list`.
fn leaves(c: &Clause<'_, '_>) -> Option<Candidate> {
    let [person] = c.people()[..] else { return None };
    let texts: Vec<&str> = c.pieces.iter().map(|piece| piece.text).collect();
    let has = |word: &str| texts.contains(&word);
    let off_list = (has("off") || has("from") || c.has(Concept::Strike))
        && (has("list") || has("squad") || has("group") || has("lista"));
    let leaving = has("us") && (has("leaving") || has("left") || has("leave"))
        || has("packing") && has("in")
        || has("quit")
        || has("quitting")
        || has("resigned")
        || c.pieces.iter().any(|piece| piece.text == "leaving" && piece.means(Concept::LeaveEarly))
            && has("squad");
    if !off_list && !leaving || c.has_any(&[Concept::Test, Concept::Late]) {
        return None;
    }
    let mut candidate = Candidate::new("remove", c.len());
    candidate.used.fill(true);
    let name = c.name(person)?;
    Some(candidate.says(Kind::People(People::Remove { name })).at_cost(0.6))
}

/// `enter swift for the 100 and 200 free on 18 april, and teal for the 400`, `lark has
/// pulled out of the lake swim`.
fn entered(c: &Clause<'_, '_>) -> Option<Candidate> {
    let meet = c.has(Concept::Meet);
    let evoked = c.pieces.iter().any(|piece| Hint::Enters.is(piece.text))
        || c.has(Concept::Enter) && meet
        || meet
            && !c.people().is_empty()
            && c.pieces.iter().any(|piece| stroke_of(piece).is_some());
    let ahead = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.coming(named),
        _ => None,
    });
    let put = c.pieces.first().is_some_and(|piece| matches!(piece.text, "put" | "enter"))
        && ahead.is_some_and(|day| matches!(day, Day::DayMonth(..) | Day::Full(_)));
    // `heron did 6:47 for 400 at the gala, put that down`: it was swum.
    let swum = c.pieces.array_windows::<2>().any(|pair| {
        let time = matches!(pair[1].item, Item::Figure(figure) if figure.is_marked());
        pair[0].means(Concept::Held) && time
    });
    if swum || !evoked && !put || c.people().is_empty() {
        return None;
    }
    let mut candidate = Candidate::new("entry", c.len());
    candidate.used.fill(true);
    let mut who: Option<Name> = None;
    let mut entries: Vec<(Option<Name>, Entry)> = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        match piece.item {
            Item::Person(person) => who = c.name(person),
            Item::Figure(Figure::Whole {
                value: value @ (25 | 50 | 100 | 200 | 400 | 800 | 1500),
                ..
            }) => {
                let entry = Entry {
                    distance: Length { amount: value, unit: None },
                    stroke: None,
                    on: ahead,
                    time: None,
                    scratched: false,
                };
                entries.push((who.clone(), entry));
            }
            Item::Far(far) => {
                let entry = Entry {
                    distance: c.length(far)?,
                    stroke: None,
                    on: ahead,
                    time: None,
                    scratched: false,
                };
                entries.push((who.clone(), entry));
            }
            Item::Figure(figure) => {
                if let Some((who, entry)) = entries.last_mut() {
                    let known = who
                        .as_ref()
                        .and_then(|who| c.sit.people.iter().find(|known| known.name == *who));
                    entry.time = c
                        .time(
                            figure,
                            entry.distance.amount,
                            entry.stroke.unwrap_or(Stroke::Free),
                            known,
                        )
                        .map(|time| typed(time, figure.has_tenths()));
                    candidate.used[at] = entry.time.is_some();
                }
            }
            _ => {
                if let Some(stroke) = stroke_of(piece) {
                    // `100 and 200 free`: of both.
                    let last = entries.last().map(|(who, _)| who.clone());
                    for (whose, entry) in entries.iter_mut().rev() {
                        if Some(&*whose) != last.as_ref() || entry.stroke.is_some() {
                            break;
                        }
                        entry.stroke = Some(stroke);
                    }
                }
            }
        }
    }
    if entries.is_empty() {
        return None;
    }
    for (who, entry) in entries {
        candidate.says.push(Statement { who, kind: Kind::Entry(entry) });
    }
    Some(candidate.at_cost(0.3))
}
