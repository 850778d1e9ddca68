//! Figures made plain: the many spellings of a time, a distance, a date or a
//! repeat, each turned into the one shape that the grammar reads.
//!
//! Nothing is worked out here: a figure that the grammar doesn't know (`1:60`)
//! stays as it is, and is turned down there.

use super::words::Words;

/// A figure's tokens, and where the text goes on.
pub struct Figure {
    /// One or more tokens in the grammar's shape.
    pub tokens: Vec<String>,
    /// The index of the first character after it.
    pub end: usize,
}

/// What the figure stands after, where that changes how it is read.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum After {
    /// Anything else.
    Other,
    /// A comma, so that another comma belongs to a list, not to decimals.
    Comma,
    /// A time that may be one of a list of results, so that a lone `x` may be a
    /// missed one.
    Result,
    /// A time in a list of results: a lone `x` is a missed one.
    Listed,
}

/// Reads the figure that begins at `start`, where a digit stands.
pub fn read(text: &[char], start: usize, after: After, words: &Words) -> Figure {
    let scan = Scan { text, words };
    let (first, at) = scan.digits(start);
    let follows = |c: char| scan.is(at, c) && scan.is_digit(at + 1);
    let is_repeat = scan.repeat(&first, at, after);
    if let Some(figure) = is_repeat {
        figure
    } else if follows(':') {
        scan.colon(first, at)
    } else if follows('.') {
        scan.dot(first, at)
    } else if follows(',') && after != After::Comma {
        scan.comma(first, at)
    } else if scan.is(at, '\'') || scan.is(at, '"') {
        scan.quote(first, at)
    } else if follows('/') {
        scan.slash(first, at)
    } else if follows('-') {
        scan.dash(first, at)
    } else {
        scan.unit(first, at)
    }
}

struct Scan<'a> {
    text: &'a [char],
    words: &'a Words,
}

impl<'a> Scan<'a> {
    /// The text from a place on; nothing past the end.
    fn rest_from(&self, at: usize) -> &'a [char] {
        self.text.get(at..).unwrap_or_default()
    }

    fn is(&self, at: usize, c: char) -> bool {
        self.text.get(at) == Some(&c)
    }

    fn is_digit(&self, at: usize) -> bool {
        self.text.get(at).is_some_and(char::is_ascii_digit)
    }

    fn digits(&self, from: usize) -> (String, usize) {
        let digits: String =
            self.rest_from(from).iter().take_while(|c| c.is_ascii_digit()).collect();
        let end = from + digits.len();
        (digits, end)
    }

    fn skip_spaces(&self, from: usize) -> usize {
        let rest = self.rest_from(from);
        from + rest.iter().take_while(|&&c| c == ' ').count()
    }

    fn word(&self, from: usize) -> (String, usize) {
        let letters: String =
            self.rest_from(from).iter().take_while(|c| c.is_alphabetic()).collect();
        let end = from + letters.chars().count();
        (letters, end)
    }

    /// The unit that stands at `from` or after spaces, and where it ends. Bare
    /// `y` and `x`-like letters count only when they touch the number.
    fn unit_at(&self, from: usize) -> Option<(&'static str, usize)> {
        let at = self.skip_spaces(from);
        let (word, end) = self.word(at);
        let unit = self.words.unit(&word)?;
        let touches = at == from;
        let short = word.chars().count() == 1 && word != "m" && word != "k" && word != "s";
        if touches || !(short || matches!(unit, "th" | "h")) { Some((unit, end)) } else { None }
    }

    fn one(&self, token: String, end: usize) -> Figure {
        Figure { tokens: vec![token], end }
    }

    /// `8x50`, `8 x 50m`, `3x(`
    fn repeat(&self, count: &str, at: usize, after: After) -> Option<Figure> {
        let sign = self.skip_spaces(at);
        let is_sign = self.is(sign, 'x') || self.is(sign, 'X') || self.is(sign, '*');
        if !is_sign {
            return None;
        }
        let next = self.skip_spaces(sign + 1);
        if self.is(next, '(') {
            return Some(self.one(format!("{count}x("), next + 1));
        }
        if !self.is_digit(next) {
            return None;
        }
        let (amount, end) = self.digits(next);
        let spaced = sign > at && next > sign + 1;
        let likely = amount.parse::<u32>().is_ok_and(|n| n.is_multiple_of(25))
            && count.parse::<u32>().is_ok_and(|n| n <= 30);
        if spaced && (after == After::Listed || (after == After::Result && !likely)) {
            return None;
        }
        if self.is(end, '.') && self.is_digit(end + 1) {
            let (decimals, end) = self.digits(end + 1);
            if let Some(("km", end)) = self.unit_at(end) {
                let metres = kilometres(&amount, &decimals)?;
                return Some(self.one(format!("{count}x{metres}m"), end));
            }
            return None;
        }
        match self.unit_at(end) {
            Some(("km", end)) => Some(self.one(format!("{count}x{amount}000m"), end)),
            Some((unit @ ("m" | "yd"), end)) => {
                Some(self.one(format!("{count}x{amount}{unit}"), end))
            }
            // `8x50s` is a plural.
            Some(("s", plural)) if plural == end + 1 => {
                Some(self.one(format!("{count}x{amount}"), plural))
            }
            _ => Some(self.one(format!("{count}x{amount}"), end)),
        }
    }

    /// `3:12`, `3:12.4`, `1:02:10`, `20:00-21:00`, `8:30pm`
    fn colon(&self, first: String, at: usize) -> Figure {
        let (second, mut end) = self.digits(at + 1);
        let mut token = format!("{first}:{second}");
        if self.is(end, ':') && self.is_digit(end + 1) {
            let (third, after) = self.digits(end + 1);
            token = format!("{token}:{third}");
            end = after;
        } else if self.is(end, '-') && self.is_digit(end + 1) {
            if let Some(range) = self.clock_range(&first, &second, end + 1) {
                return range;
            }
        } else if let Some((half @ ("am" | "pm"), end)) = self.unit_at(end) {
            return self.one(clock(&first, &second, half), end);
        }
        let comma = self.is(end, ',') && self.is_digit(end + 1) && self.short_decimals(end);
        if (self.is(end, '.') && self.is_digit(end + 1)) || comma {
            let (decimals, after) = self.digits(end + 1);
            token = format!("{token}.{decimals}");
            end = after;
        }
        match self.unit_at(end) {
            Some(("min" | "s", after)) => self.one(token, after),
            _ => self.one(token, end),
        }
    }

    /// True if one or two digits follow the comma at `at`, and no further figure.
    fn short_decimals(&self, at: usize) -> bool {
        let (digits, end) = self.digits(at + 1);
        let goes_on = matches!(self.text.get(end), Some(':' | '.' | '\'' | '"' | '/'))
            && self.is_digit(end + 1);
        let lists = self.is(end, ',') && self.is_digit(end + 1);
        digits.len() <= 2 && !goes_on && !lists
    }

    /// `47.2`, `3.12`, `1.02.35`, `1.5k`, `20.11.2026`
    fn dot(&self, first: String, at: usize) -> Figure {
        let (second, end) = self.digits(at + 1);
        if self.is(end, '.') && self.is_digit(end + 1) {
            let (third, end) = self.digits(end + 1);
            return match third.len() {
                4 => self.one(format!("{first}/{second}/{third}"), end),
                _ => self.one(format!("{first}:{second}.{third}"), end),
            };
        }
        self.decimal(first, second, end)
    }

    /// `47,2`, `3,12`, `1,500`; in `48,49,50` the comma only parts a list.
    fn comma(&self, first: String, at: usize) -> Figure {
        let (second, end) = self.digits(at + 1);
        if second.len() == 3 && first.len() <= 3 && !self.is(end, ':') {
            return self.unit(format!("{first}{second}"), end);
        }
        if self.short_decimals(at) { self.decimal(first, second, end) } else { self.one(first, at) }
    }

    fn decimal(&self, whole: String, decimals: String, end: usize) -> Figure {
        match self.unit_at(end) {
            Some(("km", end)) => match kilometres(&whole, &decimals) {
                Some(metres) => self.one(format!("{metres}m"), end),
                None => self.one(format!("{whole}.{decimals}km"), end),
            },
            Some(("s", end)) => self.one(format!("{whole}.{decimals}s"), end),
            Some(("h", end)) if decimals == "5" => {
                let minutes = whole.parse::<u32>().unwrap_or(u32::MAX).saturating_mul(60);
                self.one(format!("{}min", minutes.saturating_add(30)), end)
            }
            Some((half @ ("am" | "pm"), end)) => self.one(clock(&whole, &decimals, half), end),
            _ => self.one(format!("{whole}.{decimals}"), end),
        }
    }

    /// `3'12`, `3'12"4`, `47"2`, `45'`, `20"`
    fn quote(&self, first: String, at: usize) -> Figure {
        let double = |at: usize| self.is(at, '"') || (self.is(at, '\'') && self.is(at + 1, '\''));
        let after_double = |at: usize| if self.is(at, '"') { at + 1 } else { at + 2 };
        if double(at) {
            let (tenths, end) = self.digits(after_double(at));
            let point = if tenths.is_empty() { "" } else { "." };
            return self.one(format!("{first}{point}{tenths}s"), end);
        }
        let (seconds, end) = self.digits(at + 1);
        if seconds.is_empty() {
            return self.one(format!("{first}min"), end);
        }
        let (fraction_at, pointed) = match self.text.get(end) {
            Some('.' | ',') if self.is_digit(end + 1) => (end + 1, true),
            _ if double(end) => (after_double(end), true),
            _ => (end, false),
        };
        let (tenths, fraction_end) = self.digits(fraction_at);
        if pointed && !tenths.is_empty() {
            return self.one(format!("{first}:{seconds}.{tenths}"), fraction_end);
        }
        self.one(format!("{first}:{seconds}"), fraction_at)
    }

    /// `20/11`, `20/11/2026`, `6/8`
    fn slash(&self, first: String, at: usize) -> Figure {
        let (second, end) = self.digits(at + 1);
        if self.is(end, '/') && self.is_digit(end + 1) {
            let (year, end) = self.digits(end + 1);
            let century = if year.len() == 2 { "20" } else { "" };
            return self.one(format!("{first}/{second}/{century}{year}"), end);
        }
        self.one(format!("{first}/{second}"), end)
    }

    /// `1-4`, `2000-2100`, `2026-11-20`, `48-49-50`
    fn dash(&self, first: String, at: usize) -> Figure {
        let (second, end) = self.digits(at + 1);
        let third = (self.is(end, '-') && self.is_digit(end + 1)).then(|| self.digits(end + 1));
        match third {
            Some((third, end)) if first.len() == 4 => {
                self.one(format!("{first}-{second:0>2}-{third:0>2}"), end)
            }
            // A list joined by dashes: each on its own, the dash read over.
            Some(_) => self.one(first, at),
            None if first.len() >= 3 && second.len() >= 3 => {
                match (hours(&first), hours(&second)) {
                    (Some(from), Some(to)) => self.one(format!("{from}-{to}"), end),
                    _ => self.one(format!("{first}-{second}"), end),
                }
            }
            None => match self.unit_at(end) {
                Some((half @ ("am" | "pm"), after)) => {
                    let (from, to) = (clock(&first, "00", half), clock(&second, "00", half));
                    self.one(format!("{from}-{to}"), after)
                }
                _ => self.one(format!("{first}-{second}"), end),
            },
        }
    }

    fn clock_range(&self, hour: &str, minute: &str, from: usize) -> Option<Figure> {
        let (to_hour, at) = self.digits(from);
        if !self.is(at, ':') {
            return None;
        }
        let (to_minute, end) = self.digits(at + 1);
        (minute.len() == 2 && to_minute.len() == 2)
            .then(|| self.one(format!("{hour:0>2}h{minute}-{to_hour:0>2}h{to_minute}"), end))
    }

    /// A whole number with what follows: `200m`, `45min`, `3m12s`, `1h10`.
    fn unit(&self, number: String, at: usize) -> Figure {
        let Some((unit, end)) = self.unit_at(at) else {
            return self.one(number, at);
        };
        match unit {
            "m" | "min" => self.minutes(number, unit, at, end),
            "yd" | "s" => self.one(format!("{number}{unit}"), end),
            "km" => self.one(format!("{number}000m"), end),
            "h" => self.hours(&number, end),
            "am" | "pm" => self.one(clock(&number, "00", unit), end),
            "mile" if number == "1" => self.one("mile".to_owned(), end),
            // `20th dec`: the month joins it later.
            "th" => self.one(number, end),
            _ => self.one(number, at),
        }
    }

    /// `3m12s`, `3min12`, `3 min 12 s`: a time; `200m`, `45min`: not.
    fn minutes(&self, number: String, unit: &str, at: usize, end: usize) -> Figure {
        let touching = self.digits(end);
        let (seconds, after) = if touching.0.is_empty() {
            self.digits(self.skip_spaces(end))
        } else {
            touching.clone()
        };
        let has_unit = matches!(self.unit_at(after), Some(("s", _)));
        // `50m 31s` is a distance and its time, `3m 12s` a time.
        let count = number.parse::<u32>().unwrap_or(u32::MAX);
        let apart = touching.0.is_empty();
        let is_far = unit == "m" && (count >= 100 || (apart && count.is_multiple_of(25)));
        let is_time = !is_far
            && seconds.len() <= 2
            && !seconds.is_empty()
            && (has_unit || (touching.1 > end && self.skip_spaces(at) == at));
        if !is_time {
            return self.one(format!("{number}{unit}"), end);
        }
        let (tenths, after) = match self.text.get(after) {
            Some('.' | ',') if self.is_digit(after + 1) => self.digits(after + 1),
            _ => (String::new(), after),
        };
        let point = if tenths.is_empty() { "" } else { "." };
        let after = match self.unit_at(after) {
            Some(("s", after)) => after,
            _ => after,
        };
        self.one(format!("{number}:{seconds:0>2}{point}{tenths}"), after)
    }

    /// `1h`, `1h10`, `1h 10min`: minutes; from 5 on, an hour of the day.
    fn hours(&self, number: &str, end: usize) -> Figure {
        let (minutes, after) = self.digits(end);
        let hours = number.parse::<u32>().unwrap_or(u32::MAX);
        if hours >= 5 && minutes.len() == 2 {
            return self.one(format!("{number:0>2}h{minutes}"), after);
        }
        let spaced = self.digits(self.skip_spaces(end));
        let (minutes, after) = match self.unit_at(spaced.1) {
            Some(("min" | "m", after)) if !spaced.0.is_empty() => (spaced.0, after),
            _ => (minutes, after),
        };
        let minutes = minutes.parse::<u32>().unwrap_or(0);
        self.one(format!("{}min", hours.saturating_mul(60).saturating_add(minutes)), after)
    }
}

/// Metres in so many kilometres and decimals, up to whole metres.
fn kilometres(whole: &str, decimals: &str) -> Option<u32> {
    if decimals.len() > 3 {
        return None;
    }
    let metres: u32 = format!("{decimals:0<3}").parse().ok()?;
    whole.parse::<u32>().ok()?.checked_mul(1000)?.checked_add(metres)
}

/// An hour of the day in the grammar's shape; what is none stays unreadable.
fn clock(hour: &str, minute: &str, half: &str) -> String {
    let hour = match (hour.parse::<u32>(), half) {
        (Ok(12), "am") => 0,
        (Ok(hour @ 1..=11), "pm") => hour + 12,
        (Ok(hour), _) => hour,
        (Err(_), _) => 99,
    };
    format!("{hour:02}h{minute}")
}

/// `2000` or `930` as an hour of the day.
fn hours(digits: &str) -> Option<String> {
    let (hour, minute) = digits.split_at_checked(digits.len().checked_sub(2)?)?;
    (hour.len() <= 2).then(|| format!("{hour:0>2}h{minute}"))
}
