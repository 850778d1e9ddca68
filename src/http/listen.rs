//! Connections: taken while we run, let finish when we stop.

use std::convert::Infallible;
use std::pin::{Pin, pin};
use std::sync::Arc;
use std::task::{Context, Poll};
use std::time::{Duration, Instant};

use axum::Router;
use axum::http::{Request, StatusCode};
use axum::response::{IntoResponse, Response};
use axum::serve::Listener;
use hyper::body::{Body, Bytes, Frame, Incoming, SizeHint};
use hyper::server::conn::http1;
use hyper::service::{Service, service_fn};
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use tokio::time::{interval, sleep, timeout};
use tokio_util::sync::CancellationToken;
use tokio_util::task::TaskTracker;

use super::connections::{Connections, Peer, Seat, Seated, Watched};
use super::{Limits, Problem};

/// The most bytes of a request's head, and of a connection's read buffer. A
/// text of 10 kB in percent-encoded UTF-16 fits in a query.
const HEAD_BUFFER: usize = 128 * 1024;

/// How often it is looked for requests that don't end, …
const LOOK: Duration = Duration::from_millis(100);
/// … and how many of them are cut then, those first that began first: a thousand that began
/// in one moment and ended in one would keep a core for 25 ms (ours: 640 a second).
const CUT_AT_ONCE: usize = 64;

/// So many connections are taken at once, …
const AT_ONCE: u32 = 8;
/// … and the next after this: where a thousand begin in one moment, those who wait for an
/// answer have their turn in between. One takes 50 µs, nearly all of it the system's (ours:
/// five thousand a second, a quarter of a core).
const BETWEEN: Duration = Duration::from_millis(1);

/// How long whoever finds no place has for their request.
const NO_PLACE: Duration = Duration::from_secs(2);
/// How many of those are listened to at all.
const NO_PLACES: usize = 64;

/// A request's body, with which the request is whole: from then on it is being answered,
/// however long that takes. Whoever answers must read it to its end.
struct Listened {
    body: Incoming,
    seat: Arc<Seat>,
}

impl Body for Listened {
    type Data = Bytes;
    type Error = hyper::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, hyper::Error>>> {
        let polled = Pin::new(&mut self.body).poll_frame(context);
        if matches!(polled, Poll::Ready(None)) || self.body.is_end_stream() {
            self.seat.is_heard();
        }
        polled
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}

/// Serves HTTP/1.1 on the listener until `stopping`; then takes no connection
/// more, lets requests under way end within [`Limits::drain`] and cuts the
/// rest.
///
/// Where all places are taken by requests that are being answered, whoever connects
/// is told to come again, but for questions of health.
///
/// axum's own `serve` sets no time for a request's head and waits without end
/// for connections to close.
pub async fn serve<L: Listener>(
    mut listener: L,
    router: Router,
    limits: Limits,
    stopping: CancellationToken,
) where
    L::Addr: Peer,
{
    let tracker = TaskTracker::new();
    let cut = CancellationToken::new();
    let connections = Connections::new(limits.places);
    let turned_away = Connections::new(super::Places { all: NO_PLACES, from_one: NO_PLACES });
    let mut look = interval(LOOK);
    let (mut taken, mut since) = (0, Instant::now());
    loop {
        if taken == AT_ONCE {
            if since.elapsed() < BETWEEN {
                sleep(BETWEEN).await;
            }
            (taken, since) = (0, Instant::now());
        }
        let (io, from) = tokio::select! {
            biased;
            () = stopping.cancelled() => break,
            accepted = listener.accept() => accepted,
            _ = look.tick() => {
                connections.cut_half_said(limits.half, CUT_AT_ONCE);
                turned_away.cut_half_said(NO_PLACE, CUT_AT_ONCE);
                continue;
            }
        };
        taken += 1;
        let from = from.machine();
        let (seated, full) = match connections.admit(from) {
            Some(seated) => (seated, false),
            None => match turned_away.admit(None) {
                Some(seated) => (seated, true),
                None => continue,
            },
        };
        let serving = connection(io, seated, full, router.clone(), limits, stopping.clone());
        tracker.spawn(cut.clone().run_until_cancelled_owned(serving));
    }
    drop(listener);
    tracker.close();
    if timeout(limits.drain, tracker.wait()).await.is_err() {
        tracing::warn!(left = tracker.len(), "connections cut: they took too long to end");
        cut.cancel();
        tracker.wait().await;
    }
}

async fn connection<Io>(
    io: Io,
    seated: Seated,
    full: bool,
    router: Router,
    limits: Limits,
    stopping: CancellationToken,
) where
    Io: tokio::io::AsyncRead + tokio::io::AsyncWrite + Unpin + Send + 'static,
{
    let seat = Arc::clone(&seated.seat);
    let answering = Arc::clone(&seated.seat);
    let router = TowerToHyperService::new(router);
    let service = service_fn(move |request: Request<Incoming>| {
        answer(request, router.clone(), Arc::clone(&answering), full)
    });
    let serving = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(if full { NO_PLACE } else { limits.head })
        .keep_alive(!full)
        .max_buf_size(HEAD_BUFFER)
        // A client may send, close its half and wait for the answer.
        .half_close(true)
        .serve_connection(TokioIo::new(Watched::new(io, Arc::clone(&seat))), service);
    let mut serving = pin!(serving);
    let ended = tokio::select! {
        ended = serving.as_mut() => ended,
        () = seat.give_way.cancelled() => return,
        () = stopping.cancelled() => {
            serving.as_mut().graceful_shutdown();
            serving.await
        }
    };
    if let Err(broken) = ended {
        tracing::debug!(%broken, "a connection broke off");
    }
}

async fn answer(
    request: Request<Incoming>,
    router: TowerToHyperService<Router>,
    seat: Arc<Seat>,
    full: bool,
) -> Result<Response, Infallible> {
    // One without a body is whole with its head.
    if request.body().is_end_stream() {
        seat.is_heard();
    }
    let looks_after = matches!(request.uri().path(), "/health" | "/ready");
    let answered = if full && !looks_after {
        let full = Problem::new(StatusCode::SERVICE_UNAVAILABLE, "too many are connected");
        full.retried_after(NO_PLACE).hanging_up().into_response()
    } else {
        let heard = |body| Listened { body, seat: Arc::clone(&seat) };
        match router.call(request.map(heard)).await {
            Ok(answered) => answered,
            Err(never) => match never {},
        }
    };
    seat.is_answered();
    Ok(answered)
}
