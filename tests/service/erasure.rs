//! `forget me`: what a swimmer wished forgotten is in no byte of the data
//! folder, whatever happens meanwhile, and everybody else's is as it was.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use jiff::Timestamp;
use lapwing::signing::{Secret, sign};
use reqwest::Client;
use serde_json::{Value, json};

use super::program::{Running, lapwing, printed};
use super::server::PATIENCE;

const SECRET: &str = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";
const COACH: &str = "+15550100";
const HERON: &str = "+15550777";
const TEAL: &str = "+15550102";
const GUARDIAN: &str = "+15550120";

/// What is theirs: their handle, their address, their words, and the coach's on them.
const HERS: [&str; 7] =
    ["heronette", HERON, "zugspitze", "Zugspitze", "pirouette", "+15559911", "añoranza"];

struct Club {
    folder: tempfile::TempDir,
    server: Option<Running>,
    client: Client,
    secret: Secret,
    code: String,
}

impl Club {
    async fn open() -> Club {
        Club::with(&[]).await
    }

    /// Opened with these arguments beside the usual ones.
    async fn with(more: &[&str]) -> Club {
        let folder = tempfile::tempdir().unwrap();
        let usual = ["squad", "add", "Dusk", "--coach", COACH, "--timezone", "UTC", "--ready"];
        let said = printed(lapwing(folder.path(), &[&usual, more].concat()));
        let code = said.lines().find_map(|line| line.strip_prefix("join ")).unwrap().to_owned();
        let client = lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap();
        let mut club =
            Club { folder, server: None, client, secret: SECRET.parse().ok().unwrap(), code };
        club.start();
        club
    }

    fn start(&mut self) {
        let mut command = lapwing(self.folder.path(), &["serve", "--listen", "127.0.0.1:0"]);
        command.env("LAPWING_SECRET", SECRET);
        self.server = Some(Running::start(command));
    }

    fn kill(&mut self) {
        let mut server = self.server.take().unwrap();
        server.child.kill().unwrap();
        server.child.wait().unwrap();
    }

    fn request(&self, id: &str, from: &str, text: &str) -> reqwest::RequestBuilder {
        let body = json!({ "id": id, "from": from, "text": text }).to_string();
        let now = Timestamp::now();
        let url = &self.server.as_ref().unwrap().url;
        self.client
            .post(format!("{url}/v1/messages"))
            .header("content-type", "application/json")
            .header("webhook-id", id)
            .header("webhook-timestamp", now.as_second())
            .header("webhook-signature", sign(&self.secret, id.as_bytes(), now, body.as_bytes()))
            .body(body)
    }

    async fn say(&self, id: &str, from: &str, text: &str) -> Value {
        let response = self.request(id, from, text).send().await.unwrap();
        assert_eq!(response.status(), 200, "{text}");
        response.json().await.unwrap()
    }

    /// A season in little: theirs, teal's, and what the coach said of both.
    async fn fill(&self) {
        let join = |name: &str| format!("join {} {name}", self.code);
        let talk = [
            (HERON, "is zugspitze open today?".to_owned()),
            (HERON, join("heronette")),
            (TEAL, join("teal")),
            (HERON, "200 test 3:12".to_owned()),
            (HERON, "shoulder hurts 4 since the Zugspitze walk".to_owned()),
            (HERON, "contact +15559911".to_owned()),
            (HERON, "qué añoranza de nadar".to_owned()),
            (TEAL, "200 test 3:44".to_owned()),
            (COACH, "note heronette: mind the pirouette".to_owned()),
            (COACH, "note teal: swims behind heronette".to_owned()),
            (COACH, "teal 400 test 7:50; heronette 400 test 6:50".to_owned()),
            (COACH, "squad".to_owned()),
            (COACH, "heronette 100 test 1:40".to_owned()),
            (COACH, "that was teal".to_owned()),
            (HERON, "next".to_owned()),
        ];
        for (number, (from, text)) in talk.iter().enumerate() {
            self.say(&format!("gw-{number}"), from, text).await;
        }
    }

    /// True if an address wants no texts: its STOP was confirmed once, and a second
    /// is met with silence.
    async fn is_silent(&self, id: &str, address: &str) -> bool {
        self.say(id, address, "stop").await["replies"] == json!([])
    }

    async fn forget(&self, id: &str, address: &str) {
        self.say(&format!("{id}-1"), address, "forget me").await;
        let done = self.say(&format!("{id}-2"), address, "yes").await;
        let said = done["replies"].to_string();
        assert!(done["result"]["kind"] == "ok", "{done}");
        assert!(said.contains("Erased") || said == "[]", "{said}");
    }

    fn data(&self) -> PathBuf {
        self.folder.path().join("lapwing-data")
    }

    /// Teal's times, by distance.
    async fn teals(&self, id: &str) -> Vec<(u64, f64)> {
        let card = self.say(id, COACH, "teal").await;
        let best = card["result"]["bests"].as_array().unwrap_or_else(|| panic!("{card}")).clone();
        best.iter()
            .map(|one| (one["distance"].as_u64().unwrap(), one["time_s"].as_f64().unwrap()))
            .collect()
    }

    fn assert_sound(&self) {
        let checked = printed(lapwing(self.folder.path(), &["check"]));
        assert!(checked.ends_with("sound\n"), "{checked}");
    }
}

/// Which of the words are in which file.
fn found(folder: &Path, words: &[&str]) -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(self::found(&path, words));
        } else if path.is_file() {
            let bytes = fs::read(&path).unwrap();
            let holds = |word: &&&str| bytes.windows(word.len()).any(|at| at == word.as_bytes());
            found.extend(words.iter().filter(holds).map(|word| (path.clone(), word.to_string())));
        }
    }
    found
}

/// What is left of these words once erasing had time to end: on a busy machine it goes on
/// behind the answer.
async fn left_in(folder: &Path, words: &[&str]) -> Vec<(PathBuf, String)> {
    let until = Instant::now() + PATIENCE;
    loop {
        let left = found(folder, words);
        if left.is_empty() || Instant::now() > until {
            return left;
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn no_byte_of_the_data_folder_holds_what_was_hers() {
    let mut club = Club::open().await;
    club.fill().await;
    let before = found(&club.data(), &HERS);
    for word in HERS {
        assert!(before.iter().any(|(_, found)| found == word), "{word} was never stored");
    }
    let teals = club.teals("a").await;
    assert_eq!(teals.len(), 3);

    assert_eq!(club.say("f-1", HERON, "forget me").await["result"]["kind"], "question");
    let done = club.say("f-2", HERON, "yes").await;
    assert_eq!(done["result"]["kind"], "ok");
    let said = done["replies"][0]["text"].as_str().unwrap();
    assert!(said.starts_with("Erased") && said.contains("Accident"), "{said}");
    assert_eq!(left_in(&club.data(), &HERS).await, []);

    // What others have is as it was, and what repeats is known.
    assert_eq!(club.teals("b").await, teals);
    let again = club.say("f-2", HERON, "yes").await;
    assert_eq!(again["duplicate"], true);
    assert_eq!((&again["replies"], &again["result"]), (&done["replies"], &done["result"]));
    let late = club.say("gw-1", HERON, &format!("join {} heronette", club.code)).await;
    assert_eq!((&late["duplicate"], &late["replies"]), (&json!(true), &json!([])));
    let teal = club.say("gw-7", TEAL, "200 test 3:44").await;
    assert_eq!((&teal["duplicate"], &teal["result"]["kind"]), (&json!(true), &json!("test")));
    assert_eq!(club.say("c", HERON, "next").await["result"]["kind"], "refused");
    let undone = club.say("d", TEAL, "undo").await;
    assert_eq!(undone["result"]["kind"], "ok", "{undone}");

    // `next` came from their address, after all was gone: a stranger's.
    let words = &HERS.map(|word| if word == HERON { "heronette" } else { word });
    let copy = club.folder.path().join("backup");
    fs::create_dir(&copy).unwrap();
    printed(lapwing(club.folder.path(), &["backup", "backup/after"]));
    assert_eq!(found(&copy, words), []);
    club.assert_sound();
    club.kill();
    club.start();
    assert_eq!(left_in(&club.data(), words).await, []);
    assert_eq!(club.teals("e").await.len(), 2);
    club.assert_sound();
}

/// A child's wish doesn't lift what a guardian asked for, as a stranger before they
/// were named or as a guardian after it.
#[tokio::test(flavor = "multi_thread")]
async fn a_guardians_stop_outlives_the_child() {
    for stops_first in [true, false] {
        let mut club = Club::with(&["--minors", "--welfare", "+15550109"]).await;
        club.say("a", HERON, &format!("join {} heronette", club.code)).await;
        club.say("b", HERON, "born 2010").await;
        let named = format!("guardian {GUARDIAN}");
        let named = named.as_str();
        let told = match stops_first {
            true => [(GUARDIAN, "stop"), (HERON, named)],
            false => [(HERON, named), (GUARDIAN, "stop")],
        };
        for (number, (from, text)) in told.iter().enumerate() {
            let heard = club.say(&format!("c-{number}"), from, text).await;
            assert_ne!(heard["replies"], json!([]), "{text}: {heard}");
        }
        club.forget("d", HERON).await;
        assert_eq!(left_in(&club.data(), &["heronette", HERON, GUARDIAN]).await, []);
        assert!(club.is_silent("e", GUARDIAN).await, "lifted; stopped first: {stops_first}");
        club.kill();
        club.start();
        assert!(club.is_silent("f", GUARDIAN).await, "lifted by a restart");
        club.assert_sound();
    }
}

/// Whoever asks for texts again has them, though that word is forgotten too.
#[tokio::test(flavor = "multi_thread")]
async fn a_stop_that_was_taken_back_stays_so_when_she_is_forgotten_again() {
    let mut club = Club::open().await;
    club.say("a", HERON, &format!("join {} heronette", club.code)).await;
    club.say("b", HERON, "stop").await;
    club.forget("c", HERON).await;
    assert!(club.is_silent("d", HERON).await);
    club.say("e", HERON, &format!("join {} heronette", club.code)).await;
    club.forget("f", HERON).await;
    club.kill();
    club.start();
    assert!(!club.is_silent("g", HERON).await, "silenced by her earlier STOP");
}

/// Killed at many points between their word and the answer: after the next start
/// they are there whole, or gone whole.
#[tokio::test(flavor = "multi_thread")]
async fn a_kill_in_the_middle_leaves_no_half() {
    let (mut there, mut gone) = (0, 0);
    const POINTS: u32 = 12;
    for point in 1..=POINTS {
        let mut club = Club::open().await;
        club.fill().await;
        club.say("f-1", HERON, "forget me").await;
        let mut yes = tokio::spawn(club.request("f-2", HERON, "yes").send());
        // The last time the answer is waited for, however long it takes on a busy machine.
        let wait = if point < POINTS { Duration::from_millis(3) * (point - 1) } else { PATIENCE };
        let early = tokio::time::timeout(wait, &mut yes).await;
        club.kill();
        let heard = if let Ok(heard) = early { heard } else { yes.await };
        let answered = heard.unwrap().is_ok_and(|response| response.status() == 200);
        club.start();
        let left = found(&club.data(), &HERS);
        // Asked for without their name, which would be in the log again.
        if club.say("a", COACH, "squad").await["result"].to_string().contains("heronette") {
            assert!(!answered, "answered, and there again");
            assert!(HERS.iter().all(|word| left.iter().any(|(_, found)| found == word)));
            there += 1;
        } else {
            assert_eq!(left_in(&club.data(), &HERS).await, [], "at point {point}");
            gone += 1;
        }
        assert_eq!(club.teals("b").await.len(), 3);
        club.assert_sound();
    }
    println!("{POINTS} kills: {there} before, {gone} after");
    assert!(gone > 0);
}
