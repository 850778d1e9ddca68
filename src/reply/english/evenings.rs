//! The squad's evening.

use super::English;
use crate::coaching::evening::Beyond;
use crate::reply::Ends;
use crate::reply::phrases::Evenings;

impl Evenings for English {
    fn night_head(&self, day: &str, title: &str, ends: &str) -> String {
        format!("{day}, {title}, {ends}.")
    }

    fn until(&self, ends: Ends) -> String {
        match ends {
            Ends::At(time) => format!("to {}", time.strftime("%H:%M")),
            Ends::In(seconds) => format!("{} min", seconds.div_ceil(60)),
        }
    }

    fn ends_apart(&self, minutes: u32) -> String {
        format!("Lanes end {minutes} min apart.")
    }

    fn too_long(&self, lane: &str, over_min: u32, booked_min: u16) -> String {
        format!("{lane} is {over_min} min over the {booked_min} booked.")
    }

    fn minutes_over(&self, minutes: u32) -> String {
        format!("by {minutes} min")
    }

    fn over_booked(&self, booked_min: u16, lanes: &str) -> String {
        format!("Over the {booked_min} booked: {lanes}.")
    }

    fn fits_with(&self, what: &str) -> String {
        format!("To fit: {what}.")
    }

    fn never_fits(&self) -> &'static str {
        "Nothing but the swim-down would fit."
    }

    fn fewer(&self, left: &str, had: u16) -> String {
        format!("{left}, not {had}")
    }

    fn more_of(&self, left: &str, had: u16) -> String {
        format!("{left} more, not {had}")
    }

    fn no_more(&self, line: &str) -> String {
        format!("no more {line}")
    }

    fn left_out(&self, line: &str) -> String {
        format!("no {line}")
    }

    fn is_tight(&self, lane: &str, line: &str, fits: &str, guess: bool) -> String {
        let guess = if guess { " (a guess)" } else { "" };
        format!("{lane}: {line} is tight, {fits} would fit{guess}.")
    }

    fn is_beyond(&self, lane: &str, hold: &str, beyond: &Beyond, own: Option<&str>) -> String {
        let own = own.map(|own| format!("; about {own} is hard work there"));
        let own = own.unwrap_or_default();
        format!("{lane}: {hold} is beyond {} of {}{own}.", beyond.swimmers, beyond.of)
    }

    fn ends_now(&self, lane: &str, change: Option<&str>, now: &str, was: &str) -> String {
        match change {
            Some(change) => format!("{lane} {change}: {now} (was {was})."),
            None => format!("{lane} {now} (was {was})."),
        }
    }

    fn ends_still(&self, lane: &str, change: Option<&str>, now: &str) -> String {
        match change {
            Some(change) => format!("{lane} {change}: {now}, as before."),
            None => format!("{lane} {now}, as before."),
        }
    }

    fn purpose_gone(&self, lane: &str) -> String {
        format!("{lane}: no time for the main set; all easy now, it comes back another night.")
    }

    fn still_too_long(&self, lane: &str) -> String {
        format!("{lane} runs over even so: the swim-down is never cut.")
    }

    fn counted_from_main(&self) -> &'static str {
        "I don't know when you began: counted from the main set on."
    }

    fn swim_easy(&self, names: &str) -> String {
        format!("Easy version: {names}.")
    }
}
