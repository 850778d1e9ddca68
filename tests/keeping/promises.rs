//! What is open of all that was said, checked against what is told next.

use serde_json::Value;

use crate::talk::{Heard, is_hard, is_test, main_lines, sessions};

/// True if that set is in the main part of a session.
fn holds(session: &Value, (count, distance, target): &(u64, u64, Value)) -> bool {
    main_lines(session).any(|(rounds, line)| {
        rounds * line["count"].as_u64().unwrap() == *count
            && line["distance"] == *distance
            && line["target_s"] == *target
    })
}

/// What replies have said of sessions to come.
#[derive(Debug, Default)]
pub struct Said {
    /// `Next hard swim 7x50 …`
    set: Option<(u64, u64, Value)>,
    /// `Easy swim next`
    easy: bool,
    /// `Time for a new test`
    test: bool,
    /// The sessions told, by day.
    told: Vec<Value>,
    /// Something came up since they were told that they can't stand beside.
    shaken: bool,
    /// Those of the last plan.
    planned: Vec<Value>,
    /// How many were kept and how many taken back.
    pub kept: usize,
    pub withdrawn: usize,
}

impl Said {
    /// Takes in a reply, and holds the sessions in it to what was said before.
    pub fn hears(&mut self, heard: &Heard, whose: &str) {
        let result = &heard.result;
        match result["kind"].as_str().unwrap_or_default() {
            "set" => self.set_result(heard),
            "session" | "plan" => self.sessions(&sessions(result), heard, whose),
            "test" => {
                if self.set.is_some() && heard.text.contains("is off: new paces") {
                    (self.set, self.withdrawn) = (None, self.withdrawn + 1);
                }
                assert!(self.set.is_none(), "{whose}: a test, and nothing of the set: {heard:#?}");
                self.test = false;
                self.sessions(&sessions(result), heard, whose);
            }
            _ => {}
        }
    }

    /// Pain or illness came up or is over: what was told before is no more what they
    /// swim, until it is told anew.
    pub fn shaken(&mut self) {
        self.shaken = true;
    }

    /// They swam: an easy swim that was promised is behind them, and so is the set, if
    /// what they were told for that day held it and still stood.
    pub fn swum(&mut self, today: &str) {
        self.easy = false;
        let told = self.told.first().filter(|told| told["on"] == today && !self.shaken);
        if let (Some(told), Some(set)) = (told, &self.set)
            && holds(told, set)
        {
            self.set = None;
        }
    }

    /// They swam in some other way.
    pub fn easy_is_over(&mut self) {
        self.easy = false;
    }

    fn set_result(&mut self, heard: &Heard) {
        let change = &heard.result["change"];
        if heard.text.contains("which is off") {
            (self.set, self.withdrawn) = (None, self.withdrawn + 1);
        }
        if heard.text.contains("Next hard swim") {
            let target = change["target_s"].clone();
            let count = change["repeats"].as_u64().unwrap();
            self.set = Some((count, heard.result["distance"].as_u64().unwrap(), target));
            assert!(!self.test, "{heard:#?}: a test was promised first");
        }
        if heard.text.contains("Easy swim next") {
            (self.easy, self.set) = (true, None);
        }
        if heard.text.contains("Time for a new test") {
            (self.test, self.set) = (true, None);
        }
    }

    fn sessions(&mut self, sessions: &[Value], heard: &Heard, whose: &str) {
        if let Some(first) = sessions.first().filter(|_| self.easy) {
            assert!(!is_hard(first), "{whose}: an easy swim was promised, then {heard:#?}");
            self.kept += 1;
        }
        let Some(first) = sessions.iter().find(|session| is_hard(session)) else { return };
        if let Some((count, distance, target)) = self.set.clone() {
            let holds = holds(first, &(count, distance, target.clone()));
            let waits = heard.text.contains("waits for the next hard swim");
            assert!(holds || waits, "{whose}: {count}x{distance} was promised, then {heard:#?}");
            self.kept += usize::from(holds);
            self.withdrawn += usize::from(waits);
        }
        if self.test {
            assert!(is_test(first), "{whose}: a test was promised, then {heard:#?}");
            self.kept += 1;
        }
    }

    /// Asked for the next session: what was told stands, or what came up is named.
    pub fn asks(&mut self, heard: &Heard, whose: &str) {
        let session = &heard.result;
        if session["kind"] != "session" {
            return;
        }
        let before = self.told.first().filter(|told| told["on"].as_str() <= session["on"].as_str());
        if let Some(before) = before {
            let same = before["blocks"] == session["blocks"] && before["on"] == session["on"];
            let named = heard.text.contains("Changed from what I said");
            assert!(same || named, "{whose}: told {before:#}, then {heard:#?}");
        }
    }

    /// What is told from now on: a plan in place of all before, a session alone as the
    /// next, before what the plan holds for the days behind it.
    pub fn tells(&mut self, sessions: Vec<Value>, kind: &Value) {
        self.shaken = false;
        if kind == "plan" {
            self.planned = sessions.clone();
        }
        let next = sessions.last().map(|session| session["on"].clone()).unwrap();
        let behind = self.planned.iter().filter(|told| told["on"].as_str() > next.as_str());
        self.told = sessions.into_iter().chain(behind.cloned()).collect();
    }

    /// A day is over, or was swum: what was told for it stands no more.
    pub fn over(&mut self, until: &str) {
        self.told.retain(|session| session["on"].as_str().unwrap() > until);
    }

    pub fn first_told(&self) -> Option<&Value> {
        self.told.first()
    }
}
