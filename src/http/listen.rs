//! Connections: taken while we run, let finish when we stop.

use std::pin::pin;

use axum::Router;
use axum::serve::Listener;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use tokio::time::timeout;
use tokio_util::sync::CancellationToken;
use tokio_util::task::TaskTracker;

use super::Limits;

/// The most bytes of a request's head, and of a connection's read buffer. A
/// text of 10 kB in percent-encoded UTF-16 fits in a query.
const HEAD_BUFFER: usize = 128 * 1024;

/// Serves HTTP/1.1 on the listener until `stopping`; then takes no connection
/// more, lets requests under way end within [`Limits::drain`] and cuts the
/// rest.
///
/// axum's own `serve` sets no time for a request's head and waits without end
/// for connections to close.
pub async fn serve<L: Listener>(
    mut listener: L,
    router: Router,
    limits: Limits,
    stopping: CancellationToken,
) {
    let connections = TaskTracker::new();
    let cut = CancellationToken::new();
    loop {
        let io = tokio::select! {
            biased;
            () = stopping.cancelled() => break,
            (io, _) = listener.accept() => io,
        };
        let serving = connection(io, router.clone(), limits, stopping.clone());
        connections.spawn(cut.clone().run_until_cancelled_owned(serving));
    }
    drop(listener);
    connections.close();
    if timeout(limits.drain, connections.wait()).await.is_err() {
        tracing::warn!(left = connections.len(), "connections cut: they took too long to end");
        cut.cancel();
        connections.wait().await;
    }
}

async fn connection<Io>(io: Io, router: Router, limits: Limits, stopping: CancellationToken)
where
    Io: tokio::io::AsyncRead + tokio::io::AsyncWrite + Unpin + Send + 'static,
{
    let serving = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(limits.head)
        .max_buf_size(HEAD_BUFFER)
        // A client may send, close its half and wait for the answer.
        .half_close(true)
        .serve_connection(TokioIo::new(io), TowerToHyperService::new(router));
    let mut serving = pin!(serving);
    let ended = tokio::select! {
        ended = serving.as_mut() => ended,
        () = stopping.cancelled() => {
            serving.as_mut().graceful_shutdown();
            serving.await
        }
    };
    if let Err(broken) = ended {
        tracing::debug!(%broken, "a connection broke off");
    }
}
