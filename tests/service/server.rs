//! A server of this test's own, on a free port and in a folder of its own.

use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use jiff::Timestamp;
use lapwing::clock::{ClockMode, WallClock};
use lapwing::http::{self, Door, Inlet, Limit, Limits, Reception};
use lapwing::journal::SledJournal;
use lapwing::service::Service;
use lapwing::signing::{Secret, sign};
use reqwest::header::CONTENT_TYPE;
use reqwest::{Client, RequestBuilder, Response};
use serde_json::Value;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};
use tokio::task::JoinHandle;
use tokio::time::timeout;
use tokio_util::sync::CancellationToken;

pub const TOKEN: &str = "wren-7";

/// Longer than anything takes, however busy the machine is: a test whose other end
/// never comes ends with it.
pub const PATIENCE: Duration = Duration::from_secs(60);

pub struct Server {
    pub address: SocketAddr,
    pub secret: Secret,
    /// The one that is on its way out; both hold.
    pub old_secret: Secret,
    pub client: Client,
    /// Stops taking messages.
    pub stopping: CancellationToken,
    /// Stops taking connections.
    pub closing: CancellationToken,
    pub serving: JoinHandle<()>,
    _folder: tempfile::TempDir,
}

impl Server {
    pub async fn start() -> Server {
        Server::start_with(Limits::default()).await
    }

    pub async fn start_with(limits: Limits) -> Server {
        Server::start_limited(limits, None).await
    }

    pub async fn start_limited(limits: Limits, limit: Option<Arc<Limit>>) -> Server {
        Server::start_beside(limits, limit, Router::new()).await
    }

    /// With paths of the test's own beside the usual ones.
    pub async fn start_beside(limits: Limits, limit: Option<Arc<Limit>>, own: Router) -> Server {
        let folder = tempfile::tempdir().unwrap();
        let journal = SledJournal::open(folder.path().join("journal")).unwrap();
        let service =
            Service::open(Arc::new(journal), Arc::new(WallClock), ClockMode::Wall).unwrap();
        let (secret, old_secret) = (Secret::generate().unwrap(), Secret::generate().unwrap());
        let (stopping, closing) = (CancellationToken::new(), CancellationToken::new());
        let door = Door {
            reception: Reception::new(service, limits, stopping.clone()),
            secrets: [secret.clone(), old_secret.clone()].into(),
            inlets: [Inlet::plain(TOKEN.parse().ok().unwrap())].into(),
            chats: [].into(),
            clock: Arc::new(WallClock),
            limit,
        };
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = listener.local_addr().unwrap();
        let router = http::router(door).merge(own);
        let serving = tokio::spawn(http::serve(listener, router, limits, closing.clone()));
        let client = lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap();
        Server { address, secret, old_secret, client, stopping, closing, serving, _folder: folder }
    }

    pub fn url(&self, path: &str) -> String {
        format!("http://{}{path}", self.address)
    }

    pub fn plain_url(&self, query: &str) -> String {
        self.url(&format!("/v1/plain/{TOKEN}{query}"))
    }

    /// A message signed as it should be; tests spoil it from there.
    pub fn message(&self, id: &str, body: impl Into<Vec<u8>>) -> RequestBuilder {
        self.message_at(id, body, Timestamp::now())
    }

    pub fn message_at(&self, id: &str, body: impl Into<Vec<u8>>, at: Timestamp) -> RequestBuilder {
        let body = body.into();
        self.client
            .post(self.url("/v1/messages"))
            .header(CONTENT_TYPE, "application/json")
            .header("webhook-id", id)
            .header("webhook-timestamp", at.as_second())
            .header("webhook-signature", sign(&self.secret, id.as_bytes(), at, &body))
            .body(body)
    }

    /// A signed message, byte for byte as it goes over the wire.
    pub fn raw_message(&self, id: &str, body: &str) -> String {
        let now = Timestamp::now();
        format!(
            "POST /v1/messages HTTP/1.1\r\nhost: {}\r\ncontent-type: application/json\r\n\
             webhook-id: {id}\r\nwebhook-timestamp: {}\r\nwebhook-signature: {}\r\n\
             content-length: {}\r\n\r\n{body}",
            self.address,
            now.as_second(),
            sign(&self.secret, id.as_bytes(), now, body.as_bytes()),
            body.len()
        )
    }

    pub async fn connect(&self) -> TcpStream {
        TcpStream::connect(self.address).await.unwrap()
    }
}

pub fn body_of(id: &str, text: &str) -> String {
    serde_json::json!({ "id": id, "from": "+15550101", "text": text }).to_string()
}

/// That this is an answer to a message; gives it.
pub async fn answer(request: RequestBuilder) -> Value {
    let response = request.send().await.unwrap();
    assert_eq!(response.status(), 200);
    assert_eq!(response.headers()[CONTENT_TYPE], "application/json");
    response.json().await.unwrap()
}

/// That this is a problem as RFC 9457 writes it; gives its detail.
pub async fn problem(response: Response, status: u16) -> String {
    assert_eq!(response.status(), status);
    assert_eq!(response.headers()[CONTENT_TYPE], "application/problem+json");
    let body: Value = response.json().await.unwrap();
    assert_eq!(body["status"], status);
    assert!(body["title"].as_str().is_some_and(|title| !title.is_empty()), "{body}");
    body["detail"].as_str().unwrap().to_owned()
}

/// Sends bytes and reads what comes back, until it is an answer.
pub async fn exchange(stream: &mut TcpStream, bytes: &[u8]) -> String {
    answers(stream, bytes, 1).await
}

/// The same, until it is so many answers or the other side closes.
pub async fn answers(stream: &mut TcpStream, bytes: &[u8], count: usize) -> String {
    stream.write_all(bytes).await.unwrap();
    let mut heard = String::new();
    let reading = async {
        let mut chunk = [0; 4096];
        while whole_answers(&heard) < count {
            let Ok(length @ 1..) = stream.read(&mut chunk).await else { break };
            heard.push_str(std::str::from_utf8(&chunk[..length]).unwrap());
        }
    };
    assert!(timeout(PATIENCE, reading).await.is_ok(), "no answer: {heard}");
    heard
}

/// How many answers there are, each as long as it says (RFC 9112, 6.3).
fn whole_answers(mut heard: &str) -> usize {
    let mut count = 0;
    while let Some((head, rest)) = heard.split_once("\r\n\r\n") {
        let head = head.to_ascii_lowercase();
        let length = head.lines().find_map(|line| line.strip_prefix("content-length:")).unwrap();
        let Some(behind) = rest.get(length.trim().parse().unwrap()..) else { break };
        (heard, count) = (behind, count + 1);
    }
    count
}

/// Sends a message's head and waits until its body is read, which is told to whoever
/// asks first (RFC 9110, 10.1.1): it is under way then, whatever follows. Gives the
/// body.
pub async fn begin<'m>(stream: &mut TcpStream, message: &'m str) -> &'m [u8] {
    const GO_ON: &[u8] = b"HTTP/1.1 100 Continue\r\n\r\n";
    let (head, body) = message.split_once("\r\n\r\n").unwrap();
    let head = format!("{head}\r\nexpect: 100-continue\r\n\r\n");
    stream.write_all(head.as_bytes()).await.unwrap();
    let mut heard = [0; GO_ON.len()];
    timeout(PATIENCE, stream.read_exact(&mut heard)).await.unwrap().unwrap();
    assert_eq!(heard, GO_ON);
    body.as_bytes()
}

/// That the other side sends nothing for so long.
pub async fn is_silent(stream: &mut TcpStream, moment: Duration) -> bool {
    timeout(moment, stream.read(&mut [0; 1])).await.is_err()
}

/// That the other side closes.
pub async fn closes(stream: &mut TcpStream) -> bool {
    let mut chunk = [0; 4096];
    timeout(PATIENCE, async { while let Ok(1..) = stream.read(&mut chunk).await {} }).await.is_ok()
}
