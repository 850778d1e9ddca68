//! Where a server listens, and why it can't.

use std::io::{self, ErrorKind};
use std::net::SocketAddr;

use tokio::net::TcpListener;

/// Listens there; `flag` names what would name another place.
///
/// # Errors
/// In words, with the cure.
pub async fn bind(address: &str, flag: &str) -> Result<TcpListener, String> {
    TcpListener::bind(address).await.map_err(|failed| refusal(address, flag, &failed))
}

/// Whether a server could listen there if nobody else did.
///
/// # Errors
/// As [`bind`].
pub async fn try_out(address: &str, flag: &str) -> Result<(), String> {
    let told = |failed: io::Error| refusal(address, flag, &failed);
    let places: Vec<SocketAddr> = tokio::net::lookup_host(address).await.map_err(told)?.collect();
    let mut refused = None;
    for place in places {
        match TcpListener::bind((place.ip(), 0)).await {
            Ok(_) => return Ok(()),
            Err(failed) => refused = Some(failed),
        }
    }
    Err(told(refused.unwrap_or_else(|| ErrorKind::InvalidInput.into())))
}

/// True if it listens on all addresses of this machine.
pub fn is_everywhere(listener: &TcpListener) -> bool {
    listener.local_addr().is_ok_and(|place| place.ip().is_unspecified())
}

fn refusal(address: &str, flag: &str, failed: &io::Error) -> String {
    match failed.kind() {
        ErrorKind::AddrInUse => format!(
            "another program listens on {address}, perhaps another `lapwing serve`: stop that one, \
             or name another place with {flag} ADDR:PORT"
        ),
        ErrorKind::PermissionDenied => format!(
            "only the administrator may listen on {address}: name a port of 1024 or more with {flag}"
        ),
        ErrorKind::AddrNotAvailable => format!(
            "{address} is no address of this machine: name 127.0.0.1 for this machine alone, or \
             0.0.0.0 for whoever reaches it, with {flag}"
        ),
        _ => format!(
            "can't listen on {address}: {failed}; it is to be ADDR:PORT, as in 127.0.0.1:7373, and \
             {flag} names it"
        ),
    }
}
