//! Random walks through a federation of two squads: people join, leave, opt out
//! and in, are invited, removed and forgotten; senders are spoofed; minors text,
//! and guardians. By the real service on a real store.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex};

use jiff::{SignedDuration, Timestamp};
use lapwing::clock::{Clock, ClockMode};
use lapwing::desk::Hears;
use lapwing::history::Called;
use lapwing::journal::SledJournal;
use lapwing::message::Matter;
use lapwing::service::{Answer, Body, Incoming, NewSquad, Service, Via};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

const COACH: &str = "+15550100";
const SECOND_COACH: &str = "+15550101";
const OFFICERS: [&str; 2] = ["+15550109", "+15550110"];
const GUARDIANS: [&str; 3] = ["+15550120", "+15550121", "+15550122"];
const HELPERS: [&str; 2] = ["+15550111", "+15550112"];
/// Minors by their year of birth.
const MINORS: [&str; 4] = ["+15550201", "+15550202", "+15550203", "+15550204"];
const ADULTS: [&str; 5] = ["+15550301", "+15550302", "+15550303", "+15550304", "+15550305"];
/// Knows the addresses of others and sends in their names, and sees no answer.
const NAMES: [&str; 14] = [
    "heron", "teal", "wren", "siskin", "knot", "her0n", "squad", "here", "staff", "next", "robin",
    "kestrel", "worried", "undo",
];

struct Hand(Mutex<Timestamp>);

impl Clock for Hand {
    fn now(&self) -> Timestamp {
        *self.0.lock().unwrap()
    }
}

struct Walk {
    chance: ChaCha8Rng,
    service: Arc<Service>,
    clock: Arc<Hand>,
    code: String,
    /// Codes as they reached their own addresses.
    codes: BTreeMap<String, String>,
    /// Who was stopped by danger, and whether a clinician's word has come.
    stopped: BTreeMap<String, (bool, Timestamp)>,
    /// The last name that an address joined by.
    names: BTreeMap<String, String>,
    /// Who was asked in, and has not said yes.
    invited: BTreeSet<String>,
    steps: BTreeMap<&'static str, u32>,
    _folder: tempfile::TempDir,
}

impl Walk {
    async fn begin(seed: u64) -> Walk {
        // In memory where there is such a place: what is walked is not the disk.
        let folder = tempfile::tempdir_in("/dev/shm").or_else(|_| tempfile::tempdir()).unwrap();
        let clock = Arc::new(Hand(Mutex::new("2026-03-02T12:00:00Z".parse().unwrap())));
        let journal = Arc::new(SledJournal::open(folder.path().join("journal")).unwrap());
        let service = Service::open(journal, clock.clone(), ClockMode::Wall).unwrap();
        let squad = NewSquad { minors: true, ..NewSquad::of_grown_ups("Dusk", COACH) };
        let code = service.add_squad(squad).await.unwrap().code;
        let mut walk = Walk {
            chance: ChaCha8Rng::seed_from_u64(seed),
            service,
            clock,
            code,
            codes: BTreeMap::new(),
            stopped: BTreeMap::new(),
            names: BTreeMap::new(),
            invited: BTreeSet::new(),
            steps: BTreeMap::new(),
            _folder: folder,
        };
        walk.says(COACH, &format!("welfare officer {}", OFFICERS[0])).await;
        walk.says(OFFICERS[0], &format!("deputy officer {}", OFFICERS[1])).await;
        walk
    }

    fn pick<'a>(&mut self, list: &[&'a str]) -> &'a str {
        list[self.chance.random_range(0..list.len())]
    }

    async fn says(&mut self, from: &str, text: &str) -> Answer {
        let silent_before = self.silent();
        let incoming = Incoming {
            channel: "walk".into(),
            id: None,
            from: from.to_owned(),
            room: None,
            sent_at: None,
            body: Body::Text(text.to_owned()),
        };
        let answer = self.service.receive(incoming).await.unwrap();
        self.check_silence(from, text, &answer, &silent_before);
        self.check_words(from, text, &answer);
        for reply in answer.replies.iter().filter(|reply| reply.via == Via::Outbox) {
            if let Some((_, code)) = reply.text.split_once("CONFIRM ") {
                self.codes.insert(reply.to.clone(), code.chars().take(6).collect());
            }
        }
        if let Some(code) = answer.result["code"].as_str() {
            self.code = code.to_owned();
        }
        answer
    }

    fn everybody() -> impl Iterator<Item = &'static str> {
        let staff = [COACH, SECOND_COACH].into_iter().chain(OFFICERS).chain(HELPERS);
        staff.chain(GUARDIANS).chain(MINORS).chain(ADULTS)
    }

    fn silent(&self) -> BTreeSet<&'static str> {
        Walk::everybody().filter(|one| self.service.is_opted_out(one)).collect()
    }

    /// Nothing unprompted after STOP; and only their own word lifts it.
    fn check_silence(&self, from: &str, text: &str, answer: &Answer, before: &BTreeSet<&str>) {
        let after = self.silent();
        for reply in answer.replies.iter().filter(|reply| reply.to != from) {
            assert!(!after.contains(reply.to.as_str()), "{from}: {text}: {reply:?}");
        }
        let text = text.to_lowercase();
        for lifted in before.difference(&after) {
            let own = ["start", "yes", "join", "claim"].iter().any(|word| text.starts_with(word));
            assert!(*lifted == from && own, "{from}: {text} lifted the STOP of {lifted}");
        }
        for silenced in after.difference(before) {
            assert!(*silenced == from && text == "stop", "{from}: {text} silenced {silenced}");
        }
    }

    /// A minor's words reach those whom the table allows, and never as typed.
    fn check_words(&self, from: &str, text: &str, answer: &Answer) {
        if !MINORS.contains(&from) || text.starts_with("guardian") {
            return;
        }
        let matter = match text {
            "yes" if self.invited.contains(from) => Matter::Address,
            _ => matter_of(text),
        };
        let row = matter.row();
        for reply in answer.replies.iter().filter(|reply| reply.to != from) {
            let hears = match reply.to.as_str() {
                to if GUARDIANS.contains(&to) => row.guardian,
                // An officer may be named as the one to be called after those on deck.
                _ if reply.alarm == Some(Called::SecondContact) => row.deck,
                to if OFFICERS.contains(&to) => row.officer,
                _ => row.deck,
            };
            assert_ne!(hears, Hears::Nothing, "{from}: {text} ({matter:?}): {reply:?}");
            for word in ["belt", "not eating", "blorp", "die"] {
                assert!(!reply.text.contains(word), "{from}: {text}: {reply:?}");
            }
        }
    }

    /// One step: somebody texts something, perhaps in another's name.
    async fn step(&mut self) {
        let minutes = if self.chance.random_bool(0.05) { 1500 } else { 7 };
        let minutes = self.chance.random_range(1..=minutes);
        *self.clock.0.lock().unwrap() += SignedDuration::from_mins(minutes);
        let spoofed = self.chance.random_bool(0.1);
        let staff = [COACH, SECOND_COACH, HELPERS[0], HELPERS[1], OFFICERS[0], OFFICERS[1]];
        let everybody: Vec<&str> = Walk::everybody().collect();
        let (from, text) = match self.chance.random_range(0..100) {
            0..25 => {
                let from = self.pick(&[&MINORS[..], &ADULTS[..]].concat());
                (from, self.swimmers_text(from))
            }
            25..45 => {
                let from = self.pick(&MINORS);
                (from, self.minors_text())
            }
            45..75 => {
                let from = self.pick(&staff);
                (from, self.coachs_text(from, spoofed))
            }
            75..85 => {
                (self.pick(&GUARDIANS), self.pick(&["yes", "no", "release heron", "stop"]).into())
            }
            85..92 => {
                (self.pick(&everybody), self.pick(&["stop", "start", "yes", "no"]).to_owned())
            }
            _ => {
                (self.pick(&everybody), self.pick(&["leave", "yes", "worried", "undo"]).to_owned())
            }
        };
        self.take(from, &text).await;
    }

    /// Sends it, and holds what came of it against what is known of stops.
    async fn take(&mut self, from: &str, text: &str) {
        let answer = self.says(from, text).await;
        let kind = answer.result["kind"].as_str().unwrap_or_default().to_owned();
        if text.starts_with("join") && kind == "ok" {
            let name = answer.result["swimmer"].as_str().unwrap_or_default().to_owned();
            self.names.insert(from.to_owned(), name);
        }
        // A stranger who opted out is met with silence: nothing was read or done.
        let done = kind == "ok" && !answer.understood.is_empty();
        if let Some(asked_in) = text.strip_prefix("invite ").filter(|_| done) {
            self.invited.extend(asked_in.split(' ').next().map(str::to_owned));
        }
        if text == "yes" {
            self.invited.remove(from);
        }
        let now = self.clock.now();
        if ["fainted", "hit my head on the wall"].contains(&text) && kind == "caution" {
            let member = self.names.contains_key(from);
            if member && (MINORS.contains(&from) || ADULTS.contains(&from)) {
                self.stopped.insert(from.to_owned(), (text.starts_with("hit"), now));
            }
        }
        if text.starts_with("release ") && done && !GUARDIANS.contains(&from) {
            let who = text.split(' ').nth(1).unwrap();
            assert!([COACH, SECOND_COACH].contains(&from) || HELPERS.contains(&from), "{from}");
            // Whoever had the name before may have left, and another have it now.
            let of_name = self.names.iter().filter(|(_, name)| *name == who);
            let addresses: Vec<String> = of_name.map(|(to, _)| to.clone()).collect();
            for address in addresses {
                let Some((knock, since)) = self.stopped.get(&address).copied() else { continue };
                let same_day = since.strftime("%F").to_string() == now.strftime("%F").to_string();
                if knock && same_day {
                    self.swims_nothing(&address, text).await;
                } else {
                    self.stopped.remove(&address);
                }
            }
        }
        *self.steps.entry(kind_of(text)).or_default() += 1;
    }

    fn swimmers_text(&mut self, from: &str) -> String {
        let name = self.pick(&NAMES);
        let join = format!("join {} {name}", self.code);
        let texts = [
            join.as_str(),
            "200 test 3:12",
            "next",
            "better",
            "ill",
            "forget me",
            "yes",
            "fainted",
            "hit my head on the wall",
            "cleared by my doctor",
            "undo",
            "alerts on",
            "in",
        ];
        let text = self.pick(&texts).to_owned();
        // Of several on one telephone the model would have to know who is meant.
        let is_in = self.names.contains_key(from);
        if text.starts_with("join") && is_in { "plan".to_owned() } else { text }
    }

    fn minors_text(&mut self) -> String {
        let guardian = self.pick(&GUARDIANS);
        let named = format!("guardian {guardian}");
        let texts = [
            named.as_str(),
            "born 2010",
            "my dad hit me with his belt",
            "not eating",
            "blorp zzz kwijibo",
            "worried",
            "shoulder hurts 4",
            "200 test 3:20",
            "i want to die",
            "stop",
            "start",
        ];
        self.pick(&texts).to_owned()
    }

    fn coachs_text(&mut self, from: &str, spoofed: bool) -> String {
        let everybody: Vec<&str> = Walk::everybody().collect();
        let (name, other) = (self.pick(&NAMES), self.pick(&everybody));
        // Who sends in another's name has seen no code.
        let code = self.codes.get(from).filter(|_| !spoofed).cloned();
        let confirm = format!("confirm {}", code.unwrap_or_else(|| "AAAAAA".into()));
        let texts = [
            format!("invite {other} assistant {name}"),
            format!("invite {other}"),
            format!("invite {SECOND_COACH} coach kite"),
            format!("remove {name}"),
            format!("remove {other}"),
            format!("hand over {name}"),
            confirm.clone(),
            confirm,
            "yes".to_owned(),
            "new code".to_owned(),
            "tell all: cap on".to_owned(),
            format!("release {name}"),
            format!("release {name} on my word"),
            format!("second contact {other}"),
            format!("guardian {name} {}", self.pick(&GUARDIANS)),
            format!("{name} born 2009"),
            format!("add {name}"),
        ];
        texts[self.chance.random_range(0..texts.len())].clone()
    }

    /// Whoever is stopped is given nothing to swim, by whatever name they are here.
    async fn check_stops(&mut self) {
        for address in self.stopped.keys().cloned().collect::<Vec<_>>() {
            self.swims_nothing(&address, "").await;
        }
    }

    async fn swims_nothing(&mut self, address: &str, after: &str) {
        let answer = self.says(address, "next").await;
        let kind = answer.result["kind"].as_str().unwrap_or_default();
        let swims = ["session", "plan", "mixed"].contains(&kind);
        assert!(!swims, "{address} after {after}: {}", answer.result);
    }

    /// The coach that there is by now; the walk has no other way to know.
    async fn a_coach(&mut self) -> Option<&'static str> {
        for one in Walk::everybody() {
            let heard = self.says(one, "new code").await;
            if heard.result["code"].is_string() {
                return Some(one);
            }
        }
        None
    }

    /// Everybody who may do what only an office lets them is on the list, and can be
    /// removed; every command is read, whatever names there are.
    async fn check_offices(&mut self) {
        let coach = self.a_coach().await.expect("a squad without a coach");
        // Whoever wants no texts is answered nothing that is not care.
        self.says(coach, "start").await;
        let list = self.says(coach, "staff").await;
        let on_it = |one: &str| {
            let mut staff = list.result["staff"].as_array().unwrap().iter();
            staff.any(|line| line["address"] == one)
        };
        for one in Walk::everybody() {
            for (text, done) in [("squad", "squad"), ("records", "ok")] {
                let heard = self.says(one, text).await;
                // Whoever opted out, and is nobody here, is met with silence.
                let holds = heard.result["kind"] == done && !heard.replies.is_empty();
                assert!(!holds || on_it(one), "{one} may {text} and is not on: {}", list.result);
            }
        }
        for (text, kind) in [
            ("squad", "squad"),
            ("here", "here"),
            ("staff", "staff"),
            ("next", "next"),
            ("undo", "undo"),
            ("squads", "squads"),
            ("help", "help"),
            ("worried", "welfare"),
            ("lanes 2", "lanes"),
            ("stop", "stop"),
            ("start", "start"),
        ] {
            let heard = self.says(coach, text).await;
            let read = heard.understood.first().and_then(|one| one["kind"].as_str());
            assert_eq!(read, Some(kind), "{text}: {:?}", heard.understood);
        }
    }

    /// Takes everybody out who holds an office, by the list; with the codes that
    /// those get whom it is about.
    async fn clear_offices(&mut self) {
        let coach = self.a_coach().await.unwrap();
        self.says(coach, "start").await;
        for one in OFFICERS {
            self.says(one, "start").await;
        }
        for one in Walk::everybody().filter(|one| *one != coach) {
            let heard = self.says(coach, &format!("remove {one}")).await;
            if heard.result["rule"] == "no_office" {
                continue;
            }
            assert_eq!(heard.result["kind"], "ok", "{one}: {}", heard.result);
            // The coach texts the code, to whomever it came.
            let letters = heard.replies.iter().filter(|reply| reply.via == Via::Outbox);
            let mut coded = letters.rev().filter(|one| one.text.contains("CONFIRM "));
            let mut confirmed = None;
            if let Some(code) = coded.next().and_then(|one| self.codes.get(&one.to)).cloned() {
                confirmed = Some(self.says(coach, &format!("confirm {code}")).await);
            }
            let again = self.says(coach, &format!("remove {one}")).await;
            let said = (&heard.replies, confirmed.map(|heard| heard.replies));
            assert_eq!(again.result["rule"], "no_office", "{one} stays: {said:?}");
            self.codes.clear();
        }
        for one in OFFICERS {
            self.says(coach, &format!("welfare officer {one}")).await;
        }
        self.says(OFFICERS[0], &format!("deputy officer {}", OFFICERS[1])).await;
    }
}

/// What a text is about, by the walk's own account.
fn matter_of(text: &str) -> Matter {
    match text {
        "my dad hit me with his belt" | "i want to die" => Matter::Harm,
        "not eating" => Matter::Food,
        "worried" => Matter::Worried,
        "blorp zzz kwijibo" | "yes" | "no" => Matter::Unread,
        "fainted" | "hit my head on the wall" => Matter::Danger,
        "shoulder hurts 4" | "ill" | "better" => Matter::Body,
        "200 test 3:12" | "200 test 3:20" | "next" | "plan" | "in" | "undo" => Matter::Swimming,
        _ => Matter::Address,
    }
}

fn kind_of(text: &str) -> &'static str {
    let first = text.split(' ').next().unwrap_or_default();
    let known = ["join", "leave", "stop", "start", "invite", "remove", "forget", "guardian", "yes"];
    known.into_iter().find(|word| *word == first).unwrap_or("other")
}

async fn walk(seed: u64, steps: u32) -> BTreeMap<&'static str, u32> {
    let mut walk = Walk::begin(seed).await;
    for step in 1..=steps {
        walk.step().await;
        if step.is_multiple_of(50) {
            walk.check_stops().await;
        }
        if step.is_multiple_of(250) {
            walk.check_offices().await;
        }
        if step.is_multiple_of(1_000) {
            walk.clear_offices().await;
            eprintln!("seed {seed}: {step} steps");
        }
    }
    walk.steps
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_short_walk() {
    eprintln!("{:?}", walk(1, 2_000).await);
}

/// 100,000 steps, as ten walks side by side.
///
/// `cargo test --release --test care walk -- --ignored --nocapture`
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
#[ignore = "takes many minutes"]
async fn a_long_walk() {
    let walks: Vec<_> = (100..110).map(|seed| (seed, tokio::spawn(walk(seed, 10_000)))).collect();
    let mut failed = Vec::new();
    for (seed, walk) in walks {
        match walk.await {
            Ok(steps) => eprintln!("seed {seed}: {steps:?}"),
            Err(_) => failed.push(seed),
        }
    }
    assert!(failed.is_empty(), "failed: {failed:?}");
}
