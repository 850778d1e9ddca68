//! Two squads behind a socket of this test's own, under a clock that the test
//! moves.

use std::path::Path;
use std::sync::{Arc, Mutex};

use jiff::{Span, Timestamp};
use lapwing::clock::{Clock, ClockMode};
use lapwing::http::{self, Door, Limits, Reception};
use lapwing::journal::SledJournal;
use lapwing::service::{Body, Incoming, NewSafeguards, NewSquad, Opening, Service};
use reqwest::{Client, Response, StatusCode};
use tokio::net::TcpListener;
use tokio_util::sync::CancellationToken;

/// A clock that stands until it is moved.
pub struct Moved(Mutex<Timestamp>);

impl Clock for Moved {
    fn now(&self) -> Timestamp {
        *self.0.lock().unwrap()
    }
}

pub struct Club {
    pub service: Arc<Service>,
    clock: Arc<Moved>,
    client: Client,
    base: String,
    folder: Arc<tempfile::TempDir>,
}

/// The parts of the squad's page, in their order.
pub const PARTS: [&str; 10] =
    ["hurting", "poolside", "todo", "register", "set", "paced", "tests", "weeks", "focus", "take"];

/// What a page was answered with.
pub struct Shown {
    pub status: StatusCode,
    pub headers: reqwest::header::HeaderMap,
    pub html: String,
    pub style: String,
    pub script: String,
}

impl Shown {
    /// A part of the page as it is read: its words alone.
    pub fn part(&self, name: &str) -> String {
        let find = |name: &str| self.html.find(&format!("id=\"{name}\""));
        let at = PARTS.iter().position(|one| *one == name).unwrap();
        let to = PARTS.get(at + 1).and_then(|next| find(next)).unwrap_or(self.html.len());
        words(&self.html[find(name).unwrap()..to])
    }
}

/// What is read of HTML.
pub fn words(html: &str) -> String {
    let text = html.split('<').map(|piece| piece.split_once('>').map_or(piece, |(_, text)| text));
    text.collect::<Vec<_>>().join("")
}

/// Anything that was answered.
pub struct Fetched {
    pub status: StatusCode,
    pub headers: reqwest::header::HeaderMap,
    pub text: String,
}

/// Everybody has a telephone number.
pub fn address(who: &str) -> String {
    const ALL: [&str; 17] = [
        "coach", "other", "helper", "officer", "parent", "heron", "teal", "wren", "siskin",
        "martin", "plover", "curlew", "dipper", "dunnock", "knot", "ruff", "snipe",
    ];
    let at = ALL.iter().position(|one| *one == who).unwrap_or(ALL.len());
    format!("+155502{at:02}")
}

impl Club {
    pub async fn open(mode: ClockMode) -> Club {
        let folder = tempfile::tempdir().unwrap();
        let start = "2026-03-03T19:00:00Z".parse().unwrap();
        Club::reopen(Arc::new(folder), mode, start).await
    }

    async fn reopen(folder: Arc<tempfile::TempDir>, mode: ClockMode, now: Timestamp) -> Club {
        let journal = SledJournal::open(folder.path().join("journal")).unwrap();
        let clock = Arc::new(Moved(Mutex::new(now)));
        let service = Service::open(Arc::new(journal), clock.clone(), mode).unwrap();
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let base = format!("http://{}", listener.local_addr().unwrap());
        service.show_boards_at(&base);
        let limits = Limits::default();
        let door = Door {
            reception: Reception::new(service.clone(), limits, CancellationToken::new()),
            secrets: [].into(),
            inlets: [].into(),
            chats: [].into(),
            clock: clock.clone(),
            limit: None,
        };
        let closing = CancellationToken::new();
        drop(tokio::spawn(http::serve(listener, http::router(door), limits, closing)));
        let client = lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap();
        Club { service, clock, client, base, folder }
    }

    /// The same folder under a new process's eyes.
    pub async fn restarted(self, mode: ClockMode) -> Club {
        let now = self.clock.now();
        self.service.close().await;
        Club::reopen(self.folder.clone(), mode, now).await
    }

    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    pub fn pass(&self, time: Span) {
        let mut now = self.clock.0.lock().unwrap();
        *now = now.checked_add(time).unwrap();
    }

    /// Opens a squad; gives its code.
    pub async fn squad(&self, name: &str, coach: &str, minors: bool) -> String {
        self.squad_of(name, coach, minors, "UTC").await
    }

    /// Opens one of adults elsewhere.
    pub async fn squad_in(&self, name: &str, coach: &str, zone: &str) -> String {
        self.squad_of(name, coach, false, zone).await
    }

    async fn squad_of(&self, name: &str, coach: &str, minors: bool, zone: &str) -> String {
        let squad = NewSquad {
            name: name.to_owned(),
            coach: address(coach),
            timezone: zone.to_owned(),
            course: "25m".parse().unwrap(),
            expires_days: None,
            minors,
            ready: true,
        };
        let safeguards = NewSafeguards {
            welfare: minors.then(|| address("officer")),
            ..NewSafeguards::default()
        };
        self.service.add_squad(Opening { squad, safeguards }).await.unwrap().code
    }

    /// Says something; gives the answer's words.
    pub async fn say(&self, who: &str, text: &str) -> String {
        self.say_at(who, text, None).await
    }

    pub async fn say_at(&self, who: &str, text: &str, sent_at: Option<Timestamp>) -> String {
        let incoming = Incoming {
            channel: "test".into(),
            id: None,
            from: address(who),
            room: None,
            sent_at,
            body: Body::Text(text.to_owned()),
        };
        let answer = self.service.receive(incoming).await.unwrap();
        let theirs = answer.replies.iter().filter(|reply| reply.to == address(who));
        theirs.map(|reply| reply.text.clone()).collect::<Vec<_>>().join("\n")
    }

    /// The address that `board` is answered with.
    pub async fn link(&self, who: &str) -> String {
        let said = self.say(who, "board").await;
        let url = said.split_whitespace().find(|word| word.starts_with("http"));
        url.unwrap_or_else(|| panic!("{who}: {said}")).to_owned()
    }

    pub async fn fetch(&self, url: &str) -> Fetched {
        let response: Response = self.client.get(url).send().await.unwrap();
        let (status, headers) = (response.status(), response.headers().clone());
        Fetched { status, headers, text: response.text().await.unwrap() }
    }

    /// Sends a form, as a button does.
    pub async fn post(&self, url: &str, form: &str) -> Fetched {
        let kind = "application/x-www-form-urlencoded";
        let sent = self.client.post(url).header("content-type", kind).body(form.to_owned());
        let response = sent.send().await.unwrap();
        let (status, headers) = (response.status(), response.headers().clone());
        Fetched { status, headers, text: response.text().await.unwrap() }
    }

    /// What answers piece by piece.
    pub async fn listen(&self, url: &str) -> Response {
        self.client.get(url).send().await.unwrap()
    }

    pub async fn open_page(&self, url: &str) -> Shown {
        let Fetched { status, headers, text } = self.fetch(url).await;
        // Style and script are ours, and their words are nobody's.
        let (head, rest) = text.split_once("<style>").unwrap();
        let (style, body) = rest.split_once("</style>").unwrap();
        let (body, script) = body.split_once("<script>").unwrap_or((body, "</script>"));
        let (script, end) = script.split_once("</script>").unwrap();
        let html = format!("{head}{body}{end}");
        Shown { status, headers, html, style: style.to_owned(), script: script.to_owned() }
    }

    pub fn url(&self, path: &str) -> String {
        format!("{}{path}", self.base)
    }
}
