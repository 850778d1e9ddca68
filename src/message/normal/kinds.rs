//! What kind a token is, by its own letters: a day, a figure, a name, a distance.

/// True for what parts statements.
pub(super) fn is_break(text: &str) -> bool {
    matches!(text, "," | ";")
}

pub(super) fn is_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

pub(super) fn is_weekday(text: &str) -> bool {
    matches!(text, "mon" | "tue" | "wed" | "thu" | "fri" | "sat" | "sun")
}

pub(super) fn is_month(text: &str) -> bool {
    matches!(
        text,
        "jan"
            | "feb"
            | "mar"
            | "apr"
            | "may"
            | "jun"
            | "jul"
            | "aug"
            | "sep"
            | "oct"
            | "nov"
            | "dec"
    )
}

pub(super) fn is_day(text: &str) -> bool {
    is_weekday(text)
        || matches!(text, "today" | "yesterday" | "tomorrow")
        || text.starts_with("last-")
        || (text.len() > 3
            && text.is_char_boundary(text.len() - 3)
            && is_digits(&text[..text.len() - 3])
            && is_month(&text[text.len() - 3..]))
        || text.split('/').count() > 1 && text.split('/').all(is_digits)
        || text.len() == 10 && text.split('-').count() == 3 && text.split('-').all(is_digits)
}

pub(super) fn is_equipment(text: &str) -> bool {
    matches!(text, "fins" | "paddles" | "buoy" | "board" | "snorkel")
}

pub(super) fn is_course(text: &str) -> bool {
    matches!(text, "25m" | "50m" | "25yd" | "pool-25m" | "pool-50m" | "pool-25yd")
}

pub(super) fn is_name(text: &str) -> bool {
    text.starts_with(['@', '~'])
}

pub(super) fn is_figure(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_digit())
        && (is_digits(text)
            || text.contains([':', '.'])
            || text.strip_suffix('s').is_some_and(is_digits))
}

pub(super) fn is_body(text: &str) -> bool {
    super::BODY.contains(&text) || text == "back"
}

pub(super) fn is_distance(text: &str) -> bool {
    let digits = text.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    is_digits(digits) && matches!(&text[digits.len()..], "" | "m" | "yd" | "s")
}

pub(super) fn is_repeat(text: &str) -> bool {
    text.split_once('x').is_some_and(|(count, far)| {
        is_digits(count) && far.starts_with(|c: char| c.is_ascii_digit())
    })
}

/// Minutes without their unit: `12` of `12` and of `12min`.
pub(super) fn minutes(text: &str) -> Option<&str> {
    let digits = text.strip_suffix("min").unwrap_or(text);
    is_digits(digits).then_some(digits)
}

pub(super) fn is_level(text: &str) -> bool {
    matches!(text, "easy" | "steady" | "threshold" | "hard" | "sprint")
}

pub(super) fn level(number: &str) -> Option<&'static str> {
    match number {
        "1" => Some("easy"),
        "2" => Some("steady"),
        "3" => Some("threshold"),
        "4" => Some("hard"),
        "5" => Some("sprint"),
        _ => None,
    }
}
