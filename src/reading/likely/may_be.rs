//! What a figure, a day or a person of a text may be, whatever it stands for: what labels are
//! held against when the model of [`Stands`](super::Stands) is trained.

use crate::reading::frame::Clause;
use crate::reading::piece::{Far, Figure, Item, Piece};

/// What a piece may be.
#[derive(Debug, Clone, Default)]
pub struct MayBe {
    /// Times, in seconds.
    pub seconds: Vec<f64>,
    /// The same with the minutes here and the seconds in the next piece.
    pub joined: Vec<f64>,
    /// How many, how far.
    pub counted: Vec<f64>,
    /// Days, as dates.
    pub days: Vec<String>,
    /// A person.
    pub name: Option<String>,
}

/// What each piece of a text may be.
pub fn may_be(c: &Clause<'_, '_>) -> Vec<MayBe> {
    let seconds =
        |figure: Figure| -> Vec<f64> { figure.times().iter().map(|time| time.seconds()).collect() };
    let metres = |far: Far| c.length(far).map(|far| f64::from(far.amount));
    let one = |(at, piece): (usize, &Piece<'_>)| {
        let mut all = MayBe::default();
        match piece.item {
            Item::Figure(figure) | Item::Each(figure) => {
                all.seconds = seconds(figure);
                all.joined = c.minutes_apart(at).map(seconds).unwrap_or_default();
                all.counted = figure.whole().map(f64::from).into_iter().collect();
            }
            Item::Range(from, to) => {
                let (from, to) = (seconds(from), seconds(to));
                let middle = from.first().zip(to.first()).map(|(from, to)| (from + to) / 2.0);
                all.seconds = from.into_iter().chain(to).chain(middle).collect();
            }
            Item::Far(far) => all.counted.extend(metres(far)),
            Item::Repeat(count, far) => {
                all.counted = vec![f64::from(count)];
                all.counted.extend(metres(far));
            }
            Item::Plural(amount) | Item::Ordinal(amount) => all.counted = vec![f64::from(amount)],
            Item::Span(time) => {
                all.seconds = vec![time.seconds()];
                all.counted = vec![time.seconds() / 60.0];
            }
            Item::OfAll(some, _) => all.counted = vec![f64::from(some)],
            Item::Rpe(tenths) => all.counted = vec![f64::from(tenths) / 10.0],
            Item::Day(named) => {
                let days = [c.coming(named), c.past(named), c.last_of(named)];
                let dates = days.into_iter().flatten().filter_map(|day| c.date_of(day));
                all.days = dates.map(|date| date.to_string()).collect();
            }
            Item::TimeOfDay(hour, minute) => {
                all.days = [hour, hour + 12].map(|hour| format!("{hour:02}:{minute:02}")).into();
            }
            Item::Person(person) => all.name = c.name(person).map(|name| name.as_str().to_owned()),
            Item::Lanes(_) => all.counted = piece.lanes().map(f64::from).collect(),
            _ => {}
        }
        all
    };
    c.pieces.iter().enumerate().map(one).collect()
}
