//! In which words times, gaps and paces are told.

use crate::reply::Voice;
use crate::units::Unit;

impl Voice {
    /// So much off a time.
    pub(super) fn off(self, by: &str, to: &str, best: &str, each: &str) -> String {
        say!(
            self,
            "{by} off {to}{each}. Best: {best}.",
            "a {by} de {to}{each}. Mejor: {best}.",
            [by, to, best, each]
        )
    }

    /// Of that so much a piece.
    pub(super) fn each_piece(self, each: &str, piece: u32) -> String {
        say!(self, ", {each} each {piece}", ", {each} cada {piece}", [each, piece])
    }

    /// Under it already.
    pub(super) fn there_already(self, to: &str, best: &str) -> String {
        say!(
            self,
            "{to} is done already. Best: {best}.",
            "{to} ya esta hecho. Mejor: {best}.",
            [to, best]
        )
    }

    /// So much for a piece.
    pub(super) fn per_piece(self, each: &str, piece: u32) -> String {
        say!(self, "{each} per {piece}", "{each} cada {piece}", [each, piece])
    }

    /// What a time is for its pieces.
    pub(super) fn pace_is(self, each: &str, distance: u32, time: &str, best: &str) -> String {
        say!(
            self,
            "{each}: that is {time} for {distance}.{best}",
            "{each}: eso es {time} en {distance}.{best}",
            [each, distance, time, best]
        )
    }

    /// The best over it.
    pub(super) fn best_now(self, best: &str) -> String {
        say!(self, " Best now: {best}.", " Mejor ahora: {best}.", [best])
    }

    /// What so much for each piece comes to.
    pub(super) fn sum(self, piece: u32, each: &str, distance: u32, total: &str) -> String {
        say!(
            self,
            "{total} for {distance}, at {each} per {piece}.",
            "{total} en {distance}, a {each} cada {piece}.",
            [piece, each, distance, total]
        )
    }

    /// A time in another pool.
    pub(super) fn converted(self, from: &str, there: &str) -> String {
        say!(
            self,
            "{from} is about {there} by the clubs' turn rule. A rough guide; a test there says more.",
            "{from} son unos {there} por la regla de virajes. Es orientativo; un test alli dice mas.",
            [from, there]
        )
    }

    /// Nothing like it was swum before.
    pub(super) fn first_like_it(self, last: &str) -> String {
        say!(
            self,
            "{last}: nothing like it on record before, so it is a mark to build on.",
            "{last}: no hay nada igual antes, asi que es una primera marca.",
            [last]
        )
    }

    /// Slower by so much.
    pub(super) fn slower_than(self, by: &str, than: &str) -> String {
        say!(self, "{by} slower than {than}", "{by} mas lento que {than}", [by, than])
    }

    /// Faster by so much.
    pub(super) fn faster_than(self, by: &str, than: &str) -> String {
        say!(self, "{by} faster than {than}", "{by} menos que {than}", [by, than])
    }

    /// Neither.
    pub(super) fn the_same_as(self, than: &str) -> String {
        say!(self, "the same as {than}", "igual que {than}", [than])
    }

    /// The best is another one.
    pub(super) fn best_is(self, best: &str) -> String {
        say!(self, "Best: {best}.", "Mejor: {best}.", [best])
    }

    /// It is the best.
    pub(super) fn it_is_best(self) -> &'static str {
        self.pick("A best.", "Es la mejor marca.")
    }

    /// When it was last swum.
    pub(super) fn last_swum(self, ago: &str, day: &str, trial: Option<&str>) -> String {
        let what = trial.map(|trial| format!(": {trial}")).unwrap_or_default();
        format!("{ago}, {day}{what}.")
    }

    /// A test over so much.
    pub(super) fn test_over(self, what: &str) -> String {
        say!(self, "{what} test", "test de {what}", [what])
    }

    /// Something by the clock.
    pub(super) fn timed_swim(self) -> &'static str {
        self.pick("time", "tiempo")
    }

    /// No such time on record.
    pub(super) fn never(self, what: &str, days: Option<&str>) -> String {
        match days {
            Some(days) => say!(
                self,
                "no {what} on record for {days}.",
                "sin {what} registrado: {days}.",
                [what, days]
            ),
            None => say!(self, "no {what} on record.", "sin {what} registrado.", [what]),
        }
    }

    /// A mean.
    pub(super) fn mean_of(self, mean: &str, count: usize, distance: u32, day: &str) -> String {
        say!(
            self,
            "{mean} on average, {count}x{distance}, {day}.",
            "{mean} de media, {count}x{distance}, {day}.",
            [mean, count, distance, day]
        )
    }

    /// Lengths of a pool.
    pub(super) fn lengths_of(
        self,
        lengths: u32,
        distance: u32,
        unit: Unit,
        course: &str,
    ) -> String {
        let unit = if unit == Unit::Yard { "yd" } else { "m" };
        say!(
            self,
            "{lengths} lengths: {distance}{unit}, {course}.",
            "{lengths} largos: {distance}{unit}, {course}.",
            [lengths, distance, unit, course]
        )
    }
}
