//! Replays a script through a program of its own.

use std::fmt::Write as _;
use std::io::{BufRead, BufReader, Read, Write as _};
use std::net::TcpListener;
use std::path::Path;

use jiff::Timestamp;
use lapwing::signing::{Secret, sign};
use serde_json::{Value, json};

use crate::program::{Running, lapwing, printed};
use crate::script::Line;

const SECRET: &str = "whsec_bGFwd2luZy10ZXN0cy1vbmx5LW5vdC1hLXNlY3JldA==";
const COACH: &str = "+15550100";

pub struct Replay {
    folder: tempfile::TempDir,
    /// Where letters are brought: everybody is reached.
    outbox: String,
    running: Running,
    secret: Secret,
    /// What stands for a code in scripts, and the code; the latest last.
    codes: Vec<(&'static str, String)>,
    client: reqwest::Client,
    runtime: tokio::runtime::Runtime,
    sent: usize,
    /// Every reply text so far, but for those to a text in a room.
    pub said: Vec<String>,
    /// Those to a text in a room.
    pub said_in_chat: Vec<String>,
}

impl Replay {
    /// A fresh squad, screened, in UTC and a 25 m pool.
    pub fn begin() -> Replay {
        let folder = tempfile::tempdir().unwrap();
        let code = |name: &str, coach: &str, young: Option<&str>| {
            let add = ["squad", "add", name, "--coach", coach, "--ready"];
            let add: Vec<&str> = add.into_iter().chain(young).collect();
            let printed = printed(lapwing(folder.path(), &add));
            printed.lines().find_map(|line| line.strip_prefix("join ")).unwrap().to_owned()
        };
        let codes = vec![
            ("$CODE", code("Dusk", COACH, None)),
            ("$DAWN", code("Dawn", "+1555dawn", None)),
            ("$YOUNG", code("Young", "+1555young", Some("--minors"))),
        ];
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
        let outbox = taker();
        Replay {
            running: serve(folder.path(), &outbox),
            outbox,
            client: lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap(),
            secret: SECRET.parse().ok().unwrap(),
            folder,
            codes,
            runtime,
            sent: 0,
            said: Vec::new(),
            said_in_chat: Vec::new(),
        }
    }

    /// Sends every line, in order; gives all that was said.
    pub fn run(&mut self, lines: &[Line]) -> String {
        let mut dialogue = String::new();
        for line in lines {
            let answer = self.send(&line.who, line.room.as_deref(), &line.at, &line.text);
            let when = &line.at[..16].replace('T', " ");
            let room = line.room.as_deref().map(|room| format!(" in {room}")).unwrap_or_default();
            writeln!(dialogue, "{when} {}{room}: {}", line.who, short(&line.text)).unwrap();
            for understood in answer["understood"].as_array().unwrap() {
                let read = self.without_codes(&understood.to_string());
                writeln!(dialogue, "  read {read}").unwrap();
            }
            writeln!(dialogue, "  => {}", kinds(&answer["result"])).unwrap();
            let replies = answer["replies"].as_array().unwrap();
            // The same words to many are written down once.
            for alike in replies.chunk_by(|one, next| one["text"] == next["text"]) {
                let reply = &alike[0];
                let text = reply["text"].as_str().unwrap();
                match line.room.is_some() && reply["via"] == "answer" {
                    true => self.said_in_chat.push(text.to_owned()),
                    false => self.said.push(text.to_owned()),
                }
                if let Some((_, code)) = text.split_once("CONFIRM ")
                    && code.len() > 6
                    && code[..6].chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit())
                {
                    self.codes.push(("$CONFIRM", code[..6].to_owned()));
                }
                if let Some((_, code)) = text.split_once("joined by ") {
                    self.codes.push(("$RENEWED", code.chars().take(8).collect()));
                }
                if let Some((_, claim)) = text.split_once("CLAIM ") {
                    self.codes.push(("$CLAIM", claim.chars().take(8).collect()));
                }
                let text = self.without_codes(text);
                if reply["via"] != "answer" {
                    let to = reply["to"].as_str().or(reply["room"].as_str()).unwrap();
                    match alike.len() - 1 {
                        0 => writeln!(dialogue, "  to {to}:").unwrap(),
                        more => writeln!(dialogue, "  to {to} and {more} more:").unwrap(),
                    }
                }
                for said in text.lines() {
                    writeln!(dialogue, "  | {said}").unwrap();
                }
            }
            dialogue.push('\n');
        }
        dialogue
    }

    fn with_codes(&self, text: &str) -> String {
        let latest_first = self.codes.iter().rev();
        latest_first.fold(text.to_owned(), |text, (word, code)| text.replace(word, code))
    }

    fn without_codes(&self, text: &str) -> String {
        self.codes.iter().fold(text.to_owned(), |text, (word, code)| text.replace(code, word))
    }

    /// The `result` of one more text.
    pub fn result(&mut self, who: &str, at: &str, text: &str) -> Value {
        self.send(who, None, at, text)["result"].clone()
    }

    /// As a power failure of the program would: no goodbye, then a new start.
    pub fn kill_and_restart(&mut self) {
        self.running.child.kill().unwrap();
        self.running.child.wait().unwrap();
        self.running = serve(self.folder.path(), &self.outbox);
    }

    fn send(&mut self, who: &str, room: Option<&str>, at: &str, text: &str) -> Value {
        self.sent += 1;
        let id = format!("m{}", self.sent);
        let body = json!({
            "id": id,
            "from": address(who),
            "room": room,
            "text": self.with_codes(text),
            "sent_at": at,
        })
        .to_string();
        let now = Timestamp::now();
        let request = self
            .client
            .post(format!("{}/v1/messages", self.running.url))
            .header("content-type", "application/json")
            .header("webhook-id", &id)
            .header("webhook-timestamp", now.as_second())
            .header("webhook-signature", sign(&self.secret, id.as_bytes(), now, body.as_bytes()))
            .body(body);
        self.runtime.block_on(async {
            let response = request.send().await.unwrap();
            assert_eq!(response.status(), 200, "{text}");
            response.json().await.unwrap()
        })
    }
}

/// Takes every letter, without a look at it; gives its address.
fn taker() -> String {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let address = listener.local_addr().unwrap();
    std::thread::spawn(move || {
        for stream in listener.incoming().flatten() {
            std::thread::spawn(move || {
                let mut reader = BufReader::new(&stream);
                let (mut line, mut length) = (String::new(), 0);
                while reader.read_line(&mut line).is_ok_and(|read| read > 0) {
                    if let Some(field) = line.to_lowercase().strip_prefix("content-length:") {
                        length = field.trim().parse().unwrap();
                    }
                    if line.trim().is_empty() {
                        reader.read_exact(&mut vec![0; length]).unwrap();
                        (&stream).write_all(b"HTTP/1.1 204 No Content\r\n\r\n").unwrap();
                    }
                    line.clear();
                }
            });
        }
    });
    format!("http://{address}/")
}

fn serve(folder: &Path, outbox: &str) -> Running {
    let mut command = lapwing(folder, &["serve", "--listen", "127.0.0.1:0", "--clock", "message"]);
    command.env("LAPWING_SECRET", SECRET);
    std::fs::write(folder.join("l.toml"), "outbox.allow_private = true\n").unwrap();
    command.env("LAPWING_CONFIG", folder.join("l.toml")).env("LAPWING_OUTBOX_URL", outbox);
    Running::start(command)
}

/// The invented squad's addresses.
fn address(who: &str) -> String {
    match who {
        "coach" => COACH.to_owned(),
        "heron" => "+15550101".to_owned(),
        "teal" => "+15550102".to_owned(),
        "wren" => "+15550103".to_owned(),
        "kestrel" => "+15550111".to_owned(),
        other => format!("+1555{other}"),
    }
}

/// `mixed [test, caution]`
fn kinds(result: &Value) -> String {
    let kind = result["kind"].as_str().unwrap();
    match result["results"].as_array() {
        Some(all) => format!("{kind} [{}]", all.iter().map(kinds).collect::<Vec<_>>().join(", ")),
        None => kind.to_owned(),
    }
}

fn short(text: &str) -> String {
    let line = text.replace('\n', "\\n");
    if line.chars().count() <= 100 {
        line
    } else {
        format!(
            "{}... ({} characters)",
            line.chars().take(60).collect::<String>(),
            line.chars().count()
        )
    }
}
