//! A question asked again of something else: `and 400` behind `whats my best 200`, `¿y
//! finch?` behind `cuanto hizo teal`.
//!
//! What the fragment names takes the place of what stood there in the question; the rest
//! of it is kept in its own words, and is then read like any other text. So every question
//! that can be read can be gone on from, in either language.

use super::frame::{Clause, mood, stroke_of};
use super::lexicon::{Concept, Hint, Sense, UnitWord};
use super::piece::{Figure, Item, Named, Piece, is_raced};
use super::read::with_pieces;
use super::situation::Situation;
use crate::language::Language;

/// Pieces up to which a text may be no more than a fragment.
const LONGEST: usize = 9;

/// What a question can be asked again of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Of {
    Length,
    Day,
    Person,
    Stroke,
    Lane,
    Time,
    Pool,
}

/// Something that the fragment names.
struct Names {
    of: Of,
    /// As typed.
    typed: String,
    /// The same with the small words before it: `en el 400`.
    with_small: String,
    /// Whose name it is.
    person: Option<usize>,
}

/// The question that a text asks again, in words: that before, with what the text names;
/// nothing where the text is no fragment of one.
pub fn again(question: &str, text: &str, sit: &Situation) -> Option<String> {
    let names = with_pieces("", text, sit, fragment)?;
    with_pieces("", question, sit, |c| replaced(c, &names))
}

/// What a text names that says nothing else and begins like the rest of a question, or ends
/// like one.
fn fragment(c: &Clause<'_, '_>) -> Option<Vec<Names>> {
    if c.len() > LONGEST || c.danger || c.unwell {
        return None;
    }
    let asks = c.pieces.iter().any(|piece| matches!(piece.item, Item::Mark('?' | '\u{bf}')));
    let first = (0..c.len()).find(|at| !mood::is_opening(&c.pieces[*at])).unwrap_or(c.len());
    let joins = |piece: &Piece<'_>| {
        piece.means(Concept::And) || matches!(piece.text, "n" | "y" | "e" | "no" | "nah")
    };
    let mut headed = c.pieces[..first].iter().any(joins);
    let mut from = first;
    while let Some(piece) = c.at(from).filter(|piece| joins(piece) || is_what_about(piece)) {
        headed |= joins(piece) || is_about(piece);
        from += 1;
    }
    // `in yards i mean`
    let last = c.typed(c.len().saturating_sub(1), c.len());
    headed |= ["mean", "meant", "digo"].iter().any(|word| last.ends_with(word));
    if !headed && !asks {
        return None;
    }
    let mut names: Vec<Names> = Vec::new();
    let mut small = from;
    for at in from..c.len() {
        let piece = c.at(at)?;
        let Some(of) = of(piece) else {
            if !is_small(piece) {
                return None;
            }
            continue;
        };
        // `no kick please` leaves it out.
        let left_out = of == Of::Stroke
            && c.pieces[..at].last().is_some_and(|before| matches!(before.text, "no" | "without"));
        // `in monday` says who comes.
        let comes = of == Of::Day && at > small && c.pieces[at - 1].text == "in";
        let weekday = matches!(piece.item, Item::Day(Named::Day(..)));
        if left_out || comes && weekday || names.iter().any(|one| one.of == of) {
            return None;
        }
        let person = match piece.item {
            Item::Person(person) => Some(person),
            _ => None,
        };
        let [typed, with_small] =
            [at, small].map(|from| c.typed(from, at + 1).trim_matches([',', '\u{bf}', ' ']));
        names.push(Names {
            of,
            typed: person.and_then(|one| c.name(one)).map_or(typed.into(), |name| name.to_string()),
            with_small: with_small.to_owned(),
            person,
        });
        small = at + 1;
    }
    // `??` alone asks the same once more.
    let bare = c.pieces.iter().all(|piece| matches!(piece.item, Item::Mark(_)));
    (!names.is_empty() || asks && bare).then_some(names)
}

/// `what about`, `how about`, `que tal`, in one piece or several.
fn is_what_about(piece: &Piece<'_>) -> bool {
    is_about(piece) || matches!(piece.text, "what" | "how" | "que")
}

fn is_about(piece: &Piece<'_>) -> bool {
    piece.means(Concept::About)
        || matches!(piece.text, "about" | "bout" | "what about" | "how about" | "tal" | "que tal")
}

/// What a piece names that a question can be asked again of.
fn of(piece: &Piece<'_>) -> Option<Of> {
    Some(match piece.item {
        Item::Far(_) | Item::Plural(_) => Of::Length,
        Item::Figure(Figure::Whole { value, .. })
            if is_raced(value) || matches!(value, 25 | 75 | 150 | 300) =>
        {
            Of::Length
        }
        Item::Figure(Figure::Clock(_) | Figure::Parted { .. }) | Item::Each(_) => Of::Time,
        Item::Day(_) => Of::Day,
        Item::Person(_) => Of::Person,
        Item::Lanes(_) => Of::Lane,
        Item::Word if stroke_of(piece).is_some() => Of::Stroke,
        Item::Word if piece.course().is_some() || is_unit(piece) => Of::Pool,
        _ => return None,
    })
}

fn is_unit(piece: &Piece<'_>) -> bool {
    [UnitWord::Yard, UnitWord::Metre].iter().any(|unit| piece.is(Sense::Unit(*unit)))
}

/// A word that says nothing by itself beside what the fragment names.
fn is_small(piece: &Piece<'_>) -> bool {
    const CONCEPTS: [Concept; 9] = [
        Concept::Article,
        Concept::For,
        Concept::Of,
        Concept::At,
        Concept::To,
        Concept::Please,
        Concept::Thanks,
        Concept::Then,
        Concept::My,
    ];
    match piece.item {
        Item::Mark(_) | Item::Line | Item::Picture | Item::Chatter => true,
        Item::Word => {
            Hint::BesideAName.is(piece.text) || CONCEPTS.iter().any(|one| piece.means(*one))
        }
        _ => false,
    }
}

/// The question with what is named in place of what stood there.
fn replaced(c: &Clause<'_, '_>, names: &[Names]) -> Option<String> {
    // What is put where, by bytes of the question.
    let mut put: Vec<(usize, usize, String)> = Vec::new();
    let mut behind = String::new();
    for one in names {
        let place = c.pieces.iter().rposition(|piece| of(piece) == Some(one.of));
        match place {
            Some(at) => {
                let typed = c.typed(at, at + 1);
                let (from, to) = bytes(c, at)?;
                let what = match one.of {
                    Of::Day => headed_alike(typed, &one.typed),
                    _ => possessive(&c.pieces[at], typed, &one.typed),
                };
                put.push((from, to, what));
            }
            // No time stands where none stood: it would be a result.
            None if one.of == Of::Time => return None,
            None if one.person.is_some() && one.person != c.sit.me => {
                match of_the_sender(c, &one.typed) {
                    Some(instead) => put.extend(instead),
                    None => behind.push_str(&format!(" {}", one.with_small)),
                }
            }
            None => behind.push_str(&format!(" {}", one.with_small)),
        }
    }
    put.sort_by_key(|one| std::cmp::Reverse(one.0));
    let mut text = c.plain.trim_end_matches(['?', '!', '.', ' ']).to_owned();
    for (from, to, what) in put {
        // A mark at the end may have gone with it.
        let to = to.min(text.len());
        text.replace_range(from.min(to)..to, &what);
    }
    Some(text + &behind)
}

fn bytes(c: &Clause<'_, '_>, at: usize) -> Option<(usize, usize)> {
    let piece = c.at(at)?;
    let (from, to) = (c.spans.get(piece.at.0)?, c.spans.get(piece.at.1.checked_sub(1)?)?);
    Some((from.0, to.1))
}

/// `on monday` asked of `weds` is `on weds`.
fn headed_alike(before: &str, now: &str) -> String {
    const HEADS: [&str; 5] = ["on", "el", "del", "for", "this"];
    match before.split_once(' ').filter(|(head, _)| HEADS.contains(head)) {
        Some((head, _)) if !now.contains(' ') => format!("{head} {now}"),
        _ => now.to_owned(),
    }
}

/// `robins best` asked of dunnock is `dunnock's best`.
fn possessive(piece: &Piece<'_>, typed: &str, name: &str) -> String {
    let person = matches!(piece.item, Item::Person(_));
    match person && (piece.possessive || typed.ends_with('s') && !typed.eq_ignore_ascii_case(name))
    {
        true if !name.ends_with('s') => format!("{name}'s"),
        _ => name.to_owned(),
    }
}

/// `whats my best`, `how did i do` of somebody else: their name where the sender's word
/// stands.
fn of_the_sender(c: &Clause<'_, '_>, name: &str) -> Option<Vec<(usize, usize, String)>> {
    if c.sit.language != Language::English {
        return None;
    }
    let put = c.pieces.iter().enumerate().filter_map(|(at, piece)| {
        let what = match piece.text {
            "my" | "mine" => format!("{name}'s"),
            "i" | "me" => name.to_owned(),
            "am" => "is".to_owned(),
            _ => return None,
        };
        let (from, to) = bytes(c, at)?;
        Some((from, to, what))
    });
    let put: Vec<_> = put.collect();
    (!put.is_empty()).then_some(put)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asks(question: &str, text: &str, language: Language) -> Option<String> {
        again(question, text, &Situation { language, ..Situation::default() })
    }

    #[test]
    fn what_is_named_takes_the_place_of_what_stood_there() {
        let english = [
            ("whats my best 200", "and 400", "whats my best 400"),
            ("whats my best 200?", "ok thanks, and the 100?", "whats my best 100"),
            ("what should i hold for 100s", "and for 50s", "what should i hold for 50s"),
            ("is there training monday", "and weds?", "is there training weds"),
            ("when is training", "what about wednesday", "when is training wednesday"),
            ("whats on monday", "??", "whats on monday"),
            ("whats my best 200", "in yards i mean", "whats my best 200 in yards"),
        ];
        for (question, text, whole) in english {
            assert_eq!(asks(question, text, Language::English).as_deref(), Some(whole), "{text}");
        }
        let spanish = [
            ("cuanto hizo teal", "no, en el 400", "cuanto hizo teal en el 400"),
            ("cual es mi mejor marca en 200", "y en 400?", "cual es mi mejor marca en 400"),
        ];
        for (question, text, whole) in spanish {
            assert_eq!(asks(question, text, Language::Spanish).as_deref(), Some(whole), "{text}");
        }
    }

    #[test]
    fn what_tells_something_asks_nothing_again() {
        for text in [
            "400",
            "and 400 in 6:40",
            "and 3:12",
            "and i swam 400",
            "in monday",
            "and out monday",
            "no kick please",
            "no",
            "cheers",
        ] {
            assert_eq!(asks("whats my best 200", text, Language::English), None, "{text}");
        }
    }
}
