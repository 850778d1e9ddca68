//! What a stretch asks about.

use super::evening::{of_squad, of_swimmer, set_of};
use super::named::{day, distances, has_word, lane_of, period};
use super::session::next;
use super::{about, other};
use crate::message::{About, Kind};
use crate::reading::frame::{Clause, mood};
use crate::reading::lexicon::{Concept, Hint, Sense, UnitWord};
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::Role;
use crate::units::Level;

/// What a stretch asks about.
pub fn topic(c: &Clause<'_, '_>, question: bool) -> Option<Kind> {
    let has = |concept: Concept| c.has(concept);
    let any = |concepts: &[Concept]| c.has_any(concepts);
    let coach = c.sit.role == Role::Coach;
    let first = mood::opening(c);
    let begins = |concept: Concept| c.at(first).is_some_and(|piece| piece.means(concept));
    if let Some(kind) = of_squad(c, coach).or_else(|| of_swimmer(c, question)).or_else(|| set_of(c))
    {
        return Some(kind);
    }
    if coach && question && asks_how_one_is(c) {
        return Some(Kind::Swimmer);
    }
    if has(Concept::Mean) && question || has(Concept::Explain) {
        return Some(other(c));
    }
    if begins(Concept::Why) && c.len() <= 6 && (c.sit.set.is_some() || c.len() <= 2 || of_told(c)) {
        return Some(Kind::Why);
    }
    if begins(Concept::Why) {
        return Some(other(c));
    }
    // `they went too hard on the first 4` tells, and wishes nothing.
    let of_them = coach && c.people().is_empty() && has(Concept::They);
    if of_them && any(&[Concept::Easier, Concept::Harder, Concept::Shorter]) {
        return question.then(|| other(c));
    }
    if wants_it_easier(c) {
        return Some(Kind::Easier);
    }
    if has(Concept::Harder) && c.len() <= 12 || wants_it_hard(c) {
        return Some(Kind::Harder);
    }
    if has(Concept::Shorter) && c.len() <= 12 && !any(&[Concept::Instead]) {
        return Some(Kind::Shorter);
    }
    if has(Concept::When) && has(Concept::Test) {
        return Some(about(c, About::NextTest));
    }
    if any(&[Concept::Lane]) && any(&[Concept::Which, Concept::What, Concept::Where, Concept::Who])
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_)))
            && question
            && has(Concept::Who)
    {
        let lane = lane_of(c);
        return Some(about(c, About::Lane { lane }));
    }
    // `cuanto hice en el 200`: a time.
    if has(Concept::HowMany) && any(&[Concept::Swam, Concept::Done]) && !distances(c).is_empty() {
        return Some(other(c));
    }
    if has(Concept::HowMany)
        && any(&[Concept::Swam, Concept::Session, Concept::Done])
        && !any(&[Concept::Want, Concept::Need])
        || has(Concept::HowMany)
            && c.pieces.iter().any(|piece| {
                piece.is(Sense::Unit(UnitWord::Length))
                    || piece.is(Sense::Unit(UnitWord::Metre))
                    || piece.is(Sense::Unit(UnitWord::Kilo))
            })
            && period(c).is_some()
    {
        let (since, until) = period(c).unwrap_or((None, None));
        return Some(about(c, About::Swum { since, until }));
    }
    if has(Concept::Best)
        && (question || c.has(Concept::My) || !c.people().is_empty())
        && !any(&[Concept::Trend, Concept::Test])
    {
        return Some(Kind::Best);
    }
    let distances = distances(c);
    if has(Concept::Targets) && has(Concept::From) && has(Concept::Test) && !question {
        return Some(Kind::OwnTargets { holds: vec![] });
    }
    if (has(Concept::Pace) || has(Concept::SendOffWord) || has(Concept::Targets) || paces(c))
        && (question || has(Concept::Targets))
    {
        return Some(Kind::Targets { distances });
    }
    if has(Concept::RestWord) && has(Concept::HowMany) && !distances.is_empty() {
        return Some(Kind::Targets { distances });
    }
    if has(Concept::Predict)
        && question
        && let [distance] = distances.as_slice()
    {
        return Some(Kind::Predict { distance: *distance });
    }
    // `lane 3 only doing 6` tells.
    let lanes = c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_)));
    // Of somebody beside oneself: `am i faster than rook`.
    let own = any(&[Concept::My, Concept::Me]) || has_word(c, &["i", "yo", "voy", "estoy"]);
    if has(Concept::Trend) && !coach && question && own && !c.people().is_empty() {
        return Some(other(c));
    }
    if has(Concept::Trend) && !lanes && (question || c.len() <= 5) {
        return Some(Kind::Trend);
    }
    if has(Concept::Log) && (question || c.len() <= 3) {
        return Some(Kind::Log);
    }
    if any(&[Concept::When, Concept::Where])
        && any(&[Concept::Session, Concept::Started, Concept::Squad, Concept::Open])
    {
        return Some(about(c, About::Evening { on: day(c) }));
    }
    // `is there training thursday`, `are we swimming tonight`, `hay entreno hoy`.
    if question
        && has_word(c, &["there", "we", "hay", "habra", "se"])
        && any(&[Concept::Session, Concept::Swam])
        && !any(&[Concept::What, Concept::HowMany, Concept::Who, Concept::Can, Concept::Want])
        && day(c).is_some()
        && c.len() <= 9
    {
        return Some(about(c, About::Evening { on: day(c) }));
    }
    // `what time is it tonight`, `a que hora es hoy`.
    if has(Concept::When) && day(c).is_some() && !any(&[Concept::Test, Concept::Me]) && c.len() <= 6
    {
        return Some(about(c, About::Evening { on: day(c) }));
    }
    if question
        && any(&[Concept::Shut, Concept::Open])
        && !has(Concept::Lane)
        && (any(&[Concept::Session, Concept::Squad]) || day(c).is_some())
        && c.at(first).is_some_and(|piece| piece.means(Concept::Aux) || piece.text == "se")
    {
        return Some(about(c, About::Evening { on: day(c) }));
    }
    next(c, question)
}

/// `is rook still injured`, `hows dunnocks shoulder`, from who runs the evening: what is open
/// stands on the swimmer's card.
fn asks_how_one_is(c: &Clause<'_, '_>) -> bool {
    let ails = |piece: &Piece<'_>| {
        piece.means(Concept::HurtQ) || piece.is_of_health() || piece.text == "injured"
    };
    c.people().len() == 1
        && !c.danger
        && has_word(c, Hint::HowOneIs.words())
        && c.pieces.iter().any(ails)
}

/// True where a short question can only be of what was told last: `why is it so short`,
/// `why so easy`.
fn of_told(c: &Clause<'_, '_>) -> bool {
    let of = [Concept::It, Concept::This, Concept::Session, Concept::Set, Concept::Plan];
    let level = |piece: &Piece<'_>| piece.level().is_some();
    let so = c.len() <= 4 && c.pieces.iter().any(|piece| matches!(piece.text, "so" | "tan"));
    // `why am i so slow` is of the sender.
    let of_me = c.has(Concept::Me) || c.pieces.iter().any(|piece| piece.text == "am");
    c.people().is_empty() && !of_me && (so || c.has_any(&of) || c.pieces.iter().any(level))
}

/// `what should I hold`, `how fast`, `what time for 100s`.
fn paces(c: &Clause<'_, '_>) -> bool {
    let how_fast = c
        .pieces
        .array_windows::<2>()
        .any(|pair| pair[0].means(Concept::How) && pair[1].means(Concept::Fast));
    let hold = c.has(Concept::What)
        && c.pieces.iter().any(|piece| matches!(piece.text, "hold" | "aim" | "swim" | "go"))
        && !distances(c).is_empty()
        && c.has(Concept::Need)
            | c.pieces.iter().any(|piece| piece.text == "should" || piece.text == "hold");
    how_fast || hold
}

/// A figure or somebody: what it is said of is more than how hard the next swim is to be.
const fn is_of_some(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Figure(_) | Item::Far(_) | Item::Repeat(..) | Item::Person(_))
}

/// `feeling good, want a proper hard one tonight`.
fn wants_it_hard(c: &Clause<'_, '_>) -> bool {
    // A word that is not the name of a level that something was swum at.
    let hard = |piece: &Piece<'_>| {
        matches!(piece.text, "hard" | "tough" | "brutal" | "duro" | "dura" | "fuerte")
    };
    let Some(at) = c.pieces.iter().position(hard) else { return false };
    let wants = c.pieces[..at].iter().any(|piece| piece.means(Concept::Want));
    let denied = c.has_any(&[Concept::Not, Concept::Didnt, Concept::Cant, Concept::Without]);
    wants && !denied && c.sit.role == Role::Swimmer && !c.pieces.iter().any(is_of_some)
}

/// `something easier`, `can we keep it gentle`; `think i went out too hard` tells how a swim
/// began.
fn wants_it_easier(c: &Clause<'_, '_>) -> bool {
    const LONGEST: usize = 12;
    const BEHIND: usize = 3;
    if c.len() > LONGEST || c.has_any(&[Concept::How, Concept::Trend]) {
        return false;
    }
    if let Some(at) = c.find(Concept::Easier) {
        let before = c.pieces.part(at.saturating_sub(BEHIND), at);
        return !before.iter().any(|piece| piece.means(Concept::Started));
    }
    let asks = c.has_any(&[Concept::Can, Concept::Want, Concept::Need]);
    let easy = |piece: &Piece<'_>| piece.is(Sense::Level(Level::Easy));
    let others = [Concept::What, Concept::Why, Concept::Plan, Concept::Session, Concept::Set];
    asks && c.sit.role == Role::Swimmer
        && c.pieces.iter().any(easy)
        && !c.pieces.iter().any(is_of_some)
        && !c.has_any(&others)
}
