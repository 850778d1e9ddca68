//! The evening that is in full swing when somebody looks: its nights before, who comes,
//! the set, the lanes, who hurts.

use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

use super::squad::{COACH, Text, address};
use crate::history::NIGHT_ENDS;

/// How long the lanes have been booked at least when somebody looks, in minutes: the
/// main set is under way (ours).
const UNDER_WAY_MIN: i64 = 22;
/// How long they are booked, in minutes.
const BOOKED_MIN: i64 = 60;
/// How many nights came before, a week apart.
const NIGHTS: i64 = 4;

/// When the evening began that is under way at `now`: on a whole five minutes of the
/// squad's clock.
fn began(now: Timestamp, zone: &TimeZone) -> DateTime {
    let at = now.to_zoned_datetime(zone.clone()).datetime().saturating_sub(UNDER_WAY_MIN.minutes());
    at.saturating_sub(i64::from(at.minute() % 5).minutes())
        .saturating_sub(i64::from(at.second()).seconds())
        .saturating_sub(i64::from(at.subsec_nanosecond()).nanoseconds())
}

/// A zone in which the whole evening is one evening of a squad: `own`, or one where it is
/// day while it is night there.
pub fn zone(now: Timestamp, own: &str) -> &str {
    let fits = |name: &&str| TimeZone::get(name).is_ok_and(|zone| fits(now, &zone));
    [own, "UTC"].into_iter().find(fits).unwrap_or("Etc/GMT-10")
}

/// True if from before the first text of the evening until after its end it is one local
/// day, past the night that counts to the day before, and no clock is changed.
fn fits(now: Timestamp, zone: &TimeZone) -> bool {
    let at =
        |hours: i64| now.checked_add(hours.hours()).unwrap_or(now).to_zoned_datetime(zone.clone());
    let (first, last) = (at(-2), at(2));
    first.date() == last.date() && first.hour() >= NIGHT_ENDS && first.offset() == last.offset()
}

/// What was texted of the squad's earlier nights and before this one: once.
pub fn before(now: Timestamp, zone: &TimeZone) -> Vec<Text> {
    let began = began(now, zone);
    let on = |days: i64, minutes: i64| {
        began.saturating_sub(days.days()).saturating_add(minutes.minutes())
    };
    let mut said = Said { zone, texts: Vec::new() };
    said.text(on(45, 0), COACH, "add robin 2:20");
    said.text(on(40, 0), address("wren"), "contact +1 555 0177");
    let out = ["snipe", "dipper", "snipe avocet", "curlew"];
    for (week, out) in (1..=NIGHTS).rev().zip(out) {
        said.text(on(7 * week, -60), COACH, &slot(on(7 * week, 0)));
        said.text(on(7 * week, 5), COACH, &format!("all here bar {out}"));
    }
    let race = began.date().saturating_add(33.days()).strftime("%-d %b").to_string();
    said.text(on(6, 0), address("teal"), &format!("race 400 on {race}"));
    said.text(on(5, 0), COACH, "focus heron: exhale before turning head");
    said.text(on(5, 1), COACH, "focus teal: long neck, eyes down");
    said.text(on(5, 2), COACH, "note avocet: asked about the relay");
    said.text(on(2, 0), address("snipe"), "knee hurts 4");
    said.text(on(1, 0), COACH, "dunnock easy till I say");
    said.texts
}

/// What is texted of the evening that is under way at `now`. Nobody gets hurt twice:
/// that is said the `first` time alone.
pub fn tonight(now: Timestamp, zone: &TimeZone, first: bool) -> Vec<Text> {
    let began = began(now, zone);
    let on = |minutes: i64| began.saturating_add(minutes.minutes());
    let mut said = Said { zone, texts: Vec::new() };
    said.text(on(-50), COACH, &slot(began));
    said.text(on(-45), address("heron"), "in");
    said.text(on(-44), address("teal"), "in");
    said.text(on(-43), address("plover"), "10 late");
    said.text(on(-42), address("avocet"), "out");
    said.text(
        on(-30),
        COACH,
        "set 200 easy, 4x50 drill fins on 1:20, 3x(4x50 hold 400 pace on 1:30, 50 easy on 1:45), \
         4x50 kick on 1:40, 200 swim down",
    );
    said.text(on(1), COACH, "here heron teal wren siskin dunnock curlew snipe dipper robin");
    said.text(on(2), COACH, "lanes 3");
    if first {
        said.text(on(12), address("curlew"), "shoulder hurts 6");
        said.text(on(19), COACH, "wren felt dizzy");
    }
    said.texts
}

/// `slot 3 mar 2000-2100 3 lanes`
fn slot(from: DateTime) -> String {
    let to = from.saturating_add(BOOKED_MIN.minutes());
    let day = from.strftime("%-d %b").to_string().to_lowercase();
    format!("slot {day} {}-{} 3 lanes", from.strftime("%H%M"), to.strftime("%H%M"))
}

struct Said<'z> {
    zone: &'z TimeZone,
    texts: Vec<Text>,
}

impl Said<'_> {
    fn text(&mut self, at: DateTime, from: impl Into<String>, text: &str) {
        let Ok(at) = self.zone.to_timestamp(at) else { return };
        self.texts.push(Text { at, from: from.into(), text: text.to_owned() });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// At any minute of a day, also of one on which clocks are changed, the evening is
    /// under way, and all that is said of it is said on one day past its night.
    #[test]
    fn it_is_under_way_whenever_somebody_looks() {
        for (day, own) in [
            ("2026-06-01", "UTC"),
            ("2026-06-01", "Asia/Kolkata"),
            ("2026-06-01", "Australia/Brisbane"),
            ("2026-03-29", "Europe/London"),
            ("2026-10-25", "Europe/London"),
        ] {
            let midnight: Timestamp = format!("{day}T00:00:00Z").parse().unwrap();
            for minute in 0..1440 {
                let now = midnight + i64::from(minute).minutes();
                let zone = TimeZone::get(zone(now, own)).unwrap();
                let began = began(now, &zone).to_zoned_datetime(zone.clone()).unwrap();
                let since = now.duration_since(began.timestamp()).as_mins();
                assert!((UNDER_WAY_MIN..UNDER_WAY_MIN + 5).contains(&since), "{now}: {since}");
                let all = tonight(now, &zone, true);
                assert!(all.windows(2).all(|two| two[0].at < two[1].at));
                assert!(all.iter().all(|text| text.at < now), "{now}");
                let ends = began.timestamp() + BOOKED_MIN.minutes();
                for at in all.iter().map(|text| text.at).chain([ends]) {
                    let at = at.to_zoned_datetime(zone.clone());
                    assert!(at.date() == began.date() && at.hour() >= NIGHT_ENDS, "{now}: {at}");
                }
            }
        }
    }
}
