//! A set that was reported: what was held and lost, and what changes next time.

use super::small::first_upper;
use super::trials::of_another;
use crate::coaching::Change;
use crate::language::Language;
use crate::reply::shorthand::{line_shorthand, repeat_shorthand, shown};
use crate::reply::{SetReply, Voice};
use crate::session::Repeat;
use crate::swim::set::{SetAnalysis, Shape};
use crate::units::Centis;

// What is told, and in which order.
impl Voice {
    /// The first line of what a swimmer hears of a set that the coach told.
    pub fn coach_told_of(self, set: &Repeat) -> String {
        self.coach_told(&line_shorthand(set, self))
    }

    /// A set.
    pub(in crate::reply) fn set(self, reply: &SetReply) -> Vec<String> {
        let feedback = &reply.feedback;
        let of_whom = |what: &str| of_another(reply.other, &reply.swimmer, what);
        if reply.repeat {
            let what = of_whom(&repeat_shorthand(&reply.set, self));
            return vec![first_upper(&self.stored_already(&what))];
        }
        let first = match &feedback.analysis {
            Some(analysis) => of_whom(&self.held_and_lost(analysis, reply.set.target)),
            None => self.stored(&of_whom(&repeat_shorthand(&reply.set, self))),
        };
        let mut lines = vec![first_upper(&first)];
        // The mean of what was only said to be made is the time to hold.
        let told = |shape: &&Shape| {
            shape.spread.get() > 0.0 || reply.set.target.is_none_or(|target| shape.best != target)
        };
        if let Some(shape) = feedback.shape.as_ref().filter(told) {
            let mean = Centis::from_seconds(shape.mean.get())
                .map_or_else(|_| "?".to_owned(), |time| time.to_tenth().short());
            let mut line = self.mean(&mean);
            // Under half a tenth it is no fade.
            if let Some(fade) = shape.fade.filter(|fade| fade.get().abs() >= 0.05) {
                line.push_str(&format!(", {}", self.fade(fade.get())));
            }
            lines.push(format!("{line}."));
        }
        if feedback.slower_is_fine {
            lines.push(self.slower_is_fine().to_owned());
        }
        let change = &feedback.change;
        if reply.promised || feedback.is_of_pace() {
            let set = repeat_shorthand(&change.set, self);
            let when = match reply.promised {
                true => self.next_hard_swim(),
                false => self.swum_again(),
            };
            lines.push(self.change(
                change.what,
                &format!("{when} {set}"),
                &change.set.target.map_or_else(String::new, shown),
                feedback.analysis.as_ref().is_some_and(|analysis| analysis.missed == 0),
            ));
        }
        if let Some(replaced) = &reply.replaced {
            lines.push(self.in_place_of(&repeat_shorthand(replaced, self)));
        }
        lines
    }

    /// `held 6 of 8 at 48, lost 2, the first at number 7.`
    fn held_and_lost(self, analysis: &SetAnalysis, target: Option<Centis>) -> String {
        let target = target.map(shown);
        let mut parts = vec![self.held(analysis.held, analysis.repeats, target.as_deref())];
        if analysis.missed > 0 {
            parts.push(self.lost(analysis.missed));
        }
        if let Some(number) = analysis.first_lost {
            parts.push(self.first_lost(number));
        }
        format!("{}.", parts.join(", "))
    }
}

// In which words.
impl Voice {
    /// So many of so many held, perhaps at a target.
    pub(super) fn held(self, held: usize, of: usize, target: Option<&str>) -> String {
        match target {
            Some(target) => say!(
                self,
                "held {held} of {of} at {target}",
                "{held} de {of} aguantadas a {target}",
                [held, of, target]
            ),
            None => say!(self, "held {held} of {of}", "{held} de {of} aguantadas", [held, of]),
        }
    }

    /// So many lost.
    fn lost(self, lost: usize) -> String {
        format!("{} {lost}", self.one_or_many(lost, ["lost"; 2], ["se fue", "se fueron"]))
    }

    /// The number of the first that was lost.
    fn first_lost(self, number: usize) -> String {
        say!(self, "the first at number {number}", "la primera, la {number}", [number])
    }

    /// The mean of a set.
    fn mean(self, mean: &str) -> String {
        say!(self, "Mean {mean}", "Media {mean}", [mean])
    }

    /// Seconds slower from one repeat to the next.
    pub fn fade(self, seconds: f64) -> String {
        match self.language {
            Language::English => {
                let way = if seconds > 0.0 { "slower" } else { "faster" };
                format!("{:.1} s {way} from one to the next", seconds.abs())
            }
            Language::Spanish => {
                format!("{seconds:+.1} s en cada repeticion")
            }
        }
    }

    /// A kind of set that may always be slower.
    fn slower_is_fine(self) -> &'static str {
        self.pick(
            "This kind of set may always be slower; form first.",
            "Este tipo de serie siempre puede ir mas lento; primero, la técnica.",
        )
    }

    /// The one change for next time, and on what to start; all of it was `held` or not.
    pub fn change(self, what: Change, set: &str, target: &str, held: bool) -> String {
        match what {
            Change::FewerRepeats => {
                say!(self, "{set}: fewer, same pace.", "{set}: menos, al mismo ritmo.", [set])
            }
            Change::LongerSendOff => say!(
                self,
                "{set}: more rest, same pace.",
                "{set}: mas descanso, al mismo ritmo.",
                [set]
            ),
            Change::MoreRepeats => say!(
                self,
                "Held well! {set}: a step more.",
                "¡Bien aguantado! {set}: un paso mas.",
                [set]
            ),
            Change::ShorterSendOff => say!(
                self,
                "Held well! {set}: less rest.",
                "¡Bien aguantado! {set}: menos descanso.",
                [set]
            ),
            Change::FasterTarget => say!(
                self,
                "Twice held! {set}: a little faster.",
                "¡Dos veces aguantado! {set}: un poco mas rapido.",
                [set]
            ),
            Change::SlowerStart => say!(
                self,
                "Too fast at first. {set}: start on {target}.",
                "Salida muy rapida. {set}: empieza en {target}.",
                [set, target]
            ),
            Change::Same if held => say!(
                self,
                "All held! {set}: the same again.",
                "¡Todas aguantadas! {set}: lo mismo.",
                [set]
            ),
            Change::Same => say!(self, "{set}: the same again.", "{set}: lo mismo.", [set]),
            Change::Rest => say!(
                self,
                "Off the pace from the start: no change of set. Slept badly, ill or sore? Easy \
                 swim next; text how you are.",
                "El ritmo no salio desde el principio: la serie no cambia. ¿Dormiste mal, hay \
                 malestar o dolor? Lo siguiente es suave; escribe como estas."
            ),
            Change::Retest => say!(
                self,
                "Cut back twice on this target: it is out of date. Time for a new test.",
                "Dos recortes con este objetivo: ya no vale. Toca un test nuevo."
            ),
        }
    }

    /// When the set that a result leads to is swum.
    fn next_hard_swim(self) -> &'static str {
        self.pick("Next hard swim", "Proximo dia fuerte")
    }

    /// The same for a set that is in no session of ours.
    fn swum_again(self) -> &'static str {
        self.pick("When you swim it again,", "Cuando la repitas,")
    }

    /// The set promised before is off, this one comes in its place.
    fn in_place_of(self, set: &str) -> String {
        say!(
            self,
            "That comes in place of {set}, which is off.",
            "Va en lugar de {set}, que ya no toca.",
            [set]
        )
    }

    /// The coach has told of their set: what it was.
    fn coach_told(self, set: &str) -> String {
        say!(self, "From your coach: {set}.", "De tu entrenador: {set}.", [set])
    }
}
