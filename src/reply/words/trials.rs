//! A test that was reported: how it stands to the best, targets, critical pace.

use super::small::{difference, first_upper, shown_pace};
use crate::coaching::is_hard;
use crate::language::Language;
use crate::message::Name;
use crate::reply::shorthand::{repeat_shorthand, shown};
use crate::reply::{BegunReply, CautionKind, TargetsReply, TestReply, Voice};
use crate::swim::Trial;
use crate::swim::critical_speed::{Basis, Estimate};
use crate::swim::even_pace::Target;
use crate::units::{Centis, Distance, Start};

// What is told, and in which order.
impl Voice {
    /// A test.
    pub(in crate::reply) fn test(self, reply: &TestReply) -> Vec<String> {
        let trial = self.trial(&reply.trial);
        if reply.repeat {
            let what = of_another(reply.other, &reply.swimmer, &trial);
            return vec![first_upper(&self.stored_already(&what))];
        }
        let what = of_another(reply.other, &reply.swimmer, &trial);
        let mut lines = vec![self.stored_beside(
            &what,
            &self.trial_name(&reply.trial),
            BesideBest::of(reply.trial.time, reply.best_before),
        )];
        lines.extend(reply.goal.map(|goal| self.beside_goal(reply.trial.time, goal)));
        lines.extend(reply.farther.then(|| self.farther(&reply.trial.distance.to_string())));
        if !reply.targets.is_empty() {
            lines.push(self.even_pace(&self.targets_line(&reply.targets)));
        }
        lines.extend(reply.start_taken.map(|start| self.start_taken(start).to_owned()));
        lines.push(self.critical(&reply.critical, reply.test_next));
        lines.extend(
            reply.dropped.as_ref().map(|set| self.off_by_test(&repeat_shorthand(set, self))),
        );
        if let Some(session) = &reply.next {
            if is_hard(session) {
                lines.extend(self.caution_with(CautionKind::Effort));
            }
            let mut next = self.session_lines(session, vec![]);
            if let Some(head) = next.first_mut() {
                *head = format!("{} {head}", self.next());
            }
            lines.extend(next);
        }
        lines
    }

    /// How tests began, and what to hold after the one.
    pub(super) fn begun(self, reply: &BegunReply) -> Vec<String> {
        let one = |(whose, trial): &(Option<Name>, Trial)| match whose {
            Some(whose) => format!("{whose} {}", self.trial(trial)),
            None => self.trial(trial),
        };
        let tests: Vec<String> = reply.tests.iter().map(one).collect();
        let mut lines = vec![self.began(&tests.join(", "), reply.start)];
        if !reply.targets.is_empty() {
            lines.push(self.even_pace(&self.targets_line(&reply.targets)));
        }
        lines
    }

    /// On a card and beside the test's: those that the coach set.
    pub(super) fn by_coach_line(self, own: &[Target]) -> Option<String> {
        (!own.is_empty()).then(|| self.by_coach(&self.targets_line(own)))
    }

    /// `50s 48 on 1:15, 100s 1:36 on 2:30`
    pub(super) fn targets_line(self, targets: &[Target]) -> String {
        let one = |target: &Target| {
            let pace = self.target(target.distance.amount(), &shown(target.time));
            match target.send_off {
                Some(send_off) => format!("{pace} {} {send_off}", self.on()),
                None => pace,
            }
        };
        targets.iter().map(one).collect::<Vec<_>>().join(", ")
    }

    /// Critical pace, its band, and the test that would tell most.
    fn critical(self, estimate: &Estimate, test_next: Option<Distance>) -> String {
        let test_next = test_next.map(Distance::amount);
        let Some(band) = &estimate.band else {
            return self.no_critical(test_next);
        };
        let band = ShownBand {
            pace: shown_pace(band.pace),
            low: shown_pace(band.low),
            high: shown_pace(band.high),
        };
        let sharpened = test_next.map(|next| self.sharpened_by(next)).unwrap_or_default();
        match estimate.basis {
            Basis::OneTest => self.critical_guess(&band, &sharpened),
            _ => self.critical_from(estimate.made_from.len(), &band, &sharpened),
        }
    }

    /// Times to hold.
    pub(in crate::reply) fn targets(self, reply: &TargetsReply) -> Vec<String> {
        let mut lines = vec![self.targets_from(
            &self.trial(&reply.trial),
            &self.short_day(reply.trial.on),
            &self.targets_line(&reply.targets),
        )];
        lines.extend(self.by_coach_line(&reply.own));
        lines.push(self.critical(&reply.critical, None));
        lines
    }
}

// In which words.
impl Voice {
    /// A result is stored, and no more is said of it.
    pub(super) fn stored(self, what: &str) -> String {
        say!(self, "{what} stored.", "Guardado: {what}.", [what])
    }

    /// A result sent a second time; it is kept once.
    pub(super) fn stored_already(self, what: &str) -> String {
        say!(
            self,
            "{what} was stored already, minutes ago: kept once.",
            "{what} ya estaba guardado, hace unos minutos: cuenta una vez.",
            [what]
        )
    }

    /// A test is stored; how it stands to the best before. `name` is the test
    /// without its time.
    fn stored_beside(self, what: &str, name: &str, best: BesideBest) -> String {
        match best {
            BesideBest::First => say!(
                self,
                "{what} stored - a first {name}, a mark to build on.",
                "Guardado: {what}. Primer {name}: buen punto de partida.",
                [what, name]
            ),
            BesideBest::Faster(by) => say!(
                self,
                "{what} stored, a best by {by}. Well swum!",
                "Guardado: {what}, mejor marca por {by}. ¡Muy bien nadado!",
                [what, by = difference(by)]
            ),
            BesideBest::Equal => say!(
                self,
                "{what} stored, equal to the best.",
                "Guardado: {what}, igual que la mejor marca.",
                [what]
            ),
            BesideBest::Slower { by, best } => say!(
                self,
                "{what} stored, {by} off the best, {best}.",
                "Guardado: {what}, a {by} de la mejor marca, {best}.",
                [what, by = difference(by), best = best.short()]
            ),
        }
    }

    /// The time of a race beside what was hoped for.
    fn beside_goal(self, time: Centis, goal: Centis) -> String {
        match (goal.less(time), time.less(goal)) {
            (Some(by), _) => say!(
                self,
                "Goal {goal}: met, with {by} to spare. Well raced!",
                "Objetivo {goal}: logrado, con {by} de sobra. ¡Enhorabuena!",
                [goal = goal.short(), by = difference(by)]
            ),
            (_, Some(by)) => say!(
                self,
                "{by} over your goal of {goal}: still to come.",
                "A {by} de tu objetivo de {goal}: ya llegara.",
                [by = difference(by), goal = goal.short()]
            ),
            (None, None) => say!(
                self,
                "Goal {goal}: met to the point. Well raced!",
                "Objetivo {goal}: clavado. ¡Enhorabuena!",
                [goal = goal.short()]
            ),
        }
    }

    /// Somebody swam farther without a stop than ever before here.
    fn farther(self, distance: &str) -> String {
        say!(
            self,
            "{distance} without a stop, for the first time here: a milestone!",
            "{distance} sin parar, por primera vez aqui: ¡un hito!",
            [distance]
        )
    }

    /// How a test is taken to have begun, and what to text if not.
    pub(super) fn start_taken(self, start: Start) -> &'static str {
        match start {
            Start::Push => self.pick(
                "Taken as from a push; if not, text DIVE.",
                "Cuenta como salida desde la pared; si no, escribe DE SALTO.",
            ),
            Start::Dive => self.pick(
                "Taken as from a dive; if not, text PUSH.",
                "Cuenta como salida de salto; si no, escribe EMPUJE.",
            ),
            Start::Water => self.pick(
                "Taken as from a start in the water; if not, text PUSH.",
                "Cuenta como salida en el agua; si no, escribe EMPUJE.",
            ),
        }
    }

    /// How a test or several began.
    fn began(self, tests: &str, start: Start) -> String {
        match start {
            Start::Push => say!(self, "{tests}: from a push.", "{tests}: desde la pared.", [tests]),
            Start::Dive => say!(
                self,
                "{tests}: from a dive. From a push, as repeats begin:",
                "{tests}: de salto. Desde la pared, como salen las series:",
                [tests]
            ),
            Start::Water => {
                say!(self, "{tests}: from the water.", "{tests}: desde el agua.", [tests])
            }
        }
    }

    /// Targets at even pace.
    fn even_pace(self, targets: &str) -> String {
        say!(self, "Even pace: {targets}.", "Ritmo uniforme: {targets}.", [targets])
    }

    /// Targets that the coach set in place of the computed ones.
    fn by_coach(self, targets: &str) -> String {
        say!(self, "By the coach: {targets}.", "Del entrenador: {targets}.", [targets])
    }

    /// A target: a distance and the time for each.
    fn target(self, distance: u32, time: &str) -> String {
        say!(self, "{distance}s {time}", "{distance} en {time}", [distance, time])
    }

    /// Which test would sharpen an estimate, to follow it.
    fn sharpened_by(self, distance: u32) -> String {
        let test = self.a_test(distance);
        say!(self, "; {test} would sharpen it", "; {test} lo afinaria", [test])
    }

    /// Critical pace from one test.
    fn critical_guess(self, band: &ShownBand, sharpened: &str) -> String {
        let ShownBand { pace, low, high } = band;
        say!(
            self,
            "Critical pace about {pace} per 100, a guess from one test ({low}-{high}){sharpened}.",
            "Ritmo critico: unos {pace} por 100, calculado con un test ({low}-{high}){sharpened}.",
            [pace, low, high, sharpened]
        )
    }

    /// Critical pace from several tests.
    fn critical_from(self, tests: usize, band: &ShownBand, sharpened: &str) -> String {
        let ShownBand { pace, low, high } = band;
        say!(
            self,
            "Critical pace about {pace} per 100 ({low}-{high}, from {tests} tests){sharpened}.",
            "Ritmo critico: unos {pace} por 100 ({low}-{high}, de {tests} tests){sharpened}.",
            [pace, low, high, tests, sharpened]
        )
    }

    /// No critical pace; what to test for one.
    fn no_critical(self, test_next: Option<u32>) -> String {
        match test_next {
            Some(distance) => say!(
                self,
                "No critical pace from this yet: swim {test} next.",
                "Con esto aun no hay ritmo critico: toca {test}.",
                [test = self.a_test(distance)]
            ),
            None => {
                say!(self, "No critical pace from this yet.", "Con esto aun no hay ritmo critico.")
            }
        }
    }

    /// `a 400 test`, `an 800 test`
    fn a_test(self, distance: u32) -> String {
        match self.language {
            Language::English if distance.to_string().starts_with('8') => {
                format!("an {distance} test")
            }
            Language::English => format!("a {distance} test"),
            Language::Spanish => format!("un test de {distance}"),
        }
    }

    /// Before the first line of the session that follows a test.
    fn next(self) -> &'static str {
        self.pick("Next", "Siguiente:")
    }

    /// From which test, of which day, targets come.
    fn targets_from(self, trial: &str, day: &str, targets: &str) -> String {
        say!(
            self,
            "From {trial} ({day}): {targets}.",
            "Del {trial} ({day}): {targets}.",
            [trial, day, targets]
        )
    }

    /// The set promised before is off, the paces being new.
    pub(super) fn off_by_test(self, set: &str) -> String {
        say!(
            self,
            "The {set} that was to come is off: new paces.",
            "La serie {set} que tocaba ya no vale: hay ritmos nuevos.",
            [set]
        )
    }
}

/// A pace and its band, as they are meant to be read.
#[derive(Debug)]
pub struct ShownBand {
    /// The best guess, per 100.
    pub pace: String,
    /// The fast edge.
    pub low: String,
    /// The slow edge.
    pub high: String,
}

/// How a test stands to the best before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BesideBest {
    /// There was none.
    First,
    /// Faster by so much.
    Faster(Centis),
    /// The same.
    Equal,
    /// Slower.
    Slower {
        /// By so much.
        by: Centis,
        /// Than this.
        best: Centis,
    },
}

impl BesideBest {
    /// How `time` stands to the best before it.
    pub fn of(time: Centis, best: Option<Centis>) -> Self {
        let Some(best) = best else {
            return BesideBest::First;
        };
        match (best.less(time), time.less(best)) {
            (Some(by), _) => BesideBest::Faster(by),
            (None, Some(by)) => BesideBest::Slower { by, best },
            (None, None) => BesideBest::Equal,
        }
    }
}

/// What is said, with their name before it where it is not the sender's own.
pub(super) fn of_another(other: bool, swimmer: &Name, what: &str) -> String {
    if other { format!("{swimmer} {what}") } else { what.to_owned() }
}
