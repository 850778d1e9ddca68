//! What each figure, day and person of a text stands for: a time swum, what was left on, how
//! many, whom it is about.
//!
//! The second half of the second opinion: given what a text tells ([`Telling`]), a linear
//! model goes over its figures, days and people from left to right and says of each what it
//! is, by the words round it, by whether somebody could swim it, and by what stood before.
//! `grammar/weights/stands-*.txt`, trained from the labelled texts (`tests/reading/train.rs`).

use std::sync::LazyLock;

use super::feature::{each_once, masked};
use super::softmax::Softmax;
use super::telling::{LONGEST, Telling};
use crate::language::Language;
use crate::message::named_variants;
use crate::reading::frame::Clause;
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::Role;

named_variants! {
    /// What a figure, a day or a person stands for.
    Stands {
    /// For nothing that is kept.
    Aside = "aside",
    /// A time that was swum.
    Swum = "swum",
    /// The seconds of a time whose minutes stand before it.
    Tail = "tail",
    /// How many repeats.
    Count = "count",
    /// How far.
    Distance = "distance",
    /// How many were made.
    Made = "made",
    /// How many were not, or are to be no more.
    Lost = "lost",
    /// What is left on.
    SendOff = "send-off",
    /// How long they rest.
    Rest = "rest",
    /// How hard it was, of ten.
    Effort = "effort",
    /// How strong a pain is, of ten.
    Level = "level",
    /// How long something takes.
    Lasts = "lasts",
    /// By how much somebody is late.
    Late = "late",
    /// A lane, or how many lanes.
    Lane = "lane",
    /// When it begins.
    Starts = "starts",
    /// The day of it.
    On = "on",
    /// The day until which it holds.
    Until = "until",
    /// Whom it is about.
    Whom = "whom",
    /// A time to be swum.
    Goal = "goal",
    /// How many are to be added.
    Extra = "extra",
    }
}

/// True of a piece that stands for something.
pub const fn carries(piece: &Piece<'_>) -> bool {
    matches!(
        piece.item,
        Item::Figure(_)
            | Item::Each(_)
            | Item::Far(_)
            | Item::Repeat(..)
            | Item::Plural(_)
            | Item::Span(_)
            | Item::Ordinal(_)
            | Item::OfAll(..)
            | Item::Range(..)
            | Item::Rpe(_)
            | Item::Day(_)
            | Item::TimeOfDay(..)
            | Item::Person(_)
            | Item::Lanes(_)
    )
}

/// A text as the model sees it.
pub struct Row<'c, 'a, 't> {
    c: &'c Clause<'a, 't>,
    /// Its words, a mark being one.
    words: Vec<String>,
    /// At which word each piece begins, and where the last ends.
    begins: Vec<usize>,
    /// The places of what stands for something.
    carriers: Vec<usize>,
    /// What the text tells, as words.
    tells: Vec<&'static str>,
}

impl<'c, 'a, 't> Row<'c, 'a, 't> {
    /// A text that tells this.
    pub fn new(c: &'c Clause<'a, 't>, tells: &[Telling]) -> Self {
        let mut words: Vec<String> = Vec::new();
        let mut begins = Vec::with_capacity(c.len() + 1);
        for (at, piece) in c.pieces.iter().enumerate() {
            begins.push(words.len());
            match piece.item {
                Item::Mark(mark) => words.push(mark.to_string()),
                _ => words.extend(masked(c, at, piece)),
            }
        }
        begins.push(words.len());
        let places = c.pieces.iter().enumerate().filter(|(_, piece)| carries(piece));
        let carriers = places.map(|(at, _)| at).collect();
        Row { c, words, begins, carriers, tells: tells.iter().map(|one| one.name()).collect() }
    }

    /// The places of what stands for something.
    pub fn carriers(&self) -> &[usize] {
        &self.carriers
    }

    /// What the model looks at in a piece, behind what those before it stand for.
    pub fn features(&self, at: usize, before: &[Stands]) -> Vec<String> {
        let first = self.begins.get(at).copied().unwrap_or_default();
        let next = self.begins.get(at + 1).copied().unwrap_or(self.words.len());
        let word = |place: Option<usize>| {
            place.and_then(|place| self.words.get(place)).map_or("$", String::as_str)
        };
        let left = word(first.checked_sub(1));
        let further = word(first.checked_sub(2));
        let right = word(Some(next));
        let beyond = word(Some(next + 1));
        let own = self.kind(at);
        let last = before.last().map_or("^", |one| one.name());
        let mut all = vec![
            own.clone(),
            format!("{last} > {own}"),
            format!("-1 {left}"),
            format!("+1 {right}"),
            format!("-2 {further}"),
            format!("+2 {beyond}"),
            format!("-1 {left} {own}"),
            format!("+1 {own} {right}"),
            format!("-2 {further} {left}"),
            format!("+2 {right} {beyond}"),
            format!("+-1 {left} {right}"),
            format!("{last} > {left}"),
            format!("swum {}", before.iter().filter(|one| **one == Stands::Swum).count().min(3)),
            format!("last {} {own}", before.len() + 1 == self.carriers.len()),
        ];
        let fits = self.fits(at);
        let together = self.tells.join("+");
        all.push(format!("{together}: {own}"));
        for tells in &self.tells {
            all.push(format!("{tells}: {own}"));
            all.push(format!("{tells}: -1 {left}"));
            all.push(format!("{tells}: +1 {right}"));
            all.push(format!("{tells}: {last}"));
            all.extend(fits.iter().map(|one| format!("{tells}: {one}")));
        }
        all.extend(fits.iter().map(|one| format!("{last} > {one}")));
        all.extend(fits.iter().map(|one| format!("-1 {left} {one}")));
        all.extend(fits.into_iter().map(str::to_owned));
        each_once(all)
    }

    /// What kind of piece it is.
    fn kind(&self, at: usize) -> String {
        let Some(piece) = self.c.at(at) else { return String::new() };
        masked(self.c, at, piece).concat()
    }

    /// What a figure fits: what was to be swum, what may be, how far people swim.
    fn fits(&self, at: usize) -> Vec<&'static str> {
        let Some(piece) = self.c.at(at) else { return vec![] };
        let figure = match piece.item {
            Item::Figure(figure) | Item::Each(figure) | Item::Range(figure, _) => figure,
            _ => return vec![],
        };
        let near = |one: f64, other: f64| (0.85..=1.2).contains(&(one / other));
        let mut all = Vec::new();
        let times = figure.times();
        let seconds = || times.iter().map(|time| time.seconds());
        let main = self.c.sit.set.as_ref().and_then(|set| set.main());
        if let Some(main) = main {
            if let Some(target) = main.target
                && seconds().any(|time| near(time, target.seconds()))
            {
                all.push("as the target");
            }
            if let Some(send_off) = main.send_off
                && seconds().any(|time| (time - f64::from(send_off.seconds())).abs() < 0.5)
            {
                all.push("as the send-off");
            }
            if figure.whole() == Some(main.count) {
                all.push("as many as there are");
            }
            if figure.whole().is_some_and(|few| few < main.count) {
                all.push("fewer than there are");
            }
            if figure.whole() == Some(main.distance) {
                all.push("as far as one");
            }
        }
        let bests = self.c.subject().map(|known| known.bests.as_slice()).unwrap_or_default();
        if bests.iter().any(|(.., best)| seconds().any(|time| near(time, best.seconds()))) {
            all.push("as a best");
        }
        if figure.whole().is_some_and(|far| far >= 50 && far.is_multiple_of(25)) {
            all.push("as people swim");
        }
        if figure.whole().is_some_and(|of_ten| of_ten <= 10) {
            all.push("of ten");
        }
        if self.c.minutes_apart(at).is_some() {
            all.push("minutes");
        }
        if at > 0 && self.c.minutes_apart(at - 1).is_some() {
            all.push("seconds");
        }
        if self.c.sit.role == Role::Coach {
            all.push("coach");
        }
        all
    }
}

/// What each piece of a text stands for that tells this; those that carry nothing are aside,
/// and all of a longer one than anybody types.
pub fn stands(c: &Clause<'_, '_>, tells: &[Telling]) -> Vec<Stands> {
    let model: &Softmax = match c.sit.language {
        Language::English => &ENGLISH,
        Language::Spanish => &SPANISH,
    };
    let mut all = vec![Stands::Aside; c.len()];
    if c.len() > LONGEST {
        return all;
    }
    let row = Row::new(c, tells);
    let mut before = Vec::new();
    for at in row.carriers() {
        let odds = model.odds(&row.features(*at, &before));
        let best = Stands::ALL.iter().zip(odds).max_by(|one, other| one.1.total_cmp(&other.1));
        let choice = best.map_or(Stands::Aside, |(choice, _)| *choice);
        before.push(choice);
        if let Some(place) = all.get_mut(*at) {
            *place = choice;
        }
    }
    all
}

static ENGLISH: LazyLock<Softmax> =
    LazyLock::new(|| Softmax::load(include_str!("../../../grammar/weights/stands-english.txt")));

static SPANISH: LazyLock<Softmax> =
    LazyLock::new(|| Softmax::load(include_str!("../../../grammar/weights/stands-spanish.txt")));

#[cfg(test)]
mod tests {
    use super::{ENGLISH, SPANISH, Stands, carries, stands};
    use crate::language::Language;
    use crate::reading::likely::Telling;
    use crate::reading::read::in_its_pieces;
    use crate::reading::situation::Situation;

    fn read(language: Language, text: &str, tells: &[Telling]) -> Vec<(String, Stands)> {
        let sit = Situation { language, ..Situation::default() };
        in_its_pieces(text, &sit, |c| {
            let all = stands(c, tells).into_iter().enumerate();
            let said = all.filter(|(at, _)| c.at(*at).is_some_and(carries));
            said.map(|(at, as_what)| (c.typed(at, at + 1).to_owned(), as_what)).collect()
        })
    }

    #[test]
    fn the_tables_choose_among_what_we_know() {
        let names: Vec<&str> = Stands::ALL.iter().map(|one| one.name()).collect();
        assert_eq!(ENGLISH.choices, names);
        assert_eq!(SPANISH.choices, names);
    }

    /// Texts of our own, in none of the files that the weights are trained on.
    #[test]
    fn figures_stand_for_what_their_words_say() {
        let english = read(
            Language::English,
            "today i swam 6x100 leaving on 2:20 and every one came in at 1:51",
            &[Telling::SetResult],
        );
        assert!(english.contains(&("2:20".to_owned(), Stands::SendOff)), "{english:?}");
        assert!(english.contains(&("1:51".to_owned(), Stands::Swum)), "{english:?}");
        let spanish = read(Language::Spanish, "hoy nadé 1800 en total", &[Telling::Done]);
        assert!(spanish.contains(&("1800".to_owned(), Stands::Distance)), "{spanish:?}");
    }

    #[test]
    fn what_carries_nothing_is_aside() {
        let sit = Situation::default();
        let all = in_its_pieces("well that was hard", &sit, |c| stands(c, &[Telling::Done]));
        assert!(all.iter().all(|one| *one == Stands::Aside));
    }
}
