//! The squad's page: its headings and labels, and the few sentences that no
//! text says.

use super::unwell::{Soreness, Spare, place_in_spanish};
use crate::history::TroubleKind;
use crate::language::Language;
use crate::reply::{Trend, Voice};

// What is told, and in which order.
impl Voice {
    /// What something that is open lets them swim.
    pub fn lets_swim(self, kind: &TroubleKind) -> String {
        match kind {
            TroubleKind::Faint => self.no_swimming().to_owned(),
            TroubleKind::Pain { place, level } => {
                let spared = match Soreness::of(*level) {
                    Soreness::Light => self.no_paddles(),
                    Soreness::Felt if Spare::of(place) == Spare::Water => {
                        return self.spare(Spare::Water).to_owned();
                    }
                    Soreness::Felt => self.spare(Spare::of(place)),
                    Soreness::Severe => return self.stop_for_today().to_owned(),
                };
                format!("{spared}; {}", self.easy_version())
            }
            TroubleKind::Ill { fever: true, .. } => self.no_swimming().to_owned(),
            TroubleKind::Ill { .. } | TroubleKind::Held | TroubleKind::Eased => {
                self.easy_version().to_owned()
            }
        }
    }
}

// In which words.
impl Voice {
    /// The time that the page is as of.
    pub fn as_of(self, time: &str) -> String {
        say!(self, "as of {time}", "a las {time}", [time])
    }

    /// What to leave out where it hurts a little.
    fn no_paddles(self) -> &'static str {
        self.pick("no paddles", "sin palas")
    }

    /// Nothing may be swum.
    pub fn no_swimming(self) -> &'static str {
        self.pick("no swimming", "no nada")
    }

    /// The easy version of what the lane swims.
    pub fn easy_version(self) -> &'static str {
        self.pick("swims the easy version", "nada la versión suave")
    }

    /// Stop for today.
    fn stop_for_today(self) -> &'static str {
        self.pick(
            "done for today; the next session is lowered",
            "por hoy basta; la próxima sesión es menor",
        )
    }

    /// Since when something is open: a day, or a time today.
    pub fn since(self, when: &str) -> String {
        say!(self, "since {when}", "desde {when}", [when])
    }

    /// The place that hurts, by its English name.
    pub fn hurts(self, place: &str) -> String {
        match self.language {
            Language::English => place.to_owned(),
            Language::Spanish => place_in_spanish(place).unwrap_or("dolor").to_owned(),
        }
    }

    /// Pain of that level of ten.
    pub fn level_of_ten(self, level: u8) -> String {
        say!(self, "{level} of 10", "{level} de 10", [level])
    }

    /// Who lets them swim again: the reader or the coach.
    pub fn released_by(self, you: bool, who: &str) -> String {
        if you {
            say!(self, "you text RELEASE {who}", "tú escribas LIBERA {who}", [who])
        } else {
            say!(self, "the coach releases them", "lo libere el entrenador")
        }
    }

    /// Whether they say that a clinician has cleared them.
    pub fn clinicians_word(self, said: bool) -> &'static str {
        if said {
            self.pick("they say a clinician cleared it", "dice que un médico da el alta")
        } else {
            self.pick("no clinician's word yet", "aún sin palabra del médico")
        }
    }

    /// Whether their guardian has agreed.
    pub fn guardians_word(self, said: bool) -> &'static str {
        if said {
            self.pick("the guardian agrees", "el tutor está de acuerdo")
        } else {
            self.pick("the guardian has not agreed yet", "el tutor aún no ha dicho que sí")
        }
    }

    /// They end it themselves.
    pub fn ends_it_alone(self) -> &'static str {
        self.pick("the swimmer texts BETTER", "escriba MEJOR")
    }

    /// A minor, and who is responsible; none goes by a name where it is empty.
    pub fn minor(self, adult: Option<&str>) -> String {
        match adult {
            Some(adult) => say!(self, "minor: {adult} answers", "menor: responde {adult}", [adult]),
            None => say!(self, "minor: the guardian answers", "menor: responde su tutor"),
        }
    }

    /// A minor for whom nobody has agreed.
    pub fn minor_alone(self) -> &'static str {
        self.pick("minor: no guardian has agreed", "menor: sin tutor de acuerdo")
    }

    /// Minutes after the start.
    pub fn minutes_late(self, minutes: u16) -> String {
        say!(self, "{minutes} min late", "{minutes} min tarde", [minutes])
    }

    /// Seconds between two who leave behind each other.
    pub fn gap(self, seconds: u32) -> String {
        say!(self, "{seconds} s apart", "cada {seconds} s", [seconds])
    }

    /// How many are at the pool of all who could be.
    pub fn head_count(self, here: usize, of: usize) -> String {
        say!(self, "{here} of {of} at the pool", "{here} de {of} en la piscina", [here, of])
    }

    /// Which of some repeats, before the words that say how many of what.
    pub fn nth_of(self, number: u16) -> String {
        match self.language {
            Language::English => {
                let ending = match (number % 10, number % 100) {
                    (_, 11..=13) => "th",
                    (1, _) => "st",
                    (2, _) => "nd",
                    (3, _) => "rd",
                    _ => "th",
                };
                format!("{number}{ending} of")
            }
            Language::Spanish => {
                format!("{number}.\u{aa} de")
            }
        }
    }

    /// A round of so many.
    pub fn round_of(self, round: u16, of: u16) -> String {
        say!(self, "round {round} of {of}", "vuelta {round} de {of}", [round, of])
    }

    /// Minutes longer than what is booked.
    pub fn over_by(self, minutes: u32) -> String {
        say!(self, "{minutes} min too long", "sobran {minutes} min", [minutes])
    }

    /// So many repeats held of so many.
    pub fn held_of(self, held: usize, of: usize) -> String {
        say!(self, "held {held} of {of}", "{held} de {of} a ritmo", [held, of])
    }

    /// What a test says beside the one before.
    pub fn verdict(self, trend: Trend) -> &'static str {
        match trend {
            Trend::Up => self.pick("faster, a real change", "más rápido, un cambio real"),
            Trend::Down => self.pick("slower, a real change", "más lento, un cambio real"),
            Trend::Flat => self.pick("too close to say", "demasiado cerca para decir"),
            Trend::Unknown => self.pick("the first of its kind", "el primero así"),
        }
    }

    /// Nights come of nights swum.
    pub fn nights(self, came: usize, of: usize) -> String {
        say!(
            self,
            "{came} of {of}",
            "{came} de {of}",
            [came, of = self.count(of, ["night", "nights"], ["noche", "noches"])]
        )
    }

    /// Days reported.
    pub fn days(self, number: usize) -> String {
        self.count(number, ["day", "days"], ["día", "días"])
    }
}
