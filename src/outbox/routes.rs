//! Which letter goes which way: by what its recipient's address begins with.

use std::sync::Arc;

use super::Carrier;
use super::pause::Pause;

/// The ways out.
#[derive(Default)]
pub struct Routes(Vec<Route>);

/// One way out.
pub(super) struct Route {
    /// What an address begins with that goes this way.
    prefix: String,
    pub carrier: Arc<Carrier>,
    pub pause: Pause,
}

impl Routes {
    /// One way for every letter.
    pub fn only(carrier: Arc<Carrier>) -> Routes {
        Routes::default().and("", carrier)
    }

    /// And this way for recipients whose address begins with `prefix`; of two
    /// that fit, the longer one takes the letter.
    pub fn and(mut self, prefix: &str, carrier: Arc<Carrier>) -> Routes {
        let route = Route { prefix: prefix.to_owned(), carrier, pause: Pause::default() };
        let shorter = |other: &Route| other.prefix.len() < prefix.len();
        let place = self.0.iter().position(shorter).unwrap_or(self.0.len());
        self.0.insert(place, route);
        self
    }

    /// True if no letter goes anywhere.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Each way by its number.
    pub(super) fn iter(&self) -> impl Iterator<Item = (usize, &Route)> {
        self.0.iter().enumerate()
    }

    /// The way of this number.
    pub(super) fn route(&self, number: usize) -> Option<&Route> {
        self.0.get(number)
    }

    /// The numbers of all ways that can lead to this address, the best first: for
    /// what one way does not take.
    pub(super) fn all_for(&self, to: &str) -> Vec<usize> {
        let fits = |(_, route): &(usize, &Route)| to.starts_with(&route.prefix);
        self.iter().filter(fits).map(|(number, _)| number).collect()
    }

    /// The number of the way to this address; none where it waits.
    pub(super) fn number_for(&self, to: &str) -> Option<usize> {
        self.0.iter().position(|route| to.starts_with(&route.prefix))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outbox::{Destination, Patience, Signed};

    #[test]
    fn the_longest_beginning_that_fits_takes_the_letter() {
        let carrier = || {
            let to = Destination::new("http://127.0.0.1/", true, None).unwrap();
            Carrier::new(to, Signed(vec![]), Patience::default()).unwrap()
        };
        let some = Routes::default().and("+", carrier()).and("+44", carrier());
        let prefix = |routes: &Routes, to| {
            routes.number_for(to).and_then(|at| routes.route(at)).map(|way| way.prefix.clone())
        };
        assert_eq!(prefix(&some, "+447700900001").as_deref(), Some("+44"));
        assert_eq!(prefix(&some, "+15550101").as_deref(), Some("+"));
        assert_eq!(prefix(&some, "heron"), None);
        let all = some.and("", carrier());
        assert_eq!(prefix(&all, "heron").as_deref(), Some(""));
        assert_eq!(all.all_for("+447700900001"), [0, 1, 2]);
        assert_eq!(all.all_for("+15550101"), [1, 2]);
    }
}
