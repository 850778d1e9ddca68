//! Who the invented swimmers are and what they text.

use std::sync::Arc;

use jiff::civil::{Date, Time, time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

use super::evening;
use crate::coaching::Rulebook;
use crate::service::{Body, Failure, Incoming, NewSquad, Service};
use crate::simulation::{Plan, Swimmer, season};
use crate::units::{Course, Distance, Unit};

/// The address of the invented coach.
pub const COACH: &str = "+15550100";
/// The address of heron, an invented swimmer.
pub const SWIMMER: &str = "+15550101";
/// How many weeks of history there are.
pub const WEEKS: u16 = 12;

/// The squad's swimmers, heron first.
const HANDLES: [&str; 10] =
    ["heron", "teal", "wren", "dunnock", "siskin", "plover", "curlew", "snipe", "avocet", "dipper"];
/// Where the dice begin; the same squad on every machine.
const SEED: u64 = 7373;
/// heron swims their 200 between these, so that the text the demo prints is one
/// they could send.
const HERON_200_S: std::ops::Range<f64> = 193.0..201.0;

/// One text of the history.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// When it was sent.
    pub at: Timestamp,
    /// By whom.
    pub from: String,
    /// What it says.
    pub text: String,
}

/// Opens the squad in a zone, lets all join and text their history up to `now`, in
/// the middle of an evening. The service must take a message's own time for now.
///
/// # Errors
/// The first text that could not be stored.
pub async fn prepare(service: &Arc<Service>, now: Timestamp, zone: &str) -> Result<(), Failure> {
    let added = service
        .add_squad(NewSquad { timezone: zone.to_owned(), ..NewSquad::of_grown_ups("Dusk", COACH) })
        .await?;
    texted(service, history(now, &zone_of(zone), &added.code)).await
}

/// Lets the squad, which is there, text an evening that is under way at `now`.
///
/// # Errors
/// The first text that could not be stored.
pub async fn tonight(service: &Arc<Service>, now: Timestamp, zone: &str) -> Result<(), Failure> {
    texted(service, evening::tonight(now, &zone_of(zone), false)).await
}

fn zone_of(name: &str) -> TimeZone {
    TimeZone::get(name).unwrap_or(TimeZone::UTC)
}

async fn texted(service: &Arc<Service>, texts: Vec<Text>) -> Result<(), Failure> {
    for text in texts {
        let incoming = Incoming {
            channel: "demo".into(),
            id: None,
            from: text.from,
            room: None,
            sent_at: Some(text.at),
            body: Body::Text(text.text),
        };
        service.receive(incoming).await?;
    }
    Ok(())
}

/// Twelve weeks of texts up to the day before, and those of the evening that is
/// under way at `now`, in the order sent.
pub fn history(now: Timestamp, zone: &TimeZone, code: &str) -> Vec<Text> {
    let today = now.to_zoned_datetime(zone.clone()).date();
    let from = today.saturating_sub((i64::from(WEEKS) * 7 + 2).days());
    let mut texts: Vec<Text> = (0u64..)
        .zip(HANDLES)
        .flat_map(|(number, handle)| of_swimmer(handle, number, from, zone, code))
        .filter(|text| text.at < at(today, time(0, 0, 0, 0), zone))
        .chain(evening::before(now, zone))
        .collect();
    texts.sort_by_key(|text| text.at);
    texts.extend(evening::tonight(now, zone, true));
    texts
}

/// The address of one of them.
pub fn address(handle: &str) -> String {
    let number = HANDLES.iter().position(|one| *one == handle).unwrap_or_default();
    format!("+155501{:02}", number + 1)
}

fn of_swimmer(handle: &str, number: u64, from: Date, zone: &TimeZone, code: &str) -> Vec<Text> {
    let address = address(handle);
    let say = |on: Date, clock: Time, text: String| Text {
        at: at(on, clock, zone),
        from: address.clone(),
        text,
    };
    let minute = i8::try_from(number * 5 % 60).unwrap_or_default();
    let mut texts = vec![say(from, time(18, minute, 0, 0), format!("join {code} {handle}"))];
    for week in 0..WEEKS {
        // The day on which the simulation plans its week.
        let starts = from.saturating_add((1 + 7 * i64::from(week)).days());
        texts.push(say(starts, time(7, minute, 0, 0), "plan".to_owned()));
    }
    let season = season(&Rulebook::default(), drawn(handle, number), from, WEEKS, Plan::Adaptive);
    for (second, dated) in (0i8..60).cycle().zip(season.texts) {
        texts.push(say(dated.on, time(20, minute, second, 0), dated.report.to_string()));
    }
    texts
}

/// A swimmer drawn by the demo's seed; heron is drawn until they are as fast as
/// their text says.
fn drawn(handle: &str, number: u64) -> Swimmer {
    let mut seeds = SEED + 1000 * number..;
    let swims_200 = |swimmer: &Swimmer| {
        Distance::new(200, Unit::Metre)
            .is_ok_and(|d| HERON_200_S.contains(&swimmer.ability().time(d)))
    };
    let first = Swimmer::drawn(handle, Course::Short25m, SEED + 1000 * number);
    if number > 0 {
        return first;
    }
    seeds
        .find_map(|seed| {
            let swimmer = Swimmer::drawn(handle, Course::Short25m, seed);
            swims_200(&swimmer).then_some(swimmer)
        })
        .unwrap_or(first)
}

fn at(on: Date, clock: Time, zone: &TimeZone) -> Timestamp {
    on.to_datetime(clock)
        .to_zoned_datetime(zone.clone())
        .map(|zoned| zoned.timestamp())
        .unwrap_or(Timestamp::MIN)
}
