//! A calendar as text (RFC 5545).

use std::fmt::Write;

use jiff::Timestamp;
use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// Something that happens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// The same as long as it is the same thing.
    pub id: String,
    /// Grows with each change.
    pub sequence: usize,
    /// When.
    pub when: When,
    /// What it is called.
    pub title: String,
    /// It won't happen.
    pub cancelled: bool,
}

/// When something happens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// From one instant to another.
    Between(Timestamp, Timestamp),
    /// The whole of a day.
    Day(Date),
}

/// Octets a line has at most before it is folded (section 3.1).
const LINE: usize = 75;

/// The calendar, as of `now`.
pub fn text(entries: &[Entry], now: Timestamp) -> String {
    let mut lines = Lines(String::new());
    lines.put("BEGIN", "VCALENDAR");
    lines.put("VERSION", "2.0");
    lines.put("PRODID", "-//Lapwing//Lapwing//EN");
    lines.put("METHOD", "PUBLISH");
    for entry in entries {
        lines.put("BEGIN", "VEVENT");
        lines.put("UID", &entry.id);
        lines.put("DTSTAMP", &instant(now));
        lines.put("SEQUENCE", &entry.sequence.to_string());
        match entry.when {
            When::Between(from, to) => {
                lines.put("DTSTART", &instant(from));
                lines.put("DTEND", &instant(to));
            }
            When::Day(on) => {
                lines.put("DTSTART;VALUE=DATE", &day(on));
                // The end is not part of it (section 3.6.1).
                lines.put("DTEND;VALUE=DATE", &day(on.saturating_add(1.day())));
            }
        }
        lines.put("SUMMARY", &escaped(&entry.title));
        lines.put("STATUS", if entry.cancelled { "CANCELLED" } else { "CONFIRMED" });
        lines.put("END", "VEVENT");
    }
    lines.put("END", "VCALENDAR");
    lines.0
}

/// A UTC date-time (section 3.3.5, form 2).
fn instant(at: Timestamp) -> String {
    at.to_zoned_datetime(TimeZone::UTC).strftime("%Y%m%dT%H%M%SZ").to_string()
}

fn day(on: Date) -> String {
    on.strftime("%Y%m%d").to_string()
}

/// Text (section 3.3.11); no other control character may be in it.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '\\' | ';' | ',' => out.extend(['\\', letter]),
            '\n' => out.push_str("\\n"),
            letter if letter.is_control() => {}
            letter => out.push(letter),
        }
    }
    out
}

struct Lines(String);

impl Lines {
    /// A content line, folded between characters.
    fn put(&mut self, name: &str, value: &str) {
        let line = format!("{name}:{value}");
        let mut room = LINE;
        for letter in line.chars() {
            if letter.len_utf8() > room {
                self.0.push_str("\r\n ");
                room = LINE - 1;
            }
            room -= letter.len_utf8();
            let _ = self.0.write_char(letter);
        }
        self.0.push_str("\r\n");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 5545, section 3.1: no line above 75 octets, and unfolded it is whole;
    /// 3.3.11: what is escaped.
    #[test]
    fn long_lines_are_folded_and_signs_escaped() {
        let title = "Ñandú, río; a\\b\n".repeat(9);
        let entry = Entry {
            id: "a".into(),
            sequence: 0,
            when: When::Day(jiff::civil::date(2026, 12, 31)),
            title,
            cancelled: true,
        };
        let text = text(&[entry], "2026-03-03T19:00:00Z".parse().unwrap());
        assert!(text.split("\r\n").all(|line| line.len() <= 75), "{text}");
        let whole = text.replace("\r\n ", "");
        let escaped = "Ñandú\\, río\\; a\\\\b\\n".repeat(9);
        assert!(whole.contains(&format!("\r\nSUMMARY:{escaped}\r\n")), "{whole}");
        assert!(whole.contains("DTSTART;VALUE=DATE:20261231\r\nDTEND;VALUE=DATE:20270101\r\n"));
    }
}
