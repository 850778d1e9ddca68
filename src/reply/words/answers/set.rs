//! In which words the set of a night and its tests are told.

use crate::reply::Voice;

impl Voice {
    /// How far and how long.
    pub(super) fn total_of(self, far: &str, minutes: u32, ends: Option<&str>) -> String {
        match ends {
            Some(ends) => say!(
                self,
                "{far}, about {minutes} min, ends {ends}",
                "{far}, unos {minutes} min, acaba a las {ends}",
                [far, minutes, ends]
            ),
            None => say!(
                self,
                "{far}, about {minutes} min",
                "{far}, unos {minutes} min",
                [far, minutes]
            ),
        }
    }

    /// What to hold.
    pub(super) fn hold_in(self, hold: &str, what: &str, on: &str) -> String {
        say!(self, "hold {hold}, {what}{on}.", "a {hold}, {what}{on}.", [hold, what, on])
    }

    /// The rest that is left.
    pub(super) fn rest_is(self, rest: &str, hold: &str, on: &str) -> String {
        say!(
            self,
            "{rest} rest, in at {hold} on {on}.",
            "{rest} de descanso, llegando en {hold} cada {on}.",
            [rest, hold, on]
        )
    }

    /// No rest at all.
    pub(super) fn no_rest(self, hold: &str, on: &str) -> String {
        say!(
            self,
            "no rest, in at {hold} on {on}.",
            "sin descanso, llegando en {hold} cada {on}.",
            [hold, on]
        )
    }

    /// The send-off, where no time to hold is known.
    pub(super) fn leaves_every(self, on: &str) -> String {
        say!(
            self,
            "on {on}; the rest is what is left of it.",
            "cada {on}; el descanso es lo que sobra.",
            [on]
        )
    }

    /// Yes, bring it.
    pub(super) fn kit_yes(self, kit: &str, day: &str) -> String {
        say!(self, "Yes: {kit} on {day}.", "Si: {kit} el {day}.", [kit, day])
    }

    /// No kit.
    pub(super) fn kit_none(self, day: &str) -> String {
        say!(self, "No kit in the set of {day}.", "Sin material en el entreno del {day}.", [day])
    }

    /// This kit.
    pub(super) fn kit_is(self, kit: &str, day: &str) -> String {
        say!(self, "Bring {kit}, {day}.", "Lleva {kit}, {day}.", [kit, day])
    }

    /// Not all of what was asked for, and what else.
    pub(super) fn kit_other(self, asked: &str, kit: &str, day: &str) -> String {
        say!(
            self,
            "Not {asked}: the set of {day} asks for {kit}.",
            "No {asked}: el entreno del {day} pide {kit}.",
            [asked, kit, day]
        )
    }

    /// Whether more fits in.
    pub(super) fn room(
        self,
        more: &str,
        takes: &str,
        left: &str,
        fits: bool,
        ends: Option<String>,
    ) -> String {
        let ends = match ends {
            Some(ends) => say!(
                self,
                " after the set ends {ends}",
                " tras acabar la serie a las {ends}",
                [ends]
            ),
            None => String::new(),
        };
        match fits {
            true => say!(
                self,
                "Yes: {more} takes {takes}, and {left} are left{ends}.",
                "Si: {more} son {takes}, y quedan {left}{ends}.",
                [more, takes, left, ends]
            ),
            false => say!(
                self,
                "No: {more} takes {takes}, and {left} are left{ends}.",
                "No: {more} son {takes}, y quedan {left}{ends}.",
                [more, takes, left, ends]
            ),
        }
    }

    /// A test is on.
    pub(super) fn test_is_on(self, distance: u32, day: &str) -> String {
        say!(
            self,
            "Yes: test {distance} on {day}.",
            "Si: test {distance} el {day}.",
            [distance, day]
        )
    }

    /// A test is on another day.
    pub(super) fn test_is_later(self, day: &str, distance: u32, on: &str) -> String {
        say!(
            self,
            "No test on {day}; the next is {distance} on {on}.",
            "El {day} no hay test; el proximo es {distance} el {on}.",
            [day, distance, on]
        )
    }

    /// No test is called.
    pub(super) fn no_test_on(self, day: &str) -> String {
        say!(self, "No test is called for {day}.", "No hay test convocado para el {day}.", [day])
    }
}
