//! The times of the parts of a swim.

use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Used};
use crate::units::Centis;

/// The figures behind `splits`.
pub fn splits(c: &Clause<'_, '_>, from: usize, used: &mut Used) -> (Vec<Centis>, usize) {
    let mut splits = Vec::new();
    let mut at = from;
    while let Some(piece) = c.at(at) {
        match piece.item {
            Item::Figure(figure) => match figure.times().first() {
                Some(time) => {
                    splits.push(*time);
                    used[at] = true;
                }
                None => break,
            },
            Item::Mark(',' | '/' | '-' | ':' | '&') => {}
            _ if piece.means(Concept::And)
                || piece.means(Concept::Held)
                || matches!(piece.text, "of" | "de" | "en") => {}
            _ => break,
        }
        at += 1;
    }
    (splits, at)
}

/// Splits each on its own, where they were given as they ran.
pub fn apart(splits: &[Centis], time: Option<Centis>) -> Vec<Centis> {
    let rising = splits.array_windows::<2>().all(|pair| pair[0] < pair[1]);
    let runs = rising && splits.len() > 1 && time.is_some_and(|time| splits.last() == Some(&time));
    if !runs {
        return splits.to_vec();
    }
    let mut before: Option<Centis> = None;
    let one = |at: &Centis| {
        let own = before.map_or(Some(*at), |before| at.less(before));
        before = Some(*at);
        own
    };
    splits.iter().filter_map(one).collect()
}
