//! What is told of an evening, as data.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;
use serde_json::Value;

use crate::squad::Heard;

/// The coach's `tonight`.
#[derive(Debug, Clone)]
pub struct Told {
    pub lanes: BTreeMap<u64, Version>,
    pub gap_s: u64,
    pub text: String,
}

/// What one lane swims.
#[derive(Debug, Clone, PartialEq)]
pub struct Version {
    pub swimmers: Vec<String>,
    pub duration_s: u64,
    pub repeats: Vec<Swim>,
}

/// One repeat of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Swim {
    pub part: String,
    pub far: u32,
    pub on: Option<u64>,
    pub rest_s: f64,
    pub target: Option<f64>,
    pub level: usize,
    /// Seconds of changing before it.
    pub change_s: u64,
    /// It may have begun when it was told: ends are told to the minute.
    pub swum: bool,
    /// It had surely begun.
    pub surely: bool,
}

impl Told {
    pub fn of(heard: &Heard, gap_s: u64, at: Timestamp) -> Told {
        let lanes = heard.result["lanes"].as_array().unwrap().iter().map(|lane| {
            let mut version = Version {
                swimmers: names(&lane["swimmers"]),
                duration_s: lane["duration_s"].as_u64().unwrap(),
                repeats: repeats(lane["blocks"].as_array().unwrap()),
            };
            let ends = format!("2026-03-03T{}:00Z", lane["ends"].as_str().unwrap());
            let ends: Timestamp = ends.parse().unwrap();
            let begun_s = at.duration_since(ends).as_secs() + version.duration_s as i64;
            version.counts_swum(begun_s);
            (lane["lane"].as_u64().unwrap(), version)
        });
        Told { lanes: lanes.collect(), gap_s, text: heard.text.clone() }
    }
}

impl Version {
    /// Marks what had begun, at most so many seconds after all of it began.
    pub fn counts_swum(&mut self, begun_s: i64) {
        let mut clock = 0.0;
        for one in &mut self.repeats {
            clock += one.change_s as f64;
            one.swum = clock <= begun_s as f64;
            one.surely = clock < (begun_s - 60) as f64;
            let swum_s = one.target.unwrap_or(0.0) + one.rest_s;
            clock += one.on.map_or(swum_s, |on| on as f64);
        }
    }
}

pub fn names(value: &Value) -> Vec<String> {
    value.as_array().unwrap().iter().map(|one| one.as_str().unwrap().to_owned()).collect()
}

/// The repeats one by one.
pub fn repeats(blocks: &[Value]) -> Vec<Swim> {
    let mut all = Vec::new();
    let mut kit_before: Option<BTreeSet<String>> = None;
    for block in blocks {
        let lines = block["repeats"].as_array().unwrap();
        let kit: BTreeSet<String> =
            lines.iter().flat_map(|line| names(&line["equipment"])).collect();
        let mut change_s = match &kit_before {
            None => 0,
            Some(before) if *before == kit => 60,
            Some(_) => 90,
        };
        kit_before = Some(kit);
        for _ in 0..block["rounds"].as_u64().unwrap() {
            for line in lines {
                for _ in 0..line["count"].as_u64().unwrap() {
                    all.push(Swim {
                        part: block["part"].as_str().unwrap().to_owned(),
                        far: line["distance"].as_u64().unwrap() as u32,
                        on: line["send_off_s"].as_u64(),
                        rest_s: line["rest_s"].as_f64().unwrap_or(0.0),
                        target: line["target_s"].as_f64(),
                        level: line["level"].as_u64().unwrap() as usize,
                        change_s: std::mem::take(&mut change_s),
                        swum: false,
                        surely: false,
                    });
                }
            }
        }
    }
    all
}
