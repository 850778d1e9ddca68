//! What of a set is too long, too tight or too fast for a lane, and what would fit.

use super::side_by_side::alike_by;
use crate::coaching::evening::{Beyond, GivenUp, Tight};
use crate::reply::shorthand::shown;
use crate::reply::{EveningReply, TooLong, Voice};
use crate::session::Repeat;
use crate::units::Stroke;

// What is told, and in which order.
impl Voice {
    /// The lanes that are longer than the booking, and what would fit: a line for
    /// one, for several by how much each, then what to give up.
    pub(super) fn too_long_for(self, reply: &EveningReply) -> Vec<String> {
        let long = reply.lanes.iter().filter_map(|one| Some((one.lane, one.too_long.as_ref()?)));
        let long: Vec<(u8, &TooLong)> = long.collect();
        if let [(lane, too_long)] = long.as_slice() {
            return vec![self.does_not_fit(&self.lane(*lane), too_long, reply)];
        }
        let by = long.iter().map(|(lane, it)| {
            format!("{} {}", self.lane(*lane), self.minutes_over(it.by_s.div_ceil(60)))
        });
        let by: Vec<String> = by.collect();
        if by.is_empty() {
            return Vec::new();
        }
        let fits = long.iter().map(|(lane, it)| {
            let what = match it.fits {
                true => self.without(&it.without),
                false => self.never_fits().trim_end_matches('.').to_lowercase(),
            };
            (*lane, what)
        });
        let fits = alike_by(fits, |lanes| self.named(lanes)).into_iter();
        let fits: Vec<String> = fits.map(|(lanes, what)| format!("{lanes} {what}")).collect();
        let over = self.over_booked(reply.minutes, &by.join(", "));
        vec![over, self.fits_with(&fits.join("; "))]
    }

    /// `L2 is 3 min over the 60 booked. To fit: 6x50, not 8.`
    fn does_not_fit(self, lane: &str, too_long: &TooLong, reply: &EveningReply) -> String {
        let over = self.too_long(lane, too_long.by_s.div_ceil(60), reply.minutes);
        match too_long.fits {
            true => format!("{over} {}", self.fits_with(&self.without(&too_long.without))),
            false => format!("{over} {}", self.never_fits()),
        }
    }

    /// `no 4x25 drill; 6x50, not 8`; of a line that is begun, what is still to be
    /// swum of it: `3x50 more, not 5`.
    pub fn without(self, given_up: &[GivenUp]) -> String {
        let one = |one: &GivenUp| match one.left {
            0 if one.swum > 0 => self.no_more(&format!(
                "{}{}",
                one.line.distance.amount(),
                self.said_stroke(&one.line)
            )),
            0 => self.left_out(&self.plain(&one.line)),
            left => {
                let stroke = self.said_stroke(&one.line);
                let left = format!("{left}x{}{stroke}", one.line.distance.amount());
                match one.swum {
                    0 => self.fewer(&left, one.line.count),
                    _ => self.more_of(&left, one.line.count),
                }
            }
        };
        given_up.iter().map(one).collect::<Vec<_>>().join("; ")
    }

    /// A line by count, distance and stroke alone.
    pub(super) fn plain(self, line: &Repeat) -> String {
        let stroke = self.said_stroke(line);
        match line.count {
            1 => format!("{}{stroke}", line.distance.amount()),
            count => format!("{count}x{}{stroke}", line.distance.amount()),
        }
    }

    /// ` kick`; nothing for free.
    pub(super) fn said_stroke(self, line: &Repeat) -> String {
        match line.stroke {
            Stroke::Free => String::new(),
            stroke => format!(" {}", self.stroke(stroke)),
        }
    }

    /// `L2: 50s on 1:15 are tight, 1:25 would fit.`
    pub(super) fn tight(self, lane: &str, tight: &Tight) -> String {
        let far = format!("{}{}", tight.line.distance.amount(), self.said_stroke(&tight.line));
        let on = tight.line.send_off.map(|on| format!(" {} {on}", self.on())).unwrap_or_default();
        self.is_tight(lane, &format!("{far}{on}"), &tight.fits.to_string(), tight.guess)
    }

    /// `L3: 48 for the 50s is beyond 5 of 6; about 1:02 is hard work there.`
    pub(super) fn beyond(self, lane: &str, beyond: &Beyond) -> String {
        let time = beyond.line.target.map(shown).unwrap_or_default();
        let hold = format!("{} {time}", self.plain(&beyond.line));
        self.is_beyond(lane, &hold, beyond, beyond.own.map(shown).as_deref())
    }
}

// In which words.
impl Voice {
    /// A lane is so many minutes longer than the booking.
    fn too_long(self, lane: &str, over_min: u32, booked_min: u16) -> String {
        say!(
            self,
            "{lane} is {over_min} min over the {booked_min} booked.",
            "{lane} pasa {over_min} min de los {booked_min} reservados.",
            [lane, over_min, booked_min]
        )
    }

    /// So many minutes over, of one of several lanes.
    fn minutes_over(self, minutes: u32) -> String {
        say!(self, "by {minutes} min", "{minutes} min", [minutes])
    }

    /// Several lanes are longer than the booking, each by so much.
    fn over_booked(self, booked_min: u16, lanes: &str) -> String {
        say!(
            self,
            "Over the {booked_min} booked: {lanes}.",
            "Pasan de los {booked_min} reservados: {lanes}.",
            [booked_min, lanes]
        )
    }

    /// It fits with so much given up.
    pub fn fits_with(self, what: &str) -> String {
        say!(self, "To fit: {what}.", "Para que quepa: {what}.", [what])
    }

    /// Nothing that could be given up makes it fit.
    pub fn never_fits(self) -> &'static str {
        self.pick(
            "Nothing but the swim-down would fit.",
            "No cabe nada mas que la vuelta a la calma.",
        )
    }

    /// `6x50, not 8`
    fn fewer(self, left: &str, had: u16) -> String {
        say!(self, "{left}, not {had}", "{left}, no {had}", [left, had])
    }

    /// `3x50 more, not 5`, of a line that is begun.
    fn more_of(self, left: &str, had: u16) -> String {
        say!(self, "{left} more, not {had}", "{left} mas, no {had}", [left, had])
    }

    /// Nothing is left of a line that is begun.
    fn no_more(self, line: &str) -> String {
        say!(self, "no more {line}", "ningun {line} mas", [line])
    }

    /// Nothing is left of a line.
    fn left_out(self, line: &str) -> String {
        say!(self, "no {line}", "sin {line}", [line])
    }

    /// A lane's slowest can't make a send-off, which stands; what would fit, and
    /// whether that is a guess.
    fn is_tight(self, lane: &str, line: &str, fits: &str, guess: bool) -> String {
        let guess = if guess { self.pick(" (a guess)", " (estimado)") } else { "" };
        say!(
            self,
            "{lane}: {line} is tight, {fits} would fit{guess}.",
            "{lane}: {line} va justo, con {fits} cabe{guess}.",
            [lane, line, fits, guess]
        )
    }

    /// A time to hold is beyond so many of a lane; what would be hard work there.
    fn is_beyond(self, lane: &str, hold: &str, beyond: &Beyond, own: Option<&str>) -> String {
        let own = own.map(|own| {
            say!(self, "; about {own} is hard work there", "; unos {own} ya es duro alli", [own])
        });
        let own = own.unwrap_or_default();
        say!(
            self,
            "{lane}: {hold} is beyond {swimmers} of {of}{own}.",
            "{lane}: {hold} no esta al alcance de {swimmers} de {of}{own}.",
            [lane, hold, swimmers = beyond.swimmers, of = beyond.of, own]
        )
    }
}
