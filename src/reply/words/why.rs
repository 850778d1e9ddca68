//! Why a number is what it is, and which rules decided.

use super::small::{first_upper, shown_pace};
use crate::coaching::{PaceFrom, Rule};
use crate::language::Language;
use crate::reply::shorthand::{repeat_shorthand, shown};
use crate::reply::{Voice, WhyMain};
use crate::swim::why::{
    CRITICAL_BY_CURVE, CRITICAL_FROM_ONE, Explanation, PREDICTED_BY_CURVE, PREDICTED_BY_LAW,
    Source, Sureness,
};
use crate::units::Start;

// What is told, and in which order.
impl Voice {
    /// Why a main set is swum in that time.
    pub(super) fn why_main(self, main: &WhyMain) -> String {
        let from = match &main.from {
            PaceFrom::Coach => self.pace_of_coach().to_owned(),
            PaceFrom::CriticalSpeed { percent, critical } => {
                self.pace_of_share(percent.round() as u32, &shown_pace(*critical))
            }
            PaceFrom::Race { distance, time } => {
                let pushed = distance.amount() <= SPRINT;
                self.pace_of_race(&distance.to_string(), &shown(*time), pushed)
            }
            PaceFrom::Test(pushed) => match &main.as_swum {
                Some((trial, began)) => self.pace_of_test(&self.trial(trial), Some(*began)),
                None => self.pace_of_test(&self.trial(pushed), None),
            },
        };
        let set = repeat_shorthand(&main.set, self);
        let target = main.set.target.map_or_else(String::new, shown);
        let rest = main.set.send_off.zip(main.set.target);
        let rest = rest.and_then(|(on, target)| on.rest_after(target));
        self.why_set(&set, &target, &from, rest.map(|rest| rest.hundredths().div_ceil(100)))
    }
}

// In which words.
impl Voice {
    /// Why a number is what it is.
    pub(super) fn explanation(self, explanation: &Explanation) -> String {
        match self.language {
            Language::English => {
                format!(
                    "{}: {}; {}. Source: {}. Sure: {}.",
                    first_upper(explanation.number),
                    explanation.formula,
                    explanation.with,
                    explanation.source,
                    explanation.sureness
                )
            }
            Language::Spanish => {
                let sure = match &explanation.sureness {
                    Sureness::Exact => "exacto".to_owned(),
                    Sureness::Band { low, high, .. } => format!("de {low} a {high}"),
                    Sureness::RuleOfThumb => "orientativo".to_owned(),
                    Sureness::DescribesOnly => "describe, no predice".to_owned(),
                };
                let source = match &explanation.source {
                    Source::Arithmetic => "aritmética",
                    Source::CommonPractice => CUSTOM,
                    Source::Published(text) => text,
                    Source::Table(text) => text,
                    Source::Ours(_) => OUR_CHOICE,
                };
                format!("{}. Fuente: {source}. Seguro: {sure}.", formula_in_spanish(explanation))
            }
        }
    }

    /// A rule that decided.
    pub(super) fn rule(self, rule: &Rule) -> String {
        let number = rule.number.map_or_else(String::new, |one| {
            format!(" {} {}", one.value, self.pick(one.unit, in_spanish(one.unit)))
        });
        let source = match rule.source {
            custom if custom.starts_with("common practice") => self.pick(custom, CUSTOM),
            ours if ours.starts_with("ours") => self.pick(ours, OUR_CHOICE),
            published => published,
        };
        format!("{} ({}{number}; {source})", self.sentence(rule.reason), rule.id)
    }

    /// A main set: its time to hold, where that comes from, the seconds of rest.
    fn why_set(self, set: &str, target: &str, from: &str, rest_s: Option<u32>) -> String {
        let rest = rest_s.map_or_else(String::new, |rest| {
            say!(
                self,
                "; {rest} s rest to keep it up",
                "; {rest} s de descanso para sostenerlo",
                [rest]
            )
        });
        say!(
            self,
            "{set}: {target} is {from}{rest}.",
            "{set}: {target} es {from}{rest}.",
            [set, target, from, rest]
        )
    }

    /// A time to hold is the coach's.
    fn pace_of_coach(self) -> &'static str {
        self.pick("the time that your coach set", "el tiempo que fijo tu coach")
    }

    /// It is a share of critical speed, whose pace per 100 is told.
    fn pace_of_share(self, percent: u32, critical: &str) -> String {
        say!(
            self,
            "{percent} % of your critical speed, about {critical} per 100",
            "el {percent} % de tu velocidad critica, unos {critical} por 100",
            [percent, critical]
        )
    }

    /// It is the pace of a race in a time, which is as from a push where that tells.
    fn pace_of_race(self, distance: &str, time: &str, pushed: bool) -> String {
        let pushed = if pushed { self.pick(" from a push", " desde la pared") } else { "" };
        say!(
            self,
            "the pace of your race, {distance} in {time}{pushed}",
            "el ritmo de tu prueba, {distance} en {time}{pushed}",
            [distance, time, pushed]
        )
    }

    /// It is the even pace of a test, which began in some other way than with a push.
    fn pace_of_test(self, trial: &str, began: Option<Start>) -> String {
        match began {
            Some(Start::Dive) => say!(
                self,
                "the pace of your {trial} (a dive), from a push",
                "el ritmo de tu {trial} (de salto), desde la pared",
                [trial]
            ),
            _ => say!(
                self,
                "the even pace of your {trial}",
                "el ritmo uniforme de tu {trial}",
                [trial]
            ),
        }
    }
}

/// Over so much the start tells in a race's time.
const SPRINT: u32 = 200;

/// What a rule's number counts; signs of units stand as they are.
fn in_spanish(unit: &str) -> &str {
    match unit {
        "days" => "dias",
        "of 10" => "de 10",
        "percent" => "%",
        "sets" => "series",
        "swims" => "entrenos",
        "weeks" => "semanas",
        "years" => "años",
        sign => sign,
    }
}

/// The formula of a number that a reply can be asked about, the same as in English; any
/// other as it stands.
fn formula_in_spanish(explanation: &Explanation) -> String {
    let words = match (explanation.number, explanation.formula) {
        ("even-pace target", _) => {
            "Objetivo a ritmo uniforme: tiempo x tramo / distancia (+ 0.5 s en un 25, 1 s en los \
             demas, tras un salto); salida = objetivo + descanso, hasta los 5 s siguientes"
        }
        ("held and missed", _) => {
            "Aguantada: mas lenta que el objetivo, como mucho, en el 2 % o 1.0 s, lo mayor (0.5 s \
             con décimas)"
        }
        (_, CRITICAL_FROM_ONE) => {
            "Ritmo critico por 100: T400 y T200 = tiempo x (400 o 200 / distancia)^1.095; por 100 \
             = (T400 - T200) / 2"
        }
        (_, CRITICAL_BY_CURVE) => {
            "Ritmo critico por 100: el 94 % de la velocidad en 400 por tu curva: cada resultado \
             tira en su distancia, menos cuanto mas viejo; las distancias cercanas tiran unas de \
             otras, las lejanas apenas"
        }
        (_, PREDICTED_BY_LAW) => {
            "Pronostico: tiempo = test x (distancia / la del test)^k, k = 1.07 (0.02) a falta de \
             otra distancia"
        }
        (_, PREDICTED_BY_CURVE) => {
            "Pronostico: tu curva, la forma usual movida por cada resultado en su distancia, menos \
             cuanto mas viejo y mas lejos; un resultado lejano dice poco"
        }
        (other, formula) => return format!("{}: {formula}", first_upper(other)),
    };
    words.to_owned()
}

const CUSTOM: &str = "costumbre del oficio";

const OUR_CHOICE: &str = "eleccion nuestra";
