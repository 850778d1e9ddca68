//! The other end: an HTTP server that checks every signature and answers as it
//! is told to.

use std::collections::{BTreeMap, BTreeSet};
use std::convert::Infallible;
use std::net::SocketAddr;
use std::pin::Pin;
use std::sync::{Arc, Mutex, MutexGuard};
use std::task::{Context, Poll};
use std::time::Duration;

use axum::Router;
use axum::body::{Body, Bytes, HttpBody};
use axum::extract::State;
use axum::http::{HeaderMap, Method, StatusCode};
use axum::response::{IntoResponse, Response};
use axum::routing::any;
use hyper::body::Frame;
use lapwing::clock::Clock;
use lapwing::signing::{Envelope, Secret, verify};
use serde_json::Value;
use tokio::net::{TcpListener, TcpSocket};
use tokio::task::JoinHandle;

/// How a request is answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Taken, with this status.
    Take(u16),
    /// Taken, and acknowledged a little later.
    TakeLate,
    /// Taken, but the connection breaks before the answer.
    TakeAndBreak,
    /// Taken; the answer's body has no end.
    TakeEndless,
    /// Taken; the answer's body never comes.
    TakeSlow,
    /// Refused, with this status.
    Refuse(u16),
    /// Refused, to come back after these seconds.
    RefuseFor(u16, u32),
    /// Sent elsewhere.
    Redirect,
    /// The connection breaks.
    Break,
    /// No answer for as long as anybody waits.
    Silence,
}

/// One letter as it came.
#[derive(Debug, Clone, PartialEq)]
pub struct Got {
    pub id: String,
    /// The place of the message that caused it: letters are written in its order.
    pub place: u64,
    pub to: String,
    pub body: Bytes,
}

/// What the peer saw.
#[derive(Default)]
pub struct Seen {
    /// Letters taken, repeats too, in their order.
    pub taken: Vec<Got>,
    /// All requests, by id.
    pub tries: BTreeMap<String, u32>,
    /// Requests that came to where a redirect leads.
    pub strayed: u32,
}

impl Seen {
    pub fn ids(&self) -> BTreeSet<&str> {
        self.taken.iter().map(|got| got.id.as_str()).collect()
    }

    /// The first of each id, for each recipient in the order of coming.
    pub fn firsts(&self) -> BTreeMap<&str, Vec<u64>> {
        let mut known = BTreeSet::new();
        let mut firsts: BTreeMap<&str, Vec<u64>> = BTreeMap::new();
        for got in &self.taken {
            if known.insert(&got.id) {
                firsts.entry(&got.to).or_default().push(got.place);
            }
        }
        firsts
    }
}

type Choose = dyn Fn(&Got, u32) -> Way + Send + Sync;

pub struct Peer {
    pub address: SocketAddr,
    inside: Arc<Inside>,
    serving: JoinHandle<()>,
}

struct Inside {
    secret: Secret,
    clock: Arc<dyn Clock>,
    choose: Box<Choose>,
    seen: Mutex<Seen>,
}

impl Peer {
    /// A peer that chooses its way by the letter and the number of times it
    /// came before.
    pub async fn start(
        secret: &Secret,
        clock: Arc<dyn Clock>,
        choose: impl Fn(&Got, u32) -> Way + Send + Sync + 'static,
    ) -> Peer {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        Peer::start_on(listener, secret, clock, choose)
    }

    pub fn start_on(
        listener: TcpListener,
        secret: &Secret,
        clock: Arc<dyn Clock>,
        choose: impl Fn(&Got, u32) -> Way + Send + Sync + 'static,
    ) -> Peer {
        let inside = Arc::new(Inside {
            secret: secret.clone(),
            clock,
            choose: Box::new(choose),
            seen: Mutex::default(),
        });
        let router = Router::new()
            .route("/in", any(receive))
            .route("/elsewhere", any(stray))
            .with_state(Arc::clone(&inside));
        let address = listener.local_addr().unwrap();
        let serving = tokio::spawn(async move { axum::serve(listener, router).await.unwrap() });
        Peer { address, inside, serving }
    }

    pub fn url(&self) -> String {
        format!("http://{}/in", self.address)
    }

    /// Listens no more; the address is kept from others.
    pub async fn stop(mut self) -> Reserved {
        self.serving.abort();
        let _ = (&mut self.serving).await;
        Reserved::at(self.address)
    }

    pub fn seen(&self) -> MutexGuard<'_, Seen> {
        self.inside.seen.lock().unwrap()
    }
}

impl Drop for Peer {
    fn drop(&mut self) {
        self.serving.abort();
    }
}

async fn stray(State(inside): State<Arc<Inside>>) {
    inside.seen.lock().unwrap().strayed += 1;
}

async fn receive(
    State(inside): State<Arc<Inside>>,
    method: Method,
    headers: HeaderMap,
    body: Bytes,
) -> Response {
    if method == Method::HEAD {
        // A knock is answered as a letter would be that never came before.
        let knock = Got { id: String::new(), place: 0, to: String::new(), body };
        let way = (inside.choose)(&knock, 0);
        return answered(way).await;
    }
    let header = |name: &str| headers[name].to_str().unwrap().to_owned();
    let id = header("webhook-id");
    let envelope = Envelope {
        id: id.as_bytes(),
        timestamp: &header("webhook-timestamp"),
        signatures: &header("webhook-signature"),
        body: &body,
    };
    verify(std::slice::from_ref(&inside.secret), &envelope, inside.clock.now()).unwrap();
    let payload: Value = serde_json::from_slice(&body).unwrap();
    assert_eq!(payload["type"], "reply.send");
    let place = id.split('-').nth(1).unwrap().parse().unwrap();
    let to = payload["data"]["to"].as_str().unwrap().to_owned();
    let got = Got { id, place, to, body };
    let way = {
        let mut seen = inside.seen.lock().unwrap();
        let tries = seen.tries.entry(got.id.clone()).or_default();
        let way = (inside.choose)(&got, *tries);
        *tries += 1;
        if !matches!(
            way,
            Way::Refuse(_) | Way::RefuseFor(..) | Way::Redirect | Way::Break | Way::Silence
        ) {
            seen.taken.push(got);
        }
        way
    };
    answered(way).await
}

async fn answered(way: Way) -> Response {
    let status = |code| StatusCode::from_u16(code).unwrap();
    match way {
        Way::Take(code) | Way::Refuse(code) => status(code).into_response(),
        Way::TakeLate => {
            tokio::time::sleep(Duration::from_millis(30)).await;
            StatusCode::NO_CONTENT.into_response()
        }
        Way::RefuseFor(code, seconds) => {
            (status(code), [("retry-after", seconds.to_string())]).into_response()
        }
        Way::Redirect => {
            (StatusCode::TEMPORARY_REDIRECT, [("location", "/elsewhere")]).into_response()
        }
        Way::TakeEndless => Body::new(Odd::Endless).into_response(),
        Way::TakeSlow => Body::new(Odd::Never).into_response(),
        Way::Silence => {
            tokio::time::sleep(Duration::from_secs(3600)).await;
            StatusCode::OK.into_response()
        }
        // Takes the connection's task along, without a word.
        Way::TakeAndBreak | Way::Break => std::panic::resume_unwind(Box::new("broken")),
    }
}

/// A body without an end, as fast as it is read, or one that never begins.
enum Odd {
    Endless,
    Never,
}

impl HttpBody for Odd {
    type Data = Bytes;
    type Error = Infallible;

    fn poll_frame(
        self: Pin<&mut Self>,
        _: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, Infallible>>> {
        match *self {
            Odd::Endless => Poll::Ready(Some(Ok(Frame::data(Bytes::from_static(&[b'x'; 1024]))))),
            Odd::Never => Poll::Pending,
        }
    }
}

/// An address that is ours although nobody listens there yet: connections are
/// refused, and nobody else is given its port.
pub struct Reserved(TcpSocket);

impl Reserved {
    pub fn new() -> Reserved {
        Reserved::at(([127, 0, 0, 1], 0).into())
    }

    /// Takes an address again whose listener has just gone.
    pub fn at(address: SocketAddr) -> Reserved {
        let socket = TcpSocket::new_v4().unwrap();
        socket.set_reuseaddr(true).unwrap();
        socket.bind(address).unwrap();
        Reserved(socket)
    }

    pub fn address(&self) -> SocketAddr {
        self.0.local_addr().unwrap()
    }

    pub fn listen(self) -> TcpListener {
        self.0.listen(1_024).unwrap()
    }
}
