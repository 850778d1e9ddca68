//! A server on a damaged journal says so, stores nothing, answers what it can, and
//! is mended by one command.

use std::fs;
use std::path::{Path, PathBuf};

use jiff::Timestamp;
use lapwing::signing::{Secret, sign};
use reqwest::{Client, StatusCode};
use serde_json::{Value, json};

use super::program::{Running, done, lapwing, printed, refused};

const SECRET: &str = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";
const COACH: &str = "+15550100";

struct Club {
    folder: tempfile::TempDir,
    client: Client,
    secret: Secret,
}

impl Club {
    /// Three swimmers with a test each, the server killed.
    async fn killed() -> Club {
        let folder = tempfile::tempdir().unwrap();
        let add = ["squad", "add", "Dusk", "--coach", COACH, "--timezone", "UTC", "--ready"];
        let said = printed(lapwing(folder.path(), &add));
        let code = said.lines().find_map(|line| line.strip_prefix("join ")).unwrap().to_owned();
        let client = lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap();
        let club = Club { folder, client, secret: SECRET.parse().ok().unwrap() };
        let mut server = club.serve();
        // Or there were one entry more of a Sunday evening.
        club.say(&server, "d0", COACH, "digest off").await;
        for (number, name) in ["heron", "teal", "wren"].iter().enumerate() {
            club.say(&server, &format!("j{number}"), name, &format!("join {code} {name}")).await;
            club.say(&server, &format!("t{number}"), name, &format!("200 test 3:1{number}")).await;
        }
        server.child.kill().unwrap();
        server.child.wait().unwrap();
        club
    }

    fn serve(&self) -> Running {
        let mut command = lapwing(self.folder.path(), &["serve", "--listen", "127.0.0.1:0"]);
        command.env("LAPWING_SECRET", SECRET);
        Running::start(command)
    }

    fn journal(&self) -> PathBuf {
        self.folder.path().join("lapwing-data/journal")
    }

    fn log(&self) -> PathBuf {
        self.journal().join("log/00000000000000000001.log")
    }

    async fn say(&self, server: &Running, id: &str, from: &str, text: &str) -> (StatusCode, Value) {
        let body = json!({ "id": id, "from": from, "text": text }).to_string();
        let now = Timestamp::now();
        let response = self
            .client
            .post(format!("{}/v1/messages", server.url))
            .header("content-type", "application/json")
            .header("webhook-id", id)
            .header("webhook-timestamp", now.as_second())
            .header("webhook-signature", sign(&self.secret, id.as_bytes(), now, body.as_bytes()))
            .body(body)
            .send()
            .await
            .unwrap();
        (response.status(), response.json().await.unwrap())
    }

    async fn look(&self, server: &Running, path: &str) -> (StatusCode, String) {
        let response = self.client.get(format!("{}{path}", server.url)).send().await.unwrap();
        (response.status(), response.text().await.unwrap())
    }
}

/// Changes a byte in the last entry of a log.
fn harm(log: &Path) {
    let mut bytes = fs::read(log).unwrap();
    let last = bytes.iter().rposition(|byte| *byte != 0).unwrap();
    bytes[last - 40] ^= 4;
    fs::write(log, bytes).unwrap();
}

#[tokio::test(flavor = "multi_thread")]
async fn damage_is_said_and_mended() {
    let club = Club::killed().await;
    let whole = fs::read(club.log()).unwrap();
    harm(&club.log());
    let server = club.serve();
    assert!(server.said.contains("READ ONLY"), "{}", server.said);
    assert_eq!(club.look(&server, "/health").await.0, StatusCode::OK);
    let (status, said) = club.look(&server, "/ready").await;
    assert!(status == StatusCode::SERVICE_UNAVAILABLE && said.contains("acknowledged"), "{said}");
    // Nothing is stored, and nobody is told it was.
    let (status, said) = club.say(&server, "n1", "heron", "200 test 3:05").await;
    assert!(status == StatusCode::SERVICE_UNAVAILABLE, "{said}");
    assert!(said["detail"].as_str().unwrap().contains("repaired"), "{said}");
    // What was answered is known, what only asks is answered, and danger always is.
    let (_, again) = club.say(&server, "t0", "heron", "200 test 3:10").await;
    assert_eq!(again["duplicate"], true);
    let (status, asked) = club.say(&server, "n2", "heron", "targets").await;
    assert_eq!((status, &asked["result"]["kind"]), (StatusCode::OK, &json!("targets")), "{asked}");
    let (status, danger) = club.say(&server, "n3", "teal", "chest pain in the water").await;
    assert_eq!((status, &danger["result"]["kind"]), (StatusCode::OK, &json!("caution")));
    // No letter goes out, so nobody is said to be told.
    let said = danger["replies"][0]["text"].as_str().unwrap();
    assert!(said.contains("not reached your coach"), "{said}");
    assert!(refused(lapwing(club.folder.path(), &["repair"])).contains("process"));
    let checked = done(lapwing(club.folder.path(), &["check"]));
    assert!(!checked.status.success());
    drop(server);

    // Mended without help, wren's test is gone, and it is said.
    let said = printed(lapwing(club.folder.path(), &["repair"]));
    assert!(said.starts_with("7 entries") && said.contains("gone: 1 entries, 8 to 8"), "{said}");
    assert!(printed(lapwing(club.folder.path(), &["check"])).ends_with("sound\n"));
    let server = club.serve();
    let (status, _) = club.say(&server, "n4", "heron", "200 test 3:06").await;
    assert_eq!(status, StatusCode::OK);
    let (_, card) = club.say(&server, "n5", COACH, "wren").await;
    assert_eq!(card["result"]["bests"], json!([]), "{card}");
    drop(server);

    // A file with what was lost, found later, mends that too.
    let found = club.folder.path().join("found");
    fs::write(&found, whole).unwrap();
    let said = printed(lapwing(club.folder.path(), &["repair", "--from", "found"]));
    assert!(said.contains("10 entries") && said.contains("1 of them from"), "{said}");
}

/// Two servers never have one folder; an old copy of the journal put back is told.
#[tokio::test(flavor = "multi_thread")]
async fn an_old_copy_put_back_is_refused() {
    let club = Club::killed().await;
    let old = fs::read(club.log()).unwrap();
    let server = club.serve();
    let mut second = lapwing(club.folder.path(), &["serve", "--listen", "127.0.0.1:0"]);
    second.env("LAPWING_SECRET", SECRET);
    assert!(refused(second).contains("process"));
    for number in 0..3 {
        let (status, _) = club.say(&server, &format!("x{number}"), "teal", "done 1200").await;
        assert_eq!(status, StatusCode::OK);
    }
    drop(server);
    fs::write(club.log(), old).unwrap();
    let server = club.serve();
    assert!(server.said.contains("old copy"), "{}", server.said);
    let (status, _) = club.say(&server, "y", "teal", "done 1300").await;
    assert_eq!(status, StatusCode::SERVICE_UNAVAILABLE);
}
