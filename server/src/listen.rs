//! The accept loop: slow clients are let go, and a stop lets running requests finish.

use std::time::Duration;

use axum::Router;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use hyper_util::service::TowerToHyperService;
use tokio::net::TcpListener;

/// How long a stop waits for running requests.
const PATIENCE: Duration = Duration::from_secs(25);

/// Serves until `stopped` is done. HTTP/1 only: its header timer also ends silent connections.
pub async fn serve(
    listener: TcpListener,
    router: Router,
    stopped: impl Future<Output = ()>,
) -> anyhow::Result<()> {
    let mut http = hyper::server::conn::http1::Builder::new();
    http.timer(TokioTimer::new())
        .header_read_timeout(Duration::from_secs(10))
        .max_headers(100);
    let running = GracefulShutdown::new();
    let mut stopped = std::pin::pin!(stopped);
    loop {
        let stream = tokio::select! {
            accepted = listener.accept() => match accepted {
                Ok((stream, _)) => stream,
                Err(error) => {
                    tracing::warn!(%error, "a connection could not be accepted");
                    tokio::time::sleep(Duration::from_millis(50)).await;
                    continue;
                }
            },
            () = &mut stopped => break,
        };
        let service = TowerToHyperService::new(router.clone());
        let connection = http.serve_connection(TokioIo::new(stream), service);
        let connection = running.watch(connection);
        tokio::spawn(async move {
            if let Err(error) = connection.await {
                tracing::debug!(%error, "a connection ended early");
            }
        });
    }
    drop(listener);
    tokio::select! {
        () = running.shutdown() => {}
        () = tokio::time::sleep(PATIENCE) => tracing::warn!("some requests did not finish in time"),
    }
    Ok(())
}
